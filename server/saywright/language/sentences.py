"""Where the sentences of a paragraph begin and end.

The start is Unicode Standard Annex #29, "Sentence Boundaries" (its Sentence_Break property values
are read from the `regex` package). Its rules know no words, so they are corrected here for
abbreviations, initials, numbering, ellipses, reported speech and dialogue dashes, and tightened: a
stop needs white space after it except in scripts written without, and a line break is a space.

One compiled pattern finds every stop with all that is needed to judge it, in one pass that never
goes back over what it has read; then each stop is judged by itself.
"""

from typing import NamedTuple

import regex

from saywright.language.abbreviations import StopHabits, listed, stop_habits

# Spaces are those of str.isspace, which counts four control characters that White_Space leaves out.
_SPACE = r"[\s\x1c-\x1f]"
_MARK = r"[\p{Sentence_Break=STerm}\p{Sentence_Break=ATerm}…‥]"
_CLOSE = r"[\p{Sentence_Break=Close}\p{Sentence_Break=Extend}\p{Sentence_Break=Format}]"
_WORD = r"[\p{L}\p{N}]"

# A stop's tail: marks and signs that stand apart from it and hold no word (". . .", " )", " :-)"),
# but not what opens the next sentence: a dash, a bullet or an opening bracket. The lead ends at the
# next mark, so that no stretch is read for more than two stops; groups repeat a bounded number of
# times, since each repetition takes memory. What a longer tail leaves is found as the next stop.
_STOP = regex.compile(
    rf"""
    (?P<marks>{_MARK}++)
    (?P<closing>(?:{_CLOSE}++ | {_SPACE}++[»“](?!{_WORD})){{0,8}}+)
    (?P<tail>(?:
        {_SPACE}*+ {_MARK}++ (?!{_WORD}) {_CLOSE}*+
      | {_SPACE}++ (?![-\p{{Pd}}•·*+&\#_=~/\\<>|«„\p{{Sc}}]) (?!\p{{Ps}}(?:{_SPACE}|\Z))
        [^\p{{L}}\p{{N}}\s\x1c-\x1f]++ (?={_SPACE}|\Z)
    ){{0,16}}+)
    (?:
      (?P<gap>{_SPACE}++)
      (?=
        (?P<lead>[^\p{{L}}\p{{N}}\p{{Sentence_Break=STerm}}\p{{Sentence_Break=ATerm}}…‥,:;]*+
          (?:{_MARK}++(?={_WORD}))?+)
        (?P<word>{_WORD}[\p{{L}}\p{{M}}\p{{N}}'’]{{0,24}}+)?+
      )
    )?+
    """,
    regex.VERBOSE,
)

_TOKEN_BEFORE = regex.compile(
    rf"(?r)(?:(?<!{_WORD})\p{{L}}\.{_SPACE}?){{0,4}}[\p{{L}}\p{{M}}\p{{N}}.&/'’-]{{0,32}}"
)
_WORD_BEFORE = regex.compile(rf"(?r)(\p{{L}}[\p{{L}}\p{{M}}'’]{{0,24}}){_SPACE}{{1,4}}")
_LINE_START = regex.compile(r"(?r)[\n\r\x85\u2028\u2029][ \t]{0,16}")
_DOTTED = regex.compile(r"\p{L}(?:\.\p{L})+")
_ROMAN = regex.compile(r"[IVXLC]+")
_VOWEL = regex.compile(r"[aeiouyáéíóúàèìòùâêîôûäëïöüãõåæœøý]", regex.IGNORECASE)
_SPEAKER = regex.compile(
    rf"(\p{{Lu}}[\p{{L}}'’]*+)(?:{_SPACE}++\p{{Lu}}[\p{{L}}'’]*+)?+{_SPACE}++(\p{{L}}++)"
    rf"(?:{_SPACE}++(\p{{L}}++))?+"
)
_HAS_WORD = regex.compile(_WORD)
_FIRST_LETTER = regex.compile(r"(?P<lead>\P{L}*+)(?P<letter>\p{L})")
_ANY_MARK = regex.compile(_MARK)
_WORD_BEFORE_NEXT_MARK = regex.compile(
    rf"[^\p{{L}}\p{{N}}\p{{Sentence_Break=STerm}}\p{{Sentence_Break=ATerm}}…‥]*+{_WORD}"
)
_NOT_SPACE = regex.compile(r"[^\s\x1c-\x1f]")
_NUMBERED_MAX_DIGITS = 3
_ITEM_MAX_CHARACTERS = 500
_QUOTES = frozenset("\"'”’»“‘›‹«")
_UNSPACED_MARKS = frozenset("。！？｡．")


class _Stop(NamedTuple):
    """A stop and what stands around it, up to the first word of what follows."""

    text: str
    sentence_start: int
    marks_start: int
    marks: str
    closing: str
    tail: str
    lead: str
    word: str
    word_start: int

    @property
    def is_full_stop(self) -> bool:
        return self.marks == "." and not _has_mark(self.tail)

    @property
    def is_ellipsis(self) -> bool:
        marks = self.marks + self.tail
        return not self.is_full_stop and "." in marks.replace("…", ".") and not marks.strip(".…‥ ")


def sentence_spans(text: str, language: str = "en") -> tuple[tuple[int, int], ...]:
    """Half-open code-point spans of the sentences of `text`, in order.

    `text` is one paragraph with its marks off; a line break in it is a space. Each span begins and
    ends on a character that is not white space, and only white space stands outside. A stretch
    without letter or digit belongs to the sentence before it, at the start to the one after.
    `language` is a BCP 47 tag; one without word lists is read by the rules that need none.
    Never fails; linear time.
    """
    first = _NOT_SPACE.search(text)
    if first is None:
        return ()
    start, first_word = first.start(), _HAS_WORD.search(text)
    if first_word is None:
        return ((start, _end_of_last(text)),)
    habits, cased = stop_habits(language), _opens_with_capital(text)
    spans: list[tuple[int, int]] = []
    # A word follows each boundary, so beginning at the first word leaves no sentence without.
    for found in _STOP.finditer(text, first_word.start()):
        if _ends_here(found, start, habits, cased):
            spans.append((start, found.end("tail")))
            start = found.end()
    spans.append((start, _end_of_last(text)))
    return tuple(spans)


def _end_of_last(text: str) -> int:
    return len(text.rstrip())


def _opens_with_capital(text: str) -> bool:
    """Whether case tells anything here; to a writer who opens with a small letter it does not."""
    letter = _FIRST_LETTER.match(text)
    return letter is None or not letter["letter"].islower() or _has_mark(letter["lead"])


def _has_mark(text: str) -> bool:
    return bool(text) and _ANY_MARK.search(text) is not None


def _ends_here(found: regex.Match[str], start: int, habits: StopHabits, cased: bool) -> bool:
    gap, word, marks = found.group("gap", "word", "marks")
    if gap is None:
        return marks[-1] in _UNSPACED_MARKS and _word_follows(found)
    if word is None:
        return False
    closing, tail, lead = found.group("closing", "tail", "lead")
    stop = _Stop(
        found.string, start, found.start(), marks, closing, tail, lead, word, found.start("word")
    )
    if _is_small(stop):
        return _ends_before_small(stop, habits, cased)
    if stop.is_full_stop:
        return _full_stop_ends(stop, habits)
    if stop.is_ellipsis:
        return _ellipsis_ends(stop, habits)
    return not _is_reported(stop, habits)


def _word_follows(found: regex.Match[str]) -> bool:
    return _WORD_BEFORE_NEXT_MARK.match(found.string, found.end()) is not None


def _is_small(stop: _Stop) -> bool:
    """Whether the next word begins small. "iron" does, "eMail" and Dutch "'s Avonds" do not."""
    word = stop.word
    if not word[0].islower():
        return False
    if word[1:2].isupper():
        return False
    if len(word) == 1 and stop.lead[-1:] in ("'", "’"):
        following = stop.text[stop.word_start + 1 : stop.word_start + 3].lstrip()
        return not following[:1].isupper()
    return True


def _ends_before_small(stop: _Stop, habits: StopHabits, cased: bool) -> bool:
    """A small letter speaks against a boundary, save where a slip or a habit is likelier.

    A full stop after an ordinary word with nothing but space behind it ends its sentence all the
    same: in unedited prose a capital is missed more often than a full stop is typed in vain.
    """
    if stop.lead or stop.is_ellipsis or not _QUOTES.isdisjoint(stop.closing):
        return False
    if stop.is_full_stop:
        token = _token_before(stop)
        if token[:1].isdigit():
            return not habits.ordinal_stop and not _is_numbering(stop, token, habits)
        return habits.known and (not token or _is_ordinary(token, habits))
    return not cased


def _is_ordinary(token: str, habits: StopHabits) -> bool:
    """Whether `token` can only be a word: no abbreviation, initial or name of a site."""
    return (
        len(token) > 1
        and "." not in token
        and _VOWEL.search(token) is not None
        and not habits.is_abbreviation(token)
    )


def _token_before(stop: _Stop) -> str:
    """What the stop is written to, spaced abbreviations closed up: "J. M", "z. B", "etc"."""
    token = _TOKEN_BEFORE.match(stop.text, stop.sentence_start, stop.marks_start)
    return "".join(token[0].split()).lstrip("&/'’-") if token else ""


def _full_stop_ends(stop: _Stop, habits: StopHabits) -> bool:
    token = _token_before(stop)
    if not token or (stop.closing and not _QUOTES.isdisjoint(stop.closing)):
        return True
    verdict = _abbreviation_ends(stop, token, habits)
    if verdict is not None:
        return verdict
    if len(token) == 1 and token.isalpha():
        return not _is_letter_with_stop(stop) and _letter_ends(stop, token, habits)
    return not _is_numbering(stop, token, habits)


def _abbreviation_ends(stop: _Stop, token: str, habits: StopHabits) -> bool | None:
    """Whether an abbreviation ends a sentence here; None where `token` is none."""
    if listed(token, habits.never_last):
        return False
    if stop.word[0].isdigit() and listed(token, habits.before_figures):
        return False
    if listed(token, habits.often_last):
        return "(" not in stop.lead
    if listed(token, habits.sometimes_last) or _DOTTED.fullmatch(token):
        return habits.opens(stop.word)
    return None


def _is_letter_with_stop(stop: _Stop) -> bool:
    """Whether the next word is a letter with a stop of its own, as "M." after "J."."""
    return len(stop.word) == 1 and stop.text.startswith(".", stop.word_start + 1)


def _letter_ends(stop: _Stop, letter: str, habits: StopHabits) -> bool:
    """Whether a single letter ends a sentence ("So did I.", "plan B. Then") or begins a name."""
    if letter.islower():
        return True
    if stop.marks_start - 1 == stop.sentence_start and letter != "I":
        return False
    if habits.opens(stop.word):
        return True
    if letter != "I":
        return False
    before = _WORD_BEFORE.match(stop.text, stop.sentence_start, stop.marks_start - 1)
    if before is None:
        return stop.text.startswith(".", stop.word_start + len(stop.word))
    return before[1].islower() or habits.opens(before[1])


def _is_numbering(stop: _Stop, token: str, habits: StopHabits) -> bool:
    """Whether `token` numbers a list's item, or in German makes an ordinal ("am 3. Mai")."""
    if token.isdecimal() and len(token) <= _NUMBERED_MAX_DIGITS:
        return _opens_item(stop, token) or (habits.ordinal_stop and not habits.opens(stop.word))
    return (
        habits.ordinal_stop and _ROMAN.fullmatch(token) is not None and not habits.opens(stop.word)
    )


def _opens_item(stop: _Stop, token: str) -> bool:
    """A number opens an item at a line's start, at a sentence's if it is 1 or the next in turn."""
    at = stop.marks_start - len(token)
    if _LINE_START.match(stop.text, 0, at):
        return True
    if at != stop.sentence_start:
        return False
    before = stop.text[max(0, at - _ITEM_MAX_CHARACTERS) : at]
    return token == "1" or not before.strip() or f"{int(token) - 1}. " in before


def _ellipsis_ends(stop: _Stop, habits: StopHabits) -> bool:
    """An ellipsis ends no sentence in a stammer ("I... I") or a search ("the... Weighbridge")."""
    if stop.word[0].isdigit():
        return False
    before = _TOKEN_BEFORE.match(stop.text, stop.sentence_start, stop.marks_start)
    word = before[0].strip() if before else ""
    if word.casefold() == stop.word.casefold():
        return False
    return word.lower() not in habits.leaning or habits.opens(stop.word)


def _is_reported(stop: _Stop, habits: StopHabits) -> bool:
    """Whether the words after a closing quote report what it holds: "Stop!" I said."""
    if stop.lead or _QUOTES.isdisjoint(stop.closing):
        return False
    speaker = _SPEAKER.match(stop.text, stop.word_start)
    if speaker is None or speaker[2] not in habits.saying:
        return False
    if speaker[3] in habits.said:
        return False
    return speaker[1] == "I" or not habits.opens(speaker[1])
