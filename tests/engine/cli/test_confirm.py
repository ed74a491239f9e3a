"""`confirm`: what came of the repair, kept in the case, shown in the list, refused with the cure."""

import json
from pathlib import Path

import pytest

from engine.cli.main import main
from engine.interview.command import Accept, Choose, Command, Confirm, StepBack
from tests.engine.cli.test_cases import READ, Bench

ENDED: tuple[Command, ...] = (*READ, Confirm(), Choose(1), Accept())


class Bay(Bench):
    """The bench of the cases, and the command at it."""

    def confirm(self, *words: str) -> tuple[int, str, str]:
        """The command with these words: exit code, output, errors."""
        code = main(["confirm", *words, "--store", str(self.path)])
        told = self._capsys.readouterr()
        return code, told.out, told.err


@pytest.fixture
def bay(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> Bay:
    """A store with one case that has its verdict, and one that has not."""
    made = Bay(tmp_path, capsys)
    made.open("one", *ENDED)
    made.open("two")
    return made


def test_a_repair_that_worked_names_the_convicted(bay: Bay) -> None:
    """One line says what was kept."""
    assert bay.confirm("one", "--fixed") == (
        0,
        "Kept for one: the complaint is gone; true cause: Shaft sheared\n",
        "",
    )


def test_another_cause_and_a_remark_are_kept(bay: Bay) -> None:
    """What is printed and what is shown of the case is the same, with nothing that a terminal obeys."""
    words = ("one", "--not-fixed", "--cause", "elsewhere", "--remark", "wiring \x1b[31m")
    told = "the complaint is still there; true cause: Something else, not in this tree; wiring "
    code, out, _ = bay.confirm(*words)

    assert (code, out.startswith(f"Kept for one: {told}"), "\x1b" in out) == (0, True, False)
    assert f"after the repair: {told}" in bay.cases("show", "one")[1]


def test_a_machine_reads_it(bay: Bay) -> None:
    """With --json the fields of the event."""
    _, out, _ = bay.confirm("one", "--fixed", "--cause", "coupling", "--remark", "r", "--json")

    assert json.loads(out) == {"case": "one", "fixed": True, "cause": "coupling", "remark": "r"}


@pytest.mark.parametrize(("word", "told"), [("--fixed", "fixed"), ("--not-fixed", "not fixed")])
def test_the_list_of_cases_tells_it(bay: Bay, word: str, told: str) -> None:
    """Behind the verdict; and the chain of the case is whole."""
    bay.confirm("one", word)

    assert bay.cases()[1].splitlines()[0].endswith(f"verdict: Sheared, {told}")
    assert bay.cases("verify", "one") == (0, "one: whole\n", "")


def test_a_verdict_that_was_taken_back_was_not_confirmed(bay: Bay) -> None:
    """Another verdict of the same case begins anew."""
    bay.confirm("one", "--fixed")
    bay.do("one", StepBack(6), Accept())

    assert bay.cases()[1].splitlines()[0].endswith("verdict: Sheared")


@pytest.mark.parametrize(
    ("words", "error"),
    [
        (("two", "--fixed"), "no accepted verdict yet; it stands at `first`. Walk it to its verdict and"),
        (("one", "--fixed", "--cause", "shft"), "has no suspect `shft`. Did you mean `shaft`?"),
        (("three", "--fixed"), "There is no case three here. `witnessmark cases` lists those that are."),
    ],
    ids=["no verdict", "no suspect", "no case"],
)
def test_what_cannot_be_told_is_refused_with_the_cure(bay: Bay, words: tuple[str, ...], error: str) -> None:
    """Exit code 2, and nothing is written."""
    before = bay.cases("export", "one")
    code, out, err = bay.confirm(*words)

    assert (code, out) == (2, "")
    assert error in err
    assert bay.cases("export", "one") == before


@pytest.mark.parametrize("words", [("one",), ("one", "--fixed", "--not-fixed")], ids=["neither", "both"])
def test_it_is_fixed_or_not(bay: Bay, words: tuple[str, ...]) -> None:
    """One of the two is wanted."""
    with pytest.raises(SystemExit) as ended:
        bay.confirm(*words)

    assert ended.value.code == 2
