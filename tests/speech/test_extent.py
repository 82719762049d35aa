"""Where sentences stand in the source: the marks that are wholly theirs go with them."""

import pytest

from saywright.language.sentences import sentence_spans
from saywright.markup.paragraphs import read_paragraph
from saywright.markup.tree import Range
from saywright.speech.extent import source_extents


@pytest.mark.parametrize(
    ("text", "sentences"),
    [
        ("So I sat. I waited.", ["So I sat.", "I waited."]),
        ("  So I sat.\n", ["So I sat."]),
        (r"\*So I sat. I waited.", [r"\*So I sat.", "I waited."]),
        (r"\-- so I sat. \*I waited.", [r"\-- so I sat.", r"\*I waited."]),
        ("~~So I sat.~~ I waited.", ["~~So I sat.~~", "I waited."]),
        ("So I sat. __*I* waited.__", ["So I sat.", "__*I* waited.__"]),
        ("~~So I sat. I waited.~~", ["So I sat.", "I waited."]),
        ("(beat) So I sat. (beat) I waited.", ["So I sat.", "I waited."]),
    ],
)
def test_the_source_of_each_sentence(text: str, sentences: list[str]) -> None:
    paragraph = read_paragraph(text)
    spans = [Range(*span) for span in sentence_spans(paragraph.plain)]
    assert [text[start:end] for start, end in source_extents(paragraph, spans)] == sentences
