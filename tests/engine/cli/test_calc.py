"""`calc`: the arithmetic listed, explained and worked out, for people and for machines."""

import json
import shlex
import subprocess
import sys

import pytest

from engine.cli.calc import COMMAND
from engine.cli.main import main
from engine.trade.registry import calculators, names


def told(capsys: pytest.CaptureFixture[str], line: str) -> tuple[int, str, str]:
    """Exit code and both outputs of one line, as a shell would hand it on."""
    code = main(["calc", *shlex.split(line)])
    out, err = capsys.readouterr()
    return code, out, err


def test_without_a_name_every_calculator_is_listed(capsys: pytest.CaptureFixture[str]) -> None:
    """Each once, below its family, with its title."""
    code, out, _ = told(capsys, "")
    listed = [line.split()[0] for line in out.splitlines() if line.startswith("  ")]

    assert code == 0
    assert sorted(listed) == sorted(names())
    assert "Difference in tread that comes to a limit in per cent" in out


def test_the_list_for_machines_has_the_same_names(capsys: pytest.CaptureFixture[str]) -> None:
    """Name, family and title."""
    _, out, _ = told(capsys, "--json")

    assert [one["name"] for one in json.loads(out)] == list(names())


@pytest.mark.parametrize("name", names())
def test_every_calculator_is_explained(capsys: pytest.CaptureFixture[str], name: str) -> None:
    """Inputs, outputs, source, where it holds and what to type, none wider than it must be."""
    code, out, _ = told(capsys, name)

    assert code == 0
    for head in ("inputs", "outputs", "source", "holds", "example"):
        assert head in out.splitlines()
    assert f"  witnessmark calc {name} " in out


@pytest.mark.parametrize("name", names())
def test_an_explanation_for_machines_tells_every_input(capsys: pytest.CaptureFixture[str], name: str) -> None:
    """Bounds that are none are null, and not an infinity that JSON does not know."""
    _, out, _ = told(capsys, f"{name} --json")
    found = json.loads(out, parse_constant=pytest.fail)
    (calculator,) = (one for one in calculators() if one.name == name)

    assert [one["name"] for one in found["inputs"]] == [one.name for one in calculator.inputs]
    assert found["mark"] == calculator.mark


def test_a_page_tells_bounds_units_and_source(capsys: pytest.CaptureFixture[str]) -> None:
    """What must be known before a figure is trusted."""
    _, out, _ = told(capsys, "tread-wear")

    assert "Tread lost, or difference in tread: mm, 0 mm to 20 mm" in out
    assert "m = 100 % · 2 dt / D" in out
    assert "geometry (computed)" in out
    assert "witnessmark calc tread-wear depth='2/32 in' diameter=632" in out


def test_a_sum_is_printed_as_a_person_would_write_it(capsys: pytest.CaptureFixture[str]) -> None:
    """2 · 1.5875 / 632 is half a per cent."""
    code, out, _ = told(capsys, "tread-wear depth='2/32 in' diameter=632")

    assert code == 0
    assert out.splitlines() == [
        "dt = 0.0625 in = 1.5875 mm  (Tread lost, or difference in tread)",
        "D = 632 mm  (Diameter over the tread)",
        "m = 100 % · 2 dt / D",
        "  = 100 % · 2 · 1.5875 mm / 632 mm",
        "  ≈ 0.50237 %",
    ]


def test_symbols_are_as_good_as_names(capsys: pytest.CaptureFixture[str]) -> None:
    """`dt` and `D` as they stand in the formula."""
    assert told(capsys, "tread-wear dt=1.6 D=632") == told(capsys, "tread-wear depth=1.6 diameter=632")


def test_a_sum_for_machines_has_numbers_units_and_lines(capsys: pytest.CaptureFixture[str]) -> None:
    """What was typed stays in the unit it was typed in."""
    _, out, _ = told(capsys, "tread-allowed limit=1 diameter='24.88 in' --in in --json")
    found = json.loads(out)

    assert found["inputs"]["diameter"] == {"value": 24.88, "unit": "in"}
    assert found["outputs"]["depth"] == {"value": pytest.approx(0.1244), "unit": "in"}
    assert found["lines"][-1] == "  = 0.1244 in"


def test_an_output_comes_in_the_unit_asked_for(capsys: pytest.CaptureFixture[str]) -> None:
    """By its name, or every output of that kind."""
    _, one, _ = told(capsys, "tyre-size code=205/55R16 --in diameter=in")
    _, every, _ = told(capsys, "tyre-size code=205/55R16 --in in")

    assert "Diameter over the tread: ≈ 24.878 in" in one
    assert "Width of the section: 205 mm" in one
    assert "Width of the section: ≈ 8.0709 in" in every
    assert "≈ 518.86 rev/km" in every


@pytest.mark.parametrize(
    ("line", "words"),
    [
        ("tread-ware", "There is no calculator `tread-ware`. Did you mean `tread-wear`?"),
        ("tread-wear depth=1.6", "also needs `diameter` (Diameter over the tread). Give diameter=NUMBER mm."),
        ("tread-wear depth=125 diameter=632", "Did you mean 12.5 mm"),
        ("tread-wear depth=3 diameter=24.9", "Did you mean 24.9 in?"),
        ("tread-wear depth=3 diameter='632 kPa'", "`kPa` is a pressure; a length is wanted here."),
        ("tread-wear dept=3 diameter=632", "has no input `dept`. Did you mean `depth`?"),
        ("tread-wear 3", "`3` gives no input a value. Write it as INPUT=VALUE"),
        ("tread-wear depth=3 depth=4 diameter=632", "`depth` is given twice."),
        ("tread-wear depth=3 diameter=632 --in mm", "No output of `tread-wear` is told in `mm`."),
        ("tread-wear depth=3 diameter=632 --in change=mm", "`mm` is a length"),
        ("tread-wear depth=3 diameter=632 --in chang=%", "Did you mean `change`?"),
        ("tyre-size code=205/55R61", "There is no rim of 61. Did you mean 16?"),
        ("tyre-service load-index=91 symbol=O", "is none of the words known here."),
        ("tyre-mismatch rolled=1984,1990", "needs at least 4 values of rolled; 2 given."),
    ],
)
def test_what_cannot_be_worked_out_is_told_with_its_cure(
    capsys: pytest.CaptureFixture[str], line: str, words: str
) -> None:
    """Exit code 2, one line beside the data, and nothing in its place."""
    code, out, err = told(capsys, line)

    assert (code, out) == (2, "")
    assert words in err
    assert err.count("\n") == 1


def test_a_sum_in_a_process_of_its_own_reads_no_other_family() -> None:
    """Neither the tables of others nor what is heavy is imported for one figure."""
    code = (
        "import sys; from engine.cli.main import main; main(['calc', 'spread', 'readings=1,2']);"
        "print(sorted(m for m in sys.modules if m.startswith('engine.trade.tyre_')"
        " or m in ('yaml', 'sqlite3', 'networkx', 'textual', 'jsonschema')))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)

    assert done.stdout.splitlines()[-1] == "[]"


@pytest.mark.parametrize("line", ["", "tread-wear", "tread-wear dt='2/32 in' diameter=632"])
def test_words_without_options_mean_what_the_parser_makes_of_them(
    capsys: pytest.CaptureFixture[str], line: str
) -> None:
    """The short way past the parser tells the very same."""
    words = shlex.split(line)
    by_parser = COMMAND.run(COMMAND.parser().parse_args(words)), capsys.readouterr()

    assert (COMMAND.plainly(words), capsys.readouterr()) == by_parser


@pytest.mark.parametrize("words", [["--json"], ["spread", "--help"], ["-h"], ["spread", "x=1", "--in", "mm"]])
def test_options_are_left_to_the_parser(words: list[str]) -> None:
    """Nothing that the parser reads in its own way is taken for a name or an input."""
    assert COMMAND.plainly(words) is None
