"""The tense of a sentence, whom it is about, and its finite verbs."""

from functools import lru_cache

from saywright.language.english.facts_of import facts_of
from saywright.language.english.tag import is_english
from saywright.language.facts import Facts


@lru_cache(maxsize=8192)
def sentence_facts(text: str, language: str = "en") -> Facts | None:
    """What is known of one sentence, as it is spoken; `language` is a BCP 47 tag.

    None for a language that has no engine: only English has one yet.
    """
    return facts_of(text) if is_english(language) else None
