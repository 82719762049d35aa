"""Random sentences of an ABNF grammar: a walk over the library's rule objects."""

from collections.abc import Callable, Mapping, Sequence
from random import Random

from abnf.parser import Alternation, Concatenation, Literal, Option, Repetition, Rule

_ROOMY = 40  # a range this wide is one of characters, not of a word's letters
_COMMON = "aeinst AEINST 0123456789 .,;:!?-'\"[]() éñßø λж ש م क あ 鐘 “”‘’«»—–… €"


class Walker:
    """Derives sentences from `random`.

    `overrides` derive a rule in another way, for what the grammar can only say in prose. `weights`
    say how readily a rule or a string is taken where it may be left out (1 where they are silent).
    `character` says which characters may be drawn from a range. Below `deepest` levels of rules
    the first alternative is taken and nothing optional, so that every walk ends.
    """

    def __init__(
        self,
        random: Random,
        overrides: Mapping[str, Callable[["Walker"], str]],
        weights: Mapping[str, float],
        character: Callable[[str], bool],
        deepest: int = 26,
    ) -> None:
        self.random = random
        self.used: set[str] = set()
        self._overrides = overrides
        self._weights = weights
        self._character = character
        self._deepest = deepest
        self._common: dict[tuple[int, int], list[str]] = {}
        self._depth = 0

    def derive(self, rule: Rule) -> str:
        self.used.add(rule.name)
        if override := self._overrides.get(rule.name):
            return override(self)
        return self.defined(rule)

    def defined(self, rule: Rule) -> str:
        """A sentence by the rule's own definition, whatever overrides it."""
        self._depth += 1
        derived = self._walk(rule.definition)
        self._depth -= 1
        return derived

    def _walk(self, parser: object) -> str:
        if isinstance(parser, Rule):
            return self.derive(parser)
        if isinstance(parser, Alternation):
            return self._walk(self._chosen(parser.parsers))
        if isinstance(parser, Concatenation):
            return "".join(map(self._walk, parser.parsers))
        if isinstance(parser, Option):
            return self._walk(parser.alternation) if self._more(parser.alternation) else ""
        if isinstance(parser, Repetition):
            return "".join(self._walk(parser.element) for _ in range(self._times(parser)))
        assert isinstance(parser, Literal), parser
        return self._literal(parser)

    def _chosen(self, alternatives: Sequence[object]) -> object:
        if self._depth >= self._deepest:
            return alternatives[0]
        return self.random.choices(alternatives, [*map(self._weight, alternatives)])[0]

    def _more(self, parser: object) -> bool:
        return self._depth < self._deepest and self.random.random() < 0.5 * self._weight(parser)

    def _weight(self, parser: object) -> float:
        if isinstance(parser, Concatenation):
            return self._weight(parser.parsers[0])
        name = parser.name if isinstance(parser, Rule) else getattr(parser, "value", None)
        return self._weights.get(name, 1.0) if isinstance(name, str) else 1.0

    def _times(self, parser: Repetition) -> int:
        least: int = parser.repeat.min
        most: int | None = parser.repeat.max
        more = 0
        while more < 5 and self._more(parser.element):
            more += 1
        return least + more if most is None else min(least + more, most)

    def _literal(self, literal: Literal) -> str:
        if isinstance(literal.value, tuple):
            return self._drawn(*map(ord, literal.value))
        written: str = literal.value
        cased = literal.case_sensitive or self.random.random() < 0.7
        return written if cased else written.upper()

    def _drawn(self, first: int, last: int) -> str:
        common = self._common.get((first, last))
        if common is None:
            near = (each for each in _COMMON if first <= ord(each) <= last)
            common = self._common[first, last] = [*filter(self._character, near)]
        if last - first > _ROOMY and common and self.random.random() < 0.9:
            return self.random.choice(common)
        for _ in range(1000):
            character = chr(self.random.randint(first, last))
            if self._character(character):
                return character
        raise ValueError(f"no character may be drawn from U+{first:04X} to U+{last:04X}")
