"""The tree-sitter grammar: built with the C compiler, and what its tree takes a text for."""

import ctypes
import os
import shutil
import subprocess
from collections.abc import Callable, Iterator
from itertools import accumulate
from pathlib import Path

import pytest
from tree_sitter import Language, Node

from .kinds import Marked
from .tokeniser import GRAMMAR

FOLDER = GRAMMAR.with_name("tree-sitter-say")
_NODES = {
    **{kind: kind for kind in ("note", "aside", "setting", "rule", "label", "key", "cue")},
    **{kind: kind for kind in ("direction", "stress", "keep", "cut", "breath", "escape")},
    "take": "take line",
}
NODE_KINDS = {*_NODES.values(), "silence", "speech"}


def built_language(folder: Path) -> Language:
    """The grammar, compiled into `folder`. Without a compiler the test is left out, save in CI."""
    if not shutil.which("cc"):
        if os.environ.get("CI"):
            pytest.fail("there is no C compiler, and CI leaves no test out")
        pytest.skip("there is no C compiler")
    library = folder / "say.so"
    sources = [str(FOLDER / "src" / name) for name in ("parser.c", "scanner.c")]
    strict = ("-std=c11", "-Wall", "-Wextra", "-Werror")
    command = ["cc", *strict, "-O1", "-shared", "-fPIC", f"-I{FOLDER / 'src'}", "-o", str(library)]
    built = subprocess.run([*command, *sources], capture_output=True, text=True, check=False)
    assert built.returncode == 0, built.stderr
    language = ctypes.CDLL(str(library)).tree_sitter_say
    language.restype = ctypes.c_void_p
    capsule = ctypes.pythonapi.PyCapsule_New
    capsule.restype = ctypes.py_object
    capsule.argtypes = (ctypes.c_void_p, ctypes.c_char_p, ctypes.c_void_p)
    return Language(capsule(language(), b"tree_sitter.Language", None))


def by_tree(text: str, root: Node) -> Iterator[Marked]:
    """`root`: of the tree of `text` in UTF-8."""
    code_point = _code_points(text)
    for node in nodes(root):
        start, end = code_point(node.start_byte), code_point(node.end_byte)
        if node.type in _NODES:
            yield Marked(_NODES[node.type], start, end)
        elif node.type == "silence":
            yield Marked("silence", start, end)
            yield Marked("direction", start, end)
        elif node.type == "paragraph":
            for note in (child for child in nodes(node) if child.type == "note"):
                yield Marked("speech", start, code_point(note.start_byte))
                start = code_point(note.end_byte)
            yield Marked("speech", start, end)


def nodes(root: Node) -> Iterator[Node]:
    """`root` and all below it, in the text's order."""
    waiting = [root]
    while waiting:
        node = waiting.pop()
        yield node
        waiting += reversed(node.children)


def _code_points(text: str) -> Callable[[int], int]:
    starts = accumulate((len(character.encode()) for character in text), initial=0)
    return {byte: offset for offset, byte in enumerate(starts)}.__getitem__
