"""Texts for property tests: anything at all, and scripts dense with marks."""

from hypothesis import strategies as st

PIECES = (
    "I was never wrong. ",
    "He said: no? ",
    "Forty, forty-one! ",
    "Mr. Aro left at 7:30 p.m. ",
    "\n",
    "\n",
    "\n\n",
    "\r\n",
    "---- draft\n",
    "---- piece: a; slot 5s; pace 100 wpm\n",
    "----\n",
    "---- notes\n",
    "---- takes\n",
    "Ines:\n",
    "Tom: (3s)\n",
    "# note\n",
    "slot: 6s\n",
    "speaker: Ines, Tom\n",
    "title: x\n",
    "language: de\n",
    "form: verse\n",
    "leave-out: cue\n",
    "~~",
    "__",
    "*",
    "(beat)",
    " (pause 2s) ",
    "(3)",
    " | ",
    "||",
    "(",
    ")",
    "\\",
    "-",
    "#",
    ":",
    "64s of 3s\n",
    "\u2028",
    "\u0085",
    "\r",
    "é",
    "😀",
    "\u200f",
    "\ufeff",
    "\0",
    " ",
    "a",
    "Beat.\n",
    "“So?” ",
)

scripts = st.lists(st.sampled_from(PIECES), max_size=24).map("".join)
"""Scripts put together from marks, lines of every kind and speech."""

texts = st.one_of(scripts, st.text(max_size=60))
"""Scripts, and any text that UTF-8 can hold."""
