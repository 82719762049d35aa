"""A recording in memory: its samples as they were saved, and what they mean."""

from dataclasses import dataclass
from typing import Literal

Encoding = Literal["unsigned", "signed", "float"]


class UnusableRecordingError(Exception):
    """A recording that cannot be measured; the message says why and what to do, in plain words."""


@dataclass(frozen=True, slots=True)
class Sound:
    """Samples, little-endian, the channels of each moment side by side.

    `unsigned` samples are one byte wide, `signed` ones 2, 3 or 4, `float` ones 4 or 8.
    """

    data: memoryview
    samples_per_second: int
    channels: int
    encoding: Encoding
    bytes_per_sample: int

    @property
    def seconds(self) -> float:
        bytes_per_second = self.samples_per_second * self.channels * self.bytes_per_sample
        return len(self.data) / bytes_per_second
