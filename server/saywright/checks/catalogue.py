"""Every check, in the order in which it is listed."""

from saywright.checks import (
    addressee,
    announcing,
    breath,
    filler,
    hard_to_say,
    markup,
    name_from_life,
    over_time,
    repetition,
    running_time,
    spoken_brackets,
    spoken_note,
    spoken_setting,
    spoken_silence,
    under_time,
    unknown_check,
    unknown_language,
    unknown_reader,
    unspoken_words,
)

CHECKS = (
    running_time.CHECK,
    over_time.CHECK,
    under_time.CHECK,
    unspoken_words.CHECK,
    spoken_silence.CHECK,
    spoken_brackets.CHECK,
    spoken_note.CHECK,
    spoken_setting.CHECK,
    filler.CHECK,
    announcing.CHECK,
    addressee.CHECK,
    name_from_life.CHECK,
    breath.CHECK,
    hard_to_say.CHECK,
    repetition.CHECK,
    *markup.CHECKS,
    unknown_check.CHECK,
    unknown_reader.CHECK,
    unknown_language.CHECK,
)
CHECK_NAMES = tuple(check.name for check in CHECKS)
SEVERITY_OF = {check.name: check.severity for check in CHECKS}
