"""Which procedures a walk runs, each behind those that it runs itself."""

from collections.abc import Iterable, Mapping

from engine.model.tree import Document, Procedure, Run


def innermost_first(
    documents: Iterable[Document], procedures: Mapping[str, Procedure]
) -> tuple[Procedure, ...]:
    """Every procedure that the documents run, at once or through others; follow-ups of verdicts are not run.

    One that is not there is passed over, and so is a run that closes a circle. Works on a stack of its own:
    procedures may run one another deeper than Python goes.
    """
    done: dict[str, Procedure] = {}
    seen: set[str] = set()
    waiting: list[tuple[Procedure, bool]] = [
        (p, False) for document in documents for p in _runs(document, procedures)
    ]
    while waiting:
        here, left = waiting.pop()
        if left:
            done[here.name] = here
        elif here.name not in seen:
            seen.add(here.name)
            waiting.append((here, True))
            waiting.extend((inner, False) for inner in _runs(here, procedures))
    return tuple(done.values())


def _runs(document: Document, procedures: Mapping[str, Procedure]) -> list[Procedure]:
    names = dict.fromkeys(step.procedure for step in document.steps.values() if isinstance(step, Run))
    return [procedures[name] for name in names if name in procedures]
