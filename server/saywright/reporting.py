"""What is found → what is said: how much it matters here, what is left out, and when it is enough.

Of one check no more than a set number is said in a part, then once how many there are besides.
"""

from collections import defaultdict
from collections.abc import Iterable, Sequence
from typing import NamedTuple

from saywright.checks.catalogue import CHECK_NAMES, CHECKS
from saywright.checks.check import Check
from saywright.checks.name_from_life import without_names
from saywright.finding import Edit, Finding, Fix
from saywright.markup.settings import Settings
from saywright.project import Project

_BY_NAME = {check.name: check for check in CHECKS}
_ORDER = {name: index for index, name in enumerate(CHECK_NAMES)}


class Found(NamedTuple):
    """A finding, the settings that hold where it stands, and its part's index in the file (-1
    where it is of no part)."""

    finding: Finding
    settings: Settings
    part: int


class Reported(NamedTuple):
    """A finding and how much it matters here: hint, information, warning or error."""

    finding: Finding
    severity: str


def reported(found: Iterable[Found], project: Project) -> tuple[Reported, ...]:
    """Every finding that is neither left out, nor off, nor too many, in the file's order."""
    groups: dict[tuple[int, str], list[Reported]] = defaultdict(list)
    for finding, settings, part in found:
        severity = _severity(finding, project)
        if severity != "off" and finding.check not in settings.leave_out:
            said = without_names(finding, project)
            groups[part, finding.check].append(Reported(said, severity))
    enough = [
        each
        for (part, name), group in groups.items()
        for each in (group if part < 0 else _enough(group, _BY_NAME[name], project))
    ]
    return tuple(sorted(enough, key=_by_place))


def _severity(finding: Finding, project: Project) -> str:
    usual = finding.severity or _BY_NAME[finding.check].severity
    return project.severities.get(finding.check, usual)


def _by_place(each: Reported) -> tuple[int, int, int]:
    finding = each.finding
    return finding.start, finding.end, _ORDER[finding.check]


def _enough(group: list[Reported], check: Check, project: Project) -> Sequence[Reported]:
    if len(group) == 1:
        return group
    group.sort(key=_by_place)
    together = _all_at_once(group, check)
    most = min(project.at_most, check.at_most or project.at_most)
    said = group if len(group) <= most + 1 else [*group[:most], _besides(group[most:])]
    return [_with_fix(each, together) for each in said] if together else said


def _besides(rest: Sequence[Reported]) -> Reported:
    """One that stands for all of `rest`, where the first of them is."""
    first = rest[0].finding
    message = f"{len(rest)} more like this from here on."
    return rest[0]._replace(finding=Finding(first.check, first.start, first.end, message))


def _all_at_once(group: Sequence[Reported], check: Check) -> Fix | None:
    """The first fixes of all the findings as one, where the check offers that."""
    if not check.fix_all:
        return None
    edits: list[Edit] = []
    count = 0
    for each in group:
        first = each.finding.fixes[:1]
        if first and (not edits or first[0].edits[0].start >= edits[-1].end):
            edits += first[0].edits
            count += 1
    return Fix(check.fix_all.format(count=count), tuple(edits)) if count > 1 else None


def _with_fix(each: Reported, fix: Fix) -> Reported:
    return each._replace(finding=each.finding._replace(fixes=(*each.finding.fixes, fix)))
