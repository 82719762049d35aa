"""A script's text → everything the tool knows of it. Editor and command line both ask here."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import NamedTuple

from saywright.checks.catalogue import CHECK_NAMES, CHECKS, SEVERITY_OF
from saywright.checks.check import FileView, View
from saywright.finding import Finding
from saywright.markup.paragraphs import read_paragraph
from saywright.markup.reader import read
from saywright.markup.settings import Settings
from saywright.markup.tree import Cue, Paragraph, Part, Script
from saywright.project import NO_PROJECT, Project, project_findings
from saywright.speech.slot import Aim
from saywright.speech.timeline import Timeline, timeline
from saywright.speech.timing import TimedParagraph, time_paragraph
from saywright.speech.voice import SILENCE_SECONDS, Voice, scale_of

_DEFAULT_LANGUAGE = "en"


class Reported(NamedTuple):
    """A finding and how much it matters here: hint, information, warning or error."""

    finding: Finding
    severity: str


@dataclass(frozen=True, slots=True)
class Analysis:
    """A script read, timed and checked. `views` are its spoken parts, pieces and drafts."""

    text: str
    script: Script
    project: Project
    views: tuple[View, ...]
    reported: tuple[Reported, ...]
    _read: dict[tuple[str, tuple[str, ...]], Paragraph]
    _timed: dict[tuple[str, tuple[str, ...], Voice], TimedParagraph]

    @property
    def pieces(self) -> Iterator[View]:
        return (view for view in self.views if view.timeline.part.kind == "piece")


def analyse(
    text: str, project: Project | None = None, previous: Analysis | None = None
) -> Analysis:
    """Everything known of `text`. `previous`, of an earlier state, saves reading and timing
    again the paragraphs that are as they were; it never changes the answer."""
    project = project or NO_PROJECT
    memory = _Memory(previous)
    script = read(text, memory.paragraph)
    views = tuple(_view(script, part, project, memory) for part in script.parts if _spoken(part))
    reported = tuple(sorted(_reported(script, project, views), key=_by_place))
    return Analysis(text, script, project, views, reported, memory.read, memory.timed)


def _by_place(reported: Reported) -> tuple[int, int, str]:
    return reported.finding.start, reported.finding.end, reported.finding.check


def _spoken(part: Part) -> bool:
    return part.kind in ("piece", "draft")


class _Memory:
    """Paragraphs of this text, taken from the previous analysis where it had them."""

    def __init__(self, previous: Analysis | None) -> None:
        self._old_read = previous._read if previous else {}
        self._old_timed = previous._timed if previous else {}
        self.read: dict[tuple[str, tuple[str, ...]], Paragraph] = {}
        self.timed: dict[tuple[str, tuple[str, ...], Voice], TimedParagraph] = {}

    def paragraph(self, text: str, speakers: tuple[str, ...]) -> Paragraph:
        key = text, speakers
        known = self.read.get(key) or self._old_read.get(key) or read_paragraph(text, speakers)
        self.read[key] = known
        return known

    def time(self, paragraph: Paragraph, speakers: tuple[str, ...], voice: Voice) -> TimedParagraph:
        key = paragraph.text, speakers, voice
        known = self.timed.get(key) or self._old_timed.get(key) or time_paragraph(paragraph, voice)
        self.timed[key] = known
        return known


def voice_of(settings: Settings, project: Project) -> Voice:
    """The voice of a part: its settings first, then the project's, then the usual."""
    pace = settings.pace or project.pace
    if pace and pace.reader:
        pace = project.readers.get(pace.reader, project.pace)
    return Voice(
        language=settings.language or project.language or _DEFAULT_LANGUAGE,
        scale=scale_of(pace),
        verse=settings.form == "verse",
        silence_seconds=tuple({**SILENCE_SECONDS, **dict(project.silence_seconds)}.items()),
    )


def _aim(settings: Settings, project: Project) -> Aim | None:
    if not settings.slot:
        return None
    margin = settings.margin_seconds
    return Aim(settings.slot, (project.margin_seconds if margin is None else margin) or 0.0)


def _view(script: Script, part: Part, project: Project, memory: _Memory) -> View:
    voice = voice_of(part.settings, project)
    line = _timeline(script, part, voice, memory)
    return View(line, _aim(part.settings, project), _heading(script, part))


def _timeline(script: Script, part: Part, voice: Voice, memory: _Memory) -> Timeline:
    def blocks() -> Iterator[tuple[int, TimedParagraph | Cue, float]]:
        for index in range(part.first_block, part.end_block):
            block, start = script.blocks[index], script.starts[index]
            if isinstance(block, Paragraph):
                yield start, memory.time(block, part.settings.speakers, voice), 0.0
            elif isinstance(block, Cue):
                silence = block.direction.silence if block.direction else None
                yield start, block, voice.seconds_of(silence) if silence else 0.0

    return timeline(part, blocks())


def _heading(script: Script, part: Part) -> tuple[int, int]:
    first_line = script.blocks[part.first_block].text.split("\n", 1)[0]
    return part.start, part.start + len(first_line.rstrip())


def _reported(script: Script, project: Project, views: Iterable[View]) -> Iterator[Reported]:
    for finding, left_out in _found(script, project, views):
        severity = project.severities.get(finding.check, SEVERITY_OF[finding.check])
        if severity != "off" and finding.check not in left_out:
            yield Reported(finding, severity)


def _found(
    script: Script, project: Project, views: Iterable[View]
) -> Iterator[tuple[Finding, frozenset[str]]]:
    """Every finding, with the names of the checks that are left out where it stands."""
    of_file = script.settings.leave_out
    for finding in project_findings(project):
        yield finding, of_file
    file_view = FileView(script, project, CHECK_NAMES)
    for check in CHECKS:
        for finding in check.find_in_file(file_view) if check.find_in_file else ():
            yield finding, of_file
    yield from _markup_findings(script)
    for view in views:
        if view.timeline.part.kind == "piece":
            left_out = view.timeline.part.settings.leave_out
            for check in CHECKS:
                for finding in check.find(view) if check.find else ():
                    yield finding, left_out


def _markup_findings(script: Script) -> Iterator[tuple[Finding, frozenset[str]]]:
    left_out = script.settings.leave_out
    parts = iter(script.parts)
    part = next(parts, None)
    for index, block in enumerate(script.blocks):
        while part and index >= part.end_block:
            part = next(parts, None)
        inside = part and index >= part.first_block
        for problem in block.problems:
            names = part.settings.leave_out if part and inside else left_out
            yield problem.shifted(script.starts[index]), names
