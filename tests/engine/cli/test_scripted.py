"""`walk --answers`: from the file to the verdict, or to the line where file and walk part."""

from pathlib import Path

import pytest

from engine import api
from engine.cli.main import main
from engine.records.event import Concluded, Measured
from tests.engine.cli.shell import Shell, shell

HEAD = "rehearsal: day\nformat: 1\ntitle: A day\ntree: bench\nvehicle: wagon\nanswers:\n"
SHEARED = "  - {at: second, say: Front only}\n"
MEASURED = """\
  - {at: second, say: All four}
  - {at: third, read: {left: 1900, right: 190.4 cm}}
  - {at: fourth, read: 1/8 in}
"""


def answered(
    here: Shell, capsys: pytest.CaptureFixture[str], answers: str, *words: str
) -> tuple[int, str, str]:
    """The walk from a file with these answers: exit code, output, errors."""
    file = here.write("day.yaml", HEAD + answers if answers.startswith(" ") else answers)
    folders = ["--library", str(here.folder / "own"), "--store", str(here.folder / "cases.db")]
    code = main(["walk", "--answers", str(file), "--case", "one", *folders, *words])
    told = capsys.readouterr()
    return code, told.out, told.err


def kept(here: Shell) -> api.Job:
    """The case as the store has it."""
    store = api.open_store(str(here.folder / "cases.db"))
    try:
        return api.resume(store, "one")
    finally:
        store.close()


def test_the_file_walks_to_the_verdict_and_accepts_it(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Exit code 0; every question stands in the output with its answer, and the verdict is in the store."""
    here = shell(tmp_path)
    code, out, err = answered(here, capsys, MEASURED + "expect: {verdict: sheared}\n")

    assert (code, err) == (0, "")
    assert "Which wheels turn?\n  1  All four\n  2  Front only\n> All four\n" in out
    assert "> left 1900, right 190.4 cm\n" in out
    assert "> 1/8 in\n" in out
    assert out.endswith("> accepted\n\n`witnessmark report one` prints the case.\n")
    assert isinstance(kept(here).entries[-1].event, Concluded)


def test_cautions_and_steps_to_do_are_told_with_their_answer(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """What confirms itself is shown like everything else."""
    _, out, _ = answered(shell(tmp_path), capsys, SHEARED)

    assert "CAUTION: Hot parts\n" in out
    assert "> understood\n" in out
    assert "Do: Put it in neutral.\n" in out
    assert "> done\n" in out


def test_readings_are_kept_as_they_stand_in_the_file(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """The record has the reading as written, with its unit."""
    here = shell(tmp_path)
    answered(here, capsys, MEASURED)

    assert [e.event.typed for e in kept(here).entries if isinstance(e.event, Measured)] == [
        {"left": "1900", "right": "190.4 cm"},
        {"play": "1/8 in"},
    ]


def test_what_follows_the_verdict_is_walked_too(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A line that follows starts the procedure, and the file may go on in it."""
    here = shell(tmp_path)
    more = "  - {at: sheared, follow: prove}\n  - {at: prove/first, say: b}\n"
    code, _, _ = answered(here, capsys, SHEARED + more)

    assert (code, kept(here).state.followed) == (0, {"prove": "There"})


def test_a_step_back_in_the_file_is_taken(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The walk returns to the step that is named."""
    here = shell(tmp_path)
    code, out, _ = answered(
        here, capsys, "  - {at: second, say: All four}\n  - {at: second, back: true}\n" + SHEARED
    )

    assert (code, kept(here).state.where) == (0, "sheared")
    assert "> back 5\n" in out


@pytest.mark.parametrize(
    ("answers", "place", "message"),
    [
        ("  - {at: third, read: 3}\n", "7:5", "The walk asks `second`, and the next answer is for `third`."),
        (
            "  - {at: second, say: Al four}\n",
            "7:5",
            "`Al four` is no answer of `second`. Did you mean `All four`?",
        ),
        ("  - {at: second, say: All four}\n", "7:5", "The walk asks `third`, and no answer is left."),
        (MEASURED + "  - {at: look/first, done: true}\n", "10:5", "The walk is at its verdict `sheared`"),
        (
            "  - {at: second, say: All four}\n  - at: third\n    read: {left: 19, right: 1900}\n",
            "8:5",
            "left = 19 mm lies outside what is believed here",
        ),
        (
            SHEARED + "expect: {verdict: referred}\n",
            "1:12",
            "The walk ended in `sheared` and should end in `referred`.",
        ),
    ],
)
def test_off_script_is_told_with_its_place(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], answers: str, place: str, message: str
) -> None:
    """Exit code 1 and `file:line:column` with the reason and the cure."""
    here = shell(tmp_path)
    code, out, err = answered(here, capsys, answers)

    assert (code, err) == (1, "")
    assert f"{here.folder / 'day.yaml'}:{place}: {message}" in out


def test_a_walk_off_script_is_kept_and_goes_on(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """What was answered until then is in the store, and another file goes on from there."""
    here = shell(tmp_path)
    _, out, _ = answered(here, capsys, "  - {at: second, say: All four}\n")
    code, _, _ = answered(here, capsys, "  - {at: third, unsure: flat tyre}\n")

    assert "`witnessmark walk --case one` goes on from there." in out
    assert (code, kept(here).state.where) == (0, "referred")


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("", "day.yaml:1:1: "),
        ("answers: [", "day.yaml:1:"),
        ("tree: bench\n", "day.yaml:1:1: "),
        (HEAD + "  - {at: second, sey: All four}\n", "day.yaml:7:5: "),
        (HEAD + "  - {at: second, say: a, read: 3}\n", "day.yaml:7:"),
    ],
)
def test_a_file_that_cannot_be_used_is_told_with_its_place(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], text: str, message: str
) -> None:
    """Exit code 2, one sentence with `file:line:column`, and no case is opened."""
    here = shell(tmp_path)
    code, out, err = answered(here, capsys, text)

    assert (code, out, message in err) == (2, "", True)
    assert not (here.folder / "cases.db").exists()


@pytest.mark.parametrize("name", ["nowhere.yaml", "own"])
def test_a_file_that_is_not_there_is_told(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], name: str
) -> None:
    """A missing file, or a folder in its place, is exit code 2 with the cure."""
    here = shell(tmp_path)
    code = main(["walk", "--answers", str(here.folder / name), "--store", str(here.folder / "cases.db")])

    assert (code, capsys.readouterr().err) == (
        2,
        f"witnessmark: There is no answers file {here.folder / name}. Check the path after `--answers`.\n",
    )


def test_words_of_the_command_go_before_the_file(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A vehicle named beside the file is the one that is walked on."""
    here = shell(tmp_path)
    code, _, err = answered(here, capsys, SHEARED, "bench", "--vehicle", "wagonn")

    assert (code, err) == (2, "witnessmark: There is no vehicle `wagonn`. Did you mean `wagon`?\n")


def test_escapes_in_the_file_are_shown_and_not_obeyed(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Neither an answer that is taken nor one that is refused commands the terminal."""
    here = shell(tmp_path)
    _, out, _ = answered(
        here, capsys, '  - {at: second, unsure: "\\e[31mdark"}\n  - {at: third, say: "\\e[31mred"}\n'
    )

    assert "> cannot ␛[31mdark\n" in out
    assert "\x1b" not in out


def test_the_whole_program_answers_from_a_file(tmp_path: Path) -> None:
    """Started as a program of its own it does the same, on what is shipped."""
    here = Shell(tmp_path)
    file = "trees/rehearsals/coupling-dead-fellside.yaml"
    root = Path(__file__).parents[3]
    ended = here.run("walk", "--plain", "--answers", str(root / file), "--store", "cases.db")

    assert (ended.code, ended.err) == (0, "")
    assert "VERDICT: " in ended.out
