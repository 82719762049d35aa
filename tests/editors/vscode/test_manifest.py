"""What VS Code is told of the extension is what the server knows."""

import json
import re
from pathlib import Path
from typing import Any

from saywright.project import EDITOR_KEYS, NO_PROJECT
from saywright.protocol import semantic_tokens
from saywright.protocol.lens_commands import PLAN
from saywright.version import VERSION

EXTENSION = Path(__file__).parents[3] / "editors/vscode"
MANIFEST: dict[str, Any] = json.loads((EXTENSION / "package.json").read_text(encoding="utf-8"))
SETTINGS: dict[str, Any] = {
    name: setting
    for group in MANIFEST["contributes"]["configuration"]
    for name, setting in group["properties"].items()
}
SHOWN = {name: told for name, told in SETTINGS.items() if not name.startswith("saywright.server.")}


def source(name: str) -> str:
    return (EXTENSION / "src" / name).read_text(encoding="utf-8")


def key_of(setting: str) -> str:
    """`saywright.runningTime` is `running-time` in saywright.toml."""
    return re.sub("([A-Z])", r"-\1", setting.removeprefix("saywright.")).lower()


def test_every_setting_of_an_editor_can_be_set() -> None:
    assert {key_of(name) for name in SHOWN} == set(EDITOR_KEYS)
    sent = re.search(r"const KEYS = \[(.*)\]", source("settings.ts"))
    assert sent
    assert {f"saywright.{key}" for key in re.findall(r"'(\w+)'", sent[1])} == set(SHOWN)


def test_every_value_that_is_offered_is_understood_and_the_usual_is_the_server_s() -> None:
    for name, setting in SHOWN.items():
        key = EDITOR_KEYS[key_of(name)]
        values = setting.get("enum", [True, False])
        projects = [key.apply(NO_PROJECT, value) for value in values]
        assert len(set(map(repr, projects))) == len(values)
        assert key.apply(NO_PROJECT, setting["default"]) == NO_PROJECT
        assert len(setting.get("enumDescriptions", values)) == len(values)


def test_every_kind_of_token_has_the_colour_that_the_grammar_gives_it() -> None:
    (told,) = MANIFEST["contributes"]["semanticTokenScopes"]
    used = {
        ".".join((types[0], *modifiers)) for types, modifiers in semantic_tokens._LOOKS.values()
    }
    scopes = told["scopes"]
    assert {name for name in used if name.partition(".")[0] not in scopes} == set()
    assert {name for name in scopes if name not in used} == set()


def test_the_command_that_plans_is_the_server_s() -> None:
    assert f"PLAN = '{PLAN}'" in source("planning.ts")


def test_the_version_is_the_server_s() -> None:
    lock = json.loads((EXTENSION / "package-lock.json").read_text(encoding="utf-8"))
    versions = {MANIFEST["version"], lock["version"], lock["packages"][""]["version"]}
    assert versions == {VERSION}
