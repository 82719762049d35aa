"""A line that looks like a setting but stands where it is spoken."""

import re
from collections.abc import Iterator

from saywright.checks.check import Check, Page
from saywright.finding import Edit, Finding, Fix
from saywright.markup.settings import KEYS
from saywright.speech.timing import TimedParagraph

_WORDS = "|".join(key for key in KEYS if len(key) > 3)  # “to:” and “by:” may well be said
_SETTING = re.compile(rf"^[ \t]*(?P<key>{_WORDS})[ \t]*(?P<sign>[:=])[ \t]*\S.*$", re.M | re.I)


def find(timed: TimedParagraph) -> Iterator[Finding]:
    notes = {start for start, _ in timed.paragraph.notes}
    for line in _SETTING.finditer(timed.paragraph.text):
        if line.start() not in notes:
            at = line.start("sign")
            yield Finding(
                "spoken-setting",
                line.start("key"),
                line.end("sign"),
                "This looks like a setting, but it is spoken: settings are a file's first lines, "
                "as in slot: 60s, up to the first blank one.",
                (Fix("Mean it as speech: \\:", (Edit(at, at, "\\"),)),)
                if line["sign"] == ":"
                else (),
            )


CHECK = Check(
    "spoken-setting",
    "hint",
    "a line that looks like a setting and is spoken",
    find_in_paragraph=find,
    page=Page(
        why="Settings are a file's first lines, up to the first blank one. Further down such a "
        "line is speech like any other.",
        example="I never cheated.\n\nslot: 60s",
        to_do="Move it to the top of the file, or after a rule: ---- piece; slot 60s. If it is "
        "speech, put \\ before the colon.",
    ),
)
