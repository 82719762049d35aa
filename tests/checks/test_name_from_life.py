"""Names from life: found where they would be handed over, and quoted by no message."""

from pathlib import Path

import pytest

import saywright
from saywright.files import nearest_project
from saywright.project import NO_PROJECT, Project, read_private_names

NAMES = ("Maren Holt", "Rose", "Zoë", "Ost-Kai", "O’Dell")


def found(text: str, names: tuple[str, ...] = NAMES) -> list[str]:
    findings = saywright.inspect(text, Project(private_names=names))["findings"]
    kept_quiet = [each for each in findings if each["check"] == "name-from-life"]
    assert all(name not in each["message"] for each in kept_quiet for name in names)
    assert all(each["severity"] == "warning" for each in kept_quiet)
    return [text[each["start"] : each["end"]] for each in kept_quiet]


@pytest.mark.parametrize(
    ("text", "places"),
    [
        ("I told Rose.", ["Rose"]),
        ("It was Rose's lamp.", ["Rose"]),
        ("I told ROSE.", ["ROSE"]),
        ("I picked a rose. I rose.", []),
        ("I told Rosemary.", []),
        ("I told Maren  Holt, and Maren\nHolt told me.", ["Maren  Holt", "Maren\nHolt"]),
        ("I told Maren.", []),
        ("I told Zoe\u0308 and Zoë.", ["Zoe\u0308", "Zoë"]),
        ("Down at the Ost-Kai it rains.", ["Ost-Kai"]),
        ("Down at the Ost\u2011Kai it rains.", ["Ost\u2011Kai"]),
        ("I met O'Dell and O’Dell.", ["O'Dell", "O’Dell"]),
        ("pace: Rose\n\nI go.", ["Rose"]),
        ("~~I told Rose.~~ (to Rose) I go.\n# ask Rose", ["Rose", "Rose", "Rose"]),
        ("title: The Day Rose Left\nto: Rose\n\nI go.", ["Rose", "Rose"]),
        ("speaker: Rose\n\nRose:\nI go.", ["Rose", "Rose"]),
        ("---- draft\nI told Rose.\n---- notes\nRose\n---- piece\nI go.", []),
    ],
)
def test_places(text: str, places: list[str]) -> None:
    assert found(text) == places


@pytest.mark.parametrize(
    "text",
    [
        "speaker: Ines\n\nRose:\nI go.",
        "speaker: Rose\n\nI went up. Rose climbs the stairs. I lit the lamp.",
        "pace: Rose\n\nI go.",
        "leave-out: Rose\n\nI go.",
        "Rose: 60s\nslot: 5s\n\nI go.",
        "to: Rose\n\n" + "The lamp went out and the wind had turned again by then. " * 3,
    ],
)
def test_no_other_check_quotes_one_either(text: str) -> None:
    findings = saywright.inspect(text, Project(private_names=NAMES))["findings"]
    assert findings
    for finding in findings:
        told = [finding["message"], *(fix["title"] for fix in finding["fixes"])]
        assert not any("Rose" in each for each in told), told


def test_no_list_finds_nothing() -> None:
    assert found("I told Rose.", ()) == []


def test_reading_a_list() -> None:
    text = "\ufeff# who must not be named\r\nRose\r\n\r\n  Maren Holt  \n#\n"
    assert read_private_names(text) == ("Rose", "Maren Holt")


def test_the_nearest_list_above_a_script_counts(tmp_path: Path) -> None:
    script = tmp_path / "scripts" / "class" / "a.say"
    script.parent.mkdir(parents=True)
    assert nearest_project(script)[0] == NO_PROJECT
    (tmp_path / "private-names.txt").write_text("Rose\n", "utf-8")
    (tmp_path / "scripts" / "saywright.toml").write_text('margin = "2s"\n', "utf-8")
    project = nearest_project(script)[0]
    assert (project.private_names, project.margin_seconds) == (("Rose",), 2.0)
    (script.parent / "private-names.txt").write_text("Zoë\n", "utf-8")
    assert nearest_project(script)[0].private_names == ("Zoë",)
    assert nearest_project(script)[0] is nearest_project(script)[0]


def test_a_list_that_is_no_text_is_said_so(tmp_path: Path) -> None:
    (tmp_path / "private-names.txt").write_bytes(b"Ros\xe9\n")
    project = nearest_project(tmp_path / "a.say")[0]
    [finding] = [
        each
        for each in saywright.inspect("I go.", project)["findings"]
        if each["check"] == "project-file"
    ]
    assert finding["message"].startswith(
        "private-names.txt: Line 1 holds a character that is not UTF-8."
    )
