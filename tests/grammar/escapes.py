"""How the corpus writes code points that the eye cannot tell: `\\u{feff}`."""

import re
import unicodedata

_ESCAPE = re.compile(r"\\u\{([0-9a-f]+)\}")
_INVISIBLE = {"Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp", "Zs", "Mn"}


def unescaped(text: str) -> str:
    return _ESCAPE.sub(lambda escape: chr(int(escape[1], 16)), text)


def escaped(text: str) -> str:
    return "".join(map(_visible, text))


def quoted(text: str) -> str:
    return f'"{escaped(text)}"'


def _visible(character: str) -> str:
    if character == " " or unicodedata.category(character) not in _INVISIBLE:
        return character
    return f"\\u{{{ord(character):x}}}"
