"""The server's text is the editor's, edit for edit, in every encoding."""

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from lsprotocol import types

from saywright.analysis import analyse
from saywright.positions import Encoding, Places, Position
from saywright.protocol.documents import Documents
from tests.strategies import scripts

TEXTS = st.one_of(
    scripts, st.text(st.sampled_from("ab \n\r\u2028\u2029\u0085\x0b\x0c\x1cé😀\ud83d"), max_size=40)
)


def units(text: str, encoding: Encoding) -> int:
    codec = {"utf-8": "utf-8", "utf-16": "utf-16-le", "utf-32": "utf-32-le"}[encoding]
    width = {"utf-8": 1, "utf-16": 2, "utf-32": 4}[encoding]
    return len(text.encode(codec, "surrogatepass")) // width


def position_by_the_book(text: str, offset: int, encoding: Encoding) -> Position:
    """Counted as the protocol says it, character by character."""
    line = start = at = 0
    while at < offset:
        width = 2 if text.startswith("\r\n", at) else 1
        if text[at] in "\r\n":
            if at + width > offset:
                break  # between CR and LF: the line's end
            line, start = line + 1, at + width
        at += width
    return Position(line, units(text[start : min(at, offset)], encoding))


@given(TEXTS, st.sampled_from(Encoding), st.data())
def test_positions_are_the_protocols(text: str, encoding: Encoding, data: st.DataObject) -> None:
    places = Places(analyse(text).blocks, encoding)
    offset = data.draw(st.integers(0, len(text)))
    position = places.position_from_offset(offset)
    assert position == position_by_the_book(text, offset, encoding)
    if text[max(offset - 1, 0) : offset + 1] != "\r\n":
        assert places.offset_from_position(position) == offset


@given(TEXTS, st.sampled_from(Encoding), st.integers(0, 9), st.integers(0, 99))
def test_a_position_outside_its_line_is_the_nearest_before(
    text: str, encoding: Encoding, line: int, character: int
) -> None:
    places = Places(analyse(text).blocks, encoding)
    offset = places.offset_from_position(Position(line, character))
    found = places.position_from_offset(offset)
    assert 0 <= offset <= len(text)
    assert found <= Position(line, character)
    if found.line == line and offset < len(text) and text[offset] not in "\r\n":
        assert places.position_from_offset(offset + 1) > Position(line, character)


@given(
    TEXTS,
    st.sampled_from(Encoding),
    st.lists(st.tuples(st.floats(0, 1), st.integers(0, 4), TEXTS), max_size=5),
)
def test_changes_are_made_as_the_client_made_them(
    text: str, encoding: Encoding, changes: list[tuple[float, int, str]]
) -> None:
    documents = Documents()
    documents.encoding = encoding
    documents.open(types.TextDocumentItem("untitled:1", "say", 1, text))
    events: list[Any] = []
    for where, length, insert in changes:
        start = round(where * len(text))
        end = min(start + length, len(text))
        if "\r\n" in (text[max(start - 1, 0) : start + 1], text[max(end - 1, 0) : end + 1]):
            continue  # no client can name the place between CR and LF
        edges = (types.Position(*position_by_the_book(text, at, encoding)) for at in (start, end))
        events.append(types.TextDocumentContentChangePartial(types.Range(*edges), insert))
        text = text[:start] + insert + text[end:]
    identifier = types.VersionedTextDocumentIdentifier(2, "untitled:1")
    document = documents.change(types.DidChangeTextDocumentParams(identifier, events))
    assert document
    assert document.text == text


@pytest.mark.parametrize("encoding", Encoding)
def test_the_end_of_a_last_line_without_its_end(encoding: Encoding) -> None:
    places = Places(analyse("ab\ncé😀").blocks, encoding)
    end = Position(1, units("cé😀", encoding))
    assert places.offset_from_position(end) == 6
    assert places.offset_from_position(Position(1, 99)) == 6
    assert places.position_from_offset(6) == end
