"""Words in brackets in the middle of a sentence: a direction, so not spoken."""

from bisect import bisect_right
from collections.abc import Iterator

from saywright.checks.check import Check, Page
from saywright.finding import Edit, Finding, Fix
from saywright.markup.tree import Direction
from saywright.speech.timing import TimedParagraph


def find(timed: TimedParagraph) -> Iterator[Finding]:
    for direction in timed.paragraph.directions:
        if not direction.silence and _inside_a_sentence(timed, direction):
            yield _finding(timed.paragraph.text, direction)


def _inside_a_sentence(timed: TimedParagraph, direction: Direction) -> bool:
    sentences = timed.sentences
    index = bisect_right(sentences, direction.start, key=lambda sentence: sentence.start) - 1
    return index >= 0 and direction.end < sentences[index].end


def _finding(text: str, direction: Direction) -> Finding:
    start, end, *_ = direction
    words = text[start + 1 : end - 1].strip()
    fixes = (
        Fix("Speak them, between dashes", (Edit(start, end, f"– {words} –"),)),
        Fix(
            "Speak them as they stand",
            (Edit(start, start, "\\"), Edit(end - 1, end - 1, "\\")),
        ),
    )
    message = "Words in brackets are a direction: they are not spoken, nor timed."
    return Finding("unspoken-words", start, end, message, fixes)


CHECK = Check(
    "unspoken-words",
    "hint",
    "words in brackets inside a sentence",
    find_in_paragraph=find,
    page=Page(
        why="What stands in round brackets is a direction: it is neither spoken nor timed. In the "
        "middle of a sentence it may have been meant to be said.",
        example="I weighed it (twice) that night.",
        to_do="Put them between dashes if they are spoken; leave them if they are a direction.",
    ),
)
