"""Pieces made at random: as a script of so many sentences, and as a bare problem."""

from dataclasses import replace
from random import Random

from saywright.cuts.planning.problem import TICKS_PER_SECOND, Bond, Line, Problem, Trim, time_of

_WHO = "I|She|He|The harbour master|My sister|Nobody|Everyone on the slip|Emeka|Ana|The inspector"
_DID = "weighed|carried|never asked about|lost|hid|sang to|counted|painted|blamed|found|sold"
_WHAT = (
    "the brass weight|a sack of wet salt|the lamp|one oar|the ferry|her good blanket"
    "|a tin of buttons|the whistle|the broken scale|it|them|a letter|the bell|the bread"
)
_WHERE = (
    "|| in the lamp-room| behind the salt works| before the fog came| at ten past nine"
    "| with both hands| on the night of the regatta| where the gulls sleep| and laughed"
)
_OPENING = "||||But |So |And |Because of that |Then |You know, |I want to tell you something. "
_SHORT = "Go on.|A clock!|What did I know?|That is all.|Nothing.|Who would?|It rang."


def script_of(sentences: int, random: Random, *, kept: float = 0.06, marked: float = 0.1) -> str:
    """A script of one piece with so many sentences, some kept, some with marked silences."""
    lines: list[str] = []
    while len(lines) < sentences:
        for one in _sentence(random).split(". "):
            sentence = one if one[-1] in ".!?" else f"{one}."
            sentence = f"__{sentence}__" if random.random() < kept else sentence
            if random.random() < marked:
                sentence += random.choice((" (beat)", " ||", " (pause 3s)", " |"))
            lines.append(sentence)
    paragraphs: list[str] = []
    rest = lines[:sentences]
    while rest:
        count = random.randrange(1, 8)
        paragraphs.append(" ".join(rest[:count]))
        rest = rest[count:]
    return "title: At random\n\n" + "\n\n".join(paragraphs) + "\n"


def _sentence(random: Random) -> str:
    if random.random() < 0.2:
        return random.choice(_SHORT.split("|"))
    said = " ".join(random.choice(each.split("|")) for each in (_WHO, _DID, _WHAT))
    opening = random.choice(_OPENING.split("|"))
    if opening.endswith(("But ", "So ", "And ", "that ", "Then ", "know, ")):
        said = said if said.startswith(("I ", "Emeka", "Ana")) else said[0].lower() + said[1:]
    return f"{opening}{said}{random.choice(_WHERE.split('|'))}."


def problem_of(lines: int, random: Random, *, trimmed: float = 0.0) -> Problem:
    """A bare problem, at a limit of half to five sixths of all its time; that share of its lines
    has trims."""
    found = Problem(
        tuple(_with_trims(_line(random), random, trimmed) for _ in range(lines)),
        0,
        before=_marked(random, 0.2),
        bonds=tuple(_bonds(lines, random)),
    )
    whole = time_of(found, [1] * lines)
    found = replace(found, limit=int(whole / random.uniform(1.2, 2.0)))
    if random.random() < 0.2:
        floor, shortfall = found.limit * 19 // 20, random.choice((1e-5, 1e-3))
        return replace(found, floor=floor, shortfall=shortfall)
    return found


def _line(random: Random) -> Line:
    seconds = random.uniform(0.8, 7.0)
    pause = random.choice((0.3, 0.45, 0.55))
    return Line(
        sound=round(seconds * TICKS_PER_SECOND),
        worth=5 * round(seconds * random.lognormvariate(1.6, 0.5)) + 5,
        pause=round(pause * TICKS_PER_SECOND),
        edge=TICKS_PER_SECOND // 4,
        lead=_marked(random, 0.03),
        tail=_marked(random, 0.08),
        left=_marked(random, 0.01),
        after=_marked(random, 0.04),
        enter=random.choice((10, 20, 20, 45, 60)),
        leave=random.choice((5, 10, 10, 50)),
        fixed=random.random() < 0.07,
        ends=random.random() < 0.2,
    )


def _with_trims(line: Line, random: Random, share: float) -> Line:
    if line.fixed or random.random() >= share:
        return line
    trims = tuple(
        Trim(
            sound=round(line.sound * random.uniform(0.4, 0.95)),
            worth=5 * round(line.worth * random.uniform(0.1, 1.1) / 5),
            pause=max(line.pause - random.choice((0, 0, TICKS_PER_SECOND // 10)), 0),
        )
        for _ in range(random.choice((1, 1, 2, 3)))
    )
    return line._replace(trims=trims)


def _marked(random: Random, share: float) -> int:
    seconds = random.choice((0.4, 1.0, 2.0)) if random.random() < share else 0.0
    return round(seconds * TICKS_PER_SECOND)


def _bonds(lines: int, random: Random) -> list[Bond]:
    """Mostly to lines near by, a few across the piece."""
    pairs = set()
    for _ in range(lines * 2 // 5):
        early = random.randrange(lines)
        pairs.add((early, early + random.choice((2, 2, 3, 4, 6, 9, 14, 30))))
    return [Bond(*pair, random.choice((25, 35, 60))) for pair in sorted(pairs) if pair[1] < lines]
