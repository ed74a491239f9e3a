"""A shaft that runs out or whips: eccentricity and its force, the shape behind the readings, critical speed.

Lengths in mm, mass in kg, speed in rpm. A dial reads twice the eccentricity in a turn. A bent shaft gives one
high spot a turn, an oval one two: fitting both tells them apart.
"""

from collections.abc import Sequence
from math import atan2, cos, degrees, hypot, pi, sin, sqrt
from typing import Final, NamedTuple

from engine.errors import Refusal
from engine.trade.calculator import Calculator, Input, Output
from engine.trade.plot import Plot


class Whirl(NamedTuple):
    """Eccentricity in mm, unbalance in g·mm, force in N."""

    eccentricity: float
    unbalance: float
    force: float


class Shape(NamedTuple):
    """Total reading, eccentricity, ovality from round, in mm; high spot in ° from the first."""

    total: float
    eccentricity: float
    oval: float
    high_spot: float


def whirl(run_out: float, mass: float, speed: float) -> Whirl:
    """What a run-out does to a mass that turns with it.

    Formula: e = R / 2, U = m e, F = m e w². Source: dynamics textbook; the mass is that part which is off
    centre.

    0.4 mm of total reading on 6 kg at 3000 rpm:

    >>> [round(value, 1) for value in whirl(0.4, 6, 3000)]
    [0.2, 1200.0, 118.4]
    """
    eccentricity, omega = run_out / 2, speed * pi / 30
    return Whirl(eccentricity, 1000 * mass * eccentricity, mass * eccentricity / 1000 * omega**2)


def shape(readings: Sequence[float]) -> Shape | Refusal:
    """Bend and ovality from dial readings at equal steps round the shaft.

    Formula: first and second harmonic of the readings. Source: Fourier analysis. The first
    place is not read again at the end. Refuses fewer than six
    readings, with which an oval cannot be told from a bend.

    High at the second of eight places by 0.2 mm each way: all of it a bend.

    >>> [abs(round(value, 3)) for value in shape([0.141, 0.2, 0.141, 0, -0.141, -0.2, -0.141, 0])]
    [0.4, 0.2, 0.0, 45.0]
    """
    count = len(readings)
    if count < 6:
        message = f"With {count} readings an oval cannot be told from a bend."
        return Refusal("few", message, "Read the dial at six or eight equal steps round the shaft.")
    once, twice = _harmonic(readings, 1), _harmonic(readings, 2)
    spot = degrees(atan2(once[1], once[0])) % 360
    return Shape(max(readings) - min(readings), _tidy(hypot(*once)), _tidy(hypot(*twice)), _tidy(spot))


def critical_speed(
    outer: float, wall: float, length: float, modulus: float = 206.0, density: float = 7850.0
) -> float | Refusal:
    """The speed in rpm at which an even tube between two joints whips; GPa and kg/m³.

    Formula: n = (60 / 2π) (π / L)² √(E/ρ (D² + d²) / 16). Source: simply supported beam, vibration textbooks.
    For steel 1.207e8 √(D² + d²) / L². Joints, weights and a slip yoke lower it: run below 0.7 to 0.75 of it
    (common practice). Refuses a wall that is thicker than half the tube; a wall of half of it is a solid
    shaft.

    >>> round(critical_speed(63.5, 1.65, 1500))
    4694
    """
    inner = outer - 2 * wall
    if inner < 0:
        message = f"A tube of {outer:g} mm has no wall of {wall:g} mm."
        return Refusal("wall", message, f"For a solid shaft give {outer / 2:g} mm.")
    stiffness = modulus * 1e9 / density * (outer**2 + inner**2) / 16e6
    return 30 / pi * (pi * 1000 / length) ** 2 * sqrt(stiffness)


def _tidy(value: float) -> float:
    """Without the last digits, which are not the dial's."""
    return round(value, 9)


def _harmonic(readings: Sequence[float], order: int) -> tuple[float, float]:
    step = 2 * pi * order / len(readings)
    along = sum(value * cos(step * k) for k, value in enumerate(readings))
    across = sum(value * sin(step * k) for k, value in enumerate(readings))
    return 2 * along / len(readings), 2 * across / len(readings)


def _critical(
    outer: float, wall: float, length: float, modulus: float, density: float, speed: float | None
) -> tuple[float | None, ...] | Refusal:
    found = critical_speed(outer, wall, length, modulus, density)
    if isinstance(found, Refusal):
        return found
    return found, 0.7 * found, None if speed is None else 100 * speed / found


CALCULATORS: Final = (
    Calculator(
        name="run-out-force",
        family="shafts",
        title="Unbalance and force of a run-out",
        inputs=(
            Input("run-out", "R", "Total reading of the dial", "mm", least=0, most=20),
            Input("mass", "m", "Mass that runs out", "kg", least=0.01, most=200),
            Input("speed", "n", "Shaft speed", "rpm", least=0, most=20_000),
        ),
        outputs=(
            Output("eccentricity", "e", "Off centre by", "mm"),
            Output("unbalance", "U", "Unbalance", "g·mm"),
            Output("force", "F", "Turning force", "N"),
        ),
        function=whirl,
        formula=("e = R / 2", "U = m e", "F = m e (2 π n / 60)²"),
        source="dynamics textbook",
        mark="published",
        valid="Well below the critical speed, where the shaft bends further. Felt once a turn.",
        example="run-out=0.4 mass=6 speed=3000",
    ),
    Calculator(
        name="run-out-shape",
        family="shafts",
        title="Bent or oval: the shape behind the dial readings",
        inputs=(Input("readings", "x", "Readings at equal steps round", "mm", least=-20, most=20, many=6),),
        outputs=(
            Output("total", "R", "Total reading", "mm"),
            Output("eccentricity", "e", "Off centre by", "mm"),
            Output("oval", "o", "Oval by", "mm"),
            Output("high-spot", "hs", "High spot, from the first reading", "°"),
        ),
        function=shape,
        formula=(
            "R = max(x) - min(x)",
            "Off centre  (first harmonic: 2 / N |sum of x exp(j 2 π k / N)|)",
            "Oval  (second harmonic: 2 / N |sum of x exp(j 4 π k / N)|)",
        ),
        source="Fourier analysis of a turn",
        mark="published",
        valid="The first place is not read again at the end. Rust and dents show as what neither explains.",
        example="readings='0.14, 0.20, 0.14, 0, -0.14, -0.20, -0.14, 0'",
    ),
    Calculator(
        name="shaft-critical-speed",
        family="shafts",
        title="Speed at which a shaft whips",
        inputs=(
            Input("outer", "D", "Outer diameter", "mm", least=5, most=500),
            Input("wall", "s", "Wall; half the diameter where it is solid", "mm", least=0.2, most=250),
            Input("length", "L", "Joint centre to joint centre", "mm", least=50, most=6000),
            Input("modulus", "E", "Stiffness of the material", "GPa", least=1, most=700, default="206"),
            Input("density", "d", "Density", "kg/m³", least=500, most=20_000, default="7850"),
            Input("speed", "nr", "Highest speed it runs at", "rpm", least=0, most=30_000, optional=True),
        ),
        outputs=(
            Output("critical", "n", "Critical speed", "rpm"),
            Output("safe", "ns", "Run below", "rpm"),
            Output("share", "p", "It runs at", "%"),
        ),
        function=_critical,
        formula=(
            "n = 60 / (2 π) (π / L)² √(E / d (D² + (D - 2 s)²) / 16)",
            "ns = 0.7 n",
            "p = nr / n",
        ),
        source="simply supported beam, vibration textbooks; 0.7 of it is common practice",
        mark="published",
        valid="Even tube on two joints. Mass in the middle, soft mounts and a long slip yoke lower it.",
        example="outer=63.5 wall=1.65 length=1500",
        plots=(Plot("length", 1000, 2500, "critical"),),
    ),
)
