"""`saywright explain`: a check's page, or the list of all checks."""

import shutil
import sys
import textwrap
from collections.abc import Iterator
from dataclasses import replace

from saywright.analysis import analyse
from saywright.checks.catalogue import CHECK_NAMES, CHECKS
from saywright.checks.check import Check, Page
from saywright.markup.nearest import nearest
from saywright.project import FILE_NAME, PRIVATE_NAMES_FILE, read_project

_COULD_NOT_RUN = 2
_NARROWEST, _WIDEST = 40, 76
_DEEPER = 4  # columns


def run(name: str | None) -> int:
    """Print the page of the check called `name`, or all checks; returns the exit code."""
    width = min(max(shutil.get_terminal_size().columns, _NARROWEST), _WIDEST)
    if name is None:
        print("\n".join(_list_lines(width)))
        return 0
    for check in CHECKS:
        if check.name == name.strip().lower():
            print("\n".join(page_lines(check, width)))
            return 0
    meant = nearest(name, CHECK_NAMES)
    hint = f"Did you mean {meant}?" if meant else "Without a name, explain lists them all."
    print(f"There is no check called “{name}”. {hint}", file=sys.stderr)
    return _COULD_NOT_RUN


def _list_lines(width: int) -> Iterator[str]:
    names = max(map(len, CHECK_NAMES))
    for check in CHECKS:
        yield from _wrapped(f"{check.name:{names}}  {check.what}", width, "", names + 2)


def page_lines(check: Check, width: int = _WIDEST) -> Iterator[str]:
    """The page of `check`, in lines `width` wide."""
    assert check.page
    yield f"{check.name} ({check.severity})"
    yield from _wrapped(f"{check.what[0].upper()}{check.what[1:]}.", width)
    yield from ("", "Why")
    yield from _wrapped(check.page.why, width)
    yield from ("", "For example")
    yield from _example(check, check.page, width)
    yield from ("", "What to do")
    yield from _wrapped(check.page.to_do, width)
    yield from ("", "To leave it out")
    for where, line in (
        ("in a script", _whole(f"leave-out: {check.name}")),
        ("in one part", f"---- piece; {_whole(f'leave-out {check.name}')}"),
        (
            "in a folder",
            f"under [checks] in {FILE_NAME}:  " + _whole(f'{check.name} = "off"'),
        ),
    ):
        yield from _wrapped(f"{where:15}  {line}", width, deeper=_DEEPER)


def _example(check: Check, page: Page, width: int) -> Iterator[str]:
    """The example, and what is said of it: found when it is asked for, not written down."""
    for file, content in (
        (FILE_NAME, page.project_file),
        (PRIVATE_NAMES_FILE, "\n".join(page.private_names)),
    ):
        if content:
            yield from _wrapped(f"with {content} in {file}:", width, deeper=_DEEPER)
    for line in page.example.split("\n"):
        yield from _wrapped(line, width, "    ") or [""]
    for finding in example_findings(check, page):
        yield from _wrapped(f"→ {finding}", width)


def example_findings(check: Check, page: Page) -> Iterator[str]:
    """What `check` says of its own example."""
    project = replace(
        read_project(page.project_file, CHECK_NAMES), private_names=page.private_names
    )
    for finding, _ in analyse(page.example, project).reported:
        if finding.check == check.name:
            yield finding.message


def _whole(text: str) -> str:
    """`text` as `_wrapped` does not break it."""
    return text.replace(" ", "\N{NO-BREAK SPACE}")


def _wrapped(text: str, width: int, indent: str = "  ", deeper: int = 0) -> list[str]:
    """`text` in lines; all but the first stand `deeper` columns further in."""
    lines = textwrap.wrap(
        text,
        width,
        initial_indent=indent,
        subsequent_indent=indent + " " * deeper,
        break_on_hyphens=False,
    )
    return [line.replace("\N{NO-BREAK SPACE}", " ") for line in lines]
