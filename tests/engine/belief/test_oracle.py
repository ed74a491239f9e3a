"""The engine's belief against an independent library for Bayesian networks, on random small networks.

One node is the fault, with a state for each suspect; each test hangs on it alone.
"""

import warnings
from fractions import Fraction
from random import Random

import pytest

from engine.belief.entropy import entropy, gain
from engine.belief.evidence import met, table
from engine.belief.update import prior, updated
from engine.model.tree import Ask
from tests.engine.belief.small_steps import ask

with warnings.catch_warnings():
    # its compiled types lack a `__module__`, of which Python warns; made an error, that ends the process
    warnings.simplefilter("ignore")
    import pyagrum

NETWORKS = 60


def question(chance: Random, names: tuple[str, ...]) -> Ask:
    """A question of two to four answers; whom an answer does not name is left the rest, or named by none."""
    answers = chance.randint(2, 4)
    named = [name for name in names if chance.random() < 0.8]
    rows: list[dict[str, Fraction]] = [{} for _ in range(answers)]
    for name in named:
        parts = [chance.randint(0, 20) for _ in range(answers)]
        for row, part in zip(rows, parts[:-1] if chance.random() < 0.5 else parts, strict=False):
            row[name] = Fraction(part, sum(parts) or 1)
    return ask(*rows)


@pytest.mark.parametrize("seed", range(NETWORKS))
def test_posterior_and_mutual_information(seed: int) -> None:
    """After every answer the same posterior to 1e-12; the gain is the library's mutual information."""
    chance = Random(seed)
    names = tuple(f"s{k}" for k in range(chance.randint(1, 8)))
    belief = prior({name: Fraction(chance.randint(1, 90), 10) for name in names})
    steps = [question(chance, names) for _ in range(chance.randint(1, 5))]
    net = pyagrum.BayesNet("one fault")
    net.add(pyagrum.LabelizedVariable("fault", "", list(belief.suspects)))
    net.cpt("fault").fillWith(list(belief.shares))
    for number, step in enumerate(steps):
        net.add(pyagrum.LabelizedVariable(f"t{number}", "", len(step.answers)))
        net.addArc("fault", f"t{number}")
        columns = zip(*(table(step, belief.suspects) or _even(step, len(belief.suspects))), strict=True)
        net.cpt(f"t{number}").fillWith([share for column in columns for share in column])
    oracle = pyagrum.LazyPropagation(net)
    for number, step in enumerate(steps):
        told = table(step, belief.suspects)
        settled = pyagrum.InformationTheory(oracle, ["fault"], [f"t{number}"]).mutualInformationXY()
        assert gain(belief, told) == pytest.approx(settled, abs=1e-9)
        answer = chance.choice([k for k in range(len(step.answers)) if _possible(oracle, number, k)])
        belief = updated(belief, met(step, belief.suspects, answer))
        oracle.addEvidence(f"t{number}", answer)
        assert belief.shares == pytest.approx(oracle.posterior("fault").tolist(), abs=1e-12)
        assert entropy(belief.shares) == pytest.approx(oracle.H("fault"), abs=1e-9)


def _even(step: Ask, suspects: int) -> list[list[float]]:
    """The table of a step that says nothing."""
    return [[1 / len(step.answers)] * suspects for _ in step.answers]


def _possible(oracle: pyagrum.LazyPropagation, number: int, answer: int) -> bool:
    return bool(oracle.posterior(f"t{number}")[answer] > 0)
