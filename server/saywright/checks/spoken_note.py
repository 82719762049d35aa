"""A line that starts with # and lacks the space that would make it a note."""

import re
from collections.abc import Iterator

from saywright.checks.check import Check, Page
from saywright.finding import Edit, Finding, Fix
from saywright.speech.timing import TimedParagraph

_NEARLY_NOTE = re.compile(r"^[ \t]*(?P<marks>#+)[ \t]*(?=\S)(?P<words>.*?)[ \t\r]*$", re.MULTILINE)


def find(timed: TimedParagraph) -> Iterator[Finding]:
    text = timed.paragraph.text
    notes = {start for start, _ in timed.paragraph.notes}
    for line in _NEARLY_NOTE.finditer(text) if "#" in text else ():
        if line.start() not in notes:
            start = line.start("marks")
            yield Finding(
                "spoken-note",
                start,
                line.end("words"),
                "A note is # and a space. As it stands this line is spoken.",
                (Fix("Make it a note", (Edit(start, line.start("words"), "# "),)),),
            )


CHECK = Check(
    "spoken-note",
    "hint",
    "a line such as “#later” that would be spoken",
    find_in_paragraph=find,
    page=Page(
        why="A note to yourself is # and a space. Without the space the line is spoken.",
        example="#slower here\nI never cheated.",
        to_do="Put a space after the #.",
    ),
)
