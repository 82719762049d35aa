"""A language that is timed without rules of its own, or of which nothing but the time is told."""

from collections.abc import Iterator

from saywright.checks.check import Check, FileView, Page
from saywright.finding import Finding
from saywright.language.sentence_facts import sentence_facts
from saywright.markup.written import written_settings
from saywright.project import FILE_NAME
from saywright.speech.vowel_nuclei import LANGUAGES, has_rules


def find_in_file(view: FileView) -> Iterator[Finding]:
    if view.project.language and not has_rules(view.project.language):
        yield Finding("language", 0, 0, f"{FILE_NAME}: {_message(view.project.language)}")
    for setting in written_settings(view.setting_lines):
        if setting.key == "language" and not has_rules(setting.value):
            yield Finding("language", *setting.range, _message(setting.value))
    yield from _without_grammar(view)


def _without_grammar(view: FileView) -> Iterator[Finding]:
    """A tense or a person that is asked for in a language in which neither can be told."""
    settings = list(written_settings(view.setting_lines))
    languages = [setting.value for setting in settings if setting.key == "language"]
    language = next(iter(languages), view.project.language or "en")
    if sentence_facts("", language) is not None:
        return
    for setting in settings:
        if setting.key in ("tense", "person") and setting.value != "free":
            message = (
                f"Which {setting.key} a line is in can be told in English only, so nothing holds "
                f"the piece to it in the language “{language}”."
            )
            yield Finding("language", *setting.range, message)


def _message(tag: str) -> str:
    return (
        f"There are no rules for the language “{tag}”: it is timed as English, a syllable for each "
        f"vowel that is written, and its range is wider. Languages with rules: "
        f"{', '.join(LANGUAGES)}."
    )


CHECK = Check(
    "language",
    "hint",
    "a language of which too little is known",
    find_in_file=find_in_file,
    page=Page(
        why="Times rest on how a language is pronounced and how fast it is spoken. Tense, person, "
        "fillers and the like are looked for in English only: in any other language those checks "
        "hold their tongue, and a “tense:” or a “person:” that is set there is pointed out.",
        example="language: cy\n\nRydw i'n pwyso'r halen.",
        to_do="Time a take or two: they put right what is not known of the language.",
    ),
)
