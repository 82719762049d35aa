"""A name as an expression that meets it however it is typed."""

import re
import unicodedata

_ALIKE = {each: f"[{group}]" for group in ("'’ʼ", "‐‑-") for each in group}


def name_letters(name: str) -> str:
    """The letters of `name` for the `regex` package: blanks between its words may be any, a line
    break too; accents composed or not; apostrophes and hyphens of any kind."""
    words = unicodedata.normalize("NFC", name).split()
    return r"\s+".join("".join(map(_letter, word)) for word in words)


def _letter(composed: str) -> str:
    if composed in _ALIKE:
        return _ALIKE[composed]
    parts = unicodedata.normalize("NFD", composed)
    if parts == composed:
        return re.escape(composed)
    return f"(?:{re.escape(composed)}|{re.escape(parts)})"
