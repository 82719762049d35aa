"""What is offered at a place: to whom, in which form, and that it costs no look at everything."""

from collections.abc import Iterator
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from saywright.analysis import analyse
from saywright.finding import Edit, Finding, applied
from saywright.markup.reader import read
from saywright.markup.tree import Paragraph, Range
from saywright.protocol import code_actions
from saywright.protocol.finding_offers import OF_CHECKS, OF_FINDINGS, OF_MARKS, OF_SENTENCES
from saywright.protocol.finding_places import FindingPlaces
from saywright.protocol.offers import Asked, Note, Offer, Source, is_kind
from saywright.reporting import Reported
from tests.clients.direct import DirectClient
from tests.clients.plain import ACTIONS
from tests.strategies import scripts, texts

URI = "file:///folder/a.say"
SCRIPT = "slot: 4s\n\nI weigh the salt. I never cheat.\n__She weighs the salt again.__ I go home.\n"
RESOLVING: dict[str, Any] = {
    **ACTIONS,
    "dataSupport": True,
    "resolveSupport": {"properties": ["edit"]},
}


@pytest.fixture(autouse=True)
def _without_what_pieces_offer(monkeypatch: pytest.MonkeyPatch) -> None:
    sources = (OF_FINDINGS, OF_SENTENCES, OF_CHECKS, OF_MARKS)
    monkeypatch.setattr(code_actions, "SOURCES", sources)


@pytest.fixture
def client() -> Iterator[DirectClient]:
    with DirectClient() as client:
        yield client


def begin(client: DirectClient, text: str = SCRIPT, **actions: Any) -> None:
    edits = {"documentChanges": True, "changeAnnotationSupport": {}}
    capabilities = {"codeAction": {**ACTIONS, **actions}}
    client.initialize({"textDocument": capabilities, "workspace": {"workspaceEdit": edits}})
    client.open(URI, text)


def titles(actions: list[dict[str, Any]]) -> list[str]:
    return [action["title"] for action in actions]


@pytest.fixture
def counting(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """A source whose edits are found only when they are needed. What it was asked for."""
    asked: list[str] = []

    def edits() -> list[Edit]:
        asked.append("edits")
        return [Edit(0, 0, "# ")]

    def offers(_: Asked) -> Iterator[Offer]:
        asked.append("offers")
        note = Note("A note", "at the top", needs_confirmation=True)
        yield Offer("Put a note on top", "refactor.rewrite.note", edits, note=note)
        yield Offer("Do what does nothing", "refactor.rewrite.note", list)

    source = Source("counting", ("refactor.rewrite.note",), offers)
    monkeypatch.setattr(code_actions, "SOURCES", (*code_actions.SOURCES, source))
    return asked


@pytest.mark.parametrize(
    ("only", "kinds"),
    [
        (["refactor"], {"refactor.rewrite", "refactor.rewrite.note"}),
        (["refactor.rewrite.note"], {"refactor.rewrite.note"}),
        (["refactor.rewr"], set()),
        (["quickfix", "refactor.rewrite.note"], {"quickfix", "refactor.rewrite.note"}),
        ([""], {"quickfix", "refactor.rewrite", "refactor.rewrite.note"}),
        ([], {"quickfix", "refactor.rewrite", "refactor.rewrite.note"}),
    ],
)
@pytest.mark.usefixtures("counting")
def test_kinds_hold_those_below_them(
    client: DirectClient, only: list[str], kinds: set[str]
) -> None:
    begin(client, "slot: 2s\n\nI weigh the salt. I never cheat.\nThe scale is true.\n")
    places = [client.actions(URI, 2, 3, only=only), client.actions(URI, 2, 22, only=only)]
    # the rewrites of the sentence that is over time are the finding's own fixes
    assert {action["kind"] for actions in places for action in actions} == kinds


def test_kinds_are_told_at_the_start(client: DirectClient) -> None:
    told = client.initialize()["capabilities"]["codeActionProvider"]
    assert {"quickfix", "refactor.rewrite", "source.fixAll.saywright"} <= set(
        told["codeActionKinds"]
    )
    assert told["resolveProvider"]


def test_an_edit_waits_for_a_client_that_asks_for_it(
    client: DirectClient, counting: list[str]
) -> None:
    begin(client, **RESOLVING)
    action = client.actions(URI, 2, 3, only=["refactor.rewrite.note"])[0]
    assert "edit" not in action
    assert counting == ["offers"]
    client.actions(URI, 2, 3)
    assert counting == ["offers"], "a place is looked at once for a version"
    edit = client.result("codeAction/resolve", action)["edit"]
    [change] = edit["documentChanges"]
    assert change["textDocument"] == {"uri": URI, "version": 1}
    assert change["edits"][0]["newText"] == "# "
    client.actions(URI, 3, 40)  # the cursor is elsewhere by now, the text as it was
    assert client.result("codeAction/resolve", action)["edit"] == edit


def test_an_edit_comes_at_once_to_a_client_that_cannot_ask_for_it(
    client: DirectClient, counting: list[str]
) -> None:
    begin(client)
    [action] = client.actions(URI, 2, 3, only=["refactor.rewrite.note"])
    assert action["title"] == "Put a note on top"
    assert action["edit"]["documentChanges"]
    assert "data" not in action
    assert counting == ["offers", "edits"]
    assert client.actions(URI, 2, 3, only=["refactor.rewrite.note"], triggerKind=2) == []
    assert counting == ["offers", "edits"], "not whenever the cursor moves"


@pytest.mark.usefixtures("counting")
def test_what_was_for_another_text_resolves_to_no_edit(client: DirectClient) -> None:
    begin(client, **RESOLVING)
    action = client.actions(URI, 2, 3, only=["refactor.rewrite.note"])[0]
    other = {**action, "title": "Do what does nothing"}  # as from a server of another version
    assert client.result("codeAction/resolve", other) == other
    client.change(URI, 2, {"text": "I go.\n"})
    assert client.result("codeAction/resolve", action) == action
    broken: list[Any] = [None, 5, [], {}, {**action["data"], "start": "a"}, {"version": 2}]
    for data in broken:
        assert "edit" not in client.result("codeAction/resolve", {"title": "a", "data": data})
    for offer in ("counting:7", "counting:", "none:0", "counting:²", "finding"):
        wrong = {**action["data"], "version": 2, "offer": offer}
        assert "edit" not in client.result("codeAction/resolve", {**action, "data": wrong})
    assert client.notices == [] or {each["method"] for each in client.notices} == {
        "textDocument/publishDiagnostics"
    }


def test_data_is_plain_and_has_no_key_that_a_message_has(
    client: DirectClient, counting: list[str]
) -> None:
    begin(client, **RESOLVING)
    data = client.actions(URI, 2, 3, only=["refactor.rewrite.note"])[0]["data"]
    assert counting
    assert all(isinstance(value, str | int) for value in data.values())
    assert not {"jsonrpc", "id", "method"} & set(data)


@pytest.mark.usefixtures("counting")
def test_a_note_goes_only_to_who_shows_notes(client: DirectClient) -> None:
    begin(client)
    edit = client.actions(URI, 2, 3, only=["refactor.rewrite.note"])[0]["edit"]
    assert edit["changeAnnotations"] == {
        "note": {"label": "A note", "needsConfirmation": True, "description": "at the top"}
    }
    assert edit["documentChanges"][0]["edits"][0]["annotationId"] == "note"
    able: list[dict[str, Any]] = [{}, {"changeAnnotationSupport": {}}, {"documentChanges": True}]
    for workspace in able:
        with DirectClient() as other:
            capabilities = {"textDocument": {"codeAction": ACTIONS}}
            other.initialize({**capabilities, "workspace": {"workspaceEdit": workspace}})
            other.open(URI, SCRIPT)
            edit = other.actions(URI, 2, 3, only=["refactor.rewrite.note"])[0]["edit"]
            assert "changeAnnotations" not in edit
            assert "annotationId" not in str(edit)


FILLERS = "\n\n".join(f"I was, like, cold on day {day}." for day in ("one", "two", "three")) + "\n"


def test_what_changes_places_out_of_sight_is_to_be_confirmed(client: DirectClient) -> None:
    begin(client, FILLERS)
    actions = client.actions(URI, 2, 8, only=["quickfix"])
    [all_at_once] = [each for each in actions if each["title"].startswith("Drop all 3")]
    assert all_at_once["edit"]["changeAnnotations"]["note"]["needsConfirmation"]
    [one] = [each for each in actions if each["title"] == "Drop “like”"]
    assert "changeAnnotations" not in one["edit"]


def test_what_is_kept_says_why_it_is_not_cut(client: DirectClient) -> None:
    begin(client, disabledSupport=True)
    actions = client.actions(URI, 3, 5, only=["refactor"])
    reasons = {each["title"]: each["disabled"]["reason"] for each in actions if "disabled" in each}
    reason = "The line is kept: release it first."
    assert reasons == {"Cut this sentence": reason, "Delete this sentence for good": reason}
    assert all("edit" not in each for each in actions if "disabled" in each)
    asked = client.actions(URI, 3, 5, only=["refactor"], triggerKind=1)
    assert len(asked) == len(actions)
    moved = client.actions(URI, 3, 5, only=["refactor"], triggerKind=2)
    assert titles(moved) == ["Keep this no longer"]
    with DirectClient() as other:
        begin(other)
        assert titles(other.actions(URI, 3, 5, only=["refactor"])) == ["Keep this no longer"]


def test_the_one_right_form_is_preferred(client: DirectClient) -> None:
    begin(client, "slto: 60s\ntitle: a\n\nI was, like, cold.\n", isPreferredSupport=True)
    preferred = [each for each in client.actions(URI, 0, 2) if each.get("isPreferred")]
    assert len(preferred) == 1
    assert preferred[0]["diagnostics"][0]["code"] == "setting"
    assert not any("isPreferred" in each for each in client.actions(URI, 3, 8))
    with DirectClient() as other:
        begin(other, "slto: 60s\ntitle: a\n\nI go.\n")
        assert not any("isPreferred" in each for each in other.actions(URI, 0, 2))


def test_a_client_that_knows_no_literal_actions_gets_none(client: DirectClient) -> None:
    client.initialize({"textDocument": {"codeAction": {}}})
    client.open(URI, SCRIPT)
    assert client.actions(URI, 2, 3) is None


def test_the_file_is_tidied_for_who_asks_for_all_fixes(client: DirectClient) -> None:
    begin(client, "-----  piece\nI  go.\n")
    for only in (["source.fixAll"], ["source.fixAll.saywright"], ["source"]):
        [action] = client.actions(URI, 1, 0, only=only)
        assert action["kind"] == "source.fixAll.saywright"
        [change] = action["edit"]["documentChanges"]
        assert [edit["newText"] for edit in change["edits"]] == ["---- piece\n", "I go.\n"]
    assert client.actions(URI, 1, 0, only=["source.fixAll.others"]) == []
    assert "source.fixAll.saywright" not in {each["kind"] for each in client.actions(URI, 1, 0)}
    client.change(URI, 2, {"text": "---- piece\nI go.\n"})
    assert client.actions(URI, 1, 0, only=["source.fixAll"]) == []


def asked_everywhere(text: str) -> Asked:
    analysis = analyse(text)
    everywhere = Range(0, len(text))
    return Asked(analysis, everywhere, everywhere, analysis.reported)


@given(texts)
def test_all_fixes_change_no_spoken_word(text: str) -> None:
    for offer in OF_MARKS.offers(asked_everywhere(text)):
        assert not callable(offer.edits)
        tidied = applied(text, offer.edits)
        assert tidied != text
        assert _spoken(tidied) == _spoken(text)


def _spoken(text: str) -> list[list[str]]:
    return [block.plain.split() for block in read(text).blocks if isinstance(block, Paragraph)]


@given(scripts)
def test_offers_of_findings_have_edits_and_titles(text: str) -> None:
    for offer in OF_FINDINGS.offers(asked_everywhere(text)):
        assert offer.title
        assert offer.edits
        assert not callable(offer.edits)
        applied(text, offer.edits)


spans = st.builds(
    lambda start, length, fixes, check: Reported(
        Finding(check, start, start + length, "", ("a fix",) if fixes else ()),  # type: ignore[arg-type]
        "hint",
    ),
    st.integers(0, 5000),
    st.one_of(st.integers(0, 30), st.integers(900, 5000)),
    st.booleans(),
    st.sampled_from(["cue", "over-time"]),
)


@given(
    st.lists(spans, max_size=12).map(lambda all_of: sorted(all_of, key=lambda r: r.finding[1:3])),
    st.integers(0, 6000),
    st.sampled_from([0, 0, 1, 40, 3000]),
    st.integers(0, 100),
    st.integers(0, 100),
)
def test_findings_at_a_place_are_those_that_a_look_at_all_would_give(
    reported: list[Reported], start: int, length: int, before: int, after: int
) -> None:
    where = Range(start, start + length)
    lines = Range(max(start - before, 0), where.end + after)

    def concerns(finding: Finding) -> bool:
        meets = finding.start <= where.end and where.start <= finding.end
        on_line = lines.start <= finding.start <= lines.end and bool(finding.fixes)
        return meets or (not length and on_line and finding.check != "over-time")

    expected = [each for each in reported if concerns(each.finding)]
    assert list(FindingPlaces(reported).at(where, lines)) == expected


def test_only_the_neighbourhood_is_looked_at(monkeypatch: pytest.MonkeyPatch) -> None:
    looked_at: list[Reported] = []
    monkeypatch.setattr(
        "saywright.protocol.finding_places._concerns", lambda each, *_: looked_at.append(each)
    )
    reported = [Reported(Finding("cue", at, at + 9, ""), "hint") for at in range(0, 10**6, 100)]
    list(FindingPlaces(reported).at(Range(500_000, 500_000), Range(499_990, 500_080)))
    assert 0 < len(looked_at) < 20


@pytest.mark.parametrize(
    ("kind", "asked", "is_it"),
    [
        ("a.b", "a", True),
        ("a.b", "a.b", True),
        ("a.bc", "a.b", False),
        ("a", "a.b", False),
        ("a", "", True),
    ],
)
def test_kinds(kind: str, asked: str, is_it: bool) -> None:
    assert is_kind(kind, asked) is is_it
