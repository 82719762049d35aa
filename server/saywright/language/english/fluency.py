"""What a speaker fills a pause with or begins again is passed over: "The, uh, the ferry w- was"."""

from collections.abc import Sequence
from operator import eq

from saywright.language.english.tokens import Tokens

_FILLERS = frozenset("uh uhh um umm uhm er erm hm hmm mm mhm".split())
_SAID_AGAIN = frozenset("i he she we they the a an and but or my his our their because".split())
_SHORT_WORDS = frozenset(
    "i a u r ok oh ah eh no so go do is am be it he we me my us up on in at to of or if as by an "
    "hi ha ma pa ye ya yo id im".split()
)
_PAUSES = frozenset((",", "-", "--", "–", "—", "…", "..."))


def fluent(found: Tokens) -> Tokens:
    """The words and marks without fillers, words broken off, and the first of two words the same;
    a comma goes with the filler beside it. All of them if there would be no word left."""
    words = found.words
    again = any(map(eq, words, words[1:])) or any(map(eq, words, words[2:]))
    if not again and "-" not in words and _FILLERS.isdisjoint(words):
        return found
    last = len(words) - 1
    kept: list[int] = []
    for index, word in enumerate(words):
        if word in _FILLERS:
            if kept and words[kept[-1]] == "," and index < last and words[index + 1] == ",":
                kept.pop()
        elif word == "," and index and words[index - 1] in _FILLERS:
            continue
        elif word == "-" and kept and kept[-1] == index - 1 and _is_broken_off(found, index - 1):
            kept.pop()
        else:
            if word in _SAID_AGAIN:
                _drop_first(kept, words, word)
            kept.append(index)
    if len(kept) == len(words) or not any(words[index][0].isalnum() for index in kept):
        return found
    return Tokens([found.spans[index] for index in kept], [words[index] for index in kept])


def _drop_first(kept: list[int], words: Sequence[str], word: str) -> None:
    """Take away what was kept last if it is `word`, and the pause between."""
    size = 2 if len(kept) > 1 and words[kept[-1]] in _PAUSES else 1
    if len(kept) >= size and words[kept[-size]] == word:
        del kept[-size:]


def _is_broken_off(found: Tokens, index: int) -> bool:
    """Whether the word at `index`, before a hyphen, is the beginning of one: "w- was"."""
    spans, words = found
    piece, after = words[index], index + 2
    if spans[index + 1][0] != spans[index][1] or not piece[0].isalpha():
        return False
    if after < len(words) and spans[after][0] == spans[index + 1][1]:
        return False
    while after < len(words) and (words[after] in _FILLERS or words[after] in _PAUSES):
        after += 1
    if after < len(words) and words[after] != piece and words[after].startswith(piece):
        return True
    return len(piece) < 3 and piece not in _SHORT_WORDS
