"""A read-through → what is said of it to whoever performed it, in lines of up to 80 columns."""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from saywright.markup.values import Slot
from saywright.recording.read_through import ReadThrough, SpokenSentence
from saywright.speech.slot import clock, slot_clock

_TEXT_COLUMNS = 38
# clearly: by a quarter, and by more than the estimate of a short sentence is off anyway
_SLOWER, _FASTER, _LEAST_SECONDS = 1.25, 0.8, 0.6
_LONGER, _LEAST_LONGER_SECONDS = 1.6, 0.5
_SHORTER, _LEAST_SHORTER_SECONDS = 0.5, 1.0
_MISMATCH = 2.0


class _Remark(NamedTuple):
    at_seconds: float
    what: str
    seconds: float
    expected_seconds: float
    text: str

    def __str__(self) -> str:
        times = f"{self.seconds:>6.1f} s {self.expected_seconds:>7.1f} s"
        return f"{clock(self.at_seconds):>5}  {self.what:<13} {times}   {self.text}"


_HEADING = f"{'at':>5}  {'':<13} {'yours':>8} {'expected':>9}"


def telling(reading: ReadThrough, slot: Slot | None) -> Iterator[str]:
    """The take against its estimate and its slot, then what stood out, sentence by sentence."""
    yield f"You took {_long(reading.seconds)} from the first word to the last."
    usual = _long(reading.estimated_seconds)
    yield f"The usual reader takes {usual}: you were {_pace(reading.pace)}."
    yield f"The pauses between sentences apart, you were {_pace(reading.speech_pace)}."
    if abs(reading.shown_seconds - reading.estimated_seconds) >= _LEAST_SECONDS:
        yield f"By its pace and earlier takes it was to be {_long(reading.shown_seconds)}."
    if not 1 / _MISMATCH < reading.pace < _MISMATCH:
        yield "That is far from the estimate: was it this piece that was read, and all of it?"
    if slot:
        yield from _against_slot(reading, slot)
    remarks = sorted(_remarks(reading), key=lambda remark: remark.at_seconds)
    yield ""
    if not remarks:
        yield "At that pace no sentence and no pause stood out."
        return
    yield "At that pace these stood out, by the recording's clock:"
    yield _HEADING
    yield from map(str, remarks)


def _long(seconds: float) -> str:
    minutes = f" ({clock(seconds)})" if seconds >= 60 else ""
    return f"{seconds:.1f} s{minutes}"


def _pace(pace: float) -> str:
    percent = round(abs(pace - 1) * 100)
    return f"{percent}% {'slower' if pace > 1 else 'faster'}" if percent else "as fast"


def _against_slot(reading: ReadThrough, slot: Slot) -> Iterator[str]:
    seconds = reading.seconds + reading.marked_seconds
    if reading.marked_seconds:
        yield (
            f"With the {reading.marked_seconds:.1f} s of silence marked before and after "
            f"it is {_long(seconds)}."
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
        seconds = run[-1].end_seconds - run[0].start_seconds
        # pauses that were not made are told of by themselves
        expected = sum(each.placed.sentence.speech_seconds for each in run) * reading.speech_pace
        if what := _speed(seconds, expected):
            yield _Remark(run[0].start_seconds, what, seconds, expected, _opening(run))
    # a silence lasts as long as the script says at any pace
    for sentence in reading.sentences:
        pause, usual = sentence.pause_seconds, sentence.placed.pause_seconds
        if what := _pause(pause, usual):
            yield _Remark(sentence.end_seconds, what, pause, usual, _closing(sentence))


def _speed(seconds: float, expected_seconds: float) -> str | None:
    if abs(seconds - expected_seconds) < _LEAST_SECONDS:
        return None
    if seconds > _SLOWER * expected_seconds:
        return "slower"
    return "faster" if seconds < _FASTER * expected_seconds else None


def _pause(seconds: float, usual_seconds: float) -> str | None:
    if seconds > _LONGER * usual_seconds and seconds - usual_seconds >= _LEAST_LONGER_SECONDS:
        return "longer pause"
    if seconds < _SHORTER * usual_seconds and usual_seconds - seconds >= _LEAST_SHORTER_SECONDS:
        return "shorter pause"
    return None


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


def _opening(run: Sequence[SpokenSentence]) -> str:
    more = "" if len(run) == 1 else f" (and {len(run) - 1} more)"
    text = _text(run[0])
    room = _TEXT_COLUMNS - len(more)
    return (text if len(text) <= room else text[: room - 1].rstrip() + "…") + more


def _closing(sentence: SpokenSentence) -> str:
    text = _text(sentence)
    room = _TEXT_COLUMNS - len("after ")
    return "after " + (text if len(text) <= room else "…" + text[1 - room :].lstrip())


def _text(sentence: SpokenSentence) -> str:
    return " ".join(sentence.placed.sentence.text.split())
