"""The grid on which times lie, so that adding them up gives the same in any order.

Seconds are whole multiples of 2⁻²⁰ (about a microsecond). Sums of such numbers are exact in
floating point up to 2³² seconds, so a total does not depend on which sums were made before: an
edited script and the same script read afresh agree to the last digit.
"""

_STEPS_PER_SECOND = float(2**20)


def on_grid(seconds: float) -> float:
    return round(seconds * _STEPS_PER_SECOND) / _STEPS_PER_SECOND
