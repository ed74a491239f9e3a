"""The examples on the pages of the rules, made whole: what a page leaves out is filled in, plainly.

A page shows what matters: an answer, a step, a few lines of a tree. Everything that the schema wants besides
is added here, and every step, outcome and suspect that is named and not shown. What is shown stays as it is.
"""

import json
import re
from collections.abc import Iterator
from typing import Any, Final

from engine.lint.pages import page
from engine.loading.document import read
from engine.loading.leaf import KINDS, File

_STEPS: Final = ("do", "ask", "measure", "sort", "run", "verdict")
_LEAD: Final = ("then", "unsure")


def example(slug: str, part: str) -> str:
    """The lines below `Bad:` or `Good:` on a page, without their indent; empty where there are none."""
    text = f"{page(slug)}\n\n"
    found = re.search(rf"^{part}:[^\n]*(?:\n[^\n ][^\n]*)*\n\n((?:(?:    [^\n]*)?\n)+)", text, re.MULTILINE)
    return re.sub(r"^    ", "", found[1], flags=re.MULTILINE).strip("\n") + "\n" if found else ""


def files(text: str) -> list[File]:
    """The documents of an example; `---` parts several."""
    made = []
    for number, part in enumerate(re.split(r"^---\n", text, flags=re.MULTILINE)):
        whole = _whole(_items(part), number)
        kind = next(key for key in whole if key in KINDS)
        name = whole[kind] if isinstance(whole[kind], str) else kind
        # JSON is YAML
        made.append(File(f"{name}.yaml", f"{name}.yaml", json.dumps(whole, ensure_ascii=False).encode()))
    return made


def _items(part: str) -> Any:
    """The data of a part; a list of answers or bands has no mapping around it."""
    listed = part.startswith("- ")
    document = read((f"list:\n{part}" if listed else part).encode(), "example")
    assert document.problems == ()
    data: Any = document.data
    return data["list"] if listed else data


def _whole(shown: Any, number: int) -> dict[str, Any]:
    """A whole document around what is shown."""
    if isinstance(shown, list):
        shown = {"first": {"ask": "How does it look?", "answers": shown}}
    if any(key in ("bands", "reading", "readings", "figure") for key in shown):
        shown = {"first": dict(shown)}
    elif set(shown) & {"grade", "correction", "follow"}:
        shown = {"first": {"verdict": "Worn out", "suspects": ["worn"], **shown}}
    if all(isinstance(value, dict) and _is_step(value) for value in shown.values()):
        shown = {"steps": dict(shown)}
    kind = next((key for key in shown if key in KINDS), "tree")
    if "tests" in shown:
        return _matrix(shown)
    if kind == "tree":
        return _tree(shown, number)
    if kind == "procedure":
        return _procedure(shown)
    plain = {"format": 1, "revision": 1, "title": "An example", "facts": {"drive": "all-wheel"}}
    wanted = {"vehicle": plain, "rehearsal": {"format": 1, "title": "An example", "vehicle": "fellside"}}
    return {**shown, **{key: v for key, v in wanted.get(kind, {"format": 1}).items() if key not in shown}}


def _is_step(value: dict[str, Any]) -> bool:
    return bool(set(value) & {*_STEPS, "bands", "answers", "reading", "readings"})


def _tree(shown: dict[str, Any], number: int) -> dict[str, Any]:
    steps = _steps(shown)
    ends = {name: _verdict() for name in _targets(steps) if name not in steps}
    told = {name: {"name": f"{name} is worn", "weight": 1} for name in _suspects({**steps, **ends})}
    whole = {
        "tree": f"example-{number}", "format": 1, "revision": 1, "title": "An example",
        "complaint": f"It is example {number}.", "for": {"drive": "all-wheel"},
        "suspects": told or {"worn": {"name": "Worn out", "weight": 1}},
        "sources": {"habit": {"kind": "common-practice"}},
        "start": next(iter(steps)),
    }  # fmt: skip
    return {**whole, **shown, "steps": {**steps, **ends}}


def _matrix(shown: dict[str, Any]) -> dict[str, Any]:
    whole = {"matrix": "example", "format": 1, "revision": 1, "title": "An example"}
    return {**whole, **shown}


def _procedure(shown: dict[str, Any]) -> dict[str, Any]:
    steps = _steps(shown)
    ends = {name: "It is over" for name in _targets(steps) if name not in steps}
    whole = {
        "procedure": "", "format": 1, "revision": 1, "title": "An example",
        "sources": {"habit": {"kind": "common-practice"}},
        "outcomes": ends or {"done": "It is done"}, "start": next(iter(steps)),
    }  # fmt: skip
    return {**whole, **shown, "steps": steps}


def _steps(shown: dict[str, Any]) -> dict[str, Any]:
    steps = shown.get("steps") or {"first": {"do": "Look.", "then": "end"}}
    return {name: _step(step) for name, step in steps.items()}


def _step(step: dict[str, Any]) -> dict[str, Any]:
    """A step with a text, a reading, answers and bands, where it has to have them and does not show them."""
    step = dict(step)
    if "bands" in step or "reading" in step or "readings" in step:
        step.setdefault("measure", "How much?")
    if "answers" in step:
        step.setdefault("ask", "How does it look?")
    if "ask" in step:
        step.setdefault("answers", [{"say": "So", "then": "end"}, {"say": "Not so", "then": "other-end"}])
    if "measure" in step:
        if "readings" not in step:
            step.setdefault("reading", {})
            plain = {"name": "play", "gauge": "steel-rule", "unit": "mm", "plausible": [0, 80]}
            step["reading"] = {**plain, **step["reading"]}
        step.setdefault("bands", [{"from": 0, "then": "end"}] if "figure" in step else [
            {"upto": 5, "then": "end"}, {"over": 5, "then": "other-end"}])  # fmt: skip
    if "verdict" in step:
        step = {**_verdict(), **step}
    if "do" in step:
        step.setdefault("then", "end")
    return step


def _verdict() -> dict[str, Any]:
    return {"verdict": "Not decided", "suspects": [], "grade": "refer", "correction": "Ask a colleague."}


def _targets(steps: dict[str, Any]) -> list[str]:
    """Every step that is led to, in order."""
    return list(dict.fromkeys(_led(steps)))


def _led(node: Any) -> Iterator[str]:
    if isinstance(node, dict):
        for key, value in node.items():
            if key in _LEAD and isinstance(value, str):
                yield value
            elif key in ("cases", "outcomes"):
                yield from value.values()
            else:
                yield from _led(value)
    elif isinstance(node, list):
        for each in node:
            yield from _led(each)


def _suspects(steps: dict[str, Any]) -> list[str]:
    found: dict[str, None] = {}
    for step in steps.values():
        found.update(dict.fromkeys(step.get("suspects", [])))
        for way in (*step.get("answers", []), *step.get("bands", [])):
            found.update(dict.fromkeys(way.get("fits", {})))
    return list(found)
