"""`lsprotocol`'s classes, made without their `__repr__`s.

Half of a server's start goes into making more than five hundred classes, a third of that into
methods that only a debugger calls. Imported before anything else that imports them.
"""

import sys
from functools import partial

import attrs


def load() -> None:
    """Make the classes, unless they are made already."""
    if "lsprotocol.types" in sys.modules:
        return
    define = attrs.define
    attrs.define = partial(define, repr=False)
    try:
        import lsprotocol.types  # noqa: F401, PLC0415
    finally:
        attrs.define = define


load()
