"""What is to be seen as something else than plain speech: cases from `tokens.txt`, and any text."""

import re
import time
from itertools import pairwise
from pathlib import Path

import pytest
from hypothesis import example, given

from saywright.analysis import analyse
from saywright.colouring.tokens import tokens
from saywright.markup.lines import is_blank
from saywright.markup.tree import Paragraph
from tests.cases import Case, read_cases
from tests.strategies import texts

CASES = read_cases(Path(__file__).with_name("tokens.txt"))


def told(text: str) -> list[str]:
    return [
        f"{kind} {item.block.text[start:end]}"
        for item in analyse(text).blocks.items()
        for kind, start, end in tokens(item.block)
    ]


@pytest.mark.parametrize("line_end", ["\n", "\r\n"], ids=["LF", "CRLF"])
@pytest.mark.parametrize("case", CASES, ids=str)
def test_tokens(case: Case, line_end: str) -> None:
    wanted = [] if case.expected == ("-",) else list(case.expected)
    assert told(case.text.replace("\n", line_end)) == wanted


@given(texts)
@example("# a\rb\n\n~~a\rb~~\n")
def test_any_text(text: str) -> None:
    for item in analyse(text).blocks.items():
        found = list(tokens(item.block))
        for _, start, end in found:
            assert 0 <= start < end <= len(item.block.text)
            written = item.block.text[start:end]
            assert not re.search(r"[\r\n]", written)
            assert written == written.strip()
        for one, other in pairwise(found):
            assert one.end <= other.start


@example("~~---- draft\n\u200f~~")
@given(texts)
def test_what_is_spoken_is_seen_as_what_it_is(text: str) -> None:
    for item in analyse(text).blocks.items():
        block = item.block
        if not isinstance(block, Paragraph):
            continue
        seen = {at: kind for kind, start, end in tokens(block) for at in range(start, end)}
        cut = {plain for where in block.cuts for plain in range(*where)}
        kept = {plain for where in block.keeps for plain in range(*where)}
        for plain, character in enumerate(block.plain):
            if not (character.isspace() or is_blank(character)):  # a mark of direction is blank
                kind = seen.get(block.source_of(plain))
                assert (kind == "cut") == (plain in cut)
                assert kind != "kept" or plain in kept
                assert plain not in kept or kind in ("kept", "stress")


LONG = ("a" * 100_000, "((" * 30_000, "__a" * 30_000, "*a *b" * 20_000, "a | ~~b~~ (2s) " * 6000)


@pytest.mark.slow
@pytest.mark.parametrize("text", LONG, ids=lambda text: text[:9])
def test_a_long_paragraph_takes_no_time(text: str) -> None:
    blocks = list(analyse(text).blocks.items())
    start = time.process_time()
    for item in blocks:
        list(tokens(item.block))
    assert time.process_time() - start < 5
