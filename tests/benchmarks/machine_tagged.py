"""Tags the words of texts by machine, for `fit_tense.py` to learn from as well.

    python -m tests.benchmarks.machine_tagged FOLDER MODEL OUT

FOLDER is that of `speech_data.py`, or has the files of WordNet (`data.verb` and so on, in Debian's
wordnet-base), of which the examples that have a finite verb are taken. MODEL is a spaCy model of
English that is installed (version 3.8 of the small one was used), OUT the file to write,
`machine_tagged.jsonl` or another name that begins so: a sentence a line, with each word's offsets
and Penn tag. The tag of a base form that is the root of its
sentence and has neither a subject nor a helping verb but "do" is VBI, an imperative. spaCy is no
dependency of the project: install it elsewhere.
"""

import importlib
import json
import re
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

_TABLES = ("one_reader_clips.tsv", "many_speakers_150words.tsv")
_DICTIONARY = ("data.verb", "data.adj", "data.adv", "data.noun")
_EXAMPLE = re.compile(r'"\s*([^"]*[^";\s])[;\s]*"')
_LEAST_WORDS = 3
_FINITE = frozenset(("VBD", "VBP", "VBZ", "MD"))
_SUBJECTS = frozenset(("nsubj", "nsubjpass"))


def texts(folder: Path) -> Iterator[str]:
    for name in _TABLES:
        for line in (folder / name).read_text(encoding="utf-8").split("\n")[1:]:
            if line:
                yield line.split("\t")[0]


def examples(folder: Path) -> Iterator[str]:
    """A dictionary's examples as sentences, each once."""
    seen = set()
    for name in _DICTIONARY:
        for line in (folder / name).read_text(encoding="utf-8").splitlines():
            for example in _EXAMPLE.findall(line.partition(" | ")[2]):
                if example not in seen and len(example.split()) >= _LEAST_WORDS:
                    seen.add(example)
                    end = "" if example[-1] in ".!?" else "."
                    yield example[0].upper() + example[1:] + end


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
    folder = Path(sys.argv[1])
    model, out = sys.argv[2:4]
    is_dictionary = (folder / _DICTIONARY[0]).is_file()
    read = importlib.import_module("spacy").load(model, exclude=["ner", "lemmatizer"])
    with Path(out).open("w", encoding="utf-8") as lines:
        for document in read.pipe(
            examples(folder) if is_dictionary else texts(folder), batch_size=256
        ):
            for sentence in document.sents:
                start = sentence.start_char
                words = [
                    (word.idx - start, word.idx - start + len(word.text), tag_of(word))
                    for word in sentence
                    if not word.is_space
                ]
                if is_dictionary and not any(tag in _FINITE for *_, tag in words):
                    continue
                lines.write(json.dumps({"text": sentence.text, "words": words}) + "\n")


if __name__ == "__main__":
    main()
