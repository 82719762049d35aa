"""Who speaks, as far as time goes: language, pace, form, and how long a silence is."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType

from saywright.markup.settings import Settings
from saywright.markup.silences import Silence
from saywright.markup.values import Pace
from saywright.project import Project
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
    length at any pace.
    """

    language: str = "en"
    scale: float = 1.0
    verse: bool = False
    silence_seconds: tuple[tuple[str, float], ...] = field(
        default_factory=lambda: tuple(SILENCE_SECONDS.items())
    )

    def seconds_of(self, silence: Silence) -> float:
        if silence.seconds is not None:
            return silence.seconds
        if silence.name is None:
            return 0.0
        return dict(self.silence_seconds)[silence.name] * _SIZES[silence.size]


def voice_of(settings: Settings, project: Project) -> Voice:
    """The voice of a part: its settings first, then the project's, then the usual."""
    pace = settings.pace or project.pace
    if pace and pace.reader:
        pace = project.readers.get(pace.reader, project.pace)
    return Voice(
        language=settings.language or project.language or "en",
        scale=scale_of(pace),
        verse=settings.form == "verse",
        silence_seconds=tuple({**SILENCE_SECONDS, **dict(project.silence_seconds)}.items()),
    )


def scale_of(pace: Pace | None) -> float:
    """How much longer a reader at `pace` takes than at the model's nominal pace.

    A pace in words is the reader's rate over text of ordinary words, pauses included: it is not
    this text's own count of words, so long words still take longer than short ones.
    """
    if pace and pace.words_per_minute:
        return NOMINAL_WORDS_PER_MINUTE / pace.words_per_minute
    if pace and pace.syllables_per_second:
        return NOMINAL_SYLLABLES_PER_SECOND / pace.syllables_per_second
    return 1.0
