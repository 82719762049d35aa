"""What was learnt of English sentences: words' classes, and the weights of features.

`english_tense_weights.bin` is compressed JSON of four tables, written by
`tests/benchmarks/fit_tense.py`. Its licence: `english_tense_weights.LICENSE.txt`.
"""

import json
import zlib
from collections.abc import Mapping
from functools import lru_cache
from importlib.resources import files
from typing import NamedTuple

FILE = "english_tense_weights.bin"
UNITS = 16  # readings' weights are whole numbers of a sixteenth
CLAUSE_UNITS = 32  # clauses' of a thirty-second
ZERO = 64  # the character of weight nought


class Weights(NamedTuple):
    """`classes`: words to letters (see `word_classes`). `readings`: features of a word to one
    packed number, 16 bits for each reading. `main`: features of a clause to the weights of its
    being the main one, `under` to those of its hanging under another."""

    classes: Mapping[str, str]
    readings: Mapping[str, int]
    main: Mapping[str, int]
    under: Mapping[str, int]


def packed(code: str) -> int:
    """One number for the weights that `code` spells, a character each, 16 bits each. Such numbers
    can be added as long as no sum of a reading's characters exceeds 65,535."""
    return int.from_bytes(code.encode("utf-16-le"), "little")


def unpacked(tables: Mapping[str, Mapping[str, str]]) -> Weights:
    """The weights from the file's tables."""
    classes = {
        word: letters for letters, words in tables["classes"].items() for word in words.split(" ")
    }
    return Weights(
        classes,
        {
            feature: weight
            for code, features in tables["readings"].items()
            for weight in (packed(code),)
            for feature in features.split("\n")
        },
        _units(tables["main"]),
        _units(tables["under"]),
    )


def _units(table: Mapping[str, str]) -> dict[str, int]:
    """A table of weights to the features that share them, in lines."""
    return {
        feature: int(units) for units, features in table.items() for feature in features.split("\n")
    }


@lru_cache(maxsize=1)
def weights() -> Weights:
    """The weights of the package, read at first use."""
    data = files(__package__).joinpath(FILE).read_bytes()
    return unpacked(json.loads(zlib.decompress(data)))
