"""The problems that reading the markup finds; each is put together where it is found."""

from saywright.checks.check import Check

CHECKS = (
    Check("open-mark", "warning", "a mark that nothing closes, or that nothing opens"),
    Check("kept-and-cut", "warning", "words that are both kept and cut"),
    Check("duration", "warning", "a silence whose number lacks its unit"),
    Check("setting", "warning", "a setting that is unknown, unreadable or there twice"),
    Check("part-kind", "warning", "a rule that names a part wrongly"),
    Check("spoken-rule", "hint", "a line that starts like a rule and would be spoken"),
    Check("cue", "hint", "a line that looks like a cue and would be spoken"),
    Check("take-line", "warning", "a take that cannot be read"),
    Check("project-file", "warning", "what cannot be read in saywright.toml"),
)
