"""What cases say of a tree, written into its file: its weights, and the signs of which there are enough."""

from collections.abc import Iterator, Mapping
from fractions import Fraction
from pathlib import Path
from typing import NamedTuple

from engine.belief.learned import Learned, proposed, signs_proposed
from engine.cli.whole import write
from engine.errors import Failure, Refusal
from engine.loading import renumber
from engine.loading.document import read
from engine.model.tree import ELSEWHERE, Ask, Measure, Tree


class Written(NamedTuple):
    """What was written where."""

    path: Path
    #: By step and suspect.
    signs: tuple[tuple[str, str], ...]
    #: What the tree would have to say of what it does not name, where it says nothing; else empty.
    elsewhere: str


def into(path: Path, tree: Tree, told: Learned) -> Written:
    """Write what the cases say; Failure where that cannot be done, with the file as it was."""
    text = _text(path)
    data = read(text.encode(), str(path)).data
    signs = {key: shares for key, shares in signs_proposed(told).items() if _whole(tree, *key)}
    weights = proposed(tree, told)
    numbers = {place: _decimal(number) for place, number in _places(tree, weights, signs)}
    says = renumber.at(data, (ELSEWHERE,)) is not None
    if says:
        numbers[ELSEWHERE,] = _decimal(weights[ELSEWHERE])
    changed = renumber.renumbered(text, numbers)
    if isinstance(changed, Refusal):
        raise Failure(f"{path} stays as it is. {changed.message}", changed.cure)
    write(path, changed)
    lightest = min(weight for name, weight in weights.items() if name != ELSEWHERE)
    unsaid = "" if says or weights[ELSEWHERE] == lightest else _decimal(weights[ELSEWHERE])
    return Written(path, tuple(signs), unsaid)


def _text(path: Path) -> str:
    """The text with its own line ends, and with the mark that it may begin with."""
    try:
        return path.read_bytes().decode()
    except UnicodeDecodeError:
        raise Failure(f"{path} is not UTF-8.", "Save it as UTF-8 first.") from None
    except OSError as error:
        raise Failure(f"{path} cannot be read: {error.strerror}.", "Check its permissions.") from None


def _places(
    tree: Tree,
    weights: Mapping[str, Fraction],
    signs: Mapping[tuple[str, str], tuple[Fraction, ...]],
) -> Iterator[tuple[renumber.Path, Fraction]]:
    for name in tree.suspects:
        yield ("suspects", name, "weight"), weights[name]
    for (step, suspect), shares in signs.items():
        ways = "answers" if isinstance(tree.steps[step], Ask) else "bands"
        for number, share in enumerate(shares):
            yield ("steps", step, ways, number, "fits", suspect), share


def _whole(tree: Tree, step: str, suspect: str) -> bool:
    """Whether every answer or band speaks of the suspect; else one that is silent would get another share."""
    held = tree.steps[step]
    ways = held.answers if isinstance(held, Ask) else held.bands if isinstance(held, Measure) else ()
    return all(suspect in way.fits for way in ways)


def _decimal(number: Fraction) -> str:
    """The number as people write it, never with an exponent.

    >>> _decimal(Fraction(5, 2)), _decimal(Fraction(3)), _decimal(Fraction(1, 10**6))
    ('2.5', '3', '0.000001')
    """
    return f"{float(number):.12f}".rstrip("0").rstrip(".")
