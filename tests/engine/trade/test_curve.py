"""Curves of the calculators: their points, where the input stands, and the plots that there are."""

import shlex

import pytest

from engine.trade.calculator import Calculator, Sum, compute
from engine.trade.curve import Curve, Plot, curve
from engine.trade.registry import calculators, find

PLOTTED = [(made, plot) for made in calculators() for plot in made.plots]
IDS = [f"{made.name}-{plot.shows}" for made, plot in PLOTTED]


def known(name: str) -> Calculator:
    """The calculator of a name that there is."""
    found = find(name)
    assert found is not None
    return found


def given(made: Calculator) -> dict[str, str]:
    """The inputs of its example."""
    return {name: value for name, _, value in (word.partition("=") for word in shlex.split(made.example))}


def drawn(made: Calculator, plot: Plot, **typed: str) -> Curve:
    """The curve of the example, with some inputs typed otherwise."""
    found = curve(made, plot, {**given(made), **typed}, 11)
    assert found is not None
    return found


@pytest.mark.parametrize(("made", "plot"), PLOTTED, ids=IDS)
def test_the_curve_of_an_example_has_a_height_at_nearly_every_place(made: Calculator, plot: Plot) -> None:
    """The range of a plot lies where its calculator holds, but for its ends."""
    for line in drawn(made, plot).lines:
        assert all(height is not None for height in line.heights[1:])


@pytest.mark.parametrize(("made", "plot"), PLOTTED, ids=IDS)
def test_each_curve_of_a_plot_has_a_name_of_its_own(made: Calculator, plot: Plot) -> None:
    """One that stands alone needs none."""
    names = [line.name for line in drawn(made, plot).lines]

    assert len(names) == len(set(names)) >= 1


@pytest.mark.parametrize(("made", "plot"), PLOTTED, ids=IDS)
def test_the_range_lies_within_the_bounds_of_the_input(made: Calculator, plot: Plot) -> None:
    """And rises."""
    (over,) = (one for one in made.inputs if one.name == plot.over)

    assert over.least <= plot.low < plot.high <= over.most


def test_heat_grows_with_the_square_of_the_mismatch() -> None:
    """Slip grows with it, and torque with slip: four times the heat for twice the mismatch."""
    made = known("mismatch-heat")
    heights = drawn(made, made.plots[0]).lines[0].heights

    assert heights[4] == pytest.approx(4 * (heights[2] or 0))


def test_a_point_is_what_the_calculator_says_there() -> None:
    """The same sum, made at a place of the curve."""
    made = known("mismatch-heat")
    found = drawn(made, made.plots[0])
    there = compute(made, {**given(made), "mismatch": str(found.places[3])})
    assert isinstance(there, Sum)
    heats = there.outputs["heats"]
    assert isinstance(heats, tuple)

    assert [line.heights[3] for line in found.lines] == pytest.approx([float(one.value) for one in heats])  # type: ignore[union-attr]  # reason: heats have a unit


def test_the_curve_reaches_to_the_input_that_lies_beyond_its_range() -> None:
    """What was typed is on the picture."""
    made = known("mismatch-heat")
    found = drawn(made, made.plots[0], mismatch="8")

    assert (found.places[-1], found.now) == (8.0, 8.0)


def test_the_input_that_varies_may_be_missing() -> None:
    """The curve stands without a mark on it."""
    made = known("mismatch-heat")
    found = curve(made, made.plots[0], {"circumference": "1927.6"}, 5)

    assert found is not None
    assert found.now is None


def test_there_is_no_curve_where_another_input_is_missing() -> None:
    """Nothing is made up."""
    made = known("mismatch-heat")

    assert curve(made, made.plots[0], {"mismatch": "1"}, 5) is None


def test_the_place_of_the_input_is_in_the_unit_of_the_axis() -> None:
    """A tenth of an inch of tread stands at 2.54 mm."""
    made = known("tread-wear")

    assert drawn(made, made.plots[0], depth="0.1 in").now == 2.54
