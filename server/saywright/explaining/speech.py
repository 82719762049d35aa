"""What is told of a sentence and of a word in it: its time, and how it is said."""

from collections.abc import Iterator
from dataclasses import replace

from saywright.explaining.explained import Explained, counted, told_length
from saywright.explaining.marks import marked_silences
from saywright.language.english.tag import is_english
from saywright.markup.tree import Paragraph, Range
from saywright.speech.model import word_sounds
from saywright.speech.own_words import own_words, told_of
from saywright.speech.paragraph_words import Word, spoken_in
from saywright.speech.said_sentence import spelled_out
from saywright.speech.slot import clock
from saywright.speech.spoken import spoken_words
from saywright.speech.stretch import Stretch
from saywright.speech.timeline import Placed, Timeline
from saywright.speech.timing import Sentence, time_paragraph
from saywright.speech.voice import Voice

# a shorter sentence has no pace to speak of
_FEWEST_WORDS = 3
_MOST_SPELLED_OUT = 5
_NEARLY = 0.05


def about_speech(timeline: Timeline, placed: Placed, offset: int, voice: Voice) -> Explained | None:
    """Of the word at a paragraph's `offset` and its sentence, or of the sentence alone."""
    sentences = placed.timed.sentences
    index = next((i for i, each in enumerate(sentences) if offset < each.end), None)
    if index is None or offset < sentences[index].start:
        return None
    sentence, paragraph = sentences[index], placed.timed.paragraph
    lines = list(_about_sentence(timeline, placed, index, voice))
    word = _word_at(paragraph, sentence, offset, voice)
    spelled = list(_spelled_out(sentence, voice))
    if word is None:
        lines += spelled[:_MOST_SPELLED_OUT]
        return Explained(sentence.start, sentence.end, lines[0], tuple(lines[1:]))
    where = paragraph.source_range(word.start, word.end)
    return Explained(*where, _about_word(paragraph, sentence, word, voice), tuple(lines))


def _word_at(paragraph: Paragraph, sentence: Sentence, offset: int, voice: Voice) -> Word | None:
    at = paragraph.plain_of(offset)
    if paragraph.source_of(at) != offset:
        return None
    words = spoken_in(paragraph, [sentence.plain], voice)
    return next((word for word in words if word.start <= at < word.end), None)


def _about_word(paragraph: Paragraph, sentence: Sentence, word: Word, voice: Voice) -> str:
    written = paragraph.plain[word.start : word.end]
    syllables = counted(word.syllables, "syllable")
    told = told_of(written, own_words(voice.words)) if voice.words else None
    if told is not None:
        sound = f" is said “{told}”" if isinstance(told, str) else ""
        return f"“{written}”{sound}: {syllables}, by saywright.toml"
    said = _said(paragraph, sentence, word, voice)
    words = " ".join(said)
    sound = f" is said “{words}”" if words.casefold() != written.casefold() else ""
    return f"“{written}”{sound}: {syllables}{_stress(paragraph, word, said, voice)}"


def _said(paragraph: Paragraph, sentence: Sentence, word: Word, voice: Voice) -> tuple[str, ...]:
    """The words that are said for a written one, which is looked at in its sentence."""
    start, end = sentence.plain
    spoken = spoken_words(paragraph.plain[start:end], voice.language)
    return next((each.said for each in spoken if start + each.start == word.start), ())


def _stress(paragraph: Paragraph, word: Word, said: tuple[str, ...], voice: Voice) -> str:
    """What is out of the usual: words have one stress, small words in English none."""
    if any(stress.start <= word.start < stress.end for stress in paragraph.stresses):
        return ", leaned on"
    is_small = is_english(voice.language) and said and not word_sounds(said).stressed
    return ", with no stress of its own" if is_small else ""


def _about_sentence(timeline: Timeline, placed: Placed, index: int, voice: Voice) -> Iterator[str]:
    sentence = placed.timed.sentences[index]
    length = told_length(sentence.speech_seconds)
    if sentence.cut:
        yield f"Cut: not spoken. It would take {length}."
    elif not sentence.words:
        yield "Nothing in it is spoken."
        return
    else:
        start = _first_second(placed, index)
        end = start + sentence.speech_seconds
        yield f"The sentence takes {length}, from {clock(start)} to {clock(end)}."
    yield _counts(sentence)
    if not sentence.cut:
        yield from _about_silences(timeline, placed, index, voice)
    if sentence.kept:
        yield "Kept: no cut may touch it."


def _spelled_out(sentence: Sentence, voice: Voice) -> Iterator[str]:
    for start, end, said in spelled_out(sentence.text, voice.language):
        yield f"“{sentence.text[start:end]}” is said “{said}”."


def _first_second(placed: Placed, index: int) -> float:
    """When its first sound comes."""
    before = (each for each in placed.timed.sentences[:index] if not each.cut)
    return placed.first_seconds + sum(each.speech_seconds + each.pause_seconds for each in before)


def _counts(sentence: Sentence) -> str:
    counts = f"{counted(sentence.words, 'word')}, {counted(sentence.syllables, 'syllable')}"
    if sentence.words < _FEWEST_WORDS or not sentence.speech_seconds:
        return f"{counts}."
    pace = sentence.syllables / sentence.speech_seconds
    return f"{counts}, {pace:.1f} syllables a second."


def _about_silences(timeline: Timeline, placed: Placed, index: int, voice: Voice) -> Iterator[str]:
    """Its marked silences, and what they add to the pauses that its punctuation makes."""
    paragraph = placed.timed.paragraph
    own = _own_range(placed, index)
    silences = [
        each.seconds
        for each in marked_silences(paragraph, voice)
        if own.start <= each.start < own.end
    ]
    if not silences:
        return
    added = _added_seconds(timeline, placed, index, voice)
    last = "The silence marked in it lasts" if len(silences) == 1 else "Its marked silences last"
    told = f"{last} {told_length(sum(silences))}"
    if sum(silences) - added > _NEARLY:
        told += f", {told_length(added)} more than it would pause without"
    yield f"{told}."


def _spoken_sentences(placed: Placed) -> list[int]:
    sentences = placed.timed.sentences
    return [index for index, each in enumerate(sentences) if not each.cut and each.words]


def _own_range(placed: Placed, index: int) -> Range:
    """The source in which a silence belongs to the sentence: up to the next that is spoken, and
    for the first from the paragraph's start."""
    sentences, spoken = placed.timed.sentences, _spoken_sentences(placed)
    place = spoken.index(index)
    start = sentences[index].start if place else 0
    following = spoken[place + 1 : place + 2]
    end = sentences[following[0]].start if following else len(placed.timed.paragraph.text)
    return Range(start, end)


def _added_seconds(timeline: Timeline, placed: Placed, index: int, voice: Voice) -> float:
    """How much less time the sentence would take, pauses and all, without marked silences."""
    timed = placed.timed
    plain = time_paragraph(_without_silences(timed.paragraph), voice)
    one, other = timed.sentences[index], plain.sentences[index]
    added = one.speech_seconds + one.pause_seconds - other.speech_seconds - other.pause_seconds
    before, own, rest = _stretches(timeline, placed)
    if index == _spoken_sentences(placed)[0]:
        added += (before + own).seconds - (before + replace(own, lead_seconds=0.0)).seconds
    if index == timed.last:
        added += (own + rest).seconds - (replace(own, tail_seconds=0.0) + rest).seconds
    return added


def _stretches(timeline: Timeline, placed: Placed) -> tuple[Stretch, Stretch, Stretch]:
    """The part before the paragraph, the paragraph, and the part after it."""
    local, part = placed.start - timeline.part.start, timeline.part
    found = timeline.blocks.find(lambda sum: sum.length > local, part.first_block)
    assert found
    rest = timeline.blocks.sum_between(found.index + 1, part.end_block)
    return found.before.stretch, found.item.stretch, rest.stretch


def _without_silences(paragraph: Paragraph) -> Paragraph:
    directions = tuple(each._replace(silence=None) for each in paragraph.directions)
    return replace(paragraph, directions=directions, breaths=())
