"""Every calculator that there is, and what a tree may make of readings."""

import re
import shlex
from fractions import Fraction
from importlib import import_module
from inspect import signature
from pathlib import Path

import pytest

from engine import trade
from engine.errors import Refusal
from engine.quantity import Quantity, dimension, units
from engine.trade.calculator import Calculator, Input, Output, Sum, compute, figure
from engine.trade.contents import CONTENTS
from engine.trade.registry import calculators, find, names
from engine.trade.taking import take

FIGURES = [calculator.name for calculator in calculators() if calculator.least_inputs]
OF_ANY = [made.name for made in calculators() if made.least_inputs and made.inputs[0].unit == "any"]


def known(name: str) -> Calculator:
    """The calculator of a name that there is."""
    calculator = find(name)
    assert calculator is not None
    return calculator


def some(calculator: Calculator, unit: str) -> list[Quantity]:
    """As few different readings as the calculator takes."""
    return [Quantity(Fraction(10 + k), unit) for k in range(calculator.least_inputs)]


def test_names_are_unique() -> None:
    """A name in a tree means one formula."""
    assert sorted(set(names())) == sorted(names())


FILES = [
    pytest.param(family, file, titles, id=file)
    for family, files in CONTENTS.items()
    for file, titles in files.items()
]


@pytest.mark.parametrize(("family", "file", "titles"), FILES)
def test_the_contents_tell_what_is_in_a_file(family: str, file: str, titles: dict[str, str]) -> None:
    """What is known of calculators before their file is read is what they say of themselves, in order."""
    made = import_module(f"engine.trade.{file}").CALCULATORS

    assert [(one.family, one.name, one.title) for one in made] == [
        (family, name, title) for name, title in titles.items()
    ]


def test_the_contents_name_every_file_of_calculators() -> None:
    """A file that they forget could be neither listed nor found."""
    with_calculators = {
        path.stem
        for path in Path(trade.__path__[0]).glob("*.py")
        if "\nCALCULATORS" in path.read_text("utf-8")
    }

    assert with_calculators == {file for files in CONTENTS.values() for file in files}


def test_the_tyre_figures_can_be_named() -> None:
    """Trees may ask for the spread and for the relative spread."""
    assert {"spread", "relative-spread"} <= set(FIGURES)


def test_an_unknown_name_finds_nothing() -> None:
    """A name that no calculator has is told as such."""
    assert find("sprad") is None


@pytest.mark.parametrize("name", names())
def test_a_calculator_tells_what_must_be_known_to_trust_it(name: str) -> None:
    """Its title, formula, source and validity are given, and it goes by the name it is found by."""
    found = known(name)

    assert found.name == name
    assert found.title
    assert all(found.formula)
    assert found.source
    assert found.valid.endswith(".")


@pytest.mark.parametrize("name", names())
def test_inputs_and_outputs_are_named_and_united_rightly(name: str) -> None:
    """Names are kebab-case and unique, units are known, bounds in order, words have choices."""
    found = known(name)
    every: list[Input | Output] = [*found.inputs, *found.outputs]
    words = {"", "word", "text", "any", "same"}

    assert all(re.fullmatch(r"[a-z][a-z0-9]*(-[a-z0-9]+)*", one.name) for one in every)
    assert len({one.name for one in found.inputs}) == len(found.inputs)
    assert len({one.symbol for one in found.inputs}) == len(found.inputs)
    assert len({one.name for one in found.outputs}) == len(found.outputs)
    assert all(one.unit in words or dimension(one.unit) for one in every)
    assert all(one.least < one.most for one in found.inputs)
    assert all(bool(one.choices) == (one.unit == "word") for one in found.inputs)


@pytest.mark.parametrize("name", names())
def test_a_function_takes_its_inputs_by_their_names(name: str) -> None:
    """Each input is a parameter, and each parameter that must be given is an input."""
    found = known(name)

    signature(found.function).bind(**{one.name.replace("-", "_"): None for one in found.inputs})


@pytest.mark.parametrize("name", [made.name for made in calculators() if made.example])
def test_an_example_comes_out(name: str) -> None:
    """What the manual page shows can be typed."""
    found = known(name)
    given = dict(word.split("=", 1) for word in shlex.split(found.example))

    assert isinstance(compute(found, given), Sum)


DEFAULTS = [
    pytest.param(calculator, wanted, id=f"{calculator.name}-{wanted.name}")
    for calculator in calculators()
    for wanted in calculator.inputs
    if wanted.default
]


@pytest.mark.parametrize(("calculator", "wanted"), DEFAULTS)
def test_every_default_is_taken(calculator: Calculator, wanted: Input) -> None:
    """What stands in for an input that is left out is itself within the bounds."""
    assert not isinstance(take(calculator.name, wanted, wanted.default), Refusal)


@pytest.mark.parametrize("unit", units())
@pytest.mark.parametrize("name", OF_ANY)
def test_the_result_has_the_unit_that_was_promised(name: str, unit: str) -> None:
    """The unit told beforehand is that of the figure; where none is told, the figure is refused."""
    calculator = known(name)
    promised = calculator.result_unit(unit)

    made = figure(calculator, some(calculator, unit))

    if promised is None:
        assert isinstance(made, Refusal)
        assert "temperature" in made.message
    else:
        assert isinstance(made, Quantity)
        assert made.unit == promised


@pytest.mark.parametrize("name", OF_ANY)
def test_fewer_readings_than_the_least_make_no_figure(name: str) -> None:
    """The least number of inputs told is the true one."""
    refused = figure(known(name), some(known(name), "mm")[1:])

    assert isinstance(refused, Refusal)
    assert refused.kind == "too-few"


@pytest.mark.parametrize("name", names())
def test_an_unknown_unit_has_no_result_unit(name: str) -> None:
    """Lint can ask about any word that a document gives for a unit."""
    assert known(name).result_unit("furlong") is None
