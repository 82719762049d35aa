"""Courses through the lines of a problem, all in hand that could still be of use.

A course is dropped where another, at the same place with the same bonds torn, has lost no more and
takes no longer; and where even the bound (`relaxation`) on what it could still reach is less than
what is looked for. Nothing else is dropped, so that the best of what is left is the optimum, unless
only so many of the most promising are followed.
"""

from collections.abc import Sequence
from math import gcd

from saywright.cuts.planning.problem import (
    TICKS_PER_SECOND,
    Line,
    Problem,
    bits_of,
    is_allowed,
    kept_of,
    score_of,
)
from saywright.cuts.planning.relaxation import Relaxation
from saywright.cuts.planning.unlike import Paid, differences, paid_after

_TINY = 1e-6
_NOTHING = (float("inf"), float("inf"), 0, 0)
_BUCKET_TICKS = TICKS_PER_SECOND // 4
_MOST_OF_A_TIME = 3
_NUMBER_BITS = 20

Course = tuple[int, int, int, int, int, int, int, float]
"""Choices up to a line: the ticks of punctuation's clock (see `problem`), the points lost, with
the worth of kept lines as negative loss, the ticks of the marks' clock, those that a paragraph's
end would add; the number of the set of bonds that are torn (`torn`); how often it differs from
each plan that it must be unlike, in `unlike.BITS` bits each; the bits of what stays
(`problem.bits_of`), and how many points it could reach.
"""


class Search:
    """The best plan known of a problem: `kept` is None while none is."""

    def __init__(self, relaxation: Relaxation) -> None:
        self.problem = problem = relaxation.problem
        self.kept: tuple[int, ...] | None = None
        self.score = float("-inf")
        self.unit = _unit(problem)
        self.courses = 0  # followed so far
        self._to_go = relaxation.to_go
        self._torn = relaxation.passes.torn
        self._paid = [Paid(problem.unlike, each.prices) for each in relaxation.to_go]
        self._paid_after = paid_after(problem, relaxation.to_go[0].prices)

        self._fixed_after = _fixed_after(problem)
        differs = differences(problem)
        self._gone_differs = [each[0] for each in differs]
        self._versions = [
            _versions(line, *each)
            for line, *each in zip(problem.lines, differs, bits_of(problem), strict=True)
        ]
        self._needed = 0.0

    def offer(self, bits: int) -> bool:
        """A plan, by its bits. Whether it is allowed."""
        kept = kept_of(self.problem, bits)
        if not is_allowed(self.problem, kept):
            return False
        score = score_of(self.problem, kept)
        if score > self.score:
            self.kept, self.score = kept, score
        return True

    def run(
        self, least: float, width: int | None = None, most_courses: float = float("inf")
    ) -> bool:
        """Follow all courses that could come to `least` points and be better than the best plan
        known, or the `width` most promising of them. Whether that was all of them; if more than
        `most_courses` would have to be followed, it is given up."""
        better = self.score + (_TINY if self.problem.shortfall else self.unit - _TINY)
        self._needed = max(least, better)
        is_all = True
        most = 1 if self.problem.unlike else _MOST_OF_A_TIME
        after_stay: list[Course] = []
        after_go: list[Course] = [(0, 0, self.problem.before, 0, 0, 0, 0, 0.0)]
        for index, line in enumerate(self.problem.lines):
            stay = self._kept(index, after_stay, after_go)
            go = [] if line.fixed else self._gone(index, after_stay, after_go)
            after_stay, after_go = self._undominated(stay), self._undominated(go)
            count = len(after_stay) + len(after_go)
            if width is not None and count > width:
                after_stay, after_go = _most_promising(after_stay, after_go, width, most)
                is_all = False
            self.courses += count
            if self.courses > most_courses:
                return False
        self._offer_best((*after_stay, *after_go))
        return is_all

    def _offer_best(self, courses: Sequence[Course]) -> None:
        """Of courses through all lines."""
        unlike = self._paid_after[-1]
        for course in sorted(courses, key=_lost):
            if self.problem.shortfall:
                self.offer(course[6])
            elif -course[1] <= self.score:
                break
            elif unlike[course[5]] >= 0 and self.offer(course[6]):
                break  # the others lose more

    def _kept(
        self, index: int, after_stay: Sequence[Course], after_go: Sequence[Course]
    ) -> list[Course]:
        """The courses on which the line at `index` stays."""
        problem = self.problem
        line, versions = problem.lines[index], self._versions[index]
        tolls, after, _, _ = self._torn[index]
        lead, marks = line.lead, line.tail + line.after
        pending = 0 if line.ends else line.edge
        needed = self._needed
        (per_tick, mosts, paid), *others = [
            (each.prices.per_tick, each.stay[index + 1], paid)
            for each, paid in zip(self._to_go, self._paid_by(index), strict=True)
        ]
        latest = problem.limit - self._fixed_after[index]
        found: list[Course] = []
        for courses, enter in ((after_stay, 0), (after_go, line.enter if index else 0)):
            for course in courses:
                natural, lost, marked, _, number, so_far, kept, _ = course
                start = marked + lead
                start = start if start > natural else natural
                toll = tolls[number] + enter + lost
                number = after[number]
                most = mosts[number]
                for sound, pause, points, more, bits in versions:
                    end = start + sound
                    lost = toll - points
                    marked, natural = end + marks, end + pause
                    later = natural if natural > marked else marked
                    differs = so_far + more
                    hope = most + paid[differs] - per_tick * later - lost
                    if hope < needed or marked > latest:
                        continue
                    for rate, other_mosts, other_paid in others:
                        other = other_mosts[number] + other_paid[differs] - rate * later - lost
                        if other < hope:
                            hope = other
                            if hope < needed:
                                break
                    if hope >= needed:
                        found.append(
                            (natural, lost, marked, pending, number, differs, kept | bits, hope)
                        )
        return found

    def _paid_by(self, index: int) -> list[Paid]:
        """What is paid for differences at each of the prices of `to_go`."""
        if not self.problem.unlike:
            return self._paid
        return [self._paid_after[index], *self._paid[1:]]

    def _gone(
        self, index: int, after_stay: Sequence[Course], after_go: Sequence[Course]
    ) -> list[Course]:
        """The courses on which the line at `index` goes."""
        problem = self.problem
        line, after = problem.lines[index], self._torn[index].goes
        more, unlimited, needed = self._gone_differs[index], float("inf"), self._needed
        prices = list(zip(self._to_go, self._paid_by(index), strict=True))
        mosts = [(each.prices.per_tick, each.go[index + 1], paid) for each, paid in prices]
        mosts_apart = [(each.prices.per_tick, each.apart[index + 1], paid) for each, paid in prices]
        latest = problem.limit - self._fixed_after[index]
        passed, ends = line.left + line.after, line.ends
        found: list[Course] = []
        leave = problem.lines[index - 1].leave if index else 0
        for courses, toll in ((after_stay, leave), (after_go, 0)):
            for course in courses:
                natural, lost, marked, pending, number, differs, kept, _ = course
                lost += toll
                number = after[number]
                marked += passed
                differs += more
                if ends:
                    natural, pending = natural + pending, 0
                later = natural if natural > marked else marked
                hope = unlimited
                for rate, values, paid in mosts if pending and marked <= natural else mosts_apart:
                    other = values[number] + paid[differs] - rate * later - lost
                    if other < hope:
                        hope = other
                        if hope < needed:
                            break
                if hope >= needed and marked <= latest:
                    found.append((natural, lost, marked, pending, number, differs, kept, hope))
        return found

    def _undominated(self, courses: list[Course]) -> list[Course]:
        """Those that no other makes needless: of two at the same place with the same bonds torn
        that differ as often, the other has lost no more, and is later by no clock."""
        courses.sort()
        if self.problem.shortfall:
            return self._undominated_by_all(courses)
        best: dict[int, Course] = {}
        rest: list[Course] = []
        for course in courses:
            _, lost, marked, pending, number, differs, _, _ = course
            key = differs << _NUMBER_BITS | number
            known = best.get(key)
            if known is None or lost < known[1]:
                best[key] = course
            elif marked >= known[2] and pending >= known[3]:
                continue
            rest.append(course)
        return rest

    def _undominated_by_all(self, courses: Sequence[Course]) -> list[Course]:
        """The same where an earlier end costs points."""
        shortfall = self.problem.shortfall
        best: dict[tuple[int, int], tuple[float, float, int, int]] = {}
        rest: list[Course] = []
        for course in courses:
            natural, lost, marked, pending, number, differs, _, _ = course
            early, late = lost - shortfall * natural, lost - shortfall * marked
            known = best.get((number, differs), _NOTHING)
            if early < known[0]:
                best[number, differs] = early, late, marked, pending
            elif late >= known[1] and marked >= known[2] and pending >= known[3]:
                continue
            rest.append(course)
        return rest


def _lost(course: Course) -> int:
    return course[1]


def _most_promising(
    after_stay: list[Course], after_go: list[Course], width: int, most_of_a_time: int
) -> tuple[list[Course], list[Course]]:
    """Those that could reach most, a few of any one time that differ as often from other plans:
    what fits at the end is not known yet."""
    ranked = [(-each[7], number, True) for number, each in enumerate(after_stay)]
    ranked += [(-each[7], number, False) for number, each in enumerate(after_go)]
    ranked.sort()
    chosen: tuple[list[Course], list[Course]] = ([], [])
    taken: dict[tuple[int, int], int] = {}
    for _, number, stays in ranked:
        course = after_stay[number] if stays else after_go[number]
        at = max(course[0], course[2]) // _BUCKET_TICKS, course[5]
        taken[at] = taken.get(at, 0) + 1
        if taken[at] <= most_of_a_time:
            chosen[not stays].append(course)
            width -= 1
            if not width:
                break
    return chosen


def _versions(
    line: Line, differs: Sequence[int], bits: Sequence[int]
) -> list[tuple[int, int, int, int, int]]:
    """What a line is if it stays: ticks of sound and of the pause after it, points, differences
    and bits."""
    edge = line.edge if line.ends else 0
    return [
        (each.sound, each.pause + edge, each.worth, more, own)
        for each, more, own in zip(line.versions, differs[1:], bits, strict=True)
    ]


def _unit(problem: Problem) -> int:
    """What the points of any two plans differ by is a whole multiple of this."""
    points = [each for line in problem.lines for each in (line.worth, line.enter, line.leave)]
    points += [trim.worth for line in problem.lines for trim in line.trims]
    return gcd(*points, *(bond.cost for bond in problem.bonds))


def _fixed_after(problem: Problem) -> list[int]:
    """For each line, the ticks that the fixed lines after it sound."""
    after: list[int] = []
    total = 0
    for line in reversed(problem.lines):
        after.append(total)
        total += line.sound if line.fixed else 0
    return after[::-1]
