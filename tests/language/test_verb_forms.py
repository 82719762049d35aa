"""Forms of English verbs: hand-written ones, all of the table's, and a published dictionary's."""

from collections.abc import Iterator
from pathlib import Path
from typing import get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st

from saywright.language.english import verb_forms
from saywright.language.english.verb_forms import Form, Reading, forms_of, is_verb, readings_of

FORMS: tuple[Form, ...] = get_args(Form)
TAGS = ("VB", "VBZ", "VBD", "VBN", "VBG")
COMMON_VERBS = 1000
# Words that are hardly verbs, and those whose usual form the dictionary lacks ("it fitted").
NOT_COMPARED = frozenset(
    (
        "king",
        "even",
        "will",
        "lightning",
        "inn",
        "instal",
        "dare",
        "lie",
        "fit",
        "broadcast",
        "sting",
    )
)


def _hand_written() -> Iterator[list[str]]:
    for line in Path(__file__).with_name("verb_forms.txt").read_text("utf-8").splitlines():
        if not line.startswith("#"):
            yield line.split()


@pytest.mark.parametrize("forms", list(_hand_written()), ids=lambda forms: forms[0])
def test_hand_written_forms(forms: list[str]) -> None:
    assert list(forms_of(forms[0])) == forms


@pytest.mark.parametrize(
    ("word", "readings"),
    [
        ("left", "leave past, leave participle"),
        ("Saw", "see past, saw base"),
        ("put", "put past, put participle, put base"),
        ("lay", "lie past, lay base"),
        ("am", "be base"),
        ("are", "be base"),
        ("is", "be third"),
        ("were", "be past"),
        ("been", "be participle"),
        ("travelled", "travel past, travel participle"),
        ("traveled", "travel past, travel participle"),
        ("realised", "realise past, realise participle"),
        ("dying", "die gerund"),
        ("weighbridge", ""),
        ("ferry", "ferry base"),
        ("bring", "bring base"),
        ("s", ""),
    ],
)
def test_readings(word: str, readings: str) -> None:
    assert ", ".join(" ".join(each) for each in readings_of(word)) == readings


def test_every_form_of_every_verb_is_read_back() -> None:
    table = verb_forms.read_table(
        Path(verb_forms.__file__).with_suffix(".txt").read_text(encoding="utf-8")
    )
    for lemma in (*table.regular, *table.spellings):
        assert is_verb(lemma)
        for form, word in zip(FORMS, forms_of(lemma), strict=True):
            assert Reading(lemma, form) in readings_of(word)


@given(st.text())
def test_any_text_can_be_asked(text: str) -> None:
    for lemma, form in readings_of(text):
        forms = (lemma, *verb_forms.spellings_of(lemma))
        assert text.lower() in forms[FORMS.index(form)] or lemma == "be"


@pytest.mark.slow  # lemminflect comes with the benchmarks
def test_the_table_is_current() -> None:
    pytest.importorskip("lemminflect")
    from tests import rebuild_verb_forms as rebuild  # noqa: PLC0415 - needs what is skipped for

    text = rebuild.table_text(rebuild.said())
    assert rebuild.TABLE.read_text("utf-8") == text, "run python -m tests.rebuild_verb_forms"


@pytest.mark.slow
def test_forms_of_the_commonest_verbs_are_the_dictionarys() -> None:
    """Verbs are ranked by how often their gerund occurs, by wordfreq (Speer 2022), since it is the
    form that is least often a noun; forms are lemminflect's, any of its spellings."""
    lemminflect = pytest.importorskip("lemminflect")
    wordfreq = pytest.importorskip("wordfreq")
    gerunds = (word for word in wordfreq.top_n_list("en", 60000) if word.endswith("ing"))
    found = (lemminflect.getAllLemmas(word, "VERB").get("VERB", ()) for word in gerunds)
    lemmas = dict.fromkeys(lemma for lemmas in found for lemma in lemmas)
    common = [lemma for lemma in lemmas if lemma.isalpha() and lemma not in NOT_COMPARED][
        :COMMON_VERBS
    ]
    assert len(common) == COMMON_VERBS
    wrong = [
        (lemma, form, word)
        for lemma in common
        for form, word, spellings in _beside(lemma, lemminflect.getAllInflections(lemma, "VERB"))
        if word not in spellings or Reading(lemma, form) not in readings_of(word)
    ]
    assert not wrong


def _beside(
    lemma: str, inflections: dict[str, tuple[str, ...]]
) -> Iterator[tuple[Form, str, tuple[str, ...]]]:
    """Each form, our word for it, and the dictionary's; a participle it does not list is the
    past."""
    for tag, form, word in zip(TAGS, FORMS, forms_of(lemma), strict=True):
        yield (
            form,
            word,
            inflections.get(tag, ()) + inflections.get("VBD" if tag == "VBN" else tag, ()),
        )
