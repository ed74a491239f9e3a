"""Shims for end play and preload, the choice from a drawer, backlash and contact."""

from fractions import Fraction
from itertools import combinations_with_replacement

import pytest
import z3
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.errors import Refusal
from engine.trade.end_play import judged, mean_play, play_change, together
from engine.trade.gear_mesh import (
    CONTACTS,
    backlash_ratio,
    bearing_torque,
    contact,
    ring_gear_move,
    swapped_shims,
)
from engine.trade.shim_choice import Stack, choose, sure_step
from engine.trade.shims import (
    Window,
    play_with,
    shim_for_play,
    shim_for_preload,
    window_for_play,
    window_for_preload,
)

HUNDREDTHS = st.integers(min_value=0, max_value=200).map(lambda n: Fraction(n, 100))
SIZES = st.lists(st.integers(min_value=5, max_value=120), min_size=1, max_size=7, unique=True)


def window(value: Window | Refusal) -> list[float]:
    """The limits, where they are not refused."""
    assert not isinstance(value, Refusal), value
    return [float(limit) for limit in value]


def stack(value: Stack | Refusal) -> Stack:
    """The stack, where it is not refused."""
    assert isinstance(value, Stack), value
    return value


def by_hand(  # noqa: PLR0917  reason: everything that decides
    sizes: list[Fraction], low: Fraction, high: Fraction, tolerance: Fraction, doubt: Fraction, each: int
) -> tuple[int, Fraction] | None:
    """Fewest shims and least distance from the middle, by looking at every stack of up to four."""
    middle = (low + high) / 2
    for count in range(5):
        off = doubt + count * tolerance
        fit = [
            abs(sum(shims) - middle)
            for shims in combinations_with_replacement(sizes, count)
            if low + off <= sum(shims) <= high - off and all(shims.count(one) <= each for one in shims)
        ]
        if fit:
            return count, min(fit)
    return None


def test_the_worked_end_play() -> None:
    """Shim 0.65 in, play 0.30, target 0.08: 0.87; for 0.03 to 0.10, 0.85 to 0.92 (computed)."""
    assert shim_for_play(0.65, 0.30, 0.08) == Fraction("0.87")
    assert window(window_for_play(0.65, 0.30, 0.03, 0.10)) == [0.85, 0.92]


def test_the_worked_preload() -> None:
    """Shim 0.65 in, play 0.30, interference 0.20: 1.15 (computed)."""
    assert shim_for_preload(0.65, 0.30, 0.20) == Fraction("1.15")


@given(HUNDREDTHS, HUNDREDTHS, HUNDREDTHS)
def test_the_shim_gives_the_play_that_was_wanted(fitted: Fraction, play: Fraction, target: Fraction) -> None:
    """Fitted, the shim leaves exactly the target; a preload is left as a play of less than nothing."""
    shim, loaded = shim_for_play(fitted, play, target), shim_for_preload(fitted, play, target)

    assert isinstance(shim, Refusal) or play_with(fitted, play, shim) == target
    assert not isinstance(loaded, Refusal)
    assert play_with(fitted, play, loaded) == -target


@given(HUNDREDTHS, HUNDREDTHS, HUNDREDTHS, HUNDREDTHS)
def test_the_ends_of_the_window_give_the_limits(
    fitted: Fraction, play: Fraction, one: Fraction, other: Fraction
) -> None:
    """The thinnest shim that may be leaves the most play; for a preload, the least."""
    least, most = sorted((one, other))
    loose, loaded = window_for_play(fitted, play, least, most), window_for_preload(fitted, play, least, most)

    if not isinstance(loose, Refusal):
        assert [play_with(fitted, play, shim) for shim in loose] == [most, least]
    assert not isinstance(loaded, Refusal)
    assert [play_with(fitted, play, shim) for shim in loaded] == [-least, -most]


def test_a_play_below_the_least_with_no_shim_stops_the_work() -> None:
    """Nothing is thinner than no shim: a bearing is not seated or a shim was left in."""
    refusals = [window_for_play(0, 0.02, 0.03, 0.10), shim_for_play(0, 0.02, 0.05)]

    assert [refusal.kind for refusal in refusals if isinstance(refusal, Refusal)] == ["impossible"] * 2
    assert "seated" in str(refusals[0])


@pytest.mark.parametrize(
    "refusal",
    [
        shim_for_play(0.65, -0.1, 0.05),
        shim_for_play(-0.65, 0.1, 0.05),
        window_for_play(0.65, 0.3, 0.10, 0.03),
        window_for_play(0.65, 0.3, -0.03, 0.10),
        shim_for_preload(0.65, 0.3, -0.1),
        window_for_preload(0.65, 0.3, 0.2, 0.1),
        window_for_preload(0.65, -0.3, 0.1, 0.2),
        mean_play([0.1, 0.1]),
        mean_play([0.10, 0.11, 0.1201]),
    ],
    ids=str,
)
def test_mixed_signs_and_shaky_readings_are_refused(refusal: object) -> None:
    """Play and preload keep their signs, limits their order; readings too far apart are taken anew."""
    assert isinstance(refusal, Refusal)
    assert refusal.cure


def test_readings_a_spread_apart_are_taken() -> None:
    """0.02 mm is still allowed (common practice)."""
    assert mean_play([0.10, 0.12, 0.11]) == (Fraction("0.11"), Fraction("0.02"))


@pytest.mark.parametrize(
    ("play", "word"),
    [
        (0.03, "measure again"),
        (0.04, "measure again"),
        (0.05, "within"),
        (0.08, "within"),
        (0.09, "measure again"),
        (0.12, "measure again"),
        (0.13, "outside"),
        (0.0, "outside"),
    ],
)
def test_a_play_near_its_limit_is_no_verdict(play: float, word: str) -> None:
    """With 0.02 mm of uncertainty, 0.03 to 0.10 is sure from 0.05 to 0.08 only."""
    assert judged(play, 0.02, 0.03, 0.10) == word


def test_sizes_that_were_added_up_are_the_sizes_meant() -> None:
    """0.1 + 0.2 is three tenths, as it would be on paper."""
    assert play_with(0.1 + 0.2, 0, 0.3) == 0


def test_uncertainties_add_up_in_squares() -> None:
    """Three hundredths and four hundredths make five."""
    assert together(0.03, 0.04) == pytest.approx(0.05)


def test_an_aluminium_case_gains_play() -> None:
    """150 mm of aluminium over steel, 60 K warmer: 0.1035 mm (computed)."""
    assert play_change(150, 20, 80) == Fraction("0.1035")
    assert play_change(150, 80, 20) == -Fraction("0.1035")


def by_solver(sizes: list[int], low: int, high: int, each: int) -> tuple[int, int] | None:
    """Fewest shims and twice the least distance from the middle, by a solver of constraints."""
    counts = [z3.Int(f"n{size}") for size in sizes]
    total = z3.Sum([size * count for size, count in zip(sizes, counts, strict=True)])
    off = z3.Int("off")
    solver = z3.Optimize()
    solver.add(total >= low, total <= high, off >= 2 * total - low - high, off >= low + high - 2 * total)
    solver.add(z3.Sum(counts) <= 4)
    for count in counts:
        solver.add(count >= 0, count <= each)
    few, near = solver.minimize(z3.Sum(counts)), solver.minimize(off)
    if solver.check() != z3.sat:
        return None
    return int(str(few.value())), int(str(near.value()))


@settings(max_examples=25)
@given(SIZES, st.integers(20, 200), st.integers(0, 20), st.sampled_from([1, 2, 4]))
def test_the_choice_agrees_with_a_solver_of_constraints(
    sizes: list[int], low: int, width: int, each: int
) -> None:
    """Hundredths as whole numbers: fewest shims, and of those the nearest to the middle."""
    drawer = [Fraction(size, 100) for size in sizes]
    found = choose(drawer, Fraction(low, 100), Fraction(low + width, 100), each=each)
    best = by_solver(sizes, low, low + width, each)

    if isinstance(found, Refusal):
        assert best is None
    else:
        assert (len(found.shims), int(abs(200 * found.total - 2 * low - width))) == best


@given(
    SIZES,
    st.integers(min_value=-20, max_value=300),
    st.integers(min_value=0, max_value=30),
    st.sampled_from([0, 1, 2]),
    st.sampled_from([0, 1, 3]),
    st.sampled_from([1, 2, 6]),
)
def test_the_choice_is_the_best_there_is(  # noqa: PLR0917  reason: everything that decides
    sizes: list[int], low: int, width: int, tolerance: int, doubt: int, each: int
) -> None:
    """Against every stack by brute force: fewest shims, and of those the nearest to the middle."""
    drawer = [Fraction(size, 100) for size in sizes]
    ends = Fraction(low, 100), Fraction(low + width, 100)
    offs = Fraction(tolerance, 200), Fraction(doubt, 200)
    found = choose(drawer, *ends, tolerance=offs[0], uncertainty=offs[1], each=each)
    best = by_hand(drawer, *ends, *offs, each)

    if isinstance(found, Refusal):
        assert best is None
    else:
        assert found.total == sum(found.shims)
        assert set(found.shims) <= set(drawer)
        assert all(found.shims.count(shim) <= each for shim in found.shims)
        assert (len(found.shims), abs(found.total - sum(ends) / 2)) == best


@given(
    st.integers(min_value=1, max_value=10),
    st.integers(min_value=50, max_value=150),
    st.integers(min_value=0, max_value=10),
)
def test_a_step_no_wider_than_the_window_always_has_a_shim(step: int, low: int, more: int) -> None:
    """Where the window is at least as wide as the step, one shim fits."""
    drawer = [Fraction(size, 100) for size in range(20, 200, step)]
    ends = Fraction(low, 100), Fraction(low + step + more, 100)

    assert sure_step(*ends) >= Fraction(step, 100)
    assert len(stack(choose(drawer, *ends)).shims) == 1


def test_a_window_as_wide_as_the_step_is_wide_enough() -> None:
    """0.05 in steps of 0.05 fits; a window of 0.03 between two sizes does not (computed)."""
    drawer = [Fraction(size, 100) for size in range(50, 150, 5)]

    assert len(stack(choose(drawer, 0.86, 0.91)).shims) == 1
    refusal = choose(drawer, 0.86, 0.89)
    assert isinstance(refusal, Refusal)
    assert "nearest" in refusal.message


def test_a_target_off_the_middle_is_kept() -> None:
    """Of two that fit, the one nearer to the target is taken."""
    drawer = [0.85, 0.87, 0.90]

    assert stack(choose(drawer, 0.85, 0.92, 0.85)).shims == (Fraction("0.85"),)
    assert stack(choose(drawer, 0.85, 0.92)).shims == (Fraction("0.9"),)


def test_a_full_drawer_is_searched_to_its_end() -> None:
    """Two hundred sizes, six to a stack, a window that none of them hits: all 10^11 stacks are ruled out."""
    drawer = [Fraction(size, 100) for size in range(10, 210)]
    refusal = choose(drawer, 5.001, 5.002, most=6)

    assert isinstance(refusal, Refusal)
    assert "0.001 mm outside" in refusal.message


def test_the_nearest_is_told_on_either_side() -> None:
    """0.9 is 0.02 above a window, 0.85 is 0.01 below it: the nearer is named."""
    refusal = choose([0.85, 0.9], 0.86, 0.88, most=1)

    assert isinstance(refusal, Refusal)
    assert "nearest is 0.85, 0.01 mm outside" in refusal.message


def test_every_shim_adds_its_tolerance() -> None:
    """Two shims of 0.01 mm each and a play known to 0.01 mm may be 0.03 mm off together."""
    found = stack(choose([0.5], 0.95, 1.05, tolerance=0.01, uncertainty=0.01))

    assert (found.shims, found.doubt) == ((Fraction("0.5"),) * 2, Fraction("0.03"))


def test_the_play_is_right_with_no_shim() -> None:
    """A window that reaches below nothing needs no shim."""
    assert stack(choose([0.5], -0.02, 0.04)).shims == ()


@pytest.mark.parametrize(
    "refusal",
    [
        choose([], 0.8, 0.9),
        choose([0, 0.5], 0.8, 0.9),
        choose([0.5], 0.9, 0.8),
        choose([0.5], 0.8, 0.9, each=0),
        choose([0.5], 0.8, 0.9, most=7),
        choose([0.5], 0.8, 0.9, uncertainty=0.06),
        choose([0.5], 0.8, 0.9, tolerance=-0.01),
        choose(range(1, 402), 0.8, 0.9),
        choose([0.5, 0.5000001], 0.8, 0.9),
    ],
    ids=str,
)
def test_what_nothing_can_be_chosen_from_is_refused(refusal: object) -> None:
    """An empty drawer, limits the wrong way round, a doubt wider than the window."""
    assert isinstance(refusal, Refusal)


def test_the_usual_move_for_a_backlash() -> None:
    """0.14 mm of backlash too much: 0.20 mm towards the pinion, by the usual ratio (common practice)."""
    assert ring_gear_move(0.30, 0.16) == Fraction("0.2")
    assert ring_gear_move(0.09, 0.16) == Fraction("-0.1")


@given(HUNDREDTHS, HUNDREDTHS, st.integers(min_value=-100, max_value=100).map(lambda n: Fraction(n, 100)))
def test_moving_a_shim_across_keeps_the_preload(ring: Fraction, far: Fraction, move: Fraction) -> None:
    """The sum of both side shims never changes."""
    found = swapped_shims(ring, far, move)

    if isinstance(found, Refusal):
        assert ring + move < 0 or far - move < 0
    else:
        assert sum(found) == ring + far


@given(
    st.floats(min_value=14, max_value=25),
    st.floats(min_value=50, max_value=89),
    st.floats(min_value=0, max_value=45),
)
def test_the_ring_gear_changes_backlash_more_than_the_pinion(
    pressure: float, pitch: float, spiral: float
) -> None:
    """The gear with the wide cone moves its teeth away faster."""
    ring, pinion = backlash_ratio(pressure, pitch, spiral), backlash_ratio(pressure, 90 - pitch, spiral)

    assert not isinstance(ring, Refusal)
    assert not isinstance(pinion, Refusal)
    assert ring > pinion


@pytest.mark.parametrize(
    ("pattern", "word"), [("toe", "more"), ("heel", "less"), ("high", "pinion in"), ("low", "pinion out")]
)
def test_the_contact_tells_the_move(pattern: str, word: str) -> None:
    """Toe: more backlash; heel: less; high: pinion in; low: pinion out (US Army TM 10-3930 series)."""
    assert word in contact(pattern)
    assert set(CONTACTS) == {"toe", "heel", "high", "low", "centred"}


def test_drag_is_taken_off_the_reading() -> None:
    """2.4 N·m less 0.3 of the seal and 0.5 of the pinion: 1.6."""
    assert bearing_torque(2.4, 0.3, 0.5) == Fraction("1.6")


@pytest.mark.parametrize(
    "refusal",
    [
        bearing_torque(0.2, 0.3),
        bearing_torque(1, -0.1),
        ring_gear_move(0, 0),
        ring_gear_move(-0.1, 0.16),
        ring_gear_move(0.3, 0.16, 0),
        swapped_shims(0.1, 0.5, 0.6),
        backlash_ratio(0, 75),
        backlash_ratio(20, 95),
    ],
    ids=str,
)
def test_what_no_gear_set_can_have_is_refused(refusal: object) -> None:
    """Each figure that cannot be is told with its cure."""
    assert isinstance(refusal, Refusal)
    assert refusal.cure
