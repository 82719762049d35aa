"""Commands run in the tests' own process, which takes a tenth of the time of a new one."""

import subprocess
from contextlib import redirect_stderr, redirect_stdout
from io import StringIO
from pathlib import Path

import pytest

from saywright.commands.main import main


def run_here(
    *arguments: str | Path, columns: int = 80, **environment: str
) -> "subprocess.CompletedProcess[str]":
    """What a shell would get, in a terminal of so many columns."""
    told, complained = StringIO(), StringIO()
    with pytest.MonkeyPatch.context() as patch, redirect_stdout(told), redirect_stderr(complained):
        for name, value in {"COLUMNS": str(columns), **environment}.items():
            patch.setenv(name, value)
        try:
            code = main([str(each) for each in arguments])
        except SystemExit as end:  # argparse's
            code = int(end.code or 0)
    return subprocess.CompletedProcess(arguments, code, told.getvalue(), complained.getvalue())
