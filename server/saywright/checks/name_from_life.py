"""A name or a place from life that still stands in a piece. No message ever quotes it."""

from collections.abc import Iterator
from functools import lru_cache

import regex

from saywright.checks.check import Check, FileView, Page
from saywright.finding import Finding
from saywright.language.name_letters import name_letters
from saywright.markup.written import written_settings
from saywright.project import PRIVATE_NAMES_FILE, Project

_NAME = "name-from-life"
_KEYS_HANDED_OVER = ("title", "by", "to", "speaker", "pace", "rights", "content")


def find_in_block(text: str, project: Project) -> Iterator[Finding]:
    """In what is spoken, cut, or written beside it: all of it is handed over with the script."""
    pattern = _pattern(project.private_names)
    for start, end in _places(pattern, text) if pattern else ():
        yield _finding(start, end)


def find_in_file(view: FileView) -> Iterator[Finding]:
    pattern = _pattern(view.project.private_names)
    for setting in written_settings(view.setting_lines) if pattern else ():
        if setting.key in _KEYS_HANDED_OVER and pattern:
            for start, end in _places(pattern, setting.value):
                yield _finding(setting.range.start + start, setting.range.start + end)


def without_names(finding: Finding, project: Project) -> Finding:
    """`finding` with nothing that it says quoting a private name; its edits stay as they are."""
    pattern = _pattern(project.private_names)
    if not pattern:
        return finding

    def veiled(text: str) -> str:
        return str(pattern.sub(lambda met: met[0] if met[0].islower() else "…", text))

    return finding._replace(
        message=veiled(finding.message),
        fixes=tuple(fix._replace(title=veiled(fix.title)) for fix in finding.fixes),
        related=tuple(each._replace(message=veiled(each.message)) for each in finding.related),
    )


def _places(pattern: regex.Pattern[str], text: str) -> Iterator[tuple[int, int]]:
    for found in pattern.finditer(text):
        if not found.group().islower():  # a rose is no Rose
            yield found.span()


def _finding(start: int, end: int) -> Finding:
    message = (
        f"A name from {PRIVATE_NAMES_FILE} stands here. Before the script is handed over, change "
        "it everywhere: your editor's rename does that in one step."
    )
    return Finding(_NAME, start, end, message)


@lru_cache(maxsize=16)
def _pattern(names: tuple[str, ...]) -> regex.Pattern[str] | None:
    """Any of `names` as whole words, however capitals, blanks and accents are written."""
    longest_first = sorted({*names} - {""}, key=lambda name: (-len(name), name))
    if not longest_first:
        return None
    words = "|".join(map(name_letters, longest_first))
    return regex.compile(rf"(?<![\p{{L}}\p{{N}}])(?:{words})(?![\p{{L}}\p{{N}}\p{{M}}])", regex.I)


CHECK = Check(
    _NAME,
    "warning",
    "a name from your private list that still stands in a piece",
    find_in_file=find_in_file,
    find_in_block=find_in_block,
    page=Page(
        why="A piece that grew out of memory may still name someone who never agreed to be on a "
        "stage. List such names and places, one a line, in a file private-names.txt beside your "
        "scripts or in a folder above them, and keep that file to yourself, out of version "
        "control. They are looked for in what is spoken, in what is cut, and in the title. The "
        "message never says which name it is, so that a report can be shown to anyone.",
        example="I told Maren that the lamp was out.",
        to_do="Change the name everywhere with your editor's rename. A name that is also a word "
        "(Rose) is found only where it has a capital.",
        private_names=("Maren",),
    ),
)
