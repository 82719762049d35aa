"""Rules: a part's kind after the dashes, the piece that takes are of, and settings after a `;`."""

import re
from collections.abc import Iterator, Mapping

from saywright.analysis import Analysis
from saywright.completing.candidate import Candidate, Line
from saywright.completing.settings import keys, values
from saywright.markup.lines import LEAD, read_rule
from saywright.markup.nearest import nearest
from saywright.markup.settings import GOALS, RULE_KEYS
from saywright.markup.tree import KINDS, Kind

_DASHES = re.compile(rf"{LEAD}-{{4,}}")
_KIND_SO_FAR = re.compile(r"(?P<gap>[ \t]*)(?P<kind>[A-Za-z]*)\Z")
_KIND_GOES_ON = re.compile(r"[A-Za-z]*")
_KIND = re.compile(r"[ \t]*(?P<kind>[A-Za-z]+)[ \t]*(?=[:;])")
_LABEL = re.compile(r":[ \t]*(?P<label>[^;]*)\Z")
_SETTING_KEY = re.compile(r";[ \t]*[A-Za-z-]*\Z")
_SETTING = re.compile(
    rf";[ \t]*(?P<key>{'|'.join(sorted(RULE_KEYS, key=len, reverse=True))})"
    r"(?:[ \t]*:|(?=[ \t]))[ \t]*(?P<value>[^;]*)\Z",
    re.IGNORECASE,
)
_WHAT: Mapping[Kind, str] = {
    "piece": "what is performed: everything is checked",
    "draft": "raw writing: nobody is judged while drafting",
    "notes": "for yourself: never spoken",
    "takes": "timed read-throughs, one a line",
}
_OF_SPEECH = ("language", "pace", "form", "speaker", "leave-out")
_SETTINGS: Mapping[Kind, tuple[str, ...]] = {
    "piece": ("slot", "margin", "tense", "person", "to", *_OF_SPEECH),
    "draft": (*GOALS, *_OF_SPEECH),
    "notes": (),
    "takes": (),
}


def is_rule_so_far(line: Line) -> bool:
    """Whether the cursor stands after the dashes that begin a rule."""
    return _DASHES.match(line.before) is not None


def in_rule(line: Line, analysis: Analysis) -> Iterator[Candidate]:
    """What may stand at the cursor in a rule."""
    dashes = _DASHES.match(line.before)
    start = dashes.end() if dashes else 0
    if so_far := _KIND_SO_FAR.match(line.before, start):
        yield from _kinds(line, so_far)
        return
    kind = _kind(line.text, start)
    if kind is None:
        return
    if _SETTING_KEY.search(line.before, start):
        taken = _keys_elsewhere(line)
        yield from keys(line, [key for key in _SETTINGS[kind] if key not in taken], " ")
    elif setting := _SETTING.search(line.before, start):
        semicolon = line.text.find(";", line.cursor)
        end = semicolon if semicolon >= 0 else len(line.text)
        yield from values(line, setting["key"].casefold(), setting.start("value"), end, analysis)
    elif kind == "takes" and (label := _LABEL.search(line.before, start)):
        yield from _labels(line, label, analysis)


def _keys_elsewhere(line: Line) -> set[str]:
    """The keys that the rule sets, but for one that the cursor is in."""
    rule = read_rule(line.text)
    return {
        key
        for key, _, (start, end) in (rule.settings if rule else ())
        if not start <= line.cursor <= end
    }


def _kind(text: str, start: int) -> Kind | None:
    match = _KIND.match(text, start)
    known = nearest(match["kind"], KINDS) if match else None
    return next((kind for kind in KINDS if kind == known), None)


def _kinds(line: Line, so_far: re.Match[str]) -> Iterator[Candidate]:
    goes_on = _KIND_GOES_ON.match(line.text, line.cursor)
    end = goes_on.end() if goes_on else line.cursor
    gap = "" if so_far["gap"] else " "
    for kind in KINDS:
        yield Candidate(kind, gap + kind, so_far.start("kind"), end, "kind", _WHAT[kind])


def _labels(line: Line, label: re.Match[str], analysis: Analysis) -> Iterator[Candidate]:
    """The labels of the file's pieces, for takes to be of."""
    semicolon = line.text.find(";", line.cursor)
    end = len(line.text[: semicolon if semicolon >= 0 else len(line.text)].rstrip())
    gap = "" if line.text[label.start("label") - 1].isspace() else " "
    start, end = label.start("label"), max(end, line.cursor)
    labels: dict[str, str] = {}
    for part in analysis.parts:
        if part.kind == "piece" and part.label:
            labels.setdefault(" ".join(part.label.split()).casefold(), part.label)
    for each in labels.values():
        yield Candidate(each, gap + each, start, end, "name", "the piece that was read")
