"""Which oil may stand in for which."""

from itertools import product

import pytest

from engine.trade.oil_service import (
    ASK,
    ASKED,
    DO_NOT,
    GEAR,
    METAL,
    OFFERED,
    UNITS,
    USE,
    limited_slip_additive,
    substitution,
)

#: asked, offered, unit, yellow metal, word, a word of the reason. Common practice, from API 1560's classes.
CASES = [
    ("GL-5", "GL-4", "hypoid axle", "no", DO_NOT, "Hypoid"),
    ("GL-5", "GL-4", "limited-slip hypoid axle", "no", DO_NOT, "Hypoid"),
    ("GL-5", "GL-4", "synchronised transaxle", "no", DO_NOT, "load"),
    ("GL-4", "GL-5", "synchronised transaxle", "no", ASK, "synchroniser"),
    ("GL-4", "GL-5", "synchronised transaxle", "yes", DO_NOT, "yellow metal"),
    ("GL-4", "GL-5", "synchronised gearbox", "unknown", DO_NOT, "brass"),
    ("GL-4", "GL-4/GL-5", "synchronised gearbox", "yes", DO_NOT, "yellow metal"),
    ("GL-5", "GL-4/GL-5", "hypoid axle", "unknown", USE, "passed"),
    ("GL-5", "SAE J2360", "hypoid axle", "unknown", USE, "passed"),
    ("GL-5", "MIL-L-2105D", "hypoid axle", "unknown", USE, "passed"),
    ("GL-5", "MT-1", "hypoid axle", "no", DO_NOT, "MT-1"),
    ("GL-4", "MT-1", "spiral-bevel axle", "no", DO_NOT, "MT-1"),
    ("GL-4", "MT-1", "synchronised gearbox", "no", DO_NOT, "MT-1"),
    ("GL-4", "MT-1", "unsynchronised gearbox", "no", ASK, "MT-1"),
    ("MT-1", "GL-4", "unsynchronised gearbox", "no", ASK, "heat"),
    ("MT-1", "GL-5", "unsynchronised gearbox", "yes", DO_NOT, "copper"),
    ("GL-5", "ATF", "hypoid axle", "no", DO_NOT, "no API gear class"),
    ("ATF", "GL-4", "synchronised transaxle", "no", DO_NOT, "made for ATF"),
    ("GL-4", "GL-5", "hypoid axle", "no", USE, "more load"),
    ("GL-4", "GL-5", "hypoid axle", "unknown", ASK, "brass"),
    ("GL-2", "GL-4", "worm axle", "yes", DO_NOT, "yellow metal"),
    ("GL-6", "GL-5", "hypoid axle", "no", ASK, "withdrawn"),
    ("GL-6", "GL-6", "hypoid axle", "no", ASK, "withdrawn"),
    ("GL-6", "GL-4", "hypoid axle", "no", DO_NOT, "below"),
    ("GL-5", "GL-6", "hypoid axle", "no", ASK, "withdrawn"),
    ("GL-1", "GL-4", "synchronised gearbox", "no", ASK, "friction"),
    ("GL-5", "GL-5", "sealed viscous coupling", "no", DO_NOT, "sealed"),
]
ALL = list(product(ASKED, OFFERED, UNITS, METAL))


@pytest.mark.parametrize("case", CASES, ids=" / ".join)
def test_an_oil_in_place_of_another(case: tuple[str, str, str, str, str, str]) -> None:
    """Each swap gets its word, and the reason names what decides."""
    *swap, word, reason = case

    found, why = substitution(*swap)

    assert found == word
    assert reason in why


def test_every_swap_has_an_answer_with_a_reason() -> None:
    """No combination of words falls through the rules."""
    answers = [substitution(*swap) for swap in ALL]

    assert {word for word, _ in answers} == {USE, DO_NOT, ASK}
    assert all(why.endswith(".") and len(why) > 20 for _, why in answers)


def test_nothing_weaker_is_ever_used() -> None:
    """An oil of a lower class is never a plain `use`."""
    weaker = [
        swap
        for swap in ALL
        if swap[0] in GEAR and swap[1] in GEAR and GEAR.index(swap[1]) < GEAR.index(swap[0])
    ]

    assert weaker
    assert all(substitution(*swap)[0] != USE for swap in weaker)


def test_the_axle_class_is_never_simply_used_in_a_synchronised_box_of_another() -> None:
    """Where a lower class is asked for, GL-5 among synchronisers is refused or asked about."""
    swaps = [s for s in ALL if s[2].startswith("synchronised") and s[1] == "GL-5" and s[0] in GEAR[:4]]

    assert {substitution(*swap)[0] for swap in swaps} == {DO_NOT, ASK}


def test_yellow_metal_never_makes_an_oil_more_welcome() -> None:
    """Knowing of yellow metal may only make the answer stricter."""
    strict = (USE, ASK, DO_NOT)

    for asked, offered, unit in product(ASKED, OFFERED, UNITS):
        without, with_it = (
            strict.index(substitution(asked, offered, unit, metal)[0]) for metal in ("no", "yes")
        )
        assert without <= with_it


def test_the_class_of_the_sheet_is_used() -> None:
    """Every current class may be used where it is asked for, in any unit that is not sealed."""
    open_units = [unit for unit in UNITS if not unit.startswith("sealed")]

    for name, unit, metal in product([*GEAR[:5], "MT-1", "ATF"], open_units, METAL):
        if name != "MT-1" or unit == "unsynchronised gearbox":
            assert substitution(name, name, unit, metal)[0] == USE


def test_only_friction_plates_want_the_additive() -> None:
    """A viscous unit is sealed and needs none in the axle oil (common practice)."""
    assert [unit for unit in UNITS if limited_slip_additive(unit)[0] == USE] == ["limited-slip hypoid axle"]
    assert "sealed" in limited_slip_additive("sealed viscous coupling")[1]


def test_an_unknown_word_is_the_callers_mistake() -> None:
    """The words are fixed."""
    with pytest.raises(ValueError, match="GL-7"):
        substitution("GL-7", "GL-5", "hypoid axle")
