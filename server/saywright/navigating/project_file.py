"""Where in a `saywright.toml` a reader stands."""

import re

from saywright.markup.tree import Range

_TABLE = re.compile(r"[ \t]*\[(?P<name>[^\]\n]*)\]")
_LINE = re.compile(r"[^\n]*")


def reader_in(text: str, reader: str) -> Range:
    """The reader's name in the file's text, or its start where it cannot be told.

    What is read there was read as TOML before; here only its usual spelling is looked for.
    """
    name = rf"(?P<quote>[\"']?){re.escape(reader)}(?P=quote)(?=[ \t]*=)"
    in_table = re.compile(rf"[ \t]*{name}")
    dotted = re.compile(rf"[ \t]*(?:readers[ \t]*\.[ \t]*|readers[ \t]*=.*[{{,][ \t]*){name}")
    table = ""
    for line in _LINE.finditer(text):
        if header := _TABLE.match(line[0]):
            table = header["name"].strip().strip("\"'")
        found = (in_table if table == "readers" else dotted).match(line[0])
        if found and (table in ("", "readers")):
            end = line.start() + found.end()
            return Range(end - len(reader) - len(found["quote"]), end - len(found["quote"]))
    return Range(0, 0)
