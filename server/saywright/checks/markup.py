"""The problems that reading the markup finds; each is put together where it is found."""

from saywright.checks.check import Check, Page

CHECKS = (
    Check(
        "open-mark",
        "warning",
        "a mark that nothing closes, or that nothing opens",
        page=Page(
            why="A mark whose partner is missing marks nothing: its characters are spoken.",
            example="__I never cheated. Not by a lot.",
            to_do="Close it within its paragraph, close to the word, or put \\ before it if it "
            "is meant to be said.",
        ),
    ),
    Check(
        "kept-and-cut",
        "warning",
        "words that are both kept and cut",
        page=Page(
            why="A kept line is one that no cut may touch. Where the marks overlap, keeping wins.",
            example="~~I weighed it. __I never cheated.__~~",
            to_do="Take one pair of marks off.",
        ),
    ),
    Check(
        "duration",
        "warning",
        "a silence whose number lacks its unit",
        page=Page(
            why="A number alone could be seconds or minutes, so the silence has its usual length.",
            example="(pause 3) I never cheated.",
            to_do="Write the unit: (pause 3s).",
        ),
    ),
    Check(
        "setting",
        "warning",
        "a setting that is unknown, unreadable or there twice",
        page=Page(
            why="A setting that cannot be read counts for nothing: the piece is timed without it.",
            example="title: Two Kilos Over\nslto: 60s\n\nI never cheated.",
            to_do="Take the word that the message offers, or write the value as it shows.",
        ),
    ),
    Check(
        "part-kind",
        "warning",
        "a rule that names a part wrongly",
        page=Page(
            why="A rule line says what comes after it: piece, draft, notes or takes.",
            example="---- peice\nI never cheated.",
            to_do="Write the kind as the message offers it.",
        ),
    ),
    Check(
        "spoken-rule",
        "hint",
        "a line that starts like a rule and would be spoken",
        page=Page(
            why="Dashes followed by other words are speech, dashes and all.",
            example="I never cheated.\n---- the second half\nNot by a lot.",
            to_do="Name a kind after the dashes (---- piece), or put \\ before them if they are "
            "speech.",
        ),
    ),
    Check(
        "cue",
        "hint",
        "a line that looks like a cue and would be spoken",
        page=Page(
            why="Only a name that “speaker:” lists is a cue, alone on its line and with a colon. "
            "Anything else is spoken.",
            example="speaker: Ines\n\nTove:\nI never cheated.",
            to_do="List the name under “speaker:”, or put \\ before the colon if it is speech.",
        ),
    ),
    Check(
        "take-line",
        "warning",
        "a take that cannot be read",
        page=Page(
            why="A take that cannot be read does not count towards your pace.",
            example="I never cheated.\n---- takes\nabout a minute",
            to_do="Write the time first, as in 64.2s or 1:04, then the date and the reader's name.",
        ),
    ),
    Check(
        "project-file",
        "warning",
        "what cannot be read in saywright.toml",
        page=Page(
            why="What cannot be read there counts for nothing, in every script of the folder.",
            example="I never cheated.",
            to_do="Put the line right that the message names.",
            project_file='margn = "2s"',
        ),
    ),
)
