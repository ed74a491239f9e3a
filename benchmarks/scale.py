"""How the cost of a full proof grows with the steps of a tree, beside parsing the same text alone."""

import json
import math
import statistics
import subprocess
import sys
import tempfile
from collections.abc import Sequence
from pathlib import Path

from benchmarks.long import write
from benchmarks.timing import ROOT

_MEASURED = """
import gc, json, sys, time, yaml
from engine.lint.runner import run
from engine.loading import folders
from engine.loading.leaf import File
from engine.loading.library import gather
names = sys.argv[1:]
files = [File(name, name, open(name, "rb").read()) for name in names]
shop = [f._replace(trusted=True) for f in folders.shipped(("shop/", "vehicles/"))]
run(gather(shop))
gc.disable()  # as the command does
began = time.perf_counter()
for file in files:
    yaml.compose(file.content, Loader=yaml.CSafeLoader)
composed = time.perf_counter()
library = gather([*files, *shop])
read = time.perf_counter()
found = run(library, frozenset(names))
proven = time.perf_counter()
steps = sum(len(d.steps) for d in (*library.trees.values(), *library.procedures.values()))
wrong = [f for f in found if f.severity == "error"]
assert not wrong, wrong[:3]
print(json.dumps([steps, composed - began, read - composed, proven - read]))
"""


def measure(most: int, rounds: int) -> str:
    """The tables for trees of 100 steps, ten times as many, and so on up to `most`.

    In the first nothing is asked twice; in the second each document asks again what the others ask.
    """
    return _table(most, rounds, again=False) + "\n" + _table(most, rounds, again=True)


def _table(most: int, rounds: int, *, again: bool) -> str:
    asked = "everything asked again" if again else "nothing asked twice"
    sizes = [10**power for power in range(2, round(math.log10(most)) + 1)]
    rows = [_size(steps, rounds, again=again) for steps in sizes]
    lines = [
        f"### A full proof of one tree of many steps, {asked}, beside libyaml compose",
        "",
        "| steps | compose | read | rules | ratio to compose |",
        "|---|---|---|---|---|",
    ]
    for steps, compose, read, rules in rows:
        ratio = (read + rules) / compose
        lines.append(f"| {steps:,.0f} | {compose:.4f} s | {read:.4f} s | {rules:.4f} s | {ratio:.2f} |")
    whole = exponent([row[0] for row in rows], [row[2] + row[3] for row in rows])
    rules = exponent([row[0] for row in rows], [row[3] for row in rows])
    return "\n".join(
        (*lines, "", f"Cost grows as steps^{whole:.3f} (the rules alone: {rules:.3f}); target <= 1.15.", "")
    )


def exponent(steps: Sequence[float], seconds: Sequence[float]) -> float:
    """The slope of the straight line that fits best, by least squares, between the logarithms.

    >>> round(exponent([100, 1000, 10000], [1, 10, 100]), 6)
    1.0
    """
    return statistics.linear_regression([*map(math.log, steps)], [*map(math.log, seconds)]).slope


def _size(steps: int, rounds: int, *, again: bool) -> tuple[float, ...]:
    """Steps, and the median seconds of composing, reading and proving."""
    with tempfile.TemporaryDirectory() as folder:
        names = [str(path) for path in write(Path(folder), steps, again=again)]
        words = (sys.executable, "-c", _MEASURED, *names)
        runs = [_run(words) for _ in range(rounds)]
    return tuple(statistics.median(column) for column in zip(*runs, strict=True))


def _run(words: Sequence[str]) -> list[float]:
    done = subprocess.run(words, capture_output=True, check=False, cwd=ROOT, text=True)
    if done.returncode != 0:
        sys.exit(f"the long tree was not proven: {done.stderr[-600:]}")
    return [float(value) for value in json.loads(done.stdout)]
