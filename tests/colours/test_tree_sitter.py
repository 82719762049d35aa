"""The tree-sitter grammar's tree says what the server's says, but for what is listed."""

import json
import random
import shutil
import subprocess
import time
from pathlib import Path

import pytest
from tree_sitter import Language, Parser, Query, QueryCursor, Tree

from saywright.markup.reader import read
from saywright.markup.tree import Paragraph

from .comparison import disagreements
from .kinds import by_server
from .syntax_tree import FOLDER, NODE_KINDS, built_language, by_tree, nodes
from .texts import known_disagreements, texts_by_name

TEXTS = texts_by_name()
KNOWN = known_disagreements("tree_disagreements.toml")


@pytest.fixture(scope="module")
def language(tmp_path_factory: pytest.TempPathFactory) -> Language:
    return built_language(tmp_path_factory.mktemp("tree-sitter-say"))


@pytest.fixture(scope="module")
def parser(language: Language) -> Parser:
    return Parser(language)


@pytest.mark.parametrize("name", TEXTS)
def test_trees_agree_with_the_server(name: str, parser: Parser) -> None:
    text = TEXTS[name]
    root = parser.parse(text.encode()).root_node
    assert not root.has_error, str(root)
    lines = disagreements(text, by_server(text), by_tree(text, root), NODE_KINDS)
    assert lines == KNOWN.get(name, [])
    paragraphs = [block for block in read(text).blocks if isinstance(block, Paragraph)]
    assert len([node for node in nodes(root) if node.type == "paragraph"]) == len(paragraphs)


def test_only_texts_that_are_there_are_listed() -> None:
    assert set(KNOWN) <= set(TEXTS)


def test_every_kind_of_node_is_met() -> None:
    kinds = {mark.kind for text in TEXTS.values() for mark in by_server(text)}
    assert kinds >= NODE_KINDS


TYPED = ("", "*", "__", "~~", "|", "(", ")", "\\", "\n", "\n\n", "# ", "----", ":", "a", " ", "é")


def test_an_edit_gives_the_tree_of_the_whole(parser: Parser) -> None:
    """What an editor does: the old tree is told of an edit and read again where it changed."""
    chance = random.Random(4)
    texts = sorted(TEXTS.values(), key=len)
    for text in chance.sample(texts, 150):
        before = text.encode()
        tree = parser.parse(before)
        for _ in range(8):
            after = _edited(tree, before, chance)
            tree = parser.parse(after, tree)
            assert str(tree.root_node) == str(parser.parse(after).root_node), (before, after)
            before = after


def _edited(tree: Tree, before: bytes, chance: random.Random) -> bytes:
    """`before` with a few code points replaced, of which `tree` is told."""
    text = before.decode()
    start = chance.randint(0, len(text))
    kept = text[start + chance.choice((0, 0, 1, 2, 9)) :].encode()
    head, typed = text[:start].encode(), chance.choice(TYPED).encode()
    old_end, new_end = len(before) - len(kept), len(head) + len(typed)
    after = head + typed + kept
    tree.edit(
        len(head),
        old_end,
        new_end,
        _point(before, len(head)),
        _point(before, old_end),
        _point(after, new_end),
    )
    return after


def _point(text: bytes, offset: int) -> tuple[int, int]:
    return text.count(b"\n", 0, offset), offset - text.rfind(b"\n", 0, offset) - 1


@pytest.mark.parametrize("unit", ["*a ", "( ", "~~a\n", "(a) __b__ ", "\n", "a", "Ines:\n"])
def test_time_is_linear(unit: str, parser: Parser) -> None:
    """Four times the text takes about four times as long; quadratic work would take sixteen."""
    characters, clock_grain_seconds = 8_000, 0.01
    for _ in range(3):  # what a busy machine held up is not held up each time
        short, long = (
            _seconds_for(parser, "speaker: Ines\n\n" + unit * (size // len(unit)))
            for size in (characters, 4 * characters)
        )
        if long < 9 * short + clock_grain_seconds:
            return
    pytest.fail(f"{long:.3f} s after {short:.3f} s")


def _seconds_for(parser: Parser, text: str) -> float:
    start = time.process_time()
    parser.parse(text.encode())
    return time.process_time() - start


COLOURED = """\
speaker: Ines
slot: 60-90s

---- draft: the lamp; timer 5 min
Ines: (at the rail)
*Nobody* __waits__ | ~~at all~~ \\* (beat)
# too neat?
---- notes
ask her
"""
CAPTURES = {
    "property": ["speaker", "slot", "timer"],
    "string": ["Ines", "60-90s", "5 min"],
    "number": ["60-90s", "5 min"],
    "punctuation.special": ["----", "----"],
    "keyword": ["draft", "notes"],
    "type": ["Ines"],
    "comment": ["(at the rail)", "# too neat?", "ask her"],
    "constant.builtin": ["(beat)"],
    "markup.italic": ["*Nobody*"],
    "markup.underline": ["__waits__"],
    "markup.strikethrough": ["~~at all~~"],
    "operator": ["|"],
    "string.escape": ["\\*"],
}


def _captures(language: Language, parser: Parser, query: str) -> dict[str, list[str]]:
    source = (FOLDER / "queries" / query).read_text(encoding="utf-8")
    root = parser.parse(COLOURED.encode()).root_node
    return {
        name: [COLOURED.encode()[node.start_byte : node.end_byte].decode() for node in found]
        for name, found in QueryCursor(Query(language, source)).captures(root).items()
    }


def test_colours(language: Language, parser: Parser) -> None:
    captures = _captures(language, parser, "highlights.scm")
    headings = captures.pop("markup.heading")
    assert {name: sorted(texts) for name, texts in captures.items()} == {
        name: sorted(texts) for name, texts in CAPTURES.items()
    }
    assert "the lamp" in headings
    assert "---- notes\n" in headings


def test_folds(language: Language, parser: Parser) -> None:
    parts = [text for text in _captures(language, parser, "folds.scm")["fold"] if "----" in text]
    assert [part.count("\n") for part in parts] == [4, 2]


def test_notes_are_handed_to_the_comment_grammar(language: Language, parser: Parser) -> None:
    captures = _captures(language, parser, "injections.scm")
    assert captures == {"injection.content": ["# too neat?"]}


def test_the_parser_is_of_this_grammar(tmp_path: Path) -> None:
    """Only where the generator is installed; elsewhere the corpus has to tell."""
    if not shutil.which("tree-sitter"):
        pytest.skip("tree-sitter's generator is not installed")
    copy = shutil.copytree(FOLDER, tmp_path / "tree-sitter-say")
    command = ["tree-sitter", "generate", "--no-bindings"]
    subprocess.run(command, cwd=copy, check=True, capture_output=True)
    made = json.loads((copy / "src" / "grammar.json").read_text(encoding="utf-8"))
    assert made == json.loads((FOLDER / "src" / "grammar.json").read_text(encoding="utf-8"))
