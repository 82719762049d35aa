"""`saywright explain`: a check's page, or the list of all checks."""

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
_WIDTH = 76


def run(name: str | None) -> int:
    """Print the page of the check called `name`, or all checks; returns the exit code."""
    if name is None:
        width = max(map(len, CHECK_NAMES))
        for check in CHECKS:
            print(f"{check.name:{width}}  {check.what}")
        return 0
    for check in CHECKS:
        if check.name == name.strip().lower():
            print("\n".join(page_lines(check)))
            return 0
    meant = nearest(name, CHECK_NAMES)
    hint = f"Did you mean {meant}?" if meant else "Without a name, explain lists them all."
    print(f"There is no check called “{name}”. {hint}", file=sys.stderr)
    return _COULD_NOT_RUN


def page_lines(check: Check) -> Iterator[str]:
    """The page of `check`, in lines for a narrow screen."""
    assert check.page
    yield f"{check.name} ({check.severity})"
    yield from _wrapped(f"{check.what[0].upper()}{check.what[1:]}.")
    yield from ("", "Why")
    yield from _wrapped(check.page.why)
    yield from ("", "For example")
    yield from _example(check, check.page)
    yield from ("", "What to do")
    yield from _wrapped(check.page.to_do)
    yield from ("", "To leave it out")
    yield f"  in a script      leave-out: {check.name}"
    yield f"  in one part      ---- piece; leave-out {check.name}"
    yield f'  in a folder      under [checks] in {FILE_NAME}:  {check.name} = "off"'


def _example(check: Check, page: Page) -> Iterator[str]:
    """The example, and what is said of it: found when it is asked for, not written down."""
    for file, content in (
        (FILE_NAME, page.project_file),
        (PRIVATE_NAMES_FILE, "\n".join(page.private_names)),
    ):
        if content:
            yield f"  with {content} in {file}:"
    for line in page.example.split("\n"):
        yield from _wrapped(line, "    ") or [""]
    for finding in example_findings(check, page):
        yield from _wrapped(f"→ {finding}")


def example_findings(check: Check, page: Page) -> Iterator[str]:
    """What `check` says of its own example."""
    project = replace(
        read_project(page.project_file, CHECK_NAMES), private_names=page.private_names
    )
    for finding, _ in analyse(page.example, project).reported:
        if finding.check == check.name:
            yield finding.message


def _wrapped(text: str, indent: str = "  ") -> list[str]:
    return textwrap.wrap(
        text, _WIDTH, initial_indent=indent, subsequent_indent=indent, break_on_hyphens=False
    )
