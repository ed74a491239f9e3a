"""Weights and signs of a tree, changed in its text: words, comments and layout stay."""

import re
from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import Final

from engine.model.tree import Ask, Measure, Step, Tree

_WEIGHT: Final = re.compile(r"(\bweight:\s*)[0-9.]+")


def rewritten(text: str, weights: Mapping[str, Fraction]) -> str:
    r"""The text with other weights in its section `suspects`.

    >>> text = "suspects:\n  shaft: {name: Shaft, weight: 2}  # rare\n"
    >>> rewritten(text, {"shaft": Fraction(3)})
    'suspects:\n  shaft: {name: Shaft, weight: 3}  # rare\n'
    """
    return "".join(_changed(text.splitlines(keepends=True), weights))


def _changed(lines: list[str], weights: Mapping[str, Fraction]) -> Iterator[str]:
    inside, suspect, deep = False, "", 0
    for line in lines:
        if re.match(r"\S", line) and not line.startswith("#"):
            inside, deep = line.startswith("suspects:"), 0
        named = re.match(r"( +)([a-z0-9-]+):", line) if inside else None
        if named and (not deep or len(named[1]) == deep):
            deep, suspect = len(named[1]), named[2]
        if inside and suspect in weights:
            number = f"{float(weights[suspect]):g}"
            line = _WEIGHT.sub(lambda found, number=number: found[1] + number, line)  # type: ignore[misc]  # noqa: PLW2901
        yield line


def signs_rewritten(
    text: str, tree: Tree, signs: Mapping[tuple[str, str], tuple[Fraction, ...]]
) -> tuple[str, list[str]]:
    """The text with other `fits`, and the questions that it was changed at.

    A suspect is changed where every answer or band of the question speaks of it; else what is left unsaid
    would mean something else than before.
    """
    lines, changed = text.splitlines(keepends=True), list[str]()
    for (name, suspect), shares in signs.items():
        places = _places(tree.steps[name])
        spoken = [_spoken(lines, place, suspect) for place in places]
        if len(places) == len(shares) and None not in spoken:
            for at, share in zip(spoken, shares, strict=True):
                assert at is not None
                lines[at] = _sign(suspect).sub(rf"\g<1>{float(share):g}", lines[at], count=1)
            changed.append(f"{name}: {suspect}")
    return "".join(lines), changed


def _places(step: Step) -> list[int]:
    """The lines, counted from 0, at which the answers or bands begin."""
    ways = step.answers if isinstance(step, Ask) else step.bands if isinstance(step, Measure) else ()
    return [way.place.line - 1 for way in ways]


def _spoken(lines: list[str], place: int, suspect: str) -> int | None:
    """The line on which an answer says how often it is met under a suspect."""
    fits = False
    for number in range(place, len(lines)):
        line = lines[number]
        if number > place and re.match(r" *- |\S| {0,4}[a-z]", line):
            return None
        fits = fits or "fits:" in line
        if fits and _sign(suspect).search(line.partition("fits:")[2] or line):
            return number
    return None


def _sign(suspect: str) -> re.Pattern[str]:
    return re.compile(rf"(\b{re.escape(suspect)}:\s*)[0-9.]+")
