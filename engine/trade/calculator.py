"""The one door to the trade's arithmetic: typed inputs go in, a sum that a person can follow comes out."""

from collections.abc import Callable, Mapping, Sequence
from fractions import Fraction
from math import isfinite
from typing import Final, Literal, NamedTuple

from engine.errors import Refusal
from engine.quantity import Quantity, dimension
from engine.trade.giving import converted, kept
from engine.trade.inputs import ANY, SAME, TEXT, WORD, Function, Input, Output, Values
from engine.trade.plot import Plot
from engine.trade.quick import exactly, quick, several, several_exactly
from engine.trade.taking import Given, Kept, Taken, missing, take, unknown

__all__ = ["Calculator", "Given", "Input", "Kept", "Output", "Sum", "Values", "compute", "figure"]

Mark = Literal["published", "common-practice", "memory", "computed", "invented"]
_WORDS: Final = (WORD, TEXT)
#: What a function gets for one input.
Argument = Fraction | float | str | None | tuple[Fraction | float | str, ...]


class Calculator(NamedTuple):
    """One piece of the trade's arithmetic, with everything that must be known to trust it."""

    name: str
    family: str
    #: No more than 60 characters.
    title: str
    inputs: tuple[Input, ...]
    outputs: tuple[Output, ...]
    #: Called by keyword; gives a tuple with one value for each output, in its unit, or refuses.
    function: Function
    #: In the symbols: a line for each output, and any between them.
    formula: tuple[str, ...]
    source: str
    mark: Mark
    #: Where it holds and where it does not.
    valid: str
    #: The function is plain arithmetic: it gets fractions, so that nothing is lost at a limit.
    exact: bool = False
    #: Inputs that a person might type, as a shell takes them: `torque=30 length='12 in'`.
    example: str = ""
    #: Curves that say more than the numbers.
    plots: tuple[Plot, ...] = ()

    @property
    def least_inputs(self) -> int:
        """The fewest readings that a tree must give; none where it cannot be made of readings alone."""
        first, *others = self.inputs
        alone = all(other.default or other.optional for other in others)
        return first.many if alone and len(self.outputs) == 1 and self.outputs[0].unit not in _WORDS else 0

    def output(self, name: str) -> Output | None:
        """The output of this name, the first where none is named; None where there is no such one."""
        named = (output for output in self.outputs if name in ("", output.name))
        return next(named, None)

    def result_unit(self, unit: str) -> str | None:
        """The unit of the figure of readings in `unit`; None where it cannot be made of such readings."""
        kind, wanted, given = dimension(unit), self.inputs[0].unit, self.outputs[0].unit
        if kind is None or not self.least_inputs:
            return None
        if wanted == ANY:
            return None if kind == "temperature" else unit if given == SAME else given
        return given if wanted and kind == dimension(wanted) else None


class Sum(NamedTuple):
    """One calculation: what went in as it was given, and what came out, each by its name."""

    calculator: Calculator
    #: By the name of the input, defaults among them.
    given: Mapping[str, Given]
    #: What the function gave, in the units of the outputs.
    made: Values
    units_out: Mapping[str, str]

    @property
    def taken(self) -> Mapping[str, Taken]:
        """The inputs as they were given and as the function got them."""
        out: dict[str, Taken] = {}
        for wanted in self.calculator.inputs:
            if wanted.name in self.given:
                found = take(self.calculator.name, wanted, self.given[wanted.name])
                assert not isinstance(found, Refusal)
                out[wanted.name] = found
        return out

    @property
    def inputs(self) -> Mapping[str, Kept]:
        """What went in, in the units that were given."""
        return {name: one.kept for name, one in self.taken.items()}

    @property
    def outputs(self) -> Mapping[str, Kept]:
        """What came out; what does not apply is not among it."""
        found = _told(self.calculator, self.given, self.made, self.units_out)
        assert not isinstance(found, Refusal)
        return found

    @property
    def lines(self) -> tuple[str, ...]:
        """The sum as a person would write it: inputs, formula, figures put in, result with its unit."""
        from engine.trade.sums import told  # most sums are compared or drawn, and never written out

        maker = self.calculator
        return told(maker.inputs, maker.outputs, maker.formula, self.taken, self.outputs)


def compute(
    calculator: Calculator, given: Mapping[str, Given], units_out: Mapping[str, str] | None = None
) -> Sum | Refusal:
    """What the calculator makes of what was given; `units_out` says in which unit to give an output.

    Inputs go by name or by symbol; texts are read as people type them, with or without a unit. Refuses, with
    the cure: inputs that are unknown, missing, of another kind, outside their bounds, too few, and words that
    are not among the choices.
    """
    plan = _plan(calculator)
    arguments = _arguments(plan, given)
    if arguments is None:
        renamed = _renamed(calculator, {**plan.defaults, **given})
        return renamed if isinstance(renamed, Refusal) else compute(calculator, renamed, units_out)
    made = calculator.function(**arguments)
    if isinstance(made, Refusal):
        return made
    named = {**plan.defaults, **given}
    return (
        _endless(calculator, made)
        or (units_out and _mistold(calculator, named, made, units_out))
        or Sum._make((calculator, named, made, units_out or {}))
    )


def figure(calculator: Calculator, readings: Sequence[Quantity]) -> Quantity | Refusal:
    """The one figure that a tree compares, of readings alone."""
    made = compute(calculator, {calculator.inputs[0].name: readings})
    if isinstance(made, Refusal):
        return made
    (value,) = made.outputs.values()
    assert isinstance(value, Quantity)
    return value


#: From a text to what the function gets; None where that takes a second look.
Short = Callable[[str, Input], Argument | None]


class _Plan(NamedTuple):
    """What is the same for every sum of one calculator."""

    calculator: Calculator
    defaults: Mapping[str, str]
    #: The input and its name, the function's keyword, the short way to what is typed plainly, and what the
    #: function gets where it is left out.
    parameters: tuple[tuple[Input, str, str, Short | None, Argument | Refusal], ...]


_plans: dict[int, _Plan] = {}


def _plan(calculator: Calculator) -> _Plan:
    """The plan, made once: a calculator is long, and is told from others by being the same one."""
    plan = _plans.get(id(calculator))
    if plan is not None and plan.calculator is calculator:
        return plan
    if len(_plans) > 1000:
        _plans.clear()
    plan = _plans[id(calculator)] = _Plan(
        calculator,
        {one.name: one.default for one in calculator.inputs if one.default},
        tuple(
            (one, one.name, one.name.replace("-", "_"), _short(calculator, one), _absent(calculator, one))
            for one in calculator.inputs
        ),
    )
    return plan


def _absent(calculator: Calculator, wanted: Input) -> Argument | Refusal:
    """What the function gets for an input that is left out; refused where it must be given."""
    if wanted.default:
        return _argument(calculator, wanted, wanted.default)
    return None if wanted.optional else Refusal("missing", f"{wanted.name} is missing.", "Give it.")


def _arguments(plan: _Plan, given: Mapping[str, Given]) -> dict[str, Argument] | None:
    """What the function gets; None where something is lacking, wrong, or goes by another name."""
    arguments: dict[str, Argument] = {}
    known = 0
    for wanted, name, keyword, short, absent in plan.parameters:
        typed = given.get(name)
        if typed is None:
            value = absent
        else:
            known += 1
            number = short(typed, wanted) if short and type(typed) is str else None
            value = _argument(plan.calculator, wanted, typed) if number is None else number
        if type(value) is Refusal:
            return None
        arguments[keyword] = value
    return arguments if known == len(given) else None


def _short(calculator: Calculator, wanted: Input) -> Short | None:
    """The short way to what is typed plainly; None where there is none."""
    if wanted.unit in _WORDS or (wanted.unit == ANY and not wanted.many):
        return None
    if wanted.many:
        return several_exactly if calculator.exact else several
    return exactly if calculator.exact else quick


def _renamed(calculator: Calculator, given: Mapping[str, Given]) -> dict[str, Given] | Refusal:
    """What was given, with names for symbols; refused where one is unknown, wrong or lacking.

    What is wrong is told before what is lacking: whoever types one input after the other hears of a slip at
    once.
    """
    inputs = calculator.inputs
    names = {one.symbol: one.name for one in inputs} | {one.name: one.name for one in inputs}
    named = {one.name: given[one.name] for one in inputs if one.name in given}
    named |= {names.get(word, word): value for word, value in given.items() if word not in named}
    wrong = (take(calculator.name, one, named[one.name]) for one in inputs if one.name in named)
    return (
        unknown(calculator.name, inputs, named)
        or next((refused for refused in wrong if isinstance(refused, Refusal)), None)
        or missing(calculator.name, inputs, named)
        or named
    )


def _argument(calculator: Calculator, wanted: Input, given: Given) -> Argument | Refusal:
    """What the function gets for one input, by the long way."""
    found = take(calculator.name, wanted, given)
    if isinstance(found, Refusal):
        return found
    values = tuple(_plain(value, exact=calculator.exact) for value in found.values)
    return values if wanted.many else values[0]


def _plain(value: Fraction | str, *, exact: bool) -> Fraction | float | str:
    return value if exact or isinstance(value, str) else float(value)


def _endless(calculator: Calculator, made: Values) -> Refusal | None:
    """The first output that is no number to go on with."""
    for value in made:
        if type(value) is not float or not isfinite(value):
            break
    else:
        return None  # as nearly all are
    for output, value in zip(calculator.outputs, made, strict=True):
        for one in value if isinstance(value, tuple) else (value,):
            if not (one is None or isinstance(one, str) or isfinite(one)):
                message = f"{output.name}: The sum has no end with these figures."
                return Refusal("no-number", message, "Look for one that is nothing.")
    return None


def _mistold(
    calculator: Calculator, given: Mapping[str, Given], made: Values, units_out: Mapping[str, str]
) -> Refusal | None:
    """Why what the function gave cannot be told in the units that were asked for."""
    told = _told(calculator, given, made, units_out)
    return told if isinstance(told, Refusal) else None


def _told(
    calculator: Calculator, given: Mapping[str, Given], made: Values, units_out: Mapping[str, str]
) -> dict[str, Kept] | Refusal:
    """What the function gave, with names and in the units that were asked for."""
    out: dict[str, Kept] = {}
    for output, value in zip(calculator.outputs, made, strict=True):
        if value is not None:
            out[output.name] = kept(value, _unit(calculator, output, given))
    return converted(calculator.name, calculator.outputs, out, units_out)


def _unit(calculator: Calculator, output: Output, given: Mapping[str, Given]) -> str:
    """The unit of an output, which may be that of the readings."""
    if output.unit != SAME:
        return output.unit
    first = calculator.inputs[0]
    found = take(calculator.name, first, given[first.name])
    assert not isinstance(found, Refusal)
    return found.unit
