"""What a calculator takes and what it gives, described for people and for programs."""

from collections.abc import Callable
from fractions import Fraction
from math import inf
from typing import Final, NamedTuple

from engine.errors import Refusal

#: What a function of the trade gets and gives: numbers in the units of its inputs and outputs, or words.
Value = Fraction | float | str | None | tuple[Fraction, ...] | tuple[float, ...] | tuple[str, ...]
Values = tuple[Value, ...]
Function = Callable[..., Values | Refusal]

#: Units that are none: one of the choices, any text, and readings of any one kind.
WORD: Final = "word"
TEXT: Final = "text"
ANY: Final = "any"
#: The unit of an output that has that of the readings of kind `ANY`.
SAME: Final = "same"


class Input(NamedTuple):
    """One thing that a calculator has to be told.

    A number comes in `unit`, whatever unit it was typed in; `K` is a difference of temperatures, `°C` a
    temperature. Outside `least` to `most`, in that unit, the calculator does not hold.
    """

    #: In kebab-case; the function takes it by this name with `_` for `-`.
    name: str
    #: As it stands in the formula.
    symbol: str
    title: str
    #: `""` for a plain number, `word` for one of `choices`, `text` for any text, `any` for readings alike.
    unit: str
    least: float = -inf
    most: float = inf
    #: As a person would type it; empty where it must be given.
    default: str = ""
    choices: tuple[str, ...] = ()
    #: More than none: a list of at least so many values.
    many: int = 0
    #: It may be left out; the function then gets None.
    optional: bool = False


class Output(NamedTuple):
    """One thing that a calculator tells; the function may give None where it does not apply."""

    name: str
    symbol: str
    title: str
    #: `""` for a plain number, `word` and `text` for words, `same` for the unit of readings of kind `any`.
    unit: str
