"""The timed tree: the script's blocks, each with its time, and sums over any stretch of them."""

from dataclasses import dataclass

from saywright.finding import Finding
from saywright.markup.tree import Block, Cue, Paragraph, Rule, Take
from saywright.measured import Measured
from saywright.speech.grid import on_grid
from saywright.speech.stretch import Stretch
from saywright.speech.timing import TimedParagraph, time_paragraph
from saywright.speech.voice import Voice

_SILENT = Stretch()


@dataclass(frozen=True, slots=True)
class TimedBlock:
    """A block, its time, and what is found in it.

    `timed` is None where the block is no speech; `findings` count from the block's start, and so
    do `findings_nearby`, which depend on the paragraphs around it. `turns_to_someone`: it speaks
    to somebody.
    """

    block: Block
    stretch: Stretch = _SILENT
    timed: TimedParagraph | None = None
    findings: tuple[Finding, ...] = ()
    findings_nearby: tuple[Finding, ...] = ()
    turns_to_someone: bool = False


@dataclass(frozen=True, slots=True)
class Extent:
    """Sums over blocks: code points, line ends (LF, CRLF or CR), rules, takes that can be read,
    blocks with findings, and those that turn to somebody."""

    length: int = 0
    lines: int = 0
    rules: int = 0
    takes: int = 0
    flagged: int = 0
    turns_to_someone: int = 0
    stretch: Stretch = _SILENT

    def __add__(self, other: "Extent") -> "Extent":
        return Extent(
            self.length + other.length,
            self.lines + other.lines,
            self.rules + other.rules,
            self.takes + other.takes,
            self.flagged + other.flagged,
            self.turns_to_someone + other.turns_to_someone,
            self.stretch + other.stretch,
        )


Blocks = Measured[TimedBlock, Extent]


def extent_of(timed: TimedBlock) -> Extent:
    text = timed.block.text
    return Extent(
        len(text),
        text.count("\n") + text.count("\r") - text.count("\r\n"),
        int(isinstance(timed.block, Rule)),
        int(isinstance(timed.block, Take) and timed.block.seconds is not None),
        int(bool(timed.findings or timed.findings_nearby)),
        int(timed.turns_to_someone),
        timed.stretch,
    )


def timed_block(block: Block, voice: Voice) -> TimedBlock:
    """`block` in a part that is spoken with `voice`."""
    if isinstance(block, Paragraph):
        timed = time_paragraph(block, voice)
        return TimedBlock(block, _stretch(timed), timed)
    if isinstance(block, Cue):
        silence = block.direction.silence if block.direction else None
        seconds = on_grid(voice.seconds_of(silence)) if silence else 0.0
        return TimedBlock(block, Stretch(lead_seconds=seconds, cue=block.speaker))
    return TimedBlock(block)


def _stretch(timed: TimedParagraph) -> Stretch:
    live = [sentence for sentence in timed.sentences if not sentence.cut]
    return Stretch(
        timed.last is not None,
        timed.lead_seconds,
        timed.seconds,
        timed.tail_seconds,
        timed.stop_seconds,
        sum(sentence.words for sentence in live),
        sum(sentence.syllables for sentence in live),
        marked_seconds=timed.marked_seconds,
    )
