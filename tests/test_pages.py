"""The pages of the checks, which editors open from a finding, are what `saywright explain` prints.

`python tests/test_pages.py` writes them anew.
"""

from pathlib import Path

import saywright
from saywright.checks.catalogue import CHECKS
from saywright.commands.explain import page_lines

FOLDER = Path(saywright.__file__).parent / "pages"


def pages() -> dict[str, str]:
    return {f"{check.name}.txt": "\n".join((*page_lines(check), "")) for check in CHECKS}


def test_there_is_a_current_page_for_each_check() -> None:
    written = {path.name: path.read_text("utf-8") for path in FOLDER.iterdir()}
    assert written == pages(), (
        f"To write them anew: python {Path(__file__).parent.name}/test_pages.py"
    )


if __name__ == "__main__":
    FOLDER.mkdir(exist_ok=True)
    for old in FOLDER.iterdir():
        old.unlink()
    for name, page in pages().items():
        (FOLDER / name).write_text(page, "utf-8", newline="\n")
