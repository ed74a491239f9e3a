"""The rules on bands, each tried on documents that it must and must not find fault with."""

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.lint.bands import _evident, _stretch
from engine.lint.runner import run
from engine.lint.stretch import End, Stretch, Uncovered, cover
from engine.loading import folders
from engine.loading.leaf import File
from engine.loading.library import gather
from engine.model.place import Place
from engine.model.tree import Band, Limit

_TREE = """\
tree: tried
format: 1
revision: 1
title: A tree to be tried
complaint: It is tried
for: {{drive: all-wheel}}
suspects: {{worn: {{name: Worn, weight: 1}}}}
sources: {{habit: {{kind: common-practice}}}}
start: look
steps:
  look:
    measure: How much?
    {reading}
    bands:
{bands}
    unsure: refer
    source: habit
  good: {{verdict: Good, suspects: [], grade: no-fault, correction: None}}
  bad: {{verdict: Worn, suspects: [worn], grade: repair, correction: Replace it, follow: [road-test]}}
  refer: {{verdict: Not decided, suspects: [], grade: refer, correction: Ask}}
"""
_ONE = "reading: {name: play, gauge: steel-rule, unit: mm, plausible: [0, 80]}"
_FOUR = "readings: {gauge: tape, unit: mm, plausible: [1500, 2500], each: [a, b, c, d]}\n    figure: "
_SHOP = tuple(file._replace(trusted=True) for file in folders.shipped(("shop/", "procedures/", "vehicles/")))
#: What lies at a limit of the sheet is told for each sheet.
SHEETS = sum(file.path.startswith("vehicles/") for file in _SHOP)


def _found(reading: str, *bands: str) -> list[tuple[str, int]]:
    """Rule and line of each finding on bands; the first band stands in line 14 (15 with a figure)."""
    text = _TREE.format(reading=reading, bands="\n".join(f"      - {{{band}}}" for band in bands))
    library = gather((File("t.yaml", "t.yaml", text.encode()), *_SHOP))
    findings = run(library, frozenset({"t.yaml"}))
    assert not [f for f in findings if "band" not in f.rule and "limit" not in f.rule], findings
    return [(finding.rule, finding.line) for finding in findings]


GOOD = {
    "upto and over": (_ONE, "upto: 12.5, then: good", "over: 12.5, then: bad"),
    "below and from": (_ONE, "below: 12.5, then: good", "from: 12.5, then: bad"),
    "three in any order": (
        _ONE,
        "over: 20, then: bad",
        "upto: 5, then: good",
        "over: 5, upto: 20, then: bad",
    ),
    "one number of its own": (
        _ONE,
        "below: 5, then: good",
        "from: 5, upto: 5, then: bad",
        "over: 5, then: bad",
    ),
    "limits at the ends": (_ONE, "upto: 0, then: good", "over: 0, upto: 80, then: bad"),
    "a limit of the sheet": (
        _FOUR + "spread",
        "upto: sheet.tyres.spread.max, then: good",
        "over: sheet.tyres.spread.max, then: bad",
    ),
    "per cent": (_FOUR + "relative-spread", "upto: 0.4, then: good", "over: 0.4, then: bad"),
}
BAD = {
    "gap of one number": (_ONE, ["band-gap"], "below: 5, then: good", "over: 5, then: bad"),
    "gap between": (_ONE, ["band-gap"], "upto: 5, then: good", "from: 6, then: bad"),
    "gap below": (_ONE, ["band-gap"], "from: 1, upto: 5, then: good", "over: 5, then: bad"),
    "gap above": (_ONE, ["band-gap"], "upto: 5, then: good", "over: 5, below: 80, then: bad"),
    "overlap of one number": (_ONE, ["band-overlap"], "upto: 5, then: good", "from: 5, then: bad"),
    "one inside another": (_ONE, ["band-overlap"], "from: 0, then: good", "from: 5, upto: 7, then: bad"),
    "wrong way round": (_ONE, ["band-unused"], "from: 20, upto: 12, then: bad", "from: 0, then: good"),
    "limit beyond": (
        _ONE,
        ["band-unused", "limit-outside-plausible", "limit-outside-plausible"],
        "upto: 127, then: good",
        "over: 127, then: bad",
    ),
    "spread beyond": (
        _FOUR + "spread",
        ["band-unused", "limit-outside-plausible", "limit-outside-plausible"],
        "upto: 1001, then: good",
        "over: 1001, then: bad",
    ),
    "sheet and number": (
        _FOUR + "spread",
        ["band-gap"],
        "below: sheet.tyres.spread.max, then: good",
        "over: sheet.tyres.spread.max, then: bad",
    ),
}


@pytest.mark.parametrize("name", GOOD)
def test_whole_bands_are_left_in_peace(name: str) -> None:
    """Bands that take each plausible reading once are no finding."""
    reading, *bands = GOOD[name]

    assert _found(reading, *bands) == []


@pytest.mark.parametrize("name", BAD)
def test_faulty_bands_are_found(name: str) -> None:
    """Each fault is found by the rule that is for it (on the sheets, once for each)."""
    reading, rules, *bands = BAD[name]
    assert isinstance(reading, str)
    found = _found(reading, *map(str, bands))

    assert sorted({rule for rule, _ in found}) == sorted(set(rules))
    assert len(found) == (SHEETS if name == "sheet and number" else len(rules))


def test_a_gap_names_the_number() -> None:
    """The message says which readings nothing takes."""
    text = _TREE.format(reading=_ONE, bands="      - {below: 5, then: good}\n      - {over: 5, then: bad}")
    findings = run(gather((File("t.yaml", "t.yaml", text.encode()), *_SHOP)), frozenset({"t.yaml"}))

    assert [f.message for f in findings] == ["No band of `look` takes 5 mm."]


HERE = Place("t.yaml", 1, 1)
_LIMITS = st.builds(Limit, st.integers(1, 3).map(Fraction), st.none(), st.booleans(), st.just(HERE))


@settings(max_examples=500)
@given(st.lists(st.tuples(_LIMITS, _LIMITS), max_size=2), st.none() | _LIMITS, st.none() | _LIMITS)
def test_what_is_evident_is_so(
    cuts: list[tuple[Limit, Limit]], first: Limit | None, last: Limit | None
) -> None:
    """Bands that a look finds whole leave no gap, share nothing and are all used."""
    lows = [first, *(begin for _, begin in cuts)]
    highs = [*(end for end, _ in cuts), last]
    bands = [Band(low, high, "good", "", {}, "", HERE) for low, high in zip(lows, highs, strict=True)]
    domain = (Fraction(0), Fraction(4))
    if _evident(tuple(bands), domain):
        all_of_it = Stretch(End(domain[0], 0), End(domain[1], 0))
        stretches = [_stretch(band, "mm", None, all_of_it) for band in bands]
        assert cover(stretches, all_of_it) == Uncovered((), (), ())
