"""The tense of a sentence, whom it is about, and its finite verbs."""

from functools import lru_cache

from saywright.language.english.facts_of import facts_of
from saywright.language.english.tag import is_english
from saywright.language.facts import Facts

_MOST_CODE_POINTS = 2000  # what goes on longer without a stop is no sentence any more


@lru_cache(maxsize=8192)
def sentence_facts(text: str, language: str = "en") -> Facts | None:
    """What is known of one sentence, as it is spoken; `language` is a BCP 47 tag.

    None for a language that has no engine: only English has one yet. Of a sentence of more than
    two thousand code points only the beginning is read.
    """
    return facts_of(text[:_MOST_CODE_POINTS]) if is_english(language) else None
