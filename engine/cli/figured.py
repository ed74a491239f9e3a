"""The figures of trees as a table for a trainer, as a table of a page, and as JSON."""

from collections.abc import Iterator, Sequence
from decimal import Decimal
from fractions import Fraction
from math import floor
from textwrap import wrap
from typing import Any, Final, NamedTuple

from engine.model.tree import Tree
from engine.proof.figures.figures import Figures

_WIDTH: Final = 80
#: Whole numbers from here on are told by their first digits: nobody counts the others.
_LONG: Final = 10**12


class Told(NamedTuple):
    """A tree, the vehicles that go the same ways, and its figures on them."""

    tree: Tree
    vehicles: tuple[str, ...]
    figures: Figures


def text(told: Sequence[Told]) -> Iterator[str]:
    """For each tree and kind of vehicle a table, every figure with what it says."""
    for number, each in enumerate(told):
        if number:
            yield ""
        yield from wrap(f"{each.tree.name}: {each.tree.title}", _WIDTH)
        yield from wrap(f"on {', '.join(each.vehicles)}", _WIDTH)
        for value, meaning in _lines(each.figures):
            yield f"{value:>13}  {meaning}"
        yield from _named(each)


def _lines(f: Figures) -> Iterator[tuple[str, str]]:
    yield _count(f.steps), "steps that a technician may come to, procedures included"
    yield _count(f.paths), "paths: different ways from the complaint to a verdict"
    yield _number(f.fewest), "minutes to a verdict at the fewest"
    yield _number(f.expected), "minutes expected, by weights and fits"
    yield _number(f.most), "minutes at the most"
    yield _percent(f.detected), "of the suspects, by weight, some verdict can convict (FFD)"
    yield _percent(f.to_one), "of these are convicted alone (FFI(1))"
    yield _percent(f.to_two), "of these are convicted alone or with one other (FFI(2))"
    yield _number(f.mean_group, 2), "suspects are convicted together on average"


def _named(told: Told) -> Iterator[str]:
    """The groups that no verdict takes apart, and who is never convicted, by the suspects' names."""
    groups = [group for group in dict.fromkeys(told.figures.groups.values()) if len(group) > 1]
    lists = [("never told apart: ", group) for group in groups]
    if told.figures.missed:
        lists.append(("never convicted: ", told.figures.missed))
    for words, names in lists:
        titles = "; ".join(told.tree.suspects[name].title for name in names)
        yield from wrap(words + titles, _WIDTH, initial_indent="  ", subsequent_indent="    ")


_HEADS: Final = (
    "tree", "on", "steps", "paths", "fewest min", "expected min", "most min", "FFD", "FFI(1)", "FFI(2)",
    "mean group", "never told apart", "never convicted",
)  # fmt: skip


def markdown(told: Sequence[Told]) -> Iterator[str]:
    """One table with a row for each tree and kind of vehicle."""
    yield _row(_HEADS)
    yield _row(["---"] * len(_HEADS))
    for each in told:
        values = (value for value, _ in _lines(each.figures))
        groups = [group for group in dict.fromkeys(each.figures.groups.values()) if len(group) > 1]
        together = "; ".join(", ".join(group) for group in groups)
        missed = ", ".join(each.figures.missed)
        yield _row([each.tree.name, ", ".join(each.vehicles), *values, together, missed])


def _row(cells: Sequence[str]) -> str:
    return f"| {' | '.join(cells)} |"


def data(told: Sequence[Told]) -> dict[str, Any]:
    """All of it, exact; see the page of the command."""
    return {"format": 1, "figures": [_data(each) for each in told]}


def _data(told: Told) -> dict[str, Any]:
    f = told.figures
    return {
        "tree": told.tree.name,
        "vehicles": told.vehicles,
        "steps": _digits(f.steps),
        "paths": _digits(f.paths),
        "minutes": {"fewest": _exact(f.fewest), "expected": _exact(f.expected), "most": _exact(f.most)},
        "suspects": {
            "detected": _exact(f.detected),
            "isolated-to-1": _exact(f.to_one),
            "isolated-to-2": _exact(f.to_two),
            "mean-group": _exact(f.mean_group),
        },
        "groups": f.groups,
        "missed": f.missed,
    }


def _digits(number: int) -> str:
    """All digits, however many: Python itself writes no more than some thousands."""
    return str(Decimal(number))


def _exact(number: Fraction | None) -> str | None:
    if number is None:
        return None
    whole = number.denominator == 1
    return _digits(number.numerator) + ("" if whole else f"/{_digits(number.denominator)}")


def _count(number: int) -> str:
    """A count in full with its thousands apart, or `about 3.1e4771`.

    >>> _count(1240), _count(3141592653589793)
    ('1,240', 'about 3.1e15')
    """
    if number < _LONG:
        return f"{number:,}"
    return f"about {Decimal(number):.1e}".replace("e+", "e")


def _number(number: Fraction | None, places: int = 1) -> str:
    """Rounded to so many places; a dash where there is none.

    >>> _number(Fraction(45, 28), 2), _number(Fraction(8)), _number(None)
    ('1.61', '8.0', '-')
    """
    return "-" if number is None else _decimal(number, places, up=Fraction(1, 2))


def _percent(number: Fraction | None) -> str:
    """A fraction in percent, cut off and not rounded: 100 % says all.

    >>> _percent(Fraction(28, 30)), _percent(Fraction(9999, 10000)), _percent(Fraction(1))
    ('93.3 %', '99.9 %', '100.0 %')
    """
    return "-" if number is None else f"{_decimal(number * 100, 1, up=Fraction(0))} %"


def _decimal(number: Fraction, places: int, *, up: Fraction) -> str:
    """A number of no less than 0, cut off at so many places after so much of the last one was added."""
    digits = _digits(floor(number * 10**places + up)).rjust(places + 1, "0")
    return f"{digits[:-places]}.{digits[-places:]}"
