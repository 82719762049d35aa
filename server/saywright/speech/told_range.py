"""How far the time of a part can be trusted, in words."""

from saywright.speech.slot import clock
from saywright.speech.timeline import Timeline


def told_range(timeline: Timeline) -> str:
    """What follows a part's time: `, 0:48 to 1:11`, and after takes ` by 2 takes`.

    A range of less than a second has no ends to tell.
    """
    low, high = map(clock, timeline.range_seconds)
    takes = timeline.calibration.takes
    ends = f", {low} to {high}" if low != high else ""
    return f"{ends} by {takes} take{'s' if takes > 1 else ''}" if takes else ends
