"""A read-through → what is said of it to whoever performed it, in lines of up to 80 columns."""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from saywright.markup.values import Slot
from saywright.recording.read_through import ReadThrough, SpokenSentence
from saywright.speech.slot import clock, slot_clock

_TEXT_COLUMNS = 36
# clearly: by a quarter, and by more than the estimate of a short sentence is off anyway
_SLOWER, _FASTER, _LEAST_SECONDS = 1.25, 0.8, 0.6
_LONGER_PAUSE, _LEAST_PAUSE_SECONDS = 1.6, 0.5
_MISMATCH = 2.0


class _Remark(NamedTuple):
    at_seconds: float
    what: str
    seconds: float
    expected_seconds: float
    text: str

    def __str__(self) -> str:
        times = f"{self.seconds:.1f} s, not {self.expected_seconds:.1f} s"
        return f"{clock(self.at_seconds):>5}  {self.what:<12}  {times:<18}  {self.text}".rstrip()


def telling(reading: ReadThrough, slot: Slot | None) -> Iterator[str]:
    """The take against its estimate and its slot, then what stood out, sentence by sentence."""
    yield (
        f"You took {reading.seconds:.1f} s from the first word to the last. "
        f"The estimate is {reading.estimated_seconds:.1f} s."
    )
    yield _pace(reading.pace)
    if slot:
        yield from _against_slot(reading, slot)
    remarks = sorted(_remarks(reading), key=lambda remark: remark.at_seconds)
    yield ""
    if not remarks:
        yield "At that pace no sentence stood out as slow or fast, and no pause as long."
        return
    yield "At that pace these stood out (minutes of the recording; yours, not expected):"
    yield from map(str, remarks)


def _pace(pace: float) -> str:
    percent = round(abs(pace - 1) * 100)
    if pace > _MISMATCH or pace < 1 / _MISMATCH:
        longer = "more than twice" if pace > 1 else "less than half"
        return f"That is {longer} the estimate: is it this piece that was read, and all of it?"
    if not percent:
        return "That is your pace to the estimate's, to the percent."
    return f"That is {percent}% {'slower' if pace > 1 else 'faster'} than the estimate."


def _against_slot(reading: ReadThrough, slot: Slot) -> Iterator[str]:
    seconds = reading.seconds + reading.marked_seconds
    if reading.marked_seconds:
        yield (
            f"With the {reading.marked_seconds:.1f} s of silence marked before and after "
            f"it is {seconds:.1f} s."
        )
    if seconds > slot.high_seconds:
        outcome = f"{seconds - slot.high_seconds:.1f} s too long."
    elif seconds < slot.low_seconds:
        outcome = f"{slot.low_seconds - seconds:.1f} s too short."
    else:
        outcome = "it fits."
    yield f"The slot is {slot_clock(slot)}: {outcome}"


def _remarks(reading: ReadThrough) -> Iterator[_Remark]:
    for run in _runs(reading.sentences):
        first, last = run[0], run[-1]
        seconds = last.end_seconds - first.start_seconds
        script_seconds = last.placed.last_seconds - first.placed.first_seconds
        expected = script_seconds * reading.pace
        if abs(seconds - expected) >= _LEAST_SECONDS:
            text = _opening(first, len(run))
            if seconds > _SLOWER * expected:
                yield _Remark(first.start_seconds, "slower", seconds, expected, text)
            elif seconds < _FASTER * expected:
                yield _Remark(first.start_seconds, "faster", seconds, expected, text)
        pause, usual = last.pause_seconds, last.placed.pause_seconds * reading.pace
        if pause > _LONGER_PAUSE * usual and pause - usual >= _LEAST_PAUSE_SECONDS:
            yield _Remark(last.end_seconds, "longer pause", pause, usual, _closing(last))


def _runs(sentences: Sequence[SpokenSentence]) -> Iterator[list[SpokenSentence]]:
    """Sentences that were said in one go together, since where they meet was not heard."""
    run: list[SpokenSentence] = []
    for sentence in sentences:
        run.append(sentence)
        if sentence.ends_heard:
            yield run
            run = []
    if run:
        yield run


def _opening(sentence: SpokenSentence, sentences: int) -> str:
    more = "" if sentences == 1 else f" (and {sentences - 1} more)"
    text = " ".join(sentence.placed.sentence.text.split())
    room = _TEXT_COLUMNS - len(more)
    return (text if len(text) <= room else text[: room - 1].rstrip() + "…") + more


def _closing(sentence: SpokenSentence) -> str:
    text = " ".join(sentence.placed.sentence.text.split())
    room = _TEXT_COLUMNS - len("after ")
    return "after " + (text if len(text) <= room else "…" + text[1 - room :].lstrip())
