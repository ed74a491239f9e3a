"""Events: what opens a case carries all it needs, and what does not fit a walk is told as such."""

import hashlib
import json

import pytest

from engine.interview.command import Accept, Confirm
from engine.interview.evolve import evolve, replay
from engine.interview.pack import digest, pack
from engine.records.event import (
    Answered,
    Cautioned,
    Concluded,
    Confirmed,
    Done,
    Entry,
    Event,
    Followed,
    Measured,
    Opened,
    TakenBack,
    Unsure,
)
from tests.engine.interview.given import SHOP, after, entry, library, procedure, tree, walk

FIX = procedure("fix", "fixed: Fixed", "first: {run: look, outcomes: {seen: fixed}}\n")
LOOK = procedure("look", "seen: Seen", "first: {do: Look., then: seen}\n")
OTHER = procedure("other", "done: Done", "first: {do: Nothing., then: done}\n")
TREE = tree("""
    first: {do: Do it., then: second}
    second: {verdict: V, suspects: [shaft], grade: repair, correction: C., follow: [fix]}
    """)


def test_the_opening_carries_every_document_of_the_walk() -> None:
    """Tree, sheet, shop, and the procedures followed or run inside, each with its own text; no other."""
    packed = pack(library(TREE, FIX, LOOK, OTHER), "bench", "wagon", "Order 7", "Bay 2")

    assert set(packed.documents) == {*SHOP, "tree/0.yaml", "procedure/1.yaml", "procedure/2.yaml"}
    assert packed.documents["tree/0.yaml"] == TREE


def test_the_opening_tells_what_a_list_of_cases_shows() -> None:
    """Titles, label and name stand in the event itself."""
    packed = pack(library(TREE, FIX, LOOK), "bench", "wagon", "Order 7", "Bay 2")

    assert (packed.tree, packed.vehicle) == ("bench", "wagon")
    assert (packed.title, packed.vehicle_title) == ("The bench tree", "Brennick test wagon")
    assert (packed.label, packed.by) == ("Order 7", "Bay 2")


def test_the_digest_is_that_of_the_documents_by_path() -> None:
    """SHA-256 over the JSON list of [path, text], sorted by path: anybody can work it out again."""
    documents = {"b.yaml": "tree: ä\n", "a.yaml": "x"}
    written = '[["a.yaml","x"],["b.yaml","tree: ä\\n"]]'

    assert json.loads(written) == [["a.yaml", "x"], ["b.yaml", "tree: ä\n"]]
    assert digest(documents) == hashlib.sha256(written.encode()).hexdigest()


def test_a_case_replays_without_its_library() -> None:
    """The walk is made of what the opening carries: the same whatever the library has become."""
    packed = pack(library(TREE, FIX, LOOK), "bench", "wagon")
    state = replay((Entry("c", 1, "", packed, ""), Entry("c", 2, "", Done("first"), "")))

    assert state.where == "second"
    assert set(state.library.procedures) == {"fix", "look"}


def test_a_confirmation_moves_nothing() -> None:
    """What is told after the repair leaves the walk where it was, concluded or not."""
    state = after(walk(TREE, FIX, LOOK), Confirm(), Accept())
    told = evolve(state, entry(state, Confirmed(fixed=True, cause="Sheared", remark="")))

    assert (told.where, told.concluded, told.past, told.sequence) == (
        "second",
        True,
        state.past,
        state.sequence + 1,
    )


@pytest.mark.parametrize(
    "event",
    [
        Answered("first", 0, "x"),
        Measured("first", {}, {}, "mm", "1", "mm", 0, ""),
        TakenBack(17),
        Followed("paint"),
    ],
)
def test_an_event_that_does_not_fit_is_told(event: Event) -> None:
    """An event that this walk can never have written raises ValueError, and names its kind."""
    state = walk(TREE, FIX, LOOK)

    with pytest.raises(ValueError, match=event.kind):
        evolve(state, entry(state, event))


@pytest.mark.parametrize("event", [Done("second"), Unsure("second"), Answered("second", 0, "x")])
def test_no_answer_fits_a_verdict(event: Event) -> None:
    """At a verdict an event that settles a step raises ValueError."""
    state = after(walk(TREE, FIX, LOOK), Confirm())

    with pytest.raises(ValueError, match="second"):
        evolve(state, entry(state, event))


@pytest.mark.parametrize("event", [Done("first"), Cautioned("first", "hot"), Concluded("first", "V")])
def test_a_case_begins_with_its_opening(event: Event) -> None:
    """Any other first event raises ValueError, and so does a case without one."""
    with pytest.raises(ValueError, match="opened"):
        evolve(None, Entry("c", 1, "", event, ""))
    with pytest.raises(ValueError, match="without entries"):
        replay(())


@pytest.mark.parametrize(("name", "vehicle"), [("bench", "van"), ("table", "wagon")])
def test_an_opening_without_its_documents_is_told(name: str, vehicle: str) -> None:
    """An opening that does not carry the tree or the sheet that it names raises ValueError."""
    packed = pack(library(TREE, FIX, LOOK), "bench", "wagon")

    with pytest.raises(ValueError, match="does not carry"):
        evolve(None, Entry("c", 1, "", Opened(name, vehicle, packed.documents, packed.digest), ""))
