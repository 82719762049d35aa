"""Neovim with Saywright in it and a script open: what it shows, and what a writer does there."""

import shutil
import sys
from pathlib import Path
from typing import Any, NamedTuple

import pytest

from ..clients.neovim import Neovim
from ..clients.telling_server import TEXT

PLUGIN = Path(__file__).parents[2] / "editors" / "neovim"
TELLING_SERVER = Path(__file__).parents[1] / "clients" / "telling_server.py"
ENCODINGS = ("utf-8", "utf-16", "utf-32")
SOME_ENCODINGS = [
    "utf-16",
    *(pytest.param(each, marks=pytest.mark.slow) for each in ("utf-8", "utf-32")),
]
"""Each as a parameter; in the quick tests Neovim is opened with one."""

BUFFER_TEXT = """
local ending = vim.bo.fileformat == 'dos' and '\\r\\n' or '\\n'
local text = table.concat(vim.api.nvim_buf_get_lines(0, 0, -1, true), ending)
return text .. (vim.bo.endofline and ending or '')
"""
SERVER_TEXT = """
local client = vim.lsp.get_clients({ bufnr = 0, name = 'saywright' })[1]
local told = { uri = vim.uri_from_bufnr(0) }
local answer, problem = client:request_sync(..., told, 5000, vim.fn.bufnr())
assert(answer, problem)
return answer.result or answer.err
"""
HINTS = """
return vim.iter(vim.lsp.inlay_hint.get({ bufnr = 0 })):map(function(each)
  local place = each.inlay_hint.position  -- its character is a byte column by now
  local line = vim.api.nvim_buf_get_lines(0, place.line, place.line + 1, false)[1]
  return { place.line, each.inlay_hint.label, place.character == #(line or '') }
end):totable()
"""
DIAGNOSTICS = """
local found = vim.iter(vim.diagnostic.get(0)):map(function(each)
  return { each.code, each.message, each.lnum, each.col, each.end_lnum, each.end_col }
end):totable()
return { vim.api.nvim_buf_get_lines(0, 0, -1, true), found }
"""
APPLY = """
local title = ...
vim.lsp.buf.code_action({
  apply = true,
  filter = function(action) return action.title == title end,
})
"""


class Diagnostic(NamedTuple):
    """What Neovim shows: the check, its first line from 0, the words marked, and the message."""

    check: str
    line: int
    words: str
    message: str


class Hint(NamedTuple):
    line: int
    label: str
    at_line_end: bool


class Editor(Neovim):
    """Neovim with a script open in it."""

    def buffer(self) -> str:
        return str(self.lua(BUFFER_TEXT))

    def server(self) -> dict[str, Any]:
        return dict(self.lua(SERVER_TEXT, TEXT))

    def hints(self) -> list[Hint]:
        return sorted(Hint(*each) for each in self.lua(HINTS))

    def diagnostics(self) -> list[Diagnostic]:
        lines, found = self.lua(DIAGNOSTICS)
        return sorted(
            Diagnostic(check, place[0], words_at(lines, *place), message)
            for check, message, *place in found
        )

    def found(self, check: str) -> list[Diagnostic]:
        return [each for each in self.diagnostics() if each.check == check]

    def wait_for_findings(self) -> None:
        self.wait_for("the running time's diagnostic", self.diagnostics, bool)
        self.wait_for("an inlay hint", self.hints, bool)

    def put_cursor_on(self, words: str) -> None:
        line, column = place_of(self.buffer(), words)
        self.lua("vim.api.nvim_win_set_cursor(0, {...})", line + 1, column)

    def apply(self, title: str) -> str:
        """Take the code action of that title at the cursor. Returns the text that it makes."""
        before = self.buffer()
        self.lua(APPLY, title)
        return self.wait_for(
            f"the action “{title}” to change the text (Neovim says: {self.messages()!r})",
            self.buffer,
            lambda text: text != before,
        )


def words_at(lines: list[str], line: int, column: int, end_line: int, end_column: int) -> str:
    """The words at lines from 0 and columns in bytes, which may be those of an older text."""
    encoded = [each.encode() for each in lines[line : end_line + 1]]
    if encoded:
        encoded[-1] = encoded[-1][:end_column]
        encoded[0] = encoded[0][column:]
    return b"\n".join(encoded).decode(errors="replace")


def place_of(text: str, words: str) -> tuple[int, int]:
    """The line from 0, and the column in bytes, where `words` first stand."""
    before = text[: text.index(words)].split("\n")
    return len(before) - 1, len(before[-1].encode())


def with_server(*arguments: str, encodings: tuple[str, ...] = ENCODINGS) -> str:
    """An init.lua that starts the telling server."""
    command = ", ".join(f"[[{word}]]" for word in (sys.executable, str(TELLING_SERVER), *arguments))
    listed = ", ".join(f"'{encoding}'" for encoding in encodings)
    return (
        f"vim.lsp.config('saywright', {{ cmd = {{ {command} }},\n"
        f"capabilities = {{ general = {{ positionEncodings = {{ {listed} }} }} }} }})"
    )


def installed(home: Path, init_lua: str) -> Editor:
    """An editor with the plugin copied to where Neovim looks for packages."""
    shutil.copytree(PLUGIN, home / "data/nvim/site/pack/saywright/start/saywright")
    return Editor(home, init_lua)


def script_in(folder: Path, text: str, name: str = "salt_wagon.say") -> Path:
    path = folder / name
    path.write_bytes(text.encode())
    return path
