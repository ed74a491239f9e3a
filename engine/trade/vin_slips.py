"""What a vehicle identification number may have been before somebody misread or mistyped it.

The check digit finds every single misread character of another value, and nearly every swap of two
neighbours. Which slips make it right again, and are likely, is worth a look at the plate; nothing is put
right unasked.
"""

from collections.abc import Iterator
from itertools import product
from typing import Final, NamedTuple

from engine.errors import Refusal
from engine.trade.calculator import Calculator, Input, Output
from engine.trade.inputs import Values
from engine.trade.vin import LENGTH, VALUES, WEIGHTS, products

#: Characters that people take for each other on a plate or in handwriting, likeliest first (common practice).
_ALIKE: Final = (
    "0OQD",
    "1IL7",
    "8B3",
    "5S",
    "2Z",
    "6G",
    "UV",
    "MNHW",
    "CG",
    "EF",
    "PR",
    "4A",
    "7T",
    "VY",
    "KX",
)
#: What stands for the three characters that are never used.
_NEVER: Final = {"I": "1", "O": "0", "Q": "0"}
_CHECK: Final = 8


class Slip(NamedTuple):
    """A number that may have been meant, and what then went wrong."""

    number: str
    what: str


def slips(text: str) -> tuple[Slip, ...] | Refusal:
    """Numbers with a right check digit, one likely slip away from what was typed; the likeliest kind first.

    First I, O and Q are read as 1, 0 and 0. Then come look-alikes, swapped neighbours, one character
    dropped or doubled. Empty where the digit is right as it stands or no one slip explains it. Refuses what
    is further away: more than one character too many or too few. Source: arithmetic of 49 CFR 565.15.

    >>> [slip.number for slip in slips("OOOAA00A5AA000001")]
    ['000AA00A5AA000001']
    >>> [slip.what for slip in slips("000AA00A5AA0000O1")]
    ['O, I and Q are never used: 0, 1 and 0 are meant']
    """
    typed = "".join(text.split()).replace("-", "").upper()
    read = "".join(_NEVER.get(sign, sign) for sign in typed)
    if abs(len(read) - LENGTH) > 1 or not all(sign in VALUES for sign in read):
        message = "That is more than one slip away from a vehicle identification number."
        return Refusal("far", message, f"Read it again: {LENGTH} characters, A to Z and 0 to 9.")
    if len(read) == LENGTH and _fits(read):
        return () if read == typed else (Slip(read, "O, I and Q are never used: 0, 1 and 0 are meant"),)
    found = {slip.number: slip for slip in reversed(list(_near(read))) if _fits(slip.number)}
    return tuple(reversed(found.values()))


def undetected(sign: str, place: int) -> str:
    """The characters that the check digit cannot tell from `sign` at a place, 1 to 17.

    Source: 49 CFR 565.15: characters of one value, and in the ninth place, which weighs nothing, none: there
    the character is the check itself.

    >>> undetected("8", 12), undetected("B", 1)
    ('HY', '2KS')
    """
    if place == _CHECK + 1:
        return ""
    return "".join(other for other in VALUES if other != sign and VALUES[other] == VALUES[sign])


def swap_escapes(number: str, place: int) -> bool:
    """Whether the check digit stays right when the characters at `place` and the next change places.

    >>> swap_escapes("1" * 17, 4), swap_escapes("12111111111111111", 1)
    (True, False)
    """
    one, other = VALUES[number[place - 1]], VALUES[number[place]]
    return (WEIGHTS[place - 1] - WEIGHTS[place]) * (one - other) % 11 == 0


def _fits(number: str) -> bool:
    """Whether the check digit is right."""
    return number[_CHECK] == "0123456789X"[sum(products(number)) % 11]


def _near(read: str) -> Iterator[Slip]:
    """Everything one slip away, likeliest kind first."""
    if len(read) == LENGTH:
        yield from _looked_alike(read)
        yield from _swapped(read)
    elif len(read) > LENGTH:
        for place in range(len(read)):
            doubled = place and read[place] == read[place - 1]
            if doubled:
                yield Slip(read[:place] + read[place + 1 :], f"character {place + 1} typed twice")
    else:
        for place in range(len(read)):
            repeated = read[: place + 1] + read[place:]
            yield Slip(repeated, f"one `{read[place]}` of a pair left out at character {place + 1}")


def _looked_alike(read: str) -> Iterator[Slip]:
    for place, group in product(range(LENGTH), _ALIKE):
        if read[place] in group:
            for other in group:
                if other != read[place] and other in VALUES:
                    changed = read[:place] + other + read[place + 1 :]
                    yield Slip(changed, f"character {place + 1}: {read[place]} for {other}")


def _swapped(read: str) -> Iterator[Slip]:
    for place in range(LENGTH - 1):
        one, other = read[place], read[place + 1]
        if one != other:
            changed = read[:place] + other + one + read[place + 2 :]
            yield Slip(changed, f"characters {place + 1} and {place + 2} swapped")


#: More than a person would look at.
_SHOWN: Final = 12


def _listed(number: str) -> Values | Refusal:
    found = slips(number)
    if isinstance(found, Refusal):
        return found
    if not found:
        return "None: it is right as it stands, or more than one slip away.", None
    count = f"{len(found)} number{'s' * (len(found) > 1)}"
    return count, tuple(f"{slip.number} ({slip.what})" for slip in found[:_SHOWN])


CALCULATORS: Final = (
    Calculator(
        name="vin-slips",
        family="vin",
        title="What a misread identification number may have been",
        inputs=(Input("number", "number", "Number as it was read", "text"),),
        outputs=(
            Output("found", "found", "Found", "text"),
            Output("numbers", "numbers", "Look at the plate for", "text"),
        ),
        function=_listed,
        formula=("one slip away: I O Q, a look-alike, neighbours swapped, a pair; with a right check digit",),
        source="49 CFR 565.15; the look-alikes are common practice",
        mark="common-practice",
        valid="For numbers that carry a check digit. Characters of one value are never told apart.",
        example="number=000AA0OA5AA000001",
    ),
)
