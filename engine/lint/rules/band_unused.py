"""A band that no plausible reading comes to.

Its limits stand the wrong way round, or it lies outside what is plausible (of a figure: outside what it
can make of plausible readings).

Bad:

    reading: {plausible: [0, 80]}
    bands:
      - {upto: 12, then: good}
      - {over: 12, upto: 80, then: worn}
      - {over: 90, then: worn-out}

Good: each band holds at least one plausible reading on some sheet that the tree is for.

    reading: {plausible: [0, 80]}
    bands:
      - {upto: 12, then: good}
      - {over: 12, then: worn}
"""

from collections.abc import Iterator

from engine.lint.finding import Found
from engine.lint.rule import Scope


def check(scope: Scope) -> Iterator[Found]:
    """Every band that stays empty on all sheets."""
    unused: dict[tuple[str, str, int], Found] = {}
    used: set[tuple[str, str, int]] = set()
    for standing in scope.standings:
        document, step = standing.document, standing.step
        for number in range(len(step.bands)):
            key = (document.place.file, step.name, number)
            if number not in standing.covered.unused:
                used.add(key)
                continue
            message = f"No plausible reading comes to band {number + 1} of `{step.name}`."
            unused[key] = Found(step.bands[number].place, message, "Mend its limits or the plausible range.")
    yield from (found for key, found in unused.items() if key not in used)
