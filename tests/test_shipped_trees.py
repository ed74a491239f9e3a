"""The shipped library: clean, rehearsed to its last way out, and safe on every walk that it allows."""

from collections.abc import Iterator
from functools import cache

import pytest

from engine.graph.view import entered
from engine.interview.state import State
from engine.lint.rule import suits
from engine.lint.runner import run as lint
from engine.loading import folders
from engine.loading.library import Library, gather
from engine.model.rehearsal import Rehearsal
from engine.model.tree import Ask, Do, Document, Measure, Sort, Verdict
from engine.proof.rehearse import Rehearsed, rehearse_all
from engine.proof.untried import untried
from engine.proof.unvisited import unvisited
from tests.every_walk import standings


@cache
def library() -> Library:
    """The shipped documents, checked like anybody else's."""
    return gather(file._replace(trusted=False) for file in folders.shipped())


@cache
def rehearsed() -> tuple[Rehearsed, ...]:
    """Every shipped rehearsal, walked."""
    return tuple(rehearse_all(library(), library().rehearsals.values()))


PAIRS = [
    (tree.name, sheet.name)
    for tree in library().trees.values()
    for sheet in library().sheets.values()
    if not suits(tree, sheet)
]


def sorted_by(tree: str) -> tuple[str, ...]:
    """The facts that a tree and its procedures sort by."""
    root = library().trees[tree]
    documents = [root, *(library().procedures[name] for name in entered(root, library().procedures))]
    facts = (step.fact for each in documents for step in each.steps.values() if isinstance(step, Sort))
    return tuple(sorted(set(facts)))


def unlike() -> Iterator[tuple[str, str]]:
    """Of the vehicles that a tree takes the same ways on, the first."""
    seen = set()
    for tree, sheet in PAIRS:
        facts = tuple(library().sheets[sheet].facts[fact] for fact in sorted_by(tree))
        if (tree, facts) not in seen:
            seen.add((tree, facts))
            yield tree, sheet


UNLIKE = list(unlike())


@cache
def walks(tree: str, vehicle: str) -> tuple[State, ...]:
    """Every standing that walks of this tree come to on this vehicle."""
    return tuple(standings(library(), tree, vehicle))


def way(state: State) -> str:
    """How a walk came to where it stands."""
    return " > ".join(f"{past.line.step}={past.line.answer}" for past in state.past) + f" > {state.where}"


def test_lint_finds_nothing() -> None:
    """The shipped documents keep every rule."""
    assert [str(finding) for finding in lint(library())] == []


def test_every_tree_is_meant_for_a_vehicle() -> None:
    """Each tree suits some sheet, and each sheet some tree."""
    trees = {tree for tree, _ in PAIRS}
    sheets = {sheet for _, sheet in PAIRS}

    assert (trees, sheets) == (set(library().trees), set(library().sheets))


@pytest.mark.parametrize("name", library().rehearsals)
def test_a_rehearsal_passes(name: str) -> None:
    """The scripted walk ends in the verdict that it names."""
    result = next(result for result in rehearsed() if result.name == name)

    assert (result.passed, result.message) == (True, "")


@pytest.mark.parametrize("tree", library().trees)
def test_nothing_is_left_unrehearsed(tree: str) -> None:
    """Every verdict, answer, band and unsure exit is visited, also in the procedures that follow."""
    scripts = library().rehearsals
    own = tuple(result for result in rehearsed() if scripts[result.name].tree == tree)

    assert unvisited(library(), tree, own) == ()


@pytest.mark.parametrize("tree", library().trees)
def test_every_limit_is_tried_from_both_sides(tree: str) -> None:
    """In the tree and its procedures, one mark of a gauge from it; none is out of reach."""
    scripts = library().rehearsals
    own = tuple(result for result in rehearsed() if scripts[result.name].tree == tree)

    assert untried(library(), tree, own) == ((), ())


@pytest.mark.parametrize(
    ("tree", "at", "near", "away", "told"),
    [
        ("rear-drive-stays-off", "coil", "3", "2.5", "sheet.centre-coupling.coil.max, from below"),
        ("shakes-at-speed", "wheel-run-out", "1.01", "3", "sheet.wheels.run-out.max, from above"),
    ],
)
def test_a_reading_moved_away_from_its_limit_is_told(
    tree: str, at: str, near: str, away: str, told: str
) -> None:
    """What tries one side of a limit is moved within its band: it passes, and tries it no more."""
    own = [moved(each, at, near, away) for each in library().rehearsals.values() if each.tree == tree]
    results = tuple(rehearse_all(library(), own))

    assert [result.message for result in results if not result.passed] == []
    assert untried(library(), tree, results) == ((f"{at}: {told}",), ())


def moved(script: Rehearsal, at: str, near: str, away: str) -> Rehearsal:
    """The rehearsal with another reading at one step, where it read `near` there."""
    lines = tuple(
        line._replace(read={name: away if text == near else text for name, text in line.read.items()})
        if line.at == at
        else line
        for line in script.lines
    )
    return script._replace(lines=lines)


@pytest.mark.parametrize(("tree", "vehicle"), UNLIKE)
def test_the_vehicle_is_as_each_step_needs_it(tree: str, vehicle: str) -> None:
    """On every walk what a step needs holds, and what it forbids does not."""
    amiss = [
        way(state)
        for state in walks(tree, vehicle)
        if not (state.holds.issuperset(state.step.needs) and state.holds.isdisjoint(state.step.forbids))
        if not state.concluded
    ]

    assert amiss == []


@pytest.mark.parametrize(("tree", "vehicle"), UNLIKE)
def test_no_verdict_leaves_a_vehicle_unsafe(tree: str, vehicle: str) -> None:
    """At every verdict, and after every procedure that follows it, the vehicle stands safe and whole."""
    states = library().shop.states
    unsafe = [
        way(state)
        for state in walks(tree, vehicle)
        if isinstance(state.step, Verdict) and any(states[name].must_clear for name in state.holds)
    ]

    assert unsafe == []


@pytest.mark.parametrize(("tree", "vehicle"), UNLIKE)
def test_exclusive_states_never_meet(tree: str, vehicle: str) -> None:
    """No walk makes two states hold that exclude each other."""
    states = library().shop.states
    both = [
        way(state)
        for state in walks(tree, vehicle)
        if any(not state.holds.isdisjoint(states[name].excludes) for name in state.holds)
    ]

    assert both == []


@pytest.mark.parametrize(("tree", "vehicle"), UNLIKE)
def test_wheels_turn_only_behind_their_cautions(tree: str, vehicle: str) -> None:
    """Whoever meets driven wheels has read of turning wheels and exhaust gas on the way there."""
    titles = {library().shop.cautions[name].title for name in ("turning-wheels", "exhaust-gas")}
    unread = [
        way(state)
        for state in walks(tree, vehicle)
        if "wheels-driven" in state.holds
        if len([t for t in titles if any(t in r for p in state.past for r in p.line.remarks)]) < len(titles)
    ]

    assert unread == []


@pytest.mark.parametrize(("tree", "vehicle"), UNLIKE)
def test_every_question_has_a_way_round(tree: str, vehicle: str) -> None:
    """Whoever cannot tell is led on from every question and every measurement."""
    stuck = {s.where for s in walks(tree, vehicle) if isinstance(s.step, Ask | Measure) and not s.step.unsure}

    assert stuck == set()


@pytest.mark.parametrize("name", [*library().trees, *library().procedures])
def test_a_step_fits_a_small_screen(name: str) -> None:
    """What is put to a person takes at most 205 characters, and says how long it takes and why."""
    documents: dict[str, Document] = {**library().trees, **library().procedures}
    steps = [step for step in documents[name].steps.values() if isinstance(step, Do | Ask | Measure)]
    amiss = [step.name for step in steps if len(step.text) > 205 or not step.minutes or not step.why]

    assert amiss == []


@pytest.mark.parametrize("name", library().shop.cautions)
def test_a_caution_fits_a_small_screen(name: str) -> None:
    """A caution takes at most 350 characters; some step names it, or words call for it in trees to come."""
    caution = library().shop.cautions[name]
    documents = [*library().trees.values(), *library().procedures.values()]

    assert len(caution.text) <= 350
    assert caution.words or any(name in step.cautions for d in documents for step in d.steps.values())
