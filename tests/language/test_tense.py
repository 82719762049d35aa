"""The tense and the person of sentences, and their finite verbs; `tense.txt` holds the cases."""

from pathlib import Path
from typing import NamedTuple

import pytest
from hypothesis import given
from hypothesis import strategies as st

from saywright.language.facts import Facts
from saywright.language.sentence_facts import sentence_facts

MOST_KNOWN_WRONG = 8


class Case(NamedTuple):
    """A line of the file."""

    is_known_wrong: bool
    tense: str
    person: str | None
    text: str
    verbs: tuple[tuple[str, ...], ...]


def read(line: str) -> Case:
    tense, person, text, *verbs = [part.strip() for part in line.lstrip("~").split(" | ")]
    listed = verbs[0].rstrip("|").split(";") if verbs else []
    return Case(
        line.startswith("~"),
        tense,
        None if person == "-" else person,
        text.removesuffix("|").strip(),
        tuple(tuple(verb.split()) for verb in listed if verb.strip()),
    )


LINES = Path(__file__).with_name("tense.txt").read_text(encoding="utf-8").splitlines()
CASES = [read(line) for line in LINES if line and not line.startswith("#")]


def facts_of(text: str) -> Facts:
    found = sentence_facts(text)
    assert found is not None
    return found


def verbs_of(case: Case) -> list[tuple[str, ...]]:
    """The sentence's verbs as the file writes them; of a listed quoted one the role is not told."""
    found: list[tuple[str, ...]] = []
    for verb in facts_of(case.text).verbs:
        word = case.text[verb.start : verb.end]
        found.append((word, verb.tense, "quoted" if verb.quoted else verb.role))
    return found


@pytest.mark.parametrize("case", CASES, ids=[case.text for case in CASES])
def test_sentence(case: Case) -> None:
    facts = facts_of(case.text)
    told = verbs_of(case)
    is_right = (facts.tense, facts.person) == (case.tense, case.person)
    is_right = is_right and all(verb in told for verb in case.verbs)
    assert is_right != case.is_known_wrong, f"{facts.tense}, {facts.person}, {told}"


def test_few_are_known_to_come_out_wrong() -> None:
    assert len(CASES) >= 120
    assert sum(case.is_known_wrong for case in CASES) <= MOST_KNOWN_WRONG


@pytest.mark.parametrize("language", ["en", "EN", "en-GB", "en_US", "en-Latn-GB"])
def test_english_has_an_engine(language: str) -> None:
    assert sentence_facts("I waited.", language) is not None


@pytest.mark.parametrize("language", ["de", "fr-FR", "enm", "", "x"])
def test_other_languages_have_none(language: str) -> None:
    assert sentence_facts("I waited.", language) is None


@pytest.mark.parametrize("text", ["", " ", "\n", "\u200b", "…", '"', "(pause)", "——"])
def test_no_words_are_a_fragment(text: str) -> None:
    assert facts_of(text).tense == "fragment"
    assert facts_of(text).main is None


@pytest.mark.parametrize(
    ("straight", "curly"),
    [
        ("I don't know.", "I don’t know."),
        ("She's gone, and I'd go too.", "She’s gone, and I’d go too."),
        ('"Go," he said.', "“Go,” he said."),
        ("'Go,' he said.", "‘Go,’ he said."),
    ],
)
def test_curly_marks_read_as_straight_ones(straight: str, curly: str) -> None:
    assert facts_of(straight) == facts_of(curly)


@pytest.mark.parametrize(
    "text", ["'Wait here,' she said.", "‘Wait here,’ she said.", '"Wait here," she said.']
)
def test_words_in_any_quote_marks_are_quoted(text: str) -> None:
    assert [(verb.tense, verb.quoted) for verb in facts_of(text).verbs] == [
        ("imperative", True),
        ("past", False),
    ]


@pytest.mark.parametrize(
    ("text", "word", "head", "lemma", "aspect"),
    [
        ("I didn't walk home.", "didn't", "walk", "walk", "simple"),
        ("She's gone.", "'s", "gone", "go", "perfect"),
        ("She's waiting.", "'s", "waiting", "wait", "progressive"),
        ("He'd gone before me.", "'d", "gone", "go", "perfect"),
        ("I have been waiting.", "have", "waiting", "wait", "perfect"),
        ("The lamp was mended.", "was", "mended", "mend", "passive"),
        ("We were singing.", "were", "singing", "sing", "progressive"),
        ("I can't swim.", "can't", "swim", "swim", "simple"),
        ("I took the oar.", "took", "took", "take", "simple"),
        ("The pans are white.", "are", "are", "be", "simple"),
        ("Have you seen her?", "Have", "seen", "see", "perfect"),
    ],
)
def test_verb_groups(text: str, word: str, head: str, lemma: str, aspect: str) -> None:
    (verb,) = facts_of(text).verbs
    start, end = verb.head
    assert text[verb.start : verb.end] == word
    assert (text[start:end], verb.lemma, verb.aspect) == (head, lemma, aspect)


WORDS = (
    "I you she they Ines lamp salt ferry the a walked walks wrote put read gone been was is 's n't "
    "'d will would to and but that who when if not never , . ? ! “ ” \" ‘ ’ ' … — -- ( ) Don't "
    "can't"
).split()
texts = st.one_of(st.text(max_size=60), st.lists(st.sampled_from(WORDS), max_size=25).map(" ".join))


@given(texts)
def test_any_text_has_facts_whose_offsets_lie_on_its_words(text: str) -> None:
    facts = facts_of(text)
    assert 0.0 <= facts.sure <= 1.0
    assert (facts.main is None) == (facts.tense == "fragment")
    before = 0
    for verb in facts.verbs:
        assert before <= verb.start < verb.end <= len(text)
        assert text[verb.start : verb.end].strip() == text[verb.start : verb.end]
        before = verb.end
        for start, end in (verb.head, verb.subject or verb.head):
            assert 0 <= start < end <= len(text)
            assert any(letter.isalnum() for letter in text[start:end])
        assert (verb.subject is None) == (verb.person is None)
        assert verb.tense != "imperative" or verb.subject is None
    if facts.main is not None:
        main = facts.verbs[facts.main]
        assert (main.role, main.tense, main.person) == ("main", facts.tense, facts.person)
    assert sum(verb.role == "main" for verb in facts.verbs) == (facts.main is not None)


@given(texts)
def test_the_same_text_has_the_same_facts(text: str) -> None:
    first = sentence_facts(text)
    sentence_facts.cache_clear()
    assert sentence_facts(text) == first


@pytest.mark.parametrize(
    "text", ["a" * 100_000, "walked " * 10_000, '"' * 50_000, "n't" * 20_000, "'a" * 30_000]
)
def test_long_input_is_read_in_linear_time(text: str) -> None:
    assert facts_of(text).sure >= 0.0
