"""A take → the edit that writes it into its script."""

from saywright.analysis import Analysis
from saywright.finding import Edit
from saywright.markup.tree import Part
from saywright.recording.read_through import ReadThrough


def take_line(reading: ReadThrough, date: str, reader: str) -> str:
    """The line of a `takes` part, as in `64.2s of 58.9s 2026-11-25 Ana`."""
    measured = f"{reading.seconds:.1f}s of {reading.estimated_seconds:.1f}s"
    return " ".join((measured, date, *reader.split()))


def take_edit(analysis: Analysis, label: str, line: str) -> Edit:
    """Write `line` below the takes of the piece called `label`, in a new part if it has none."""
    text = analysis.text
    line_end = "\r\n" if "\r\n" in text else "\n"
    parts = [part for part in analysis.parts if part.kind == "takes" and part.label == label]
    if parts:
        return _at_end_of(parts[-1], text, line, line_end)
    heading = f"---- takes: {label}" if label else "---- takes"
    before = "" if text.endswith("\n") else line_end
    if not _ends_blank(text):
        before += line_end
    return Edit(len(text), len(text), f"{before}{heading}{line_end}{line}{line_end}")


def _at_end_of(part: Part, text: str, line: str, line_end: str) -> Edit:
    """Below the part's last line that is not blank; a file that ends without a line end stays so."""
    filled = part.start + len(text[part.start : part.end].rstrip())
    newline = text.find("\n", filled, part.end)
    if newline < 0:
        return Edit(part.end, part.end, line_end + line)
    return Edit(newline + 1, newline + 1, line + line_end)


def _ends_blank(text: str) -> bool:
    lines = text.split("\n")
    return len(lines) > 1 and not lines[-1] and not lines[-2].strip()
