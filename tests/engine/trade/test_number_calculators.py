"""Identification numbers and trouble codes at the door."""

import pytest

from engine.errors import Refusal
from engine.trade.calculator import Sum, compute
from engine.trade.registry import find


def asked(name: str, **given: str) -> Sum | Refusal:
    """What the calculator makes of texts."""
    calculator = find(name)
    assert calculator is not None
    return compute(calculator, given)


def told(name: str, **given: str) -> dict[str, object]:
    """The outputs by name, where nothing is refused."""
    made = asked(name, **given)
    assert isinstance(made, Sum), made
    return dict(made.outputs)


@pytest.mark.parametrize(
    ("light", "years"), [("yes", "1980"), ("no", "1980 or 2010"), ("unknown", "1980 or 2010")]
)
def test_a_number_is_told_in_its_parts(light: str, years: str) -> None:
    """A synthetic number; only a light vehicle's year is certain (49 CFR 565.15)."""
    found = told("vin", number="000aa00a5-aa000001", light=light)

    assert found["years"] == years
    assert (found["maker"], found["serial"], found["verdict"]) == ("000", "000001", "right")


def test_a_number_without_a_year_is_still_told() -> None:
    """Outside North America the tenth place may hold 0."""
    found = told("vin", number="W" * 9 + "0" + "W" * 7)

    assert (found["years"], found["verdict"]) == ("no model year", "unchecked")


def test_slips_are_listed_or_said_to_be_none() -> None:
    """One slip leads back; a right number has none."""
    assert "000AA00A5AA000001" in str(told("vin-slips", number="O00AA00A5AA000001")["numbers"])
    assert "right as it stands" in str(told("vin-slips", number="000AA00A5AA000001")["found"])


def test_a_code_is_told_by_its_structure() -> None:
    """P0700-11: powertrain, standard, transmission, with a failure type."""
    assert told("trouble-code", code="p0700-11") == {
        "area": "powertrain",
        "owner": "ISO/SAE",
        "part": "transmission",
        "failure": "11",
        "bits": "0x0700",
    }


def test_a_maker_s_code_has_no_part() -> None:
    """What only the maker defines is not guessed."""
    assert set(told("trouble-code", code="P1700")) == {"area", "owner", "bits"}


def test_bytes_become_a_code() -> None:
    """0x9234 is B1234 (computed)."""
    assert told("trouble-code-bytes", bits="0x9234")["code"] == "B1234"


@pytest.mark.parametrize(
    ("name", "given"),
    [
        ("vin", {"number": "O" * 17}),
        ("vin", {"number": "1" * 16}),
        ("vin-slips", {"number": "short"}),
        ("trouble-code", {"code": "P4700"}),
        ("trouble-code-bytes", {"bits": "xyz"}),
    ],
)
def test_what_is_none_is_refused_at_the_door(name: str, given: dict[str, str]) -> None:
    """With its cure."""
    refusal = asked(name, **given)

    assert isinstance(refusal, Refusal)
    assert refusal.cure
