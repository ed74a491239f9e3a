"""Which turning part a vibration or a whine belongs to: frequencies at a road speed and engine speed, ranked.

Every turning part shakes at its own speed and at whole multiples of it, its orders. A frequency that was
read on the road names the part, where only one part has it.
"""

from collections.abc import Sequence
from math import log
from typing import Final, NamedTuple

from engine.errors import Refusal
from engine.trade.answers import single
from engine.trade.calculator import Calculator, Input, Output
from engine.trade.inputs import Values
from engine.trade.plot import Plot


class Vehicle(NamedTuple):
    """What is known of the driveline; None where it is not."""

    #: Rolled in one turn of a wheel, mm.
    circumference: float
    #: Propeller shaft turns a turn of the wheel.
    ratio: float
    #: Teeth of the pinion at the end of the propeller shaft.
    pinion: float | None = None
    cylinders: float | None = None


class Order(NamedTuple):
    """One thing that shakes: what, and how often in a second."""

    what: str
    hertz: float


class Fit(NamedTuple):
    """An order that may be the one; `off` in per cent of it, positive where what was read is higher."""

    order: Order
    off: float


def wheel_hertz(speed: float, circumference: float) -> float:
    """Turns a second of a wheel, from km/h and mm. Formula: f = v / C. Source: kinematics.

    36 km/h are 10 m/s: five turns of two metres.

    >>> wheel_hertz(36, 2000)
    5.0
    """
    return speed / 3.6 * 1000 / circumference


def engine_hertz(rpm: float) -> float:
    """Turns a second of an engine. Formula: f = n / 60.

    >>> engine_hertz(2400)
    40.0
    """
    return rpm / 60


def firing_order(cylinders: float) -> float:
    """Firings in one turn of a four-stroke engine. Formula: cylinders / 2. Source: textbook.

    >>> firing_order(4), firing_order(6)
    (2.0, 3.0)
    """
    return cylinders / 2


def order_of(hertz: float, rpm: float) -> float | Refusal:
    """How many times in one turn something shakes. Formula: order = f / (n / 60).

    A whine of 216.66 Hz at 1000 rpm: thirteen teeth.

    >>> round(order_of(216.66, 1000), 2)
    13.0
    """
    if rpm <= 0:
        return Refusal("at-rest", "What does not turn has no orders.", "Give the speed of the part.")
    return hertz / engine_hertz(rpm)


def road_orders(speed: float, vehicle: Vehicle) -> tuple[Order, ...]:
    """What shakes with the road speed, in km/h, whatever the gear.

    Formula: wheel f = v / C; propeller shaft i f; its joints twice that; gear mesh teeth times i f. Source:
    vibration-order arithmetic (textbook).

    >>> found = road_orders(100, Vehicle(1927.6, 3.5, 11))
    >>> [f"{order.hertz:.1f}" for order in found]
    ['14.4', '28.8', '43.2', '50.4', '100.9', '554.8', '1109.6']
    """
    wheel = wheel_hertz(speed, vehicle.circumference)
    shaft = wheel * vehicle.ratio
    found = [
        Order("wheel or tyre, out of balance or round", wheel),
        Order("tyre out of round or wheel bent, twice a turn", 2 * wheel),
        Order("tyre or drive shaft joint, three times a turn", 3 * wheel),
        Order("propeller shaft, out of balance or bent", shaft),
        Order("propeller shaft joints, at an angle or out of phase", 2 * shaft),
    ]
    if vehicle.pinion:
        mesh = shaft * vehicle.pinion
        found += [Order("axle gears, tooth by tooth", mesh), Order("axle gears, twice a tooth", 2 * mesh)]
    return tuple(found)


def engine_orders(rpm: float, cylinders: float | None) -> tuple[Order, ...]:
    """What shakes with the engine speed, whatever the road speed.

    >>> [order.hertz for order in engine_orders(2400, 4)]
    [20.0, 40.0, 80.0, 160.0]
    """
    turn = engine_hertz(rpm)
    found = [
        Order("engine, one cylinder that does not fire", turn / 2),
        Order("engine or what turns with it, out of balance", turn),
    ]
    if cylinders:
        fire = turn * firing_order(cylinders)
        found += [Order("engine, firing", fire), Order("engine, twice its firing", 2 * fire)]
    return tuple({round(order.hertz, 9): order for order in found}.values())


def fits(hertz: float, orders: Sequence[Order], tolerance: float) -> tuple[Fit, ...]:
    """The orders within a tolerance in per cent of what was read, the nearest first.

    The distance is counted as a ratio, so that a tenth too high is as far as the same ratio too low.

    >>> [fit.order.what for fit in fits(50, road_orders(100, Vehicle(1927.6, 3.5)), 5)]
    ['propeller shaft, out of balance or bent']
    """
    near = [Fit(order, 100 * (hertz / order.hertz - 1)) for order in orders if order.hertz > 0]
    most = log(1 + tolerance / 100)
    within = [fit for fit in near if abs(log(hertz / fit.order.hertz)) <= most + 1e-12]
    return tuple(sorted(within, key=lambda fit: (abs(log(hertz / fit.order.hertz)), fit.order.hertz)))


def _orders(
    speed: float,
    circumference: float,
    ratio: float,
    pinion: float | None,
    engine: float | None,
    cylinders: float | None,
) -> tuple[Order, ...]:
    road = road_orders(speed, Vehicle(circumference, ratio, pinion)) if speed else ()
    return (*road, *(engine_orders(engine, cylinders) if engine else ()))


def _table(**known: float) -> Values | Refusal:
    found = sorted(_orders(**known), key=lambda order: order.hertz)
    if not found:
        return _STILL
    return tuple(order.what for order in found), tuple(order.hertz for order in found)


def _fit(frequency: float, tolerance: float, **known: float) -> Values | Refusal:
    orders = _orders(**known)
    if not orders:
        return _STILL
    found = fits(frequency, orders, tolerance)
    if not found:
        near = min(orders, key=lambda order: abs(log(frequency / order.hertz)))
        message = f"Nothing that is known of turns at {frequency:g} Hz, within {tolerance:g} %."
        cure = f"The nearest is {near.what}, {near.hertz:.4g} Hz. Read frequency and speed again."
        return Refusal("no-order", message, cure)
    return (
        found[0].order.what,
        tuple(fit.order.what for fit in found),
        tuple(fit.order.hertz for fit in found),
        tuple(fit.off for fit in found),
    )


_STILL: Final = Refusal("at-rest", "Neither wheels nor engine turn.", "Give a road speed or an engine speed.")
SPEED: Final = Input("speed", "v", "Road speed", "km/h", least=0, most=400)
ROLLED: Final = Input("circumference", "C", "Rolled in one turn of a wheel", "mm", least=500, most=4000)
_KNOWN: Final = (
    SPEED,
    ROLLED,
    Input("ratio", "i", "Propeller shaft turns a turn of the wheel", "", least=0.2, most=10, default="3.5"),
    Input("pinion", "z", "Teeth of the axle's pinion", "", least=5, most=60, optional=True),
    Input("engine", "n", "Engine speed", "rpm", least=0, most=12_000, optional=True),
    Input("cylinders", "k", "Cylinders of the four-stroke engine", "", least=1, most=16, optional=True),
)
_FORMULA: Final = (
    "wheel = v / C",
    "propeller shaft = i v / C",
    "its joints = 2 i v / C",
    "axle gears = z i v / C",
    "engine = n / 60",
    "firing = (k / 2) n / 60",
)
TEXTBOOK: Final = "vibration-order arithmetic (textbook)"
_VALID: Final = (
    "For a steady speed, straight ahead, without spin, on the tyres that were rolled. It names what turns so"
    " fast, not what is wrong with it."
)
CALCULATORS: Final = (
    Calculator(
        name="orders",
        family="orders",
        title="How often each turning part shakes at a speed",
        inputs=_KNOWN,
        outputs=(
            Output("parts", "parts", "Parts, slow to fast", "text"),
            Output("frequencies", "f", "Their frequencies", "Hz"),
        ),
        function=_table,
        formula=_FORMULA,
        source=TEXTBOOK,
        mark="published",
        valid=_VALID,
        example="speed=100 circumference=1927.6 ratio=3.5 pinion=11",
        plots=(Plot("speed", 0, 160, "frequencies", by="parts"),),
    ),
    Calculator(
        name="order-fit",
        family="orders",
        title="Which turning part a vibration or a whine fits",
        inputs=(
            Input("frequency", "F", "Frequency that was read", "Hz", least=0.1, most=20_000),
            *_KNOWN,
            Input("tolerance", "tol", "How far off it may be", "%", least=0.1, most=30, default="5"),
        ),
        outputs=(
            Output("best", "best", "The nearest part", "text"),
            Output("parts", "parts", "All that fit, the nearest first", "text"),
            Output("frequencies", "f", "Their frequencies", "Hz"),
            Output("off", "off", "What was read is higher than them by", "%"),
        ),
        function=_fit,
        formula=_FORMULA,
        source=TEXTBOOK,
        mark="published",
        valid=f"{_VALID} The tolerance has to cover how well speed, rolled distance and frequency were read.",
        example="frequency=50 speed=100 circumference=1927.6 ratio=3.5 pinion=11",
    ),
    Calculator(
        name="gear-order",
        family="orders",
        title="How often in one turn something shakes: teeth, from a whine",
        inputs=(
            Input("frequency", "F", "Frequency that was read", "Hz", least=0.1, most=20_000),
            Input("speed", "n", "Speed of the part", "rpm", least=1, most=30_000),
        ),
        outputs=(Output("order", "o", "Times in one turn", ""),),
        function=lambda frequency, speed: single(order_of(frequency, speed)),
        formula=("o = 60 F / n  (n in rpm)",),
        source=TEXTBOOK,
        mark="published",
        valid="For the shaft whose speed it is. A whole number is a count of teeth, of balls or of blades.",
        example="frequency=216.66 speed=1000",
    ),
)
