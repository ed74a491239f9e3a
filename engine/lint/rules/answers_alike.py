"""Answers of one question that come to the same.

Answers that lead to the same step and have the same `fits` decide nothing: the technician is made to
choose between words that change neither the path nor the suspicion. Where all answers are alike, the
whole question decides nothing. A procedure knows no suspects, and of two mishaps that end it alike the
record should say which; there only a question that decides nothing at all is found.

Bad:

    - {say: A little oil, then: look-on}
    - {say: No oil, then: look-on}

Good: one answer for both, or `fits` that say what speaks for whom.

    - {say: A little oil, then: look-on, fits: {seal-worn: 0.3}}
    - {say: No oil, then: look-on, fits: {seal-worn: 0.1}}
"""

from collections.abc import Iterator

from engine.lint.finding import Found
from engine.lint.rule import Scope
from engine.model.tree import Answer, Ask, Tree


def check(scope: Scope) -> Iterator[Found]:
    """Every group of answers that lead to the same place with the same fits, at the second of them."""
    for document in scope.documents:
        for step in document.steps.values():
            if isinstance(step, Ask) and len({answer.then for answer in step.answers}) < len(step.answers):
                yield from _step(step, suspicion=isinstance(document, Tree))


def _step(step: Ask, *, suspicion: bool) -> Iterator[Found]:
    groups: dict[object, list[Answer]] = {}
    for answer in step.answers:
        groups.setdefault((answer.then, frozenset(answer.fits.items())), []).append(answer)
    if len(groups) == 1:
        message = (
            f"All answers of `{step.name}` lead to `{step.answers[0].then}`: the question decides nothing."
        )
        yield Found(step.place, message, "Make it something to do, or let the answers differ.")
        return
    for alike in groups.values() if suspicion else ():
        if len(alike) > 1:
            words = " and ".join(f"`{answer.say}`" for answer in alike)
            message = f"The answers {words} of `{step.name}` come to the same."
            yield Found(alike[1].place, message, "Make them one answer, or give them different `fits`.")
