"""What the README says of the checks and the commands is what they are.

`python tests/test_readme.py` writes its table of checks anew.
"""

import re
from pathlib import Path

from saywright.checks.catalogue import CHECKS
from saywright.commands.main import _parser

README = Path(__file__).parents[1] / "README.md"
TABLE = re.compile(r"(<!-- checks: .*? -->\n).*?(?=\nHow much each matters)", re.DOTALL)


def table() -> str:
    rows = [f"| `{check.name}` | {check.severity} | {check.what} |\n" for check in CHECKS]
    return "".join(("\n| check | matters as | what it finds |\n|---|---|---|\n", *rows))


def test_the_table_of_checks_is_current() -> None:
    assert TABLE.search(README.read_text("utf-8"))[0].endswith(table())  # type: ignore[index]


def test_every_command_is_told_of() -> None:
    text = README.read_text("utf-8")
    for action in _parser()._actions:
        for command in action.choices or ():
            assert f"saywright {command}" in text


def test_the_first_paragraph_is_the_job_and_two_commands_follow() -> None:
    text = README.read_text("utf-8")
    commands = re.findall(r"^```sh\n(.*?)^```", text, re.MULTILINE | re.DOTALL)
    assert commands[0].count("\n") == 2
    assert text.split("\n\n")[1].startswith("Saywright helps a drama teacher, coach or performer")


if __name__ == "__main__":
    README.write_text(
        TABLE.sub(lambda match: match[1] + table(), README.read_text("utf-8")), "utf-8"
    )
