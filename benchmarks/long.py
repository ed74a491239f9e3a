"""Writes one long tree: its steps in a row, with states, bands, sorts, questions and procedures.

A file holds two megabytes at most, some ten thousand steps, and nobody keeps more in one; so a longer tree
runs procedures that hold the rest, each as long as the tree itself.

No question and no reading comes twice, unless it is asked again: then the second half of each document asks
what the first half asked, and all documents ask the same.
"""

from pathlib import Path
from typing import NamedTuple

#: Steps of one document, of which each takes about 140 bytes.
_IN_ONE = 8_000
_TREE = """\
# yaml-language-server: $schema=../../schemas/tree.schema.json
tree: long
format: 1
revision: 1
title: A long tree
complaint: It takes long
for: {drive: all-wheel}
suspects: {worn: {name: It is worn, weight: 1}}
sources: {habit: {kind: common-practice}}
"""
_PROCEDURE = """\
# yaml-language-server: $schema=../../schemas/procedure.schema.json
procedure: long-{n:03d}
format: 1
revision: 1
title: Part {n} of the long tree
outcomes: {{over: It is over}}
sources: {{habit: {{kind: common-practice}}}}
"""
_ENDS = """\
  lower-1: {do: Lower it and stop the engine, cautions: [lowering], clears: [raised], then: over}
  over: {verdict: It is worn, suspects: [worn], grade: repair, correction: Replace it}
"""
_LAST = "  lower-1: {do: Lower it and stop the engine, cautions: [lowering], clears: [raised], then: over}\n"
_MEASURE = """\
  s{k}: {{measure: How much play?, reading: {{name: play-{at}, gauge: steel-rule, unit: mm,
    plausible: [0, 80]}}, source: habit, needs: [raised],
    bands: [{{below: 12.5, then: s{a}}}, {{from: 12.5, then: s{b}}}]}}
"""
_ASK = """\
  s{k}: {{ask: What is seen at place {at}?, needs: [raised], minutes: 1,
    answers: [{{say: Nothing, then: s{a}}}, {{say: Oil, then: s{b}}}], unsure: lower-1}}
"""
#: Six steps after which the vehicle stands as before.
_ROWS = (
    (
        "  s{k}: {{do: Raise it at place {k}, cautions: [raising],\n"
        "    forbids: [raised], sets: [raised], minutes: 2, then: s{a}}}\n"
    ),
    _MEASURE,
    _ASK,
    "  s{k}: {{sort: transmission, cases: {{manual: s{a}, automatic: s{b}}}}}\n",
    "  s{k}: {{do: Wipe place {k} dry, needs: [raised], minutes: 0.5, then: s{a}}}\n",
    (
        "  s{k}: {{do: Lower it from place {k}, cautions: [lowering],\n"
        "    needs: [raised], clears: [raised], minutes: 2, then: s{a}}}\n"
    ),
)


def write(folder: Path, steps: int, *, again: bool = False) -> tuple[Path, ...]:
    """The files of a tree of so many steps (rounded up to whole rows), its procedures counted with it."""
    rows = max(1, steps // len(_ROWS))
    in_one = _IN_ONE // len(_ROWS)
    parts = [min(in_one, rows - done) for done in range(0, rows, in_one)]
    runs = [f"long-{n:03d}" for n in range(1, len(parts))]
    folder.mkdir(parents=True, exist_ok=True)
    out = []
    for n, length in enumerate(parts):
        head = _PROCEDURE.format(n=n) if n else _TREE
        asks = _Asks(n, max(1, length // 2) if again else 0)
        text = head + _steps(asks, length, () if n else tuple(runs), _LAST if n else _ENDS)
        path = folder / f"{'procedure' if n else 'tree'}-{n:03d}.yaml"
        path.write_text(text, encoding="utf-8")
        out.append(path)
    return tuple(out)


class _Asks(NamedTuple):
    """The places that a document asks about."""

    document: int
    #: After so many rows it asks the same again; 0 for never.
    rows: int

    def at(self, k: int) -> str:
        """The place of the step of this number."""
        return str(k % (self.rows * len(_ROWS))) if self.rows else f"{self.document}-{k}"


def _steps(asks: _Asks, rows: int, runs: tuple[str, ...], ends: str) -> str:
    """The steps of a document: what it runs, then its rows, then its ends."""
    lines = ["start: " + ("run-0" if runs else "s0") + "\nsteps:\n"]
    for number, name in enumerate(runs, 1):
        then = f"run-{number}" if number < len(runs) else "s0"
        lines.append(f"  run-{number - 1}: {{run: {name}, outcomes: {{over: {then}}}}}\n")
    count = rows * len(_ROWS)
    for k in range(count):
        a, b = (f"{k + 1}", f"{min(k + 2, k - k % len(_ROWS) + 5)}") if k + 1 < count else ("", "")
        row = _ROWS[k % len(_ROWS)].format(at=asks.at(k), k=k, a=a, b=b)
        lines.append(row if a else row.replace("then: s}", "then: raise-again}"))
    lines.append(
        "  raise-again: {do: Raise it once more, cautions: [raising],\n"
        "    forbids: [raised], sets: [raised], then: lower-1}\n"
    )
    return "".join(lines) + ends
