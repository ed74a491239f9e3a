"""`figures`: how long trees take and how well they tell suspects apart, in words, as a table, as JSON."""

import json
from pathlib import Path

import pytest

from engine.cli.main import main
from tests.engine.cli.shell import shell
from tests.engine.interview.given import procedure, tree

#: The bearing is never convicted; shaft and coupling are convicted together by the only verdict for them.
TOGETHER = tree("""
    first: {ask: Noise?, minutes: 1, answers: [{say: a, then: both}, {say: b, then: second}], unsure: nobody}
    second: {do: Look., minutes: 2, then: nobody}
    both: {verdict: Either, suspects: [shaft, coupling], grade: repair, correction: Renew it.}
    nobody: {verdict: Nobody, suspects: [], grade: refer, correction: Elsewhere.}
    """)
#: Four hundred times a procedure that asks fifty questions.
LONG = tree(
    "".join(f"s{k}: {{run: many, outcomes: {{over: s{k + 1}}}}}\n" for k in range(400))
    + "s400: {verdict: It, suspects: [shaft], grade: repair, correction: Renew it.}\n",
    start="s0",
)
_ASKED = "{{ask: A{k}?, minutes: 1, answers: [{{say: a, then: {then}}}, {{say: b, then: {then}}}]}}"
MANY = procedure(
    "many",
    "over: Over",
    "".join(
        f"{'first' if k == 0 else f's{k}'}: "
        + _ASKED.format(k=k, then=f"s{k + 1}" if k < 49 else "over")
        + "\n"
        for k in range(50)
    ),
)


def told(
    folder: Path, capsys: pytest.CaptureFixture[str], *words: str, documents: tuple[str, ...] = (TOGETHER,)
) -> tuple[int, str, str]:
    """The command on a folder with these documents: exit code, output, errors."""
    code = main(["figures", str(shell(folder, *documents).folder / "own"), *words])
    said = capsys.readouterr()
    return code, said.out, said.err


def test_a_table_for_each_tree_and_kind_of_vehicle(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Counted by hand: one minute or three, half and half; 8 of 9 convicted, always two together."""
    code, out, _ = told(tmp_path, capsys, "--vehicle", "wagon")

    assert code == 0
    assert out == (
        "bench: The bench tree\n"
        "on wagon\n"
        "            4  steps that a technician may come to, procedures included\n"
        "            3  paths: different ways from the complaint to a verdict\n"
        "          1.0  minutes to a verdict at the fewest\n"
        "          2.0  minutes expected, by weights and fits\n"
        "          3.0  minutes at the most\n"
        "       88.8 %  of the suspects, by weight, some verdict can convict (FFD)\n"
        "        0.0 %  of these are convicted alone (FFI(1))\n"
        "      100.0 %  of these are convicted alone or with one other (FFI(2))\n"
        "         2.00  suspects are convicted together on average\n"
        "  never told apart: Shaft sheared; Coupling dead\n"
        "  never convicted: Bearing worn\n"
    )


def test_machines_read_exact_numbers(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Fractions stay fractions, written as text."""
    _, out, _ = told(tmp_path, capsys, "--vehicle", "wagon", "--format", "json")
    (figures,) = json.loads(out)["figures"]

    assert figures["minutes"] == {"fewest": "1", "expected": "2", "most": "3"}
    assert figures["suspects"]["detected"] == "8/9"
    assert figures["groups"] == {"shaft": ["shaft", "coupling"], "coupling": ["shaft", "coupling"]}
    assert figures["missed"] == ["bearing"]


def test_a_page_has_one_row_each(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A Markdown table: heads, rule, and the row of the tree."""
    _, out, _ = told(tmp_path, capsys, "--vehicle", "wagon", "--format", "markdown")
    rows = out.splitlines()

    assert len(rows) == 3
    assert rows[2] == (
        "| bench | wagon | 4 | 3 | 1.0 | 2.0 | 3.0 | 88.8 % | 0.0 % | 100.0 % | 2.00 "
        "| shaft, coupling | bearing |"
    )


def test_lines_fit_a_terminal(capsys: pytest.CaptureFixture[str]) -> None:
    """No line of the shipped tree's figures is wider than 80 columns, nor is the help."""
    main(["figures"])
    with pytest.raises(SystemExit):
        main(["figures", "--help"])

    assert [line for line in capsys.readouterr().out.splitlines() if len(line) > 80] == []


def test_paths_beyond_counting_are_told(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Fifty questions with two answers each, run 400 times: 2 to the 20,000 paths, about 4.0e6020."""
    code, out, _ = told(tmp_path, capsys, "--vehicle", "wagon", documents=(LONG, MANY))
    assert (code, "about 4.0e6020  paths" in out) == (0, True)
    _, out, _ = told(tmp_path, capsys, "--vehicle", "wagon", "--format", "json", documents=(LONG, MANY))

    paths = json.loads(out)["figures"][0]["paths"]

    assert len(paths) == 6021
    assert int(paths[-18:]) == pow(2, 20_000, 10**18)


def test_a_tree_that_goes_round_has_no_figures(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """It is named with its place and the cure; exit code 1."""
    loop = tree("first: {do: Go., then: second}\nsecond: {do: Go back., then: first}\n")
    code, out, err = told(tmp_path, capsys, "--vehicle", "wagon", documents=(loop,))

    assert (code, out) == (1, "")
    assert "`bench` cannot be walked to its end on wagon. `witnessmark lint` says what is wrong.\n" in err


def test_a_vehicle_that_is_not_there(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Exit code 2 with what may have been meant."""
    code, _, err = told(tmp_path, capsys, "--vehicle", "wagn")

    assert (code, err) == (2, "witnessmark: There is no vehicle `wagn`. Did you mean `wagon`?\n")
