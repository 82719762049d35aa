"""The TextMate grammar colours what the server's parser finds, but for what is listed."""

import json
from collections.abc import Iterator, Sequence
from typing import Any

import pytest

from .comparison import disagreements
from .kinds import SCOPED_KINDS, by_colours, by_server
from .texts import known_disagreements, texts_by_name
from .tokeniser import GRAMMAR, Token, seconds_for, tokens_of

TEXTS = texts_by_name()
KNOWN = known_disagreements("disagreements.toml")


@pytest.fixture(scope="module")
def tokens_by_name() -> dict[str, list[Token]]:
    return dict(zip(TEXTS, tokens_of(list(TEXTS.values())), strict=True))


@pytest.mark.parametrize("name", TEXTS)
def test_colours_agree_with_the_server(name: str, tokens_by_name: dict[str, list[Token]]) -> None:
    assert _differences(TEXTS[name], tokens_by_name[name]) == KNOWN.get(name, [])


def _differences(text: str, tokens: Sequence[Token]) -> list[str]:
    server = list(by_server(text))
    return disagreements(text, server, by_colours(tokens, server), SCOPED_KINDS)


def test_only_texts_that_are_there_are_listed() -> None:
    assert set(KNOWN) <= set(TEXTS)


def test_a_mark_without_its_colour_is_found() -> None:
    for name, text in TEXTS.items():
        seen = {mark.kind for mark in by_server(text) if text[mark.start : mark.end].strip()}
        assert {line.split()[2] for line in _differences(text, [])} == seen & SCOPED_KINDS, name


def test_every_kind_of_mark_is_met() -> None:
    kinds = {mark.kind for text in TEXTS.values() for mark in by_server(text)}
    assert kinds >= SCOPED_KINDS


# The first words of a scope are those that colour themes know.
THEMED = (
    *("comment.line", "comment.block", "constant.numeric", "constant.language", "constant.other"),
    *("constant.character.escape", "entity.name.section", "entity.name.type", "keyword.control"),
    *("keyword.operator", "keyword.other", "markup.heading", "markup.inserted", "markup.italic"),
    *("markup.deleted", "markup.strikethrough", "markup.underline", "punctuation."),
    *("string.unquoted", "variable.other", "meta."),
)


def test_scopes_are_those_that_themes_know() -> None:
    grammar = json.loads(GRAMMAR.read_text(encoding="utf-8"))
    assert grammar["scopeName"] == "text.say"
    for scopes in _values(grammar["repository"], "name", "contentName"):
        for scope in scopes.split():
            assert scope.startswith(THEMED)
            assert scope.endswith(".say")


def test_every_rule_is_there_and_used() -> None:
    grammar = json.loads(GRAMMAR.read_text(encoding="utf-8"))
    assert {f"#{name}" for name in grammar["repository"]} == set(_values(grammar, "include"))


def _values(rule: Any, *keys: str) -> Iterator[str]:
    if isinstance(rule, list):
        for item in rule:
            yield from _values(item, *keys)
    elif isinstance(rule, dict):
        for key, value in rule.items():
            if key in keys and isinstance(value, str):
                yield value
            else:
                yield from _values(value, *keys)


UNITS = (
    *("*a ", "a* ", "__a ", "~~a ", "*a __b ~~c ", "( ", ") ", "(a, 3s ", "(pause  ", "(beat) "),
    *("*", "_", "~", "|", "\\", "(", "-", "#", ":", ";", ",", " ", "9", "a", "\\(", "1m", "a b "),
)
STARTS = (
    *("", "(", "(pause", "title: ", "slot: ", "speaker: ", "Ines", "---- ", "---- takes\n"),
    *("---- takes\n9s of ", "---- notes\n", "---- draft;", "---- draft: a; slot "),
)


@pytest.mark.slow
def test_time_is_linear() -> None:
    """Four times the line takes about four times as long; quadratic work would take sixteen."""
    edges = [(start, unit, end) for start in STARTS for unit in UNITS for end in ("", "a)")]
    for _ in range(4):  # what a busy machine held up is not held up each time
        edges = [edge for edge, growth in zip(edges, _growths(edges), strict=True) if growth > 9]
        if not edges:
            break
    assert not edges


def _growths(edges: Sequence[tuple[str, str, str]]) -> Iterator[float]:
    shorter = [start + unit * (2_000 // len(unit)) + end for start, unit, end in edges]
    longer = [start + unit * (8_000 // len(unit)) + end for start, unit, end in edges]
    clock_grain_seconds = 0.001
    for short, long in zip(seconds_for(shorter), seconds_for(longer), strict=True):
        yield (long - clock_grain_seconds) / (short + clock_grain_seconds)
