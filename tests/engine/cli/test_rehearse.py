"""`rehearse`: which scripts pass, where the others part from the tree, and what none of them visits."""

import json
from pathlib import Path

import pytest

from engine.cli.main import main
from tests.engine.cli.shell import Shell, shell
from tests.engine.interview.given import tree

HEAD = "rehearsal: {name}\nformat: 1\ntitle: A day\ntree: bench\nvehicle: wagon\nanswers:\n"
FRONT = "  - {at: second, say: Front only}\nexpect: {verdict: sheared}\n"
WRONG = "  - {at: second, say: Front only}\nexpect: {verdict: referred}\n"
OFF = "  - {at: third, read: 3}\nexpect: {verdict: referred}\n"


def rehearsed(
    here: Shell, capsys: pytest.CaptureFixture[str], *words: str, **scripts: str
) -> tuple[int, str, str]:
    """The command on the folder with these scripts: exit code, output, errors."""
    for name, answers in scripts.items():
        here.write(f"own/rehearsals/{name}.yaml", HEAD.format(name=name) + answers)
    code = main(["rehearse", str(here.folder / "own"), *words])
    told = capsys.readouterr()
    return code, told.out, told.err


def test_rehearsals_that_pass_are_listed(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Each with its verdict, then the count; exit code 0."""
    code, out, err = rehearsed(shell(tmp_path), capsys, front=FRONT)

    assert (code, err) == (0, "")
    assert out.startswith("passed  front -> sheared\n")
    assert out.endswith("1 rehearsal, 1 passed, 0 failed.\n")


@pytest.mark.parametrize(
    ("answers", "place", "message"),
    [
        (WRONG, "1:12", "The walk ended in `sheared` and should end in `referred`."),
        (OFF, "7:5", "The walk asks `second`, and the next answer is for `third`."),
    ],
)
def test_a_rehearsal_that_fails_is_told_with_its_place(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], answers: str, place: str, message: str
) -> None:
    """The place to mend and the reason stand below its name; exit code 1."""
    here = shell(tmp_path)
    code, out, _ = rehearsed(here, capsys, front=FRONT, bad=answers)

    assert code == 1
    assert f"FAILED  bad\n        {here.folder / 'own/rehearsals/bad.yaml'}:{place}: {message}" in out
    assert out.endswith("2 rehearsals, 1 passed, 1 failed.\n")


def test_what_no_rehearsal_visits_is_listed(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Answers, bands, ways round and verdicts that none came to stand by their step; exit code 0."""
    code, out, _ = rehearsed(shell(tmp_path), capsys, front=FRONT)

    assert code == 0
    assert "never visited  bench: second: answer `All four`\n" in out
    assert "never visited  bench: prove/first: answer `a`\n" in out
    assert "answer `Front only`" not in out


#: A walk to a reading of the tyres (their limit is 6 mm), and its verdict.
TYRES = (
    "  - {{at: second, say: All four}}\n  - {{at: third, read: {{left: {left}, right: 2000}}}}\n"
    "expect: {{verdict: referred}}\n"
)
ABOVE = "third: 6 mm, from above"


@pytest.mark.parametrize(("left", "times"), [("2006.5", 0), ("2009", 1)])
def test_a_limit_that_nothing_tries_is_listed(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], left: str, times: int
) -> None:
    """Both read the same band; one lies beside its limit and the other far from it; exit code 0."""
    code, out, _ = rehearsed(shell(tmp_path), capsys, over=TYRES.format(left=left))

    assert (code, out.count(f"never tried  bench: {ABOVE}\n")) == (0, times)


def test_a_limit_that_nothing_tries_is_told_to_machines(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """With --json by tree, beside what is unvisited and what is out of reach."""
    _, out, _ = rehearsed(shell(tmp_path), capsys, "--json", over=TYRES.format(left=2009))
    told = json.loads(out)

    assert (told["untried"], told["out_of_reach"]) == ({"bench": [ABOVE]}, {"bench": []})


def test_a_limit_out_of_reach_is_listed(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Between 100 and 105 N·m lie no 6, so nothing that is believed stands above them."""
    torque = """
        first:
          measure: What torque turns both, and what torque one?
          readings: {gauge: wrench, unit: N·m, plausible: [100, 105], each: [both, one]}
          figure: bearing-torque
          given: {reading: both, others: one}
          gives: torque
          bands: [{below: 6, then: ended}, {from: 6, then: ended}]
          unsure: ended
        """
    line = "  - {at: first, read: {both: 109, one: 100}, insist: true}\nexpect: {verdict: ended}\n"
    code, out, _ = rehearsed(shell(tmp_path, tree(torque)), capsys, over=line)

    assert (code, "out of reach  bench: first: 6 N·m, from above\n" in out) == (0, True)


def test_a_limit_that_nothing_tries_is_drafted(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """One draft of all is moved from its limit: another takes its place, named by what is read."""
    here = shell(tmp_path)
    rehearsed(here, capsys, "--draft", "bench")
    drafts = list((here.folder / "own/documents/rehearsals").iterdir())
    for draft in drafts:
        text = draft.read_text(encoding="utf-8")
        draft.write_text(text.replace("play: 1.5}", "play: 4}"), encoding="utf-8")
    missing = rehearsed(here, capsys)[1]
    written = rehearsed(here, capsys, "--draft", "bench")[1]

    assert "never tried  bench: fourth: 1 mm, from above\n" in missing
    assert written.endswith("rehearsals/bench-fourth-1-5-wagon.yaml -> sheared\n1 written.\n")
    assert "never tried" not in rehearsed(here, capsys)[1]


def test_machines_read_the_same(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """With --json each rehearsal has its fields, and what is unvisited stands by tree."""
    here = shell(tmp_path)
    code, out, _ = rehearsed(here, capsys, "--json", front=FRONT, bad=OFF)
    told = json.loads(out)

    assert code == 1
    assert [(r["name"], r["passed"], r["verdict"]) for r in told["rehearsals"]] == [
        ("bad", False, ""),
        ("front", True, "sheared"),
    ]
    assert told["rehearsals"][0]["place"] == f"{here.folder / 'own/rehearsals/bad.yaml'}:7:5"
    assert "referred" in told["unvisited"]["bench"]


def test_a_script_that_cannot_be_read_is_told(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Its problem goes to stderr with its place, the others are rehearsed; exit code 1."""
    code, out, err = rehearsed(shell(tmp_path), capsys, front=FRONT, bad="  - {at: second, sey: x}\n")

    assert code == 1
    assert "bad.yaml:7:" in err
    assert "passed  front" in out


def test_a_tree_with_errors_fails_its_rehearsals(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A loop does not go round for ever; the finding is the reason."""
    here = shell(tmp_path, tree("first: {do: Go., then: second}\nsecond: {do: Go back., then: first}\n"))
    code, out, _ = rehearsed(here, capsys, front="  - {at: first, done: true}\n")

    assert code == 1
    assert "Its documents have errors; the first: " in out


def test_one_file_is_rehearsed_alone(capsys: pytest.CaptureFixture[str]) -> None:
    """A path to a script of a shipped tree rehearses that script."""
    script = Path(__file__).parents[3] / "trees" / "rehearsals" / "coupling-dead-fellside.yaml"
    code = main(["rehearse", str(script)])

    assert code == 0
    assert "1 rehearsal, 1 passed, 0 failed.\n" in capsys.readouterr().out


def test_a_path_that_is_not_there_is_told(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Exit code 2 with the cure."""
    code = main(["rehearse", str(tmp_path / "nowhere")])

    assert (code, capsys.readouterr().err) == (
        2,
        f"witnessmark: There is no file or folder {tmp_path / 'nowhere'}. Check the path.\n",
    )


def test_what_is_left_is_drafted(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Drafts are written into the folder that the tree is in, each with its verdict; then nothing is left."""
    here = shell(tmp_path)
    code, out, err = rehearsed(here, capsys, "--draft", "bench", front=FRONT)
    again = rehearsed(here, capsys)

    assert (code, again[0], err) == (0, 0, "")
    assert f"{here.folder / 'own/documents/rehearsals/bench-cannot-second-wagon.yaml'} -> referred\n" in out
    assert "never visited" not in again[1]
    assert rehearsed(here, capsys, "--draft", "bench")[1] == "Nothing is left to be rehearsed.\n"


def test_drafts_are_told_to_machines(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """As JSON: every file, with the verdict that it ends in."""
    code, out, _ = rehearsed(shell(tmp_path), capsys, "--draft", "bench", "--json", front=FRONT)
    written = json.loads(out)["written"]

    assert (code, all(Path(each["file"]).is_file() for each in written)) == (0, True)
    assert {each["verdict"] for each in written} >= {"referred"}


def test_a_folder_that_cannot_be_made_is_told(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A file stands where the rehearsals would lie: one sentence with the cure, exit code 2."""
    here = shell(tmp_path)
    here.write("own/documents/rehearsals", "a note")
    code, _, err = rehearsed(here, capsys, "--draft", "bench")

    assert code == 2
    assert "own/documents/rehearsals cannot be made: File exists. Choose another folder." in err


def test_a_draft_is_a_sound_document(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Lint has nothing to say of what was drafted."""
    here = shell(tmp_path)
    rehearsed(here, capsys, "--draft", "bench")
    main(["lint", str(here.folder / "own"), "--format", "json"])
    found = json.loads(capsys.readouterr().out)["findings"]

    assert [each for each in found if "rehearsals" in each["file"]] == []


def test_a_drafts_name_and_title_are_never_too_long(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """However long the names of tree, step and vehicle, and the words of the answer."""
    here = shell(tmp_path)
    name = "bench-" + "b" * 34
    text = (here.folder / "own/documents/0.yaml").read_text(encoding="utf-8")
    wordy = text.replace("tree: bench\n", f"tree: {name}\n").replace("Front only", "Front " + "only " * 16)
    here.write(f"own/documents/{name}.yaml", wordy)
    code, out, _ = rehearsed(here, capsys, "--draft", name)
    names = [Path(line.split(" -> ")[0]).stem for line in out.splitlines()[:-1]]

    assert (code, len(set(names)) == len(names) > 5) == (0, True)
    assert max(map(len, names)) <= 60
    assert rehearsed(here, capsys)[0] == 0


@pytest.mark.parametrize(
    ("tree", "told"),
    [
        ("benck", "There is no tree named `benck`. Did you mean `bench`?"),
        ("smells-hot", "The tree `smells-hot` is not below these paths. Name the folder of its library."),
    ],
)
def test_a_tree_that_cannot_be_drafted_is_refused(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], tree: str, told: str
) -> None:
    """One that is not there, or not the trainer's own; exit code 2, nothing written."""
    here = shell(tmp_path)
    code, _, err = rehearsed(here, capsys, "--draft", tree, front=FRONT)

    assert (code, told in err) == (2, True)
    assert len(list((here.folder / "own/rehearsals").iterdir())) == 1
