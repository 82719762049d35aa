"""`saywright`: what it can be told, and the exit codes of all its commands."""

import argparse
import gc
import os
import re
import sys
from collections.abc import Iterator, Sequence
from datetime import date
from pathlib import Path

from saywright.commands import explain, format_scripts, inspect_script, lint
from saywright.markup.values import Unreadable, read_duration
from saywright.project import SEVERITIES
from saywright.version import VERSION

COULD_NOT_RUN = 2
_BELOW_NONE = re.compile(r"[-\N{MINUS SIGN}][0-9.,:]")


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command; returns 0, 1 where it found something, or 2 where it could not run."""
    words = sys.argv[1:] if arguments is None else arguments
    told = _parser().parse_args(list(_with_times(words)))
    _write_utf8()
    try:
        code = int(told.run(told))
        sys.stdout.flush()
    except KeyboardInterrupt:
        return 130
    except OSError as error:
        if not isinstance(error, BrokenPipeError):  # whoever was reading may stop when they like
            print(f"saywright: {error.strerror or error}", file=sys.stderr)
        # what could not be written would be tried, and complained of, again at the end
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return COULD_NOT_RUN
    return code


def _with_times(arguments: Sequence[str]) -> Iterator[str]:
    """`--to -5s` as `--to=-5s`: else it would be taken for an option."""
    words = iter(arguments)
    for word in words:
        time = next(words, None) if word == "--to" else None
        if time is None:
            yield word
        elif _BELOW_NONE.match(time):
            yield f"{word}={time}"
        else:
            yield from (word, time)


def _write_utf8() -> None:
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(encoding="utf-8", errors="backslashreplace")


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="saywright", description="Times, checks and cuts monologues in the Say markup."
    )
    parser.add_argument("--version", action="version", version=f"saywright {VERSION}")
    commands = parser.add_subparsers(required=True, metavar="COMMAND")
    _add_lint(commands)
    _add_inspect(commands)
    _add_cut(commands)
    _add_compare(commands)
    _add_gather(commands)
    _add_format(commands)
    _add_take(commands)
    _add_explain(commands)
    serve = commands.add_parser("serve", help="run as a language server, for an editor to start")
    serve.add_argument("--stdio", action="store_true", help="the only way it runs; may be left out")
    serve.set_defaults(run=_serve)
    return parser


def _add_lint(commands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    parser = commands.add_parser(
        "lint",
        help="check scripts and folders of scripts",
        description="Checks scripts. Exits with 0 if nothing was found that matters as much as "
        "--fail-on, with 1 if something was, with 2 if it could not run.",
    )
    parser.add_argument("paths", nargs="+", type=Path, metavar="PATH", help="a script or a folder")
    parser.add_argument(
        "--fail-on",
        choices=SEVERITIES[1:],
        default="warning",
        metavar="SEVERITY",
        help=f"one of {', '.join(SEVERITIES[1:])} (default: warning)",
    )
    parser.set_defaults(run=lambda told: lint.run(told.paths, told.fail_on))


def _add_inspect(commands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    parser = commands.add_parser(
        "inspect", help="tell everything that is known of a script, for other programs"
    )
    parser.add_argument("file", metavar="FILE", help="a script, or - for standard input")
    parser.add_argument("--json", action="store_true", help="as JSON, not as a table")
    parser.set_defaults(run=lambda told: inspect_script.run(told.file, told.json))


def _add_format(commands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    parser = commands.add_parser(
        "format",
        help="tidy scripts: blanks around marks, rule lines, the order of settings",
        description="Tidies scripts where they stand. It never changes a spoken word.",
    )
    parser.add_argument("paths", nargs="+", type=Path, metavar="PATH", help="a script or a folder")
    parser.add_argument(
        "--check",
        action="store_true",
        help="only say which scripts would change; exits with 1 if one would",
    )
    parser.set_defaults(run=lambda told: format_scripts.run(told.paths, told.check))


def _add_explain(commands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    parser = commands.add_parser(
        "explain", help="tell what a check finds, why it matters and what to do; or list them all"
    )
    parser.add_argument("check", nargs="?", metavar="CHECK", help="a check's name, as over-time")
    parser.set_defaults(run=lambda told: explain.run(told.check))


def _add_take(commands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    parser = commands.add_parser(
        "take",
        help="measure a recorded read-through and note it in its script",
        description="Measures a recording from its first word to its last, writes a line under "
        "the script's takes, and tells which sentences were slower, faster or followed by a "
        "longer pause than expected.",
    )
    parser.add_argument("file", type=Path, metavar="FILE", help="the script that was read")
    parser.add_argument("--audio", type=Path, required=True, help="the recording, a WAV file")
    parser.add_argument("--part", metavar="LABEL", help="which piece, if there are several")
    parser.add_argument("--reader", metavar="NAME", help="who read it")
    parser.add_argument("--date", type=_day, metavar="YYYY-MM-DD", help="when (default: today)")
    parser.set_defaults(run=_take)


def _take(told: argparse.Namespace) -> int:
    # imported here: no other command hears anything
    from saywright.commands import take  # noqa: PLC0415

    return take.run(take.Told(told.file, told.audio, told.part, told.reader, told.date))


def _add_cut(commands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    parser = commands.add_parser(
        "cut",
        help="plan which sentences to cut, so that a piece fits its slot",
        description="Shows plans that bring a piece into its slot less its margin. Nothing is "
        "written without --apply, and then only marks. Exits with 0 if the piece fits or a plan "
        "makes it fit, with 1 if none does, with 2 if it could not run.",
    )
    parser.add_argument("file", type=Path, metavar="FILE", help="a script")
    parser.add_argument("--part", metavar="LABEL", help="which piece, if several run too long")
    parser.add_argument(
        "--to", type=_duration, metavar="TIME", help="how long it may be, as 60s, not its slot"
    )
    parser.add_argument(
        "--plans", type=_count, default=3, metavar="N", help="how many plans (default: 3)"
    )
    parser.add_argument(
        "--diff",
        action="store_true",
        help="only print what plan 1, or the plan of --plan, would change, as a unified diff",
    )
    one = parser.add_mutually_exclusive_group()
    one.add_argument("--plan", type=_count, metavar="N", help="print that diff for plan N")
    one.add_argument("--apply", type=_count, metavar="N", help="write the marks of plan N")
    parser.add_argument("--json", action="store_true", help="print the plans as JSON")
    parser.set_defaults(run=lambda told: _cut(parser, told))


def _cut(parser: argparse.ArgumentParser, told: argparse.Namespace) -> int:
    if told.apply and told.diff:
        parser.error(
            "--diff only shows what a plan would change, --apply writes it: leave out one of them. "
            f"To see plan {told.apply} first: --plan {told.apply}"
        )
    if told.json and (told.diff or told.plan):
        parser.error("--json and a diff cannot both be printed: leave out --json, --diff or --plan")
    # imported here: no other command plans anything
    from saywright.commands import cut_piece  # noqa: PLC0415

    diff = told.plan or (1 if told.diff else None)
    return cut_piece.run(
        cut_piece.Told(told.file, told.part, told.to, told.plans, told.apply, diff, told.json)
    )


def _add_compare(commands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    parser = commands.add_parser(
        "compare",
        help="tell what was cut, restored, added and reworded from one version to another",
        description="Compares two versions of a script's pieces, sentence by sentence: the script "
        "as it was last committed to Git with the script as it is now, or two files, or two "
        "pieces of a file. Exits with 0 if the same words are spoken, with 1 if not, with 2 if it "
        "could not run.",
    )
    parser.add_argument("file", type=Path, metavar="FILE", help="a script")
    parser.add_argument(
        "other", type=Path, nargs="?", metavar="OTHER", help="the same script, as a later file"
    )
    parser.add_argument("--part", metavar="LABEL", help="which piece, if there are several")
    parser.add_argument(
        "--with", dest="with_part", metavar="LABEL", help="the piece to compare that one with"
    )
    past = parser.add_mutually_exclusive_group()
    past.add_argument(
        "--since", metavar="REVISION", help="what Git calls the version to start from"
    )
    past.add_argument(
        "--history", action="store_true", help="a line for each of the script's revisions in Git"
    )
    parser.add_argument(
        "--last", type=_many, default=12, metavar="N", help="how many of them (default: 12)"
    )
    parser.add_argument("--json", action="store_true", help="print it as JSON")
    parser.set_defaults(run=lambda told: _compare(parser, told))


def _compare(parser: argparse.ArgumentParser, told: argparse.Namespace) -> int:
    # imported here: no other command asks Git
    from saywright.commands import compare  # noqa: PLC0415

    if told.other and (told.since is not None or told.history):
        parser.error("Name another file, or ask Git with --since or --history, not both.")
    if told.with_part is not None and (told.part is None or told.history):
        parser.error("--with names the piece to compare the piece of --part with.")
    last = told.last if told.history else None
    return compare.run(
        compare.Told(told.file, told.other, told.part, told.with_part, told.since, last, told.json)
    )


def _add_gather(commands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    parser = commands.add_parser(
        "gather",
        help="bring the kept lines of the drafts into the piece",
        description="Brings every kept line of a script's drafts that is not in the piece yet to "
        "the piece's end, with a note that tells where it came from. Where there is no piece, one "
        "is made. Exits with 0, or with 2 if it could not run.",
    )
    parser.add_argument("file", type=Path, metavar="FILE", help="a script")
    parser.add_argument("--part", metavar="LABEL", help="which piece, if there are several")
    parser.add_argument(
        "--order",
        choices=("file", "flow"),
        default="file",
        help="as the lines stand in the file, or so that each follows the one before best "
        "(default: file)",
    )
    parser.add_argument(
        "--diff", action="store_true", help="only print what would change, as a unified diff"
    )
    parser.set_defaults(run=_gather)


def _gather(told: argparse.Namespace) -> int:
    # imported here: no other command gathers anything
    from saywright.commands import gather  # noqa: PLC0415

    return gather.run(gather.Told(told.file, told.part, told.order == "flow", told.diff))


def _duration(text: str) -> float:
    """Seconds, of a time written as in a script; more than none."""
    try:
        seconds = read_duration(text)
    except Unreadable as error:
        meant = f" Did you mean {error.meant}?" if error.meant else ""
        raise argparse.ArgumentTypeError(error.why + meant) from error
    if seconds <= 0:
        raise argparse.ArgumentTypeError("No piece fits into no time. Write it as 60s or 1:30.")
    return seconds


def _count(text: str) -> int:
    if text.isascii() and text.isdigit() and 0 < int(text) < 10:
        return int(text)
    raise argparse.ArgumentTypeError("write a number from 1 to 9")


def _many(text: str) -> int:
    if text.isascii() and text.isdigit() and 0 < int(text[:9]) < 10_000:
        return int(text)
    raise argparse.ArgumentTypeError("write a number from 1 to 9999")


def _day(text: str) -> str:
    """A day as written on the command line, `2026-11-25`."""
    try:
        if len(text) == len("2026-11-25"):
            return date.fromisoformat(text).isoformat()
    except ValueError:
        pass
    raise argparse.ArgumentTypeError("write the day as 2026-11-25")


def _serve(_told: argparse.Namespace) -> int:
    gc.disable()  # nothing of what is made at the start goes away again
    # imported here: the language server's libraries take longer to load than a lint to run
    from saywright.protocol.server import make_server, serve  # noqa: PLC0415

    server = make_server()
    gc.freeze()
    gc.enable()
    return serve(server)
