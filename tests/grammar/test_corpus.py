"""The corpus in grammar/corpus is the judge of the parser: one test a case."""

from collections import Counter

import pytest

from saywright.finding import Finding, applied
from saywright.markup.reader import read

from .cases import Case, read_cases, rewrite
from .outline import outline, problem_lines

CASES = tuple(read_cases())


def _name(case: Case) -> str:
    return f"{case.file}: {case.name}"


@pytest.mark.parametrize("case", CASES, ids=_name)
def test_case(case: Case, update: bool) -> None:
    script = read(case.text)
    tree, problems = outline(script), problem_lines(script)
    assert script.text == case.text
    if update:
        if (case.tree, case.problems) != (tuple(tree), tuple(problems)):
            rewrite(case, tree, problems)
        return
    assert tree == list(case.tree)
    assert problems == list(case.problems)


def test_the_corpus_is_whole() -> None:
    assert len(CASES) >= 140
    assert len({(case.file, case.name) for case in CASES}) == len(CASES)


def _problems(text: str) -> list[Finding]:
    script = read(text)
    placed = zip(script.starts, script.blocks, strict=True)
    return [problem.shifted(start) for start, block in placed for problem in block.problems]


def _counted(text: str) -> Counter[tuple[str, str]]:
    """How often each check says something of the same words."""
    return Counter(
        (problem.check, text[problem.start : problem.end]) for problem in _problems(text)
    )


@pytest.mark.parametrize("case", [case for case in CASES if case.problems], ids=_name)
def test_every_fix_answers_its_problem(case: Case) -> None:
    before = _counted(case.text)
    for problem in _problems(case.text):
        said = problem.check, case.text[problem.start : problem.end]
        for fix in problem.fixes:
            after = _counted(applied(case.text, fix.edits))
            assert after[said] < before[said], fix.title
