"""The texts to colour, by name, and what is known to differ on each."""

import tomllib
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from saywright.markup.marks import ESCAPABLE
from saywright.markup.settings import KEYS, RULE_KEYS
from saywright.markup.silences import NAMES
from saywright.markup.tree import KINDS
from tests.grammar.cases import read_cases

_FOLDER = Path(__file__).parent
_SCRIPTS = _FOLDER.parents[1] / "sample_scripts"


def texts_by_name() -> dict[str, str]:
    """The corpus's cases, this folder's samples, every word the markup knows, and the scripts."""
    texts = {f"{case.file}: {case.name}": case.text for case in read_cases()}
    texts |= {f"samples: {name}": text for name, text in _toml("samples.toml").items()}
    texts |= {f"word: {text}": text + "\n" for text in _vocabulary()}
    for path in sorted(_SCRIPTS.rglob("*.say")):
        name = path.relative_to(_SCRIPTS).as_posix()
        texts[f"script: {name}"] = path.read_bytes().decode("utf-8")
    return texts


def _vocabulary() -> Iterator[str]:
    """Each word and escape that the server knows, used once."""
    yield from (f"{key}: 3s" for key in KEYS)
    yield from (f"---- draft: salt; {key} 3s" for key in RULE_KEYS)
    yield from (f"---- {kind}: salt" for kind in KINDS)
    yield from (f"({name})" for name in NAMES)
    yield from (f"\\{character}" for character in ESCAPABLE)


def known_disagreements(file: str) -> dict[str, list[str]]:
    """For each text's name the lines that `comparison.disagreements` is known to give."""
    known: dict[str, list[str]] = {}
    for reason in _toml(file).values():
        for name, lines in reason["texts"].items():
            known[name] = sorted((*known.get(name, []), *lines))
    return known


def _toml(name: str) -> dict[str, Any]:
    return tomllib.loads((_FOLDER / name).read_text(encoding="utf-8"))
