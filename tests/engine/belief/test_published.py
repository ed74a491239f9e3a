"""The engine's Bayes' rule and entropies against published examples; source and mark beside each figure."""

from collections.abc import Mapping, Sequence
from fractions import Fraction
from typing import Final

import pytest

from engine.belief.entropy import entropy, expected, gain
from engine.belief.update import Belief, prior, updated


def test_three_positive_tests_in_a_row() -> None:
    """Prior 0.1, sensitivity 0.9, specificity 0.8 (Bayes' rule by hand; computed): each positive in turn."""
    belief = Belief(("worn", "elsewhere"), (0.1, 0.9))
    seen = []
    for _ in range(3):
        belief = updated(belief, (0.9, 1 - 0.8))
        seen.append(round(belief.share("worn"), 6))
    assert seen == [0.333333, 0.692308, 0.910112]


# The car that does not start: Jensen and Nielsen, Bayesian Networks and Decision Graphs, 2nd ed., Springer
# 2007, page 35 on (published). P(fuel) 0.98, P(clean plugs) 0.96. Each pair of causes is a suspect; where
# both are in order, that is `elsewhere`.
CAR: Final = prior(
    {
        "no-fuel": Fraction(2, 100) * Fraction(96, 100),
        "dirty": Fraction(98, 100) * Fraction(4, 100),
        "no-fuel-dirty": Fraction(2, 100) * Fraction(4, 100),
    },
    Fraction(98, 100) * Fraction(96, 100),
)
NO_START: Final = (1.0, 0.99, 1.0, 0.01)
HALF_FULL: Final = (0.001, 0.6, 0.001, 0.6)
FUEL: Final = ("no-fuel", "no-fuel-dirty")
PLUGS: Final = ("dirty", "no-fuel-dirty")
#: Evidence; cause; as the book prints it, with half a unit of its last place; computed to eight places.
CAR_STARTS: Final = (
    ("no start, fuel", [NO_START], FUEL, (0.29, 0.005), 0.29318635),
    ("no start, plugs", [NO_START], PLUGS, (0.58, 0.005), 0.58062625),
    ("no start and half full, fuel", [NO_START, HALF_FULL], FUEL, (0.001, 0.0005), 6.90855832e-4),
    ("no start and half full, plugs", [NO_START, HALF_FULL], PLUGS, (0.804, 0.0005), 0.80434963),
)


@pytest.mark.parametrize(
    ("signs", "causes", "book", "computed"), [case[1:] for case in CAR_STARTS], ids=[c[0] for c in CAR_STARTS]
)
def test_car_that_does_not_start(
    signs: Sequence[Sequence[float]], causes: Sequence[str], book: tuple[float, float], computed: float
) -> None:
    """The posterior is the book's within its rounding, and the computed one within 1e-8."""
    belief = CAR
    for sign in signs:
        belief = updated(belief, sign)
    assert belief.share(*causes) == pytest.approx(book[0], abs=book[1])
    assert belief.share(*causes) == pytest.approx(computed, abs=1e-8)


def test_burglary_that_two_neighbours_report() -> None:
    """P(burglary | both call) is 0.284 (Russell and Norvig, Artificial Intelligence: A Modern Approach).

    Every combination of burglary, earthquake and alarm is a suspect: the neighbours hear the same alarm.
    """
    rings = {(True, True): "0.95", (True, False): "0.94", (False, True): "0.29", (False, False): "0.001"}
    weights: dict[str, Fraction] = {}
    for (burglary, quake), chance in rings.items():
        root = Fraction("0.001" if burglary else "0.999") * Fraction("0.002" if quake else "0.998")
        for alarm in (True, False):
            ringing = Fraction(chance) if alarm else 1 - Fraction(chance)
            weights[f"{'b' * burglary}{'q' * quake}{'a' * alarm}"] = root * ringing
    nothing = weights.pop("")
    belief = prior(weights, nothing)
    alarmed = ["a" in name for name in (*weights, "")]
    belief = updated(belief, [0.90 if alarm else 0.05 for alarm in alarmed])
    belief = updated(belief, [0.70 if alarm else 0.01 for alarm in alarmed])
    assert round(belief.share(*(name for name in weights if name.startswith("b"))), 3) == 0.284


# Three multipliers and two adders: A 3, B 2, C 2, D 3, E 3; F is seen to be 10 and not 12, G is 12 as it
# should.
# Circuit and minimal diagnoses: de Kleer and Williams, Artificial Intelligence 32:97-130, 1987 (from memory);
# the figures are computed from them. What each diagnosis says of the three values between:
CIRCUIT: Final[Mapping[str, tuple[int, int, int]]] = {
    "A1": (6, 6, 6),
    "M1": (4, 6, 6),
    "A2M2": (6, 4, 6),
    "M2M3": (6, 4, 8),
}
#: Fault probability of a part; P(A1) = P(M1), P(A2M2) = P(M2M3); bits open now, and after X, Y or Z.
BITS: Final = (
    (Fraction(1, 100), (0.495, 0.005), 1.080793, (0.080865, 1.000000, 1.035378)),
    (Fraction(5, 100), (0.475, 0.025), 1.286397, (0.288201, 1.000000, 1.117736)),
)


def circuit(part: Fraction) -> Belief:
    """The belief in the four diagnoses alone."""
    whole = 1 - part
    single, double = part * whole**4, part**2 * whole**3
    weights = {"A1": single, "M1": single, "A2M2": double, "M2M3": double}
    return updated(prior(weights), (1, 1, 1, 1, 0))


def probe(place: int) -> tuple[tuple[float, ...], ...]:
    """The table of measuring X, Y or Z: a row for each value that a diagnosis foretells."""
    values = [told[place] for told in CIRCUIT.values()]
    return tuple((*(float(v == value) for v in values), 0.0) for value in sorted(set(values)))


@pytest.mark.parametrize(("part", "shares"), [case[:2] for case in BITS])
def test_posteriors_of_the_circuit(part: Fraction, shares: tuple[float, float]) -> None:
    """Single faults are as probable as each other, double ones less by the odds of a part."""
    single, double = shares
    assert circuit(part).shares == pytest.approx((single, single, double, double, 0), abs=1e-12)


@pytest.mark.parametrize(("part", "now"), [(case[0], case[2]) for case in BITS])
def test_bits_open_in_the_circuit(part: Fraction, now: float) -> None:
    """Before a probe, to six places."""
    assert entropy(circuit(part).shares) == pytest.approx(now, abs=5e-7)


@pytest.mark.parametrize(("part", "now", "after"), [(case[0], *case[2:]) for case in BITS])
def test_bits_open_after_a_probe(part: Fraction, now: float, after: tuple[float, float, float]) -> None:
    """On average after each of X, Y and Z, to six places, and what each settles."""
    belief = circuit(part)
    for place, left in enumerate(after):
        assert expected(belief, probe(place)) == pytest.approx(left, abs=5e-7)
        assert gain(belief, probe(place)) == pytest.approx(now - left, abs=1.5e-6)
