"""A check's page on the disk, for an editor that opens it from a finding's name."""

from functools import cache
from pathlib import Path

_FOLDER = Path(__file__).parent.parent / "pages"


@cache
def page_uri(check: str) -> str | None:
    """The address of the page that `saywright explain` prints too; None where it is not installed
    as a file."""
    path = _FOLDER / f"{check}.txt"
    return path.as_uri() if path.is_file() else None
