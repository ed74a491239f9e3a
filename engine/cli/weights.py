"""The weights of a tree's suspects, changed in its text: words, comments and layout stay."""

import re
from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import Final

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
