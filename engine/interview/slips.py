"""What a reading that is hard to believe may have meant; told, and never put in its place."""

from fractions import Fraction

from engine.errors import Refusal
from engine.quantity import parse, parse_number
from engine.trade.guess import asked, guesses


def slip(typed: str, low: Fraction, high: Fraction, unit: str) -> str:
    """The likeliest slips as a question, for one reading outside low to high; empty where there is none.

    >>> slip("125", Fraction(5), Fraction(50), "mm"), slip("1 in", Fraction(0), Fraction(9), "mm")
    ('Did you mean 12.5 mm?', 'Did you mean 0.1 in or 0.01 in?')
    """
    found = parse(typed, unit)
    if isinstance(found, Refusal):
        return ""
    bare = not isinstance(parse_number(typed), Refusal)
    return asked(guesses(found, low, high, unit, bare=bare)[:2])
