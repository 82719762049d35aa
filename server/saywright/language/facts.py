"""What is known of a sentence's grammar: its tense, whom it is about, and its finite verbs."""

from typing import Literal, NamedTuple

Tense = Literal["present", "past", "future", "modal", "imperative", "fragment", "unsure"]
VerbTense = Literal["present", "past", "future", "modal", "imperative"]
Aspect = Literal["simple", "perfect", "progressive", "passive"]
Role = Literal["main", "joined", "under"]
Person = Literal["first", "second", "third"]


class Verb(NamedTuple):
    """A finite verb group. Offsets are half-open code points of the sentence's text.

    `start` to `end` is the one word that carries the tense, as a writer writes it: "walked",
    "was", "didn't", "can't"; of a contraction with its subject only its own part: "'s" of "she's",
    "'d" of "I'd". `head` is the group's last verb ("walk" in "didn't walk"; the same word where
    there is one only), `lemma` the dictionary form of the head. `aspect`: perfect wins over
    progressive over passive. `role`: the main clause's verb; one joined to it by and, or, but or
    a comma; one in a clause that hangs under another. `quoted`: it stands in somebody's quoted
    words. `subject` is the subject's head word, None where none is found.
    """

    start: int
    end: int
    tense: VerbTense
    lemma: str
    head: tuple[int, int]
    aspect: Aspect = "simple"
    role: Role = "main"
    quoted: bool = False
    subject: tuple[int, int] | None = None
    person: Person | None = None
    is_question: bool = False


class Facts(NamedTuple):
    """`tense` is that of what the speaker tells outside quotes, `person` that of its subject.

    `main` is the index in `verbs` of the verb that both are read from, None where there is none.
    `sure` is from 0 to 1: how much the tense can be relied on.
    """

    tense: Tense
    person: Person | None = None
    verbs: tuple[Verb, ...] = ()
    main: int | None = None
    is_question: bool = False
    sure: float = 1.0
