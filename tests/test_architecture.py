"""Data flows one way: which room may import which, and who may touch the disk or the protocol."""

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

import saywright

PACKAGE = Path(saywright.__file__).parent

# each room, and the rooms it may import from beside itself; modules at the top are rooms too
MAY_IMPORT: dict[str, set[str]] = {
    "finding": set(),
    "measured": set(),
    "version": set(),
    "markup": {"finding"},
    "language": {"finding"},
    "project": {"finding", "markup"},
    "preferences": {"finding", "markup", "project"},
    "speech": {"finding", "markup", "measured", "language", "project"},
    "cuts": {"finding", "markup", "language", "speech", "checks", "analysis"},
    "drafting": {"finding", "markup", "language", "speech", "cuts", "analysis"},
    "checks": {"finding", "markup", "project", "speech", "language", "cuts"},
    "passages": {"finding", "markup", "project", "speech", "checks"},
    "reporting": {"finding", "markup", "project", "checks"},
    "analysis": {
        *("finding", "markup", "measured", "project", "speech"),
        *("checks", "passages", "reporting"),
    },
    "leaving_out": {"finding", "markup", "analysis"},
    "explaining": {
        *("finding", "markup", "language", "project", "speech", "checks", "analysis"),
    },
    "completing": {
        *("finding", "markup", "project", "speech", "checks", "analysis", "naming"),
    },
    "navigating": {"markup", "speech", "cuts", "drafting", "analysis", "naming"},
    "outlining": {
        *("finding", "markup", "measured", "language", "project", "speech", "checks"),
        *("analysis", "explaining"),
    },
    "comparing": {"markup", "speech", "checks", "analysis"},
    "colouring": {"finding", "markup"},
    "naming": {"finding", "markup", "language", "project", "speech", "analysis"},
    "rereading": {"finding", "markup", "project", "speech", "passages", "analysis"},
    "inspection": {
        *("finding", "markup", "language", "project", "speech"),
        *("checks", "reporting", "analysis"),
    },
    "recording": {"finding", "markup", "measured", "project", "speech", "analysis"},
    "files": {"project", "checks"},
    "history": set(),
    "positions": {"speech"},
}
EDGE = {"protocol", "commands", "files", "history", "__main__"}
PROTOCOL = {"pygls", "lsprotocol", "cattrs", "asyncio"}
OUTSIDE_WORLD = {"os", "io", "pathlib", "sys", "socket", "subprocess", "urllib", "http", "shutil"}
NETWORK = {"socket", "http", "urllib.request", "ssl", "ftplib", "smtplib", "requests", "aiohttp"}


def modules() -> list[Path]:
    return sorted(PACKAGE.rglob("*.py"))


def room_of(path: Path) -> str:
    first = path.relative_to(PACKAGE).parts[0]
    return first.removesuffix(".py")


def imports(path: Path) -> Iterator[str]:
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            yield node.module or ""


@pytest.mark.parametrize("path", modules(), ids=lambda path: str(path.relative_to(PACKAGE)))
def test_imports_go_one_way(path: Path) -> None:
    room = room_of(path)
    names = list(imports(path))
    own = {name.split(".")[1] for name in names if name.startswith("saywright.")}
    if room in MAY_IMPORT:
        assert own <= MAY_IMPORT[room] | {room}
    if room != "protocol":
        assert not PROTOCOL & {name.split(".")[0] for name in names}
    if room not in EDGE:
        assert not OUTSIDE_WORLD & {name.split(".")[0] for name in names}
    assert not NETWORK & set(names)


def test_every_room_has_its_rule() -> None:
    rooms = {room_of(path) for path in modules()}
    assert rooms - set(MAY_IMPORT) - EDGE - {"__init__"} == set()


def test_the_command_line_loads_no_protocol() -> None:
    for path in modules():
        if room_of(path) == "commands":
            top = ast.parse(path.read_text("utf-8")).body
            loaded = [node.module or "" for node in top if isinstance(node, ast.ImportFrom)]
            assert not any(name.startswith("saywright.protocol") for name in loaded)
