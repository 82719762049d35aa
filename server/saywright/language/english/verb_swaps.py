"""One finite verb put into another tense, or into another person; the words around it stay."""

import re

from saywright.finding import Edit
from saywright.language.english.agreement import Agrees
from saywright.language.english.verb_forms import Form, forms_of, readings_of
from saywright.language.facts import Verb

_TO_PAST = {
    "am": "was", "is": "was", "are": "were", "has": "had", "have": "had", "do": "did",
    "does": "did", "'m": " was", "'s": " was", "'re": " were", "'ve": " had",
}  # fmt: skip
_MODALS_TO_PAST = {"can": "could", "ca": "could", "will": "would", "wo": "would", "'ll": "'d"}
_MODALS_TO_PRESENT = {"could": "can", "would": "will"}
_NEGATED_MODALS = {"can": "can't", "will": "won't"}
_AUXILIARIES: dict[str, dict[Agrees, str]] = {
    "had": {"I": "have", "he": "has", "they": "have"},
    "did": {"I": "do", "he": "does", "they": "do"},
}
_NOT_NEXT = re.compile(r"\s+not\b")
# After "I've got": what one has. After other words "got" may be "become".
_GOT = re.compile(
    r"\s+got(?=\s+(?:an?|the|my|your|his|her|its|our|their|no|some|any|this|that|these|those|one"
    r"|two|three|four|five|ten|nothing|something|everything|enough|plenty|to(?!\s+(?:know|like))"
    r")\b)",
    re.IGNORECASE,
)
_LIES_TO = re.compile(r"\s+(?:to|about)\b", re.IGNORECASE)
_LIES_DOWN = re.compile(
    r"\s+(?:down|there|here|on|in|at|under|still|awake|back|across|between|behind)\b", re.IGNORECASE
)

Edits = tuple[Edit, ...]


class Word:
    """The word of a verb that bears its tense, taken apart: "isn't" is "is", and negated."""

    __slots__ = ("apostrophe", "negated", "stem", "written")

    def __init__(self, written: str) -> None:
        self.written = written
        self.apostrophe = "’" if "’" in written else "'"
        plain = written.lower().replace("’", "'")
        self.negated = plain.endswith("n't")
        self.stem = plain.removesuffix("n't")
        if plain in ("can't", "cannot"):
            self.negated, self.stem = True, "can"

    def spelled(self, plain: str) -> str:
        """`plain` with this word's apostrophe and capitals."""
        new = plain.replace("'", self.apostrophe)
        if self.written.isupper() and len(self.written) > 1:
            return new.upper()
        return new[:1].upper() + new[1:] if self.written[:1].isupper() else new


def to_past(text: str, verb: Verb) -> Edits | None:
    """The edits that put a verb in the present, or one of can and will, into the past; () where
    it reads the same, None where that is unsure."""
    word = Word(text[verb.start : verb.end])
    if word.stem == "ai":
        return None
    if verb.tense != "present":
        return _modal(verb, word, _MODALS_TO_PAST)
    if verb.lemma == "get" and verb.aspect == "perfect":
        return _had_got(text, verb, word)
    new = _TO_PAST.get(word.stem)
    if word.stem in ("'s", "'ve") and verb.aspect == "perfect":
        new = "'d"
    if new is None:
        return (
            _past_of_lie(text, verb, word) if verb.lemma == "lie" else _lexical(verb, word, "past")
        )
    if word.negated:
        return _replaced(verb, word, new + "n't")
    return _with_not(text, verb, word, new)


def to_present(text: str, verb: Verb, agrees: Agrees | None) -> Edits | None:
    """The edits that put a verb in the past, or one of could and would, into the present."""
    word = Word(text[verb.start : verb.end])
    if verb.tense != "past":
        return _modal(verb, word, _MODALS_TO_PRESENT)
    if word.stem in ("was", "were"):
        return _present_of_be(text, verb, word, agrees)
    if agrees is None:
        return None
    if word.stem == "'d" and verb.aspect == "perfect":
        return _replaced(verb, word, "'s" if agrees == "he" else "'ve")
    if word.stem in _AUXILIARIES:
        return _replaced(verb, word, _negated(_AUXILIARIES[word.stem][agrees], word))
    return _lexical(verb, word, "third" if agrees == "he" else "base")


def to_first(text: str, verb: Verb) -> Edits | None:
    """The edits that make a verb whose subject was "she" agree with "I"."""
    word = Word(text[verb.start : verb.end])
    if verb.tense != "present":
        return ()
    if word.stem == "'s":
        return _replaced(verb, word, "'ve" if verb.aspect == "perfect" else "'m")
    if word.stem == "is" and word.negated:
        return (Edit(_blank_before(text, verb), verb.end, f"{word.apostrophe}m not"),)
    new = {"is": "am", "has": "have", "does": "do"}.get(word.stem)
    return _replaced(verb, word, _negated(new, word)) if new else _lexical(verb, word, "base")


def _present_of_be(text: str, verb: Verb, word: Word, agrees: Agrees | None) -> Edits | None:
    """Of "was" and "were" the number stands in the word itself."""
    if agrees is None and verb.subject is None:
        return None
    if word.stem == "were":
        # "if I were", "as it were"
        return None if agrees in ("I", "he") else _replaced(verb, word, _negated("are", word))
    if agrees == "I" and word.negated:
        return (Edit(_blank_before(text, verb), verb.end, f"{word.apostrophe}m not"),)
    return _replaced(verb, word, _negated("am" if agrees == "I" else "is", word))


def _negated(plain: str, word: Word) -> str:
    return plain + "n't" if word.negated else plain


def _blank_before(text: str, verb: Verb) -> int:
    """Where the blank before the verb starts, if its subject stands right before that."""
    return verb.start - 1 if text[verb.start - 1 : verb.start] == " " else verb.start


def _with_not(text: str, verb: Verb, word: Word, new: str) -> Edits:
    """Said, "she's not" is "she wasn't" in the past, and not "she was not"."""
    following = _NOT_NEXT.match(text, verb.end)
    if new.startswith(" ") and following:
        return (Edit(verb.start, following.end(), f"{new}n{word.apostrophe}t"),)
    return _replaced(verb, word, new)


def _had_got(text: str, verb: Verb, word: Word) -> Edits | None:
    got = _GOT.match(text, verb.end)
    if not got:
        return None
    if word.negated:
        return (Edit(verb.start, got.end(), word.spelled("didn't have")),)
    new = " had" if word.stem.startswith("'") else word.spelled("had")
    return (Edit(verb.start, got.end(), new),)


def _modal(verb: Verb, word: Word, table: dict[str, str]) -> Edits | None:
    new = table.get(word.stem)
    if new is None:
        return ()
    if word.negated:
        new = _NEGATED_MODALS.get(new, new + "n't")
    return _replaced(verb, word, new)


def _lexical(verb: Verb, word: Word, form: Form) -> Edits | None:
    if verb.head != (verb.start, verb.end):
        return None
    wanted = ("past",) if verb.tense == "past" else ("base", "third")
    lemmas = [each.lemma for each in readings_of(word.stem) if each.form in wanted]
    if not lemmas:
        return None
    lemma = verb.lemma if verb.lemma in lemmas else lemmas[0]
    return _replaced(verb, word, getattr(forms_of(lemma), form))


def _past_of_lie(text: str, verb: Verb, word: Word) -> Edits | None:
    """Who lies to someone lied, who lies down lay; which, the next word tells, or nothing."""
    following = text[verb.end :]
    if _LIES_TO.match(following):
        return _replaced(verb, word, "lied")
    return _replaced(verb, word, "lay") if _LIES_DOWN.match(following) else None


def _replaced(verb: Verb, word: Word, plain: str) -> Edits:
    new = word.spelled(plain)
    return () if new == word.written else (Edit(verb.start, verb.end, new),)
