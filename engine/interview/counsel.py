"""Advice for any moment of a walk, in sentences that say why. The tree leads; nothing here moves the walk."""

from collections.abc import Iterator
from dataclasses import dataclass
from math import ceil
from typing import Final

from engine.belief.advice import Swap, Worth, swap, to_verdict, worth
from engine.belief.order import Order, cheapest
from engine.interview.ahead import Ahead
from engine.interview.mending import Mending, mending
from engine.interview.state import State
from engine.interview.suspicion import number
from engine.model.tree import Verdict

#: Tests and repairs that are told of.
_SHOWN: Final = 3
_DONE: Final = "The tree has come to its verdict: there is no test left."
_UNSAID: Final = "This tree does not say the minutes of each repair, so nothing is said of repairing first."
_HEAD: Final = "Advice by the numbers only; the tree leads, and its cautions stand."


@dataclass(frozen=True, slots=True)
class Counsel:
    """What the numbers say at this moment."""

    #: The tests still open that settle something, the most a minute first.
    tests: tuple[Worth, ...]
    #: Expected minutes to a verdict by the tree.
    minutes: float
    #: The cheapest order of repairs; None where the tree does not say the minutes of each.
    order: Order | None
    #: The repair that would be made now rather than tested for; None likewise.
    swap: Swap | None
    #: All of it in sentences.
    told: tuple[str, ...]


def counsel(state: State) -> Counsel:
    """The advice at this moment; none once a verdict was reached."""
    if state.concluded or isinstance(state.step, Verdict):
        return Counsel((), 0.0, None, None, (_HEAD, _DONE))
    ahead = Ahead(state)
    each = ahead.minutes()
    tests = worth(state.belief, ahead.tests())
    minutes = to_verdict(state.belief, each)
    mends = mending(state)
    shares = dict(zip(state.belief.suspects, state.belief.shares, strict=True))
    order = cheapest(mends.actions, shares, mends.setups) if mends else None
    now = swap(state.belief, each, mends.alone) if mends else None
    told = (_HEAD, *_tests(tests, minutes), *_repairs(state, mends, order, now))
    return Counsel(tests, minutes, order, now, told)


def _tests(tests: tuple[Worth, ...], minutes: float) -> Iterator[str]:
    average = f"about {ceil(minutes)} min on average"
    yield f"To a verdict by the tree: {average}, by how likely each suspect is now."
    if not tests:
        yield "No test ahead tells the suspects apart any further, as far as this tree says."
        return
    first, *rest = tests[:_SHOWN]
    yield f"Most worth its time, since it settles most a minute ({_worth(first)}): {first.name}"
    yield from (f"After that ({_worth(one)}): {one.name}" for one in rest)


def _worth(one: Worth) -> str:
    return f"{number(one.part)} of what is open, {ceil(one.minutes)} min from here"


def _repairs(state: State, mends: Mending | None, order: Order | None, now: Swap | None) -> Iterator[str]:
    if mends is None or order is None or now is None:
        yield _UNSAID
        return
    yield _swapped(state, now)
    titles = [state.tree.suspects[name].title for name in order.names[:_SHOWN]]
    if titles:
        proven = "no other order costs less" if order.exact else "found step by step, not proven"
        setups = ", each set-up counted once" if mends.setups else ""
        yield (
            f"If repairs were tried one after the other, cheapest first: {'; '.join(titles)}."
            f" About {ceil(order.cost)} min on average, by probability over minutes{setups}; {proven}."
        )


def _swapped(state: State, now: Swap) -> str:
    title = state.tree.suspects[now.suspect].title
    share, limit = state.belief.share(now.suspect), float(state.tree.condemn)
    sums = f"{ceil(now.saved)} min of tests saved on average against {ceil(now.lost)} min of work in vain"
    if now.pays and share >= limit:
        return f"Repair now rather than test on, for `{title}` ({number(share)}): {sums}."
    if now.pays:
        weak = f"{number(share)} is too weak to condemn, this tree wants {number(limit)}"
        return f"Test on: repairing `{title}` now would pay in minutes ({sums}), but {weak}."
    return f"Test on: repairing `{title}` now ({number(share)}) would not pay, {sums}."
