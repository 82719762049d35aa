"""A pace that names a reader whom the project file does not know, and who has timed no take."""

from collections.abc import Iterator

from saywright.checks.check import Check, FileView, Page
from saywright.finding import Edit, Finding, Fix
from saywright.markup.nearest import nearest
from saywright.markup.values import Unreadable, read_pace
from saywright.markup.written import Written, written_settings
from saywright.project import FILE_NAME
from saywright.speech.piece_takes import same_name


def find_in_file(view: FileView) -> Iterator[Finding]:
    for setting in written_settings(view.setting_lines):
        if setting.key == "pace":
            reader = _reader(setting.value)
            if reader and not _is_known(reader, view):
                yield _finding(setting, reader, tuple(view.project.readers))


def _is_known(reader: str, view: FileView) -> bool:
    timed = any(same_name(reader, each) for each in view.take_readers)
    return timed or reader in view.project.readers


def _reader(value: str) -> str | None:
    try:
        return read_pace(value).reader
    except Unreadable:
        return None  # reading the setting has reported it


def _finding(setting: Written, reader: str, known: tuple[str, ...]) -> Finding:
    meant = nearest(reader, known)
    hint = f"Did you mean {meant}? " if meant else ""
    message = (
        f"No reader called “{reader}” is known, so the usual pace is taken. {hint}Write a pace "
        f"such as 150 wpm, or name the reader under [readers] in {FILE_NAME}."
    )
    fixes = (Fix(f"Write {meant}", (Edit(*setting.range, meant),)),) if meant else ()
    return Finding("unknown-reader", *setting.range, message, fixes)


CHECK = Check(
    "unknown-reader",
    "warning",
    "a pace that names a reader nobody knows",
    find_in_file=find_in_file,
    page=Page(
        why="A pace may name a reader whose own pace stands in saywright.toml, or who has timed a "
        "take in this file. Of anyone else the pace is not known, so the usual one is taken.",
        example="pace: Tove\n\nI never cheated.",
        to_do="Write a pace such as 150 wpm, or the reader's line under [readers].",
    ),
)
