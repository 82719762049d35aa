"""How far the time of a part can be trusted, in words."""

from saywright.speech.slot import clock
from saywright.speech.timeline import Timeline


def told_range(timeline: Timeline) -> str:
    """What follows a part's time: `, likely 0:48 to 1:11`, after takes `, by 2 takes 0:54 to 1:03`.

    A range of less than a second has no ends to tell.
    """
    low, high = map(clock, timeline.range_seconds)
    takes = timeline.calibration.takes
    told = f"by {takes} take{'s' if takes > 1 else ''}" if takes else "likely"
    if low != high:
        return f", {told} {low} to {high}"
    return f", {told}" if takes else ""
