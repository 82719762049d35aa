"""A script's text → everything the tool knows of it. Editor and command line both ask here.

An analysis is never changed. `rereading.edited` makes the next one after an edit, and reads
again only what the edit touches.
"""

from bisect import bisect_right
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field, replace
from functools import cached_property
from itertools import pairwise

from saywright.checks.addressee import speaks_to_someone
from saywright.checks.catalogue import CHECK_NAMES, CHECKS
from saywright.checks.check import FileView, View
from saywright.finding import Finding
from saywright.markup.reader import InContext, context_after, read_blocks
from saywright.markup.settings import Settings
from saywright.markup.tree import Block, Cue, Paragraph, Part, Rule
from saywright.measured import Measured
from saywright.passages import Script, all_checked, found_alone
from saywright.project import NO_PROJECT, Project, project_findings
from saywright.reporting import Found, Reported, reported
from saywright.speech.calibration import Calibration
from saywright.speech.piece_takes import NO_TAKES, Calibrations, calibrations, take_readers
from saywright.speech.slot import Aim
from saywright.speech.timed_block import Blocks, Extent, TimedBlock, extent_of, timed_block
from saywright.speech.timeline import Timeline
from saywright.speech.voice import calibration_before_takes, voice_of


@dataclass(frozen=True)
class Analysis:
    """A script read, timed and checked. The first `opening` blocks are its settings.

    `calibrations` are of the pieces that have takes, by the number of rules up to their own.
    """

    project: Project
    settings: Settings
    opening: int
    blocks: Blocks
    calibrations: Calibrations = field(default_factory=dict)

    @property
    def text(self) -> str:
        return "".join(each.block.text for each in self.blocks.items())

    @cached_property
    def parts(self) -> tuple[Part, ...]:
        return tuple(_parts(self))

    @cached_property
    def views(self) -> tuple[View, ...]:
        """The spoken parts, pieces and drafts."""
        return tuple(_view(self, part) for part in self.parts if is_spoken(part.kind))

    @property
    def pieces(self) -> Iterator[View]:
        return (view for view in self.views if view.timeline.part.kind == "piece")

    @cached_property
    def reported(self) -> tuple[Reported, ...]:
        """What is said of the script, in the file's order."""
        return reported(_found(self), self.project)

    def rules(self) -> Iterator[tuple[int, int, Rule]]:
        """Each rule with its index and its file offset."""
        index, start = 0, 0
        while found := self.blocks.find(lambda sum: sum.rules > 0, index):
            assert isinstance(found.item.block, Rule)
            start += found.before.length
            yield found.index, start, found.item.block
            index, start = found.index + 1, start + len(found.item.block.text)


def analyse(text: str, project: Project = NO_PROJECT) -> Analysis:
    """Everything known of `text`."""
    opening, settings, in_context = read_blocks(text)
    settled = [settings_block(block) for block in opening]
    found = NO_TAKES
    spoken = list(spoken_blocks(in_context, project))
    if any(extent_of(each).takes for each in spoken):
        blocks = Measured(extent_of, Extent(), [*settled, *spoken])
        found = calibrations(blocks, settings, project)
        spoken = list(spoken_blocks(in_context, project, found))
    checked = all_checked(spoken, Script(settings, len(opening), project))
    blocks = Measured(extent_of, Extent(), [*settled, *checked])
    return Analysis(project, settings, len(opening), blocks, found)


def is_spoken(kind: str) -> bool:
    return kind in ("piece", "draft")


def settings_block(block: Block) -> TimedBlock:
    """A block of the settings that open a file."""
    return TimedBlock(block, findings=block.problems)


def spoken_blocks(
    in_context: Iterable[InContext],
    project: Project,
    found: Calibrations = NO_TAKES,
    rules: int = 0,
) -> Iterator[TimedBlock]:
    """Blocks in order, timed in their contexts; `rules` stand before them."""
    for each in in_context:
        rules += isinstance(each.block, Rule)
        yield _spoken_block(each, project, found.get(rules), opens_file=not rules)


def _spoken_block(
    read: InContext, project: Project, calibration: Calibration | None, *, opens_file: bool
) -> TimedBlock:
    """A block timed in its context, with everything that is found in it for itself."""
    block, (kind, settings) = read
    if not is_spoken(kind):
        return TimedBlock(block, findings=block.problems)
    voice = voice_of(settings, project, calibration)
    timed = timed_block(block, voice)
    findings = list(block.problems)
    if kind == "piece":
        findings += _found_in_block(timed, project)
        findings += found_alone(timed, settings, voice.language, opens_file=opens_file)
    to_someone = timed.timed and speaks_to_someone(timed.timed, settings, voice.language)
    if findings or to_someone:
        return replace(timed, findings=tuple(findings), turns_to_someone=bool(to_someone))
    return timed


def _found_in_block(block: TimedBlock, project: Project) -> Iterator[Finding]:
    for check in CHECKS:
        if check.find_in_block:
            yield from check.find_in_block(block.block.text, project)
        if check.find_in_paragraph and block.timed:
            yield from check.find_in_paragraph(block.timed)


def _parts(analysis: Analysis) -> Iterator[Part]:
    rules = list(analysis.rules())
    blocks, settings = analysis.blocks, analysis.settings
    end = (len(blocks), blocks.sum.length, Rule(""))
    first_rule, rule_start, _ = rules[0] if rules else end
    start = 0
    for index, each in enumerate(blocks.items()):
        if index >= first_rule:
            break
        if isinstance(each.block, Paragraph | Cue):
            yield Part("piece", "", index, first_rule, start, rule_start, settings, False)
            break
        start += len(each.block.text)
    for (index, start, rule), (following, end_offset, _) in pairwise((*rules, end)):
        kind, own = context_after(rule, settings)
        yield Part(kind, rule.label, index, following, start, end_offset, own, True)


def _view(analysis: Analysis, part: Part) -> View:
    first, last = _first_line(analysis.blocks[part.first_block].block)
    heading = part.start + first, part.start + last
    rules = analysis.blocks.sum_between(0, part.first_block).rules + part.has_rule
    calibration = analysis.calibrations.get(rules) or calibration_before_takes(
        part.settings, analysis.project
    )
    return View(
        Timeline(part, analysis.blocks, calibration), _aim(part.settings, analysis.project), heading
    )


def _first_line(block: Block) -> tuple[int, int]:
    """The range in a block of its first line that is no note."""
    start = 0
    for note in block.notes if isinstance(block, Paragraph) else ():
        if note.start == start:
            start = note.end
    return start, start + len(block.text[start:].split("\n", 1)[0].rstrip())


def _aim(settings: Settings, project: Project) -> Aim | None:
    if not settings.slot:
        return None
    margin = settings.margin_seconds
    return Aim(settings.slot, (project.margin_seconds if margin is None else margin) or 0.0)


def _found(analysis: Analysis) -> Iterator[Found]:
    """Every finding, with the settings that hold where it stands."""
    for finding in project_findings(analysis.project):
        yield Found(finding, analysis.settings, -1)
    starts = [part.start for part in analysis.parts]
    for finding in _found_in_file(analysis):
        part = bisect_right(starts, finding.start) - 1
        yield Found(finding, _settings_of(analysis, part), part)
    yield from _found_in_blocks(analysis)
    for view in analysis.pieces:
        part = analysis.parts.index(view.timeline.part)
        for check in CHECKS:
            for finding in check.find(view) if check.find else ():
                yield Found(finding, view.timeline.part.settings, part)


def _settings_of(analysis: Analysis, part: int) -> Settings:
    return analysis.parts[part].settings if part >= 0 else analysis.settings


def _found_in_file(analysis: Analysis) -> Iterator[Finding]:
    view = FileView(
        tuple(_setting_lines(analysis)),
        analysis.project,
        CHECK_NAMES,
        take_readers(analysis.blocks),
    )
    for check in CHECKS:
        if check.find_in_file:
            yield from check.find_in_file(view)


def _setting_lines(analysis: Analysis) -> Iterable[tuple[int, Block]]:
    start = 0
    for _, each in zip(range(analysis.opening), analysis.blocks.items(), strict=False):
        yield start, each.block
        start += len(each.block.text)
    for _, start, rule in analysis.rules():
        yield start, rule


def _found_in_blocks(analysis: Analysis) -> Iterator[Found]:
    first_blocks = [part.first_block for part in analysis.parts]
    index, start = 0, 0
    while found := analysis.blocks.find(lambda sum: sum.flagged > 0, index):
        start += found.before.length
        part = bisect_right(first_blocks, found.index) - 1
        settings = _settings_of(analysis, part)
        for finding in (*found.item.findings, *found.item.findings_nearby):
            yield Found(finding.shifted(start), settings, part)
        index, start = found.index + 1, start + len(found.item.block.text)
