"""Rivals run in turn, so that whatever else the machine does meets all of them alike."""

import statistics
import subprocess
import sys
import time
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from typing import NamedTuple

ROOT = Path(__file__).parents[1]


class Rival(NamedTuple):
    """One of several ways to do a thing, and how often it is run."""

    name: str
    run: Callable[[], float]


class Row(NamedTuple):
    """A line of the result: the median of one rival beside the baseline's."""

    what: str
    seconds: float
    ratio: float
    target: str


def in_turn(rivals: Sequence[Rival], rounds: int) -> Mapping[str, float]:
    """The median seconds of each rival over rounds in which each is run once; a first round warms up."""
    taken: dict[str, list[float]] = {rival.name: [] for rival in rivals}
    for number in range(rounds + 1):
        for rival in rivals:
            seconds = rival.run()
            if number:
                taken[rival.name].append(seconds)
    return {name: statistics.median(times) for name, times in taken.items()}


def process(*words: str) -> Callable[[], float]:
    """The whole life of a process, in seconds; its output is thrown away, its failure is not."""

    def run() -> float:
        began = time.perf_counter()
        done = subprocess.run(words, capture_output=True, check=False, cwd=ROOT)
        seconds = time.perf_counter() - began
        if done.returncode != 0:
            sys.exit(f"{' '.join(words)[:80]} ended with {done.returncode}: {done.stderr.decode()[-400:]}")
        return seconds

    return run


def table(title: str, rows: Sequence[Row]) -> str:
    """A Markdown table of the rows."""
    lines = [f"### {title}", "", "| what | median | ratio | target |", "|---|---|---|---|"]
    lines += [f"| {row.what} | {_time(row.seconds)} | {row.ratio:.2f} | {row.target} |" for row in rows]
    return "\n".join(lines) + "\n"


def _time(seconds: float) -> str:
    return (
        f"{seconds:.2f} s"
        if seconds >= 1
        else f"{seconds * 1e3:.1f} ms"
        if seconds >= 1e-3
        else f"{seconds * 1e6:.0f} us"
    )
