"""How much a line leans on the one before it, or leaves hanging if the one after goes.

By plain signs: question marks, first and last words, how short it is, whether it has a verb.
"""

import re
from functools import lru_cache

from saywright.cuts.planning.predicates import predicates
from saywright.language.english.mentions import mentions
from saywright.language.english.tag import is_english
from saywright.language.sentence_facts import sentence_facts

_ANSWER, _UNANSWERED, _UNFINISHED, _SUPPOSED = 80, 60, 40, 80
_HALF_OF_CONTRAST = 80
_LINKED, _LOOSELY_LINKED, _SAYS_ALSO = 60, 20, 30
_ASKS_OF, _ASKS_ABOUT = 80, 40
_POINTS_BACK, _BARE, _LEFT_OUT, _SAID_BY = 80, 60, 60, 60
_TOLD_SHORTLY = 60
_MOST = 160
_SHORT_WORDS = 4
_BIT_WORDS = 2

_WORD = re.compile(r"[^\W\d_]+(?:['’][^\W\d_]+)*")
_QUESTION = re.compile(r"\?[\"”’)\s]*$")
_LEADS_ON = re.compile(r"[:,–—-][\"”’)\s]*$")
_LINKS = frozenset(
    "but so because cause which therefore otherwise instead except yet nor hence thus or".split()
)
_LOOSE_LINKS = frozenset("and then still also even not besides anyway".split())
_LINKING_PHRASE = re.compile(
    r"""(?:and\ )?(?:then\ again|after\ (?:that|this)|since\ then|until\ then|by\ then|even\ so
    |even\ then|because\ of\ (?:that|this|it)|for\ that|that['’]?s\ (?:why|how|when|where|what)
    |that\ is\ (?:why|how|when|where)|that\ way|at\ least|in\ other\ words|for\ (?:example|instance)
    |as\ (?:if|though)|just\ like\ that|so\ (?:did|do|was|is|am|had|have|would)\b|neither\b|both\b
    |the\ (?:other|others|same|rest|next|second|third|latter)\b|another\b|one\ of\ (?:them|those)
    |(?:yes|no|nope|never|nobody|nothing|none|exactly|always)[.,!]|me\ (?:too|neither)
    |it\ (?:was|is|wasn['’]t|isn['’]t)\ (?:she|he|they|we|i|[A-Z]\w+)\ (?:who|that)\b)""",
    re.IGNORECASE | re.VERBOSE,
)
_OPENS_WITH_NOT = re.compile(r"not\b(?! (?:that|only|all|everyone|every)\b)", re.IGNORECASE)
_SAYS_SO = re.compile(
    r"\b(?:tell|tells|told|think|thinks|thought|say|says|said|hope|suppose|believe|do|does|did)"
    r"(?: \w+)? so\b(?! (?:much|many|far|that)\b)"
    r"|\b(?:say|says|said|call|calls|called) it\b",
    re.IGNORECASE,
)
_SUPPOSES = re.compile(r"\W*(?:(?:but|and|so|now) )?(?:suppose|imagine|if|unless)\b", re.IGNORECASE)
# "It isn't so that she can find us." "It's so that I can say it."
_IS_NOT = re.compile(
    r"(?:^\W*(?:(?:and|but|so|no),? )?(he|she|they|we|i|you)|\b(it|that|this))"
    r"(?:['’](?:s|m|re) not| (?:is|am|are|was|were)(?:n['’]t| not))\b",
    re.IGNORECASE,
)
_IS = re.compile(
    r"\W*(it|that|this|he|she|they|we|i|you)(?:['’](?:s|m|re)| (?:is|am|are|was|were))\b"
    r"(?!n['’]t| not\b)",
    re.IGNORECASE,
)
# "I said it was for the moths. That was not true."
_TAKES_BACK = re.compile(
    r"\W*(?:(?:and|but),? )?(?:(?:that|this|it)(?:['’]s| is| was)(?:n['’]t| not)(?: even| quite)?"
    r" (?:true|so|right)|(?:that|this|it)(?:['’]s| is| was) (?:a lie|untrue)"
    r"|I (?:lied|was lying|made (?:that|it) up|am lying)|not true)\b(?! that\b)",
    re.IGNORECASE,
)
_THEN = re.compile(r"\W*then\b", re.IGNORECASE)
_ASKED = re.compile(
    r"\b(?:ask|asks|asked)(?: (?:me|you|him|her|us|them|[A-Z]\w+))?"
    r" (?:who|what|which|where|when|why|how|if|whether)\b"
)
_REPLIES = re.compile(
    r"\W*(?:I|he|He|she|She|we|We|they|They|[A-Z]\w+) (?:say|says|said|told|tell|tells)\b"
)
_IT_WAS = re.compile(r"\W*(?:it|that|this)\b", re.IGNORECASE)
_IN_QUOTES = re.compile(r"\s*[\"“‘].*[\"”’]\s*$", re.DOTALL)
_ALSO = re.compile(
    r"\b(?:too|either|as well|again|instead|otherwise|else|likewise|anyway)[.!?…]", re.IGNORECASE
)
# "He didn't." "I never ask." "So was I.": what it is about was said before
_LEFT_OUT_AFTER = re.compile(
    r"(?:\b(?:did|do|does|was|were|is|am|are|had|has|have|would|could|should|can|will|must|might"
    r"|cannot|not|never|always)|n['’]t|\w+ (?:me|you|him|her|us|them|want|wants|wanted|have|has|had"
    r"|going|try|tried|need|needed|used) to)[.!?…]+[\"”’)\s]*$",
    re.IGNORECASE,
)
_ASKS_SHORTLY = re.compile(
    r"\W*(?:and |but |or )?(?:do|does|did|is|was|are|were|am|have|has|had|can|could|will|would"
    r"|should|must)(?:n['’]t)? (?:i|you|he|she|it|we|they)\?",
    re.IGNORECASE,
)
_ASKS_NOTHING = re.compile(
    r"\b(?:ask|asks|asked|answer|answers|answered|say|says|said|know|knows|knew|tell|tells|told"
    r"|remember|remembers|remembered|forget|forgot|understand|understood|try|tried|mind|minded"
    r"|care|cared|agree|agreed|refuse|refused)[.!?…]+[\"”’)\s]*$",
    re.IGNORECASE,
)


def on_before(before: str, text: str, language: str) -> int:
    """What it costs to keep `text` without the line before it, beside the seam."""
    asks = is_question(before) or (is_english(language) and _is_answered(before, text))
    cost = _ANSWER if asks and not is_question(text) else 0
    cost += _UNFINISHED if _LEADS_ON.search(before) else 0
    if is_english(language):
        cost += _english(text, language)
        if _IT_WAS.match(text) and _is_bit(before):
            cost += _POINTS_BACK
        if _THEN.match(text) and _SUPPOSES.match(before):
            cost += _POINTS_BACK
        if _sets_right(before, text):
            cost += _UNFINISHED
        if is_question(text) and predicates(text, language) & predicates(before, language):
            cost += _ASKS_OF
        if is_question(text) and any(
            each.gender and not own for each, own in mentions(text).pointers
        ):
            cost += _ASKS_ABOUT
    return min(cost, _MOST)


def on_after(text: str, after: str, language: str = "en", *, announces: bool) -> int:
    """What it costs to keep `text` without the line after it, beside the seam."""
    asks = is_question(text) and (not is_question(after) or _is_guess(after, language))
    asks = asks or (is_english(language) and _is_answered(text, after))
    cost = _UNANSWERED if asks else 0
    if is_english(language) and _SUPPOSES.match(text) and not asks:
        cost += _SUPPOSED
    if is_english(language) and (_sets_right(text, after) or _TAKES_BACK.match(after)):
        cost += _HALF_OF_CONTRAST
    return cost + (_UNFINISHED if announces or _LEADS_ON.search(text) else 0)


def _sets_right(before: str, text: str) -> bool:
    """Whether the one says what something is not, and the other what it is."""
    denied, told = _IS_NOT.search(before), _IS.match(text)
    if not denied or not told:
        return False
    return (denied[1] or denied[2]).lower() == told[1].lower()


def _is_answered(text: str, after: str) -> bool:
    """Whether it tells of a question that the next line answers: "She asked me what I wanted." """
    return bool(_ASKED.search(text) and _REPLIES.match(after))


def _is_guess(text: str, language: str) -> bool:
    """As in: how long is it? "A minute?" """
    facts = sentence_facts(text, language) if len(_WORD.findall(text)) <= _SHORT_WORDS else None
    return facts is not None and facts.tense == "fragment"


def _is_bit(text: str) -> bool:
    """Whether it is a word or two, as an answer: "Once."."""
    return len(_WORD.findall(text)) <= _BIT_WORDS and not is_question(text)


def leans_back(text: str) -> bool:
    """Whether a line's first words go on from the line before (English)."""
    first = _first_word(text)
    return first in _LINKS | _LOOSE_LINKS or bool(_LINKING_PHRASE.match(text.lstrip()))


def is_question(text: str) -> bool:
    return bool(_QUESTION.search(text))


def _first_word(text: str) -> str:
    found = _WORD.search(text)
    return found[0].lower() if found else ""


@lru_cache(maxsize=4096)
def _english(text: str, language: str) -> int:
    start = text.lstrip(" \"“”‘'(…—–-")
    first = _first_word(text)
    cost = 0
    if first in _LINKS or _LINKING_PHRASE.match(start) or _OPENS_WITH_NOT.match(start):
        cost = _LINKED
    elif first in _LOOSE_LINKS:
        cost = _LOOSELY_LINKED
    if mentions(text).says_this or _SAYS_SO.search(text):
        cost += _POINTS_BACK
    if _ALSO.search(text):
        cost += _SAYS_ALSO
    if _IN_QUOTES.match(text):
        cost += _SAID_BY
    return cost + _by_what_is_left_out(text, language)


def _by_what_is_left_out(text: str, language: str) -> int:
    """ "Not once." has no verb of its own, "I never ask." does not say what, nor does "Did I?"."""
    words = len(_WORD.findall(text))
    if _ASKS_SHORTLY.match(text):
        return _LEFT_OUT
    if _LEFT_OUT_AFTER.search(text) or (words <= _SHORT_WORDS and _ASKS_NOTHING.search(text)):
        return _LEFT_OUT
    if not words or (is_question(text) and words > _SHORT_WORDS):
        return 0
    facts = sentence_facts(text, language)
    if facts and facts.tense == "imperative" and words <= _SHORT_WORDS:
        return _TOLD_SHORTLY
    if facts and facts.tense == "fragment":
        return _LEFT_OUT if words <= _SHORT_WORDS else _BARE
    return 0
