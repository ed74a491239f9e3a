"""A calculator explained: a page for people, and data for machines."""

from collections.abc import Iterable, Iterator
from typing import Any, Final

from engine.trade.calculator import Calculator, Input, Output
from engine.trade.marks import MARKS
from engine.trade.taking import bounds, example

_WIDTH: Final = 100
_UNITS: Final = {"": "a number", "word": "a word", "text": "text", "any": "readings of one kind"}


def page(calculator: Calculator) -> str:
    """Everything that must be known to use one and to trust it."""
    return "\n".join(_page(calculator))


def _page(calculator: Calculator) -> Iterator[str]:
    yield f"{calculator.name} - {calculator.title}"
    yield ""
    yield "inputs"
    yield from _table((one.name, one.symbol, f"{one.title}: {_wanted(one)}") for one in calculator.inputs)
    yield "outputs"
    yield from _table((one.name, one.symbol, f"{one.title}{_told(one)}") for one in calculator.outputs)
    if calculator.formula:
        yield "formula"
        yield from (f"  {line}" for line in calculator.formula)
    yield from _paragraph("source", f"{calculator.source} ({MARKS[calculator.mark]})")
    yield from _paragraph("holds", calculator.valid)
    yield "example"
    yield f"  witnessmark calc {calculator.name} {calculator.example or example(calculator.inputs)}"


def _table(rows: Iterable[tuple[str, str, str]]) -> Iterator[str]:
    held = list(rows)
    wide, narrow = (max(len(row[column]) for row in held) for column in (0, 1))
    for name, symbol, text in held:
        yield f"  {name:<{wide}}  {symbol:<{narrow}}  {text}"


def _paragraph(head: str, text: str) -> Iterator[str]:
    """A text below its head, in lines of no more than the width; `textwrap` takes longer to load."""
    yield head
    line = " "
    for word in text.split():
        if len(line) + 1 + len(word) > _WIDTH and line.strip():
            yield line
            line = " "
        line += f" {word}"
    yield line


def _wanted(one: Input) -> str:
    """What an input takes, in words."""
    what = " | ".join(one.choices) or _UNITS.get(one.unit, one.unit)
    several = f", {one.many} or more" if one.many else ""
    within = bounds(one)
    without = (
        f"; {one.default} where it is left out"
        if one.default
        else "; may be left out"
        if one.optional
        else ""
    )
    return f"{what}{several}{within and f', {within}'}{without}"


def _told(one: Output) -> str:
    unit = {"same": "in their unit"}.get(one.unit, "" if one.unit in _UNITS else one.unit)
    return f": {unit}" if unit else ""


def described(one: Calculator) -> Any:
    """Everything about one, for machines; bounds are in the unit of the input, null where there is none."""
    return {
        "name": one.name,
        "family": one.family,
        "title": one.title,
        "inputs": [_input(wanted) for wanted in one.inputs],
        "outputs": [output._asdict() for output in one.outputs],
        "formula": one.formula,
        "source": one.source,
        "mark": one.mark,
        "valid": one.valid,
        "example": one.example,
    }


def _input(wanted: Input) -> Any:
    finite = {name: value for name in ("least", "most") if abs(value := getattr(wanted, name)) < float("inf")}
    return {**wanted._asdict(), "least": None, "most": None, **finite}
