"""A word that a listener notices, heard again so soon that it sounds like an oversight.

Whatever may be meant is left alone: repeated openings and endings, doubling, parallels, contrasts,
questions and their answers, what is spoken of with “the” again, and themes.
"""

from collections import Counter
from collections.abc import Iterator, Sequence
from functools import lru_cache
from typing import NamedTuple

from saywright.checks.check import Check, Page
from saywright.checks.passage import Line, Passage
from saywright.finding import Finding, Related
from saywright.language.english.content_words import names_a_thing, striking_word
from saywright.language.english.tag import is_english
from saywright.markup.tree import Range
from saywright.speech.pronunciation import pronounce
from saywright.speech.spoken import spoken_words

_MOST_WORDS_ON = 25
_MOST_WORDS_ON_NOUNS = 15
_MOST_SENTENCES_BETWEEN = 2
_FEWEST_WORDS_ON = 4
_FEWEST_WORDS_OF_A_PARALLEL = 6
_SHORTEST_REPLY_WORDS = 5
_NEIGHBOURS = 3
_SHORTEST_NEIGHBOUR_LETTERS = 5
_OFTEN = 3
_SPOKEN_OF_AGAIN = frozenset(
    "the this that these those my your his her its our their another same".split()
)
_ARTICLES = frozenset(("a", "an"))
_JOINING = frozenset(("and", "or", "but", "nor", "not", "as", "like"))
_NEGATIONS = frozenset(("not", "no", "never", "nor", "neither", "without"))


class _Word(NamedTuple):
    """A word of a sentence: its half-open code points there, in lower case, and what it is a form
    of, if a listener notices it. `opens`, `closes`: nothing but punctuation stands on that side."""

    start: int
    end: int
    text: str
    base: str | None
    capital: bool
    opens: bool
    closes: bool


class _Use(NamedTuple):
    """One use of a word: `at` in its sentence, `place` among the words that are looked at."""

    line: Line
    line_index: int
    words: Sequence[_Word]
    at: int
    place: int

    @property
    def word(self) -> _Word:
        return self.words[self.at]

    @property
    def before(self) -> str:
        return self.words[self.at - 1].text if self.at else ""

    @property
    def after(self) -> str:
        return self.words[self.at + 1].text if self.at + 1 < len(self.words) else ""

    @property
    def where(self) -> Range:
        return self.line.where(self.word.start, self.word.end)


def find(passage: Passage) -> Iterator[Finding]:
    if not is_english(passage.language) or passage.settings.form == "verse":
        return
    counts: Counter[str] | None = None
    for first, second in _pairs(passage):
        if counts is None:
            counts = _counts(passage)
        if counts[second.word.base or ""] < _OFTEN and not _may_be_meant(first, second):
            yield _finding(first, second)


def _pairs(passage: Passage) -> Iterator[tuple[_Use, _Use]]:
    """Each use of a striking word in the paragraph with the last one before it."""
    lines = [*passage.before[-_MOST_SENTENCES_BETWEEN:], *passage.own]
    own = len(lines) - len(passage.own)
    last: dict[str, _Use] = {}
    place = 0
    for line_index, line in enumerate(lines):
        words = _words(line.text, line.language)
        for index, word in enumerate(words):
            if word.base is None:
                continue
            use = _Use(line, line_index, words, index, place + index)
            earlier = last.get(word.base)
            last[word.base] = use
            if earlier and line_index >= own and _are_near(earlier, use):
                yield earlier, use
        place += len(words)


def _are_near(first: _Use, second: _Use) -> bool:
    return (
        _FEWEST_WORDS_ON <= second.place - first.place <= _MOST_WORDS_ON
        and second.line_index - first.line_index <= _MOST_SENTENCES_BETWEEN
    )


def _counts(passage: Passage) -> Counter[str]:
    """How often each striking word stands around here; of one that is a name, many times."""
    counts: Counter[str] = Counter()
    for line in (*passage.before, *passage.own, *passage.after):
        for index, word in enumerate(_words(line.text, line.language)):
            if word.base is not None:
                is_name = word.capital and index > 0
                counts[word.base] += _OFTEN if is_name else 1
    return counts


def _may_be_meant(first: _Use, second: _Use) -> bool:
    return (
        _is_figure(first, second)
        or _is_parallel(first, second)
        or _is_echo(first, second)
        or _is_spoken_of_again(first, second)
        or any(map(_is_marked, (first, second)))
        or _is_denied(first) != _is_denied(second)
    )


def _is_figure(first: _Use, second: _Use) -> bool:
    """Openings or endings alike, the same word beside it on the same side, and a word taken up
    again after a comma (“errors, errors that …”)."""
    return (
        (second.word.opens and second.at > 0)
        or (first.word.opens and second.word.opens)
        or (first.word.closes and second.word.closes)
        or (first.before == second.before and first.before not in _ARTICLES)
        or first.after == second.after
    )


def _is_parallel(first: _Use, second: _Use) -> bool:
    """Other words come again around it, or it stands on both sides of “than”, or near by of
    “and” or “not”."""
    if _long_neighbours(first) & _long_neighbours(second):
        return True
    if first.line is not second.line:
        return False
    between = second.words[first.at + 1 : second.at]
    if len(between) >= _FEWEST_WORDS_OF_A_PARALLEL:
        return any(word.text == "than" for word in between)
    return any(word.text in _JOINING or word.text == "than" or word.closes for word in between)


def _long_neighbours(use: _Use) -> set[str]:
    near = use.words[max(use.at - _NEIGHBOURS, 0) : use.at + _NEIGHBOURS + 1]
    return {
        word.text
        for word in near
        if len(word.text) >= _SHORTEST_NEIGHBOUR_LETTERS and word.base != use.word.base
    }


def _is_echo(first: _Use, second: _Use) -> bool:
    """A question and its answer, and a sentence of a few words that takes up a word."""
    if first.line is second.line:
        return "?" in first.line.text
    shortest = min(len(first.words), len(second.words))
    return "?" in first.line.text + second.line.text or shortest < _SHORTEST_REPLY_WORDS


def _is_spoken_of_again(first: _Use, second: _Use) -> bool:
    """A thing that is named again because it is still the matter. It is heard as the same word
    twice within a sentence, and after “a”, but for two of them that are told apart."""
    if second.before in _SPOKEN_OF_AGAIN:
        return True
    uses = (first, second)
    if not all(names_a_thing(use.word.text, use.before) for use in uses):
        return False
    apart = first.line is not second.line and second.before not in _ARTICLES
    if apart or second.place - first.place > _MOST_WORDS_ON_NOUNS:
        return True
    return all(_is_told_apart(use) for use in uses)


def _is_told_apart(use: _Use) -> bool:
    """Whether a word before it may say which one: “the salt ferry” beside “the mail ferry”."""
    return bool(use.before) and pronounce(use.before).primary > 0


def _is_marked(use: _Use) -> bool:
    """Stressed or kept: the writer has looked at it."""
    if use.line.sentence.kept:
        return True
    stresses = use.line.paragraph.stresses
    at = use.line.plain(use.word.start) if stresses else 0
    return any(start <= at < end for start, end in stresses)


def _is_denied(use: _Use) -> bool:
    near = use.words[max(use.at - _NEIGHBOURS, 0) : use.at]
    return any(word.text in _NEGATIONS or word.text.endswith("n't") for word in near)


@lru_cache(maxsize=4096)
def _words(text: str, language: str) -> tuple[_Word, ...]:
    spoken = spoken_words(text, language)
    words: list[_Word] = []
    opens = True
    for index, (start, end, *_) in enumerate(spoken):
        written = text[start:end]
        following = spoken[index + 1].start if index + 1 < len(spoken) else len(text)
        closes = index + 1 == len(spoken) or not text[end:following].isspace()
        lower = written.lower().replace("’", "'")
        capital = written[:1].isupper()
        words.append(_Word(start, end, lower, striking_word(written), capital, opens, closes))
        opens = closes
    return tuple(words)


def _finding(first: _Use, second: _Use) -> Finding:
    word = second.line.text[second.word.start : second.word.end]
    earlier = first.line.text[first.word.start : first.word.end]
    message = f"“{word}” comes again so soon. On purpose?"
    related = Related(*first.where, f"“{earlier}” was here just before.")
    return Finding("repetition", *second.where, message, related=(related,))


CHECK = Check(
    "repetition",
    "hint",
    "a striking word that comes again too soon",
    find_nearby=find,
    page=Page(
        "A listener cannot look back, but does hear a word that was here a moment ago. Where it"
        " is a figure it makes the line stronger; where nobody meant it, it sounds as if no other"
        " word had come to mind. Only unusual words count, and nothing that looks meant: the same"
        " openings or endings, parallels, questions and answers, whatever comes three times.",
        "The tide was enormous that night. I carried an enormous box down to the ferry.",
        "Say it aloud. If the second one adds nothing, leave it out or find its own word. If it is"
        " meant, mark it as stressed, `*enormous*`, and nothing more is said.",
    ),
)
