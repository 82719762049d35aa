"""When a phrase carries nothing where it stands: one rule for each kind of phrase.

A rule looks at the words and marks next to the phrase only. In doubt it says no: a word that is
left alone costs the writer less than one that is wrongly pencilled.
"""

import re
from collections.abc import Callable

from saywright.language.english.filler_words import (
    ARTICLES,
    AUXILIARIES,
    BE,
    CONDITIONS,
    CORRECTIONS,
    GUESSING,
    HELPED,
    HESITATIONS,
    INTENSIFIERS,
    INTERJECTIONS,
    NEGATIONS,
    NUMBERS,
    OBJECTS,
    OPEN_ENDED,
    OPENERS,
    PLAIN_VERBS,
    PREPOSITIONS,
    PRONOUNS,
    QUESTION_WORDS,
    SENSES,
    SPEAKING,
    SPECIES,
    SUBJECTS,
    TELLING,
    UNITS,
    UNTIL,
)
from saywright.language.english.spot import Spot

Rule = Callable[[Spot], bool]

_FIRST_WORD = re.compile(r"\W*(\w+)")
_LAST_WORD = re.compile(r"\W*[\w'-]+(?P<end>\W*)\Z")
_CLAUSE = re.compile(r"[^,;:.?!()–—]*\Z")
_HELD_AGAINST = re.compile(r"\b(?:but|except|though|although)\b")
_REACH = 64  # code points


def _starts(spot: Spot) -> bool:
    """It begins what is said: at the start, or after a mark, a joining word or a hesitation."""
    return spot.opens or spot.parted_before or spot.before in OPENERS | HESITATIONS


def _stops(spot: Spot) -> bool:
    """A mark parts it from the next word, or it is the last, or the speaker hesitates."""
    return spot.ends or spot.parted_after or spot.after in HESITATIONS


def _set_off(spot: Spot) -> bool:
    return _starts(spot) and _stops(spot) and not (spot.opens and spot.ends)


def _in_commas(spot: Spot) -> bool:
    return (spot.opens or spot.parted_before) and _stops(spot) and not (spot.opens and spot.ends)


def hesitation(spot: Spot) -> bool:
    answers = spot.after in {"huh", "oh"} and not spot.parted_after
    hyphened = spot.gap_before.endswith("-") or spot.gap_after.startswith("-")
    if answers or _is_meant(spot):
        return False
    return not hyphened or spot.gap_before.endswith(" -")


def _is_meant(spot: Spot) -> bool:
    """As in: Er, what? The ferry sails on time, er, yearly. Or somebody's initials."""
    if spot.ends:
        return not spot.before and bool(spot.gap_before.strip())
    if len(spot.text) - spot.end > _REACH:
        return False
    last = _LAST_WORD.match(spot.text, spot.end)
    if last is None:
        return False
    complete = spot.before and spot.before not in OPEN_ENDED | INTENSIFIERS
    return "?" in last["end"] or bool(complete and spot.parted_before and spot.parted_after)


def you_know(spot: Spot) -> bool:
    if spot.ends and not (spot.opens or spot.gap_before.strip(" ")):
        return False
    if spot.ends and not spot.opens and _begins_with(spot, CONDITIONS | QUESTION_WORDS):
        return False
    if spot.opens and any(dash in spot.gap_after for dash in "–—-"):
        return False
    reported = spot.before in {"know", "rest"} or (spot.after, spot.after2) == ("and", "i")
    return _starts(spot) and _stops(spot) and not reported


def _begins_with(spot: Spot, words: frozenset[str]) -> bool:
    first = _FIRST_WORD.match(spot.text)
    return first is not None and first[1] in words


def i_mean(spot: Spot) -> bool:
    repairs = "–" in spot.gap_before or "—" in spot.gap_before or spot.before == "no"
    if repairs or not _starts(spot) or spot.ends:
        return False
    if spot.parted_after or spot.after in HESITATIONS:
        return True
    if spot.after in {"it", "you"}:
        return spot.after2 in AUXILIARIES
    return spot.after in SUBJECTS and spot.after != "that's" and bool(spot.after2)


def like(spot: Spot) -> bool:
    if spot.before in AUXILIARIES and _is_said(spot):
        return False
    if spot.parted_before:
        example = spot.after in PRONOUNS | OBJECTS and spot.after2.endswith("ing")
        named = (spot.after, spot.after2) in {("for", "example"), ("for", "instance")}
        return _stops(spot) and not (example or named)
    if spot.opens:
        return spot.gap_after.startswith(",") and spot.after in SUBJECTS
    return _like_in_a_run(spot)


def _is_said(spot: Spot) -> bool:
    """As in: he was like, no way."""
    gap = spot.gap_after
    return any(mark in gap for mark in '"“:') or spot.after in INTERJECTIONS | SUBJECTS


def _like_in_a_run(spot: Spot) -> bool:
    before, after = spot.before, spot.after
    if spot.parted_after:
        return before in OPENERS | HESITATIONS | UNTIL and "," in spot.gap_after
    if before in BE | NEGATIONS:
        return after in INTENSIFIERS or after[:1].isdigit()
    if before in {"to", "can", "can't", "could", "should", "will", "gotta", "gonna"}:
        return after in PLAIN_VERBS
    if before in {"have", "has", "had", "got"}:
        return after in {"a", "an", "no"}
    number = after[:1].isdigit() or after in NUMBERS
    return before in PREPOSITIONS - {"of"} and (number or spot.after2 in UNITS)


def just(spot: Spot) -> bool:
    """As in: I'm just so glad; not in: just so you know, just very briefly, not just very cold."""
    negated = spot.before in NEGATIONS or spot.before.endswith("n't")
    lately = spot.before in {"have", "has", "had", "having"} or spot.before.endswith(("'ve", "'d"))
    if negated or lately or not spot.before or spot.parted_before or spot.parted_after:
        return False
    if spot.after == "so":
        bare = spot.after2 in SUBJECTS | ARTICLES | {"that", "happens", "happened", "long", "far"}
        return spot.before in BE and bool(spot.after2) and not bare
    return spot.after in INTENSIFIERS and not spot.after2.endswith("ly")


def actually(spot: Spot) -> bool:
    """As in: I'm actually very glad; of others it mostly says that one thought otherwise."""
    if spot.parted_after or spot.parted_before:
        return False
    return spot.before in {"i'm", "am", "we're"} and spot.after in INTENSIFIERS


def basically(spot: Spot) -> bool:
    """Not where it gives the gist of what was said, or means: as good as."""
    if spot.after in TELLING or spot.after2 in TELLING or spot.after in NEGATIONS:
        return False
    if _in_commas(spot) or (spot.opens and spot.after in SUBJECTS):
        return True
    if spot.parted_after or spot.parted_before:
        return False
    if spot.before in PRONOUNS:
        return spot.after not in BE and bool(spot.after)
    return spot.before in BE and spot.after in {"just", "like"}


def literally(spot: Spot) -> bool:
    """Between a subject and its verb; elsewhere it may mean: to the letter."""
    if spot.parted_after or spot.parted_before or spot.after.startswith(("mean", "translate")):
        return False
    return spot.before in PRONOUNS and bool(spot.after) and spot.after not in AUXILIARIES


def totally(spot: Spot) -> bool:
    return literally(spot) and spot.before != "they"


def aside(spot: Spot) -> bool:
    """A set phrase that says how the rest is meant, parted from it by commas."""
    meant = spot.phrase.startswith("if ") and (spot.after.endswith("'ll") or spot.after2 == "will")
    return _set_off(spot) and not meant


def tag(spot: Spot) -> bool:
    """The same of a phrase that is one at a sentence's end only."""
    return spot.ends and (spot.opens or spot.parted_before)


def opening_aside(spot: Spot) -> bool:
    """The same of a word that has other uses at a sentence's end."""
    return _in_commas(spot) and spot.gap_after.startswith(",")


def you_see(spot: Spot) -> bool:
    return _in_commas(spot)


def end_of_the_day(spot: Spot) -> bool:
    general = spot.after in {"it's", "that's", "who", "nobody", "he's", "she's", "they're", "we're"}
    return _set_off(spot) and (general or (spot.parted_before and not spot.ends))


def well(spot: Spot) -> bool:
    if (
        spot.ends
        or spot.before in {"well", *SPEAKING}
        or spot.after in {"well", "then", *CORRECTIONS}
    ):
        return False
    if spot.gap_after.startswith(("-", "'")) or (spot.after, spot.after2) == ("at", "least"):
        return False
    follows_okay = spot.before in {"ok", "okay"} and not spot.before2
    if not spot.opens and not follows_okay:
        if _begins_with(spot, CONDITIONS):
            return False
        return spot.gap_before.startswith((",", "–", "—", " –", " —")) and spot.parted_after
    if spot.parted_after:
        return "?" not in spot.gap_after
    return spot.after in SUBJECTS and spot.after2 not in {"never", "said", "says", "answered"}


def so_yeah(spot: Spot) -> bool:
    return spot.opens or spot.parted_before


def right(spot: Spot) -> bool:
    return (
        spot.gap_before.startswith(",")
        and spot.gap_after.startswith(",")
        and spot.after in {"and", "but", "so", "because", "then"}
    )


def okay(spot: Spot) -> bool:
    """As in: Okay, so I went."""
    return spot.opens and spot.after in {"so", "well"} and "?" not in spot.gap_after


def anyway(spot: Spot) -> bool:
    if spot.ends:
        return False
    if spot.opens or spot.before in {"but", "so", "well", "oh"}:
        return spot.parted_after or (spot.phrase == "anyways" and spot.after in SUBJECTS)
    return False


def kind_of(spot: Spot) -> bool:
    """As in: I kind of knew, it was sort of warm; not in: a kind of bread, it was kind of her.

    Nor where the sentence goes on with what speaks against it, as in: he sort of waved, but.
    """
    if _HELD_AGAINST.search(spot.text, spot.end, spot.end + _REACH):
        return False
    if spot.ends or spot.parted_before or spot.before in SPECIES or spot.names_after:
        return False
    if spot.parted_after and not spot.gap_after.startswith(","):
        return False
    if spot.before in BE | SENSES:
        return not spot.parted_after and spot.after not in HELPED | {"like"} | INTERJECTIONS
    return spot.before in PRONOUNS | {"to", "just", "would", "can"} and spot.after not in HELPED


def or_something(spot: Spot) -> bool:
    """At a clause's end; not after a number, which it makes an estimate, nor in a question.

    Nor where it leaves open what something is or is called, or ends a list of what may be.
    """
    vague = spot.before in {"something", "nothing", "anything", "all", "yes", "say", "do"}
    closed = spot.ends or spot.gap_after.startswith((",", " –", " —", "–", "—"))
    about = spot.before in NUMBERS or spot.before[-1:].isdigit() or "?" in spot.gap_after
    return bool(spot.before) and not vague and not about and closed and not _guesses(spot)


def _guesses(spot: Spot) -> bool:
    if not spot.phrase.startswith("or"):
        return False
    end = spot.start - len(spot.gap_before)
    clause = _CLAUSE.search(spot.text[max(end - _REACH, 0) : end])
    assert clause  # it may be empty
    return spot.names_before or not (GUESSING | {"or"}).isdisjoint(clause[0].split())


def i_guess(spot: Spot) -> bool:
    """At the end; elsewhere it may be an estimate, as in: we were, I guess, ten."""
    return spot.parted_before and spot.ends
