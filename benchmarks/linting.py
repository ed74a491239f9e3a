"""Linting a large library: against parsing alone, schema validation alone, and a general schema checker."""

import subprocess
import sys
import tempfile
from collections.abc import Callable
from functools import partial
from pathlib import Path

from benchmarks.generate import by_sheet, write
from benchmarks.timing import ROOT, Rival, Row, in_turn, process, table

_COMPOSE = """
import glob, sys, yaml
for name in sorted(glob.glob(sys.argv[1] + "/complaints/*.yaml")):
    with open(name, "rb") as file:
        yaml.compose(file, Loader=yaml.CSafeLoader)
"""
_SCHEMA = """
import glob, json, sys, time, yaml
from jsonschema import Draft202012Validator
from referencing import Registry
from referencing.jsonschema import DRAFT202012
named = [(path.rpartition("/")[2], json.load(open(path))) for path in glob.glob("schemas/*.json")]
held = [(name, DRAFT202012.create_resource(schema)) for name, schema in named]
validator = Draft202012Validator({"$ref": "tree.schema.json"}, registry=Registry().with_resources(held))
names = sorted(glob.glob(sys.argv[1] + "/complaints/*.yaml"))
data = [yaml.load(open(name, "rb"), Loader=yaml.CSafeLoader) for name in names]
began = time.perf_counter()
for document in data:
    assert validator.is_valid(document)
print(time.perf_counter() - began)
"""


def measure(count: int, rounds: int) -> str:
    """The tables for a library of this many generated trees, and for a twentieth of it.

    The slow rivals meet the small library only: one of them takes half a second a file.
    """
    return "\n".join(
        (
            _against_parsing(count, rounds),
            _against_schemas(max(10, count // 20), max(1, rounds // 3)),
            _four_sheets(count, rounds),
        )
    )


def _lint(folder: str, name: str = "lint") -> Rival:
    # what was found in the same files before must not be remembered
    return Rival(name, process(sys.executable, "-m", "tui", "lint", "--afresh", folder))


def _against_parsing(count: int, rounds: int) -> str:
    with tempfile.TemporaryDirectory() as folder:
        write(Path(folder), count)
        compose = Rival("compose", process(sys.executable, "-c", _COMPOSE, folder))
        again = Rival("again", process(sys.executable, "-m", "tui", "lint", folder))
        times = in_turn((_lint(folder), again, compose), rounds)
    parsed = table(
        f"Linting {count} trees of 30 steps against parsing them (whole processes)",
        (
            Row("libyaml compose alone", times["compose"], 1.0, ""),
            Row("witnessmark lint", times["lint"], times["lint"] / times["compose"], "<= 2"),
        ),
    )
    again_told = table(
        f"Linting {count} trees once more, when no file has changed",
        (
            Row("witnessmark lint", times["lint"], 1.0, ""),
            Row("witnessmark lint, again", times["again"], times["again"] / times["lint"], "<= 0.3"),
        ),
    )
    return parsed + "\n" + again_told


def _against_schemas(count: int, rounds: int) -> str:
    with tempfile.TemporaryDirectory() as folder:
        write(Path(folder), count)
        files = [str(path) for path in sorted(Path(folder).glob("complaints/*.yaml"))]
        command = str(Path(sys.executable).parent / "check-jsonschema")
        checker = process(command, "--schemafile", "schemas/tree.schema.json", *files)
        rivals = (_lint(folder), Rival("jsonschema", _inner(folder)), Rival("checker", checker))
        times = in_turn(rivals, rounds)
    return table(
        f"Linting {count} trees of 30 steps against checking their schema",
        (
            Row("witnessmark lint (whole process)", times["lint"], 1.0, ""),
            Row(
                "jsonschema alone (validation only)",
                times["jsonschema"],
                times["jsonschema"] / times["lint"],
                "",
            ),
            Row(
                "check-jsonschema (whole process)",
                times["checker"],
                times["checker"] / times["lint"],
                ">= 12",
            ),
        ),
    )


def _four_sheets(count: int, rounds: int) -> str:
    """Each reading is held against limits that every sheet gives otherwise."""
    with tempfile.TemporaryDirectory() as one, tempfile.TemporaryDirectory() as four:
        write(Path(one), count, partial(by_sheet, one=True))
        write(Path(four), count, partial(by_sheet, one=False))
        times = in_turn((_lint(one, "one"), _lint(four, "four")), rounds)
    return table(
        f"Linting {count} trees of 30 steps whose readings have limits in the sheet (whole processes)",
        (
            Row("for one vehicle sheet", times["one"], 1.0, ""),
            Row("for four vehicle sheets", times["four"], times["four"] / times["one"], ""),
        ),
    )


def _inner(folder: str) -> Callable[[], float]:
    """The validation by itself, as the process that does it measured it."""

    def run() -> float:
        words = (sys.executable, "-c", _SCHEMA, folder)
        return float(subprocess.run(words, capture_output=True, check=True, cwd=ROOT, text=True).stdout)

    return run


def start_up(rounds: int) -> str:
    """The table for how soon a command starts."""
    with tempfile.TemporaryDirectory() as folder:
        write(Path(folder), 1)
        script = str(Path(sys.executable).parent / "witnessmark")
        times = in_turn(
            (
                Rival("pass", process(sys.executable, "-c", "pass")),
                Rival("version", process(script, "--version")),
                Rival("imports", process(sys.executable, "-c", "import yaml, networkx")),
                Rival("lint", process(script, "lint", "--afresh", folder)),
            ),
            rounds,
        )
    return table(
        "Start-up (whole processes)",
        (
            Row("python -c pass", times["pass"], 1.0, ""),
            Row("witnessmark --version", times["version"], times["version"] / times["pass"], "<= 2.5"),
            Row("python -c 'import yaml, networkx'", times["imports"], 1.0, ""),
            Row("witnessmark lint, one tree", times["lint"], times["lint"] / times["imports"], "<= 1.4"),
        ),
    )
