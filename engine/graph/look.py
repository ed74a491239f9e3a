"""A quick look that most documents pass: all of it reached, no circle, no blind alley, every target there.

It decides; only for a document that does not pass does `view` build a graph and say what is wrong. Most
libraries are sound, and most runs never need the graph library at all.
"""

from collections.abc import Callable, Iterable, Mapping

from engine.graph.exits import targets
from engine.model.tree import Document, Procedure, Run, Verdict

_OPEN, _LEFT = 1, 2


def plain(document: Document) -> bool:
    """Whether there is nothing to say of the document as a graph.

    >>> from engine.model.place import Place
    >>> from engine.model.tree import Do
    >>> step = Do(name="a", place=Place("p.yaml", 9, 3), text="Look", then="over")
    >>> shared = dict(place=Place("p.yaml", 1, 1), title="P", revision=1, facts={}, sources={}, start="a")
    >>> plain(Procedure(name="p", steps={"a": step}, outcomes={"over": "Over"}, **shared))
    True
    >>> plain(Procedure(name="p", steps={"a": step}, outcomes={"over": "Over", "not": "Not"}, **shared))
    False
    """
    ends = document.outcomes if isinstance(document, Procedure) else {}
    ahead = {name: targets(step) for name, step in document.steps.items()}
    ahead.update((name, []) for name in ends)
    reached = _reached((document.start,), ahead)
    if reached is None or len(reached) != len(ahead):
        return False
    return all(ahead[name] or isinstance(step, Verdict) for name, step in document.steps.items())


def loopless(procedures: Mapping[str, Document]) -> bool:
    """Whether no procedure runs itself, at once or through others; one that is not there is passed over."""
    ahead: dict[str, list[str]] = {}
    for name, document in procedures.items():
        runs = (step.procedure for step in document.steps.values() if isinstance(step, Run))
        ahead[name] = [run for run in runs if run in procedures]
    return _reached(ahead, ahead) is not None


def _reached(starts: Iterable[str], ahead: Mapping[str, list[str]]) -> Mapping[str, int] | None:
    """All that the starts lead to; None where that goes round in a circle or to something not there."""
    marks: dict[str, int] = {}
    get: Callable[[str], int | None] = marks.get
    for start in starts:
        waiting = [start]
        while waiting:
            name = waiting[-1]
            mark = get(name)
            if mark is not None:
                # met a second time it is left behind; met by another way it was already
                marks[waiting.pop()] = _LEFT
                continue
            if name not in ahead:
                return None
            marks[name] = _OPEN
            for target in ahead[name]:
                if get(target) == _OPEN:
                    return None
                if get(target) is None:
                    waiting.append(target)
    return marks
