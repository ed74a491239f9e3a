"""How often something shakes in one turn of what turns: the number that names the part.

A road speed and a frequency read at it make the order of the wheel and of the propeller shaft; an engine
speed makes that of the engine. A number near 1 is once a turn, near 2 twice a turn.
"""

from typing import Final

from engine.errors import Refusal
from engine.trade.calculator import Calculator, Input, Output
from engine.trade.inputs import Values
from engine.trade.orders import ROLLED, SPEED, TEXTBOOK, order_of, wheel_hertz


def road_order(frequency: float, speed: float, circumference: float, ratio: float) -> Values | Refusal:
    """Times in one turn of the wheel and of the propeller shaft; km/h, mm, shaft turns a turn of the wheel.

    Formula: wheel f C / v, shaft f C / (v i). Source: kinematics. Refuses a vehicle at rest.

    36 km/h on wheels of two metres are five turns a second, 17.5 of the shaft: 35 Hz are two of those.

    >>> road_order(35, 36, 2000, 3.5)
    (7.0, 2.0)
    """
    if speed <= 0:
        return Refusal("at-rest", "What does not turn has no orders.", "Give the road speed.")
    wheel = frequency / wheel_hertz(speed, circumference)
    return wheel, wheel / ratio


def engine_order(frequency: float, engine: float) -> Values | Refusal:
    """Times in one turn of the engine.

    At 2400 rpm the engine turns 40 times a second; a four-cylinder one fires at 80 Hz.

    >>> engine_order(80, 2400)
    (2.0,)
    """
    found = order_of(frequency, engine)
    return found if isinstance(found, Refusal) else (found,)


_READ: Final = Input("frequency", "F", "Frequency that was read", "Hz", least=0.1, most=20_000)
CALCULATORS: Final = (
    Calculator(
        name="road-order",
        family="orders",
        title="Times in one turn of wheel and shaft, at a road speed",
        inputs=(
            _READ,
            SPEED._replace(least=1),
            ROLLED,
            Input(
                "ratio",
                "i",
                "Propeller shaft turns a turn of the wheel",
                "per turn",
                least=0.2,
                most=10,
                default="3.5",
            ),
        ),
        outputs=(
            Output("wheel", "ow", "In one turn of the wheel", "per turn"),
            Output("shaft", "os", "In one turn of the propeller shaft", "per turn"),
        ),
        function=road_order,
        formula=("ow = F C / v", "os = F C / (v i)"),
        source=TEXTBOOK,
        mark="published",
        valid="For a steady speed, straight ahead, without spin, on the tyres that were rolled.",
        example="frequency=50 speed=100 circumference=1927.6",
    ),
    Calculator(
        name="engine-order",
        family="orders",
        title="Times in one turn of the engine",
        inputs=(_READ, Input("engine", "n", "Engine speed", "rpm", least=100, most=12_000)),
        outputs=(Output("order", "o", "In one turn of the engine", "per turn"),),
        function=engine_order,
        formula=("o = 60 F / n  (n in rpm)",),
        source=TEXTBOOK,
        mark="published",
        valid="A four-stroke engine fires once a turn for every two cylinders; half an order is one of them.",
        example="frequency=80 engine=2400",
    ),
)
