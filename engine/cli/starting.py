"""The texts that new documents begin with: right as they stand, and plain about what has to be filled in."""

import os
from collections.abc import Iterable
from pathlib import Path
from typing import Final

from engine import resources
from engine.loading.document import read
from engine.model.shop import Fact
from engine.proof.first_walk import FirstWalk, Said

_COMPLAINT: Final = """\
tree: {name}
format: 1
revision: 1
title: {title}
complaint: >-
  What the customer says of `{name}`, in the customer's own words.
for: {{drive: all-wheel}}   # facts that a vehicle's sheet must have
suspects:
  first-cause: {{name: The first cause, weight: 2, correction: What corrects the first cause.}}
  second-cause: {{name: The second cause, weight: 1, correction: What corrects the second cause.}}
sources:
  habit: {{kind: common-practice}}
  guess: {{kind: invented, cite: "Weights and fits are set by hand until cases tell better"}}
start: receive
steps:
  receive:
    do: Park it on level ground. Engine off, brake on. Chock a wheel that the brake does not hold.
    why: Nobody looks at a vehicle that can roll.
    cautions: [makers-first]
    sets: [chocked]
    minutes: 3
    source: habit
    then: first-look
  first-look:
    ask: What is to be seen, heard or felt?
    why: What each answer says about the causes.
    minutes: 5
    source: guess
    answers:
      - say: What the first cause looks like
        then: first-found
        fits: {{first-cause: 0.9, second-cause: 0.1}}
      - say: What the second cause looks like
        then: second-found
        fits: {{first-cause: 0.1, second-cause: 0.9}}
    unsure: not-decided
  first-found:
    verdict: The first cause
    suspects: [first-cause]
    grade: repair
    correction: What corrects the first cause.
    follow: [road-test]
  second-found:
    verdict: The second cause
    suspects: [second-cause]
    grade: repair
    correction: What corrects the second cause.
    follow: [road-test]
  not-decided:
    verdict: Not decided
    suspects: []
    grade: refer
    correction: Say who goes on from here, and with what.
"""
_PROCEDURE: Final = """\
procedure: {name}
format: 1
revision: 1
title: {title}
sources:
  habit: {{kind: common-practice}}
outcomes:
  done: How the vehicle stands when it is done
  cannot: How the vehicle stands when it could not be done
start: first-move
steps:
  first-move:
    do: What is done first, in one or two sentences.
    why: What goes wrong for who leaves it out.
    minutes: 5
    source: habit
    then: proof
    unsure: cannot
  proof:
    ask: How is it seen that it is done?
    why: What follows where it is not.
    minutes: 1
    source: habit
    answers:
      - {{say: It is done, then: done}}
      - {{say: It is not, then: cannot}}
    unsure: cannot
"""
_VEHICLE: Final = """\
vehicle: {name}
format: 1
revision: 1
title: {title}
facts:
{facts}
sources:
  # Until the workshop manual was looked up; then `kind: published` with title, edition and year.
  manual: {{kind: memory, cite: "Which manual, edition and page"}}
# Whatever a tree compares or shows has its place below, each figure with unit and source, such as
#   limits:
#     tyres:
#       spread:
#         max: {{is: 6, unit: mm, source: manual}}
#   torques:
#     wheel-nuts: {{is: 100, unit: N·m, source: manual}}
# `witnessmark lint` names the values that trees for this vehicle miss.
"""
_MATRIX: Final = """\
matrix: {name}
format: 1
revision: 1
title: {title}
sources:
  habit: {{kind: common-practice}}
  guess: {{kind: invented, cite: "Weights and minutes are set by hand until cases tell better"}}
# How common each fault is against the others, and the minutes of its repair.
faults:
  first-cause: {{name: The first cause, weight: 2, repair: 60, source: guess}}
  second-cause: {{name: The second cause, weight: 1, repair: 90, source: guess}}
  third-cause: {{name: The third cause, weight: 1, repair: 30, source: guess}}
# Paid once, by the first test that needs it; a test that `drops` it has it paid again.
setups:
  raised: {{name: Raised off the floor, minutes: 12, source: guess}}
# `fails`: the faults on which a test fails. `outcomes`: where more than two things may be seen, the faults
# behind each. `chances: {{first-cause: 0.9}}`: how often it fails, where it is not to be relied on.
# `after: [first-look]`: only once that has been done.
tests:
  first-look:
    say: What is looked at without raising it?
    minutes: 3
    fails: [first-cause]
    source: habit
  second-look:
    say: What is tried on the hoist?
    minutes: 5
    needs: [raised]
    outcomes: {{firm: [first-cause], loose: [second-cause], noisy: [third-cause]}}
    source: habit
"""
_REHEARSAL: Final = """\
rehearsal: {name}
format: 1
title: {title}
tree: {tree}
vehicle: {vehicle}
{hints}answers:{answers}
{expect}"""
_HINTS: Final = """\
# Things to do and cautions confirm themselves. `read: 12.5` or `read: {left-front: 1965}` for what was
# measured, `unsure: why` where something cannot be told, `back: true` to step back to an earlier step.
"""
_TEXTS: Final = {
    "complaint": _COMPLAINT,
    "procedure": _PROCEDURE,
    "vehicle": _VEHICLE,
    "matrix": _MATRIX,
}


def text(kind: str, name: str, **parts: str) -> str:
    """The document, but for the line that tells editors its schema.

    >>> text("procedure", "dry-the-joint").splitlines()[3]
    'title: Dry the joint'
    """
    return _TEXTS[kind].format(name=_written(name), title=_written(titled(name)), **parts)


def titled(name: str) -> str:
    """A name as a title.

    >>> titled("dry-the-joint")
    'Dry the joint'
    """
    return name.replace("-", " ").capitalize()


def rehearsal(walk: FirstWalk, *, hints: bool, title: str, **named: str) -> str:
    """A rehearsal of a walk, but for the line that tells editors its schema; with hints for who goes on.

    `named` are the names of the rehearsal (`name`), of its tree and of its vehicle.
    """
    parts = {"answers": answers(walk), "expect": expected(walk), "hints": _HINTS if hints else ""}
    return _REHEARSAL.format(title=_written(title), **named, **parts)


def schema_line(word: str, path: Path) -> str:
    """The line that editors look for: the schema that lies nearest above the document, else ours."""
    file, target = resources.schema_file(word), path.absolute()
    above = (folder / file.parent.name / file.name for folder in target.parents)
    beside = next((each for each in above if each.is_file()), None)
    shown = Path(os.path.relpath(beside, target.parent)).as_posix() if beside else file.as_uri()
    return f"# yaml-language-server: $schema={shown}"


def facts(held: Iterable[Fact]) -> str:
    """The facts of a sheet: each with its first value, and the others beside it."""
    lines = []
    for fact in held:
        first, *others = fact.values
        lines.append(f"  {fact.name}: {first}" + (f"   # or: {', '.join(others)}" if others else ""))
    return "\n".join(lines)


def answers(walk: FirstWalk) -> str:
    """The lines of a script."""
    return "".join(f"\n  - {{at: {said.at}, {_said(said)}}}" for said in walk.lines) or " []"


def expected(walk: FirstWalk) -> str:
    """The verdict that a script must end in; nothing where it came to none."""
    return f"expect: {{verdict: {walk.verdict}}}\n" if walk.verdict else ""


def _said(said: Said) -> str:
    if said.follow:
        return f"follow: {said.follow}"
    if said.unsure:
        return f"unsure: {_written(said.unsure)}"
    if not said.read:
        return f"say: {_written(said.say)}"
    return f"read: {{{', '.join(f'{name}: {value}' for name, value in said.read.items())}}}"


def _written(words: str) -> str:
    """Words as YAML: bare where they are read as they stand, even between braces, else in quotes."""
    if read(f"{{a: {words}}}".encode(), "").data == {"a": words}:
        return words
    import json

    return json.dumps(words, ensure_ascii=False)
