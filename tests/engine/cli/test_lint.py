"""`witnessmark lint` beside its rules: choosing, backlog, acceptances, settings, and what it remembers."""

import gc
import json
import os
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Final

import pytest

from engine.cli import remembered, settings
from engine.cli.main import main
from engine.cli.reviewed import papers

DOCUMENTS = Path(__file__).parents[1] / "lint/documents"
#: Two findings: the step has no `unsure`, and the verdict has no follow-up.
BAD = DOCUMENTS / "no-unsure/bad-ask.yaml"


@pytest.fixture(autouse=True)
def _place(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """A folder of one's own, with settings and memory of its own."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    (tmp_path / "bad.yaml").write_bytes(BAD.read_bytes())
    settings.settings.cache_clear()
    yield
    settings.settings.cache_clear()


def rules(*words: object, capsys: pytest.CaptureFixture[str]) -> list[str]:
    """The rules that are told."""
    main(["lint", "--format", "json", *map(str, words)])
    return [finding["rule"] for finding in json.loads(capsys.readouterr().out)["findings"]]


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ([], ["no-unsure", "verdict-without-follow-up"]),
        (["--only", "no-unsure"], ["no-unsure"]),
        (["--without", "no-unsure"], ["verdict-without-follow-up"]),
        (
            ["--only", "no-unsure", "--only", "verdict-without-follow-up"],
            ["no-unsure", "verdict-without-follow-up"],
        ),
        (["--only", "no-unsure", "--without", "no-unsure"], []),
    ],
)
def test_rules_are_chosen(words: list[str], told: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    """Only some, all but some, and both."""
    assert rules("bad.yaml", *words, capsys=capsys) == told


def test_what_cannot_be_read_is_told_whatever_is_chosen(capsys: pytest.CaptureFixture[str]) -> None:
    """A file that was not understood was not checked for the chosen rule either."""
    Path("broken.yaml").write_text("tree: [\n")

    assert "syntax" in rules("broken.yaml", "--only", "loop", capsys=capsys)


@pytest.mark.parametrize(
    ("slug", "said"),
    [
        ("lop", "There is no rule `lop`. Did you mean `loop`?"),
        ("syntax", "`syntax` is told whatever is chosen: "),
    ],
)
def test_a_choice_that_means_nothing_is_refused(
    slug: str, said: str, capsys: pytest.CaptureFixture[str]
) -> None:
    """A slip in CI must not switch a check off without a word."""
    assert main(["lint", "bad.yaml", "--without", slug]) == 2
    assert said in capsys.readouterr().err


def test_what_is_not_told_by_choice_is_counted(capsys: pytest.CaptureFixture[str]) -> None:
    """A setting that switches a rule off does not make its findings unheard of."""
    Path("witnessmark.toml").write_text('[lint]\nwithout = ["no-unsure", "verdict-without-follow-up"]\n')

    assert main(["lint", "bad.yaml"]) == 0
    assert capsys.readouterr().out == "1 file, 1 tree: nothing found; 2 not told by choice.\n"


def test_settings_choose_where_the_command_does_not(capsys: pytest.CaptureFixture[str]) -> None:
    """The words of the command take the place of the setting."""
    Path("witnessmark.toml").write_text('library = ["."]\n[lint]\nwithout = ["no-unsure"]\n')

    assert rules(capsys=capsys) == ["verdict-without-follow-up"]
    assert rules("--without", "verdict-without-follow-up", capsys=capsys) == ["no-unsure"]


def test_a_backlog_lets_an_old_library_in(capsys: pytest.CaptureFixture[str]) -> None:
    """What was there is not told, a new finding is, and a mended one is counted."""
    assert main(["lint", ".", "--write-backlog", "old.json"]) == 0
    assert main(["lint", ".", "--backlog", "old.json"]) == 0
    assert capsys.readouterr().out == "1 file, 1 tree: nothing found; 2 in the backlog.\n"

    text = BAD.read_text().replace("bad-ask", "new")
    Path("new.yaml").write_text(text.replace("    minutes: 1\n", "    minutes: 1\n    unsure: refer\n"))
    assert rules(".", "--backlog", "old.json", capsys=capsys).count("verdict-without-follow-up") == 1

    Path("bad.yaml").unlink()
    main(["lint", ".", "--backlog", "old.json"])
    assert "; 0 in the backlog, 2 of it mended (write it anew)." in capsys.readouterr().out


def test_a_backlog_written_anew_forgets_nothing(capsys: pytest.CaptureFixture[str]) -> None:
    """Also where the settings name the old one, it holds all findings of today."""
    Path("witnessmark.toml").write_text('[lint]\nbacklog = "old.json"\n')
    main(["lint", "bad.yaml", "--write-backlog", "old.json"])
    first = Path("old.json").read_bytes()
    main(["lint", "bad.yaml", "--write-backlog", "old.json"])

    assert Path("old.json").read_bytes() == first
    assert rules("bad.yaml", capsys=capsys) == []


def test_what_is_accepted_is_shown_to_machines(capsys: pytest.CaptureFixture[str]) -> None:
    """With the reason that the document gives."""
    reason = "It hangs at eye level in front of everybody."
    accept = f"accept:\n  - {{rule: no-unsure, step: first, reason: {reason}}}\n"
    Path("bad.yaml").write_text(BAD.read_text().replace("start: first\n", f"{accept}start: first\n"))
    main(["lint", "bad.yaml", "--format", "json"])
    told = json.loads(capsys.readouterr().out)

    assert [(each["rule"], each["reason"]) for each in told["accepted"]] == [("no-unsure", reason)]
    assert [each["rule"] for each in told["findings"]] == ["verdict-without-follow-up"]


def test_the_same_files_are_looked_at_once(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """The second run tells the same without looking; `--afresh` looks."""
    looked: list[int] = []
    monkeypatch.setattr("engine.lint.runner.weigh", _counting(looked))
    first = rules("bad.yaml", capsys=capsys)

    assert rules("bad.yaml", capsys=capsys) == first
    assert len(looked) == 1
    rules("bad.yaml", "--afresh", capsys=capsys)
    assert len(looked) == 2


def _counting(looked: list[int]) -> object:
    from engine.lint.runner import weigh

    def counted(*args: object) -> object:
        looked.append(1)
        return weigh(*args)  # type: ignore[arg-type]  # reason: handed on as it came

    return counted


CHANGES: Final[dict[str, Callable[[], object]]] = {
    "a byte": lambda: Path("bad.yaml").write_bytes(Path("bad.yaml").read_bytes() + b"\n"),
    "a name": lambda: Path("bad.yaml").rename("other.yaml"),
    "a file more": lambda: Path("more.yaml").write_text("tre: a\n"),
    "a file less": lambda: Path("less.yaml").unlink(),
    "a picture less": lambda: Path("mark.svg").unlink(),
}


@pytest.mark.parametrize("change", sorted(CHANGES))
def test_any_change_has_another_key(change: str) -> None:
    """Content, names and number of the files all count, and the pictures that they name."""
    Path("less.yaml").write_text("tre: a\n")
    Path("shows.yaml").write_text("picture: mark.svg\n")
    Path("mark.svg").write_text("<svg/>")
    before = remembered.key(papers([Path()]))
    CHANGES[change]()

    assert remembered.key(papers([Path()])) != before


def test_a_change_of_the_program_has_another_key(monkeypatch: pytest.MonkeyPatch) -> None:
    """A rule that was mended looks again at files that did not change."""
    before = remembered.key(papers([Path()]))
    monkeypatch.setattr(remembered, "_sources", lambda: iter([("lint/rules/loop.py", b"")]))

    assert remembered.key(papers([Path()])) != before


@pytest.mark.parametrize("content", [b"", b"{}", b'{"findings": [[1]]}', b"[" * 100_000, b"\xff"])
def test_a_damaged_memory_is_none(content: bytes, capsys: pytest.CaptureFixture[str]) -> None:
    """Whatever stands there, lint looks again and tells the same."""
    first = rules("bad.yaml", capsys=capsys)
    for path in Path("cache").rglob("*.json"):
        path.write_bytes(content)

    assert rules("bad.yaml", capsys=capsys) == first


def test_where_nothing_can_be_remembered_lint_works_all_the_same(capsys: pytest.CaptureFixture[str]) -> None:
    """A file stands where the folder would be."""
    Path("cache").write_text("in the way")

    assert rules("bad.yaml", capsys=capsys) == ["no-unsure", "verdict-without-follow-up"]


def test_the_oldest_is_forgotten_first(capsys: pytest.CaptureFixture[str]) -> None:
    """The folder does not grow for ever, and what was used a moment ago stays."""
    rules("bad.yaml", capsys=capsys)
    (used,) = Path("cache").rglob("*.json")
    for number in range(60):
        (used.parent / f"{number}.json").write_text("{}")
        os.utime(used.parent / f"{number}.json", (number, number))
    Path("new.yaml").write_bytes(BAD.read_bytes())
    os.utime(used, (time.time(), time.time()))
    rules("new.yaml", capsys=capsys)

    left = {path.name for path in used.parent.iterdir()}
    assert len(left) == 40
    assert used.name in left
    assert "0.json" not in left


@pytest.mark.parametrize("words", [["bad.yaml"], ["nowhere.yaml"]])
def test_garbage_is_collected_again_after_a_look(words: list[str]) -> None:
    """Whoever calls the command line from a program of their own does not run out of memory."""
    main(["lint", *words])

    assert gc.isenabled()


ALIKE = DOCUMENTS / "faults-alike/bad-pair.yaml"


def test_a_note_stops_nobody(capsys: pytest.CaptureFixture[str]) -> None:
    """It is told, and lint ends as if nothing had been found."""
    assert main(["lint", str(ALIKE)]) == 0
    assert "note faults-alike: No test tells `left` and `right` apart." in capsys.readouterr().out


def test_a_backlog_hides_no_note(capsys: pytest.CaptureFixture[str]) -> None:
    """It is told as long as it is there."""
    main(["lint", str(ALIKE), "--write-backlog", "backlog.json"])
    capsys.readouterr()
    main(["lint", str(ALIKE), "--backlog", "backlog.json"])

    assert "faults-alike" in capsys.readouterr().out
