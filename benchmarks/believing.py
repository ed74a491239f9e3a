"""Belief: one answer of a tree of thirty suspects, from its step to the belief after it, and the advice."""

import time
from collections.abc import Callable
from fractions import Fraction
from random import Random
from typing import Final

from benchmarks.timing import Rival, Row, in_turn, table
from engine.belief.entropy import gain
from engine.belief.evidence import met
from engine.belief.evidence import table as told
from engine.belief.order import Action, cheapest
from engine.belief.update import Belief, prior, updated
from engine.model.place import Place
from engine.model.tree import Answer, Ask

_SUSPECTS: Final = 30
_HERE: Final = Place("bench.yaml", 1, 1)


def measure(calls: int, rounds: int) -> str:
    """The table."""
    chance = Random(7)
    names = tuple(f"s{k}" for k in range(_SUSPECTS))
    belief = prior({name: Fraction(chance.randint(1, 90), 10) for name in names})
    steps = [_question(f"q{k}", names, chance) for k in range(50)]
    shares, rows = list(belief.shares), [met(step, belief.suspects, 0) for step in steps]
    rivals = {
        "Bayes' rule in a bare loop": lambda: _bare(shares, rows, calls),
        "one answer, its table known": lambda: _answered(belief, steps, calls),
        "one answer, its table made anew": lambda: _anew(belief, steps, calls),
        "the gain of one step": lambda: _gained(belief, steps, calls),
    }
    times = in_turn([Rival(name, _timed(work)) for name, work in rivals.items()], rounds)
    bare = times["Bayes' rule in a bare loop"]
    targets = {"one answer, its table known": "<= 100 us"}
    found = [Row(name, took / calls, took / bare, targets.get(name, "")) for name, took in times.items()]
    return table("Belief in thirty suspects after one answer of three", found) + "\n" + _ordering(rounds)


def _ordering(rounds: int) -> str:
    """Repairs that meet, with set-ups: each more doubles what is looked at."""
    rivals = [Rival(str(count), _timed(_order(count))) for count in (8, 12, 15)]
    times = in_turn(rivals, rounds)
    rows = [
        Row(f"{name} repairs that overlap, two set-ups", took, took / times["8"], "")
        for name, took in times.items()
    ]
    return table("The cheapest order of repairs, exactly", rows)


def _order(count: int) -> Callable[[], object]:
    chance = Random(count)
    faults = {f"f{k}": 1 / 20 for k in range(20)}
    setups = {"hoist": 12.0, "bench": 5.0}
    actions = [
        Action(
            f"a{k}",
            chance.randint(5, 60),
            frozenset(chance.sample([*faults], 3)),
            frozenset(chance.sample([*setups], chance.randint(0, 1))),
        )
        for k in range(count)
    ]
    return lambda: cheapest(actions, faults, setups)


def _question(name: str, names: tuple[str, ...], chance: Random) -> Ask:
    rows: list[dict[str, Fraction]] = [{}, {}, {}]
    for suspect in names:
        parts = [chance.randint(1, 20) for _ in rows]
        for row, part in zip(rows, parts, strict=True):
            row[suspect] = Fraction(part, sum(parts))
    answers = tuple(Answer(str(k), "end", row, _HERE) for k, row in enumerate(rows))
    return Ask(name=name, place=_HERE, text="What is seen?", answers=answers)


def _bare(shares: list[float], rows: list[tuple[float, ...]], calls: int) -> None:
    for k in range(calls):
        made = [share * likely for share, likely in zip(shares, rows[k % len(rows)], strict=True)]
        total = sum(made)
        made = [one / total for one in made]


def _answered(belief: Belief, steps: list[Ask], calls: int) -> None:
    for k in range(calls):
        updated(belief, met(steps[k % len(steps)], belief.suspects, k % 3))


def _anew(belief: Belief, steps: list[Ask], calls: int) -> None:
    for k in range(calls):
        updated(belief, told.__wrapped__(steps[k % len(steps)], belief.suspects)[k % 3])


def _gained(belief: Belief, steps: list[Ask], calls: int) -> None:
    for k in range(calls):
        gain(belief, told(steps[k % len(steps)], belief.suspects))


def _timed(work: Callable[[], object]) -> Callable[[], float]:
    def run() -> float:
        began = time.perf_counter()
        work()
        return time.perf_counter() - began

    return run
