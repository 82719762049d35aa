"""Text that is wrapped by the columns it takes in a terminal, not by its characters."""

import unicodedata
from collections.abc import Iterator


def columns_of(text: str) -> int:
    """How many columns a terminal gives `text`: two to wide characters, none to accents."""
    return sum(map(_columns, text))


def _columns(character: str) -> int:
    if character < "\u0300":
        return 1
    if unicodedata.category(character) in ("Mn", "Me", "Cf"):
        return 0
    return 2 if unicodedata.east_asian_width(character) in "WF" else 1


def wrapped(text: str, width: int, first: str = "", rest: str = "") -> list[str]:
    """`text` in lines of at most `width` columns, the first led by `first`, the others by `rest`.

    White space is one blank, save that a no-break space holds its words together; what would
    move a terminal's cursor is replaced. A word breaks only where it is longer than a line.
    """
    lines: list[str] = []
    line, room = first, width - columns_of(first)
    is_empty = True
    for word in _words(_harmless(text)):
        for piece in _pieces(word, max(width - columns_of(rest), 2)):
            needed = columns_of(piece) + (not is_empty)
            if needed > room and not is_empty:
                lines.append(line)
                line, room, is_empty = rest, width - columns_of(rest), True
                needed = columns_of(piece)
            line += piece if is_empty else f" {piece}"
            room, is_empty = room - needed, False
    return [each.replace("\N{NO-BREAK SPACE}", " ") for each in (*lines, line)]


def _harmless(text: str) -> str:
    return "".join(
        "\N{REPLACEMENT CHARACTER}"
        if unicodedata.category(each) == "Cc" and not each.isspace()
        else each
        for each in text
    )


def _words(text: str) -> list[str]:
    return text.replace("\N{NO-BREAK SPACE}", "\0").split()


def _pieces(word: str, width: int) -> Iterator[str]:
    piece, room = "", width
    for character in word.replace("\0", "\N{NO-BREAK SPACE}"):
        if _columns(character) > room:
            yield piece
            piece, room = "", width
        piece += character
        room -= _columns(character)
    if piece:
        yield piece
