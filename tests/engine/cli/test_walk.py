"""`walk --plain` as people and pipes run it: started, fed, cut off, resumed."""

import os
import signal
import subprocess
import sys
from pathlib import Path

import pexpect
import pytest

from engine import api
from engine.cli.main import main
from engine.records.event import Noted
from tests.engine.cli.shell import Shell, shell
from tests.engine.cli.spoken import LOOK, PROVE, TREE
from tests.engine.interview.given import tree

WAGON = ("bench", "--vehicle", "wagon")
TO_SHEARED = "u\nu\nu\n2\n"


def kept(here: Shell, case: str = "one") -> api.Job:
    """The case as the store has it."""
    store = api.open_store(str(here.folder / "cases.db"))
    try:
        return api.resume(store, case)
    finally:
        store.close()


def test_a_walk_through_a_pipe_ends_at_its_verdict(tmp_path: Path) -> None:
    """Accepted at a verdict that nothing follows, the program ends with 0 and names the report."""
    ended = shell(tmp_path).walk(*WAGON, typed="u\nu\nu\ncannot\nu\n")

    assert (ended.code, ended.err) == (0, "")
    assert "VERDICT: Referred" in ended.out
    assert ended.out.endswith("The case is closed with its verdict. `witnessmark report one` prints it.\n")


def test_an_input_that_ends_too_early_is_an_end_elsewhere(tmp_path: Path) -> None:
    """Where the pipe runs dry before the verdict the exit code is 1, and the case is kept."""
    here = shell(tmp_path)
    ended = here.walk(*WAGON, typed="u\nu\nu\n")

    assert (ended.code, ended.err) == (1, "")
    assert "Paused. `witnessmark walk --case one` goes on where you left." in ended.out
    assert kept(here).state.where == "second"


def test_an_input_that_ends_in_mid_line_is_heard(tmp_path: Path) -> None:
    """A last line without its line end counts like any other."""
    here = shell(tmp_path)
    here.walk(*WAGON, typed="u\nu\nu\n2")

    assert kept(here).state.where == "sheared"


def test_a_pause_that_was_typed_is_no_failure(tmp_path: Path) -> None:
    """Whoever says `pause` ends with 0."""
    ended = shell(tmp_path).walk(*WAGON, typed="u\npause\nu\n")

    assert ended.code == 0
    assert "Paused." in ended.out


def test_a_paused_walk_goes_on(tmp_path: Path) -> None:
    """With the name of the case alone, and without its documents, the walk goes on where it was left."""
    here = shell(tmp_path)
    here.walk(*WAGON, typed="u\nu\nu\npause\n")
    ended = here.run("walk", "--case", "one", "--store", "cases.db", "--plain", typed="trail\n2\nu\npause\n")

    assert ended.code == 0
    assert "  4  Put it in neutral. - Done" in ended.out
    assert kept(here).state.concluded


def test_a_verdict_whose_procedure_is_under_way_is_not_closed(tmp_path: Path) -> None:
    """In the middle of what follows the verdict the case is paused and not closed."""
    ended = shell(tmp_path).walk(*WAGON, typed=f"{TO_SHEARED}u\n1\n")

    assert ended.code == 1
    assert "Paused." in ended.out


def test_an_accepted_verdict_is_closed_though_something_may_follow(tmp_path: Path) -> None:
    """Accepted, the verdict stands; what may follow can be started later."""
    ended = shell(tmp_path).walk(*WAGON, typed=f"{TO_SHEARED}u\n")

    assert (ended.code, "The case is closed with its verdict." in ended.out) == (0, True)


def test_words_of_the_walk_work_through_a_pipe(tmp_path: Path) -> None:
    """Notes, steps back, the trail and wrong input are what they are at a keyboard."""
    here = shell(tmp_path)
    ended = here.walk(*WAGON, typed="u\nu\nnote drips\nu\n9\nnonsense\n1\nback 6\ntrail\n2\nu\npause\n")

    assert ended.code == 0
    assert "There is no answer 9. Choose 1 to 2." in ended.out
    assert "`nonsense` is no answer here." in ended.out
    assert Noted("first", "drips") in [entry.event for entry in kept(here).entries]
    assert kept(here).state.where == "sheared"


def test_ctrl_c_keeps_what_was_answered(tmp_path: Path) -> None:
    """An interrupt ends the walk with 130 and one sentence; every answer before it is in the store."""
    here = shell(tmp_path)
    words = ["walk", *WAGON, "--plain", "--library", "own", "--store", "cases.db", "--case", "one"]
    with subprocess.Popen(
        [sys.executable, "-u", "-m", "tui", *words],
        cwd=here.folder,
        env=here.environment(),
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        # where the tests themselves run in the background, interrupts are ignored and that is inherited
        preexec_fn=lambda: signal.signal(signal.SIGINT, signal.SIG_DFL),  # noqa: PLW1509  reason: no threads here
    ) as walk:
        assert walk.stdin is not None
        assert walk.stdout is not None
        walk.stdin.write("u\nu\nu\n")
        walk.stdin.flush()
        for line in walk.stdout:
            if "Which wheels turn?" in line:
                break
        walk.send_signal(signal.SIGINT)
        _, err = walk.communicate(timeout=120)

    assert (walk.returncode, err) == (130, "\nStopped. What was answered is kept.\n")
    assert kept(here).state.where == "second"


def test_a_terminal_may_end_the_input(tmp_path: Path) -> None:
    """At a keyboard Ctrl-D pauses the walk: exit code 0, and it says how to go on."""
    here = shell(tmp_path)
    words = ["-m", "tui", "walk", *WAGON, "--plain", "--case", "one"]
    words += ["--library", "own", "--store", "cases.db"]
    walk = pexpect.spawn(sys.executable, words, cwd=tmp_path, env=here.environment(TERM="xterm"), timeout=120)
    walk.expect_exact("u when understood: ")
    walk.sendline("u")
    walk.expect_exact("u when understood: ")
    walk.sendeof()
    walk.expect_exact("`witnessmark walk --case one` goes on where you left.")
    walk.expect_exact(pexpect.EOF)
    walk.close()

    assert walk.exitstatus == 0
    assert kept(here).state.acknowledged == ("hot",)


@pytest.mark.parametrize(
    "words", [["walk", *WAGON, "--plain"], ["walk", "--help"], ["cases", "export", "one"]]
)
def test_a_reader_that_leaves_is_not_shouted_at(tmp_path: Path, words: list[str]) -> None:
    """Where `head -1` has read enough, the program says nothing on stderr."""
    here = shell(tmp_path)
    here.walk(*WAGON, typed=TO_SHEARED)
    more = ["--library", "own", "--case", "two"] if words[-1] == "--plain" else []
    store = [] if words[-1] == "--help" else ["--store", "cases.db"]
    read, write = os.pipe()
    os.close(read)  # the reader has gone before the first line
    with os.fdopen(write, "wb") as output:
        ended = subprocess.run(
            [sys.executable, "-m", "tui", *words, *more, *store],
            cwd=here.folder,
            env=here.environment(),
            input=TO_SHEARED.encode() * 20,
            stdout=output,
            stderr=subprocess.PIPE,
            timeout=120,
            check=False,
        )

    assert (ended.returncode, ended.stderr) == (2, b"")


def test_bytes_that_are_no_text_are_taken_as_they_are(tmp_path: Path) -> None:
    """A note in another encoding is kept, spelt out, and can be reported and exported."""
    here = shell(tmp_path)
    typed = b"note \xfcber\nnote \x00\x1b[31m\npause\n"
    ended = here.walk(*WAGON, typed=typed, PYTHONIOENCODING="utf-8:strict")

    assert (ended.code, ended.err) == (0, "")
    assert kept(here).state.notes == (("first", "\\udcfcber"), ("first", "\x00\x1b[31m"))
    assert here.run("cases", "export", "one", "--store", "cases.db").code == 0
    assert "\x1b" not in here.run("report", "one", "--store", "cases.db").out


def test_a_terminal_without_the_signs_is_written_to_all_the_same(tmp_path: Path) -> None:
    """Where the output cannot show `≈` or `·` they are spelt out; nothing breaks."""
    ended = shell(tmp_path).walk(*WAGON, typed="u\nu\nu\n1\n1900\n1901\n", PYTHONIOENCODING="ascii")

    assert (ended.code, ended.err) == (1, "")
    assert "45 N\\xb7m (\\u2248 33.19 lbf\\xb7ft)" in ended.out


def test_without_any_input_the_walk_is_paused(tmp_path: Path) -> None:
    """Started with its input closed, the program says the first prompt and pauses."""
    here = shell(tmp_path)
    words = "walk bench --vehicle wagon --plain --library own --store cases.db --case one"
    ended = subprocess.run(
        ["/bin/sh", "-c", f'exec "$0" -m tui {words} <&-', sys.executable],
        cwd=here.folder,
        env=here.environment(),
        capture_output=True,
        text=True,
        timeout=120,
        check=False,
    )

    assert (ended.returncode, ended.stderr) == (1, "")
    assert "CAUTION: Hot parts" in ended.stdout


def test_nothing_of_a_document_or_a_name_commands_the_terminal(tmp_path: Path) -> None:
    """Escapes in titles, texts, labels and the name of the case are shown and not obeyed."""
    nasty = '"\\e[31mred\\a"'
    steps = f"first: {{do: {nasty}, why: {nasty}, then: ended}}\n"
    here = shell(tmp_path, tree(steps).replace("title: The bench tree", f"title: {nasty}"))
    ended = here.walk(*WAGON, "--case", "\x1b[2Jcase", "--label", "\x1b[2Jlabel", typed="trail\nu\nu\n")
    listed = here.run("cases", "--store", "cases.db")

    assert (ended.code, listed.code) == (0, 0)
    assert "␛[31mred␇" in ended.out
    assert "␛[2Jcase" in listed.out
    assert "\x1b" not in ended.out + listed.out + ended.err


@pytest.mark.parametrize(
    ("words", "message"),
    [
        (["bensh", "--vehicle", "wagon"], "There is no tree `bensh`. Did you mean `bench`?"),
        (["bench", "--vehicle", "wagin"], "There is no vehicle `wagin`. Did you mean `wagon`?"),
        ([], "No tree is named. Name one: `witnessmark walk no-rear-drive`."),
        (["b\x1b[31m", "--vehicle", "wagon"], "There is no tree `b␛[31m`."),
    ],
)
def test_what_cannot_be_walked_is_one_sentence(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], words: list[str], message: str
) -> None:
    """Exit code 2, the sentence with its cure on stderr, nothing on stdout."""
    here = shell(tmp_path)
    folders = ["--library", str(here.folder / "own"), "--store", str(here.folder / "cases.db")]
    code = main(["walk", *words, "--plain", *folders])

    told = capsys.readouterr()

    assert (code, told.out) == (2, "")
    # where no name is near, all that are known follow
    assert told.err.partition(" Known here: ")[0].rstrip("\n") == f"witnessmark: {message}"


@pytest.mark.parametrize("typed", ["1", "wagon", " 1 "])
def test_the_vehicle_is_asked_for(tmp_path: Path, typed: str) -> None:
    """Without a vehicle those that suit are listed with numbers, and one is chosen by number or name."""
    ours = TREE.replace("complaint:", "for: {gearbox: manual}\ncomplaint:")
    here = shell(tmp_path, ours, LOOK, PROVE)
    ended = here.walk("bench", typed=f"{typed}\npause\n")

    assert "  1  Brennick test wagon (wagon)\n" in ended.out
    assert (ended.code, kept(here).state.sheet.name) == (0, "wagon")


@pytest.mark.parametrize("typed", ["", "99\n", "van\n"])
def test_a_vehicle_that_was_not_chosen_is_told(tmp_path: Path, typed: str) -> None:
    """No vehicle, no case: exit code 2 with the names to choose from."""
    ended = shell(tmp_path).walk("bench", typed=typed)

    assert ended.code == 2
    assert ended.err.startswith("witnessmark: No vehicle was chosen. Name one with --vehicle: ")


def test_label_and_name_stand_in_the_case(tmp_path: Path) -> None:
    """What the workshop calls the job, and who works on it, are in its first event."""
    here = shell(tmp_path)
    here.walk(*WAGON, "--label", "HP 118", "--by", "Bay 2", typed="pause\n")
    page = here.run("report", "one", "--store", "cases.db").out

    assert "| Job | HP 118 |\n" in page
    assert "| Worked on by | Bay 2 |\n" in page
