"""May this vehicle be moved so, how fast and how far: words, with the coupling's heat where it decides.

The maker's towing procedure and the law come first, always. An all-wheel driveline whose coupling cannot be
parted never gets a yes on two wheels, and what is not known counts as such a driveline.
"""

from typing import Final, NamedTuple

from engine.trade.calculator import Calculator, Input, Output
from engine.trade.towing_heat import HEAT, Towed, towed

YES: Final = "yes, with care"
MAKER: Final = "only as the maker's procedure says"
NO: Final = "no"

FLATBED: Final = "flatbed"
DOLLIES: Final = "dollies"
FRONT_UP: Final = "front-lifted"
REAR_UP: Final = "rear-lifted"
FOUR: Final = "four-wheels"
HAND: Final = "by-hand"
WAYS: Final = (FLATBED, DOLLIES, FRONT_UP, REAR_UP, FOUR, HAND)

ALL: Final = "all-wheel"
FRONT: Final = "front-wheel"
REAR: Final = "rear-wheel"
UNKNOWN: Final = "unknown"
CENTRES: Final = ("viscous", "geared", "electronic", "none", UNKNOWN)
PARTED: Final = ("cannot", "not-yet", "parted")
LOCKED: Final = ("none", "front", "rear")

_FIRST: Final = "The maker's towing procedure and the law of the road come first; follow them."
_LOAD: Final = "Load with a winch, in neutral, nobody before or behind it; then chock and strap all wheels."
_PLATE: Final = (
    "Read the rating plate of the dollies: load, speed, tyre pressure. Check straps and wheels after 10 km."
)
_ROLL: Final = "Steering unlocked, parking brake off, one person at the brake; brakes and steering are heavy."
_LIFTED: Final = "Parking brake off, the rolling wheels free, steering held straight where the front rolls."
_HOT: Final = "A coupling that was hot or smelt is not to be rolled at all: carry it."
_NEVER: Final = (
    "Never tow it on two wheels, not even a short way: the coupling burns before anybody smells it."
)

_OTHERS: Final = {
    "geared": "The centre differential's gears run far faster than they are made for, and any lock heats.",
    "electronic": "The clutch drags even without current, and its oil does not flow.",
    "none": "Then it is no all-wheel driveline with a centre part; look at the vehicle again.",
    UNKNOWN: "Nobody knows what is between the axles, so the worst is taken.",
}


class Answer(NamedTuple):
    """May it, how fast, how far, why, and what to take care of."""

    answer: str
    fast: str
    far: str
    why: str
    cautions: tuple[str, ...]


class Vehicle(NamedTuple):
    """What is known of the vehicle, by the words of the facts."""

    drive: str
    centre: str = "viscous"
    transmission: str = "manual"
    parted: str = "cannot"
    locked: str = "none"


def moved(way: str, vehicle: Vehicle, heat: Towed | None = None) -> Answer:
    """Whether a vehicle may be moved in this way.

    Rules: all four wheels carried is safe for any driveline; rolling driven wheels need the maker's words;
    two wheels of an all-wheel driveline, never unless it is parted and the maker says so. Source: common
    practice; the heat that stands behind it is `towed`. Words other than those of the file are the caller's
    mistake.

    >>> moved("rear-lifted", Vehicle("all-wheel")).answer, moved("flatbed", Vehicle("all-wheel")).answer
    ('no', 'yes, with care')
    """
    if way in (FLATBED, DOLLIES):
        return _carried(way)
    if _drags(way, vehicle.locked):
        why = f"A {vehicle.locked} wheel is locked and would be dragged."
        return _no(why, "Put dollies or skates under the locked wheels, or carry it on a flatbed.")
    if way == HAND:
        why = "All wheels turn alike, slowly, and the coupling hardly slips."
        return Answer(YES, "a walk", "across the shop floor", why, (_FIRST, _ROLL, _HOT))
    if way == FOUR:
        return _rolled(vehicle)
    return _on_two(way, vehicle, heat)


def _carried(way: str) -> Answer:
    """All four wheels off the road."""
    plate = "as fast as the rating plate of the dollies and the law allow"
    fast = plate if way == DOLLIES else "as fast as the law and the straps allow"
    cautions = (_FIRST, _PLATE, _LOAD) if way == DOLLIES else (_FIRST, _LOAD)
    return Answer(YES, fast, "any distance", "No wheel turns, so nothing in the driveline does.", cautions)


def _drags(way: str, locked: str) -> bool:
    """Whether a locked wheel would be on the road."""
    return locked != "none" and (locked, way) not in (("front", FRONT_UP), ("rear", REAR_UP))


def _rolled(vehicle: Vehicle) -> Answer:
    """On its own four wheels."""
    if vehicle.transmission != "manual":
        return _no("With the engine off no pump oils an automatic transmission while the wheels turn it.")
    return _as_maker_says(
        "The wheels turn the gearbox, which may get no oil; unlike tyres slip the coupling too."
    )


def _on_two(way: str, vehicle: Vehicle, heat: Towed | None) -> Answer:
    """One axle lifted, the other on the road."""
    if vehicle.drive in (ALL, UNKNOWN):
        return _all_wheel(vehicle, heat)
    if (vehicle.drive, way) in ((FRONT, FRONT_UP), (REAR, REAR_UP)):
        why = "The driven wheels are lifted, and those on the road turn nothing but their bearings."
        far = "to where it can be loaded or mended"
        return Answer(YES, "50 km/h at most, less where law or maker say so", far, why, (_FIRST, _LIFTED))
    if vehicle.transmission != "manual":
        return _no("The driven wheels roll and turn an automatic transmission that no pump oils.")
    return _as_maker_says("The driven wheels roll and turn the gearbox, which may get no oil.")


def _all_wheel(vehicle: Vehicle, heat: Towed | None) -> Answer:
    """Two wheels of an all-wheel driveline: never a yes."""
    if vehicle.drive == ALL and vehicle.parted == "parted":
        why = "Parted, the axles no longer turn each other, but only the maker knows what else then runs dry."
        return _as_maker_says(why, "Mark and tie up the parted shaft, and seal what leaks.")
    reason = _OTHERS.get(vehicle.centre) or _heated(heat)
    later = " Once it is parted as the maker says, ask again." if vehicle.parted == "not-yet" else ""
    return _no(f"One axle rolls while the other stands, and all of it is slip. {reason}{later}", _NEVER)


def _heated(heat: Towed | None) -> str:
    """The coupling's heat in a sentence."""
    if heat is None:
        return "The coupling overheats within a short distance."
    return (
        f"At this speed the coupling slips at {heat.slip:.0f} rpm and takes {heat.heat:.1f} kW: "
        f"at its limit after {heat.time:.0f} s and {heat.distance:.0f} m."
    )


def _no(why: str, *cautions: str) -> Answer:
    return Answer(
        NO,
        "not at all",
        "not at all",
        why,
        (_FIRST, *cautions, "Carry it with all four wheels off the road."),
    )


def _as_maker_says(why: str, *cautions: str) -> Answer:
    fast = "as the maker says; a walk where a place of danger must be left at once"
    far = "as the maker says; without his words only out of danger"
    return Answer(MAKER, fast, far, why, (_FIRST, *cautions, _ROLL, _HOT))


def _asked(
    way: str,
    drive: str,
    centre: str,
    transmission: str,
    parted: str,
    locked: str,
    speed: float,
    circumference: float,
    ratio: float,
    torque: float,
    capacity: float,
    start: float,
    limit: float,
) -> Answer:
    heat = towed(speed, circumference, ratio, torque, capacity, start, limit)
    vehicle = Vehicle(drive, centre, transmission, parted, locked)
    return moved(way, vehicle, heat if isinstance(heat, Towed) else None)


CALCULATORS: Final = (
    Calculator(
        name="moving",
        family="moving",
        title="May this vehicle be moved so, how fast and how far",
        inputs=(
            Input("way", "way", "How it is to be moved", "word", choices=WAYS),
            Input(
                "drive",
                "drive",
                "Driven wheels",
                "word",
                choices=(ALL, FRONT, REAR, UNKNOWN),
                default=UNKNOWN,
            ),
            Input("centre", "centre", "Between the axles", "word", choices=CENTRES, default="viscous"),
            Input(
                "transmission",
                "transmission",
                "Transmission",
                "word",
                choices=("manual", "automatic", UNKNOWN),
                default=UNKNOWN,
            ),
            Input(
                "parted",
                "parted",
                "Front and rear driveline parted",
                "word",
                choices=PARTED,
                default="cannot",
            ),
            Input("locked", "locked", "Wheels that do not turn", "word", choices=LOCKED, default="none"),
            Input("speed", "v", "Speed that is meant", "km/h", least=1, most=150, default="50"),
            *HEAT,
        ),
        outputs=(
            Output("answer", "answer", "May it", "text"),
            Output("fast", "fast", "How fast", "text"),
            Output("far", "far", "How far", "text"),
            Output("why", "why", "Because", "text"),
            Output("cautions", "cautions", "Cautions", "text"),
        ),
        function=_asked,
        formula=("time to the limit = c (tl - t0) / (T w)", "w = v i / C"),
        source=(
            "common practice, no source; the heat by kinematics, with an invented unit unless you put "
            "in yours"
        ),
        mark="common-practice",
        valid="Never in place of the maker's towing procedure. What is not known counts as the worst.",
        example="way=rear-lifted drive=all-wheel",
    ),
)
