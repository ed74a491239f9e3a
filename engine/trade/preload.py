"""What a torque does to a bolt: the preload that it makes, and the torque for a preload.

Nine tenths of a torque go into friction, so every torque stands or falls by the friction that it was made
for. Torque in N·m, preload in kN, lengths in mm.
"""

from math import pi, sqrt
from typing import Final

from engine.errors import Refusal
from engine.trade.calculator import Calculator, Input, Output
from engine.trade.inputs import Values
from engine.trade.threads import GRADE, SIZE, Thread, steel, thread

#: Bearing diameter of a hexagon head (dw) and its hole (dh), mm. Source: ISO 4014, ISO 273; M8 to M14 as
#: published with VDI 2230, the others from memory.
HEADS: Final = {
    6.0: (8.88, 6.6),
    8.0: (11.63, 9.0),
    10.0: (14.63, 11.0),
    12.0: (16.63, 13.5),
    14.0: (19.37, 15.5),
    16.0: (22.49, 17.5),
    18.0: (25.34, 20.0),
    20.0: (28.19, 22.0),
    22.0: (31.71, 24.0),
    24.0: (33.61, 26.0),
}


def head(diameter: float) -> tuple[float, float] | Refusal:
    """Bearing diameter of a hexagon head and diameter of its hole, for sizes M6 to M24.

    >>> head(10)
    (14.63, 11.0)
    """
    if diameter not in HEADS:
        message = f"The head of an M{diameter:g} bolt is not in the table."
        return Refusal(
            "head", message, "Measure the bearing diameter of the head and the hole, and give both."
        )
    return HEADS[diameter]


def assembly_preload(
    bolt: Thread, name: str, thread_friction: float, utilisation: float = 0.9
) -> float | Refusal:
    """The preload in kN at which tension and twist together use a share of the yield stress.

    Formula: As v Rp / sqrt(1 + 3 [1.5 d2/d0 (P / (pi d2) + 1.155 mu)]²). Source: VDI 2230 Part 1 (2001), v
    = 0.9.

    >>> round(assembly_preload(Thread(10, 1.25), "8.8", 0.12), 1)
    31.6
    """
    made = steel(name, bolt.diameter)
    if isinstance(made, Refusal):
        return made
    if not 0 < utilisation <= 1 or not 0 <= thread_friction <= 1:
        message = "Friction lies between 0 and 1, and the share of the yield stress is above 0 and up to 1."
        return Refusal("friction", message, "Friction is about 0.08 to 0.20, the share 0.9.")
    twist = bolt.pitch / (pi * bolt.pitch_diameter) + 1.155 * thread_friction
    share = 1.5 * bolt.pitch_diameter / bolt.stress_diameter * twist
    return bolt.stress_area * utilisation * made.stretch / sqrt(1 + 3 * share**2) / 1000


def assembly_torque(
    preload: float, bolt: Thread, thread_friction: float, head_friction: float, bearing: tuple[float, float]
) -> float:
    """The torque in N·m for a preload: F (0.16 P + 0.58 d2 mu_thread + mu_head (dw + dh) / 4).

    `bearing` is dw and dh, as `head` gives them. Source: VDI 2230 Part 1 (2001).

    >>> bolt = Thread(10, 1.25)
    >>> round(assembly_torque(assembly_preload(bolt, "8.8", 0.12), bolt, 0.12, 0.12, head(10)), 1)
    50.9
    """
    return preload * _arm(bolt, thread_friction, head_friction, bearing)


def torque_preload(
    torque: float, bolt: Thread, thread_friction: float, head_friction: float, bearing: tuple[float, float]
) -> float:
    """The preload in kN that a torque makes; the way back of `assembly_torque`.

    >>> round(torque_preload(51, Thread(10, 1.25), 0.12, 0.12, (14.63, 11.0)), 1)
    31.7
    """
    return torque / _arm(bolt, thread_friction, head_friction, bearing)


def factor_of(
    bolt: Thread, thread_friction: float, head_friction: float, bearing: tuple[float, float]
) -> float:
    """K of the short formula that friction and pitch come to.

    >>> round(factor_of(Thread(10, 1.5), 0.12, 0.12, (14.63, 11.0)), 3)
    0.164
    """
    return _arm(bolt, thread_friction, head_friction, bearing) / bolt.diameter


def least_preload(most: float, scatter: float) -> float | Refusal:
    """The preload that is sure, where the tool scatters: F max / alpha A.

    Source: VDI 2230. From memory: 1.4 to 2.5 for a torque wrench by what is known of the friction, 1.2 to
    1.4 where the bolt is tightened by angle or to its yield.

    >>> round(least_preload(31.6, 1.8), 1)
    17.6
    """
    if scatter < 1:
        return Refusal("scatter", "The scatter is the largest preload over the least.", "It is 1 or more.")
    return most / scatter


def _arm(bolt: Thread, thread_friction: float, head_friction: float, bearing: tuple[float, float]) -> float:
    """Torque over preload, in mm."""
    friction = 0.58 * bolt.pitch_diameter * thread_friction + head_friction * sum(bearing) / 4
    return 0.16 * bolt.pitch + friction


def _bearing(diameter: float, dw: float | None, dh: float | None) -> tuple[float, float] | Refusal:
    """The head that was measured, or the usual hexagon."""
    if dw is not None and dh is not None:
        if dh < dw:
            return dw, dh
        return Refusal("head", "The hole is wider than the head.", "Measure both again.")
    return head(diameter)


def _bolt(size: str, dw: float | None, dh: float | None) -> tuple[Thread, tuple[float, float]] | Refusal:
    bolt = thread(size)
    if isinstance(bolt, Refusal):
        return bolt
    bearing = _bearing(bolt.diameter, dw, dh)
    return bearing if isinstance(bearing, Refusal) else (bolt, bearing)


def _torque(
    size: str,
    grade: str,
    thread_friction: float,
    head_friction: float,
    share: float,
    scatter: float,
    head_diameter: float | None,
    hole: float | None,
) -> Values | Refusal:
    found = _bolt(size, head_diameter, hole)
    if isinstance(found, Refusal):
        return found
    bolt, bearing = found
    force = assembly_preload(bolt, grade, thread_friction, share)
    if isinstance(force, Refusal):
        return force
    torque = assembly_torque(force, bolt, thread_friction, head_friction, bearing)
    factor = factor_of(bolt, thread_friction, head_friction, bearing)
    made = steel(grade, bolt.diameter)
    if isinstance(made, Refusal):
        return made
    return (force, torque, factor, force / scatter, made.stretch, *_measures(bolt, bearing))


def _reached(
    size: str,
    torque: float,
    thread_friction: float,
    head_friction: float,
    head_diameter: float | None,
    hole: float | None,
) -> Values | Refusal:
    found = _bolt(size, head_diameter, hole)
    if isinstance(found, Refusal):
        return found
    bolt, bearing = found
    force = torque_preload(torque, bolt, thread_friction, head_friction, bearing)
    factor = factor_of(bolt, thread_friction, head_friction, bearing)
    return (force, factor, *_measures(bolt, bearing))


def _measures(bolt: Thread, bearing: tuple[float, float]) -> tuple[float, ...]:
    """What of the bolt stands in the formulas, as `_MEASURES` names it."""
    return (*bolt, bolt.pitch_diameter, bolt.stress_diameter, bolt.stress_area, *bearing)


_THREAD_MU: Final = Input(
    "thread-friction", "m1", "Friction in the thread", "", least=0.02, most=0.5, default="0.12"
)
_HEAD_MU: Final = Input(
    "head-friction", "m2", "Friction under the head", "", least=0.02, most=0.5, default="0.12"
)
_HEAD: Final = (
    Input(
        "head-diameter",
        "dw′",
        "Bearing diameter of the head, measured",
        "mm",
        least=2,
        most=100,
        optional=True,
    ),
    Input("hole", "dh′", "Diameter of the hole, measured", "mm", least=1, most=100, optional=True),
)
_MEASURES: Final = (
    Output("diameter", "d", "Nominal diameter", "mm"),
    Output("pitch", "P", "Pitch", "mm"),
    Output("pitch-diameter", "d2", "Pitch diameter", "mm"),
    Output("stress-diameter", "d0", "Stress diameter", "mm"),
    Output("stress-area", "As", "Stress area", "mm²"),
    Output("head-diameter", "dw", "Bearing diameter of the head", "mm"),
    Output("hole", "dh", "Diameter of the hole", "mm"),
)
_ARM: Final = "0.16 P + 0.58 d2 m1 + m2 (dw + dh) / 4"
_SINGLE_USE: Final = " A bolt that was tightened to its yield or by angle is never checked by torque."

CALCULATORS: Final = (
    Calculator(
        name="bolt-torque",
        family="bolts",
        title="Tightening torque and preload of a bolt",
        inputs=(
            SIZE,
            GRADE,
            _THREAD_MU,
            _HEAD_MU,
            Input("share", "v", "Share of the yield stress used", "", least=0.1, most=1, default="0.9"),
            Input("scatter", "aA", "Largest preload over least", "", least=1, most=4, default="1.6"),
            *_HEAD,
        ),
        outputs=(
            Output("preload", "F", "Preload", "kN"),
            Output("torque", "M", "Torque", "N·m"),
            Output("factor", "K", "Factor K of the short formula", ""),
            Output("least-preload", "Fmin", "Preload that is sure", "kN"),
            Output("yield", "Rp", "Yield stress", "MPa"),
            *_MEASURES,
        ),
        function=_torque,
        formula=(
            "F = As v Rp / sqrt(1 + 3 [1.5 d2 / d0 (P / (pi d2) + 1.155 m1)]²)",
            f"M = F ({_ARM})",
            "K = M / (F d)",
            "Fmin = F / aA",
        ),
        source="VDI 2230 Part 1 (2001); heads of M6 and above M14, and the scatter, from memory",
        mark="published",
        valid="Hexagon heads M6 to M24 unless measured. The torque of the sheet wins." + _SINGLE_USE,
        example="size=M10x1.25 grade=8.8",
    ),
    Calculator(
        name="bolt-preload",
        family="bolts",
        title="Preload that a torque makes",
        inputs=(
            SIZE,
            Input("torque", "M", "Torque", "N·m", least=0, most=10_000),
            _THREAD_MU,
            _HEAD_MU,
            *_HEAD,
        ),
        outputs=(Output("preload", "F", "Preload", "kN"), Output("factor", "K", "Factor K", ""), *_MEASURES),
        function=_reached,
        formula=(f"F = M / ({_ARM})", "K = M / (F d)"),
        source="VDI 2230 Part 1 (2001)",
        mark="published",
        valid="Hexagon heads M6 to M24 unless measured; below the yield." + _SINGLE_USE,
        example="size=M10x1.25 torque=51",
    ),
)
