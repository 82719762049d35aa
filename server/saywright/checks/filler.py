"""Words that carry nothing where they stand: um, you know, a like between two commas."""

from collections.abc import Iterator

from saywright.checks.check import Check, Page
from saywright.checks.dropping import is_kept, most_fixes, without
from saywright.checks.passage import Line, Passage
from saywright.finding import Finding
from saywright.language.english.fillers import fillers
from saywright.language.english.quoted_words import quotes_in
from saywright.language.english.tag import is_english


def find(passage: Passage) -> Iterator[Finding]:
    if not is_english(passage.language):
        return
    in_quotes, left = False, most_fixes(passage)
    for line in passage.own:
        quotes = quotes_in(line.text, in_quotes)
        in_quotes = quotes.open_after
        for start, end in () if line.sentence.kept else fillers(line.text):
            if not quotes.hold(start) and not is_kept(line, start, end):
                yield _finding(passage, line, start, end, left > 0)
                left -= 1


def _finding(passage: Passage, line: Line, start: int, end: int, with_fix: bool) -> Finding:
    words = " ".join(line.text[start:end].split()).rstrip(",")
    edits = without(line.text, start, end) if with_fix else ()
    fix = passage.fix(f"Drop “{words}”", line, edits) if edits else None
    message = f"“{words}” carries nothing here."
    return Finding("filler", *line.where(start, end), message, (fix,) if fix else ())


CHECK = Check(
    "filler",
    "hint",
    "words that carry nothing where they stand",
    find_nearby=find,
    looks_around=False,
    at_most=4,
    fix_all="Drop all {count} fillers in this piece",
    page=Page(
        "Every word costs time, and a listener waits through it for the one that matters. If it "
        "is how this character speaks, one or two are enough to hear it.",
        "I was, like, cold. So I lit the lamp.",
        "Say the line without it. If nothing is missing, drop it.",
    ),
)
