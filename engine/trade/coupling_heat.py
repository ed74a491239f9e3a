"""How hot a slipping coupling becomes: after a time, at last, and how long it has to a limit.

One body of one temperature that warms by its drag and cools to the air: C dT/dt = P(T) - G (T - Ta), with
P(T) = P0 exp(B (1/T - 1/T0)), for the fluid thins as it warms. B = 0 keeps the power. Power in W, heat
capacity C in J/K, loss G in W/K, temperatures in °C, times in s. The plates run hotter than the case for the
first minute; past the hump nothing of this holds.
"""

from math import exp, inf, log
from typing import Final, NamedTuple

from engine.errors import Refusal
from engine.trade.calculator import Calculator, Input, Output
from engine.trade.coupling_fluid import ZERO, thinned
from engine.trade.plot import Plot

#: Steps as part of the time in which the error would die away; the fourth-order rule then errs by under 1e-6.
_STEP: Final = 0.1
_STILL: Final = 1e-10
_LONGEST: Final = 1e9


class Body(NamedTuple):
    """A coupling at the start: its power there, how it stores and loses heat, and how its fluid thins."""

    power: float
    start: float
    ambient: float
    capacity: float
    loss: float
    thinning: float = 0.0

    def power_at(self, temperature: float) -> float:
        """The drag's power in W once the fluid is that warm."""
        return thinned(self.power, temperature, self.start, self.thinning)

    def rate(self, temperature: float) -> float:
        """Kelvin a second at that temperature."""
        return (self.power_at(temperature) - self.loss * (temperature - self.ambient)) / self.capacity

    def hurry(self, temperature: float) -> float:
        """How fast differences die away there, 1/s."""
        bend = self.power_at(temperature) * self.thinning / (temperature + ZERO) ** 2
        return (bend + self.loss) / self.capacity


def heat_capacity(steel: float, fluid: float, steel_heat: float = 460, fluid_heat: float = 1550) -> float:
    """What it takes to warm the unit by one kelvin, J/K, from the masses in kg.

    Formula: C = m c + m c. Source: specific heats of steel and silicone fluid, engineering tables (from
    memory).

    >>> heat_capacity(6, 0.35)
    3302.5
    """
    return steel * steel_heat + fluid * fluid_heat


def warmed(body: Body, seconds: float) -> float:
    """The temperature in °C after so many seconds of even slip.

    Formula: as the file says; with B = 0, T = Ta + (T0 - Ta) e^(-t/τ) + P/G (1 - e^(-t/τ)), τ = C/G.
    Source: lumped body, heat-transfer textbooks.

    200 W for ten minutes into 3302.5 J/K that lose 12 W/K, from 25 °C; it would end at 41.67 °C.

    >>> unit = Body(200, 25, 25, 3302.5, 12)
    >>> round(warmed(unit, 600), 4), round(settled(unit), 4)
    (39.783, 41.6667)
    """
    if not body.thinning:
        return _even(body, seconds)
    temperature, left = body.start, seconds
    while left > 0 and abs(body.rate(temperature)) > _STILL * body.hurry(temperature):
        step = min(left, _STEP / body.hurry(temperature))
        temperature, left = _advance(body, temperature, step), left - step
    return temperature


def settled(body: Body) -> float:
    """The temperature in °C that the unit would come to at last; infinite where nothing cools it.

    Formula: P(T) = G (T - Ta), solved by halving.
    """
    if not body.loss:
        return inf if body.power else body.start
    low, high = min(body.ambient, body.start), max(body.ambient + body.power / body.loss, body.start)
    if body.rate(low) <= 0:
        return low
    for _ in range(200):
        middle = (low + high) / 2
        low, high = (middle, high) if body.rate(middle) > 0 else (low, middle)
    return (low + high) / 2


def seconds_to(body: Body, limit: float) -> float | Refusal:
    """Seconds until the unit has the temperature `limit`.

    Formula: t = -τ ln(1 - G (Tlim - T0) / (P - G (T0 - Ta))) with B = 0; stepped otherwise. Refuses a limit
    that is already passed, and one that the unit never comes to, saying where it settles.

    31.7 kW with no time to cool: 9.6 K a second, so 110 K take 11.5 s.

    >>> round(seconds_to(Body(31_700, 25, 25, 3302.5, 0), 135), 1)
    11.5
    """
    if limit <= body.start:
        message = f"The unit starts at {body.start:g} °C, and the limit is {limit:g} °C."
        return Refusal(
            "limit", message, "Give a limit above the temperature at the start, or let the unit cool."
        )
    last = settled(body)
    if last <= limit:
        message = f"At this slip the unit settles at {last:.0f} °C and never comes to {limit:g} °C."
        return Refusal("never", message, "Take the temperature after a time instead, or a larger slip.")
    if not body.thinning:
        return _even_time(body, limit)
    return _walk_to(body, limit)


def _walk_to(body: Body, limit: float) -> float:
    """Seconds to a limit that is reached, step by step, the last step halved until it fits."""
    temperature, seconds = body.start, 0.0
    while seconds < _LONGEST / body.hurry(limit):
        step = _STEP / body.hurry(temperature)
        after = _advance(body, temperature, step)
        if after >= limit:
            return seconds + _part(body, temperature, limit, step)
        temperature, seconds = after, seconds + step
    return seconds


def _part(body: Body, temperature: float, limit: float, step: float) -> float:
    """The part of a step after which the limit is met."""
    low, high = 0.0, step
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (low, middle) if _advance(body, temperature, middle) >= limit else (middle, high)
    return high


def _advance(body: Body, temperature: float, step: float) -> float:
    """One step of the classical fourth-order Runge-Kutta rule."""
    first = body.rate(temperature)
    second = body.rate(temperature + step / 2 * first)
    third = body.rate(temperature + step / 2 * second)
    fourth = body.rate(temperature + step * third)
    return temperature + step / 6 * (first + 2 * second + 2 * third + fourth)


def _even(body: Body, seconds: float) -> float:
    """The closed answer where the power stays."""
    if not body.loss:
        return body.start + body.power * seconds / body.capacity
    left = exp(-seconds * body.loss / body.capacity)
    return body.ambient + (body.start - body.ambient) * left + body.power / body.loss * (1 - left)


def _even_time(body: Body, limit: float) -> float:
    if not body.loss:
        return (limit - body.start) * body.capacity / body.power
    driven = body.power - body.loss * (body.start - body.ambient)
    return -body.capacity / body.loss * log(1 - body.loss * (limit - body.start) / driven)


HEATED: Final = (
    Input("capacity", "C", "Heat that warms the unit by 1 K", "J/K", least=10, most=1e6, default="3302.5"),
    Input(
        "loss",
        "G",
        "Heat lost to the air for each kelvin above it",
        "W/K",
        least=0,
        most=10_000,
        default="12",
    ),
    Input("ambient", "ta", "Air", "°C", least=-60, most=70, default="25"),
    Input("start", "t0", "Temperature of the unit at the start", "°C", least=-60, most=250, default="25"),
    Input("thinning", "B", "Thinning constant of the fluid in kelvin", "", least=0, most=6000, default="0"),
)
_POWER: Final = Input("power", "P", "Heat of the slip at the start", "W", least=0, most=1e7)
_VALID: Final = (
    "One temperature for the whole unit, below its hump. B = 0 keeps the heat and is the worst case; "
    "silicone fluid has about 1750."
)


def _after(
    power: float, time: float, capacity: float, loss: float, ambient: float, start: float, thinning: float
) -> tuple[float, float | None, float | None]:
    body = Body(power, start, ambient, capacity, loss, thinning)
    last = settled(body)
    return warmed(body, time), None if last == inf else last, capacity / loss if loss else None


def _until(
    power: float, limit: float, capacity: float, loss: float, ambient: float, start: float, thinning: float
) -> tuple[float, float] | Refusal:
    body = Body(power, start, ambient, capacity, loss, thinning)
    found = seconds_to(body, limit)
    return found if isinstance(found, Refusal) else (found, body.rate(start))


CALCULATORS: Final = (
    Calculator(
        name="coupling-temperature",
        family="coupling",
        title="How hot a slipping coupling is after a time",
        inputs=(_POWER, Input("time", "t", "Time of slip", "s", least=0, most=604_800), *HEATED),
        outputs=(
            Output("temperature", "T", "Temperature then", "°C"),
            Output("settled", "Tend", "It would settle at", "°C"),
            Output("time-constant", "tc", "Time constant", "s"),
        ),
        function=_after,
        formula=("C dθ/dt = P exp(B (1/θ - 1/θ0)) - G (θ - θa)  (θ the temperature in kelvin)", "tc = C / G"),
        source="lumped body, heat-transfer textbooks",
        mark="published",
        valid=_VALID,
        example="power=200 time='10 min'",
        plots=(Plot("time", 0, 3600, "temperature"),),
    ),
    Calculator(
        name="coupling-time",
        family="coupling",
        title="How long a slipping coupling has to a temperature",
        inputs=(_POWER, Input("limit", "tl", "Temperature limit", "°C", least=0, most=300), *HEATED),
        outputs=(
            Output("time", "t", "It is there after", "s"),
            Output("rate", "r", "It starts to warm by", "K/s"),
        ),
        function=_until,
        formula=(
            "C dθ/dt = P exp(B (1/θ - 1/θ0)) - G (θ - θa)  (θ the temperature in kelvin)",
            "r = (P - G (t0 - ta)) / C",
        ),
        source="lumped body, heat-transfer textbooks",
        mark="published",
        valid=_VALID,
        example="power='31.7 kW' limit=135 loss=0",
    ),
    Calculator(
        name="coupling-heat-capacity",
        family="coupling",
        title="Heat that warms a coupling by one kelvin",
        inputs=(
            Input("steel", "ms", "Steel in it", "kg", least=0.1, most=100),
            Input("fluid", "mf", "Fluid in it", "kg", least=0, most=20),
            Input("steel-heat", "cs", "Of steel", "J/(kg·K)", least=300, most=1000, default="460"),
            Input("fluid-heat", "cf", "Of the fluid", "J/(kg·K)", least=1000, most=4200, default="1550"),
        ),
        outputs=(Output("capacity", "C", "Heat that warms it by 1 K", "J/K"),),
        function=lambda steel, fluid, steel_heat, fluid_heat: (
            heat_capacity(steel, fluid, steel_heat, fluid_heat),
        ),
        formula=("C = ms cs + mf cf",),
        source="specific heats of steel and silicone fluid from memory",
        mark="memory",
        valid="Once steel and fluid have one temperature, after a minute or so.",
        example="steel=6 fluid=0.35",
    ),
)
