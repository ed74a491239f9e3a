"""Which tests can come next, what each costs then, and where its outcomes lead."""

from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import Any, Final, NamedTuple

from engine.model.matrix import Matrix
from engine.proof.plan.floors import bits
from engine.proof.plan.table import Table

ZERO: Final = Fraction(0)

#: Groups still suspected as bits, set-ups that stand, tests done that another waits for.
State = tuple[int, frozenset[str], frozenset[str]]


class Step(NamedTuple):
    """A test, the set-ups to be made before it, its minutes with theirs, the state behind each outcome."""

    test: str
    setups: list[str]
    minutes: Fraction
    after: dict[str, State]


def steps(matrix: Matrix, table: Table, state: State) -> Iterator[Step]:
    """All of them, but a test that parts nothing and that none waits for: it only costs."""
    groups, standing, done = state
    waited = frozenset(name for test in matrix.tests for name in test.after)
    for test in matrix.tests:
        pieces = {name: groups & part for name, part in table.outcomes[test.id].items() if groups & part}
        if done.issuperset(test.after) and (len(pieces) > 1 or test.id in waited - done):
            missing = [setup for setup in matrix.setups if setup.id in {*test.needs} - standing]
            above = (standing | {*test.needs}) - {*test.drops}, done | waited & {test.id}
            minutes = sum((setup.minutes for setup in missing), test.minutes)
            after = {outcome: (piece, *above) for outcome, piece in pieces.items()}
            yield Step(test.id, [setup.id for setup in missing], minutes, after)


def ends(
    matrix: Matrix, table: Table, node: Mapping[str, Any], state: State, spent: Fraction = ZERO
) -> Iterator[tuple[int, Fraction]]:
    """The groups where a plan ends, each with the minutes until then.

    :raises ValueError: where the plan does what cannot be done, or ends where more than one group is left.
    """
    if "faults" in node:
        if [node["faults"]] != [[*table.groups[k]] for k in bits(state[0])]:
            raise ValueError(f"it ends with {node['faults']} where it cannot know that")
        yield state[0].bit_length() - 1, spent
        return
    for test, setups, minutes, after in steps(matrix, table, state):
        if (test, setups, after.keys()) == (node["test"], node["setups"], node["outcomes"].keys()):
            for outcome, then in after.items():
                yield from ends(matrix, table, node["outcomes"][outcome], then, spent + minutes)
            return
    raise ValueError(f"the test {node['test']!r} cannot be done so where it stands")
