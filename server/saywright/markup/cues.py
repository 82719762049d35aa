"""Cue lines: who speaks next, and lines that look like a cue and are none."""

import re
from collections.abc import Iterable, Iterator
from typing import NamedTuple

from saywright.finding import Edit, Finding, Fix
from saywright.markup.lines import LEAD, lead_length
from saywright.markup.marks import read_marks
from saywright.markup.nearest import nearest
from saywright.markup.silences import read_direction
from saywright.markup.tree import Direction, Range

_CUE = re.compile(
    rf"{LEAD}(?P<name>[^\s:()](?:[^:()\n]{{0,60}}[^\s:()])?)[ \t]*:(?P<rest>.*)", re.S
)
_NAME_WORD = re.compile(r"[^\W\d_][\w'’.-]*")


class CueLine(NamedTuple):
    speaker: str
    direction: Direction | None


def read_cue(line: str, speakers: tuple[str, ...]) -> CueLine | None:
    """The cue that `line` is: a listed name, a colon, perhaps a direction, and nothing else."""
    match = _CUE.match(line) if speakers else None
    if not match or (speaker := " ".join(match["name"].split())) not in speakers:
        return None
    rest_start = match.start("rest")
    if not match["rest"].strip():
        return CueLine(speaker, None)
    where = read_marks(line, [Range(rest_start, len(line))]).directions
    if len(where) != 1 or (line[rest_start : where[0].start] + line[where[0].end :]).strip():
        return None
    said = read_direction(line[where[0].start + 1 : where[0].end - 1])
    return CueLine(speaker, Direction(*where[0], said.silence, said.bare))


def cue_problems(
    text: str, speech: Iterable[Range], speakers: tuple[str, ...]
) -> Iterator[Finding]:
    """Lines of speech that look as if a cue had been meant."""
    for start, end in speech:
        problem = _cue_problem(text[start:end], speakers)
        if problem:
            yield problem.shifted(start)


def _cue_problem(line: str, speakers: tuple[str, ...]) -> Finding | None:
    match = _CUE.match(line)
    if not match:
        return _bare_name(line, speakers)
    name = " ".join(match["name"].split())
    listed = {speaker.casefold(): speaker for speaker in speakers}
    rest = match["rest"].strip()
    where = match.span("name")
    if speaker := listed.get(name.casefold()):
        return _listed(line, speaker, match) if rest or name != speaker else None
    if rest or not _looks_like_name(name):
        return None
    if speaker := nearest(name, speakers):
        return Finding(
            "cue",
            *where,
            f"“{name}” is no listed speaker, so this line is spoken. Did you mean {speaker}?",
            (Fix(f"Write {speaker}", (Edit(*where, speaker),)),),
        )
    return Finding(
        "cue",
        *where,
        f"“{name}:” looks like a cue, but the name is not listed, so it is spoken. "
        f"If {name} speaks here, add the name to the file's first lines: "
        f"speaker: {', '.join((*speakers, name))}",
        (Fix("Mean it as speech: \\:", (Edit(where[1], where[1], "\\"),)),),
    )


def _listed(line: str, speaker: str, match: re.Match[str]) -> Finding:
    """A listed name, but in other letters, or with speech after it on the same line."""
    start, colon = match.start("name"), match.start("rest")
    end = len(line.rstrip()) if not match["rest"].strip() else match.start("rest")
    rest_start = colon + len(match["rest"]) - len(match["rest"].lstrip())
    if match["rest"].strip():
        message = f"A cue stands alone on its line. Here “{match['name']}:” is spoken."
        line_end = "\r\n" if line.endswith("\r\n") else "\n"
        alone = Edit(start, rest_start, f"{speaker}:{line_end}")
        fix = Fix("Put the cue on a line of its own", (alone,))
    else:
        message = f"A cue is written as it is listed: {speaker}. Here it is spoken."
        fix = Fix(f"Write {speaker}:", (Edit(start, end, f"{speaker}:"),))
    return Finding("cue", start, end, message, (fix,))


def _bare_name(line: str, speakers: tuple[str, ...]) -> Finding | None:
    """A listed name alone on its line in capitals."""
    start = lead_length(line)
    name = line[start:].rstrip()
    if not name.isupper():
        return None
    speaker = next((speaker for speaker in speakers if speaker.upper() == name), None)
    if not speaker:
        return None
    end = start + len(name)
    return Finding(
        "cue",
        start,
        end,
        f"A cue is the name and a colon: {speaker}: — here it is spoken.",
        (Fix(f"Write {speaker}:", (Edit(start, end, f"{speaker}:"),)),),
    )


def _looks_like_name(name: str) -> bool:
    words = name.split()
    return len(words) <= 3 and all(
        _NAME_WORD.fullmatch(word) and (word[0].isupper() or word in ("of", "the", "de", "von"))
        for word in words
    )
