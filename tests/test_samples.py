"""The sample scripts: between them every mark and part, and the rule of the slice on each."""

import re
from pathlib import Path
from typing import Any

import pytest

import saywright
from saywright.markup.paragraphs import read_paragraph

SAMPLES = sorted((Path(__file__).parents[1] / "sample_scripts").glob("*.say"))


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.name)
def test_a_sentence_is_its_slice_with_the_marks_off(path: Path) -> None:
    text = path.read_bytes().decode()
    sentences = [s for part in saywright.inspect(text)["parts"] for s in part["sentences"]]
    assert sentences
    for sentence in sentences:
        assert read_slice(text, sentence) == sentence["text"]


def read_slice(text: str, sentence: dict[str, Any]) -> str:
    """The slice from start to end, its marks removed and its line breaks read as spaces."""
    paragraph = read_paragraph(text[sentence["start"] : sentence["end"]])
    pieces, at = [], 0
    for start, end in paragraph.cuts if not sentence["cut"] else ():
        pieces.append(paragraph.plain[at:start])
        at = end
    return "".join((*pieces, paragraph.plain[at:]))


def test_between_them_they_show_every_mark_and_part() -> None:
    everything = "\n".join(path.read_text("utf-8") for path in SAMPLES)
    for pattern in (
        r"^---- piece",
        r"^---- draft",
        r"^---- notes",
        r"^---- takes",
        r"timer \d",
        r"count \d",
        r"alphabet$",
        r"^# ",
        r"~~\w",
        r"__\w",
        r" \*\w",
        r" \| ",
        r" \|\| ",
        r"\(beat\)",
        r"\(long pause\)",
        r"\(short pause\)",
        r"\(breath\)",
        r"\(silence\)",
        r", \d+s\)",
        r"\\\(",
        r"^form: verse",
        r"^pace: Ana",
        r"^language: de",
        r"^margin|^speaker: \w+, \w+",
        r"^\w+: \(",
    ):
        assert re.search(pattern, everything, re.MULTILINE), pattern


def test_one_runs_a_fifth_over_its_slot_and_no_other_has_a_warning() -> None:
    over = []
    for path in SAMPLES:
        inspected = saywright.inspect(path.read_text("utf-8"))
        warned = [f["check"] for f in inspected["findings"] if f["severity"] == "warning"]
        assert set(warned) <= {"over-time", "unknown-reader"}, path
        for part in inspected["parts"]:
            if part["kind"] == "piece" and part["slot_seconds"]:
                if part["seconds"] > 1.2 * part["slot_seconds"][1]:
                    over.append(path.name)
                else:
                    assert part["seconds"] <= part["slot_seconds"][1], path
    assert over == ["ferry-mate.say"]
