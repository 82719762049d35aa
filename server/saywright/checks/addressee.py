"""A piece that is meant for somebody, in which nobody is ever spoken to."""

import re
from collections.abc import Iterator

from saywright.checks.check import Check, Page, View
from saywright.finding import Finding
from saywright.language.english.quoted_words import quotes_in
from saywright.language.english.tag import is_english
from saywright.language.sentence_facts import sentence_facts
from saywright.markup.settings import Settings
from saywright.speech.timing import TimedParagraph

_FEWEST_WORDS = 20
_TITLES = (
    "sirs?|madam|ma['’]am|miss|ladies|gentlemen|lords?|friends?|folks|everyone|everybody|darling"
    "|dear|love|mum|mother|dad|father|children"
)
_TURNS = re.compile(
    r"\b(?:you|yours?|yourself|yourselves|y['’]all|ye|thou|thee|thy)\b"
    rf"|(?:^|[,—–-]\s*)(?:{_TITLES})(?=[,.!?;:—–]|$| and gentlemen\b)",
    re.IGNORECASE,
)
_ASIDE = re.compile(
    r"^\W*you (?:know|see)\s*[,—–]|[,—–-]\s*you (?:know|see)\s*(?=[,.…—–]|$)", re.IGNORECASE
)  # said to nobody in particular
_NOBODY_ELSE = re.compile(r"(?:nobody|no one|(?:him|her|my|your|one|them)sel(?:f|ves))\W*", re.I)
_PLAIN_WORDS = frozenset(
    "the a an of to in at on and or from for with her his my our their who whoever all".split()
)
_WORD = re.compile(r"[^\W\d_]+")


def speaks_to_someone(timed: TimedParagraph, settings: Settings, language: str) -> bool:
    """Whether a line of the paragraph turns to somebody: says “you” outside quotes, asks something
    of them, calls them “sir” or what `to` does. Always true where that cannot be told."""
    if not settings.to or not is_english(language) or _NOBODY_ELSE.fullmatch(settings.to):
        return True
    names = {word.lower() for word in _WORD.findall(settings.to)} - _PLAIN_WORDS
    in_quotes = False
    for sentence in timed.sentences:
        if sentence.cut:
            continue
        quotes = quotes_in(sentence.text, in_quotes)
        in_quotes = quotes.open_after
        own = "".join(each for at, each in enumerate(sentence.text) if not quotes.hold(at))
        called = names.intersection(word.lower() for word in _WORD.findall(own))
        if called or _TURNS.search(_ASIDE.sub(",", own)) or _asks(own.strip(), language):
            return True
    return False


def _asks(text: str, language: str) -> bool:
    facts = sentence_facts(text, language)
    return facts is not None and facts.tense == "imperative"


def find(view: View) -> Iterator[Finding]:
    timeline = view.timeline
    part = timeline.part
    whole = timeline.blocks.sum_between(part.first_block, part.end_block)
    if not part.settings.to or whole.turns_to_someone or timeline.words < _FEWEST_WORDS:
        return
    message = (
        f"This is meant for {part.settings.to}, and no line turns to anyone yet. What does the "
        "speaker want from them? A “you”, a question or a request would say."
    )
    yield Finding("addressee", *view.heading, message)


CHECK = Check(
    "addressee",
    "hint",
    "a piece meant for somebody (to:) in which nobody is spoken to",
    find,
    page=Page(
        why="A monologue is half of a talk: it is said to someone, to get something from them. "
        "Where “to:” says who that is and no line ever turns to them, it tends to become a "
        "report. It is looked for in English only.",
        example="to: the harbour master\n\nThe lamp went out at nine. The wind had turned by then, "
        "and the ferry was late. I carried the oil up the stairs, as I do every night of the year.",
        to_do="Let a line turn to them: a “you”, a question, a request, their name. Or take the "
        "“to:” out if the piece is said to nobody.",
    ),
)
