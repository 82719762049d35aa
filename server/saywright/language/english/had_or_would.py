"""What "'d" stands for, where the next verb shows it: "I'd gone" had, "I'd go" would. And "gotta"
is no past, though "got" is one."""

from collections.abc import Sequence

from saywright.language.english.readings import Reading

_HAD = (0.97, 0.0, 0.03, 0.0)
_WOULD = (0.03, 0.0, 0.97, 0.0)


def settled(
    words: Sequence[str], classes: Sequence[str], found: Sequence[Reading]
) -> list[Reading]:
    """The readings, with those of "'d" settled where they can be."""
    if "'d" not in words and "gotta" not in words:
        return list(found)
    return [_settled(words, classes, reading) for reading in found]


def _settled(words: Sequence[str], classes: Sequence[str], reading: Reading) -> Reading:
    word = words[reading.place]
    if word == "gotta":
        return reading._replace(chances=(0.0, *reading.chances[1:]))
    if word != "'d":
        return reading
    at = reading.place + 1
    while at < len(words) and (classes[at][0] == "a" or words[at] in {"n't", "not"}):
        if words[at] == "better":
            return reading._replace(chances=_HAD)
        at += 1
    if at < len(words):
        is_participle, is_base = "N" in classes[at], "B" in classes[at]
        if words[at] == "better" or (is_participle and not is_base):
            return reading._replace(chances=_HAD)
        if is_base and not is_participle:
            return reading._replace(chances=_WOULD)
    return reading
