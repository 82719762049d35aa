"""From a sentence's own text to where it stands in the file."""

from hypothesis import given
from hypothesis import strategies as st

from saywright.analysis import analyse
from saywright.checks.passage import Line, Passage
from saywright.finding import Edit, applied
from saywright.markup.paragraphs import read_paragraph
from saywright.passages import lines_in
from tests.strategies import scripts


def lines_of(text: str) -> list[Line]:
    return [line for each in analyse(text).blocks.items() for line in lines_in(each, "en")]


@given(scripts)
def test_every_word_is_found_where_it_stands(text: str) -> None:
    for line in lines_of(text):
        plain = line.paragraph.plain
        for offset, character in enumerate(line.text):
            assert plain[line.plain(offset)] == character
            start, end = line.where(offset, offset + 1)
            source = line.paragraph.text[start:end]
            assert source == character or (character == " " and source in ("\n", "\r\n"))


@given(scripts, st.integers(0, 60), st.integers(1, 12), st.sampled_from(["", "salt", "Salt, "]))
def test_a_fix_changes_what_it_says_and_no_mark(
    text: str, start: int, length: int, words: str
) -> None:
    for line in lines_of(text):
        end = min(start + length, len(line.text))
        if start >= end:
            continue
        passage = Passage([line], 0, 1, analyse(text).settings, None, "en", opens_file=True)
        fix = passage.fix("Change", line, [Edit(start, end, words)])
        if not fix:
            continue
        before, after = line.paragraph, read_paragraph(applied(line.paragraph.text, fix.edits))
        at = line.plain(start)
        meant = before.plain[:at] + words + before.plain[line.plain(end - 1) + 1 :]
        assert after.plain.split() == meant.split()
        assert [span.kind for span in after.spans] == [span.kind for span in before.spans]
        assert len(after.directions) == len(before.directions)
