"""`saywright format`: tidies scripts where they stand, or says which would change."""

import sys
from collections.abc import Sequence
from pathlib import Path

from saywright.files import (
    NotTextError,
    UnreadableFileError,
    read_script,
    replace_script,
    scripts_in,
)
from saywright.markup.tidying import tidied

_COULD_NOT_RUN = 2


def run(paths: Sequence[Path], only_check: bool) -> int:
    """Tidy the scripts in `paths`; returns the exit code."""
    scripts = list(scripts_in(paths))
    if not scripts:
        print("There is no script here: a script's name ends in .say.", file=sys.stderr)
        return _COULD_NOT_RUN
    changed = failed = 0
    for script in scripts:
        try:
            changed += _tidy(script, only_check)
        except (UnreadableFileError, NotTextError) as error:
            print(f"{script}: {error}", file=sys.stderr)
            failed += 1
    if failed:
        return _COULD_NOT_RUN
    return int(only_check and changed > 0)


def _tidy(script: Path, only_check: bool) -> bool:
    text = read_script(script)
    tidy = tidied(text)
    if tidy == text:
        return False
    if not only_check:
        replace_script(script, tidy)
    print(f"{script}: {'would be tidied' if only_check else 'tidied'}")
    return True
