"""What is offered at a place by nature: the findings' own fixes, cut and keep and their undoing,
to leave a check out, and to tidy the file."""

from collections.abc import Iterator

from saywright.cuts.at_place import fixes_at
from saywright.cuts.refused import refused_at
from saywright.finding import Edit, Fix
from saywright.leaving_out import leave_out
from saywright.markup.tidying import tidying_edits
from saywright.protocol.offers import FIX_ALL, QUICK_FIX, REWRITE, Asked, Note, Offer, Source

_SLIPS = ("error", "warning")
_OUT_OF_SIGHT = "Some of the places that change are on other lines."


def _quick_fixes(asked: Asked) -> Iterator[Offer]:
    for reported in asked.findings:
        fixes = reported.finding.fixes
        # a slip of the keyboard has one right form; of words only the writer can judge
        obvious = len(fixes) == 1 and reported.severity in _SLIPS
        for fix in fixes:
            note = _note(asked, fix)
            yield Offer(fix.title, QUICK_FIX, fix.edits, reported, preferred=obvious, note=note)


def _note(asked: Asked, fix: Fix) -> Note | None:
    """To be looked through first: an edit of several places away from the cursor."""
    away = sum(_is_away(asked, edit) for edit in fix.edits)
    return Note(fix.title, _OUT_OF_SIGHT, needs_confirmation=True) if away > 1 else None


def _is_away(asked: Asked, edit: Edit) -> bool:
    return edit.end < asked.lines.start or asked.lines.end < edit.start


def _rewrites(asked: Asked) -> Iterator[Offer]:
    for fix in fixes_at(asked.analysis, asked.where):
        yield Offer(fix.title, REWRITE, fix.edits)
    for title, why in refused_at(asked.analysis, asked.where):
        yield Offer(title, REWRITE, disabled=why)


def _leaving_out(asked: Asked) -> Iterator[Offer]:
    """Once for each check that has something to say here."""
    seen: set[str] = set()
    for reported in asked.findings:
        if reported.finding.check not in seen:
            seen.add(reported.finding.check)
            if fix := leave_out(asked.analysis, reported.finding):
                yield Offer(fix.title, QUICK_FIX, fix.edits, reported)


def _tidying(asked: Asked) -> Iterator[Offer]:
    """What formatting does, for a client that asks for all fixes when it saves. No word changes."""
    if edits := tidying_edits(asked.analysis.text):
        yield Offer("Tidy the marks of this file", FIX_ALL, edits)


OF_FINDINGS = Source("finding", (QUICK_FIX,), _quick_fixes)
OF_SENTENCES = Source("sentence", (REWRITE,), _rewrites)
OF_CHECKS = Source("check", (QUICK_FIX,), _leaving_out)
OF_MARKS = Source("marks", (FIX_ALL,), _tidying, unbidden=False)
