"""In which order to repair or replace, where each action may be the cure and the complaint says when it was.

One fault is to blame. An action costs its own cost and, once, that of each set-up which it needs; it is the
cure where the fault is one of those that it mends, and then nothing more is paid. Where no action mends the
fault, `last` is paid at the end: what it costs to send the vehicle on.

Where no two actions mend the same fault and none needs a set-up, the order by probability over cost is the
cheapest (Smith, Naval Research Logistics Quarterly 3:59-66, 1956; for repairs Kadane and Simon, 1977; both
from memory). With overlapping actions or set-ups it need not be, and every set of actions is looked at.
"""

from collections.abc import Mapping, Sequence
from collections.abc import Set as AbstractSet
from typing import Final, NamedTuple

#: So many actions are ordered exactly; the sets of them double with each.
EXACT: Final = 15
_NONE: Final[Mapping[str, float]] = {}


class Action(NamedTuple):
    """One repair: its name, what it costs (minutes or money), the faults that it mends, and its set-ups."""

    name: str
    cost: float
    mends: frozenset[str]
    #: Each is paid once, before the first action that needs it.
    setups: frozenset[str] = frozenset()


class Order(NamedTuple):
    """An order of actions, what it costs on average, and whether no other one costs less."""

    names: tuple[str, ...]
    cost: float
    exact: bool


def expected(
    actions: Sequence[Action],
    faults: Mapping[str, float],
    setups: Mapping[str, float] = _NONE,
    last: float = 0,
) -> float:
    """What it costs on average to act in this order until the fault is mended.

    `faults` has the probability of each fault, together at most 1; what is missing to 1 no action mends.

    >>> parts = [Action("fuse", 1, frozenset({"fuse"})), Action("pump", 9, frozenset({"pump"}))]
    >>> expected(parts, {"fuse": 0.5, "pump": 0.5}), expected(parts[::-1], {"fuse": 0.5, "pump": 0.5})
    (5.5, 9.5)
    """
    left, stood, total = dict(faults), set[str](), 0.0
    open_ = 1.0
    for action in actions:
        total += open_ * (action.cost + _setup(action, setups, stood))
        stood |= action.setups
        open_ -= sum(left.pop(fault, 0.0) for fault in action.mends)
    return total + max(0.0, open_) * last


def by_ratio(actions: Sequence[Action], faults: Mapping[str, float]) -> tuple[Action, ...]:
    """The actions by probability over cost, each counted by itself; of equals the first named.

    >>> [one.name for one in by_ratio([Action("a", 5, frozenset("a")), Action("b", 1, frozenset("b"))],
    ...     {"a": 0.6, "b": 0.4})]
    ['b', 'a']
    """
    return tuple(sorted(actions, key=lambda one: _ratio(one, faults), reverse=True))


def cheapest(
    actions: Sequence[Action],
    faults: Mapping[str, float],
    setups: Mapping[str, float] = _NONE,
    last: float = 0,
) -> Order:
    """The order that costs least on average; actions that mend nothing more are left out of it.

    Exact where no two actions meet and where there are no more than `EXACT` of them; of more that do meet,
    the best by probability over cost is taken in turn, which may cost more than need be.
    """
    useful = [one for one in actions if any(faults.get(fault, 0.0) > 0 for fault in one.mends)]
    if not _meet(useful):
        found = by_ratio(useful, faults)
        return Order(_names(found), expected(found, faults, setups, last), exact=True)
    if len(useful) <= EXACT:
        found = _searched(useful, faults, setups, last)
        return Order(_names(found), expected(found, faults, setups, last), exact=True)
    found = _in_turn(useful, faults, setups)
    return Order(_names(found), expected(found, faults, setups, last), exact=False)


def _names(actions: Sequence[Action]) -> tuple[str, ...]:
    return tuple(one.name for one in actions)


def _ratio(action: Action, faults: Mapping[str, float], setup: float = 0.0) -> float:
    mended = sum(faults.get(fault, 0.0) for fault in action.mends)
    cost = action.cost + setup
    return mended / cost if cost > 0 else float("inf")


def _setup(action: Action, setups: Mapping[str, float], stood: AbstractSet[str]) -> float:
    return sum(setups[name] for name in action.setups - stood)


def _meet(actions: Sequence[Action]) -> bool:
    """Whether two actions mend the same fault, or one needs a set-up."""
    named = [fault for one in actions for fault in one.mends]
    return len(named) != len({*named}) or any(one.setups for one in actions)


def _in_turn(
    actions: Sequence[Action], faults: Mapping[str, float], setups: Mapping[str, float]
) -> tuple[Action, ...]:
    left, open_, stood, found = dict(faults), list(actions), set[str](), list[Action]()
    while open_:
        best = max(open_, key=lambda one: _ratio(one, left, _setup(one, setups, stood)))
        open_.remove(best)
        if any(left.get(fault, 0.0) > 0 for fault in best.mends):
            found.append(best)
            stood |= best.setups
            left = {fault: share for fault, share in left.items() if fault not in best.mends}
    return tuple(found)


def _searched(
    actions: Sequence[Action], faults: Mapping[str, float], setups: Mapping[str, float], last: float
) -> tuple[Action, ...]:
    """The cheapest order of all, by what each set of actions that have been done leaves (Bellman, 1957)."""
    names = [*dict.fromkeys(fault for one in actions for fault in sorted(one.mends) if faults.get(fault))]
    bit = {fault: 1 << number for number, fault in enumerate(names)}
    mends = [sum(bit.get(fault, 0) for fault in one.mends) for one in actions]
    open_ = _open(mends, [faults[name] for name in names])
    count, whole = len(actions), (1 << len(actions)) - 1
    least, first = [0.0] * (whole + 1), [-1] * (whole + 1)
    done_by, stood_by = _done(mends), _stood(actions)
    least[whole] = open_[whole] * last
    for done in range(whole - 1, -1, -1):
        best, chosen = open_[done] * last, -1
        if done_by[done] != done_by[whole]:
            best = float("inf")
            for k in range(count):
                if done >> k & 1 or not mends[k] & ~done_by[done]:
                    continue
                paid = actions[k].cost + _setup(actions[k], setups, stood_by[done])
                cost = open_[done] * paid + least[done | 1 << k]
                if cost < best:
                    best, chosen = cost, k
        least[done], first[done] = best, chosen
    found, done = list[Action](), 0
    while first[done] >= 0:
        found.append(actions[first[done]])
        done |= 1 << first[done]
    return tuple(found)


def _done(mends: Sequence[int]) -> list[int]:
    """The faults that each set of actions mends, as bits."""
    out = [0] * (1 << len(mends))
    for done in range(1, len(out)):
        low = (done & -done).bit_length() - 1
        out[done] = out[done & (done - 1)] | mends[low]
    return out


def _stood(actions: Sequence[Action]) -> list[frozenset[str]]:
    """The set-ups that each set of actions, as bits, has paid for."""
    out = [frozenset[str]()] * (1 << len(actions))
    for done in range(1, len(out)):
        low = (done & -done).bit_length() - 1
        out[done] = out[done & (done - 1)] | actions[low].setups
    return out


def _open(mends: Sequence[int], shares: Sequence[float]) -> list[float]:
    """The probability that the fault is still there after each set of actions."""
    known: dict[int, float] = {}
    return [
        known.setdefault(mended, 1.0 - sum(s for k, s in enumerate(shares) if mended >> k & 1))
        for mended in _done(mends)
    ]
