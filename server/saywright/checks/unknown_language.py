"""A language that is timed without rules of its own."""

from collections.abc import Iterator

from saywright.checks.check import Check, FileView, Page
from saywright.finding import Finding
from saywright.markup.written import written_settings
from saywright.project import FILE_NAME
from saywright.speech.vowel_nuclei import LANGUAGES, has_rules


def find_in_file(view: FileView) -> Iterator[Finding]:
    if view.project.language and not has_rules(view.project.language):
        yield Finding("language", 0, 0, f"{FILE_NAME}: {_message(view.project.language)}")
    for setting in written_settings(view.setting_lines):
        if setting.key == "language" and not has_rules(setting.value):
            yield Finding("language", *setting.range, _message(setting.value))


def _message(tag: str) -> str:
    return (
        f"There are no rules for the language “{tag}”: it is timed as English, a syllable for each "
        f"vowel that is written, and its range is wider. Languages with rules: "
        f"{', '.join(LANGUAGES)}."
    )


CHECK = Check(
    "language",
    "hint",
    "a language that has no rules of its own",
    find_in_file=find_in_file,
    page=Page(
        why="Times rest on how a language is pronounced and how fast it is spoken.",
        example="language: cy\n\nRydw i'n pwyso'r halen.",
        to_do="Time a take or two: they put right what is not known of the language.",
    ),
)
