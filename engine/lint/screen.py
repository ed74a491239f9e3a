"""How many lines of a screen of 80 columns and 24 lines a step takes in the terminal app.

The app is not asked: it is another program's face, and slow to start. A test of the app holds every number
here against what it shows.
"""

import re
from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from functools import lru_cache
from typing import Final

from engine.model.shop import Gauge
from engine.model.tree import Ask, Band, Do, Measure, Wanted
from engine.plain import cells
from engine.quantity import Quantity, dimension, write
from engine.trade import registry

Shown = Do | Ask | Measure
#: The shop's gauges by their names.
Gauges = Mapping[str, Gauge]

#: Lines between the heading (job, place, states, suspects) and the line of keys.
ROOM: Final = 19
#: Of these, as many as the answers may take before they have to be scrolled.
MOST_ANSWERS: Final = 11
#: Columns for a text beside its label, and for an answer behind its number.
TEXT: Final = 65
ANSWER: Final = 73
#: A limit that depends on the sheet, as it may read; and the columns that no limit or range is wider than.
_LIMIT: Final = "up to 100.25 mm"
_WIDEST: Final = "x" * 30


def lines(text: str, width: int) -> int:
    r"""Lines that a text takes when whole words are put into lines of so many columns.

    >>> lines("one two three", 7), lines("onetwothree", 7), lines("", 7), lines("a\n\nb", 7)
    (2, 2, 1, 3)
    """
    return sum(_wrapped(line, width) for line in text.split("\n"))


def _wrapped(line: str, width: int) -> int:
    if 2 * len(line) <= width or (len(line) <= width and line.isascii()):
        return 1
    taken, used = 1, 0
    for word in re.findall(r"\s*\S+\s*", line):
        wide = cells(word.rstrip())
        if used + wide <= width:
            used += cells(word)
        elif wide <= width:
            taken, used = taken + (1 if used else 0), cells(word)
        else:
            folded = _folds(word, width)
            taken, used = taken + len(folded) - (0 if used else 1), folded[-1]
    return taken


def _folds(word: str, width: int) -> list[int]:
    """The columns of each line of a word that is wider than any line."""
    parts = [0]
    for character in word:
        wide = cells(character)
        if parts[-1] + wide > width:
            parts.append(0)
        parts[-1] += wide
    return parts


def fits(step: Shown, gauges: Gauges) -> bool:
    """Whether all that must be seen at once stands on the screen."""
    return at_most(step, gauges) <= ROOM or needed(step, gauges) <= ROOM


def at_most(step: Shown, gauges: Gauges) -> int:
    """More lines than `needed` can be, by a glance at the lengths alone: most steps need no second look.

    Two lines that follow each other hold more than one line can, so a text takes at most two lines for each
    that its letters would fill, and one more.
    """
    if isinstance(step, Measure):
        # a band has its limits and the title of the figure; the gauge has its resolution and the range
        count = sum((band.low is not None) + (band.high is not None) for band in step.bands)
        facts = _gauges(step, gauges)
        count += 2 * len(step.bands) if step.figure else 0
        said = [*facts, step.text, *("  " + band.say for band in step.bands)]
        said += [_WIDEST] * count
        return 4 + len(facts) + len(step.readings) + len(step.bands) + _most(said, TEXT)
    answers = [answer.say for answer in step.answers] if isinstance(step, Ask) else ["Done"]
    rows = len(answers) + _most(answers, ANSWER)
    told = (9 if step.picture else 7) + len(step.show) + _most((step.text, step.why, step.picture), TEXT)
    return told + rows + (ROOM if rows > MOST_ANSWERS else 0)


def _most(texts: Sequence[str], width: int) -> int:
    """Lines that these texts can take beyond one each."""
    text = "".join(texts)
    return 2 * (len(text) if text.isascii() else 2 * len(text)) // width + text.count("\n")


def needed(step: Shown, gauges: Gauges) -> int:
    """Lines of the screen that the step needs; more than there are where its answers have to be scrolled."""
    if isinstance(step, Measure):
        return 1 + sum(_measured(step, gauges))
    rows = answer_lines(step)
    return sum(_told(step)) + rows + (ROOM if rows > MOST_ANSWERS else 0)


def answer_lines(step: Do | Ask) -> int:
    """Lines of the answers."""
    return sum(lines(answer.say, ANSWER) for answer in step.answers) if isinstance(step, Ask) else 1


def _told(step: Do | Ask) -> Iterator[int]:
    """Lines of the texts, each with the blank one below it: all of them must be seen with the answers."""
    yield lines(step.text, TEXT) + 1
    if step.show:
        yield len(step.show) + 1
    if step.picture:
        yield lines(step.picture, TEXT) + 1
    if step.why:
        yield lines(step.why, TEXT) + 1
    if step.minutes:
        yield 2


def _measured(step: Measure, gauges: Gauges) -> Iterator[int]:
    """Lines from the words to the bands; why and the sheet stand below and may be scrolled to."""
    yield lines(step.text, TEXT) + 1
    yield len(step.readings) + 1
    yield sum(lines(told, TEXT) for told in _gauges(step, gauges))
    calculator = registry.find(step.figure) if step.figure else None
    for band in step.bands:
        yield lines(f"{calculator.title if calculator else ''} {_limits(band, step.unit)}: {band.say}", TEXT)


def _gauges(step: Measure, gauges: Gauges) -> Sequence[str]:
    """What is told of each gauge: once where all readings are alike, else behind the name of each."""
    told = {wanted.name: _gauge(wanted, gauges.get(wanted.gauge)) for wanted in step.readings}
    if len({*told.values()}) == 1:
        return [*told.values()][:1]
    return [f"{name}: {facts}" for name, facts in told.items()]


def _gauge(wanted: Wanted, gauge: Gauge | None) -> str:
    resolution = f"{gauge.title}, to {_amount(gauge.resolution, gauge.unit)}" if gauge else ""
    low, high = _amount(wanted.low, wanted.unit), _amount(wanted.high, wanted.unit)
    return f"{resolution}. Believed: {low} to {high}."


def _limits(band: Band, unit: str) -> str:
    values = [limit.value for limit in (band.low, band.high) if limit]
    return ", ".join(_LIMIT if value is None else f"up to {_amount(value, unit)}" for value in values)


@lru_cache(maxsize=4096)
def _amount(value: Fraction, unit: str) -> str:
    return write(Quantity(value, unit)) if dimension(unit) else unit
