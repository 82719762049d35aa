"""A real Emacs in a terminal of its own, driven from outside as a test's client.

It runs as a writer's does, redisplay and all; each question goes to it over `emacsclient`, and its
answer comes back as JSON in a file. Needs a system with pseudo-terminals.
"""

import json
import os
import shutil
import subprocess
import tempfile
import threading
import time
from pathlib import Path
from typing import Any, Self

ANSWER_SECONDS = 20.0
WAIT_SECONDS = 30.0
_LOOK_EVERY_SECONDS = 0.05
_LINES, _COLUMNS = 50, 120


def emacs_program() -> str | None:
    """Emacs on the PATH, with the client that talks to it, where there are terminals."""
    if os.name != "posix" or not shutil.which("emacsclient"):
        return None
    return shutil.which("emacs")


def emacs_version() -> tuple[int, ...]:
    program = emacs_program()
    if program is None:
        return ()
    told = subprocess.run([program, "--version"], capture_output=True, text=True, check=True)
    return tuple(map(int, told.stdout.split("\n", 1)[0].split()[-1].split(".")))


class Emacs:
    """`home` gets what Emacs writes; `init` is what a writer has in the init file."""

    def __init__(self, home: Path, init: str) -> None:
        self.home = home
        self._init = init
        # an address of a socket may not be long, and a test's folder often is
        self._folder = tempfile.TemporaryDirectory(prefix="emacs")
        self._process: subprocess.Popen[bytes] | None = None
        self._terminal = -1
        self._drawn = b""

    def start(self, file: Path) -> Self:
        import fcntl  # noqa: PLC0415  not on every system
        import pty  # noqa: PLC0415
        import struct  # noqa: PLC0415
        import termios  # noqa: PLC0415

        init = self.home / "init.el"
        init.write_text(
            f'(setq server-socket-dir "{self._folder.name}" inhibit-startup-screen t)\n'
            f"(require 'server)\n(server-start)\n{self._init}\n",
            encoding="utf-8",
        )
        self._terminal, terminal = pty.openpty()
        fcntl.ioctl(terminal, termios.TIOCSWINSZ, struct.pack("HHHH", _LINES, _COLUMNS, 0, 0))
        self._process = subprocess.Popen(
            [str(emacs_program()), "-nw", "-Q", "-l", str(init), str(file)],
            env={**os.environ, "HOME": str(self.home), "TERM": "xterm", "LC_ALL": "C.UTF-8"},
            stdin=terminal,
            stdout=terminal,
            stderr=terminal,
            cwd=self.home,
            start_new_session=True,
            preexec_fn=lambda: fcntl.ioctl(0, termios.TIOCSCTTY, 0),  # noqa: PLW1509
        )
        os.close(terminal)
        threading.Thread(target=self._read_screen, daemon=True).start()
        self.wait_for("Emacs to have started", "t")
        return self

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        if self._process:
            self._process.kill()
            self._process.wait()
            os.close(self._terminal)
        self._folder.cleanup()

    def _read_screen(self) -> None:
        """What nobody reads would hold Emacs up."""
        try:
            while drawn := os.read(self._terminal, 65536):
                self._drawn = (self._drawn + drawn)[-300:]
        except OSError:
            return

    def quit(self) -> None:
        """As a writer does, without saving."""
        assert self._process
        self._ask("(run-with-timer 0 nil (lambda () (set-buffer-modified-p nil) (kill-emacs)))")
        self._process.wait(ANSWER_SECONDS)

    def type(self, keys: str) -> None:
        """As at the keyboard; what Emacs does when it has been idle it does after this again."""
        os.write(self._terminal, keys.encode())

    def lisp(self, form: str) -> Any:
        """What `form` gives in the selected window, as JSON has it (null and false are nil)."""
        answer = self.home / "answer.json"
        tried = f"(condition-case why (vector (progn {form})) (error (error-message-string why)))"
        self._ask(
            "(with-selected-window (frame-selected-window (car (last (frame-list))))"
            f"(let ((told (json-serialize {tried} :null-object nil :false-object :no)))"
            f'(with-temp-file "{answer}" (set-buffer-file-coding-system \'utf-8-unix)'
            "(set-buffer-multibyte nil) (insert told))))"
        )
        told = json.loads(answer.read_text("utf-8"))
        answer.unlink()
        assert isinstance(told, list), f"{told} in {form}"
        return told[0]

    def _ask(self, form: str) -> None:
        done = subprocess.run(
            ["emacsclient", "-s", str(Path(self._folder.name) / "server"), "--eval", form],
            capture_output=True,
            text=True,
            timeout=ANSWER_SECONDS,
            check=False,
        )
        if done.returncode:
            raise AssertionError(f"{done.stderr.strip()} in {form}")

    def wait_for(self, what: str, form: str) -> Any:
        """What `form` gives as soon as that is not nil."""
        until = time.monotonic() + WAIT_SECONDS
        last: object = None
        while time.monotonic() < until:
            try:
                if found := self.lisp(form):
                    return found
            except (AssertionError, FileNotFoundError) as error:
                last = error
            time.sleep(_LOOK_EVERY_SECONDS)
        drawn = self._drawn.decode("utf-8", "replace")
        raise AssertionError(f"Waited {WAIT_SECONDS:.0f} s for {what}: {last}\n{drawn!r}")
