"""`witnessmark calc`: the trade's arithmetic listed, explained, and worked out with units."""

import argparse
from collections.abc import Mapping, Sequence
from typing import Final

from engine.cli import calculated
from engine.cli.command import Command, add_json, json_text, parser
from engine.errors import Failure, Refusal
from engine.nearest import meant
from engine.plain import clean
from engine.quantity import dimension, spelling
from engine.trade.calculator import Calculator, Sum, compute
from engine.trade.registry import calculators, find, names

_ABOUT = (
    "Without a name: list the calculators by family. With one: explain it - inputs with their units and\n"
    "bounds, formula, source, where it holds. With inputs: work it out and print the sum.\n"
    "Values are typed as on paper: 30, '30 ft-lb', 1/2in; lists as 1984,1990,1976,1984.\n"
    "Exit code 0: done; 2: it cannot be worked out, and why."
)


def _parser() -> argparse.ArgumentParser:
    made = parser("calc", _ABOUT, "witnessmark calc tread-wear depth='2/32 in' diameter=632")
    made.add_argument("name", nargs="?", metavar="NAME", help="which calculator")
    made.add_argument("inputs", nargs="*", metavar="INPUT=VALUE", help="its inputs, by name or symbol")
    made.add_argument(
        "--in",
        dest="units",
        action="append",
        default=[],
        metavar="[OUTPUT=]UNIT",
        help="give an output, or each of that kind, in this unit; may be given again",
    )
    add_json(made)
    return made


def _run(options: argparse.Namespace) -> int:
    if options.name is None:
        every = calculators()
        print(json_text(calculated.listed(every)) if options.json else calculated.listing(every))
        return 0
    found = find(options.name)
    if found is None:
        raise Failure(f"There is no calculator `{options.name}`.", meant(options.name, names()))
    if not options.inputs:
        print(json_text(calculated.described(found)) if options.json else calculated.page(found))
        return 0
    made = _sum(found, options.inputs, options.units)
    print(json_text(calculated.reckoned(made)) if options.json else clean("\n".join(made.lines)))
    return 0


def _sum(calculator: Calculator, inputs: Sequence[str], units: Sequence[str]) -> Sum:
    made = compute(calculator, _given(inputs), _asked(calculator, units))
    if isinstance(made, Refusal):
        raise Failure(made.message, made.cure)
    return made


def _given(words: Sequence[str]) -> Mapping[str, str]:
    """`name=value` by name; a name that is given twice would hide one of its values."""
    given: dict[str, str] = {}
    for word in words:
        name, equals, value = word.partition("=")
        if not equals:
            raise Failure(
                f"`{word}` gives no input a value.", "Write it as INPUT=VALUE, without spaces at =."
            )
        if name in given:
            raise Failure(f"`{name}` is given twice.", "Give it once; a list is parted by commas.")
        given[name] = value
    return given


def _asked(calculator: Calculator, words: Sequence[str]) -> Mapping[str, str]:
    """The unit that is asked for, by output; a unit alone is for every output of its kind."""
    asked: dict[str, str] = {}
    for word in words:
        name, equals, unit = word.partition("=")
        asked |= {name: unit} if equals else dict.fromkeys(_of_kind(calculator, word), word)
    return asked


def _of_kind(calculator: Calculator, typed: str) -> Sequence[str]:
    unit = spelling(typed)
    kinds = {output.name: dimension(output.unit) for output in calculator.outputs}
    fitting = [name for name, kind in kinds.items() if unit and kind == dimension(unit)]
    if not fitting:
        given = ", ".join(f"`{output.name}`" for output in calculator.outputs)
        raise Failure(
            f"No output of `{calculator.name}` is told in `{typed}`.", f"Write OUTPUT=UNIT; it gives {given}."
        )
    return fitting


COMMAND: Final = Command(_parser, _run)
