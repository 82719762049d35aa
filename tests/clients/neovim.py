"""A real Neovim without a screen, driven from outside as a test's client.

It runs as a writer's does, event loop and all; each question goes to it over `--server`. Its
settings, plugins and logs are in a folder of its own.
"""

import json
import os
import shutil
import subprocess
import sysconfig
import tempfile
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any, Self, TypeVar

T = TypeVar("T")

ANSWER_SECONDS = 10.0
WAIT_SECONDS = 20.0
_LOOK_EVERY_SECONDS = 0.05
_SCRIPTS = sysconfig.get_path("scripts")


def neovim_program() -> str | None:
    """Neovim beside this Python, or else on the PATH."""
    return shutil.which("nvim", path=_SCRIPTS) or shutil.which("nvim")


class Neovim:
    """`home` gets the settings and plugins; `init_lua` is what a writer has in init.lua."""

    def __init__(self, home: Path, init_lua: str = "") -> None:
        self.home = home
        self._program = str(neovim_program())
        self._init_lua = init_lua
        self._typed = 0
        self._process: subprocess.Popen[bytes] | None = None
        # an address of a socket may not be long, and a test's folder often is
        self._folder = tempfile.TemporaryDirectory(prefix="nvim")
        self._address = str(Path(self._folder.name) / "s")
        if os.name == "nt":
            self._address = rf"\\.\pipe\{Path(self._folder.name).name}"

    def start(self, *files: Path) -> Self:
        init = self.home / "config" / "nvim" / "init.lua"
        init.parent.mkdir(parents=True, exist_ok=True)
        init.write_text(self._init_lua, encoding="utf-8")
        command = [self._program, "--headless", "--listen", self._address]
        self._process = subprocess.Popen(
            [*command, "--", *map(str, files)],
            env=self._environment(),
            stdin=subprocess.DEVNULL,
            stdout=subprocess.DEVNULL,
            stderr=(self.home / "stderr").open("wb"),
            cwd=self.home,
        )
        self.wait_for("Neovim to have started", self._has_started, bool)
        # what installs from a package registry is a Python script, slower by far to start
        self._program = self._ask("v:progpath")
        return self

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        if self._process and self._process.poll() is None:
            self._process.kill()
            self._process.wait(ANSWER_SECONDS)
        self._folder.cleanup()

    def quit(self) -> int:
        """Leave as a writer does, without saving. Returns Neovim's exit code."""
        assert self._process
        self._remote("--remote-send", "<Esc>:qa!<CR>")
        return self._process.wait(ANSWER_SECONDS)

    def lua(self, body: str, *arguments: Any) -> Any:
        """What the function body returns, run in the editor with `arguments` as its `...`."""
        call = f"(function(...) {body} end)(unpack(vim.json.decode(_A)))"
        told = json.dumps(arguments, ensure_ascii=False)
        return json.loads(self._ask(f"json_encode(luaeval({_quoted(call)}, {_quoted(told)}))"))

    def keys(self, keys: str) -> None:
        """Type `keys`, which may name special ones as in `<Esc>`, until all have been taken in."""
        self._typed += 1
        self._remote("--remote-send", f"{keys}<Cmd>let g:typed = {self._typed}<CR>")
        self.wait_for(
            f"{keys!r} to be taken in", lambda: self.lua("return vim.g.typed"), self._typed.__eq__
        )

    def wait_for(self, what: str, look: Callable[[], T], is_there: Callable[[T], bool]) -> T:
        """What `look` gives once it satisfies `is_there`; an AssertionError if it never does."""
        deadline = time.monotonic() + WAIT_SECONDS
        while True:
            seen = look()
            if is_there(seen):
                return seen
            if time.monotonic() > deadline:
                raise AssertionError(
                    f"Waited {WAIT_SECONDS:.0f} s for {what}. Last seen: {seen!r}\n{self.log()}"
                )
            time.sleep(_LOOK_EVERY_SECONDS)

    def messages(self) -> str:
        """All that Neovim has told the writer so far."""
        return str(self.lua("return vim.fn.execute('messages')")).strip()

    def log(self) -> str:
        """The end of what was logged, by Neovim and by the server."""
        paths = [self.home / "stderr", *(self.home / "state").rglob("*.log")]
        texts = (path.read_text("utf-8", "replace") for path in paths if path.exists())
        return "\n".join(texts)[-3000:]

    def _has_started(self) -> bool:
        assert self._process
        assert self._process.poll() is None, f"Neovim has ended at once:\n{self.log()}"
        try:
            return bool(self._ask("v:vim_did_enter") == "1")
        except RuntimeError:
            return False

    def _ask(self, expression: str) -> str:
        return self._remote("--remote-expr", expression)

    def _remote(self, option: str, told: str) -> str:
        done = subprocess.run(
            [self._program, "--server", self._address, option, told],
            env=self._environment(),
            stdin=subprocess.DEVNULL,
            capture_output=True,
            timeout=ANSWER_SECONDS,
            check=False,
        )
        if done.returncode:
            raise RuntimeError(done.stderr.decode("utf-8", "replace"))
        return done.stdout.decode("utf-8")

    def _environment(self) -> dict[str, str]:
        kept = {name: value for name, value in os.environ.items() if not name.startswith("NVIM")}
        path = os.pathsep.join([_SCRIPTS, kept.get("PATH", "")])
        rooms = ("config", "data", "state", "cache", "runtime")
        own = {
            f"XDG_{room.upper()}_{'DIR' if room == 'runtime' else 'HOME'}": str(self.home / room)
            for room in rooms
        }
        return {**kept, **own, "PATH": path, "NVIM_LOG_FILE": str(self.home / "state" / "nvim.log")}


def _quoted(text: str) -> str:
    """`text` as a Vimscript string."""
    return "'" + text.replace("'", "''") + "'"
