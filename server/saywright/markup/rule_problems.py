"""What is wrong with a rule line: its kind, its settings' values, or that it is no rule."""

import re

from saywright.finding import Edit, Finding, Fix
from saywright.markup.lines import RuleLine, lead_length
from saywright.markup.setting_problems import unreadable_value
from saywright.markup.settings import RULE_KEYS, Settings, with_value
from saywright.markup.tree import KINDS, Range
from saywright.markup.values import Unreadable

_DASHES = re.compile(r"[-‒–—―]+")


def rule_problems(rule: RuleLine, file_settings: Settings) -> tuple[Finding, ...]:
    """The rule's own problems and those of its settings' values, in order."""
    problems = list(rule.problems)
    for setting in rule.settings:
        try:
            with_value(file_settings, RULE_KEYS[setting.key], setting.value)
        except Unreadable as unreadable:
            end = setting.range.end
            where = Range(end - len(setting.value), end) if setting.value else setting.range
            problem = unreadable_value(setting.key, where, unreadable)
            problems.append(problem if setting.value else problem._replace(fixes=()))
    return tuple(sorted(problems))


def spoken_rule(line: str, start: int) -> Finding:
    """A line of speech that starts as a rule does, or nearly so."""
    first = start + lead_length(line)
    words = line[first - start :].rstrip()
    end = first + len(words)
    rest = _DASHES.sub("", words, count=1).strip()
    if words.startswith("----"):
        message = (
            "This line starts like a rule but names no part, so it is spoken. "
            f"The parts are {', '.join(KINDS)}."
        )
    else:
        message = "A rule has four dashes. As it stands this line is spoken."
    fixes = [Fix("Mean it as speech: \\-", (Edit(first, first, "\\"),))] if words[0] == "-" else []
    if meant := _meant_rule(rest):
        fixes.insert(0, Fix(f"Write {meant}", (Edit(first, end, meant),)))
    return Finding("spoken-rule", first, end, message, tuple(fixes))


def _meant_rule(rest: str) -> str | None:
    """The rule that was most likely meant, from what follows the dashes."""
    kind, _, more = rest.partition(" ")
    if rest.startswith((":", ";")):
        return f"---- piece{rest}"
    if kind.rstrip(":;").casefold() not in KINDS:
        return None if rest else "----"
    if more and kind[-1] not in ":;" and not more.startswith((":", ";")):
        return f"---- {kind}: {more.lstrip('-–— ')}"
    return f"---- {rest}"
