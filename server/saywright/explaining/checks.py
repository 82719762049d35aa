"""What is told of a check: what it finds, why that matters, and what to do."""

from collections.abc import Iterator

from saywright.checks.catalogue import CHECKS

_BY_NAME = {check.name: check for check in CHECKS}


def is_check(name: str) -> bool:
    return name in _BY_NAME


def told_check(name: str) -> str:
    """What it finds, after its name."""
    return f"{name}: {_BY_NAME[name].what}"


def about_check(name: str) -> Iterator[str]:
    """Why it matters and what to do, a line each."""
    page = _BY_NAME[name].page
    if page:
        yield page.why
        yield page.to_do
