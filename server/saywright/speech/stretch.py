"""The time of any stretch of a script, such that two stretches add up to the whole."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Stretch:
    """Seconds of a stretch of script, and its words.

    `lead_seconds` are the silences marked before its first sound (all of them where nothing in
    it sounds), `sound_seconds` runs from the first sound to the last, `tail_seconds` are the
    silences marked after that, and `stop_seconds` is the pause that its end makes by itself if
    speech goes on. `marked_seconds` are the silences marked between its first sound and its last,
    at any pace the same. `cue` is the last speaker that a cue in it names.
    """

    sounds: bool = False
    lead_seconds: float = 0.0
    sound_seconds: float = 0.0
    tail_seconds: float = 0.0
    stop_seconds: float = 0.0
    words: int = 0
    syllables: int = 0
    cue: str | None = None
    marked_seconds: float = 0.0

    @property
    def seconds(self) -> float:
        return self.lead_seconds + self.sound_seconds + self.tail_seconds

    def gap_before(self, after: "Stretch") -> float:
        """The silence from this stretch's last sound to the first of `after`.

        What is marked replaces the pause of the punctuation if it is longer. Where nothing more
        sounds only what is marked counts.
        """
        marked = self.tail_seconds + after.lead_seconds
        return max(marked, self.stop_seconds) if after.sounds else marked

    def __add__(self, after: "Stretch") -> "Stretch":
        cue = after.cue or self.cue
        if not self.sounds or not after.sounds:
            lead = self.lead_seconds if self.sounds else self.lead_seconds + after.lead_seconds
            tail = self.tail_seconds + after.lead_seconds if self.sounds else after.tail_seconds
            sounding = self if self.sounds else after
            return Stretch(
                sounding.sounds,
                lead,
                sounding.sound_seconds,
                tail,
                sounding.stop_seconds,
                sounding.words,
                sounding.syllables,
                cue,
                sounding.marked_seconds,
            )
        return Stretch(
            True,
            self.lead_seconds,
            self.sound_seconds + self.gap_before(after) + after.sound_seconds,
            after.tail_seconds,
            after.stop_seconds,
            self.words + after.words,
            self.syllables + after.syllables,
            cue,
            self.marked_seconds + self.tail_seconds + after.lead_seconds + after.marked_seconds,
        )
