"""Random small libraries, sound by construction, with all that a walk can meet."""

import json
from collections.abc import Mapping
from typing import Any

from hypothesis import strategies as st

from tests.engine.interview.given import library

Data = dict[str, Any]
_STATES = ("raised", "running", "warm")
_SUSPECTS = ("shaft", "coupling", "bearing")


@st.composite
def texts(draw: st.DrawFn) -> tuple[str, ...]:
    """The texts of a tree and up to three procedures, each of which may run or be followed by later ones."""
    procedures: dict[str, Data] = {}
    for name in draw(st.sampled_from([("p-c", "p-b", "p-a"), ("p-b", "p-a"), ("p-a",), ()])):
        procedures[name] = draw(_procedure(name, dict(procedures)))
    documents = [draw(_tree(procedures)), *procedures.values()]
    # JSON is YAML; what it says is checked by schema and lint like any other document
    written = tuple(_written(document) for document in documents)
    library(*written)
    return written


def _written(document: Data) -> str:
    """One key a line, so that the first line begins as a document does."""
    return "".join(f"{key}: {json.dumps(value)}\n" for key, value in document.items())


@st.composite
def _tree(draw: st.DrawFn, procedures: Mapping[str, Data]) -> Data:
    verdicts = [f"v{k}" for k in range(draw(st.integers(1, 3)))]
    steps = draw(_steps(verdicts, procedures, draw(st.integers(0, 6))))
    steps |= {name: draw(_verdict(name, procedures)) for name in verdicts}
    return {
        "tree": "bench",
        "format": 1,
        "revision": 1,
        "title": "A tree",
        "complaint": "It does not go.",
        "suspects": {name: {"name": name.title(), "weight": k} for k, name in enumerate(_SUSPECTS, 1)},
        "start": next(iter(steps)),
        "steps": _reached(steps, next(iter(steps))),
    }


@st.composite
def _procedure(draw: st.DrawFn, name: str, procedures: Mapping[str, Data]) -> Data:
    ends = [f"o{k}" for k in range(draw(st.integers(1, 3)))]
    steps = draw(_steps(ends, procedures, draw(st.integers(1, 4))))
    steps = _reached(steps, next(iter(steps)))
    met = {target for step in steps.values() for target in _targets(step)}
    return {
        "procedure": name,
        "format": 1,
        "revision": 1,
        "title": f"Procedure {name}",
        "outcomes": {end: f"Ended {end}" for end in ends if end in met},
        "start": next(iter(steps)),
        "steps": steps,
    }


@st.composite
def _steps(draw: st.DrawFn, ends: list[str], procedures: Mapping[str, Data], count: int) -> Data:
    """Steps that lead only to later ones or to an end."""
    names = [f"s{k}" for k in range(count)]
    out: Data = {}
    for k, name in enumerate(names):
        targets = st.sampled_from([*names[k + 1 :], *ends])
        out[name] = draw(_step(name, targets, procedures))
    return out


@st.composite
def _step(
    draw: st.DrawFn, name: str, targets: st.SearchStrategy[str], procedures: Mapping[str, Data]
) -> Data:
    kinds = ["do", "ask", "measure", "measure-many", "sort", *(["run", "run"] if procedures else [])]
    kind = draw(st.sampled_from(kinds))
    if kind == "sort":
        return {"sort": "gearbox", "cases": {value: draw(targets) for value in ("manual", "automatic")}}
    step = draw(_common())
    if kind == "run":
        run = draw(st.sampled_from(sorted(procedures)))
        return {"run": run, "outcomes": {end: draw(targets) for end in procedures[run]["outcomes"]}} | step
    if draw(st.booleans()):
        step["unsure"] = draw(targets)
    if kind == "do":
        return {"do": f"Do {name}.", "then": draw(targets)} | step
    if kind == "ask":
        count = draw(st.integers(2, 3))
        return {
            "ask": f"Ask {name}?",
            "answers": [{"say": f"a{k}", "then": draw(targets)} for k in range(count)],
        } | step
    return {"measure": f"Measure {name}.", "bands": draw(_bands(targets))} | _readings(kind) | step


def _readings(kind: str) -> Data:
    common = {"gauge": "rule", "unit": "mm", "plausible": [0, 10]}
    if kind == "measure":
        return {"reading": {"name": "x", **common}}
    return {"readings": {"each": ["x", "y"], **common}, "figure": "spread"}


@st.composite
def _bands(draw: st.DrawFn, targets: st.SearchStrategy[str]) -> list[Data]:
    """Bands that meet at one to three limits and leave nothing out."""
    low, high = draw(st.sampled_from([("over", "upto"), ("from", "below")]))
    cuts: list[float | str] = sorted(draw(st.sets(st.integers(1, 90), min_size=1, max_size=3)))
    limits = [cut / 10 for cut in cuts if isinstance(cut, int)]
    ends = [{}, *({low: limit} for limit in limits)], [*({high: limit} for limit in limits), {}]
    return [{**below, **above, "then": draw(targets)} for below, above in zip(*ends, strict=True)]


@st.composite
def _common(draw: st.DrawFn) -> Data:
    out: Data = {}
    for key, names in (("sets", _STATES), ("clears", _STATES), ("cautions", ("hot", "turning"))):
        chosen = draw(st.lists(st.sampled_from(names), unique=True, max_size=2))
        if chosen:
            out[key] = chosen
    if draw(st.booleans()):
        out["minutes"] = draw(st.sampled_from([0, 0.5, 1, 2, 7, 15]))
    return out


@st.composite
def _verdict(draw: st.DrawFn, name: str, procedures: Mapping[str, Data]) -> Data:
    convicted = draw(st.lists(st.sampled_from(_SUSPECTS), unique=True))
    step = draw(_common())
    return {
        "verdict": f"Verdict {name}",
        "suspects": convicted,
        "grade": "repair" if convicted else "refer",
        "correction": "Mend it.",
        "follow": sorted(procedures)[: draw(st.integers(0, 2))],
        **step,
    }


def _targets(step: Data) -> list[str]:
    ways = [
        step.get("then"),
        step.get("unsure"),
        *step.get("cases", {}).values(),
        *step.get("outcomes", {}).values(),
    ]
    ways += [way["then"] for way in (*step.get("answers", ()), *step.get("bands", ()))]
    return [way for way in ways if way is not None]


def _reached(steps: Data, start: str) -> Data:
    """Only the steps that a walk from the start can come to, in the order of the text."""
    met, waiting = set[str](), [start]
    while waiting:
        name = waiting.pop()
        if name not in met and name in steps:
            met.add(name)
            waiting.extend(_targets(steps[name]))
    return {name: step for name, step in steps.items() if name in met}
