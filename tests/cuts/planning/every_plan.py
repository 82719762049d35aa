"""The best plan of a small problem by trying every one, the rules of time written down again."""

from saywright.cuts.planning.problem import Problem


def best_score(problem: Problem) -> float | None:
    """The score of the best plan; None where none is allowed."""
    lines, count = problem.lines, len(problem.lines)
    scores: list[float] = []

    def go_on(index: int, kept: tuple[int, ...], sounds: int, silence: int, pause: int) -> None:
        """`sounds`: up to the last sound; since then `silence` is marked, and the punctuation
        would make `pause`."""
        if index == count:
            if sounds + silence <= problem.limit and _is_unlike(problem, kept):
                points = _points(problem, kept)
                scores.append(points - problem.shortfall * max(problem.floor - sounds - silence, 0))
            return
        line = lines[index]
        gap = max(silence + line.lead, pause) if any(kept) else silence + line.lead
        after = line.tail + line.after
        for number, one in enumerate(line.versions, 1):
            own_pause = one.pause + (line.edge if line.ends else 0)
            go_on(index + 1, (*kept, number), sounds + gap + one.sound, after, own_pause)
        if not line.fixed:
            if line.ends:
                pause += _not_yet_a_paragraphs(problem, kept)
            go_on(index + 1, (*kept, 0), sounds, silence + line.left + line.after, pause)

    go_on(0, (), 0, problem.before, 0)
    return max(scores, default=None)


def _not_yet_a_paragraphs(problem: Problem, kept: tuple[int, ...]) -> int:
    """What the end of a paragraph adds to the pause of the last line kept, if that is in it."""
    for index in range(len(kept) - 1, -1, -1):
        line = problem.lines[index]
        if line.ends:
            return 0
        if kept[index]:
            return line.edge
    return 0


def _is_unlike(problem: Problem, kept: tuple[int, ...]) -> bool:
    for other, least in problem.unlike:
        same = sum(one == two for one, two in zip(kept, other, strict=True) if two != 1)
        if sum(two != 1 for two in other) - same < least:
            return False
    return True


def _points(problem: Problem, kept: tuple[int, ...]) -> int:
    points = 0
    last = len(kept) - 1
    for index, line in enumerate(problem.lines):
        if kept[index]:
            points += line.versions[kept[index] - 1].worth
            points -= line.enter if index and not kept[index - 1] else 0
            points -= line.leave if index < last and not kept[index + 1] else 0
    return points - sum(
        each.cost for each in problem.bonds if kept[each.late] and not kept[each.early]
    )
