"""The tense of a sentence, whom it is about, and its finite verbs."""

from functools import lru_cache

from saywright.language.english.facts_of import facts_of
from saywright.language.facts import Facts


@lru_cache(maxsize=8192)
def sentence_facts(text: str, language: str = "en") -> Facts | None:
    """What is known of one sentence, as it is spoken; `language` is a BCP 47 tag.

    None for a language that has no engine: only English has one yet.
    """
    if language.replace("_", "-").split("-")[0].lower() != "en":
        return None
    return facts_of(text)
