"""What can be done where the cursor is, as code actions.

Clients ask at every cursor move, some with each way that a menu can be opened. So what is
offered at a place is found once for a version of a document, and edits that cost time only when
the client resolves the action that was chosen, where it can.
"""

import logging
from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING, Any

from lsprotocol import types

from saywright.analysis import Analysis
from saywright.finding import Edit
from saywright.markup.tree import Range
from saywright.protocol.cutting import OF_BEST_PLAN, OF_PIECES, OF_PLANS
from saywright.protocol.documents import Document
from saywright.protocol.edits import workspace_edit
from saywright.protocol.finding_offers import OF_CHECKS, OF_FINDINGS, OF_MARKS, OF_SENTENCES
from saywright.protocol.finding_places import FindingPlaces
from saywright.protocol.offers import QUICK_FIX, Asked, Offer, Source, is_kind
from saywright.protocol.reports import diagnostic

if TYPE_CHECKING:
    from saywright.protocol.server import SaywrightServer

logger = logging.getLogger(__name__)

_LINE_END = 2**31 - 1  # the largest character the protocol knows: past any line's end

# in the order in which menus list them
SOURCES: tuple[Source, ...] = (
    *(OF_FINDINGS, OF_SENTENCES, OF_PLANS, OF_BEST_PLAN, OF_PIECES),
    *(OF_CHECKS, OF_MARKS),
)

Offers = dict[str, Offer]
"""What is offered, each under the name of its source and its number there."""


def register(server: "SaywrightServer") -> None:
    options = types.CodeActionOptions(code_action_kinds=_kinds(), resolve_provider=True)
    places = _Places()

    @server.feature(types.TEXT_DOCUMENT_CODE_ACTION, options)
    def _actions(params: types.CodeActionParams) -> list[types.CodeAction] | None:
        document = server.documents.get(params.text_document.uri)
        if document is None or not server.client.literal_actions:
            return None
        where = Range(*document.offsets(params.range))
        context = params.context
        only = [str(getattr(kind, "value", kind)) for kind in context.only or ()]
        moving = context.trigger_kind == types.CodeActionTriggerKind.Automatic
        offers = places.offers(document, where, only, moving=moving)
        if moving:
            offers = {name: offer for name, offer in offers.items() if _is_cheap(server, offer)}
        actions = (_action(server, document, where, *each) for each in offers.items())
        return [action for action in actions if action]

    @server.feature(types.CODE_ACTION_RESOLVE)
    def _resolve(action: types.CodeAction) -> types.CodeAction:
        chosen = _chosen(server, places, action)
        if chosen is None:
            logger.info("“%s” was for a text that has changed since", action.title)
            return action
        document, offer = chosen
        action.edit = workspace_edit(server, document, _edits(offer), offer.note)
        return action


def _is_cheap(server: "SaywrightServer", offer: Offer) -> bool:
    """Whether it is worth sending when only the cursor has moved: not what cannot be done, nor
    what would have to be found out first because the client cannot ask for it when it is wanted."""
    return not offer.disabled and (server.client.resolved_actions or not callable(offer.edits))


def _kinds() -> list[types.CodeActionKind | str]:
    """Every kind that is offered, for menus that are made of them."""
    return list(dict.fromkeys(kind for source in SOURCES for kind in source.kinds))


class _Places:
    """What is offered at the place that was asked for last, and where the findings are."""

    def __init__(self) -> None:
        self._analysis: Analysis | None = None
        self._findings = FindingPlaces(())
        self._where = Range(0, 0)
        self._asked: Asked | None = None
        self._of_sources: dict[str, tuple[Offer, ...]] = {}

    def offers(
        self, document: Document, where: Range, only: Sequence[str], *, moving: bool
    ) -> Offers:
        """Those of the kinds that are asked for, in the order of the sources; all that are
        offered unbidden if none is."""
        self._go_to(document.analysis, where)
        named: list[tuple[str, Offer]] = []
        unlike = "asked" if moving else "moving"
        for source in SOURCES:
            if _is_due(source, only) and source.when != unlike:
                offers = self._of_source(document, source)
                named += ((f"{source.name}:{number}", o) for number, o in enumerate(offers))
        asked_for = only or ("",)
        return dict(
            _distinct(
                (name, offer)
                for name, offer in named
                if any(is_kind(offer.kind, kind) for kind in asked_for)
            )
        )

    def named(self, document: Document, where: Range, name: str) -> Offer | None:
        self._go_to(document.analysis, where)
        source_name, _, number = name.partition(":")
        for source in SOURCES:
            if source.name == source_name and number.isascii() and number.isdigit():
                offers = self._of_source(document, source)
                return offers[int(number)] if int(number) < len(offers) else None
        return None

    def _go_to(self, analysis: Analysis, where: Range) -> None:
        if analysis is not self._analysis:
            self._findings = FindingPlaces(analysis.reported)
        elif where == self._where:
            return
        self._analysis, self._where = analysis, where
        self._asked, self._of_sources = None, {}

    def _of_source(self, document: Document, source: Source) -> tuple[Offer, ...]:
        known = self._of_sources.get(source.name)
        if known is None:
            known = tuple(source.offers(self._now_asked(document)))
            self._of_sources[source.name] = known
        return known

    def _now_asked(self, document: Document) -> Asked:
        if self._asked is None:
            assert self._analysis
            lines = _lines(document, self._where)
            findings = tuple(self._findings.at(self._where, lines))
            self._asked = Asked(self._analysis, self._where, lines, findings)
        return self._asked


def _lines(document: Document, where: Range) -> Range:
    first = last = document.position(where.start).line
    if where.end != where.start:
        last = document.position(where.end).line
    ends = types.Range(types.Position(first, 0), types.Position(last, _LINE_END))
    return Range(*document.offsets(ends))


def _is_due(source: Source, only: Sequence[str]) -> bool:
    if not only:
        return source.unbidden
    return any(is_kind(kind, asked) for kind in source.kinds for asked in only)


def _distinct(offers: Iterator[tuple[str, Offer]]) -> Iterator[tuple[str, Offer]]:
    """Each once: what a finding offers already is no rewrite besides, and what is offered for two
    findings on a line is one offer."""
    seen: dict[str, list[Offer]] = {}
    for name, offer in offers:
        same = seen.setdefault(offer.title, [])
        if not any(offer.kind != QUICK_FIX or each.edits == offer.edits for each in same):
            yield name, offer
        same.append(offer)


def _action(
    server: "SaywrightServer", document: Document, where: Range, name: str, offer: Offer
) -> types.CodeAction | None:
    """The action, with its edit unless the client is to resolve that. None for one that this
    client cannot be offered, or that would change nothing."""
    client = server.client
    if offer.disabled and not client.disabled_actions:
        return None
    action = types.CodeAction(
        title=offer.title,
        kind=offer.kind,
        diagnostics=[diagnostic(server, document, offer.answers)] if offer.answers else None,
        is_preferred=(offer.preferred and client.preferred_actions) or None,
    )
    if offer.disabled:
        action.disabled = types.CodeActionDisabled(offer.disabled)
    elif callable(offer.edits) and client.resolved_actions:
        action.data = {
            "uri": document.uri,
            "version": document.version,
            "start": where.start,
            "end": where.end,
            "offer": name,
        }
    else:
        edits = _edits(offer)
        if not edits:
            return None
        action.edit = workspace_edit(server, document, edits, offer.note)
    return action


def _edits(offer: Offer) -> Sequence[Edit]:
    return offer.edits() if callable(offer.edits) else offer.edits


def _chosen(
    server: "SaywrightServer", places: _Places, action: types.CodeAction
) -> tuple[Document, Offer] | None:
    """What the action stands for; None where the text is another by now."""
    data: Any = action.data if isinstance(action.data, dict) else {}
    match data:
        case {"uri": str(uri), "version": int(version), "offer": str(name), **rest}:
            document = server.documents.get(uri)
            where = rest.get("start"), rest.get("end")
            match where:
                case (int(start), int(end)) if document and document.version == version:
                    offer = places.named(document, Range(start, end), name)
                    if offer and offer.title == action.title and not offer.disabled:
                        return document, offer
    return None
