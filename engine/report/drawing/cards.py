"""One step as a card: its words, what it warns of, and what it costs."""

from collections.abc import Iterator
from typing import Final

from engine.loading.library import Library
from engine.model.tree import Ask, Do, Document, Measure, Run, Sort, Step, Tree, Verdict
from engine.quantity import Quantity, write
from engine.report.drawing.chart import Card, Kind, Mark

_KINDS: Final[dict[type[Step], Kind]] = {
    Do: "do",
    Ask: "ask",
    Measure: "measure",
    Sort: "sort",
    Run: "run",
    Verdict: "verdict",
}


def card(library: Library, document: Document, step: Step, number: int) -> Card:
    """The card of a step; `number` is its place in the text."""
    return Card(
        step.name,
        number,
        _KINDS[type(step)],
        step.grade if isinstance(step, Verdict) else "",
        _text(library, step),
        tuple(_notes(library, document, step)),
        tuple(Mark("caution", _caution(library, name)) for name in step.cautions),
        step.correction if isinstance(step, Verdict) else step.why,
    )


def _text(library: Library, step: Step) -> str:
    match step:
        case Do() | Ask() | Measure() | Verdict():
            return step.text
        case Sort():
            fact = library.shop.facts.get(step.fact)
            return f"{fact.title if fact else step.fact}: as the vehicle's sheet says"
        case Run():
            return _procedure(library, step.procedure)
        case _:
            return step.name


def _notes(library: Library, document: Document, step: Step) -> Iterator[str]:
    match step:
        case Measure():
            yield f"Reads: {', '.join(wanted.name for wanted in step.readings)}"
            if step.figure:
                yield f"Compares: {step.figure}"
        case Verdict():
            yield f"Convicts: {'; '.join(_suspects(document, step)) or 'nobody'}"
            if step.follow:
                yield f"Then: {', '.join(_procedure(library, name) for name in step.follow)}"
    if step.minutes:
        yield write(Quantity(step.minutes, "min"))


def _suspects(document: Document, step: Verdict) -> Iterator[str]:
    known = document.suspects if isinstance(document, Tree) else {}
    return (known[name].title if name in known else name for name in step.suspects)


def _procedure(library: Library, name: str) -> str:
    return library.procedures[name].title if name in library.procedures else name


def _caution(library: Library, name: str) -> str:
    cautions = library.shop.cautions
    return cautions[name].title if name in cautions else name
