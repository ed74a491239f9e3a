"""The band proof put to z3, a solver of satisfiability: each claim as one sentence over the real numbers.

The sentences are made of the bands as they are written, in SMT-LIB 2.6 (smt-lib.org), and share no code
with the proof. See de Moura & Bjørner, "Z3: An Efficient SMT Solver", TACAS 2008.
"""

from collections.abc import Iterable, Mapping, Sequence
from fractions import Fraction
from itertools import combinations
from typing import Final, NamedTuple

import z3

from engine.lint.stretch import Stretch, Uncovered
from tests.engine.lint.random_bands import Node, Written

_SIGNS: Final = {"from": ">=", "over": ">", "upto": "<=", "below": "<"}
#: What each number or reference that is written stands for; what is not in it stands for itself.
Meaning = Mapping[str, Fraction]


class Claim(NamedTuple):
    """A node and what the proof says of it."""

    node: Node
    covered: Uncovered
    meaning: Meaning = {}  # noqa: RUF012  reason: never written to


def number(value: Fraction) -> str:
    """An exact number."""
    text = f"(/ {abs(value.numerator)}.0 {value.denominator}.0)"
    return f"(- {text})" if value < 0 else text


def _all(*parts: str) -> str:
    return f"(and true {' '.join(parts)})"


def _any(parts: Iterable[str]) -> str:
    return f"(or false {' '.join(parts)})"


def _held(limit: Written | None, meaning: Meaning, x: str) -> str:
    if limit is None:
        return "true"
    sign, text = limit
    value = meaning[text] if text in meaning else Fraction(text)
    return f"({_SIGNS[sign]} {x} {number(value)})"


def _band(claim: Claim, band: int, x: str) -> str:
    return _all(*(_held(limit, claim.meaning, x) for limit in claim.node.bands[band]))


def _plausible(claim: Claim, x: str) -> str:
    return _all(*(_held(end, {}, x) for end in (("from", claim.node.low), ("upto", claim.node.high))))


def _told(stretch: Stretch, x: str) -> str:
    """A stretch of an answer: the side of each end says whether the number itself belongs to it."""
    (low, low_side), (high, high_side) = stretch
    least = ">" if low_side > 0 else ">="
    most = "<" if high_side < 0 else "<="
    return f"(and ({least} {x} {number(low)}) ({most} {x} {number(high)}))"


def wrong(claim: Claim, x: str = "x") -> str:
    """That x shows the proof to be wrong: about gaps, about what two bands share, or about use."""
    bands, covered = range(len(claim.node.bands)), claim.covered
    nothing_takes_it = f"(not {_any(_band(claim, k, x) for k in bands)})"
    gaps = f"(xor {nothing_takes_it} {_any(_told(gap, x) for gap in covered.gaps)})"
    shared: dict[tuple[int, int], list[Stretch]] = {pair: [] for pair in combinations(bands, 2)}
    for first, second, both in covered.overlaps:
        shared[first, second].append(both)
    overlaps = (
        f"(xor {_all(_band(claim, a, x), _band(claim, b, x))} {_any(_told(both, x) for both in told)})"
        for (a, b), told in shared.items()
    )
    used = (_band(claim, band, x) for band in covered.unused)
    outside = (
        f"(and (not {_plausible(claim, x)}) {_told(stretch, x)})"
        for stretch in (*covered.gaps, *(both for _, _, both in covered.overlaps))
    )
    return _any((_all(_plausible(claim, x), _any((gaps, *overlaps, *used))), *outside))


def shown(claim: Claim, name: str) -> tuple[list[str], list[str]]:
    """Names of numbers, and sentences that they all hold only if what the proof told of is there.

    One number in each band that is said to be used, in each gap and in each overlap.
    """
    used = [band for band in range(len(claim.node.bands)) if band not in claim.covered.unused]
    stretches = (*claim.covered.gaps, *(both for _, _, both in claim.covered.overlaps))
    sentences = [
        *(_all(_plausible(claim, f"{name}b{band}"), _band(claim, band, f"{name}b{band}")) for band in used),
        *(_told(stretch, f"{name}s{k}") for k, stretch in enumerate(stretches)),
    ]
    return [*(f"{name}b{band}" for band in used), *(f"{name}s{k}" for k in range(len(stretches)))], sentences


def refuted(claims: Sequence[Claim], together: int = 100) -> list[Claim]:
    """The claims that z3 finds wrong; asked in heaps, and one by one where something is wrong in a heap."""
    if together == 1:
        return list(claims) if _says_wrong(claims) else []
    heaps = (claims[k : k + together] for k in range(0, len(claims), together))
    return [claim for heap in heaps if _says_wrong(heap) for each in heap for claim in refuted([each], 1)]


def _says_wrong(claims: Sequence[Claim]) -> bool:
    if _answer(["x"], [_any(wrong(claim) for claim in claims)]) != "unsat":
        return True
    shows = [shown(claim, f"n{k}") for k, claim in enumerate(claims)]
    names = [name for some, _ in shows for name in some]
    return _answer(names, [each for _, some in shows for each in some]) != "sat"


def _answer(names: Sequence[str], sentences: Sequence[str]) -> str:
    solver = z3.Solver()
    solver.from_string(
        "\n".join(
            (*(f"(declare-const {name} Real)" for name in names), *(f"(assert {each})" for each in sentences))
        )
    )
    return str(solver.check())
