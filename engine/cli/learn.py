"""`witnessmark learn`: what the confirmed cases say of a tree, beside what its author wrote.

With `--json` one object is printed. Its `format` is 1 as long as what is told here stays:
`tree`, `confirmed` (cases whose cause is a suspect), `elsewhere`, `unknown`; `weights` (`suspect`, `title`,
`authored`, `found`, `of`, `mean`, `low`, `high`, `outside`), `signs` (the same by `step`, `number` from
0 and `suspect`), and `returns` (by `step` and `verdict`: how many of its cases came back).
"""

import argparse
from pathlib import Path
from typing import Any, Final

from engine import api
from engine.belief.confirmed import Ended, ended
from engine.belief.learned import ENOUGH, Interval, Learned, learned, proposed, signs_proposed
from engine.cli.command import Command, add_json, add_library, add_store, json_text, parser
from engine.cli.settings import settings
from engine.cli.weights import rewritten, signs_rewritten
from engine.cli.whole import write
from engine.errors import Damaged, Failure
from engine.model.tree import Tree
from engine.nearest import meant
from engine.plain import clean

_ABOUT = """\
Count what became of the cases of a tree: how often each suspect was the true
cause, beside the share that its author gave it; how often each sign was met,
from ten cases on; and which verdicts come back (not fixed, or the same label,
vehicle and complaint again within 90 days). Intervals hold 95 %.

Nothing is changed. With --write the weights in the tree's file become those of
the cases, and so do the signs of which there are enough; all else stays."""


def _parser() -> argparse.ArgumentParser:
    made = parser("learn", _ABOUT, "witnessmark learn no-rear-drive")
    made.add_argument("tree", metavar="TREE", help="the name of a tree")
    made.add_argument("--write", action="store_true", help="write what the cases say into its file")
    add_library(made)
    add_json(made)
    add_store(made)
    return made


def _run(options: argparse.Namespace) -> int:
    library = api.library((*settings().library, *options.library))
    if options.tree not in library.trees:
        raise Failure(f"There is no tree `{options.tree}`.", meant(options.tree, library.trees))
    tree = library.trees[options.tree]
    told = learned(tree, _cases(options.store))
    if options.json:
        print(json_text(_data(told)))
    else:
        for line in _lines(told):
            print(clean(line, lines=False))
    if options.write:
        _write(tree, told)
    return 0


def _cases(url: str | None) -> list[Ended]:
    """Every case of the store that came to an end; one that cannot be read is passed over."""
    store = api.open_store(url)
    found: list[Ended] = []
    try:
        for case in store.cases():
            try:
                one = ended(store.read(case))
            except Damaged:
                continue
            if one is not None:
                found.append(one)
    finally:
        store.close()
    return found


def _lines(told: Learned) -> list[str]:
    counted = sum(weight.cases.found for weight in told.weights)
    others = f"{told.elsewhere} of something else, {told.unknown} not known"
    lines = [f"{told.tree}: {counted} confirmed cases, {others}."]
    lines += ["", "how often it was the cause: authored, counted, by the cases (95 %)"]
    for weight in told.weights:
        lines.append(f"  {weight.title}: {weight.authored:.0%}, {_words(weight.cases, weight.authored)}")
    lines += ["", f"signs, from {ENOUGH} cases on: authored, counted, by the cases (95 %)"]
    for sign in told.signs:
        where = f"  {sign.step}, {sign.number + 1}, {sign.suspect}"
        lines.append(f"{where}: {sign.authored:.0%}, {_words(sign.cases, sign.authored)}")
    lines += [] if told.signs else ["  none yet"]
    lines += ["", "verdicts that came back"]
    lines += [f"  {back.verdict}: {_words(back.cases)}" for back in told.returns] or ["  none yet"]
    return lines


def _words(cases: Interval, authored: float | None = None) -> str:
    outside = (
        "" if authored is None or not cases.of or cases.holds(authored) else "  <- authored lies outside"
    )
    return f"{cases.found} of {cases.of}, {cases.mean:.0%} ({cases.low:.0%} to {cases.high:.0%}){outside}"


def _data(told: Learned) -> dict[str, Any]:
    return {
        "format": 1,
        "tree": told.tree,
        "confirmed": sum(weight.cases.found for weight in told.weights),
        "elsewhere": told.elsewhere,
        "unknown": told.unknown,
        "weights": [
            {"suspect": w.suspect, "title": w.title, "authored": w.authored} | _interval(w.cases, w.authored)
            for w in told.weights
        ],
        "signs": [
            {"step": s.step, "number": s.number, "suspect": s.suspect, "authored": s.authored}
            | _interval(s.cases, s.authored)
            for s in told.signs
        ],
        "returns": [{"step": r.step, "verdict": r.verdict} | _interval(r.cases) for r in told.returns],
    }


def _interval(cases: Interval, authored: float | None = None) -> dict[str, Any]:
    outside = {} if authored is None else {"outside": bool(cases.of) and not cases.holds(authored)}
    return {**cases._asdict(), **outside}


def _write(tree: Tree, told: Learned) -> None:
    path = Path(tree.place.file)
    if not path.is_file():
        raise Failure(
            f"The file of `{tree.name}` is not here.",
            "Name its library with --library, and its folder as it lies.",
        )
    if not sum(weight.cases.found for weight in told.weights):
        raise Failure(
            "No confirmed case says what to write.", "Say what became of cases: `witnessmark confirm`."
        )
    text, changed = signs_rewritten(path.read_text("utf-8"), tree, signs_proposed(told))
    write(path, rewritten(text, proposed(tree, told)))
    print(clean("".join(f"Signs at {where}.\n" for where in changed)), end="")
    print(clean(f"Written to {path}: look at the difference, and lint it.", lines=False))


COMMAND: Final = Command(_parser, _run)
