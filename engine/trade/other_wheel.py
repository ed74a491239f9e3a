"""Which way the other wheel of an axle turns when one is turned by hand or by the engine, and why.

The trade tells an open differential from a limited-slip one by it. Words, because the reason is the point: in
neutral the answer of an open differential proves nothing by itself.
"""

from typing import Final, NamedTuple

from engine.trade.calculator import Calculator, Input, Output


class Turning(NamedTuple):
    """What the other wheel does, why, and what seeing it proves."""

    way: str
    why: str
    proof: str


OPEN: Final = "open"
PLATES: Final = "limited-slip"
VISCOUS: Final = "viscous"
KINDS: Final = (OPEN, PLATES, VISCOUS)

BOTH_HELD: Final = "both-up-input-held"
BOTH_NEUTRAL: Final = "both-up-neutral"
ONE_UP: Final = "one-up-neutral"
ENGINE: Final = "one-held-engine-driving"
SITUATIONS: Final = (BOTH_HELD, BOTH_NEUTRAL, ONE_UP, ENGINE)

_SUM: Final = "The two wheels together turn twice as often as the carrier."
_KINEMATIC: Final = f"{_SUM} One wheel stands, so the free one turns twice as often as the carrier."

_TOLD: Final = {
    (BOTH_HELD, OPEN): Turning(
        "opposite, as fast",
        f"{_SUM} The held propeller shaft holds the carrier, so what one wheel does the other undoes.",
        "Opposite means that the differential is open, or that a limited-slip one no longer grips.",
    ),
    (BOTH_HELD, PLATES): Turning(
        "it resists, and tries to turn the same way",
        f"{_SUM} The plates hold both wheels to the held carrier: nothing turns until they slip at "
        "breakaway, "
        "and then the other wheel goes opposite.",
        "Hard to turn means that the plates grip; measure the breakaway. Easy and opposite means that they "
        "do not.",
    ),
    (BOTH_HELD, VISCOUS): Turning(
        "opposite, slowly, against a steady drag",
        f"{_SUM} The fluid resists in proportion to speed: it yields to a slow steady pull and fights a "
        "fast one.",
        "A drag that grows with speed is that of a sound viscous unit; none means that its fluid is lost, "
        "a jam "
        "that it has gelled.",
    ),
    (BOTH_NEUTRAL, OPEN): Turning(
        "either way: drag decides",
        "The carrier is free. If the propeller shaft drags more than the other wheel, that wheel goes "
        "opposite; "
        "if the wheel drags more, it stays and the shaft turns.",
        "It proves nothing by itself. Hold the propeller shaft or put it in gear, engine off, and turn "
        "again.",
    ),
    (BOTH_NEUTRAL, PLATES): Turning(
        "the same way",
        "The plates hold both wheels to the carrier, and the carrier is free, so all of it turns together.",
        "The same way means limited-slip that grips; opposite means open, or worn plates.",
    ),
    (BOTH_NEUTRAL, VISCOUS): Turning(
        "the same way, lagging",
        "The carrier is free and the fluid drags the other wheel along; a slow pull lets it fall behind.",
        "The same way means that there is a lock of some kind; the lag tells fluid from plates.",
    ),
    (ONE_UP, OPEN): Turning(
        "it stands on the ground; the propeller shaft turns",
        f"{_SUM} The grounded wheel stands, so the carrier turns half as often as the free one, and the "
        "shaft half "
        "the ratio.",
        "A wheel can be turned while its mate is held. A shaft that stands still meanwhile means a broken "
        "part.",
    ),
    (ONE_UP, PLATES): Turning(
        "it stands on the ground; the free wheel gives only at breakaway",
        "The plates hold the free wheel to the carrier and to its grounded mate until they slip; then the "
        "shaft "
        "turns half the ratio a turn.",
        "This is where breakaway is measured: torque wrench at the free wheel, in neutral, brakes off.",
    ),
    (ONE_UP, VISCOUS): Turning(
        "it stands on the ground; the free wheel yields slowly",
        "The fluid slips in proportion to the torque, and the shaft turns half the ratio a turn.",
        "A weighted lever and a stop-watch measure it: the slower it falls, the stiffer the unit.",
    ),
    (ENGINE, OPEN): Turning(
        "forward, twice as fast as the carrier",
        _KINEMATIC,
        "50 km/h shown is 100 km/h at that tyre. Nothing is proved; keep out of its plane.",
    ),
    (ENGINE, PLATES): Turning(
        "forward, twice as fast as the carrier, once the plates slip",
        f"{_KINEMATIC} Until then both wheels pull, and the vehicle may drive off its stands.",
        "Never drive a limited-slip axle with one wheel on the ground. Raise both.",
    ),
    (ENGINE, VISCOUS): Turning(
        "forward, twice as fast as the carrier, and the unit heats",
        f"{_KINEMATIC} The held wheel is driven too, by the drag of the fluid, and the vehicle may move.",
        "Never drive a viscous axle with one wheel on the ground. Raise both.",
    ),
}


def turning(differential: str, situation: str) -> Turning:
    """What the other wheel does, why, and what it proves.

    Formula: nL + nR = 2 nc, and who holds the carrier. Source: kinematics; that the same way means limited
    slip and opposite means open is a rule of the trade. KeyError for words that are not among `KINDS` and
    `SITUATIONS`.

    >>> turning("open", "both-up-input-held").way
    'opposite, as fast'
    """
    return _TOLD[situation, differential]


CALCULATORS: Final = (
    Calculator(
        name="other-wheel",
        family="differential",
        title="Which way the other wheel turns, and why",
        inputs=(
            Input("differential", "differential", "Differential of the axle", "word", choices=KINDS),
            Input("situation", "situation", "What is up and what is held", "word", choices=SITUATIONS),
        ),
        outputs=(
            Output("way", "way", "The other wheel turns", "text"),
            Output("why", "why", "Because", "text"),
            Output("proof", "proof", "What it proves", "text"),
        ),
        function=turning,
        formula=("one wheel + other wheel = 2 carrier",),
        source=(
            "kinematics of the bevel differential; same way or opposite as a sign: common practice, no source"
        ),
        mark="common-practice",
        valid=(
            "Sound shafts and joints, brakes off, turned slowly by hand unless the engine is said to drive."
        ),
        example="differential=open situation=both-up-input-held",
    ),
)
