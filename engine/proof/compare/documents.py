"""What a tree or procedure says otherwise in another version."""

from collections.abc import Iterator, Sequence

from engine.model.tree import Document, Procedure, Step, Suspect, Tree
from engine.proof.compare.align import Alignment, kind, words
from engine.proof.compare.change import Change
from engine.proof.compare.steps import Pair, Sheets, step_changes


def document_changes(
    old: Document, new: Document, aligned: Alignment, sheets: Sequence[Sheets]
) -> Iterator[Change]:
    """Every change of a document and of its steps, in the order of the new text; what was removed last."""
    for serious, name, message in _head(old, new, aligned):
        yield Change(serious, name, new.name, "", message, old.place, new.place)
    back = {b: a for a, b in aligned.steps.items()}
    for name, step in new.steps.items():
        if name in back:
            yield from step_changes(Pair(new.name, old.steps[back[name]], step, aligned, sheets))
        else:
            yield _added(new, step, old.steps.get(name))
    for name, step in old.steps.items():
        if name not in aligned.steps and name not in new.steps:
            message = f"Removed: {words(step)}"
            dropped = f" Its cautions went with it: {', '.join(step.cautions)}." if step.cautions else ""
            yield Change(bool(dropped), "removed", new.name, name, message + dropped, step.place, None)


def _added(new: Document, step: Step, before: Step | None) -> Change:
    if before is None:
        return Change(False, "added", new.name, step.name, f"Added: {words(step)}", None, step.place)  # noqa: FBT003  reason: the first field of a value
    message = f"Asks for something else: {_kind(step)}, was {_kind(before)}."
    return Change(True, "kind", new.name, step.name, message, before.place, step.place)  # noqa: FBT003  reason: the first field of a value


def _kind(step: Step) -> str:
    told = kind(step)
    return " ".join(str(part) for part in told if part) if isinstance(told, tuple) else str(told)


def _head(old: Document, new: Document, aligned: Alignment) -> Iterator[tuple[bool, str, str]]:
    if old.name != new.name:
        yield False, "name", f"Named `{new.name}`, was `{old.name}`."
    if old.title != new.title:
        yield False, "title", f"Title: {new.title} (was: {old.title})"
    if old.start != new.start != aligned.steps.get(old.start):
        yield False, "start", f"Starts with `{new.start}`, started with `{old.start}`."
    if old.facts != new.facts:
        yield True, "for", f"For {_facts(new)}, was for {_facts(old)}."
    if isinstance(old, Tree) and isinstance(new, Tree):
        yield from _tree(old, new)
    if isinstance(old, Procedure) and isinstance(new, Procedure):
        yield from _outcomes(old, new, aligned)


def _facts(document: Document) -> str:
    told = (f"{fact} {' or '.join(values)}" for fact, values in document.facts.items())
    return ", ".join(told) or "every vehicle"


def _weight(tree: Tree) -> str:
    return "as the lightest suspect" if tree.elsewhere is None else f"{float(tree.elsewhere):g}"


def _tree(old: Tree, new: Tree) -> Iterator[tuple[bool, str, str]]:
    if old.complaint != new.complaint:
        yield False, "complaint", f"Complaint: {new.complaint} (was: {old.complaint})"
    if old.confidence != new.confidence:
        message = f"Confidence {float(new.confidence):g}, was {float(old.confidence):g}."
        yield False, "confidence", message
    if old.condemn != new.condemn:
        yield False, "condemn", f"Condemns from {float(new.condemn):g} on, was {float(old.condemn):g}."
    if old.elsewhere != new.elsewhere:
        message = f"Something else weighs {_weight(new)}, was {_weight(old)}."
        yield False, "elsewhere", message
    for name, suspect in old.suspects.items():
        other = new.suspects.get(name)
        if other is None:
            yield True, "suspect-dropped", f"The suspect `{name}` was dropped."
        elif suspect._replace(place=other.place) != other:
            yield False, "suspect", f"The suspect `{name}` is told otherwise: {_suspect(old, new, name)}."
    for name in new.suspects:
        if name not in old.suspects:
            yield False, "suspect-added", f"The suspect `{name}` was added."


def _suspect(old: Tree, new: Tree, name: str) -> str:
    was, now = old.suspects[name], new.suspects[name]
    pairs = (
        ("name", was.title, now.title),
        ("weight", f"{float(was.weight):g}", f"{float(now.weight):g}"),
        ("correction", was.correction, now.correction),
        ("minutes of repair", _minutes(was), _minutes(now)),
    )
    return "; ".join(f"{label} {b}, was {a}" for label, a, b in pairs if a != b)


def _minutes(suspect: Suspect) -> str:
    return "not said" if suspect.repair is None else f"{float(suspect.repair):g}"


def _outcomes(old: Procedure, new: Procedure, aligned: Alignment) -> Iterator[tuple[bool, str, str]]:
    for name, text in old.outcomes.items():
        other = aligned.outcomes.get(name)
        if other is None:
            yield True, "outcome-dropped", f"The outcome `{name}` was dropped."
        elif other != name:
            yield False, "renamed", f"The outcome `{other}` was named `{name}`."
        elif new.outcomes[other] != text:
            yield False, "text", f"The outcome `{name}`: {new.outcomes[other]} (was: {text})"
    for name in new.outcomes:
        if name not in aligned.outcomes.values():
            yield False, "outcome-added", f"The outcome `{name}` was added."
