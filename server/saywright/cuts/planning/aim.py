"""What a plan is asked for. Apart from the planner, which takes time to load."""

from saywright.speech.slot import clock


def aim_title(seconds: float) -> str:
    """What is offered for a piece that runs longer than `seconds`."""
    return f"Plan a cut to {clock(seconds)}"
