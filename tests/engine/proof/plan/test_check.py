"""The checker: small, apart from the planner, and not to be fooled."""

import ast
import json
from collections.abc import Callable
from math import inf, nextafter
from pathlib import Path
from typing import Any, NamedTuple

import pytest

import engine.proof.plan
from benchmarks.planning import made, written
from engine.loading import folders
from engine.loading.library import gather
from engine.model.matrix import Matrix
from engine.planner.planning import plan
from engine.proof.plan.check import check
from engine.report.plan import told
from tests.engine.planner.matrices import asking, matrix, trial
from tests.engine.planner.test_planning import hard

FOLDER = Path(engine.proof.plan.__file__).parent


#: Each holds all that confirms the cost and the bound of a plan of its kind.
CHECKERS = "reliable.py", "erring.py"


@pytest.mark.parametrize("name", CHECKERS)
def test_it_imports_nothing_but_the_model(name: str) -> None:
    """Who checks must not share a mistake with whom it checks; nor is there a further file to be read."""
    nodes = [*ast.walk(ast.parse((FOLDER / name).read_text()))]
    names = [node.module or "" for node in nodes if isinstance(node, ast.ImportFrom)]
    names += [alias.name for node in nodes if isinstance(node, ast.Import) for alias in node.names]
    assert not [each for each in names if each.startswith("engine") and "engine.model." not in each]
    assert not [node for node in nodes if isinstance(node, ast.ImportFrom) and node.level]


@pytest.mark.parametrize("name", CHECKERS)
def test_it_can_be_read_in_one_sitting(name: str) -> None:
    """No checker has more than 50 lines of code, imports counted, texts and comments apart."""
    text = (FOLDER / name).read_text()
    texts = [
        range(node.lineno, (node.end_lineno or 0) + 1)
        for node in ast.walk(ast.parse(text))
        if isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant)
    ]
    coded = [
        number
        for number, line in enumerate(text.splitlines(), 1)
        if line.strip() and not line.strip().startswith("#") and not any(number in told for told in texts)
    ]
    assert len(coded) <= 50


def test_the_folder_holds_the_two_checkers_and_their_door() -> None:
    """Nothing that confirms a plan is put aside in a further file, where nobody counts it."""
    assert {path.name for path in FOLDER.glob("*.py")} == {"__init__.py", "check.py", *CHECKERS}


class Case(NamedTuple):
    """A matrix, and its plan as JSON."""

    matrix: Matrix
    text: str

    def made(self) -> Any:
        """The plan as it is read again, to be tampered with."""
        return json.loads(self.text)


def case(of: Matrix) -> Case:
    """A matrix with its own plan."""
    return Case(of, json.dumps(told(of.id, plan(of))))


@pytest.fixture(scope="module")
def small() -> Case:
    """A matrix whose proof needs claims, with a set-up and a test that waits."""
    return case(asking(hard(9)))


def _at(*keys: Any) -> Callable[[Any], Any]:
    def found(made: Any) -> Any:
        for key in keys:
            made = made[key]
        return made

    return found


def _set(value: Any, *keys: Any) -> Callable[[Any], None]:
    def change(made: Any) -> None:
        _at(*keys[:-1])(made)[keys[-1]] = value(_at(*keys)(made)) if callable(value) else value

    return change


def _first_leaf(made: Any) -> Any:
    node = made["plan"]
    while "test" in node:
        node = next(iter(node["outcomes"].values()))
    return node


def _marked(made: Any) -> Any:
    """The marks of a claim that has some."""
    return next(marks for _, marks, _ in made["certificate"]["claims"] if marks)


TAMPERED: dict[str, Callable[[Any], Any]] = {
    "cheaper": _set(lambda x: x * 0.99, "expected_minutes"),
    "shorter": _set(lambda x: x - 1, "worst_minutes"),
    "bound raised": _set(lambda x: x * 1.0001, "lower_bound"),
    "bound lowered": _set(lambda x: x * 0.9999, "lower_bound"),
    "bound raised by all digits": _set(lambda x: nextafter(x, inf), "lower_bound"),
    "claim raised": _set(lambda x: x + 1, "certificate", "claims", 0, 2),
    "claim lowered": _set(lambda x: x - 1, "certificate", "claims", 0, 2),
    "last claim raised": _set(lambda x: 100 * x, "certificate", "claims", -1, 2),
    "mark forgotten": lambda made: _marked(made).clear(),
    "mark invented": lambda made: _marked(made).append("lowered"),
    "claims gone": _set([], "certificate", "claims"),
    "one claim gone": lambda made: made["certificate"]["claims"].pop(0),
    "test renamed": _set("t99", "plan", "test"),
    "set-up invented": _set(["raised"], "plan", "setups"),
    "outcome gone": lambda made: made["plan"]["outcomes"].popitem(),
    "leaf emptied": lambda made: _first_leaf(made).update(faults=[]),
    "minutes changed": _set(lambda x: x + 1, "plan", "minutes"),
    "outcome invented": lambda made: made["plan"]["outcomes"].update(odd={"faults": ["f0"]}),
    "groups invented": _set([["f0", "f1"]], "groups"),
    "groups gone": lambda made: made.pop("groups"),
    "leaf swapped": lambda made: _first_leaf(made).update(faults=["f99"]),
    "goal changed": _set("worst", "goal"),
    "goal unknown": _set("best", "goal"),
    "not proven": lambda made: made.update(proven=not made["proven"]),
    "no plan": lambda made: made.pop("plan"),
    "no figures": lambda made: made.pop("lower_bound"),
    "text for a number": _set("many", "expected_minutes"),
    "claims of another shape": _set([1, 2], "certificate"),
    "claim without a number": _set("many", "certificate", "claims", 0, 2),
    "proof gone": lambda made: made.pop("certificate"),
}


@pytest.fixture(scope="module")
def owing() -> Case:
    """A matrix whose proof rests on what pairs owe."""
    return case(made(30, "sparse", unequal=True, seed=3))


OWED: dict[str, Callable[[Any], Any]] = {
    "due raised": _set(lambda x: x * 2, "certificate", "dues", 0, 2),
    "due against itself": lambda plan: plan["certificate"]["dues"].append([0, 0, 10**15]),
    "due of nobody": lambda plan: plan["certificate"]["dues"].append([0, 99, 1]),
    "due below nothing": _set(-1, "certificate", "dues", 0, 2),
    "due told twice": lambda plan: plan["certificate"]["dues"].append(plan["certificate"]["dues"][0]),
    "due gone": lambda plan: plan["certificate"]["dues"].pop(),
    "share beyond the due": _set(10**18, "certificate", "shares", "t0", 0),
    "share below nothing": _set(-(10**18), "certificate", "shares", "t0", 0),
    "share gone": lambda plan: plan["certificate"]["shares"]["t0"].pop(),
    "share of no number": _set("all", "certificate", "shares", "t0", 0),
    "shares of a test gone": lambda plan: plan["certificate"]["shares"].pop("t0"),
    "scale lowered": _set(lambda x: x - 1, "certificate", "scale"),
    "scale nothing": _set(0, "certificate", "scale"),
    "scale below nothing": _set(lambda x: -x, "certificate", "scale"),
    "dues gone": _set([], "certificate", "dues"),
}


@pytest.fixture(scope="module")
def numbered() -> Case:
    """A matrix whose proof rests on numbers of groups: all its tests know the first fault, and one other."""
    return case(written([1] * 16, [1 | 1 << k for k in range(1, 16)], [1] * 15))


COUNTED: dict[str, Callable[[Any], Any]] = {
    "claim raised": _set(lambda x: x + 1, "certificate", "claims", 0, 2),
    "kinds gone": lambda made: made["certificate"].pop("kinds"),
    "no kinds": _set([], "certificate", "kinds"),
    "one group without a kind": lambda made: made["certificate"]["kinds"].pop(),
    "all of one kind": _set(lambda kinds: [0] * len(kinds), "certificate", "kinds"),
    "each of its own kind": _set(lambda kinds: [*range(len(kinds))], "certificate", "kinds"),
    "kind of no group": lambda made: made["certificate"]["kinds"].append(99),
    "kind that is none": _set([], "certificate", "kinds", 0),
    "kinds of another shape": _set(3, "certificate", "kinds"),
}


@pytest.fixture(scope="module")
def feeling() -> Case:
    """A matrix of tests that may err, with set-ups."""
    return case(gather(folders.shipped()).matrices["rear-drive-by-feel"])


def _repairs(made: Any) -> Any:
    """The first repairs of more than one fault."""
    waiting = [made["plan"]]
    while "repair" not in waiting[0] or len(waiting[0]["repair"]) < 2:
        waiting += waiting.pop(0).get("outcomes", {}).values()
    return waiting[0]["repair"]


ERRING: dict[str, Callable[[Any], Any]] = {
    "cheaper": _set(lambda x: x * 0.99, "expected_minutes"),
    "shorter": _set(lambda x: x - 1, "worst_minutes"),
    "bound raised": _set(lambda x: x * 1.0001, "lower_bound"),
    "not proven": lambda made: made.update(proven=not made["proven"]),
    "goal changed": _set("worst", "goal"),
    "looked less far": _set(0, "certificate", "depth"),
    "depth gone": lambda made: made["certificate"].pop("depth"),
    "test renamed": _set("t99", "plan", "test"),
    "set-up invented": _set(["flying"], "plan", "setups"),
    "minutes changed": _set(lambda x: x + 1, "plan", "minutes"),
    "outcome gone": lambda made: made["plan"]["outcomes"].popitem(),
    "outcome invented": lambda made: made["plan"]["outcomes"].update(odd={"repair": []}),
    "repair gone": lambda made: _repairs(made).pop(),
    "repair of nothing": lambda made: _repairs(made).append({"fault": "f99", "probability": 0}),
    "repair told twice": lambda made: _repairs(made).append(_repairs(made)[0]),
    "repairs in another order": lambda made: _repairs(made).reverse(),
    "repair of no chance": lambda made: _repairs(made)[0].update(probability=float("nan")),
    "repair surer": lambda made: _repairs(made)[0].update(probability=1),
    "groups invented": _set([["f0", "f1"]], "groups"),
    "no plan": lambda made: made.pop("plan"),
}


#: What is tampered with, by the case that it belongs to.
TAMPERINGS: dict[str, dict[str, Callable[[Any], Any]]] = {
    "small": TAMPERED,
    "owing": OWED,
    "numbered": COUNTED,
    "feeling": ERRING,
}


@pytest.mark.parametrize(
    ("name", "change"),
    [
        pytest.param(name, change, id=f"{name}, {what}")
        for name, changes in TAMPERINGS.items()
        for what, change in changes.items()
    ],
)
def test_a_tampered_plan_fails(
    name: str, change: Callable[[Any], Any], request: pytest.FixtureRequest
) -> None:
    """Whatever is changed in a plan or in its proof, the checker says so and does not fall over."""
    held: Case = request.getfixturevalue(name)
    made = held.made()
    assert not check(held.matrix, made)
    change(made)
    assert check(held.matrix, made)


@pytest.mark.parametrize(
    ("change", "why"),
    [
        (lambda made: made.pop("goal"), "'goal' is missing"),
        (lambda made: made.update(goal="best"), "'best' is missing, or is not known"),
        (lambda made: made["plan"].update(test="t99"), "'t99' cannot come where it stands"),
        (lambda made: _first_leaf(made).update(faults=["f99"]), "['f99'] cannot come where it stands"),
        (lambda made: made["certificate"]["claims"][0].__setitem__(2, 10**6), "may cost less than 1000000"),
        (
            lambda made: made["certificate"]["shares"]["t1"].append(1),
            "the dues at the test 't1' are not paid",
        ),
        (lambda made: made.update(expected_minutes="many"), "cannot be read"),
    ],
    ids=["no goal", "goal", "test", "leaf", "claim", "shares", "figure"],
)
def test_what_is_wrong_is_named(small: Case, change: Callable[[Any], Any], why: str) -> None:
    """One sentence says where to look."""
    made = small.made()
    change(made)
    assert [why in line for line in check(small.matrix, made)] == [True]


def test_a_plan_of_another_matrix_fails(small: Case) -> None:
    """The figures belong to one matrix."""
    dearer = tuple(test._replace(minutes=test.minutes + 1) for test in small.matrix.tests)
    assert check(small.matrix._replace(tests=dearer), small.made())


def test_a_setup_left_out_is_found() -> None:
    """A plan that forgets to raise the vehicle is refused."""
    raised = matrix(
        {"a": 1, "b": 2}, [trial("look", 1, {"a": ["a"], "b": ["b"]}, needs=["raised"])], {"raised": 12}
    )
    made = told("by-hand", plan(raised))
    assert not check(raised, made)
    made["plan"]["setups"] = []
    assert check(raised, made) == ["This is no plan of the matrix: 'look' cannot come where it stands."]
