"""Who speaks, as far as time goes: language, pace, form, and how long a silence is."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType

from saywright.markup.settings import Settings
from saywright.markup.silences import Silence
from saywright.markup.values import Pace
from saywright.project import Project
from saywright.speech.calibration import Calibration, before_takes
from saywright.speech.model import NOMINAL_SYLLABLES_PER_SECOND, NOMINAL_WORDS_PER_MINUTE

SILENCE_SECONDS: Mapping[str, float] = MappingProxyType(
    {"breath": 0.4, "beat": 1.0, "pause": 2.0, "silence": 4.0}
)
"""Common practice, no source. The project file may set them."""

_SIZES = {None: 1.0, "short": 0.5, "long": 2.0}


@dataclass(frozen=True, slots=True)
class Voice:
    """What the time of a paragraph depends on beside its text.

    `scale` multiplies sounds and the pauses of punctuation; silences that are marked keep their
    length at any pace. `words` are the project's own, see `Project`.
    """

    language: str = "en"
    scale: float = 1.0
    verse: bool = False
    silence_seconds: tuple[tuple[str, float], ...] = field(
        default_factory=lambda: tuple(SILENCE_SECONDS.items())
    )
    words: tuple[tuple[str, str | int], ...] = ()

    def seconds_of(self, silence: Silence) -> float:
        if silence.seconds is not None:
            return silence.seconds
        if silence.name is None:
            return 0.0
        return dict(self.silence_seconds)[silence.name] * _SIZES[silence.size]


def pace_of(settings: Settings, project: Project) -> Pace | None:
    """The pace that is set, by the part or else the project; it may name a reader."""
    return settings.pace or project.pace


def language_of(settings: Settings, project: Project) -> str:
    return settings.language or project.language or "en"


def voice_of(settings: Settings, project: Project, calibration: Calibration | None = None) -> Voice:
    """The voice of a part: its settings first, then the project's, then the usual.

    A `calibration` stands for the pace that the settings give.
    """
    pace = _known_pace(settings, project)
    return Voice(
        language=language_of(settings, project),
        scale=calibration.scale if calibration else scale_of(pace),
        verse=settings.form == "verse",
        silence_seconds=tuple({**SILENCE_SECONDS, **dict(project.silence_seconds)}.items()),
        words=project.words,
    )


def calibration_before_takes(settings: Settings, project: Project) -> Calibration:
    """What the settings tell of the reader's factor."""
    pace = _known_pace(settings, project)
    language = language_of(settings, project)
    return before_takes(scale_of(pace), stated=pace is not None, language=language)


def _known_pace(settings: Settings, project: Project) -> Pace | None:
    pace = pace_of(settings, project)
    return project.readers.get(pace.reader, project.pace) if pace and pace.reader else pace


def scale_of(pace: Pace | None) -> float:
    """How much longer a reader at `pace` takes than at the model's usual pace.

    A pace is a reader's rate over the reference text, pauses included: the talks of many speakers
    that the model is fitted to, which it gives `NOMINAL_WORDS_PER_MINUTE` written words a minute
    and `NOMINAL_SYLLABLES_PER_SECOND`. Sounds and natural pauses are longer by the reference rate
    over the pace; silences that are marked are not. So a pace is not this text's own count of
    words: at one pace a text of long words takes longer than one of as many short ones.
    """
    if pace and pace.words_per_minute:
        return NOMINAL_WORDS_PER_MINUTE / pace.words_per_minute
    if pace and pace.syllables_per_second:
        return NOMINAL_SYLLABLES_PER_SECOND / pace.syllables_per_second
    return 1.0
