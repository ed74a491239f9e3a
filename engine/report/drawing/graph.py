"""From a tree or a procedure to a chart: each step one card, each way out of a step one way."""

from collections.abc import Iterable, Iterator
from typing import Final, NamedTuple

from engine.graph.exits import exits
from engine.lint.finding import Finding
from engine.loading.library import Library
from engine.model.tree import Do, Document, Measure, Procedure, Run, Sort, Step, Tree
from engine.model.vehicle import Sheet
from engine.report.drawing.bands import words
from engine.report.drawing.cards import card
from engine.report.drawing.chart import Card, Chart, Mark, Sign, Way
from engine.report.drawing.trail import Visit

_ASIDE: Final = "cannot do or tell"


class Subject(NamedTuple):
    """What is drawn: a document of a library, and what is known beside it."""

    library: Library
    document: Document
    #: The vehicle it is drawn for; None draws it for all.
    sheet: Sheet | None = None
    findings: tuple[Finding, ...] = ()
    trail: tuple[Visit, ...] = ()
    #: The name of the walked case; empty where there is none.
    case: str = ""


def chart(subject: Subject) -> Chart:
    """The chart of a document: every step and every way out of it once, in the order of the text."""
    document = subject.document
    found = _placed(document, subject.findings)
    came = {name: tuple(_numbers(subject.trail, name)) for name in document.steps}
    cards = [
        card(subject.library, document, step, number)._replace(visits=came[step.name])
        for number, step in enumerate(document.steps.values(), 1)
    ]
    cards = [made._replace(marks=(*made.marks, *found.get(made.name, ()))) for made in cards]
    ways = tuple(way for step in document.steps.values() for way in _ways(subject, step))
    ends = tuple(_ends(document, ways))
    return Chart(
        document.title, tuple(_about(subject)), found.get("", ()), document.start, (*cards, *ends), ways
    )


def _about(subject: Subject) -> Iterator[str]:
    document = subject.document
    if isinstance(document, Tree):
        yield f"Complaint: {document.complaint}"
    yield f"{type(document).__name__} {document.name}, revision {document.revision}"
    if subject.sheet is not None:
        yield f"Drawn for: {subject.sheet.title}"
    if subject.case:
        yield f"With the trail of case {subject.case}"


def _numbers(trail: tuple[Visit, ...], name: str) -> Iterator[int]:
    return (number for number, visit in enumerate(trail, 1) if visit.step == name)


def _ways(subject: Subject, step: Step) -> Iterator[Way]:
    texts = _texts(subject, step)
    for k, way in enumerate(exits(step)):
        taken = (number for number, visit in enumerate(subject.trail, 1) if visit == (step.name, k))
        text = _ASIDE if way.aside else texts[k]
        yield Way(step.name, way.then, text, way.aside, tuple(taken), _barred(subject.sheet, step, k))


def _texts(subject: Subject, step: Step) -> list[str]:
    """The words on each way out of a step, as far as it is not the one aside."""
    match step:
        case Measure():
            return [words(band, step.unit, subject.sheet) for band in step.bands]
        case Sort():
            return list(step.cases)
        case Run():
            inner = subject.library.procedures.get(step.procedure)
            known = inner.outcomes if inner and len(step.outcomes) > 1 else {}
            return [f"{end}: {known[end]}" if end in known else end for end in step.outcomes]
        case Do():
            return [""]
        case _:
            return [answer.say for answer in getattr(step, "answers", ())]


def _barred(sheet: Sheet | None, step: Step, number: int) -> bool:
    if sheet is None or not isinstance(step, Sort):
        return False
    return list(step.cases)[number] != sheet.facts.get(step.fact)


def _ends(document: Document, ways: Iterable[Way]) -> Iterator[Card]:
    """The outcomes of a procedure, and whatever is led to but is not there."""
    there = dict.fromkeys(document.steps)
    if isinstance(document, Procedure):
        for number, (name, text) in enumerate(document.outcomes.items(), len(there) + 1):
            yield Card(name, number, "outcome", "", text)
        there |= dict.fromkeys(document.outcomes)
    for name in dict.fromkeys((document.start, *(way.then for way in ways))):
        if name not in there:
            yield Card(name, 0, "missing", "", f"There is no step {name}.")


def _placed(document: Document, findings: Iterable[Finding]) -> dict[str, tuple[Mark, ...]]:
    """The findings of the document as marks, by the step that they lie in; under no name, those of none."""
    starts = sorted((step.place.line, step.name) for step in document.steps.values())
    placed: dict[str, tuple[Mark, ...]] = {}
    for found in findings:
        if found.file == document.place.file:
            name = next((name for line, name in reversed(starts) if line <= found.line), "")
            sign: Sign = "error" if found.severity == "error" else "warning"
            mark = Mark(sign, f"{found.rule}: {found.message}")
            placed[name] = (*placed.get(name, ()), mark)
    return placed
