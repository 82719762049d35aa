"""The editing rules in grammar/language-configuration.json keep to the markup."""

import json
from itertools import chain
from typing import Any

import pytest
import regex

from saywright.markup.lines import is_note
from saywright.markup.reader import read
from saywright.markup.tree import Paragraph

from .tokeniser import GRAMMAR

CONFIGURATION: dict[str, Any] = json.loads(
    GRAMMAR.with_name("language-configuration.json").read_text(encoding="utf-8")
)
# What VS Code reads from such a file; it passes over any other key in silence.
KEYS = {
    *("comments", "brackets", "colorizedBracketPairs", "autoClosingPairs", "autoCloseBefore"),
    *("surroundingPairs", "wordPattern", "onEnterRules", "folding", "indentationRules"),
}
WORDS = regex.compile(CONFIGURATION["wordPattern"]["pattern"])


def test_keys_are_those_that_an_editor_reads() -> None:
    assert set(CONFIGURATION) <= KEYS
    assert "u" in CONFIGURATION["wordPattern"]["flags"]


def test_a_line_put_aside_is_a_note() -> None:
    assert is_note(f"{CONFIGURATION['comments']['lineComment']} The lamp was lit.\n")


def _marks(text: str) -> int:
    (block,) = read(text).blocks
    assert isinstance(block, Paragraph)
    return len(block.spans) + len(block.directions)


def test_what_closes_by_itself_is_a_pair_of_marks_or_of_quotes() -> None:
    for pair in CONFIGURATION["autoClosingPairs"]:
        is_quote = pair["open"] in "“«"
        assert _marks(f"{pair['open']}lamp{pair['close']}\n") == (0 if is_quote else 1)
        assert pair["close"][0] in CONFIGURATION["autoCloseBefore"]


def test_every_mark_of_a_pair_can_be_put_around_a_selection() -> None:
    """An editor surrounds by one keystroke; a mark of two characters takes two."""
    surrounding = dict(CONFIGURATION["surroundingPairs"])
    for mark in ("(", "*", "__", "~~"):
        opening, closing = set(mark), set(chain(*(surrounding[key] for key in mark)))
        assert len(opening) == len(closing) == 1
        text = mark + "lamp" + "".join(surrounding[key] for key in mark) + "\n"
        assert _marks(text) == 1


@pytest.mark.parametrize(
    "text",
    [
        "lamp-room|'s not|(the)|*lamp*|__lit__|~~then~~".replace("|", " "),
        "o’clock l'eau forty-one Étang соль cafe\u0301 日本 42",
    ],
)
def test_a_double_click_takes_a_word_without_its_marks(text: str) -> None:
    bare = [word.strip("'()*_~") for word in text.split()]
    assert WORDS.findall(text) == bare


def test_a_note_broken_in_two_stays_a_note() -> None:
    (rule,) = CONFIGURATION["onEnterRules"]
    before = regex.compile(rule["beforeText"])
    assert before.search("# too neat? read")
    assert not before.search("#1 in the list")
    assert not before.search("Salt. # no note")
    assert is_note(rule["action"]["appendText"] + "it to someone\n")
