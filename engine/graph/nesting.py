"""Which procedures a walk runs, each behind those that it runs itself."""

from collections.abc import Mapping

from engine.model.tree import Document, Procedure, Run


def innermost_first(document: Document, procedures: Mapping[str, Procedure]) -> tuple[Procedure, ...]:
    """Every procedure that the document runs, at once or through others; follow-ups of verdicts are not run.

    No procedure may run itself, and all must be there. Works on a stack of its own: procedures may run one
    another deeper than Python goes.
    """
    done: dict[str, Procedure] = {}
    waiting: list[tuple[Document, bool]] = [(document, False)]
    while waiting:
        here, left = waiting.pop()
        if isinstance(here, Procedure) and left:
            done.setdefault(here.name, here)
        elif not left:
            waiting.append((here, True))
            runs = dict.fromkeys(s.procedure for s in here.steps.values() if isinstance(s, Run))
            waiting.extend((procedures[name], False) for name in runs if name not in done)
    return tuple(done.values())
