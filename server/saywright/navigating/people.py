"""From a name to where it comes from and stands: speakers, readers, anybody who is named."""

from collections.abc import Iterator
from itertools import islice
from typing import NamedTuple

from saywright.analysis import Analysis
from saywright.markup.tree import Block, Range, Rule, Take
from saywright.markup.values import Unreadable, read_pace
from saywright.markup.written import Written, written_settings
from saywright.naming.at_place import name_at, speakers_of
from saywright.naming.places import places
from saywright.navigating.linked import Linked, Target, at, linked
from saywright.speech.piece_takes import same_name


def from_name(analysis: Analysis, offset: int) -> Linked | None:
    """Of a name, where else it stands, the same places as a rename changes; of one who speaks,
    where the script lists them."""
    found = name_at(analysis, offset)
    if found is None:
        return None
    everywhere = [Range(each.start, each.end) for each in places(analysis, found.name)]
    if found.name.text not in speakers_of(analysis):
        return linked(Range(found.start, found.end), (), everywhere)
    lists = list(_lists_of(analysis, found.name.text))
    part = next((part for part in analysis.parts if part.start <= offset < part.end), None)
    own = [each for each in lists if part and part.start <= each.place.start < part.end]
    return linked(Range(found.start, found.end), own or lists, everywhere, [t.place for t in lists])


def from_reader(analysis: Analysis, offset: int) -> Linked | None:
    """Of a reader, in a pace or after a take: every pace and take that names the same."""
    paces, takes = list(_in_paces(analysis)), list(_in_takes(analysis))
    pointed = next((each for each in (*paces, *takes) if each.holds(offset)), None)
    if pointed is None:
        return None
    same_takes = [each.where for each in takes if same_name(each.name, pointed.name)]
    same_paces = [each.where for each in paces if same_name(each.name, pointed.name)]
    known = next((name for name in analysis.project.readers if same_name(name, pointed.name)), None)
    targets = () if known else map(at, same_takes)
    return linked(pointed.where, targets, [*same_paces, *same_takes], (), known)


def setting_lines(analysis: Analysis) -> Iterator[tuple[int, Block]]:
    """The blocks that may hold settings, with their file offsets."""
    start = 0
    for each in islice(analysis.blocks.items(), analysis.opening):
        yield start, each.block
        start += len(each.block.text)
    for _, rule_start, rule in analysis.rules():
        yield rule_start, rule


def _lists_of(analysis: Analysis, speaker: str) -> Iterator[Target]:
    """Where the speaker stands in a list of speakers."""
    for start, block in setting_lines(analysis):
        for written in written_settings([(start, block)]):
            if written.key == "speaker":
                line = Range(start, start + len(block.text.rstrip()))
                yield from (Target(place, line) for place in _in_list(written, speaker))


def _in_list(written: Written, speaker: str) -> Iterator[Range]:
    start = written.range.start
    for name in written.value.split(","):
        if " ".join(name.split()) == speaker:
            first = start + len(name) - len(name.lstrip())
            yield Range(first, first + len(name.strip()))
        start += len(name) + 1


class _Reader(NamedTuple):
    """A reader who is named, and where."""

    name: str
    where: Range

    def holds(self, offset: int) -> bool:
        return self.where.start <= offset <= self.where.end


def _in_paces(analysis: Analysis) -> Iterator[_Reader]:
    for written in written_settings(setting_lines(analysis)):
        if written.key == "pace" and (reader := _reader(written.value)):
            yield _Reader(reader, written.range)


def _in_takes(analysis: Analysis) -> Iterator[_Reader]:
    for start, take in takes_in(analysis):
        if take.reader:
            first = start + take.text.rindex(take.reader)
            yield _Reader(take.reader, Range(first, first + len(take.reader)))


def takes_in(analysis: Analysis) -> Iterator[tuple[int, Take]]:
    """Each take that can be read, with its file offset."""
    index, start = 0, 0
    while found := analysis.blocks.find(lambda sum: sum.takes > 0, index):
        assert isinstance(found.item.block, Take)
        start += found.before.length
        yield start, found.item.block
        index, start = found.index + 1, start + len(found.item.block.text)


def _reader(pace: str) -> str | None:
    try:
        return read_pace(pace).reader
    except Unreadable:
        return None


def is_in_setting(start: int, rule: Rule, offset: int) -> bool:
    """Whether the offset stands in the value of a setting of the rule at `start`."""
    return any(
        each.range.start <= offset <= each.range.end for each in written_settings([(start, rule)])
    )
