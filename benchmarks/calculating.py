"""Calculators: a call against the bare formula, and the start of `calc` against bare Python."""

import compileall
import sys
import time
from collections.abc import Callable
from typing import Any

from benchmarks.timing import ROOT, Rival, Row, in_turn, process, table
from engine.trade.calculator import Sum, compute
from engine.trade.registry import find

#: Calculator, and its inputs with units as people type them. Every call has another number in it, so that
#: no text is met twice.
_CALLS: tuple[tuple[str, dict[str, str]], ...] = (
    ("tread-wear", {"depth": "1.{} mm", "diameter": "24.88 in"}),
    ("tyre-beat", {"speed": "62.{} mph", "circumference": "1927.6 mm", "mismatch": "1 %"}),
    ("beat-mismatch", {"period": "7.{} s", "speed": "100 km/h", "circumference": "75.89 in"}),
    ("tyre-pressure", {"pressure": "34.{} psi", "now": "86 °F"}),
    ("tyre-size", {"code": "205/55R16 91V"}),
    ("spread", {"readings": "1984, 1990, 19{}, 1976 mm"}),
    ("end-play-shim", {"fitted": "0.65 mm", "play": "0.3{} mm", "least": "0.05 mm", "most": "0.15 mm"}),
    ("order-fit", {"frequency": "50.{} Hz", "speed": "100 km/h", "circumference": "1927.6", "pinion": "11"}),
)
#: The long way, by exact fractions; no one types a thousand of them.
_FRACTION: tuple[str, dict[str, str]] = ("tread-wear", {"depth": "1/{} in", "diameter": "632 mm"})


def measure(calls: int, rounds: int) -> str:
    """The table of calls."""
    rows: list[Row] = []
    for name, inputs in (*_CALLS, _FRACTION):
        times = in_turn(_rivals(name, inputs, calls), rounds)
        ratio = times["door"] / times["bare"]
        what, target = (name, "<= 20") if inputs is not _FRACTION[1] else (f"{name} of a fraction", "")
        rows.append(Row(f"{what}: bare formula on numbers", times["bare"] / calls, 1.0, ""))
        rows.append(Row(f"{what}: from typed text to sum", times["door"] / calls, ratio, target))
    return table("A calculator's call, units read and bounds held, against its formula alone", rows)


def start_up(rounds: int) -> str:
    """The table of whole processes, with the code compiled as an installation leaves it."""
    for folder in ("engine", "tui"):
        compileall.compile_dir(ROOT / folder, quiet=1)
    commands = {
        "python -c pass": process(sys.executable, "-c", "pass"),
        "witnessmark --version": process(sys.executable, "-m", "tui", "--version"),
        "witnessmark calc tread-wear depth=1.6 diameter=632": process(
            sys.executable, "-m", "tui", "calc", "tread-wear", "depth=1.6", "diameter=632"
        ),
        "witnessmark calc tread-wear (explained)": process(sys.executable, "-m", "tui", "calc", "tread-wear"),
        "witnessmark calc (all listed)": process(sys.executable, "-m", "tui", "calc"),
    }
    times = in_turn([Rival(name, run) for name, run in commands.items()], rounds)
    bare = times["python -c pass"]
    rows = [Row(name, took, took / bare, "<= 3" if " calc" in name else "") for name, took in times.items()]
    return table("Starting `calc` against bare Python (whole processes)", rows)


def _rivals(name: str, inputs: dict[str, str], calls: int) -> tuple[Rival, Rival]:
    """The same sums from text, and from numbers that are ready for the formula."""
    calculator = find(name)
    assert calculator is not None
    typed = [{key: text.replace("{}", str(k + 2)) for key, text in inputs.items()} for k in range(calls)]
    sums = [compute(calculator, given) for given in typed]
    plain = [_ready(made) for made in sums if isinstance(made, Sum)]
    assert len(plain) == calls, f"{name} refuses some of what is measured"

    def door() -> None:
        for given in typed:
            compute(calculator, given)

    def bare() -> None:
        for given in plain:
            calculator.function(**given)

    return Rival("door", _timed(door)), Rival("bare", _timed(bare))


def _ready(made: Sum) -> dict[str, Any]:
    """The numbers as the function gets them."""
    taken = made.taken
    out: dict[str, Any] = {}
    for wanted in made.calculator.inputs:
        values = taken[wanted.name].values if wanted.name in taken else (None,)
        exact = made.calculator.exact
        ready = tuple(one if exact or one is None or isinstance(one, str) else float(one) for one in values)
        out[wanted.name.replace("-", "_")] = ready if wanted.many else ready[0]
    return out


def _timed(work: Callable[[], None]) -> Callable[[], float]:
    def run() -> float:
        began = time.perf_counter()
        work()
        return time.perf_counter() - began

    return run
