"""`editors/emacs` in a real Emacs: a script is timed, typed in, cut, renamed and explained.

The mode is installed as its README has it, and Eglot starts the real server; `telling_server.py`
adds a request by which a test learns what text the server has.
"""

import json
import re
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from saywright.analysis import analyse
from saywright.markup.tidying import tidied
from saywright.protocol.messages import is_running
from saywright.speech.slot import clock, clock_between
from saywright.version import VERSION
from tests.clients.emacs import Emacs, emacs_program, emacs_version

FOLDER = Path(__file__).parents[2] / "editors" / "emacs"
MODE = FOLDER / "saywright.el"
SERVER = Path(__file__).parents[1] / "clients" / "telling_server.py"
SCRIPT = Path(__file__).with_name("salt_wagon.say").read_text("utf-8")
SENTENCE = "They weighed the salt twice a day, and nobody asked who held the scale."
RECENTRE = "\x0c"  # a key that changes nothing
NEEDED = (29, 1)  # its Eglot is the first to show hints

pytestmark = [
    pytest.mark.slow,
    pytest.mark.skipif(
        emacs_version() < NEEDED,
        reason="Emacs 29.1 or newer is not installed: apt install emacs-nox",
    ),
]

# when the server's process is first seen, and when the first hint is
WATCH = """
(defvar test-server-at nil)
(defvar test-hint-at nil)
(defun test-hints ()
  (seq-filter (lambda (each) (overlay-get each 'eglot--inlay-hint))
              (overlays-in (point-min) (point-max))))
(run-with-timer
 0 0.01
 (lambda ()
   (unless test-server-at
     (when (seq-find (lambda (each) (string-prefix-p "EGLOT" (process-name each))) (process-list))
       (setq test-server-at (float-time))))
   (unless test-hint-at
     (when (with-current-buffer (window-buffer) (test-hints))
       (setq test-hint-at (float-time))))))
"""
HINTS = """(vconcat (mapcar
 (lambda (each) (vector (line-number-at-pos (overlay-start each))
                        (or (overlay-get each 'before-string) (overlay-get each 'after-string))))
 (sort (test-hints) (lambda (one two) (< (overlay-start one) (overlay-start two))))))"""
FOUND = """(vconcat (mapcar
 (lambda (each) (vector (buffer-substring-no-properties
                         (flymake-diagnostic-beg each) (flymake-diagnostic-end each))
                        (flymake-diagnostic-text each)))
 (flymake-diagnostics)))"""
TEXT = "(buffer-substring-no-properties (point-min) (point-max))"
SERVER_TEXT = """(plist-get (jsonrpc-request
 (eglot-current-server) :saywright-test/text (list :uri (eglot-path-to-uri buffer-file-name)))
 :text)"""


def batch(*arguments: str) -> "subprocess.CompletedProcess[str]":
    command = [str(emacs_program()), "-Q", "--batch", *arguments]
    return subprocess.run(command, capture_output=True, text=True, check=False, timeout=120)


def init() -> str:
    command = json.dumps(sys.executable), json.dumps(str(SERVER))
    return (
        f"(add-to-list 'load-path {json.dumps(str(FOLDER))})\n(require 'saywright)\n"
        "(add-hook 'say-mode-hook #'eglot-ensure)\n"
        f"(setq saywright-command '({' '.join(command)}))\n{WATCH}"
    )


@pytest.fixture(scope="module")
def running(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Emacs]:
    home = tmp_path_factory.mktemp("emacs")
    script = home / "salt_wagon.say"
    script.write_bytes(SCRIPT.encode())
    with Emacs(home, init()) as emacs:
        emacs.start(script)
        emacs.wait_for("the first hint", "test-hint-at")
        yield emacs


@pytest.fixture
def emacs(running: Emacs) -> Emacs:
    """The script as it is on disk, in the editor and in the server."""
    running.lisp("(progn (erase-buffer) (insert-file-contents buffer-file-name) t)")
    settled(running)
    # Eglot asks for no hints where it has asked for those of as many characters just before
    running.lisp("(progn (setq eglot--outstanding-inlay-hints-last-region nil) t)")
    wait_for_hint(running, 14, time_told(SCRIPT, 14))
    return running


def settled(emacs: Emacs) -> str:
    """The text, once the server has it too."""
    text = str(emacs.lisp(TEXT))
    emacs.wait_for(
        "the server to have the same text",
        f"(progn (eglot--signal-textDocument/didChange) (equal {TEXT} {SERVER_TEXT}))",
    )
    return text


def go_to(emacs: Emacs, words: str) -> None:
    emacs.lisp(f"(progn (goto-char (point-min)) (search-forward {json.dumps(words)}) t)")


def do(emacs: Emacs, title: str) -> None:
    """The code action of that title, where point is."""
    emacs.lisp(
        "(let ((action (seq-find (lambda (each) (equal (plist-get each :title) "
        f"{json.dumps(title)})) (eglot-code-actions (point)))))"
        '(unless action (error "It is not offered"))'
        "(eglot-execute (eglot-current-server) action) t)"
    )


def time_told(text: str, line: int) -> str:
    """The hint at a line's end, by the core's clock: the running time, or how much it is over."""
    end = len("\n".join(text.split("\n")[:line]))
    (view,) = analyse(text).pieces
    seconds = view.timeline.seconds_at(end)
    assert view.aim
    if seconds > view.aim.seconds:
        return f" +{clock_between(view.aim.seconds, seconds)}"
    return f" {clock(seconds)}"


def wait_for_hint(emacs: Emacs, line: int, hint: str) -> None:
    emacs.type(RECENTRE)
    emacs.wait_for(
        f"{hint} in line {line}", f"(seq-contains-p {HINTS} (vector {line} {json.dumps(hint)}))"
    )


def test_it_compiles_without_a_warning(tmp_path: Path) -> None:
    copy = tmp_path / MODE.name
    copy.write_bytes(MODE.read_bytes())
    done = batch(
        "--eval", "(setq byte-compile-error-on-warn t)", "-f", "batch-byte-compile", str(copy)
    )
    assert (done.returncode, done.stderr) == (0, "")
    assert copy.with_suffix(".elc").exists()


def test_marks_have_colours() -> None:
    """Each stretch of a colour, in order; what is spoken has none."""
    text = (
        "slot: 60s\nspeaker: Ines\n\n---- piece: a; pace 90 wpm\nslot: no setting here\n"
        "I ~~weigh\nthe salt~~ and __never__ *cheat* (he\nsits, 3s). | So. (beat) a~~b 2*3*4\n"
        "# a note ~~of mine\n\nI ~~left\n\nit open~~ here.\n"
    )
    assert in_mode(text, "(test-colours)") == [
        ["slot:", "font-lock-keyword-face"],
        [" 60s", "font-lock-string-face"],
        ["speaker:", "font-lock-keyword-face"],
        [" Ines", "font-lock-string-face"],
        ["----", "font-lock-keyword-face"],
        ["piece", "font-lock-type-face"],
        [": a; pace 90 wpm", "font-lock-string-face"],
        ["~~weigh\nthe salt~~", "saywright-cut"],
        ["__never__", "saywright-kept"],
        ["*cheat*", "saywright-stress"],
        ["(he\nsits, 3s)", "saywright-direction"],
        ["|", "saywright-breath"],
        ["(beat)", "saywright-direction"],
        ["# a note ~~of mine", "font-lock-comment-face"],
    ]


def test_what_is_cut_is_struck_through_and_what_is_kept_underlined() -> None:
    marks = "(vector (face-attribute 'saywright-cut :strike-through) " + (
        "(face-attribute 'saywright-kept :underline))"
    )
    assert in_mode("", marks) == [True, True]


def test_filling_keeps_rules_notes_cues_and_settings_on_lines_of_their_own() -> None:
    text = (
        "slot: 60s\ntitle: Salt\n\n---- piece\nInes:\nI weigh\nthe salt\n# slowly\nand I go.\n"
        "---- draft\nNo.\n"
    )
    filled = in_mode(text, "(progn (fill-region (point-min) (point-max)) (buffer-string))")
    assert filled == text.replace("weigh\nthe", "weigh the")


def test_a_line_does_not_begin_with_what_would_be_no_speech() -> None:
    text = "I weigh the salt # and I ---- weigh the salt.\n"
    form = "(let ((fill-column {})) (fill-region (point-min) (point-max)) (buffer-string))"
    for column in range(8, 40):
        lines = in_mode(text, form.format(column)).split("\n")
        assert not [line for line in lines if line.startswith(("#", "----"))]


def test_a_line_is_made_a_note_and_no_longer_one() -> None:
    toggle = "(progn (goto-char (point-min)) (comment-line 1) (buffer-string))"
    assert in_mode("I weigh.\nI go.\n", toggle) == "# I weigh.\nI go.\n"
    assert in_mode("# I weigh.\nI go.\n", toggle) == "I weigh.\nI go.\n"


def test_parts_are_its_outline() -> None:
    parts = '(delete "*Rescan*" (mapcar #\'car (imenu--make-index-alist t)))'
    text = "---- piece: one\nI go.\n----\nI stay.\n----- draft\nNo.\n--- no rule\n"
    assert in_mode(text, f"(progn (require 'imenu) (vconcat {parts}))") == ["piece: one", "draft"]


def in_mode(text: str, form: str) -> Any:
    """What `form` gives where a script of that text has been opened, without a server."""
    told = batch(
        *("-L", str(FOLDER), "-l", "saywright", "--eval"),
        f"""(with-temp-buffer
 (insert {json.dumps(text, ensure_ascii=False)})
 (say-mode)
 (font-lock-mode 1)
 (font-lock-ensure)
 (defun test-colours ()
   (let ((at (point-min)) (found nil))
     (while (< at (point-max))
       (let ((end (next-single-property-change at 'face nil (point-max)))
             (face (get-text-property at 'face)))
         (when face
           (push (vector (buffer-substring-no-properties at end)
                         (mapconcat #'symbol-name (ensure-list face) " ")) found))
         (setq at end)))
     (vconcat (reverse found))))
 (princ (json-serialize (vector (let ((told {form}))
                                  (if (stringp told) (substring-no-properties told) told))))))""",
    )
    assert told.returncode == 0, told.stderr
    return json.loads(told.stdout)[0]


def test_its_version_is_the_projects() -> None:
    assert re.findall(r"^;; Version: (.*)$", MODE.read_text("utf-8"), re.MULTILINE) == [VERSION]


def test_the_first_hint_comes_soon(running: Emacs) -> None:
    seconds = running.lisp("(- test-hint-at test-server-at)")
    print(f"\nEmacs {'.'.join(map(str, emacs_version()))}: {seconds:.2f} s to the first hint")
    assert seconds < 10  # one on a machine that does nothing else


def test_hints_stand_at_line_ends_and_follow_what_is_typed(emacs: Emacs) -> None:
    hints = emacs.wait_for("hints", f"(and (> (length (test-hints)) 2) {HINTS})")
    assert hints == [[line, time_told(SCRIPT, line)] for line in (11, 12, 14)]
    assert [hint[:2] for _, hint in hints] == [" 0", " +", " +"]
    more = " and walking and walking and walking and walking"
    go_to(emacs, "I am still walking")
    emacs.type(more)
    wait_for_hint(emacs, 14, time_told(SCRIPT.replace("walking.", f"walking{more}."), 14))


def test_findings_are_the_cores(emacs: Emacs) -> None:
    expected = sorted(
        [SCRIPT[each.finding.start : each.finding.end], each.finding.message]
        for each in analyse(SCRIPT).reported
    )
    assert len(expected) > 1
    emacs.wait_for("findings", f"(= (length (flymake-diagnostics)) {len(expected)})")
    for (words, told), (there, message) in zip(sorted(emacs.lisp(FOUND)), expected, strict=True):
        assert words == there
        assert told.startswith("saywright [")
        assert told.endswith(f"]: {message}")


def test_a_sentence_is_cut_and_undoing_gives_it_back(emacs: Emacs) -> None:
    go_to(emacs, "They weighed")
    emacs.lisp("(progn (undo-boundary) t)")
    do(emacs, "Cut this sentence")
    assert settled(emacs) == SCRIPT.replace(SENTENCE, f"~~{SENTENCE}~~")
    wait_for_hint(emacs, 12, time_told(SCRIPT.replace(SENTENCE, f"~~{SENTENCE}~~"), 12))
    emacs.lisp("(progn (undo-boundary) (undo) t)")
    assert settled(emacs) == SCRIPT


def test_a_name_is_changed_everywhere(emacs: Emacs) -> None:
    go_to(emacs, "speaker: In")
    emacs.lisp('(progn (goto-char (point-max)) (insert "\\nInes:\\nI sang.\\n") t)')
    settled(emacs)
    emacs.lisp('(progn (forward-line -2) (eglot-rename "Ada") t)')
    text = settled(emacs)
    assert "Ines" not in text
    assert text == (SCRIPT + "\nInes:\nI sang.\n").replace("Ines", "Ada")


def test_a_sentence_is_explained(emacs: Emacs) -> None:
    go_to(emacs, "They weighed")
    emacs.lisp("(progn (eldoc-print-current-symbol-info) t)")
    told = emacs.wait_for(
        "an explanation",
        '(with-current-buffer (eldoc-doc-buffer) (and (string-match-p "word" (buffer-string))'
        " (substring-no-properties (buffer-string))))",
    )
    assert "syllables" in told


def test_parts_are_listed(emacs: Emacs) -> None:
    listed = emacs.lisp(
        "(progn (require 'imenu) (vconcat (mapcar #'car (imenu--make-index-alist t))))"
    )
    assert [name.split()[0] for name in listed] == ["*Rescan*", "draft", "piece"]
    assert "what the wagon weighed" in listed[1]


def test_a_setting_is_completed(emacs: Emacs) -> None:
    emacs.lisp('(progn (goto-char (point-min)) (insert "mar\n") (backward-char) t)')
    settled(emacs)
    emacs.lisp("(progn (completion-at-point) t)")
    assert settled(emacs).startswith("margin")


def test_marks_are_tidied(emacs: Emacs) -> None:
    go_to(emacs, "I am still walking.")
    emacs.lisp('(progn (insert "  ( beat )") (eglot-format-buffer) t)')
    text = settled(emacs)
    assert "walking. (beat)\n" in text
    assert text == tidied(SCRIPT.replace("walking.", "walking.  ( beat )"))


def test_the_server_goes_with_emacs(tmp_path: Path) -> None:
    script = tmp_path / "a.say"
    script.write_text("I weigh the salt.\n", "utf-8")
    with Emacs(tmp_path, init()) as emacs:
        emacs.start(script)
        emacs.wait_for("the first hint", "test-hint-at")
        server = emacs.lisp(
            "(plist-get (jsonrpc-request (eglot-current-server) :saywright-test/text"
            " (list :uri (eglot-path-to-uri buffer-file-name))) :process)"
        )
        assert is_running(server)
        emacs.quit()
        assert gone(server)


def gone(process: int) -> bool:
    until = time.monotonic() + 10
    while time.monotonic() < until:
        if not is_running(process):
            return True
        time.sleep(0.05)
    return False
