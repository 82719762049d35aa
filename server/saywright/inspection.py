"""Everything known of a script as plain dictionaries and lists, ready for JSON.

The shape is part of the public interface: `saywright.inspect` and `saywright inspect --json`
give the same. Offsets are half-open code points of the file.
"""

from typing import Any

from saywright.analysis import Analysis, analyse
from saywright.checks.check import View
from saywright.finding import Fix
from saywright.language.sentence_facts import sentence_facts
from saywright.markup.tree import Part
from saywright.project import NO_PROJECT, Project
from saywright.reporting import Reported
from saywright.speech.said_sentence import said_sentence
from saywright.speech.timeline import PlacedSentence
from saywright.speech.voice import language_of


def inspect(text: str, project: Project = NO_PROJECT) -> dict[str, Any]:
    """What is known of `text`, a script in the Say markup.

    Returns `{"parts": [...], "findings": [...]}`. A part has `kind`, `label`, `start`, `end`,
    `seconds`, `seconds_low`, `seconds_high`, `lead_seconds`, `slot_seconds` ([low, high] or
    None), `words`, `syllables` and `sentences`; a sentence `start`, `end`, `text`, `said` (the
    text with its figures and abbreviations in words, None where it is said as it is written),
    `speech_seconds`, `pause_seconds`, `words`, `syllables`, `tense`, `person`, `kept`, `cut` and
    `speaker`. A finding has `check`, `severity`, `start`, `end`, `message`, `fixes`, each
    with a `title` and `edits` of `start`, `end` and `text`, and `related`, other places it is
    about, each with `start`, `end` and `message`.

    A part's `seconds` is its lead and the speech and pauses of its sentences that are not cut, by
    the takes where there are any. From `seconds_low` to `seconds_high` lie 90% of readings.
    A sentence's `tense` is present, past, future, modal, imperative, fragment or unsure, its
    `person` first, second, third or None; both are None in a language they are not told in.
    """
    return inspection(analyse(text, project))


def inspection(analysis: Analysis) -> dict[str, Any]:
    """`inspect` of what has been analysed already."""
    views = {view.timeline.part.start: view for view in analysis.views}
    return {
        "parts": [
            _part(part, views.get(part.start), language_of(part.settings, analysis.project))
            for part in analysis.parts
        ],
        "findings": [_finding(reported) for reported in analysis.reported],
    }


def _part(part: Part, view: View | None, language: str) -> dict[str, Any]:
    timeline = view.timeline if view else None
    low, high = timeline.range_seconds if timeline else (0.0, 0.0)
    return {
        "kind": part.kind,
        "label": part.label,
        "start": part.start,
        "end": part.end,
        "seconds": timeline.seconds if timeline else 0.0,
        "seconds_low": low,
        "seconds_high": high,
        "lead_seconds": timeline.lead_seconds if timeline else 0.0,
        "slot_seconds": list(part.settings.slot) if part.settings.slot else None,
        "words": timeline.words if timeline else 0,
        "syllables": timeline.syllables if timeline else 0,
        "sentences": [_sentence(each, language) for each in timeline.sentences] if timeline else [],
    }


def _sentence(placed: PlacedSentence, language: str) -> dict[str, Any]:
    sentence = placed.sentence
    facts = sentence_facts(sentence.text, language)
    return {
        "start": placed.start,
        "end": placed.end,
        "text": sentence.text,
        "said": said_sentence(sentence.text, language),
        "speech_seconds": sentence.speech_seconds,
        "pause_seconds": placed.pause_seconds,
        "words": sentence.words,
        "syllables": sentence.syllables,
        "tense": facts.tense if facts else None,
        "person": facts.person if facts else None,
        "kept": sentence.kept,
        "cut": sentence.cut,
        "speaker": placed.speaker,
    }


def _finding(reported: Reported) -> dict[str, Any]:
    finding = reported.finding
    return {
        "check": finding.check,
        "severity": reported.severity,
        "start": finding.start,
        "end": finding.end,
        "message": finding.message,
        "fixes": [_fix(fix) for fix in finding.fixes],
        "related": [each._asdict() for each in finding.related],
    }


def _fix(fix: Fix) -> dict[str, Any]:
    return {"title": fix.title, "edits": [edit._asdict() for edit in fix.edits]}
