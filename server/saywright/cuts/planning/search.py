"""Courses through the lines of a problem, all in hand that could still be of use.

A course is dropped where another, at the same place with the same bonds torn, has lost no more and
takes no longer; and where even the bound (`relaxation`) on what it could still reach is less than
what is looked for. Nothing else is dropped, so that the best of what is left is the optimum, unless
only so many of the most promising are followed.
"""

from collections.abc import Iterable, Sequence
from operator import itemgetter

from saywright.cuts.planning.problem import (
    TICKS_PER_SECOND,
    is_allowed,
    kept_of,
    score_of,
)
from saywright.cuts.planning.relaxation import Relaxation
from saywright.cuts.planning.unlike import Enough, ones, paid_after

_TINY = 1e-6
_NOTHING = (float("inf"), float("inf"), 0, 0)
_A_TIME, _MOST_OF_A_TIME = TICKS_PER_SECOND // 4, 3
_A_TIME_UNLIKE, _MOST_OF_A_TIME_UNLIKE = TICKS_PER_SECOND, 1
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
        self.courses = 0  # followed so far
        self._ground = ground = relaxation.passes.ground
        self._to_go = relaxation.to_go
        self._paid = paid_after(problem, relaxation.prices.unlike)
        self._enough = Enough(problem.unlike)
        self._differs = relaxation.passes.differing.summed(ones(problem))
        # a plan that is better is so by so much at least
        self._better = _TINY if problem.shortfall else ground.unit - _TINY
        self._needed = 0.0

    def rounded(self, points: float) -> float:
        """The most points that a plan can have that has no more than so many."""
        unit = self._ground.unit
        return points if self.problem.shortfall else (points + _TINY) // unit * unit

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
        """Follow all courses that could come to more than `least` points and be better than the
        best plan known, or the `width` most promising of them. Whether that was all of them; if
        more than `most_courses` would have to be followed, it is given up."""
        self._needed = max(least, self.score) + self._better
        is_all = True
        after_stay: list[Course] = []
        after_go: list[Course] = [(0, 0, self.problem.before, 0, 0, 0, 0, 0.0)]
        for index, line in enumerate(self.problem.lines):
            stay = self._kept(index, after_stay, after_go)
            go = [] if line.fixed else self._gone(index, after_stay, after_go)
            count = len(stay) + len(go)
            if width is None:
                after_stay, after_go = self._undominated(stay), self._undominated(go)
                count = len(after_stay) + len(after_go)
            elif count > width:
                after_stay, after_go = self._most_promising((*stay, *go), 1 << index, width)
                is_all = False
            else:
                after_stay, after_go = stay, go
            self.courses += count
            if self.courses > most_courses:
                return False
        self._offer_best((*after_stay, *after_go))
        return is_all

    def _offer_best(self, courses: Sequence[Course]) -> None:
        """Of courses through all lines."""
        unlike = self._paid[-1]
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
        line, versions = problem.lines[index], self._ground.stays[index]
        tolls, after, *_ = self._ground.torn[index]
        lead, marks = line.lead, line.tail + line.after
        pending = 0 if line.ends else line.edge
        needed, paid, more = self._needed, self._paid[index], self._differs[index]
        (rate, mosts), (cheap, cheap_mosts), (dear, dear_mosts) = [
            (each.prices.per_tick, each.stay[index + 1]) for each in self._to_go
        ]
        latest = problem.limit - self._ground.fixed_after[index]
        found: list[Course] = []
        for courses, enter in ((after_stay, 0), (after_go, line.enter if index else 0)):
            for natural, lost, marked, _, number, so_far, kept, _ in courses:
                start = marked + lead
                start = start if start > natural else natural
                toll = tolls[number] + enter + lost
                after_number = after[number]
                for sound, pause, points, what, bits in versions:
                    end = start + sound
                    now_marked, now_natural = end + marks, end + pause
                    later = now_natural if now_natural > now_marked else now_marked
                    differs = so_far + more[what]
                    own = paid[differs] + points - toll
                    hope = mosts[after_number] - rate * later + own
                    if hope < needed or now_marked > latest:
                        continue
                    other = cheap_mosts[after_number] - cheap * later + own
                    hope = other if other < hope else hope
                    other = dear_mosts[after_number] - dear * later + own
                    hope = other if other < hope else hope
                    if hope >= needed:
                        found.append(
                            (
                                now_natural,
                                toll - points,
                                now_marked,
                                pending,
                                after_number,
                                differs,
                                kept | bits,
                                hope,
                            )
                        )
        return found

    def _gone(
        self, index: int, after_stay: Sequence[Course], after_go: Sequence[Course]
    ) -> list[Course]:
        """The courses on which the line at `index` goes."""
        problem = self.problem
        line, after = problem.lines[index], self._ground.torn[index].goes
        needed, paid, more = self._needed, self._paid[index], self._differs[index][0]
        rate, cheap, dear = (each.prices.per_tick for each in self._to_go)
        go = [each.go[index + 1] for each in self._to_go]
        apart = [each.apart[index + 1] for each in self._to_go]
        latest = problem.limit - self._ground.fixed_after[index]
        passed, ends = line.left + line.after, line.ends
        found: list[Course] = []
        leave = problem.lines[index - 1].leave if index else 0
        for courses, toll in ((after_stay, leave), (after_go, 0)):
            for natural, lost, marked, pending, number, so_far, kept, _ in courses:
                now_lost, now_marked = lost + toll, marked + passed
                now_number, differs = after[number], so_far + more
                now_natural, now_pending = (natural + pending, 0) if ends else (natural, pending)
                later = now_natural if now_natural > now_marked else now_marked
                may_cross = now_pending and now_marked <= now_natural
                mosts, cheap_mosts, dear_mosts = go if may_cross else apart
                own = paid[differs] - now_lost
                hope = mosts[now_number] - rate * later + own
                if hope < needed or now_marked > latest:
                    continue
                other = cheap_mosts[now_number] - cheap * later + own
                hope = other if other < hope else hope
                other = dear_mosts[now_number] - dear * later + own
                hope = other if other < hope else hope
                if hope >= needed:
                    found.append(
                        (
                            now_natural,
                            now_lost,
                            now_marked,
                            now_pending,
                            now_number,
                            differs,
                            kept,
                            hope,
                        )
                    )
        return found

    def _most_promising(
        self, courses: Iterable[Course], stays: int, width: int
    ) -> tuple[list[Course], list[Course]]:
        """Those that could reach most, a few of any one time that differ as often from other plans:
        what fits at the end is not known yet. Apart where the line with the bit `stays` does."""
        a_time, most = (
            (_A_TIME_UNLIKE, _MOST_OF_A_TIME_UNLIKE)
            if self.problem.unlike
            else (_A_TIME, _MOST_OF_A_TIME)
        )
        after_stay: list[Course] = []
        after_go: list[Course] = []
        taken: dict[tuple[int, int], int] = {}
        for course in sorted(courses, key=_hope, reverse=True):
            natural, _, marked, _, _, differs, kept, _ = course
            at = (natural if natural > marked else marked) // a_time, differs
            number = taken[at] = taken.get(at, 0) + 1
            if number <= most:
                (after_stay if kept & stays else after_go).append(course)
                width -= 1
                if not width:
                    break
        return after_stay, after_go

    def _undominated(self, courses: list[Course]) -> list[Course]:
        """Those that no other makes needless: of two at the same place with the same bonds torn
        that differ as often as counts, the other has lost no more, and is later by no clock."""
        courses.sort()
        if self.problem.shortfall:
            return self._undominated_by_all(courses)
        enough = self._enough
        best: dict[int, Course] = {}
        rest: list[Course] = []
        for course in courses:
            _, lost, marked, pending, number, differs, _, _ = course
            key = enough[differs] << _NUMBER_BITS | number
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
            at = number, self._enough[differs]
            known = best.get(at, _NOTHING)
            if early < known[0]:
                best[at] = early, late, marked, pending
            elif late >= known[1] and marked >= known[2] and pending >= known[3]:
                continue
            rest.append(course)
        return rest


_lost = itemgetter(1)
_hope = itemgetter(7)
