"""The checker: small, apart from the planner, and not to be fooled."""

import ast
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

import engine.proof.plan
from benchmarks.planning import made
from engine.model.matrix import Matrix
from engine.planner.planning import plan
from engine.proof.plan.check import check
from engine.report.plan import told
from tests.engine.planner.matrices import matrix, trial
from tests.engine.planner.test_planning import hard

FOLDER = Path(engine.proof.plan.__file__).parent


@pytest.mark.parametrize("path", sorted(FOLDER.glob("*.py")), ids=lambda path: path.name)
def test_it_imports_nothing_of_the_planner(path: Path) -> None:
    """Who checks must not share a mistake with whom it checks."""
    names = [
        node.module or ""
        for node in ast.walk(ast.parse(path.read_text()))
        if isinstance(node, ast.ImportFrom)
    ]
    assert not [name for name in names if name.startswith("engine.") and "planner" in name]
    assert {name for name in names if name.startswith("engine.")} <= {
        "engine.model.matrix",
        "engine.proof.plan.erring",
        "engine.proof.plan.field",
        "engine.proof.plan.floors",
        "engine.proof.plan.owed",
        "engine.proof.plan.steps",
        "engine.proof.plan.table",
    }


@pytest.mark.parametrize("path", sorted(FOLDER.glob("*.py")), ids=lambda path: path.name)
def test_it_can_be_read_in_one_sitting(path: Path) -> None:
    """No file of it has more than 50 lines of code, texts and comments apart."""
    text = path.read_text()
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


@pytest.fixture(scope="module")
def small() -> Matrix:
    """A matrix whose proof needs claims, with a set-up and a test that waits."""
    return hard(12)


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


TAMPERED: dict[str, Callable[[Any], Any]] = {
    "cheaper": _set(lambda x: x * 0.99, "expected_minutes"),
    "shorter": _set(lambda x: x - 1, "worst_minutes"),
    "bound raised": _set(lambda x: x * 1.0001, "lower_bound"),
    "bound lowered": _set(lambda x: x * 0.9999, "lower_bound"),
    "claim raised": _set(lambda x: x + 1, "certificate", "claims", 0, 3),
    "last claim raised": _set(lambda x: x + 1, "certificate", "claims", -1, 3),
    "claims gone": _set([], "certificate", "claims"),
    "one claim gone": lambda made: made["certificate"]["claims"].pop(0),
    "test renamed": _set("t99", "plan", "test"),
    "set-up invented": _set(["raised"], "plan", "setups"),
    "outcome gone": lambda made: made["plan"]["outcomes"].popitem(),
    "leaf emptied": lambda made: _first_leaf(made).update(faults=[]),
    "leaf swapped": lambda made: _first_leaf(made).update(faults=["f99"]),
    "goal changed": _set("worst", "goal"),
    "goal unknown": _set("best", "goal"),
    "not proven": lambda made: made.update(proven=not made["proven"]),
    "no plan": lambda made: made.pop("plan"),
    "no figures": lambda made: made.pop("lower_bound"),
    "text for a number": _set("many", "expected_minutes"),
    "claims of another shape": _set([1, 2], "certificate"),
}


@pytest.mark.parametrize("change", TAMPERED.values(), ids=TAMPERED)
def test_a_tampered_plan_fails(small: Matrix, change: Callable[[Any], Any]) -> None:
    """Whatever is changed in a plan, the checker says so and does not fall over."""
    made = told("by-hand", plan(small))
    assert not check(small, made)
    change(made)
    assert check(small, made)


@pytest.fixture(scope="module")
def owing() -> Matrix:
    """A matrix whose proof rests on what pairs owe."""
    return made(30, "sparse", unequal=True, seed=3)


OWED: dict[str, Callable[[Any], Any]] = {
    "due raised": _set(lambda x: x * 2, "certificate", "dues", "due", 0, 2),
    "due against itself": lambda plan: plan["certificate"]["dues"]["due"].append([0, 0, 10**15]),
    "due of nobody": lambda plan: plan["certificate"]["dues"]["due"].append([0, 99, 1]),
    "due below nothing": _set(-1, "certificate", "dues", "due", 0, 2),
    "share beyond the due": _set(10**15, "certificate", "dues", "shares", 0, 0),
    "share below nothing": _set(-(10**14), "certificate", "dues", "shares", 0, 0),
    "share gone": lambda plan: plan["certificate"]["dues"]["shares"][0].pop(),
    "shares of a test gone": lambda plan: plan["certificate"]["dues"]["shares"].pop(),
    "scale lowered": _set(lambda x: x - 1, "certificate", "dues", "scale"),
    "scale nothing": _set(0, "certificate", "dues", "scale"),
    "weight raised": _set(lambda x: x + 1, "certificate", "dues", "weights", 0),
    "dues gone": _set(None, "certificate", "dues"),
}


@pytest.mark.parametrize("change", OWED.values(), ids=OWED)
def test_tampered_dues_fail(owing: Matrix, change: Callable[[Any], Any]) -> None:
    """Whatever is changed in what pairs owe, the checker says so and does not fall over."""
    plan_of = told("made", plan(owing))
    assert not check(owing, plan_of)
    change(plan_of)
    assert check(owing, plan_of)


def test_a_plan_of_another_matrix_fails(small: Matrix) -> None:
    """The figures belong to one matrix."""
    other = small._replace(tests=tuple(test._replace(minutes=test.minutes + 1) for test in small.tests))
    assert check(other, told("by-hand", plan(small)))


def test_a_setup_left_out_is_found() -> None:
    """A plan that forgets to raise the vehicle is refused."""
    raised = matrix(
        {"a": 1, "b": 2}, [trial("look", 1, {"a": ["a"], "b": ["b"]}, needs=["raised"])], {"raised": 12}
    )
    made = told("by-hand", plan(raised))
    assert not check(raised, made)
    made["plan"]["setups"] = []
    assert check(raised, made) == [
        "This is no plan of the matrix: the test 'look' cannot be done so where it stands."
    ]
