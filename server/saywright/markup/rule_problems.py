"""What is wrong with a rule line: its kind, its settings' values, or that it is no rule."""

from saywright.finding import Edit, Finding, Fix
from saywright.markup.lines import RuleLine, lead_length
from saywright.markup.setting_problems import unreadable_value
from saywright.markup.settings import RULE_KEYS, Settings, with_value
from saywright.markup.tree import KINDS, Range
from saywright.markup.values import Unreadable


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
    """A line of speech that starts as a rule does."""
    dashes = start + lead_length(line)
    end = start + len(line.rstrip())
    fixes = [Fix("Mean it as speech: \\-", (Edit(dashes, dashes, "\\"),))]
    after = dashes + len(line.strip()) - len(line.strip().lstrip("-"))
    if line[after - start :].lstrip().startswith((":", ";")):
        fixes.insert(0, Fix("Start a piece here", (Edit(after, after, " piece"),)))
    message = (
        "This line starts like a rule but names no part, so it is spoken. "
        f"The parts are {', '.join(KINDS)}."
    )
    return Finding("spoken-rule", dashes, end, message, tuple(fixes))
