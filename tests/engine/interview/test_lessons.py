"""What a store teaches: ended cases of a tree, their signs by its present version, damage passed over."""

import pytest

from engine import api
from engine.errors import Damaged
from engine.interview.command import Accept, Choose, Command
from engine.interview.lessons import lessons
from engine.records.event import Entry
from engine.records.memory import MemoryStore
from tests.engine.belief.counted import HELD, TREE
from tests.engine.interview.given import library

_WHINES, _QUIET = (line for line in TREE.splitlines(keepends=True) if "- {say:" in line)
#: The same question with its answers the other way round.
TURNED = TREE.replace(_WHINES + _QUIET, _QUIET + _WHINES)
READ: tuple[Command, ...] = (Choose(0), Accept())


class Scratched(MemoryStore):
    """A store in which one case cannot be read."""

    scratched = ""

    def read(self, case: str) -> tuple[Entry, ...]:
        """Fails for the scratched one."""
        if case == self.scratched:
            raise Damaged("It is damaged.", "Rescue it.")
        return super().read(case)


def put(store: api.Store, name: str, *commands: Command, text: str = TREE) -> None:
    """A case walked so far."""
    job = api.open_job(store, library(text), next(iter(library(text).trees)), "wagon", case=name)
    for command in commands:
        after = api.act(store, job, command)
        assert isinstance(after, api.Job), after
        job = after


def test_the_ended_cases_of_a_tree_are_found() -> None:
    """Not the open ones, and not those of another tree unless all are asked for."""
    store = MemoryStore()
    put(store, "one", *READ)
    put(store, "open", Choose(0))
    put(store, "other", *READ, text=TREE.replace("tree: bench", "tree: other"))

    assert [case.case for case in lessons(store, HELD).cases] == ["one"]
    assert [case.case for case in lessons(store).cases] == ["one", "other"]


def test_signs_are_those_of_the_present_version() -> None:
    """The first answer of then is the second of now."""
    store = MemoryStore()
    put(store, "now", *READ)
    put(store, "then", *READ, text=TURNED)
    signs = {case.case: case.signs for case in lessons(store, HELD).cases}

    assert signs == {"now": (("first", 0),), "then": (("first", 1),)}


@pytest.mark.parametrize("name", ["bad", "fine"])
def test_a_damaged_case_hides_no_other(name: str) -> None:
    """It is counted as left out."""
    store = Scratched()
    put(store, "one", *READ)
    put(store, name, *READ)
    store.scratched = "bad"
    found = lessons(store, HELD)

    assert (len(found.cases), found.damaged) == ((1, 1) if name == "bad" else (2, 0))
