"""Linting a large library: against parsing alone, schema validation alone, and a general schema checker."""

import subprocess
import sys
import tempfile
from collections.abc import Callable
from pathlib import Path

from benchmarks.generate import write
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
    """The table for a library of this many generated trees."""
    with tempfile.TemporaryDirectory() as folder:
        write(Path(folder), count)
        files = [str(path) for path in sorted(Path(folder).rglob("*.yaml"))]
        checker = str(Path(sys.executable).parent / "check-jsonschema")
        ours = Rival("lint", process(sys.executable, "-m", "tui", "lint", folder))
        fast = (ours, Rival("compose", process(sys.executable, "-c", _COMPOSE, folder)))
        slow = (
            ours,
            Rival("jsonschema", _inner(folder)),
            Rival("checker", process(checker, "--schemafile", "schemas/tree.schema.json", *files)),
        )
        quick = in_turn(fast, rounds)
        long = in_turn(slow, max(1, rounds // 3))
    return table(
        f"Linting {count} trees of 30 steps (whole processes)",
        (
            Row("witnessmark lint", quick["lint"], 1.0, ""),
            Row(
                "libyaml compose alone",
                quick["compose"],
                quick["lint"] / quick["compose"],
                "lint <= 1.5 x this",
            ),
            Row(
                "jsonschema validation alone",
                long["jsonschema"],
                long["jsonschema"] / long["lint"],
                "times lint",
            ),
            Row("check-jsonschema", long["checker"], long["checker"] / long["lint"], ">= 15 x lint"),
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
                Rival("lint", process(script, "lint", folder)),
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
