"""English words and marks with their offsets: "didn't" is two, "she's" is two, "Ma'am" is one."""

import re
from typing import NamedTuple

_CUT = r"(?:s|d|m|re|ve|ll)\b"
_TOKEN = re.compile(
    rf"""[^\W_]+?(?=n['’]t\b)|n['’]t\b|['’]{_CUT}
    |i(?=(?:m|ve)\b)|(?:that|what|he|she|there)(?=s\b)|(?:you|they)(?=re\b)
    |[^\W_]+(?:[-.'’&/@](?!{_CUT})[^\W_]+)*
    |\.[\s.]*\.|…|-+|[!?]+|\S""",
    re.IGNORECASE | re.VERBOSE,
)
_PLAIN = str.maketrans("’‘“”", "''\"\"")
_SINGLE_OPENS = re.compile(
    r"(?<![^\s(\[—–-])['‘](?=[^\W_])(?!(?:em|til|cause|tis|twas|bout|round)\b)"
)
_SINGLE_CLOSES = re.compile(r"(?<=[.,!?…—–-])['’](?![^\W_])")


class Tokens(NamedTuple):
    """`words` in lower case with plain apostrophes; every quote mark, of whatever kind, is `"`."""

    spans: list[tuple[int, int]]
    words: list[str]


def tokens(text: str) -> Tokens:
    """Every word and mark of `text`, in order, with its offsets."""
    plain = text.lower()
    if len(plain) != len(text):
        plain = "".join(low if len(low := letter.lower()) == 1 else letter for letter in text)
    plain = plain.translate(_PLAIN)
    spans = [found.span() for found in _TOKEN.finditer(text)]
    words = [plain[start:end] for start, end in spans]
    if "'" in plain:
        quotes = _single_quotes(text)
        if quotes:
            words = [
                '"' if start in quotes and end == start + 1 else word
                for (start, end), word in zip(spans, words, strict=True)
            ]
    return Tokens(spans, words)


def begins_quoted(text: str, found: Tokens) -> bool:
    """Whether the first quote mark is one that closes: what stands before it is quoted."""
    if '"' not in found.words:
        return False
    start, end = found.spans[found.words.index('"')]
    if text[start] in "“‘„«":
        return False
    after = text[end : end + 1]
    return start > 0 and not text[start - 1].isspace() and (not after or after.isspace())


def _single_quotes(text: str) -> set[int]:
    """Where single quote marks open and close; none where they do not come in pairs."""
    opens = [found.start() for found in _SINGLE_OPENS.finditer(text)]
    if not opens:
        return set()
    closes = [found.start() for found in _SINGLE_CLOSES.finditer(text)]
    return {*opens, *closes} if len(opens) == len(closes) else set()
