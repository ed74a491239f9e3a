"""`witnessmark learn`: what the confirmed cases say of a tree, beside what its author wrote.

With `--json` one object is printed. Its `format` is 1 as long as what is told here stays: `tree`,
`confirmed` (cases that are counted), `enough` (how many are needed to write the weights), `gone` (their
cause is no suspect any more), `unknown` (nobody knows their cause), `damaged` (cases that cannot be read);
`weights` (`suspect`, `title`, `authored`, `found`, `of`, `mean`, `low`, `high`, `outside`), `signs` (the
same by `step`, `number` from 0 and `suspect`), `returns` (by `tree`, `step` and `verdict`: how many of its
cases came back, and `open`, how many are not known yet) and `written` (the file, or null). Without a tree
there are only `format`, `damaged` and `returns`.
"""

import argparse
from collections.abc import Iterator
from pathlib import Path
from typing import Any, Final

from engine import api
from engine.belief.interval import Interval
from engine.belief.learned import Learned
from engine.belief.returns import COMES_BACK, Return
from engine.cli.command import Command, add_json, add_library, add_store, json_text, parser
from engine.cli.numbers_written import Written, into
from engine.cli.settings import settings
from engine.errors import Failure
from engine.interview.suspecting import titled
from engine.model.tree import Tree
from engine.plain import clean

_ABOUT: Final = f"""\
Count what became of the cases of a tree: how often each suspect was the true
cause, beside the share that its author gave it; how often each sign was met,
where there are five cases for each answer or more; and which verdicts come back
(not fixed, or the same label, vehicle and complaint again within {COMES_BACK.days} days).
Without a tree: the verdicts of all trees that come back. Intervals hold 95 %.

Nothing is changed. With --write the weights in the tree's file become those of
the cases, and so do the signs of which there are enough; all else stays. Five
cases for each cause are enough: the half case that is added to each cause, so that
none is ruled out, then weighs less than a tenth of what was counted."""


def _parser() -> argparse.ArgumentParser:
    made = parser("learn", _ABOUT, "witnessmark learn no-rear-drive")
    made.add_argument("tree", metavar="TREE", nargs="?", help="the name of a tree")
    made.add_argument("--write", action="store_true", help="write what the cases say into the tree's file")
    made.add_argument("--enough", metavar="N", type=int, help="with --write: take so many cases for enough")
    add_library(made)
    add_json(made)
    add_store(made)
    return made


def _run(options: argparse.Namespace) -> int:
    store = api.open_store(options.store)
    try:
        return _one(store, options) if options.tree else _all(store, options)
    finally:
        store.close()


def _all(store: api.Store, options: argparse.Namespace) -> int:
    """The verdicts of every tree that come back."""
    if options.write:
        raise Failure("Only one tree is written at a time.", "`witnessmark learn TREE --write`.")
    found = api.lessons(store)
    back = api.returns(found.cases, api.moment())
    if options.json:
        print(json_text({"format": 1, "damaged": found.damaged, "returns": [_back(one) for one in back]}))
    else:
        _say([*_damaged(found.damaged), *_returns(back, named=True)])
    return 0


def _one(store: api.Store, options: argparse.Namespace) -> int:
    folders = (*settings().library, *options.library)
    library = api.library(folders)
    told, found = api.learn(store, library, options.tree)
    tree = library.trees[options.tree]
    back = api.returns(found.cases, api.moment())
    written = _write(tree, told, folders, options.enough) if options.write else None
    if options.json:
        print(json_text(_data(tree, told, found.damaged, back, written)))
    else:
        _say([*_damaged(found.damaged), *_lines(tree, told), *_returns(back), *_written(written)])
    return 0


def _say(lines: list[str]) -> None:
    for line in lines:
        print(clean(line, lines=False))


def _damaged(count: int) -> Iterator[str]:
    if count:
        yield f"Left out, for they cannot be read: {count}. `witnessmark cases verify` names them."


def _lines(tree: Tree, told: Learned) -> Iterator[str]:
    others = f"{told.unknown} whose cause nobody knows"
    gone = f", {told.gone} whose cause is no suspect any more" if told.gone else ""
    yield f"{told.tree}: {told.confirmed} confirmed cases ({told.enough} are enough), {others}{gone}."
    yield from ("", "how often it was the cause: authored; counted, by the cases (95 %)")
    for weight in told.weights:
        authored = f"  {titled(tree, weight.suspect)}: {weight.authored:.0%}"
        yield f"{authored}; {_words(weight.cases, weight.authored)}"
    yield from ("", "signs: authored; counted, by the cases (95 %)")
    for sign in told.signs:
        where = f"  {sign.step}, {sign.number + 1}, {sign.suspect}: {sign.authored:.0%}"
        yield f"{where}; {_words(sign.cases, sign.authored)}"
    yield from () if told.signs else ("  none of which there are enough yet",)
    yield ""


def _returns(back: tuple[Return, ...], *, named: bool = False) -> Iterator[str]:
    yield "verdicts that came back: counted, by the cases (95 %)"
    for one in back:
        tree = f"{one.tree}: " if named else ""
        waiting = f", {one.open} not known yet" if one.open else ""
        yield f"  {tree}{one.verdict}; {_words(one.cases)}{waiting}"
    yield from () if back else ("  none yet",)


def _words(cases: Interval, authored: float | None = None) -> str:
    if not cases.of:
        return "none counted"
    told = f"{cases.found} of {cases.of}, {cases.mean:.0%} ({cases.low:.0%} to {cases.high:.0%})"
    return f"{told}  <- authored lies outside" if _outside(cases, authored) else told


def _outside(cases: Interval, authored: float | None) -> bool:
    return authored is not None and cases.of > 0 and not cases.holds(authored)


def _written(written: Written | None) -> Iterator[str]:
    if written is None:
        return
    yield ""
    yield from (f"Signs at {step}: {suspect}." for step, suspect in written.signs)
    if written.elsewhere:
        yield (
            "The tree leaves the weight of something else to its lightest suspect; the cases say "
            f"`elsewhere: {written.elsewhere}`."
        )
    yield f"Written to {written.path}: look at the difference, and lint it."


def _data(
    tree: Tree, told: Learned, damaged: int, back: tuple[Return, ...], written: Written | None
) -> dict[str, Any]:
    return {
        "format": 1,
        "tree": told.tree,
        "confirmed": told.confirmed,
        "enough": told.enough,
        "gone": told.gone,
        "unknown": told.unknown,
        "damaged": damaged,
        "weights": [
            {"suspect": w.suspect, "title": titled(tree, w.suspect), "authored": w.authored}
            | _interval(w.cases, w.authored)
            for w in told.weights
        ],
        "signs": [
            {"step": s.step, "number": s.number, "suspect": s.suspect, "authored": s.authored}
            | _interval(s.cases, s.authored)
            for s in told.signs
        ],
        "returns": [_back(one) for one in back],
        "written": str(written.path) if written else None,
    }


def _interval(cases: Interval, authored: float) -> dict[str, Any]:
    return {**cases._asdict(), "outside": _outside(cases, authored)}


def _back(one: Return) -> dict[str, Any]:
    about = {"tree": one.tree, "step": one.step, "verdict": one.verdict}
    return {**about, **one.cases._asdict(), "open": one.open}


def _write(tree: Tree, told: Learned, folders: tuple[Path, ...], least: int | None) -> Written:
    path = Path(tree.place.file)
    if not any(path.resolve().is_relative_to(folder.resolve()) for folder in folders):
        cure = "Name the folder that its file lies in with --library."
        raise Failure(f"`{tree.name}` is of the shipped library, which is not written to.", cure)
    wanted = told.enough if least is None else max(1, least)
    if told.confirmed < wanted:
        counted = f"{told.confirmed} confirmed cases are too few to write: {wanted} are enough."
        cure = "Say what became of more (`witnessmark confirm`), or take fewer for enough with --enough."
        raise Failure(counted, cure)
    return into(path, tree, told)


COMMAND: Final = Command(_parser, _run)
