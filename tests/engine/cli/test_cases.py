"""`cases`: listed, shown, exported, verified and rescued, whatever state the store is in."""

import json
import sqlite3
from pathlib import Path

import pytest

from engine import api
from engine.cli.main import main
from engine.interview.command import Accept, Acknowledge, Choose, Command, Confirm, Note, Read, StepBack
from engine.records.codec import seal
from engine.records.event import Answered
from engine.records.sqlite import SqliteStore
from tests.engine.cli.spoken import LOOK, PROVE, TREE
from tests.engine.interview.given import library, tree

READ = (Acknowledge("hot"), Acknowledge("turning"))
Told = tuple[int, str, str]


class Bench:
    """A store on disk with cases in it, and the command looking at it."""

    def __init__(self, folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
        self.path = folder / "cases.db"
        self._capsys = capsys

    def open(
        self, case: str, *commands: Command, at: str = "2026-03-05T08:30:00+01:00", label: str = ""
    ) -> api.Job:
        """A case walked so far."""
        store = SqliteStore(self.path)
        job = api.open_job(store, library(TREE, LOOK, PROVE), "bench", "wagon", case=case, at=at, label=label)
        for command in commands:
            after = api.act(store, job, command, at)
            assert isinstance(after, api.Job), after
            job = after
        store.close()
        return job

    def do(self, case: str, *commands: Command) -> None:
        """Go on with a case."""
        store = SqliteStore(self.path)
        job = api.resume(store, case)
        for command in commands:
            after = api.act(store, job, command)
            assert isinstance(after, api.Job), after
            job = after
        store.close()

    def change(self, case: str, number: int, content: bytes) -> None:
        """Write other bytes in the place of an event."""
        connection = sqlite3.connect(self.path)
        with connection:
            where = 'UPDATE entries SET entry = ? WHERE "case" = ? AND sequence = ?'
            connection.execute(where, (content, case, number))
        connection.close()

    def cases(self, *words: str) -> Told:
        """The command with these words: exit code, output, errors."""
        code = main(["cases", *words, "--store", str(self.path)])
        told = self._capsys.readouterr()
        return code, told.out, told.err


@pytest.fixture
def bench(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> Bench:
    """An empty store."""
    return Bench(tmp_path, capsys)


def test_an_empty_store_says_so(bench: Bench) -> None:
    """No case is a sentence and exit code 0."""
    assert bench.cases() == (0, "No case has been opened here yet.\n", "")


def test_cases_are_listed_the_one_touched_last_first(bench: Bench) -> None:
    """Name, label, tree, vehicle, time and standing stand in one line each."""
    bench.open("one", *READ, Confirm(), Choose(1), Accept(), label="HP 118")
    bench.open("two", at="2026-03-06T08:30:00+01:00")

    assert bench.cases()[1] == (
        "two  The bench tree  Brennick test wagon  2026-03-06T08:30:00+01:00  open\n"
        "one  HP 118  The bench tree  Brennick test wagon  2026-03-05T08:30:00+01:00  verdict: Sheared\n"
    )


def test_a_verdict_that_was_taken_back_leaves_the_case_open(bench: Bench) -> None:
    """Stepped back over, the verdict is no longer listed."""
    bench.open("one", *READ, Confirm(), Choose(1), Accept(), StepBack(6))

    assert bench.cases()[1].endswith("  open\n")


def test_the_list_for_machines_has_every_field(bench: Bench) -> None:
    """With --json the list is one JSON array."""
    bench.open("one", *READ, Confirm(), Choose(1), Accept(), label="HP 118")

    assert json.loads(bench.cases("--json")[1]) == [
        {
            "case": "one",
            "label": "HP 118",
            "title": "The bench tree",
            "vehicle": "Brennick test wagon",
            "opened": "2026-03-05T08:30:00+01:00",
            "last": "2026-03-05T08:30:00+01:00",
            "standing": "concluded",
            "verdict": "Sheared",
            "waits": False,
            "confirmed": "",
        }
    ]


def test_a_case_is_shown_with_its_trail(bench: Bench) -> None:
    """Each settled step stands with its number, and where the walk is now."""
    bench.open("one", *READ, Confirm(), Note("drips"), Choose(1), Accept())

    assert bench.cases("show", "one")[1] == (
        "one  The bench tree, Brennick test wagon\n"
        "  4  Put it in neutral. - Done\n"
        "     Caution acknowledged: Hot parts\n"
        "     Caution acknowledged: Turning wheels\n"
        "  6  Which wheels turn? - Front only\n"
        "     Note: drips\n"
        "  7  Verdict - Sheared\n"
        "suspects:\n"
        "  Shaft sheared: possible, 50 %\n"
        "  Coupling dead: unlikely, 30 %\n"
        "  Bearing worn: unlikely, 10 %\n"
        "  Something else, not in this tree: unlikely, 10 %\n"
        "  So far by their weights in the tree alone; no answer has moved them.\n"
        "that the verdict is right: Possible, 50 %. Too weak to condemn: this tree wants 80 % before parts"
        " are replaced.\n"
        "now at sheared, verdict accepted\n"
    )


def test_a_case_that_was_left_at_a_close_reading_says_so(bench: Bench) -> None:
    """What was read stands in the trail, and that it is not decided behind where the case is."""
    step = "{measure: M, reading: {name: p, gauge: rule, unit: mm, plausible: [0, 9]}, bands: [%s]}"
    text = tree(f"first: {step % '{upto: 5, then: ended}, {over: 5, then: ended}'}\n")
    store = SqliteStore(bench.path)
    job = api.open_job(store, library(text), "bench", "wagon", case="one")
    api.act(store, job, Read({"p": "4.5"}))
    store.close()

    assert bench.cases("show", "one")[1].splitlines()[1::7] == [
        "  2  M - 4.5 mm (up to 5 mm, 93 % sure, too close to call, not decided)",
        "now at first, where a reading is too close to call and not decided",
    ]
    assert bench.cases("verify", "one") == (0, "one: whole\n", "")
    assert bench.cases("list")[1].endswith("  open, a reading is too close to call\n")


def test_an_export_holds_every_event_with_its_hash(bench: Bench) -> None:
    """The exported JSON has the case's entries in order."""
    job = bench.open("one", *READ, Confirm())
    told = json.loads(bench.cases("export", "one")[1])

    assert (told["case"], told["format"]) == ("one", 1)
    assert [(e["sequence"], e["kind"], e["hash"]) for e in told["entries"]] == [
        (e.sequence, e.event.kind, e.hash) for e in job.entries
    ]


def test_an_export_is_harmless_in_a_terminal(bench: Bench) -> None:
    """Control and turning characters stand escaped, and the JSON still says the same."""
    note = "red \x1b[31m \x9b31m \u202e"
    bench.open("one", Note(note))
    _, out, _ = bench.cases("export", "one")

    assert not any(sign in out for sign in "\x1b\x9b\u202e")
    assert json.loads(out)["entries"][1]["data"]["text"] == note


def test_a_case_that_cannot_be_walked_can_be_exported(bench: Bench) -> None:
    """What no walk can have written is told when it is shown, and exported all the same."""
    job = bench.open("one")
    store = SqliteStore(bench.path)
    store.append(seal("one", 2, "", Answered("first", 7, "x"), job.entries[0].hash))
    store.close()

    assert bench.cases("show", "one")[0] == 2
    assert len(json.loads(bench.cases("export", "one")[1])["entries"]) == 2


@pytest.mark.parametrize("action", ["show", "export", "verify"])
def test_a_case_that_is_not_there_is_told(bench: Bench, action: str) -> None:
    """Exit code 2 with where to look, for every action that names a case."""
    bench.open("one")

    assert bench.cases(action, "two") == (
        2,
        "",
        "witnessmark: There is no case two here. `witnessmark cases` lists those that are.\n",
    )


@pytest.mark.parametrize("action", ["show", "export", "rescue"])
def test_an_action_without_its_name_is_told(bench: Bench, action: str) -> None:
    """What an action needs is told with an example."""
    assert bench.cases(action) == (
        2,
        "",
        f"witnessmark: `cases {action}` needs a name. `witnessmark cases {action} CASE`.\n",
    )


def test_whole_cases_are_verified(bench: Bench) -> None:
    """Every chain that holds is called whole, with exit code 0."""
    bench.open("one", *READ)
    bench.open("two")

    assert bench.cases("verify") == (0, "one: whole\ntwo: whole\n", "")


@pytest.mark.parametrize("words", [[], ["two"]])
def test_a_changed_event_is_found(bench: Bench, words: list[str]) -> None:
    """One changed byte breaks its case, with exit code 1, and the other cases are still looked at."""
    bench.open("one")
    job = bench.open("two", Note("drips"))
    bench.open("zulu")
    store = sqlite3.connect(bench.path)
    (content,) = store.execute(
        """SELECT entry FROM entries WHERE "case" = 'two' AND sequence = 2"""
    ).fetchone()
    store.close()
    bench.change("two", job.entries[-1].sequence, content.replace(b"drips", b"drops"))
    code, out, err = bench.cases("verify", *words)

    assert (code, err) == (1, "")
    assert "two: BROKEN\n  " in out
    assert [line for line in out.splitlines() if line.endswith("whole")] == (
        [] if words else ["one: whole", "zulu: whole"]
    )


def test_a_damaged_case_does_not_hide_the_others(bench: Bench) -> None:
    """The list goes on, and says which case cannot be read."""
    bench.open("one")
    bench.open("two")
    bench.change("two", 1, b"\x00")
    code, out, _ = bench.cases()

    assert code == 0
    assert out.splitlines() == [
        "one  The bench tree  Brennick test wagon  2026-03-05T08:30:00+01:00  open",
        "two  This case is damaged and cannot be read  open",
    ]


def test_what_can_be_read_is_rescued(bench: Bench, tmp_path: Path) -> None:
    """Cases come into another store, each up to its hole; exit code 1 where something is lost."""
    bench.open("one", *READ, Confirm())
    bench.open("two", *READ)
    bench.change("one", 3, b"\x00")
    damaged = bench.path
    bench.path = tmp_path / "new.db"
    code, out, err = bench.cases("rescue", str(damaged))

    assert (code, err) == (1, "")
    assert out.startswith(
        "Rescued 5 events of 2 cases; 2 could not be read.\n  Case one is kept up to event 2; "
    )
    assert bench.cases("verify")[:2] == (0, "one: whole\ntwo: whole\n")


def test_a_whole_store_is_rescued_whole(bench: Bench, tmp_path: Path) -> None:
    """Where nothing is lost the exit code is 0."""
    bench.open("one", *READ)
    whole = bench.path
    bench.path = tmp_path / "new.db"

    assert bench.cases("rescue", str(whole)) == (0, "Rescued 3 events of 1 case; 0 could not be read.\n", "")


def test_a_file_that_is_no_store_is_told(bench: Bench) -> None:
    """Another file in the store's place is exit code 2 with a cure, and stays as it was."""
    bench.path.write_text("tree: bench\n" * 100, encoding="utf-8")
    code, out, err = bench.cases()

    assert (code, out) == (2, "")
    assert "is damaged or is no store of cases. `witnessmark cases rescue" in err
    assert bench.path.read_text(encoding="utf-8") == "tree: bench\n" * 100
