"""From what the cursor is on to where it comes from, and to everywhere that it stands."""

from pathlib import Path
from typing import TYPE_CHECKING

from lsprotocol import types
from pygls.uris import to_fs_path

from saywright.files import NotTextError, UnreadableFileError, nearest_project, read_script
from saywright.markup.tree import Range
from saywright.navigating.at_place import linked_at
from saywright.navigating.linked import Linked
from saywright.navigating.project_file import reader_in
from saywright.positions import Lines
from saywright.protocol.documents import Document

if TYPE_CHECKING:
    from saywright.protocol.server import SaywrightServer


def register(server: "SaywrightServer") -> None:
    @server.feature(types.TEXT_DOCUMENT_DEFINITION)
    def _definition(
        params: types.DefinitionParams,
    ) -> list[types.Location] | list[types.LocationLink] | None:
        document = server.documents.get(params.text_document.uri)
        found = _linked(document, params.position) if document else None
        if document is None or found is None:
            return None
        links = _links(document, found)
        if server.client.linked_definitions:
            return links or None
        return [
            types.Location(link.target_uri, link.target_selection_range) for link in links
        ] or None

    @server.feature(types.TEXT_DOCUMENT_REFERENCES)
    def _references(params: types.ReferenceParams) -> list[types.Location] | None:
        document = server.documents.get(params.text_document.uri)
        found = _linked(document, params.position) if document else None
        if document is None or found is None:
            return None
        with_home = params.context.include_declaration
        locations = [
            types.Location(document.uri, document.range(*place))
            for place in found.everywhere
            if with_home or place not in found.home
        ]
        if with_home and found.reader and (file := _in_project_file(document, found.reader)):
            locations.insert(0, types.Location(*file))
        return locations or None


def _linked(document: Document, position: types.Position) -> Linked | None:
    offset, _ = document.offsets(types.Range(position, position))
    return linked_at(document.analysis, offset)


def _links(document: Document, found: Linked) -> list[types.LocationLink]:
    pointed = document.range(*found.pointed)
    if found.reader and (file := _in_project_file(document, found.reader)):
        uri, where = file
        return [types.LocationLink(uri, where, where, pointed)]
    return [
        types.LocationLink(
            document.uri,
            document.range(*_around(target.whole, target.place)),
            document.range(*target.place),
            pointed,
        )
        for target in found.targets
    ]


def _in_project_file(document: Document, reader: str) -> tuple[str, types.Range] | None:
    """Where a reader stands in the nearest project file: its address, and the place in it."""
    path = to_fs_path(document.uri) if document.uri.startswith("file:") else None
    file = nearest_project(Path(path))[1] if path else None
    if file is None:
        return None
    try:
        text = read_script(file)
    except (UnreadableFileError, NotTextError):
        return None
    lines = Lines(text)
    ends = (
        types.Position(*lines.position_from_offset(offset, document.encoding))
        for offset in reader_in(text, reader)
    )
    return file.as_uri(), types.Range(*ends)


def _around(whole: Range, place: Range) -> Range:
    """The protocol wants the whole to hold the place."""
    return Range(min(whole.start, place.start), max(whole.end, place.end))
