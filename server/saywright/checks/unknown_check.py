"""A name after `leave-out` that is no check's."""

from collections.abc import Iterator

from saywright.checks.check import Check, FileView, Page
from saywright.finding import Edit, Finding, Fix
from saywright.markup.nearest import nearest
from saywright.markup.values import read_names
from saywright.markup.written import written_settings


def find_in_file(view: FileView) -> Iterator[Finding]:
    for setting in written_settings(view.setting_lines):
        if setting.key == "leave-out":
            for name in read_names(setting.value):
                if name not in view.check_names and name in setting.value:
                    start = setting.range.start + setting.value.index(name)
                    yield _finding(name, start, view.check_names)


def _finding(name: str, start: int, known: tuple[str, ...]) -> Finding:
    end = start + len(name)
    meant = nearest(name, known)
    fixes = (Fix(f"Write {meant}", (Edit(start, end, meant),)),) if meant else ()
    hint = f"Did you mean {meant}?" if meant else f"The checks are {', '.join(known)}."
    message = f"There is no check called “{name}”. {hint}"
    return Finding("unknown-check", start, end, message, fixes)


CHECK = Check(
    "unknown-check",
    "warning",
    "a name after leave-out that is no check's",
    find_in_file=find_in_file,
    page=Page(
        why="A check whose name is misspelt is not left out.",
        example="leave-out: over-tine\n\nI never cheated.",
        to_do="Write the name as it stands in the message that you want to be rid of.",
    ),
)
