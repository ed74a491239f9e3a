"""Steps and beliefs for the tests, made of what a test is about and nothing else."""

from collections.abc import Mapping, Sequence
from fractions import Fraction
from typing import Final

from hypothesis import strategies as st

from engine.belief.update import Belief
from engine.model.place import Place
from engine.model.tree import ELSEWHERE, Answer, Ask, Band, Measure, Run, Wanted

HERE: Final = Place("small.yaml", 1, 1)
NAMES: Final = ("shaft", "gear", "tyre", "coupling")
_GAP: Final = Wanted("gap", "mm", "rule", Fraction(0), Fraction(9), HERE)

Rows = Sequence[Mapping[str, Fraction]]


def ask(*fits: Mapping[str, Fraction]) -> Ask:
    """A question with an answer for each."""
    answers = tuple(Answer(str(k), "end", row, HERE) for k, row in enumerate(fits))
    return Ask(name="look", place=HERE, text="What is seen?", answers=answers)


def measure(*fits: Mapping[str, Fraction]) -> Measure:
    """A measuring step with a band for each."""
    bands = tuple(Band(None, None, "end", "", row, "", HERE) for row in fits)
    return Measure(
        name="gap", place=HERE, text="How far?", readings=(_GAP,), figure="", unit="mm", bands=bands
    )


def run(**fits: Mapping[str, Fraction]) -> Run:
    """A procedure run with an outcome for each, said of or not."""
    outcomes = dict.fromkeys(fits, "end")
    said = {outcome: row for outcome, row in fits.items() if row}
    return Run(name="raise", place=HERE, procedure="raise-it", outcomes=outcomes, fits=said)


@st.composite
def beliefs(draw: st.DrawFn) -> Belief:
    """Two to four suspects and something else, none of them impossible."""
    names = NAMES[: draw(st.integers(2, 4))]
    weights = draw(st.lists(st.integers(1, 1000), min_size=len(names) + 1, max_size=len(names) + 1))
    return Belief((*names, ELSEWHERE), tuple(weight / sum(weights) for weight in weights))


def likelihoods(belief: Belief) -> st.SearchStrategy[list[float]]:
    """How often one sign is met under each suspect; never quite impossible."""
    count = len(belief.suspects)
    return st.lists(st.floats(0.01, 1), min_size=count, max_size=count)


@st.composite
def fits(draw: st.DrawFn) -> Rows:
    """What two to four answers say of the suspects: each said or left out, adding up to 1 or not."""
    share = st.fractions(0, 1, max_denominator=50)
    row = st.dictionaries(st.sampled_from((*NAMES, ELSEWHERE)), share, max_size=5)
    return draw(st.lists(row, min_size=2, max_size=4))
