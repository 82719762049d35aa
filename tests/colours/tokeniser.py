"""Texts → tokens, by the tokeniser that VS Code colours with, run in Node.js."""

import json
import os
import shutil
import subprocess
from collections.abc import Sequence
from pathlib import Path
from typing import Any, NamedTuple

import pytest

FOLDER = Path(__file__).parent
GRAMMAR = FOLDER.parents[1] / "grammar" / "say.tmLanguage.json"


class Token(NamedTuple):
    """`scopes`: scope names with blanks between, the file's own first."""

    start: int
    end: int
    scopes: str


def tokens_of(texts: Sequence[str]) -> list[list[Token]]:
    return [[Token(*token) for token in tokens] for tokens in _answer("tokens", texts)]


def seconds_for(texts: Sequence[str]) -> list[float]:
    return [milliseconds / 1000 for milliseconds in _answer("times", texts)]


def _answer(what: str, texts: Sequence[str]) -> Any:
    if missing := _missing():
        if os.environ.get("CI"):
            pytest.fail(f"{missing}, and CI leaves no test out")
        pytest.skip(missing)
    done = subprocess.run(
        ["node", "answer.js", what, str(GRAMMAR)],
        cwd=FOLDER,
        input=json.dumps(texts),
        capture_output=True,
        text=True,
        encoding="utf-8",
        timeout=60,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    return json.loads(done.stdout)


def _missing() -> str | None:
    if not shutil.which("node"):
        return "Node.js is not installed"
    if not (FOLDER / "node_modules").is_dir():
        return "the tokeniser is not installed: run `npm ci` in tests/colours"
    return None
