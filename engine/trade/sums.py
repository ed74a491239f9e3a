"""A calculation written as a person would write it: inputs, formula, figures put in, result."""

import re
from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from math import floor, log10
from typing import Final

from engine.quantity import Quantity, write, write_number
from engine.trade.inputs import Input, Output
from engine.trade.taking import Kept, Taken

#: Digits beyond which a figure is noise of the machine's arithmetic.
_DIGITS: Final = 10
#: What a symbol may be made of; a prime or a sub- or superscript letter belongs to it.
_WORD: Final = r"[^\W\d²³⁴](?:[^\W²³⁴]|[′*])*"
#: What is applied to the factor behind it, and words between factors.
_FUNCTIONS: Final = frozenset(
    ("cos", "sin", "tan", "atan", "acos", "asin", "ln", "log", "log10", "exp", "sqrt", "max", "min", "mean")
) | {"or", "if", "and", "from", "of", "at", "to"}


def told(
    inputs: Sequence[Input],
    outputs: Sequence[Output],
    formula: Sequence[str],
    taken: Mapping[str, Taken],
    results: Mapping[str, Kept],
) -> tuple[str, ...]:
    """The lines of a sum."""
    figures: dict[str, str] = {}
    for wanted in inputs:
        if wanted.name in taken:
            figures[wanted.symbol] = _figures(taken[wanted.name])
    absent = {wanted.symbol for wanted in inputs if wanted.name not in taken}
    if absent:
        formula = [line for line in formula if not absent & set(re.findall(_WORD, line.partition(" = ")[2]))]
    given = [_given(wanted, taken[wanted.name]) for wanted in inputs if wanted.name in taken]
    values = {output.symbol: written(results[output.name]) for output in outputs if output.name in results}
    return (*given, *_worked(formula, figures, values), *_rest(outputs, formula, results))


def written(value: Kept) -> str:
    """A value for people.

    >>> written((Quantity(Fraction(1), "mm"), Quantity(Fraction(2), "mm"))), written(Fraction(7, 2))
    ('1 mm, 2 mm', '3.5')
    """
    if isinstance(value, tuple):
        return ", ".join(map(written, value))
    if isinstance(value, str):
        return value
    if isinstance(value, Quantity):
        return write(Quantity(trimmed(value.value), value.unit))
    return write_number(trimmed(value))


def trimmed(value: Fraction) -> Fraction:
    """The number without the noise of binary arithmetic; a number of few digits stays as it is."""
    if not value or (value * 10**4).denominator == 1:
        return value
    return round(value, _DIGITS - floor(log10(abs(value))))


def _given(wanted: Input, taken: Taken) -> str:
    """An input as typed, and in the unit of the formula where that is another."""
    typed = written(taken.kept)
    inside = _figures(taken)
    same = "" if typed == inside else f" {inside}" if inside.startswith("≈") else f" = {inside}"
    return f"{wanted.symbol} = {typed}{same}  ({wanted.title})"


def _figures(taken: Taken) -> str:
    """The figures that stand in the formula."""
    return ", ".join(
        value if isinstance(value, str) else written(Quantity(value, taken.unit) if taken.unit else value)
        for value in taken.values
    )


def _worked(formula: Sequence[str], figures: dict[str, str], values: Mapping[str, str]) -> Iterator[str]:
    """Each line of the formula, the same with the figures put in, and its result."""
    for line in formula:
        yield line
        left, equals, right = line.partition("  (")[0].partition(" = ")  # a remark stands behind two spaces
        result = values.get(left.strip(), "")
        known = {**values, **figures}
        known.pop(left.strip(), None)
        put = put_in(right, known)
        if equals and put != right:
            yield f"  = {put}"
        if equals and result:
            yield f"  {result}" if result.startswith("≈") else f"  = {result}"


def _rest(outputs: Sequence[Output], formula: Sequence[str], results: Mapping[str, Kept]) -> Iterator[str]:
    """The results that no line of the formula ends in: words, and figures that the formula does not name."""
    worked = {line.partition(" = ")[0].strip() for line in formula if " = " in line}
    for output in outputs:
        if output.name in results and output.symbol not in worked:
            yield f"{output.title}: {written(results[output.name])}"


def put_in(text: str, figures: Mapping[str, str]) -> str:
    """A formula with its figures; where two stand side by side, the sign of multiplication stands between.

    >>> put_in("25.4 d + 2 H", {"d": "16 in", "H": "112.75 mm"})
    '25.4 · 16 in + 2 · 112.75 mm'
    >>> put_in("m r² cos a", {"m": "2 kg", "r": "3 m", "a": "45°"})
    '2 kg · (3 m)² · cos 45°'
    """
    out = ""
    for token in re.finditer(rf"\s+|{_WORD}|[0-9.]+|.", text):
        sign = token.group()
        out += _spaced(out, _figure(sign, text[token.end() :], figures), sign, figures)
    return out


def _figure(sign: str, rest: str, figures: Mapping[str, str]) -> str:
    figure = figures.get(sign)
    if figure is None:
        return sign
    figure = figure.removeprefix("≈ ")
    return f"({figure})" if rest[:1] in tuple("²³⁴^") or figure.startswith("-") else figure


def _spaced(before: str, figure: str, sign: str, figures: Mapping[str, str]) -> str:
    """The figure with a dot before it, where what it multiplies stands right before it."""
    factor = sign in figures or sign in _FUNCTIONS
    return f"· {figure}" if factor and before.endswith(" ") and _multiplies(before.rstrip(" ")) else figure


def _multiplies(before: str) -> bool:
    """Whether a factor ends here: a number, a unit, a bracket, but not the name of a function."""
    start = len(before)
    while start and (before[start - 1].isalnum() or before[start - 1] == "_"):
        start -= 1
    if start == len(before):
        return before.endswith((")", "°", "%"))
    return before[start:] not in _FUNCTIONS or before[:start].endswith(("°", "/", "·"))
