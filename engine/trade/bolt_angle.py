"""What a turn of the nut adds to a bolt that already lies close: stretch, softness and preload.

Lengths in mm, forces in kN, angles in degrees, moduli in MPa.
"""

from math import pi
from typing import Final

from engine.errors import Refusal
from engine.trade.calculator import Calculator, Input, Output
from engine.trade.inputs import Values
from engine.trade.threads import SIZE, Thread, thread

#: Young's modulus of bolt steel, MPa.
STEEL: Final = 205_000.0


def angle_stretch(angle: float, pitch: float) -> float:
    """What a turn of the nut takes up, bolt and parts together, in mm: P angle / 360.

    >>> angle_stretch(90, 1.5)
    0.375
    """
    return pitch * angle / 360


def bolt_softness(bolt: Thread, shank: float, free_thread: float, modulus: float = STEEL) -> float | Refusal:
    """How far a bolt stretches under a load, in mm per kN.

    Half a diameter of head, the shank, the free thread, half a diameter of engaged thread and four tenths
    of nut. Source: VDI 2230 Part 1, hexagon bolt with nut (from memory).

    >>> round(bolt_softness(Thread(10, 1.5), 30, 10), 5)
    0.00382
    """
    if shank < 0 or free_thread < 0 or modulus <= 0:
        return Refusal(
            "length", "A length of the bolt is less than nothing.", "Measure between head and nut."
        )
    full = pi / 4 * bolt.diameter**2
    root = pi / 4 * bolt.root_diameter**2
    long = (0.9 * bolt.diameter + shank) / full + (0.5 * bolt.diameter + free_thread) / root
    return long / modulus * 1000


def angle_preload(angle: float, pitch: float, softness: float, parts: float = 0.25) -> float | Refusal:
    """The preload in kN that an angle adds after the parts lie close, below the yield of the bolt.

    Formula: (P angle / 360) / (dS + dP); `softness` is dS in mm/kN, `parts` is dP / dS, about 0.1 to 0.5
    for steel parts (from memory). The torque before the angle has its own preload, which comes on top. Past
    the yield the bolt only stretches, and the sum says too much.

    >>> round(angle_preload(30, 1.5, 0.004), 6)
    25.0
    """
    if softness <= 0 or parts < 0:
        return Refusal("softness", "A bolt that does not stretch is none.", "Give the stretch in mm per kN.")
    return angle_stretch(angle, pitch) / (softness * (1 + parts))


def _turned(size: str, angle: float, shank: float, free_thread: float, parts: float) -> Values | Refusal:
    bolt = thread(size)
    if isinstance(bolt, Refusal):
        return bolt
    soft = bolt_softness(bolt, shank, free_thread)
    if isinstance(soft, Refusal):
        return soft
    force = angle_preload(angle, bolt.pitch, soft, parts)
    return (
        force if isinstance(force, Refusal) else (angle_stretch(angle, bolt.pitch), force, bolt.pitch, soft)
    )


CALCULATORS: Final = (
    Calculator(
        name="bolt-angle",
        family="bolts",
        title="Preload that a turn of the nut adds",
        inputs=(
            SIZE,
            Input("angle", "a", "Turn after the parts lie close", "°", least=0, most=360),
            Input("shank", "l1", "Plain shank between head and nut", "mm", least=0, most=1_000),
            Input("free-thread", "l2", "Thread between head and nut", "mm", least=0, most=1_000),
            Input("parts", "q", "Softness of the parts over that of the bolt", "", 0, 5, default="0.25"),
        ),
        outputs=(
            Output("stretch", "f", "Taken up by bolt and parts", "mm"),
            Output("preload", "F", "Preload added", "kN"),
            Output("pitch", "P", "Pitch", "mm"),
            Output("softness", "S", "Softness of the bolt, mm per kN", ""),
        ),
        function=_turned,
        formula=(
            "f = P a / 360",
            "F = f / (S (1 + q))",
            "S: ((0.9 d + l1) / full area + (0.5 d + l2) / root area) / Young's modulus",
        ),
        source="VDI 2230 Part 1, from memory",
        mark="memory",
        valid="Hexagon bolt with nut, below its yield; what the torque made before comes on top.",
        example="size=M10 angle=30 shank=30 free-thread=10",
    ),
)
