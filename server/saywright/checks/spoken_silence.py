"""A line that only names a silence, without its brackets: the name is spoken."""

from collections.abc import Iterator

from saywright.checks.check import Check, Page
from saywright.finding import Edit, Finding, Fix
from saywright.markup.lines import is_note, line_ranges
from saywright.markup.silences import spoken_silence
from saywright.speech.timing import TimedParagraph


def find(timed: TimedParagraph) -> Iterator[Finding]:
    text = timed.paragraph.text
    for start, end in line_ranges(text):
        line = text[start:end]
        if not is_note(line) and (name := spoken_silence(line)):
            first = start + len(line) - len(line.lstrip())
            yield _finding(line.strip(), name, first)


def _finding(line: str, name: str, start: int) -> Finding:
    end = start + len(line)
    written = f"({line.rstrip('.…').lower()})"
    message = f"As it stands, “{name}” is spoken. Put it in brackets and it is a silence."
    fix = Fix(f"Make it a silence: {written}", (Edit(start, end, written),))
    return Finding("spoken-silence", start, end, message, (fix,))


CHECK = Check(
    "spoken-silence",
    "hint",
    "a line such as “Beat.” that would be spoken",
    find_in_paragraph=find,
    page=Page(
        why="Without its brackets the name of a silence is a word like any other, said aloud.",
        example="I never cheated.\nBeat.\nNot by a lot.",
        to_do="Put it in brackets: (beat).",
    ),
)
