"""The table of keys: one place, no key twice on a screen, none that gloves or terminals lose."""

from collections.abc import Mapping
from typing import Any

import pytest
from textual.screen import Screen

from tui.keys import PLACES, TABLE, bindings
from tui.screens.calculator import CalculatorScreen
from tui.screens.calculators import CalculatorsScreen
from tui.screens.failure import FailureScreen
from tui.screens.home import HomeScreen
from tui.screens.measure import MeasureScreen
from tui.screens.new_job import NewJobScreen
from tui.screens.verdict import VerdictScreen
from tui.screens.walk import WalkScreen

#: The screens behind the places of the help page.
SCREENS: Mapping[str, tuple[type[Screen[Any]], ...]] = {
    "Jobs": (HomeScreen,),
    "New job": (NewJobScreen,),
    "A caution": (WalkScreen,),
    "A step": (WalkScreen, MeasureScreen),
    "The verdict": (VerdictScreen,),
    "Calculators": (CalculatorsScreen,),
    "A calculator": (CalculatorScreen,),
    "Something went wrong": (FailureScreen,),
}


def test_every_key_is_of_a_kind_that_every_terminal_sends() -> None:
    """Single letters, Enter, Esc and the question mark; nothing with Alt or Ctrl."""
    keys = {key.key for key in TABLE.values()} - {""}

    assert {key for key in keys if len(key) > 1} == {"enter", "escape", "question_mark"}


@pytest.mark.parametrize(("place", "actions"), PLACES, ids=[place for place, _ in PLACES])
def test_no_two_keys_of_a_place_are_the_same(place: str, actions: tuple[str, ...]) -> None:
    """Where a key works it means one thing; Esc leaves the field first, and then the page."""
    keys = [TABLE[action].key for action in actions if TABLE[action].key]

    assert len(keys) == len(set(keys)), place


def test_every_key_of_the_table_is_explained_in_the_help() -> None:
    """No key is kept secret."""
    told = {action for _, actions in PLACES for action in actions}

    assert told == set(TABLE)


@pytest.mark.parametrize("place", SCREENS)
def test_every_key_that_the_help_promises_is_bound(place: str) -> None:
    """What the help page says of a place, one of its screens does."""
    promised = {binding.key for action in dict(PLACES)[place] for binding in bindings(action)}
    bound = {key for screen in SCREENS[place] for key in screen._merge_bindings().key_to_bindings}
    everywhere = {"question_mark", "c", "enter"}

    assert promised - bound - everywhere == set()
