"""What a calculator said in a procedure that follows a verdict is shown to the step that works by it."""

import pytest

from engine.interview.evolve import begun
from engine.interview.prompt import prompt
from engine.interview.question import VerdictPrompt
from engine.interview.state import State
from engine.loading.folders import shipped
from engine.loading.library import Library, gather
from engine.proof.script import Go, following
from tests.engine.interview.given import after


@pytest.fixture(scope="module")
def released() -> Library:
    """The shipped library."""
    return gather(shipped())


def walked(library: Library, script: str, until: str) -> State:
    """A script of the library, walked as far as a step."""
    rehearsal = library.rehearsals[script]
    state, left = begun(library, rehearsal.tree, rehearsal.vehicle), rehearsal.lines
    while state.where != until and isinstance(move := following(state, left), Go):
        state, left = after(state, move.command), move.rest
    return state


#: By hand. Skerry: 0.60 + 0.40 - (0.05 + 0.15)/2 = 0.90 mm, which no single shim has. Fellside: 0.8 L of oil
#: shrink from 70 to 20 °C by 0.7 parts in a thousand a degree, 28 mL, 1.867 mm on 150 cm².
WORKED = [
    ("coupling-stack-of-shims", "fit-coupling/fit-stack", "Number of shims: 2; "),
    ("coupling-one-shim", "fit-coupling/fit-one", "Shims, thickest first: 0.75 mm; "),
    ("axle-level-read-warm", "renew-axle-oil/top-up", "Rise of the level: ≈ -1.8667 mm; "),
]


@pytest.mark.parametrize(("script", "step", "said"), WORKED)
def test_the_step_that_works_by_it_shows_it(released: Library, script: str, step: str, said: str) -> None:
    """Whoever fits the shims must know which, although the verdict was accepted before."""
    asked = prompt(walked(released, script, step))

    assert not isinstance(asked, VerdictPrompt)
    assert asked.show[0].startswith("Worked out: ")  # type: ignore[union-attr]  # reason: something to do shows values
    assert said in asked.show[0]  # type: ignore[union-attr]  # reason: something to do shows values


def test_nothing_is_shown_beside_the_accepted_verdict(released: Library) -> None:
    """Once the procedure is over, its sums stand in the trail alone."""
    asked = prompt(walked(released, "axle-can-too-weak", "nowhere"))

    assert isinstance(asked, VerdictPrompt)
    assert not [line for line in asked.show if line.startswith("Worked out")]
