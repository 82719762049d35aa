"""Everything that is measured of the checks of the voice, one benchmark after another.

    python -m tests.benchmarks.voice [DATA]

DATA is a folder with the annotated sentences (`finite_verbs.jsonl`, `ewt_train.conllu.gz`), or its
`voice` folder stands in it, or in SAYWRIGHT_DATA. In turn: the tense of sentences, each scored by
weights fitted to other documents; drifts, false alarms and slips found; fillers by the verdicts
kept beside; and how many findings of each check there are in 1,000 words.
"""

import subprocess
import sys

BENCHMARKS = ("tense", "drift", "fillers", "hints")


def main() -> int:
    """Runs them all; returns the highest of their exit codes."""
    codes = []
    for name in BENCHMARKS:
        print(f"== {name}", flush=True)
        command = [sys.executable, "-m", f"tests.benchmarks.{name}", *sys.argv[1:]]
        codes.append(subprocess.run(command, check=False).returncode)
    return max(codes)


if __name__ == "__main__":
    raise SystemExit(main())
