"""Whether a language is English."""


def is_english(tag: str) -> bool:
    """`tag` is a BCP 47 tag, whose parts may be joined by underscores."""
    return tag.replace("_", "-").partition("-")[0].lower() == "en"
