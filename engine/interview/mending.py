"""The repairs of a tree, from where the vehicle stands: minutes of each, and the set-ups that they share."""

from collections.abc import Mapping
from typing import NamedTuple

from engine.belief.order import Action
from engine.graph.onward import Onward
from engine.interview.state import State
from engine.planner.ways import Ways


class Mending(NamedTuple):
    """What can be repaired."""

    #: Suspects that the same correction mends are repaired by one action, as long as the longest of them.
    actions: tuple[Action, ...]
    #: Minutes of each set-up that some repair still needs.
    setups: Mapping[str, float]
    #: Minutes of the repair of each suspect if it were the only one, with all that it needs first.
    alone: Mapping[str, float]


def mending(state: State) -> Mending | None:
    """The repairs at this moment of a walk; None where the tree does not say the minutes of each."""
    suspects = state.tree.suspects
    repairs = {name: float(one.repair) for name, one in suspects.items() if one.repair}
    if len(repairs) < len(suspects):
        return None
    needs, setups = _setups(state)
    groups: dict[str, list[str]] = {}
    for name, suspect in suspects.items():
        groups.setdefault(suspect.correction or name, []).append(name)
    actions = tuple(
        Action(
            names[0],
            max(repairs[name] for name in names),
            frozenset(names),
            frozenset[str]().union(*(needs[name] for name in names)),
        )
        for names in groups.values()
    )
    alone = {name: minutes + sum(setups[setup] for setup in needs[name]) for name, minutes in repairs.items()}
    return Mending(actions, setups, alone)


def _setups(state: State) -> tuple[Mapping[str, frozenset[str]], Mapping[str, float]]:
    """What still leads into the states that each repair needs, and its minutes; nothing is undone between."""
    asked = {name: frozenset(one.needs) for name, one in state.tree.suspects.items()}
    if not any(asked.values()):
        return asked, {}
    held = state.library
    steps = [*state.tree.steps.values()]
    ways = Ways(steps, held.procedures, Onward(held.procedures, state.sheet.facts), held.shop.states)
    needs = {name: ways.before(states, state.holds) for name, states in asked.items()}
    priced = ways.priced(frozenset[str]().union(*needs.values()))
    return needs, {setup.id: float(setup.minutes) for setup in priced}
