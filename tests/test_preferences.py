"""What an editor shows, from whatever sources: which wins, and what cannot be followed."""

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from saywright.preferences import NO_PREFERENCES, read_preferences, shown
from saywright.project import EDITOR_KEYS, KEYS_OF_PROJECT, NO_PROJECT, read_project

PROJECT = read_project('[editor]\nrunning-time = "paragraphs"\ngrey-beyond-slot = true\n')


@pytest.mark.parametrize(
    ("layers", "expected"),
    [
        ((), ("paragraphs", "elapsed", True)),
        (({"running-time": "off"},), ("off", "elapsed", True)),
        (({"runningTime": "off"}, {"running-time": None}), ("off", "elapsed", True)),
        (({"running-time": "off"}, {"running-time": "lines"}), ("lines", "elapsed", True)),
        (({"saywright": {"timeShown": "remaining"}}, None), ("paragraphs", "remaining", True)),
        (({}, {}, {"greyBeyondSlot": False}), ("paragraphs", "elapsed", False)),
    ],
)
def test_the_last_that_says_anything_wins(layers: tuple[Any, ...], expected: Any) -> None:
    read = [read_preferences(layer) for layer in layers]
    assert not any(each.problems for each in read)
    found = shown(PROJECT, *read)
    assert (found.running_time, found.time_shown, found.grey_beyond_slot) == expected


@pytest.mark.parametrize(
    ("told", "problem"),
    [
        (
            {"running-time": "line"},
            "Write one of lines, sentences, paragraphs, off. Perhaps: lines",
        ),
        ({"timeShown": 5}, "timeShown cannot be followed. Write one of elapsed, remaining."),
        ({"grey-beyond-slot": "yes"}, "Write it as true or false."),
        ({"gray-beyond-slot": True}, "Did you mean grey-beyond-slot?"),
        ({"pace": "150 wpm"}, "pace is set in saywright.toml, not in the editor"),
        ({"leave-out": []}, None),
        ({"server": {"path": "x"}, "trace": {"server": "off"}, "command": []}, None),
    ],
)
def test_what_cannot_be_followed(told: Any, problem: str | None) -> None:
    settings, problems = read_preferences(told)
    assert settings == ()
    if problem is None:
        assert problems == ()
    else:
        [said] = problems
        assert problem in said


ANY = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=5),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=8), inner),
    max_leaves=6,
)
KEYS = st.sampled_from([*EDITOR_KEYS, *KEYS_OF_PROJECT, "saywright", "runningTime"])


@given(ANY | st.dictionaries(KEYS, ANY))
def test_whatever_an_editor_sends(told: Any) -> None:
    read = read_preferences(told)
    project = shown(NO_PROJECT, NO_PREFERENCES, read)
    assert set(dict(read.settings)) <= set(EDITOR_KEYS)
    assert (project.pace, project.language, project.severities) == (None, None, {})
