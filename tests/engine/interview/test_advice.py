"""What would decide readings that are too close to call, where a step has several, or several gauges."""

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction
from math import hypot
from typing import Final

import pytest

from engine.errors import Refusal
from engine.interview.advice import close
from engine.interview.reading import Weighed, measure, taken, weighed
from engine.interview.state import State
from engine.model.tree import Measure
from engine.records.event import Measured
from tests.engine.interview.given import tree, walk

#: Standard uncertainties of one reading: the rule 0.333 mm (0.3 and 0.5/sqrt(12)), the dial 0.0104 mm (0.01
#: and 0.01/sqrt(12)), the tape 2.02 mm (2 and 1/sqrt(12)); computed.
RULE: Final = hypot(0.3, 0.5 / 12**0.5)
GAUGES: Final = {"dial": ("0.01", "0.01"), "tape": ("1", "2")}
STEPS: Final = """
    first:
      measure: How far apart?
      readings: {gauge: rule, unit: mm, plausible: [0, 300], each: [a, b, c]}
      figure: spread
      bands: [{upto: 10, then: ended}, {over: 10, then: ended}]
      unsure: ended
    """


def bench(**gauges: str) -> tuple[State, Measure]:
    """A step of three readings with the rule; those named are read with another gauge."""
    state = walk(tree(STEPS))
    shop, step = state.library.shop, state.step
    assert isinstance(step, Measure)
    more = {
        name: shop.gauges["rule"]._replace(
            title=name.capitalize(), resolution=Fraction(r), uncertainty=Fraction(u)
        )
        for name, (r, u) in GAUGES.items()
    }
    wants = tuple(want._replace(gauge=gauges.get(want.name, want.gauge)) for want in step.readings)
    library = state.library._replace(shop=replace(shop, gauges={**shop.gauges, **more}))
    return state._replace(library=library), Measure(**{**vars(step), "readings": wants})


def found(typed: str, **gauges: str) -> tuple[State, Measure, Weighed]:
    """What readings of a, b and c come to."""
    state, step = bench(**gauges)
    each = taken(step, dict(zip("abc", typed.split(), strict=True)))
    assert not isinstance(each, Refusal)
    got = weighed(state, step, each)
    assert not isinstance(got, Refusal)
    return state, step, got


def told(typed: str, **gauges: str) -> str:
    """What would decide them."""
    state, step, got = found(typed, **gauges)
    return close(state, step, got.figure, got.band, got.sure).cure


def test_a_spread_is_as_uncertain_as_its_ends() -> None:
    """Largest and smallest add as squares; the one between, far from both, adds nothing."""
    parts = found("100 105 109.5")[2].sure.parts

    assert parts == pytest.approx({"a": RULE, "b": 0, "c": RULE})


def test_each_end_counts_with_its_own_gauge() -> None:
    """The dial adds nearly nothing to what the rule adds."""
    sure = found("100 105 109.5", a="dial")[2].sure

    assert sure.uncertainty == pytest.approx(hypot(RULE, 0.01, 0.01 / 12**0.5))


@pytest.mark.parametrize(
    ("typed", "gauges", "told_first"),
    [
        ("100 105 109.3", {}, "Read a or c once more, or"),
        ("100 105 109.4", {}, "Read a and c once more each, or"),
        ("100 105 109.5", {}, "Read a and c 3 more times each, or"),
        ("100 109.4 109.4", {}, "Read a, b and c 3 more times each, or"),
        ("100 105 109.5", {"a": "dial"}, "Read c once more, or"),
        ("100 105 108", {"c": "tape"}, "Read c 3 more times, or"),
        ("100;100 105 109.35", {}, "Read c once more, or"),
        (
            "100;103 105 109.4",
            {},
            "Read a once more, as the readings lie too far apart and one was misread, or",
        ),
    ],
    ids=[
        "one of the ends",
        "both ends",
        "often",
        "all",
        "the coarse one",
        "the coarsest",
        "the one soonest done",
        "the misread one",
    ],
)
def test_the_reading_that_matters_is_to_be_repeated(
    typed: str, gauges: Mapping[str, str], told_first: str
) -> None:
    """One alone where that decides, else all that add to the figure; none that adds nothing."""
    assert told(typed, **gauges).startswith(told_first)


@pytest.mark.parametrize(
    ("typed", "gauges", "said"),
    [
        ("100 105 109.3", {}, ", or use a gauge good to 0.2 mm (Dial), or"),
        ("100 105 109.5", {"a": "dial"}, ", or use a gauge good to 0.2 mm (Dial) for c, or"),
        ("100 105 108", {"c": "tape"}, ", or use a gauge good to 1 mm (Dial, Steel rule) for c, or"),
        ("100 105 107", {"c": "tape"}, ", or use a gauge good to 1 mm (Dial, Steel rule) for c, or"),
        ("100 105 109.9", {"c": "tape"}, "Use gauges good to 0.05 mm (Dial) for c and 0.009 mm for a, or"),
    ],
    ids=["all alike", "the coarse one", "the coarsest", "no coarser than what is used", "both"],
)
def test_a_finer_gauge_is_for_the_reading_that_matters(
    typed: str, gauges: Mapping[str, str], said: str
) -> None:
    """Where the readings have several gauges it is said which one is too coarse."""
    assert said in told(typed, **gauges)


def test_what_is_proposed_decides() -> None:
    """Repeated as often as was said, and no less often, the same readings are sure enough."""
    confidence = float(found("100 105 109.5")[0].tree.confidence)
    sure = [found(f"100{';100' * k} 105 109.5{';109.5' * k}")[2].sure.probability for k in (2, 3)]

    assert sure[0] < confidence <= sure[1]


def test_the_gauge_that_was_proposed_decides() -> None:
    """Read with the dial, the coarsest reading no longer matters."""
    assert found("100 105 108", c="tape")[2].sure.probability < 0.95
    assert found("100 105 108", c="dial")[2].sure.probability > 0.95


def test_the_record_names_every_gauge_once() -> None:
    """In the order of the readings."""
    state, step = bench(b="dial")
    event = measure(state, step, {"a": "100", "b": "101", "c": "102"}, insist=False, settle=False)

    assert isinstance(event, Measured)
    assert event.gauge == "rule, dial"


def test_the_gauge_in_hand_is_not_proposed() -> None:
    """Readings that scatter by more than their gauge should are no reason to fetch the same one."""
    said = told("100;100.9 105 109.6")

    assert "Dial" in said
    assert "Steel rule" not in said
