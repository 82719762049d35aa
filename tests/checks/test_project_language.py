"""A language that the project file sets, for scripts that set none."""

import pytest

import saywright
from saywright.project import read_project


@pytest.mark.parametrize(("tag", "reported"), [("sv", True), ("de-AT", False), ("EN", False)])
def test_it_is_reported_where_it_has_no_rules(tag: str, reported: bool) -> None:
    found = saywright.inspect("I go.", read_project(f'language = "{tag}"'))["findings"]
    told = [each for each in found if each["check"] == "language"]
    assert len(told) == reported
    for each in told:
        assert (each["start"], each["end"]) == (0, 0)
        assert each["message"].startswith(
            f"saywright.toml: There are no rules for the language “{tag}”"
        )
