"""`witnessmark calc`: the trade's arithmetic listed, explained, and worked out with units.

Each of the three imports what it needs itself, for people type one after the other and wait.
"""

import gc
from collections.abc import Sequence
from typing import TYPE_CHECKING, Final

from engine.cli.command import Command, add_json, json_text, parser
from engine.errors import Failure
from engine.nearest import meant
from engine.plain import clean
from engine.trade.registry import find, names

if TYPE_CHECKING:
    import argparse

    from engine.trade.calculator import Calculator

_ABOUT = (
    "Without a name: list the calculators by family. With one: explain it - inputs with their units and\n"
    "bounds, formula, source, where it holds. With inputs: work it out and print the sum.\n"
    "Values are typed as on paper: 30, '30 ft-lb', 1/2in; lists as 1984,1990,1976,1984.\n"
    "Exit code 0: done; 2: it cannot be worked out, and why."
)


def _parser() -> "argparse.ArgumentParser":
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


def _run(options: "argparse.Namespace") -> int:
    return _told(options.name, options.inputs, options.units, json=options.json)


def _plainly(words: Sequence[str]) -> int | None:
    """Without options there is nothing to parse: a name, then its inputs."""
    if any(word.startswith("-") for word in words):
        return None
    return _told(words[0] if words else None, words[1:], (), json=False)


def _told(name: str | None, inputs: Sequence[str], units: Sequence[str], *, json: bool) -> int:
    # one answer leaves no garbage worth a look: collecting it would take a tenth of the time
    gc.disable()
    try:
        print(_text(name, inputs, units, json=json))
    finally:
        gc.enable()
    return 0


def _text(name: str | None, inputs: Sequence[str], units: Sequence[str], *, json: bool) -> str:
    if name is None:
        return _listed(json=json)
    found = find(name)
    if found is None:
        raise Failure(f"There is no calculator `{name}`.", meant(name, names()))
    return _worked(found, inputs, units, json=json) if inputs else _explained(found, json=json)


def _listed(*, json: bool) -> str:
    from engine.cli.listed import listed, listing

    return json_text(listed()) if json else listing()


def _explained(calculator: "Calculator", *, json: bool) -> str:
    from engine.cli.calculated import described, page

    return json_text(described(calculator)) if json else page(calculator)


def _worked(calculator: "Calculator", inputs: Sequence[str], units: Sequence[str], *, json: bool) -> str:
    from engine.cli.worked import reckoned, worked

    made = worked(calculator, inputs, units)
    return json_text(reckoned(made)) if json else "\n".join(map(clean, made.lines))


COMMAND: Final = Command(_parser, _run, _plainly)
