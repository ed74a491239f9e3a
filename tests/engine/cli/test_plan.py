"""`plan`: the cheapest order of tests as a tree, as JSON, checked again, and kept when it is stopped."""

import json
import signal
import subprocess
import sys
import time
from contextlib import redirect_stdout
from functools import cache
from io import StringIO
from pathlib import Path

import pytest

from engine.cli.main import main
from tests.engine.planner.test_planning import hard

ROOT = Path(__file__).parents[3]


def told(capsys: pytest.CaptureFixture[str], *words: str) -> tuple[int, str, str]:
    """The command's exit code, output and errors."""
    code = main(["plan", *words])
    said = capsys.readouterr()
    return code, said.out, said.err


@cache
def planned(name: str) -> str:
    """What `plan NAME --json` prints, planned once for all that is asked of it."""
    with redirect_stdout(StringIO()) as said:
        main(["plan", name, "--json"])
    return said.getvalue()


def test_json_has_what_machines_rely_on(capsys: pytest.CaptureFixture[str]) -> None:
    """The keys that are promised; the classic example costs 2.18 (from memory, and computed)."""
    made = json.loads(told(capsys, "five-faults", "--json")[1])
    promised = {"expected_minutes", "lower_bound", "proven", "worst_minutes", "groups", "plan", "certificate"}
    assert promised <= made.keys()
    assert (made["expected_minutes"], made["lower_bound"], made["proven"], made["groups"]) == (
        2.18,
        2.18,
        True,
        [],
    )
    assert made["plan"]["test"] in {"t2", "t4"}


def test_a_person_gets_a_tree_and_a_word_on_its_cost(capsys: pytest.CaptureFixture[str]) -> None:
    """The document on stdout, what it costs on stderr."""
    code, out, err = told(capsys, "five-faults")
    assert code == 0
    assert "\ntree: five-faults-planned\n" in out
    assert err.startswith("Expected 2.18 min, at most 3.00 min.\nProven: no order of these tests has fewer")


def test_the_longest_way_may_be_the_goal(capsys: pytest.CaptureFixture[str]) -> None:
    """Then the bound is of the longest way."""
    made = json.loads(told(capsys, "five-faults", "--goal", "worst", "--json")[1])
    assert (made["goal"], made["worst_minutes"], made["lower_bound"], made["proven"]) == (
        "worst",
        3.0,
        3.0,
        True,
    )


@pytest.mark.parametrize("name", ["five-faults", "rear-drive", "rear-drive-by-feel"])
def test_a_plan_is_confirmed_from_its_file(
    name: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """`check` reads the matrix again and finds nothing wrong."""
    path = tmp_path / "plan.json"
    path.write_text(planned(name))
    code, out, _ = told(capsys, "check", str(path))
    assert code == 0
    assert "its proof hold" in out


def test_a_tampered_file_is_told(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """With exit code 1, and what is wrong."""
    made = json.loads(planned("rear-drive"))
    path = tmp_path / "plan.json"
    path.write_text(json.dumps(made | {"expected_minutes": made["expected_minutes"] - 1}))
    code, out, _ = told(capsys, "check", str(path))
    assert (code, out.split(" is ")[0]) == (1, "expected_minutes")


def test_a_matrix_may_be_named_by_its_file(capsys: pytest.CaptureFixture[str]) -> None:
    """A trainer works on a file of their own."""
    assert told(capsys, str(ROOT / "trees" / "matrices" / "five-faults.yaml"), "--json")[0] == 0


@pytest.mark.parametrize(
    ("words", "why"),
    [
        (["five-fault"], "Did you mean `five-faults`?"),
        (["rear-drive-by-feel", "--goal", "worst"], "leave `--goal` away"),
        (["check", "nowhere.json"], "nowhere.json"),
        ([], "Name a matrix"),
        (["--from", "no-rear-driv"], "Did you mean `no-rear-drive`?"),
        (["--from", "no-rear-drive", "--vehicle", "felside"], "Did you mean `fellside`?"),
        (["check", str(ROOT / "README.md")], "is no JSON"),
        ([str(ROOT / "trees" / "shop" / "states.yaml")], "is no matrix"),
    ],
    ids=["name", "goal", "no file", "nothing", "tree", "vehicle", "no plan", "no matrix"],
)
def test_what_cannot_be_done_says_why(words: list[str], why: str, capsys: pytest.CaptureFixture[str]) -> None:
    """One sentence with the cure, and exit code 2."""
    code, _, err = told(capsys, *words)
    assert (code, why in err, "Traceback" in err) == (2, True, False)


def test_a_tree_is_held_against_the_cheapest_order(capsys: pytest.CaptureFixture[str]) -> None:
    """In words, as a tree, and how much more its own order takes."""
    code, out, err = told(capsys, "--from", "no-rear-drive", "--vehicle", "fellside")
    assert code == 0
    assert out.startswith("# ")
    assert "\ntree: no-rear-drive-planned\n" in out
    assert "its own order: expected" in err
    assert err.rstrip().endswith("% more.")


def test_a_tree_held_against_the_cheapest_order_as_json(capsys: pytest.CaptureFixture[str]) -> None:
    """Its own minutes beside those of the plan, which is proven."""
    made = json.loads(told(capsys, "--from", "no-rear-drive", "--vehicle", "skerry", "--json")[1])
    assert (made["tree"], made["vehicle"], made["proven"]) == ("no-rear-drive", "skerry", True)
    assert made["own"]["minutes"] >= made["expected_minutes"]


@pytest.fixture(scope="module")
def slow(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A matrix whose proof takes minutes."""
    made = hard(150)
    faults = {
        f.id: {"name": f.name, "weight": int(f.weight), "repair": 5, "source": "guess"} for f in made.faults
    }
    tests = {
        t.id: {"minutes": int(t.minutes), "fails": [*t.outcomes[1].chances], "source": "guess"}
        for t in made.tests
    }
    sources = {"guess": {"kind": "invented", "cite": "For this test"}}
    document = {"matrix": "slow", "format": 1, "revision": 1, "title": "Slow", "sources": sources}
    path = tmp_path_factory.mktemp("slow") / "slow.yaml"
    path.write_text(json.dumps(document | {"faults": faults, "tests": tests}))
    return path


def test_it_ends_when_its_time_is_over(slow: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The best plan so far comes out, with a bound that holds."""
    made = json.loads(told(capsys, str(slow), "--json", "--seconds", "0.5")[1])
    assert not made["proven"]
    assert 0 < made["lower_bound"] < made["expected_minutes"]


def test_ctrl_c_keeps_the_best(slow: Path, tmp_path: Path) -> None:
    """The interrupted search prints a whole plan, which is confirmed; progress was told on stderr."""
    words = [sys.executable, "-m", "tui", "plan", str(slow), "--json"]
    with subprocess.Popen(
        words, cwd=ROOT, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True
    ) as process:
        assert process.stderr is not None
        progress = process.stderr.readline()
        time.sleep(0.2)
        process.send_signal(signal.SIGINT)
        out, err = process.communicate(timeout=120)
    path = tmp_path / "plan.json"
    path.write_text(out)

    assert "Ctrl-C takes the best so far" in progress
    assert (process.returncode, "Not proven" in err) == (0, True)
    assert main(["plan", "check", str(path), str(slow)]) == 0
