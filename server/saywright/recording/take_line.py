"""A take → the edit that writes it into its script."""

from saywright.analysis import Analysis, analyse
from saywright.finding import Edit, applied
from saywright.markup.tree import Part, Take
from saywright.recording.read_through import ReadThrough
from saywright.speech.piece_takes import same_name


class UnwritableTakeError(Exception):
    """A take that cannot be written into its script; the message says why."""


def take_line(reading: ReadThrough, date: str, reader: str) -> str:
    """The line of a `takes` part, as in `64.2s of 58.9s 2026-11-25 Ana`."""
    measured = f"{reading.seconds:.1f}s of {reading.estimated_seconds:.1f}s"
    return " ".join((measured, date, *reader.split()))


def with_take(analysis: Analysis, label: str, line: str) -> str:
    """The script's text with `line` written into it.

    Raises `UnwritableTakeError` where it would not be read as the same take again.
    """
    text = applied(analysis.text, [take_edit(analysis, label, line)])
    after = analyse(text, analysis.project)
    if _times_read(after, line) != _times_read(analysis, line) + 1:
        raise UnwritableTakeError(f"The take cannot be written into it. It was: {line}")
    return text


def _times_read(analysis: Analysis, line: str) -> int:
    blocks = (each.block for each in analysis.blocks.items())
    takes = (block for block in blocks if isinstance(block, Take) and block.seconds is not None)
    return sum(take.text.strip() == line for take in takes)


def take_edit(analysis: Analysis, label: str, line: str) -> Edit:
    """Write `line` below the takes of the piece called `label`, in a new part if it has none."""
    text = analysis.text
    line_end = "\r\n" if "\r\n" in text else "\n"
    parts = [
        part for part in analysis.parts if part.kind == "takes" and same_name(part.label, label)
    ]
    if parts:
        return _at_end_of(parts[-1], text, line, line_end)
    heading = f"---- takes: {label}" if label else "---- takes"
    before = "" if text.endswith("\n") else line_end
    if not _ends_blank(text):
        before += line_end
    return Edit(len(text), len(text), f"{before}{heading}{line_end}{line}{line_end}")


def _at_end_of(part: Part, text: str, line: str, line_end: str) -> Edit:
    """Below the part's last line with text; a file that ends without a line end stays so."""
    filled = part.start + len(text[part.start : part.end].rstrip())
    newline = text.find("\n", filled, part.end)
    if newline < 0:
        return Edit(part.end, part.end, line_end + line)
    return Edit(newline + 1, newline + 1, line + line_end)


def _ends_blank(text: str) -> bool:
    lines = text.split("\n")
    return len(lines) > 1 and not lines[-1] and not lines[-2].strip()
