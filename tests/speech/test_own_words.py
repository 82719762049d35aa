"""The words of a project's own list, and the drawing out of a sentence's last word."""

import pytest

import saywright
from saywright.project import read_project
from saywright.speech.common_words import rarity
from saywright.speech.model import SOUND_NAMES, coefficients, pause_seconds, word_seconds

PROJECT = read_project(
    """[words]
Aoife = "ee-fa"
Zuzanna = "zoo-ZAH-na"
Quxley = 4
kelp = "sea weed"
"""
)


def said(text: str, listed: bool = True) -> tuple[float, int]:
    script = f"---- piece\n{text}"
    part = (saywright.inspect(script, PROJECT) if listed else saywright.inspect(script))["parts"][0]
    return part["seconds"], part["syllables"]


@pytest.mark.parametrize(
    ("text", "syllables"),
    [
        ("Aoife", 2),
        ("AOIFE’s", 2),
        ("aoife's", 2),
        ("Zuzanna", 3),
        ("Quxley", 4),
        ("kelp", 2),
        ("salt", 1),
        ("*Aoife*", 2),
    ],
)
def test_the_list_wins(text: str, syllables: int) -> None:
    assert said(text)[1] == syllables


def test_a_respelling_takes_as_long_as_its_sounds_in_a_word_as_rare() -> None:
    seconds, syllables = said("sea weed.", listed=False)
    rarer = 2 * rarity("kelp") - rarity("sea") - rarity("weed")
    rare = coefficients().sounds[SOUND_NAMES.index("rare_syllable")]
    assert rarer > 0
    assert said("kelp.") == pytest.approx((seconds + rare * rarer, syllables), abs=1e-5)
    assert said("Quxley")[0] > said("Quxley", listed=False)[0]
    stressed, plain = said("*Aoife*")[0], said("Aoife")[0]
    assert stressed > plain


def test_other_words_are_as_they_were() -> None:
    assert said("I weigh the salt, 250 sacks of it.") == said(
        "I weigh the salt, 250 sacks of it.", listed=False
    )


@pytest.mark.parametrize(
    ("line", "told"),
    [
        ("Aoife = true", "Write for Aoife what it sounds like"),
        ("Aoife = 0", "Write for Aoife what it sounds like"),
        ('Aoife = "?"', "Write for Aoife what it sounds like"),
        ("Aoife = 1.5", "Write for Aoife what it sounds like"),
        ('"Aoife Lowe" = 3', "“Aoife Lowe” is not one"),
    ],
)
def test_what_cannot_be_read_is_told(line: str, told: str) -> None:
    project = read_project(f"[words]\n{line}\n")
    assert project.words == ()
    assert told in project.problems[0].message


def test_syllables_are_counted_in_other_languages_too() -> None:
    script = "---- piece; language de\nAoife"
    assert saywright.inspect(script, PROJECT)["parts"][0]["syllables"] == 2


def sentences(text: str) -> list[tuple[float, float]]:
    part = saywright.inspect(f"---- piece\n{text}")["parts"][0]
    return [(each["speech_seconds"], each["pause_seconds"]) for each in part["sentences"]]


def test_the_last_word_of_a_sentence_is_drawn_out() -> None:
    lengthening = coefficients().other["final_lengthening"]
    (first, gap), (second, _) = sentences("I weigh salt. I go, home")
    words = sum(word_seconds((word,)) for word in ("i", "weigh", "salt"))
    assert lengthening > 0.05
    assert first == pytest.approx(words + lengthening, abs=1e-5)
    assert gap == pytest.approx(pause_seconds(". ", words_before=3), abs=1e-5)
    words = sum(word_seconds((word,)) for word in ("i", "go", "home"))
    comma = pause_seconds(", ", words_before=2)
    assert second == pytest.approx(words + comma + lengthening, abs=1e-5)


def test_a_cut_sentence_takes_what_it_took() -> None:
    spoken = sentences("I weigh salt. I never cheat! I go.")
    cut = sentences("I weigh salt. ~~I never cheat!~~ I go.")
    assert cut[0][0] == spoken[0][0]
    assert cut[1][0] == spoken[1][0]
    assert sentences("I weigh salt ~~every day~~. I go.")[0] == sentences("I weigh salt. I go.")[0]


@pytest.mark.parametrize("stop", [".", "?", "!", "…", ".”", ".)"])
def test_each_kind_of_stop_draws_out(stop: str) -> None:
    (stopped,) = {sentences(f"I weigh salt{stop} We go home.")[0][0]}
    (running,) = {sentences(f"I weigh salt, we go home{stop}")[0][0]}
    halves = sentences("I weigh salt.")[0][0], sentences("We go home.")[0][0]
    assert stopped == pytest.approx(halves[0])
    comma = pause_seconds(", ", words_before=3)
    lengthening = coefficients().other["final_lengthening"]
    assert running == pytest.approx(sum(halves) + comma - lengthening, abs=1e-5)
