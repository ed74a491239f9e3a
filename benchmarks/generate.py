"""Writes a library of generated trees: valid, lint-clean, with the comments and layouts that people use.

The repairs of all of them are proven by one procedure, written beside them.
"""

import random
import sys
from collections.abc import Callable
from pathlib import Path

_HEAD = """\
# yaml-language-server: $schema=../../schemas/tree.schema.json
# Generated for measuring; the words mean nothing.
tree: generated-{n:04d}
format: 1
revision: 3
title: Generated complaint number {n}
complaint: "The customer says: it does {n} things that it should not"
for:
  drive: all-wheel
suspects:
  first-part: {{name: The first part is worn, weight: 2, correction: Replace the first part}}
  second-part: {{name: The second part is loose, weight: 3, correction: Tighten the second part}}
  third-part: {{name: The third part leaks, weight: 1.5, correction: Seal the third part}}
sources:
  habit: {{kind: common-practice}}
start: step-00
steps:
"""

_ASK = """\
  step-{k:02d}:
    ask: With the vehicle at rest, what do you see at place number {k} of the underbody?
    why: >-
      A part that moves where it should be still, or is wet where it should be dry, is nearer to
      the cause than one that only looks old.   # this is text, not a comment
    minutes: {minutes}
    source: habit
    answers:
      - {{say: It moves, then: {a}, fits: {{first-part: 0.7, second-part: 0.2}}}}
      - {{say: It is wet, then: {b}, fits: {{third-part: 0.8}}}}   # seldom
      - say: "Nothing: it looks as it should"
        then: {c}
    unsure: end-refer
"""

_MEASURE = """\
  step-{k:02d}:
    measure: How much play does the joint at place {k} have?
    why: Play above the limit is felt as a knock long before it is seen.
    reading: {{name: play-{k}, gauge: steel-rule, unit: mm, plausible: [0, 80]}}
    minutes: {minutes}
    source: habit
    bands:
      - {{below: 12.5, then: {a}, say: within the limit}}
      - {{from: 12.5, upto: 20, then: {b}}}
      - {{over: 20, then: {c}, fits: {{second-part: 0.9}}}}
    unsure: end-refer
"""

_DO = """\
  step-{k:02d}:
    do: |
      Wipe the joint at place {k} dry.
      Turn it by hand through one whole turn.
    minutes: {minutes}
    then: {a}
"""

_TAIL = """\
  end-first:
    verdict: The first part is worn
    suspects: [first-part]
    grade: repair
    correction: Replace it, then prove it on the road
    follow: [generated-proof]
  end-second:
    verdict: The second part is loose
    suspects: [second-part]
    grade: adjust
    correction: Fix it
    follow: [generated-proof]
  end-third:
    verdict: The third part leaks
    suspects: [third-part]
    grade: repair
    correction: Seal it
    follow: [generated-proof]
  end-none:
    verdict: Nothing was found
    suspects: []
    grade: no-fault
    correction: Note what was checked and ask the customer to come back when it happens again
  end-refer: {verdict: Not decided here, suspects: [], grade: refer, correction: Ask a specialist}
"""

_PROOF = """\
# yaml-language-server: $schema=../../schemas/procedure.schema.json
procedure: generated-proof
format: 1
revision: 1
title: Prove what was mended
outcomes:
  proven: It does what it should
start: try
steps:
  try: {do: Try it once more., minutes: 2, then: proven}
"""


def tree(n: int, steps: int = 30) -> str:
    """The text of one tree with this many steps, five of them verdicts."""
    chance = random.Random(n)
    asked = steps - 5
    ends = ["end-first", "end-second", "end-third", "end-none"]
    parts = [_HEAD.format(n=n)]
    for k in range(asked):
        onward = f"step-{k + 1:02d}" if k + 1 < asked else "end-none"
        jump = f"step-{min(k + chance.randint(2, 5), asked - 1):02d}" if k + 2 < asked else "end-second"
        form = _ASK if k % 3 == 0 else _MEASURE if k % 3 == 1 else _DO
        last = ends[k % 4]
        parts.append(form.format(k=k, a=onward, b=jump, c=last, minutes=chance.randint(1, 12)))
    return "".join(parts) + _TAIL


#: What makes a tree one for a single sheet of the shipped library, of the four that drive all wheels.
_ONE_SHEET = "for:\n  drive: all-wheel\n  tyre-size: r16-205-55\n"


def by_sheet(text: str, *, one: bool) -> str:
    """The tree with the limit of each reading taken from the sheet: for one sheet, or for all four."""
    text = text.replace("12.5", "sheet.tyres.spread.max")
    return text.replace("for:\n  drive: all-wheel\n", _ONE_SHEET) if one else text


def write(folder: Path, count: int = 1000, change: Callable[[str], str] = str) -> Path:
    """A folder of `count` trees, changed so, and their procedure; the shipped library holds the rest."""
    target = folder / "complaints"
    target.mkdir(parents=True, exist_ok=True)
    (folder / "procedures").mkdir(exist_ok=True)
    (folder / "procedures" / "generated-proof.yaml").write_text(_PROOF, encoding="utf-8")
    for n in range(count):
        (target / f"generated-{n:04d}.yaml").write_text(change(tree(n)), encoding="utf-8")
    return folder


if __name__ == "__main__":
    write(Path(sys.argv[1]), int(sys.argv[2]) if len(sys.argv) > 2 else 1000)
