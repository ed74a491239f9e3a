"""Verdicts that come back: not fixed as somebody said, or the same vehicle with the same complaint again.

Only cases whose end is known are counted: something was said after the repair, the vehicle came again, or it
has a label and so many days have passed in which it did not. A verdict that refers the vehicle to somebody
else promises nothing, and is left out.
"""

from collections import defaultdict
from collections.abc import Iterable, Sequence
from datetime import datetime, timedelta
from typing import Final, NamedTuple

from engine.belief.confirmed import Ended
from engine.belief.interval import Interval, interval

#: Who comes back with the same complaint within so many days was not helped. Common practice, no source.
COMES_BACK: Final = timedelta(days=90)
_REFERS: Final = "refer"


class Return(NamedTuple):
    """A verdict: how many of its cases came back."""

    tree: str
    step: str
    verdict: str
    cases: Interval
    #: Cases of it whose end nobody knows, or not yet.
    open: int


def returns(cases: Iterable[Ended], now: datetime) -> tuple[Return, ...]:
    """Every verdict with how many of its cases came back, the surest to come back first."""
    held = [case for case in cases if case.grade != _REFERS]
    back = came_back(held)
    groups = defaultdict[tuple[str, str], list[Ended]](list)
    for case in held:
        groups[case.tree, case.step].append(case)
    found = [_return(group, back, now) for group in groups.values()]
    return tuple(sorted(found, key=lambda one: (-one.cases.low, -one.cases.mean, one.tree, one.step)))


def _return(group: Sequence[Ended], back: frozenset[str], now: datetime) -> Return:
    last = group[-1]
    known = [case for case in group if case.case in back or _known(case, now)]
    counts = interval(sum(case.case in back for case in known), len(known))
    return Return(last.tree, last.step, last.verdict, counts, len(group) - len(known))


def _known(case: Ended, now: datetime) -> bool:
    """Whether it would have been heard of, had the repair not helped."""
    if case.fixed is not None:
        return True
    return bool(_label(case)) and case.concluded is not None and now - case.concluded > COMES_BACK


def came_back(cases: Iterable[Ended]) -> frozenset[str]:
    """The cases that did not help: said so, or the same vehicle with the same complaint again soon after."""
    groups = defaultdict[tuple[str, str, str], list[Ended]](list)
    back = set[str]()
    for case in cases:
        groups[_label(case), case.tree, case.vehicle].append(case)
        if case.fixed is False:
            back.add(case.case)
    for (label, _, _), group in groups.items():
        if label:
            back.update(one.case for one in group if any(_again(one, other) for other in group))
    return frozenset(back)


def _label(case: Ended) -> str:
    """The label as people mean it: `HP 118` and `hp  118` are one vehicle.

    >>> from engine.belief.confirmed import Ended
    >>> _label(Ended("", "", "", " hp  118", None, None, "", "", (), "", None, "", ()))
    'hp 118'
    """
    return " ".join(case.label.casefold().split())


def _again(one: Ended, other: Ended) -> bool:
    """Whether the other case was opened after this one had its verdict, and not long after."""
    if one.opened is None or one.concluded is None or other.opened is None:
        return False
    later = one.opened < other.opened
    return later and timedelta(0) <= other.opened - one.concluded <= COMES_BACK
