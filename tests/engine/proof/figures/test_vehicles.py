"""Which sheets are one kind of vehicle, and on which of them a tree can be walked to its end."""

from collections.abc import Mapping

import pytest

from engine.model.tree import Procedure, Sort, Step
from engine.model.vehicle import Sheet
from engine.proof.figures.vehicles import kinds, sound
from tests.engine.graph.random_documents import PLACE, do, procedure, run, tree, verdict


def sheet(name: str, box: str) -> Sheet:
    """A sheet that says only which gearbox the vehicle has."""
    return Sheet(
        name=name, place=PLACE, title=name, revision=1, facts={"box": box, "paint": name}, limits={},
        capacities={}, lubricants={}, torques={},
    )  # fmt: skip


SHEETS = (sheet("one", "manual"), sheet("two", "automatic"), sheet("three", "manual"))
BY_BOX = Sort(name="s0", place=PLACE, fact="box", cases={"manual": "ok", "automatic": "bad"})
BY_PAINT = Sort(name="s0", place=PLACE, fact="paint", cases={s.name: "ok" for s in SHEETS})
LOOK = procedure("look", {"s0": BY_BOX}, ("ok", "bad"))
PAINT = procedure("paint", {"s0": BY_PAINT}, ("ok",))
AROUND = procedure("around", {"s0": run("s0", "around", {"ok": "ok"})}, ("ok",))
SHELF: Mapping[str, Procedure] = {"look": LOOK, "paint": PAINT, "around": AROUND}


def test_sorts_of_what_is_run_part_the_vehicles() -> None:
    """Two manuals are one kind, the automatic another."""
    steps = {"s0": run("s0", "look", {"ok": "v", "bad": "v"}), "v": verdict("v")}
    found = kinds(tree(steps), SHELF, SHEETS)

    assert [[s.name for s in group] for group in found] == [["one", "three"], ["two"]]


def test_sorts_of_what_follows_do_not() -> None:
    """What follows a verdict is not counted, so its sorts part nobody."""
    followed = verdict("s0")
    object.__setattr__(followed, "follow", ("paint",))

    assert len(kinds(tree({"s0": followed}), SHELF, SHEETS)) == 1


@pytest.mark.parametrize(
    ("steps", "whole"),
    [
        ({"s0": do("s0", "v"), "v": verdict("v")}, True),
        ({"s0": run("s0", "look", {"ok": "v", "bad": "v"}), "v": verdict("v")}, True),
        ({"s0": run("s0", "look", {"ok": "v"}), "v": verdict("v")}, False),
        ({"s0": run("s0", "lost", {"ok": "v"}), "v": verdict("v")}, False),
        ({"s0": run("s0", "around", {"ok": "v"}), "v": verdict("v")}, False),
        ({"s0": do("s0", "gone")}, False),
        ({"s0": do("s0", "s1"), "s1": do("s1", "s0")}, False),
        (
            {"s0": Sort(name="s0", place=PLACE, fact="box", cases={"automatic": "v"}), "v": verdict("v")},
            False,
        ),
    ],
    ids=["whole", "run", "no way out", "not there", "runs itself", "no target", "loop", "no case"],
)
def test_only_a_tree_that_always_ends_is_sound(steps: Mapping[str, Step], whole: bool) -> None:  # noqa: FBT001  reason: what is expected
    """Whatever keeps a walk on a manual from its verdict makes the tree unsound for it."""
    assert sound(tree(steps), SHELF, SHEETS[0].facts) is whole
