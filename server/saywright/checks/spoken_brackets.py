"""Square brackets, in which plays often print directions: here they are spoken."""

import re
from collections.abc import Iterator

from saywright.checks.check import Check, Page
from saywright.finding import Edit, Finding, Fix
from saywright.speech.timing import TimedParagraph

_BRACKETS = re.compile(r"(?<!\w)\[(?P<words>[^\W\d_][^\[\]\n]{0,200})\](?!\()")


def find(timed: TimedParagraph) -> Iterator[Finding]:
    paragraph = timed.paragraph
    for bracket in _BRACKETS.finditer(paragraph.text) if "[" in paragraph.text else ():
        start, end = bracket.span()
        outside = all(end <= each.start or each.end <= start for each in paragraph.directions)
        if outside and not any(note.start <= start < note.end for note in paragraph.notes):
            yield Finding(
                "spoken-brackets",
                start,
                end,
                "Words in square brackets are spoken. A direction stands in round ones.",
                (
                    Fix(
                        f"Make it a direction: ({bracket['words']})",
                        (Edit(start, start + 1, "("), Edit(end - 1, end, ")")),
                    ),
                ),
            )


CHECK = Check(
    "spoken-brackets",
    "hint",
    "words in square brackets",
    find_in_paragraph=find,
    page=Page(
        why="Printed plays often set directions in square brackets. Here only round ones are a "
        "direction, so these words are spoken.",
        example="[she sits] I never cheated.",
        to_do="Write round brackets: (she sits).",
    ),
)
