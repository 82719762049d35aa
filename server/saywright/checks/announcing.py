"""A sentence that only announces the next, and a hedge in front of what is meant."""

from collections.abc import Iterator

from saywright.checks.check import Check, Page
from saywright.checks.dropping import is_kept, most_fixes, without
from saywright.checks.passage import Line, Passage
from saywright.cuts import marking
from saywright.finding import Finding
from saywright.language.english.announcements import announces, hedge
from saywright.language.english.quoted_words import quotes_in
from saywright.language.english.tag import is_english


def find(passage: Passage) -> Iterator[Finding]:
    if not is_english(passage.language):
        return
    in_quotes, left = False, most_fixes(passage)
    last = len(passage.own) - 1
    for index, line in enumerate(passage.own):
        quotes = quotes_in(line.text, in_quotes)
        speaks = not in_quotes and not quotes.marks
        in_quotes = quotes.open_after
        if not speaks or line.sentence.kept:
            continue
        if (index < last or passage.after) and announces(line.text):
            yield _announcement(line, left > 0)
            left -= 1
        elif (found := hedge(line.text)) and not is_kept(line, *found):
            yield _hedge(passage, line, *found, with_fix=left > 0)
            left -= 1


def _announcement(line: Line, with_fix: bool) -> Finding:
    fix = marking.cut(line.paragraph, line.sentence) if with_fix else None
    fixes = (fix.shifted(line.at),) if fix else ()
    message = "This only says that something is coming. Say the thing itself."
    return Finding("announcing", *line.span, message, fixes)


def _hedge(passage: Passage, line: Line, start: int, end: int, with_fix: bool) -> Finding:
    words = " ".join(line.text[start:end].split()).rstrip(",:")
    edits = without(line.text, start, end) if with_fix else ()
    fix = passage.fix(f"Drop “{words}”", line, edits) if edits else None
    message = f"“{words}” holds back what comes after it. Say it straight."
    return Finding("announcing", *line.where(start, end), message, (fix,) if fix else ())


CHECK = Check(
    "announcing",
    "hint",
    "a sentence or a hedge that only leads up to the next words",
    find_nearby=find,
    page=Page(
        "An announcement spends time on saying that something will be said. The listener is "
        "there already, and the line that follows is mostly stronger without it.",
        "I want to tell you something. I never once weighed the salt.",
        "Cut it, and read on from the next words. Keep it if the wait itself is the point.",
    ),
)
