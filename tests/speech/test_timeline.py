"""The clock along a part, asked in two ways."""

from hypothesis import given

from saywright.analysis import analyse
from tests.strategies import scripts


@given(scripts)
def test_in_a_paragraph_the_clock_shows_what_it_shows_along_the_part(text: str) -> None:
    for view in analyse(text).views:
        timeline = view.timeline
        for placed in timeline.paragraphs():
            for inside in range(1, len(placed.timed.paragraph.text) + 1):
                expected = timeline.seconds_at(placed.start + inside)
                assert timeline.seconds_in(placed, inside) == expected
