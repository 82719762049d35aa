"""Tags the words of the recordings' texts by machine, for `fit_tense.py` to learn from as well.

    python -m tests.benchmarks.machine_tagged RECORDINGS MODEL OUT

RECORDINGS is the folder of `speech_data.py`, MODEL a spaCy model of English that is installed
(version 3.8 of the small one was used), OUT the file to write, `machine_tagged.jsonl`: a sentence
a line, with each word's offsets and Penn tag. The tag of a base form that is the root of its
sentence and has neither a subject nor a helping verb but "do" is VBI, an imperative. spaCy is no
dependency of the project: install it elsewhere.
"""

import importlib
import json
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

_TABLES = ("one_reader_clips.tsv", "many_speakers_150words.tsv")
_SUBJECTS = frozenset(("nsubj", "nsubjpass"))


def texts(folder: Path) -> Iterator[str]:
    for name in _TABLES:
        for line in (folder / name).read_text(encoding="utf-8").split("\n")[1:]:
            if line:
                yield line.split("\t")[0]


def tag_of(word: Any) -> str:
    if word.tag_ == "VB" and word.dep_ == "ROOT":
        children = list(word.children)
        has_subject = any(child.dep_ in _SUBJECTS for child in children)
        helpers = [child.lower_ for child in children if child.dep_ == "aux"]
        if not has_subject and all(helper == "do" for helper in helpers):
            return "VBI"
    return str(word.tag_)


def main() -> None:
    """Tag and write."""
    folder, model, out = sys.argv[1:4]
    read = importlib.import_module("spacy").load(model, exclude=["ner", "lemmatizer"])
    with Path(out).open("w", encoding="utf-8") as lines:
        for document in read.pipe(texts(Path(folder)), batch_size=256):
            for sentence in document.sents:
                start = sentence.start_char
                words = [
                    (word.idx - start, word.idx - start + len(word.text), tag_of(word))
                    for word in sentence
                    if not word.is_space
                ]
                lines.write(json.dumps({"text": sentence.text, "words": words}) + "\n")


if __name__ == "__main__":
    main()
