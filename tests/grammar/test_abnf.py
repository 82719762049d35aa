"""say.abnf against the parser and the corpus, by a general ABNF library."""

import re
import sys
from functools import cache
from pathlib import Path
from random import Random

import pytest
from abnf import ParseError, Rule
from abnf.parser import ABNFGrammarRule

from saywright.markup.reader import read
from saywright.markup.tree import Block, Note, Paragraph

from .cases import Case, read_cases
from .suited import Sentence, is_letter, is_opener, ranges, sentence

ABNF = (Path(__file__).parents[2] / "grammar" / "say.abnf").read_text(encoding="ascii")
WITHOUT_COMMENTS = re.sub(r';.*|"[^"]*"|%[^ ]*', "", re.sub('";"', "", ABNF))
NAMES = set(re.findall(r"^([a-z-]+) +=", WITHOUT_COMMENTS, re.MULTILINE))
CASES = tuple(read_cases())
SEEDS = range(250)
OVERLAPPING = {"stress overlaps a keep"}  # read without a problem, but beyond the grammar (5)


class Say(Rule):
    """The rules of say.abnf."""


Say.load_grammar(ABNF)


@cache
def _derived(seed: int) -> Sentence:
    return sentence(Say, Random(seed))


def _parses(rule: str, text: str) -> bool:
    try:
        Say(rule).parse_all(text)
    except ParseError:
        return False
    return True


def _conforms(text: str) -> bool:
    """Whether the file is one of the grammar's, and each block one of its kind."""
    blocks = read(text.removeprefix("\ufeff")).blocks
    return _parses("file", text) and all(map(_block_conforms, blocks))


def _block_conforms(block: Block) -> bool:
    lines = block.text.removesuffix("\n").removesuffix("\r")
    parts = lines.split("\n") if isinstance(block, Note) else [lines]
    return all(_parses(type(block).__name__.lower(), part) for part in parts)


def test_the_grammar_is_abnf_and_whole() -> None:
    assert ABNFGrammarRule("rulelist").parse_all(ABNF.replace("\n", "\r\n"))
    assert "file" in NAMES
    for name in NAMES | set(re.findall(r"\b[a-z]+(?:-[a-z]+)*\b", WITHOUT_COMMENTS)):
        assert Say(name).definition, name


def test_every_rule_is_used() -> None:
    used: set[str] = set()
    for seed in SEEDS:
        used |= _derived(seed).rules
    # a cue's name is one of the list's, and "rule" is for who looks for one kind of line
    assert NAMES - used == {"cue-letter", "rule"}


@pytest.mark.parametrize("seed", SEEDS)
def test_what_is_derived_is_read_without_a_problem(seed: int) -> None:
    derived = _derived(seed)
    script = read(derived.text)
    assert [problem for block in script.blocks for problem in block.problems] == []
    assert script.text == derived.text
    paragraphs = [block for block in script.blocks if isinstance(block, Paragraph)]
    assert sum(len(paragraph.spans) for paragraph in paragraphs) == derived.spans
    alone = sum(block.text.count("\n") or 1 for block in script.blocks if isinstance(block, Note))
    assert sum(len(paragraph.notes) for paragraph in paragraphs) + alone == derived.notes


@pytest.mark.parametrize("case", CASES, ids=lambda case: f"{case.file}: {case.name}")
def test_the_corpus_conforms_where_it_says_so(case: Case) -> None:
    """A problem signed `!` is one that the grammar rules out, `?` one of context."""
    expected = "!" not in case.signs and case.name not in OVERLAPPING
    assert _conforms(case.text) == expected


def test_characters_are_in_their_unicode_class() -> None:
    for name, belongs in (("far-letter", is_letter), ("far-opener", is_opener)):
        for first, last in ranges(Say, name):
            assert all(belongs(chr(code)) for code in range(ord(first), ord(last) + 1)), first


def test_every_character_has_one_class() -> None:
    counted = bytearray(sys.maxunicode + 1)
    for name in ("far-letter", "far-opener", "other"):
        for first, last in ranges(Say, name):
            for code in range(ord(first), ord(last) + 1):
                counted[code] += 1
    for code in range(sys.maxunicode + 1):
        is_elsewhere = chr(code).isspace() or 0x21 <= code <= 0x7E or 0xD800 <= code <= 0xDFFF
        assert counted[code] == (not is_elsewhere), hex(code)
