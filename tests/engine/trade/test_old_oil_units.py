"""Saybolt seconds and degrees API against a general-purpose library; its published values beside them."""

import pytest
from chemicals.utils import API_to_SG, SG_to_API
from chemicals.viscosity import viscosity_converter
from hypothesis import given
from hypothesis import strategies as st

from engine.errors import Refusal
from engine.trade.old_oil_units import from_saybolt, relative_density, saybolt


def test_two_hundred_saybolt_seconds() -> None:
    """200 SUS are 42.90 mm²/s (published: documentation of the library `chemicals`)."""
    assert from_saybolt(200) == pytest.approx(42.90, abs=0.05)
    assert from_saybolt(200) == pytest.approx(
        viscosity_converter(200, "saybolt universal", "kinematic viscosity") * 1e6, rel=2e-3
    )


@given(st.floats(40, 5_000))
def test_saybolt_round_trips(seconds: float) -> None:
    """From seconds to viscosity and back."""
    found = from_saybolt(seconds)
    assert not isinstance(found, Refusal)
    assert saybolt(found) == pytest.approx(seconds, rel=1e-9)


def test_thinner_than_the_tube_is_refused() -> None:
    """Below 32 s the tube tells nothing."""
    assert isinstance(from_saybolt(20), Refusal)


@pytest.mark.parametrize(("api", "density"), [(27, 0.8927), (25.72, 0.9), (10, 1.0)])
def test_degrees_api(api: float, density: float) -> None:
    """27 API are 0.8927, 0.9 is 25.72 API (published: the same library); water is 10 by definition."""
    assert relative_density(api) == pytest.approx(density, abs=5e-5)
    assert relative_density(api) == pytest.approx(API_to_SG(api), rel=1e-6)
    assert SG_to_API(relative_density(api)) == pytest.approx(api, abs=1e-9)
