"""The editors that need settings and no code: their files say what Saywright is, in their words.

Each file is read by a parser of its own format. The colours of two are made by programs that read
the editor's own files: Kate's highlighter, and `bat`, which reads Sublime Text's. They come with
Debian's libkf5syntaxhighlighting-tools and bat; without them those tests are skipped.
"""

import json
import os
import plistlib
import re
import shutil
import subprocess
import tomllib
from collections.abc import Iterable
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

import pytest

from saywright.commands.main import main
from saywright.markup.settings import KEYS
from saywright.markup.tree import KINDS

EDITORS = Path(__file__).parents[2] / "editors"
GRAMMAR = EDITORS.parent / "grammar"
COMMAND = ["saywright", "serve"]
KATE = shutil.which("kate-syntax-highlighter") or shutil.which("ksyntaxhighlighter6")
_PUNCTUATION = "38;5;255"  # what the theme gives a colon
BAT = shutil.which("bat") or shutil.which("batcat")

SCRIPT = """\
slot: 60s
speaker: Ines
# a note

---- piece: a; pace 90 wpm
Ines: (2s)
slot: no setting here
I ~~weigh
the salt~~ and __never__ *cheat* (he
sits, 3s). | So. (beat) a~~b 2*3*4 \\*x
# a note ~~of mine

I ~~left

it open~~ here.
"""
COLOURED = [
    ("slot:", "key"),
    (" 60s", "value"),
    ("speaker:", "key"),
    (" Ines", "value"),
    ("# a note", "note"),
    ("----", "rule"),
    ("piece", "kind"),
    (": a; pace 90 wpm", "label"),
    ("Ines:", "cue"),
    ("(2s)", "direction"),
    ("~~weigh", "cut"),
    ("the salt~~", "cut"),
    ("__never__", "kept"),
    ("*cheat*", "stress"),
    ("(he", "direction"),
    ("sits, 3s)", "direction"),
    ("|", "breath"),
    ("(beat)", "direction"),
    ("\\*", "escape"),
    ("# a note ~~of mine", "note"),
    ("~~left", "cut"),  # an open mark: it reaches to its paragraph's end, and no further
]


def read_json(*names: str) -> Any:
    return json.loads(EDITORS.joinpath(*names).read_text("utf-8"))


def read_toml(*names: str) -> dict[str, Any]:
    return tomllib.loads(EDITORS.joinpath(*names).read_text("utf-8"))


def test_the_command_that_they_start_is_there(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as stopped:
        main([*COMMAND[1:], "--help"])
    assert stopped.value.code == 0
    assert capsys.readouterr().out.startswith(f"usage: {' '.join(COMMAND)}")


def test_helix() -> None:
    """By its keys as they are remembered: it has no schema to check against."""
    languages = read_toml("helix", "languages.toml")
    assert set(languages) == {"language-server", "language", "grammar"}
    assert languages["language-server"] == {
        "saywright": {"command": COMMAND[0], "args": COMMAND[1:]}
    }
    (language,) = languages["language"]
    assert language == {
        "name": "say",
        "scope": "text.say",
        "file-types": ["say"],
        "roots": ["saywright.toml"],
        "comment-token": "#",
        "language-servers": ["saywright"],
        "soft-wrap": {"enable": True},
    }
    (grammar,) = languages["grammar"]
    assert grammar["name"] == "say"
    folder = GRAMMAR / Path(grammar["source"]["path"]).name
    assert (folder / "src" / "parser.c").exists()
    assert read_toml("helix", "config.toml") == {"editor": {"lsp": {"display-inlay-hints": True}}}


def test_sublime() -> None:
    settings = read_json("sublime", "LSP.sublime-settings")
    assert settings["show_inlay_hints"] is True
    (client,) = settings["clients"].values()
    assert client == {"enabled": True, "command": COMMAND, "selector": "text.say"}
    preferences = plistlib.loads(EDITORS.joinpath("sublime", "Comments.tmPreferences").read_bytes())
    assert preferences["scope"] == "text.say"
    (variable,) = preferences["settings"]["shellVariables"]
    assert variable == {"name": "TM_COMMENT_START", "value": "# "}
    syntax = EDITORS.joinpath("sublime", "Say.sublime-syntax").read_text("utf-8")
    assert re.search(r"^scope: text\.say$", syntax, re.MULTILINE)
    assert re.search(r"^file_extensions: \[say\]$", syntax, re.MULTILINE)
    assert listed(syntax, "key") == list(KEYS)
    assert listed(syntax, "kind") == list(KINDS)


def test_kate() -> None:
    servers = read_json("kate", "lspclient.json")["servers"]
    assert servers == {
        "say": {
            "command": COMMAND,
            "rootIndicationFileNames": ["saywright.toml"],
            "highlightingModeRegex": "^Say$",
        }
    }
    text = EDITORS.joinpath("kate", "say.xml").read_text("utf-8")
    root = ElementTree.fromstring(text)
    assert re.search(servers["say"]["highlightingModeRegex"], root.attrib["name"])
    assert root.attrib["extensions"] == "*.say"
    comment = root.find("general/comments/comment")
    assert comment is not None
    assert (comment.attrib["name"], comment.attrib["start"]) == ("singleLine", "#")
    contexts = {each.attrib["name"] for each in root.iter("context")}
    colours = {each.attrib["name"] for each in root.iter("itemData")}
    for element in root.iter():
        assert element.attrib.get("attribute", "Speech") in colours
        context = element.attrib.get("context", "#stay")
        assert context in contexts or re.fullmatch(r"#stay|(#pop)+", context)
    assert listed(text, "key") == list(KEYS)
    assert listed(text, "kind") == list(KINDS)


def test_jetbrains() -> None:
    """By its keys as they are remembered: no schema of them could be had."""
    template = read_json("jetbrains", "template.json")
    assert template["programArgs"]["default"].split() == COMMAND
    (mapping,) = template["fileTypeMappings"]
    assert mapping["languageId"] == "say"
    assert mapping["fileType"]["patterns"] == ["*.say"]
    told = EDITORS.joinpath("jetbrains", "README.md").read_text("utf-8")
    for words in (template["programArgs"]["default"], "*.say", mapping["languageId"]):
        assert f"`{words}`" in told


@pytest.mark.parametrize("editor", ["emacs", "helix", "jetbrains", "kate", "sublime"])
def test_its_readme_names_the_files_that_are_there(editor: str) -> None:
    folder = EDITORS / editor
    told = (folder / "README.md").read_text("utf-8")
    for link in re.findall(r"\]\(([^)]+)\)", told):
        assert (folder / link).exists()
    assert "`saywright --version`" in told
    assert max(map(len, told.splitlines())) <= 104


@pytest.mark.skipif(KATE is None, reason="Kate's highlighter is not here")
def test_kate_gives_marks_their_colours(tmp_path: Path) -> None:
    """Each stretch of an attribute, as Kate's own highlighter traces it."""
    syntax = tmp_path / "org.kde.syntax-highlighting" / "syntax"
    syntax.mkdir(parents=True)
    shutil.copy(EDITORS / "kate" / "say.xml", syntax)
    script = tmp_path / "a.say"
    script.write_text(SCRIPT, "utf-8")
    environment = {"XDG_DATA_HOME": str(tmp_path), "QT_QPA_PLATFORM": "offscreen"}
    command = [str(KATE), "-f", "html", "-t", "Breeze Light", str(script)]
    done = subprocess.run(
        command, env={**os.environ, **environment}, capture_output=True, timeout=60, check=True
    )
    assert done.stderr == b""
    found = styled(done.stdout.decode())
    styles = dict(found)
    assert styles["~~weigh"] == "text-decoration:line-through;"
    assert styles["__never__"] == "text-decoration:underline;"
    assert styles["*cheat*"] == "font-style:italic;"
    assert [text for text, _ in found] == [text.strip() for text, _ in COLOURED]
    kinds = {text.strip(): kind for text, kind in COLOURED}
    by_kind: dict[str, set[str]] = {}
    for text, style in found:
        by_kind.setdefault(kinds[text], set()).add(style)
    assert all(len(own) == 1 for own in by_kind.values())
    apart = [by_kind[kind].pop() for kind in ("note", "cut", "kept", "stress", "key", "value")]
    assert len(set(apart)) == len(apart)


@pytest.mark.skipif(BAT is None, reason="bat is not here")
def test_sublimes_syntax_gives_marks_their_colours(tmp_path: Path) -> None:
    """As `bat` colours them, in a theme that underlines and slants nothing of it."""
    source, cache = tmp_path / "source", tmp_path / "cache"
    (source / "syntaxes").mkdir(parents=True)
    shutil.copy(EDITORS / "sublime" / "Say.sublime-syntax", source / "syntaxes")
    script = tmp_path / "a.say"
    script.write_text(SCRIPT, "utf-8")
    places = ["--source", str(source), "--target", str(cache)]
    subprocess.run(
        [str(BAT), "cache", "--build", *places], capture_output=True, timeout=120, check=True
    )
    options = ["--color=always", "--style=plain", "--wrap=never", "--theme=Nord"]
    done = subprocess.run(
        [str(BAT), *options, str(script)],
        env={**os.environ, "BAT_CACHE_PATH": str(cache), "COLORTERM": ""},
        capture_output=True,
        timeout=120,
        check=True,
    )
    found = [each for line in done.stdout.decode().splitlines() for each in in_colours(line)]
    spoken = next(colour for text, colour in found if text.startswith("I "))
    own = [(text, colour) for text, colour in found if colour not in (spoken, _PUNCTUATION)]
    kinds = [(text, kind) for text, kind in COLOURED if kind != "stress"]
    assert joined(text for text, _ in own) == joined(
        text.rstrip(":") if kind in ("key", "cue") else text for text, kind in kinds
    )
    colours = dict(own)
    assert colours["weigh"] == colours["the salt"] == colours["left"] != colours["beat"]
    assert colours["beat"] == colours[" a note"]


def styled(html: str) -> list[tuple[str, str]]:
    """Each stretch that has a style, without the blanks around it, and its style."""
    found = re.findall(r'<span style="([^"]*)">([^<]*)</span>', html.split("<pre>", 1)[1])
    return [(text.strip(), style) for style, text in found]


def joined(texts: Iterable[str]) -> str:
    return "".join("".join(texts).split())


def in_colours(line: str) -> list[tuple[str, str]]:
    """Each stretch of a line with the colour that it has in a terminal."""
    return [
        (text, colour)
        for colour, text in re.findall(r"\x1b\[([0-9;]*)m([^\x1b]+)", line)
        if colour not in ("", "0")
    ]


def listed(text: str, name: str) -> list[str]:
    """The words of the alternatives that a file calls `name`."""
    found = re.search(rf'\b{name}"?:?\s+"?\(\?:([a-z|-]+)\)', text)
    assert found, name
    return found[1].split("|")
