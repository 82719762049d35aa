"""The parts of a sentence that can go while the rest still stands."""

from functools import lru_cache

from saywright.language.english.tag import is_english
from saywright.language.english.trims import may_hold_trims, trims_of
from saywright.language.sentence_facts import sentence_facts
from saywright.language.trim import Trim

_MOST_CODE_POINTS = 1000  # what goes on longer without a stop is no sentence any more


@lru_cache(maxsize=8192)
def trims(text: str, language: str = "en") -> tuple[Trim, ...]:
    """What can go of one sentence, as it is spoken, in order; `language` is a BCP 47 tag.

    Two that are apart can go together; one that lies in another goes with it. In doubt there is
    none, nor is there any in a language that has no engine: only English has one yet.
    """
    if len(text) > _MOST_CODE_POINTS or not is_english(language) or not may_hold_trims(text):
        return ()
    facts = sentence_facts(text, language)
    return trims_of(text, facts) if facts else ()
