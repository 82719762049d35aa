"""A piece told by "I" that slips: its speaker speaks of herself by name, or it turns to "you"."""

import re
from collections.abc import Iterator, Sequence

from saywright.checks.check import Check, Page
from saywright.checks.passage import Line, Passage
from saywright.checks.tense_runs import Told, bearing
from saywright.cuts.marking import cut
from saywright.finding import Finding, Fix, Related
from saywright.language.english.first_person import first_person, stands_alone
from saywright.language.facts import Facts

LEAST_LINES = 3  # about "you": fewer are ordinary, in published first-person prose too
_OF_SPEAKER = re.compile(r"\b(?:I|me|my|mine|myself|we|us|our|ours)\b", re.IGNORECASE)
_NAMING = re.compile(r"\b(?:names?|named|call(?:s|ed)?|spell(?:s|ed)?)\b", re.IGNORECASE)


def find(passage: Passage) -> Iterator[Finding]:
    if passage.settings.person not in (None, "first"):
        return
    if passage.speaker:
        for line in passage.own:
            yield from _named(passage, line, passage.speaker)
    if passage.settings.to is None:
        yield from _turned_to_you(passage)


def _named(passage: Passage, line: Line, speaker: str) -> Iterator[Finding]:
    """The speaker's own name as the one who acts, in her own mouth."""
    facts = line.facts
    verb = facts.verbs[facts.main] if facts and facts.main is not None else None
    if facts is None or verb is None or verb.subject is None or verb.quoted:
        return
    if verb.tense == "imperative" or facts.is_question:
        return
    if line.text[slice(*verb.subject)] not in (speaker, *speaker.split()):
        return
    if _OF_SPEAKER.search(line.text) or _NAMING.search(line.text):
        return
    name = line.text[slice(*verb.subject)]
    if stands_alone(line.text, verb, name):
        message = f"{speaker} is the one who speaks here, and would say “I”."
        fixes = tuple(_fixes(passage, line, facts, name))
        yield Finding(CHECK.name, *line.where(*verb.subject), message, fixes)


def _fixes(passage: Passage, line: Line, facts: Facts, name: str) -> Iterator[Fix]:
    edits = first_person(line.text, facts, name)
    if edits and (fix := passage.fix(f"“I” for “{name}”", line, edits)):
        yield fix
    if fix := cut(line.paragraph, line.sentence):
        yield fix.shifted(line.at)


def _turned_to_you(passage: Passage) -> Iterator[Finding]:
    """Three lines or more, one after the other, that tell of "you" alone."""
    lines = [*passage.before, *passage.own, *passage.after]
    first = len(passage.before)
    for run in _runs([_about_you(line) for line in lines]):
        if len(run) >= LEAST_LINES and first <= run[0] < first + len(passage.own):
            line = lines[run[0]]
            message = (
                f"{len(run)} lines running are about “you”. "
                f"Is it still {passage.speaker or 'the speaker'}’s own story?"
            )
            related = tuple(Related(*_you(lines[at]), "“you” again") for at in run[1:4])
            yield Finding(CHECK.name, *_you(line), message, related=related)


def _runs(about: Sequence[bool | None]) -> Iterator[list[int]]:
    """The indexes of lines about "you", those that tell nothing skipped, till another comes."""
    run: list[int] = []
    for index, is_you in enumerate(about):
        if is_you:
            run.append(index)
        elif is_you is not None:
            yield run
            run = []
    yield run


def _about_you(line: Line) -> bool | None:
    told = Told(line.text, line.facts)
    if bearing(told) is None:
        return None if line.facts is None or line.facts.tense == "fragment" else False
    return told.subject == "you" and not _OF_SPEAKER.search(line.text)


def _you(line: Line) -> tuple[int, int]:
    verb = Told(line.text, line.facts).verb
    assert verb and verb.subject
    return line.where(*verb.subject)


CHECK = Check(
    "person-drift",
    "hint",
    "a line in which the speaker is named as another would, or a stretch about “you”",
    find_nearby=find,
    page=Page(
        why="“I” puts the listener in the room with the one who speaks. A line that names the "
        "speaker as another would, or a stretch about “you”, lets go of that. It is looked for in "
        "English only.",
        example="speaker: Ines\n\nI lock the lamp-room every night. Ines walks to the window.",
        to_do="Say “I”. Where “you” is somebody in the play, name them at the top, as in to: the "
        "harbour master, and the stretch is left alone. A piece told otherwise says so: person: "
        "third, or person: free.",
    ),
)
