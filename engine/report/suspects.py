"""How probable each suspect is, as a part of a case's page: in words and numbers, and what moved it."""

from collections.abc import Iterator

from engine.interview.believed import signs
from engine.interview.state import State
from engine.interview.suspecting import titled
from engine.interview.suspicion import CONTRADICTED, number, word
from engine.report.literal import plain


def suspects(state: State) -> Iterator[str]:
    """A table of the suspects from the weights of the tree on, then each sign with whom it moved."""
    belief, moves = state.belief, [*signs(state)]
    first = moves[0][0].before.belief if moves else belief
    yield from ("## Suspects", "", "| Suspect | Before any sign | Now | |", "|---|---|---|---|")
    rows = zip(belief.suspects, first.shares, belief.shares, strict=True)
    for name, before, now in sorted(rows, key=lambda row: -row[2]):
        yield f"| {plain(titled(state.tree, name))} | {number(before)} | {number(now)} | {word(now)} |"
    yield ""
    if belief.contradicted:
        yield CONTRADICTED
        yield ""
    for past, after in moves:
        was = past.before.belief
        each = zip(belief.suspects, was.shares, after.shares, strict=True)
        moved = [
            f"{plain(titled(state.tree, name))} {number(before)} to {number(now)}"
            for name, before, now in each
            if number(before) != number(now)
        ]
        yield f"- Event {past.line.sequence}, {plain(past.line.answer)}: {'; '.join(moved) or 'hardly moved'}"
    if moves:
        yield ""
