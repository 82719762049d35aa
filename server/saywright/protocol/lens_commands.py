"""What the lenses above a part do: they ask the writer which plan, or which piece, and have the
editor make the edits."""

from typing import TYPE_CHECKING

from lsprotocol import types
from pygls.exceptions import JsonRpcException

from saywright.checks.check import View
from saywright.drafting.gathering import gather, title
from saywright.markup.tree import Part
from saywright.protocol.commands import add_command, document_named, make_edits
from saywright.protocol.cutting import is_overlong, plan_note, plan_title, titled_plans
from saywright.protocol.documents import Document
from saywright.protocol.messages import Outdated, Refusal

if TYPE_CHECKING:
    from saywright.protocol.server import SaywrightServer

PLAN = "saywright.planCut"
GATHER = "saywright.gatherKeptLines"


def register(server: "SaywrightServer") -> None:
    """Both commands take a document's address and the number of a part among those that are
    spoken, as the lens told it."""

    async def _plan(uri: object, number: object) -> None:
        document = document_named(server, uri)
        await _plan_cut(server, document, _view(document, number, "piece"))

    async def _gather(uri: object, number: object) -> None:
        document = document_named(server, uri)
        await _gather_lines(server, document, _view(document, number, "draft").timeline.part)

    add_command(server, PLAN, _plan)
    add_command(server, GATHER, _gather)


def _view(document: Document, number: object, kind: str) -> View:
    views = document.analysis.views
    if isinstance(number, int) and 0 <= number < len(views):
        view = views[number]
        if view.timeline.part.kind == kind:
            return view
    raise Outdated


async def _plan_cut(server: "SaywrightServer", document: Document, view: View) -> None:
    if not is_overlong(view):
        raise Refusal("It fits its slot. There is nothing to cut.")
    analysis = document.analysis
    plans = titled_plans(analysis, view)
    if not plans:
        raise Refusal("No line of it can be cut.")
    titled = {name.removeprefix(f"{plan_title(view)}: "): (name, each) for name, each in plans}
    told = f"{plan_title(view)}: which plan? What it cuts is marked with ~~ and stays in the file."
    instead = "The plans are among the code actions where the piece stands."
    chosen = await _chosen(server, told, list(titled), instead)
    if chosen in titled:
        name, each = titled[chosen]
        note = plan_note(analysis, view, each)
        await make_edits(server, document, name, each.edits, note)


async def _gather_lines(server: "SaywrightServer", document: Document, draft: Part) -> None:
    analysis = document.analysis
    pieces: list[Part | None] = [part for part in analysis.parts if part.kind == "piece"]
    found = [gather(analysis, piece, draft=draft) for piece in pieces or [None]]
    gathered = {title(analysis, len(each.lines), each.part): each for each in found if each}
    if not gathered:
        raise Refusal("Every kept line is in the piece already.")
    chosen = next(iter(gathered))
    if len(gathered) > 1:
        told = "Into which piece are the kept lines brought?"
        instead = "They can be gathered by the code actions where the piece stands."
        chosen = await _chosen(server, told, list(gathered), instead)
    if chosen in gathered:
        await make_edits(server, document, chosen, gathered[chosen].fix.edits)


async def _chosen(server: "SaywrightServer", told: str, titles: list[str], instead: str) -> str:
    """The title that the writer chooses, "" if none. Refused, with what to do instead, where the
    editor cannot ask."""
    if not server.client.asks:
        raise Refusal(f"This editor cannot ask which one. {instead}")
    actions = [types.MessageActionItem(title) for title in titles]
    asked = types.ShowMessageRequestParams(types.MessageType.Info, told, actions)
    try:
        answer = await server.window_show_message_request_async(asked)
    except JsonRpcException as error:
        raise Refusal(f"This editor cannot ask which one. {instead}") from error
    return answer.title if answer else ""
