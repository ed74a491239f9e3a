"""Metric threads and bolt steel: where a bolt is thinnest, and what it may carry.

Lengths in mm, areas in mm², stresses in MPa, forces in kN.
"""

import re
from math import pi, sqrt
from typing import Final, NamedTuple

from engine.errors import Refusal
from engine.trade.calculator import Calculator, Input, Output
from engine.trade.inputs import Values

#: Coarse pitch by nominal diameter. Source: ISO 262; M3 to M5, M22, M27 to M39 from memory of the same.
COARSE: Final = {
    1.6: 0.35,
    2.0: 0.4,
    2.5: 0.45,
    3.0: 0.5,
    3.5: 0.6,
    4.0: 0.7,
    5.0: 0.8,
    6.0: 1.0,
    7.0: 1.0,
    8.0: 1.25,
    10.0: 1.5,
    12.0: 1.75,
    14.0: 2.0,
    16.0: 2.0,
    18.0: 2.5,
    20.0: 2.5,
    22.0: 2.5,
    24.0: 3.0,
    27.0: 3.0,
    30.0: 3.5,
    33.0: 3.5,
    36.0: 4.0,
    39.0: 4.0,
}
#: Property classes of ISO 898-1: tensile strength, yield (0.2 %) and proof stress. 8.8 has two rows, by size.
_STEELS: Final = {
    "4.6": (400, 240, 225),
    "4.8": (420, 340, 310),
    "5.6": (500, 300, 280),
    "5.8": (520, 420, 380),
    "6.8": (600, 480, 440),
    "8.8": (800, 640, 580),
    "9.8": (900, 720, 650),
    "10.9": (1040, 940, 830),
    "12.9": (1220, 1100, 970),
}
_THICK_88: Final = (830, 660, 600)
CLASSES: Final = tuple(_STEELS)


class Thread(NamedTuple):
    """A metric thread, by its nominal diameter and pitch in mm."""

    diameter: float
    pitch: float

    @property
    def height(self) -> float:
        """H, the height of the sharp triangle: 0.8660 P. Source: ISO 68-1."""
        return sqrt(3) / 2 * self.pitch

    @property
    def pitch_diameter(self) -> float:
        """d2 = d - 0.6495 P. Source: ISO 724."""
        return self.diameter - 0.75 * self.height

    @property
    def minor_diameter(self) -> float:
        """d1 = d - 1.0825 P, of the nut. Source: ISO 724."""
        return self.diameter - 1.25 * self.height

    @property
    def root_diameter(self) -> float:
        """d3 = d - 1.2269 P, of the bolt. Source: ISO 68-1."""
        return self.minor_diameter - self.height / 6

    @property
    def stress_diameter(self) -> float:
        """d0 = (d2 + d3) / 2."""
        return (self.pitch_diameter + self.root_diameter) / 2

    @property
    def stress_area(self) -> float:
        """As = pi/4 d0², the area that the strength of a bolt counts on. Source: ISO 898-1.

        >>> round(Thread(10, 1.5).stress_area, 1)
        58.0
        """
        return pi / 4 * self.stress_diameter**2


class Steel(NamedTuple):
    """What bolt steel stands, in MPa."""

    tensile: float
    stretch: float
    proof: float


def thread(text: str) -> Thread | Refusal:
    """A metric thread as people write it: `M10`, `m10x1.25`, `M 10 × 1,25`. Without a pitch, coarse.

    >>> thread("M10"), thread("m 10 × 1,25")
    (Thread(diameter=10.0, pitch=1.5), Thread(diameter=10.0, pitch=1.25))
    >>> print(thread("10.9"))
    That is no metric thread. Write it as in `M10` (coarse) or `M10x1.25`.
    """
    number = r"([0-9]{1,2}(?:[.,][0-9]{1,3})?)"
    found = re.fullmatch(rf"M{number}(?:[X×*-]{number})?", "".join(text.split()).upper(), re.ASCII)
    if found is None:
        message = "That is no metric thread."
        return Refusal("thread", message, "Write it as in `M10` (coarse) or `M10x1.25`.")
    size = float(found[1].replace(",", "."))
    pitch = float(found[2].replace(",", ".")) if found[2] else COARSE.get(size, 0.0)
    if not pitch:
        known = ", ".join(f"M{one:g}" for one in COARSE)
        return Refusal("pitch", f"M{size:g} has no coarse pitch here.", f"Give the pitch, or one of {known}.")
    if not (1 <= size <= 64 and 0.2 <= pitch <= size / 4):
        message = f"No bolt of {size:g} mm has a pitch of {pitch:g} mm."
        return Refusal("pitch", message, "Measure over ten crests; the pitch is a tenth of that.")
    return Thread(size, pitch)


def steel(name: str, diameter: float) -> Steel | Refusal:
    """What a bolt of this property class stands; 8.8 is stronger above 16 mm. Source: ISO 898-1, table 3.

    8.8, 10.9 and 12.9 as published; the softer classes and 9.8 from memory of the same table. Refuses 9.8
    above 16 mm, which the standard does not have, and sizes beyond its 39 mm.

    >>> steel("8.8", 16), steel("8.8", 18)
    (Steel(tensile=800, stretch=640, proof=580), Steel(tensile=830, stretch=660, proof=600))
    """
    if name not in _STEELS:
        message = f"ISO 898-1 has no property class `{name}`."
        return Refusal("class", message, f"The head shows one of {', '.join(CLASSES)}.")
    if not 1.6 <= diameter <= 39 or (name == "9.8" and diameter > 16):
        message = f"ISO 898-1 has no {name} bolt of {diameter:g} mm."
        return Refusal("class", message, "It covers 1.6 to 39 mm, and 9.8 up to 16 mm.")
    return Steel(*(_THICK_88 if name == "8.8" and diameter > 16 else _STEELS[name]))


def loads(bolt: Thread, name: str) -> tuple[float, float, float] | Refusal:
    """Least tensile load, load at yield and proof load of a bolt in kN: stress times As. Source: ISO 898-1.

    >>> [round(load, 2) for load in loads(Thread(10, 1.5), "8.8")]
    [46.39, 37.11, 33.63]
    """
    made = steel(name, bolt.diameter)
    if isinstance(made, Refusal):
        return made
    tensile, stretch, proof = (stress * bolt.stress_area / 1000 for stress in made)
    return tensile, stretch, proof


def _geometry(size: str) -> Values | Refusal:
    found = thread(size)
    if isinstance(found, Refusal):
        return found
    diameters = found.pitch_diameter, found.minor_diameter, found.root_diameter
    return (*found, found.height, *diameters, found.stress_area)


def _strength(size: str, grade: str) -> Values | Refusal:
    bolt = thread(size)
    if isinstance(bolt, Refusal):
        return bolt
    made = steel(grade, bolt.diameter)
    if isinstance(made, Refusal):
        return made
    found = loads(bolt, grade)
    return found if isinstance(found, Refusal) else (*made, bolt.stress_area, *found)


#: Shared by every calculator that asks for a bolt.
SIZE: Final = Input("size", "size", "Thread, as in M10 or M10x1.25", "text")
GRADE: Final = Input("grade", "grade", "Property class on the head", "word", choices=CLASSES)

CALCULATORS: Final = (
    Calculator(
        name="bolt-thread",
        family="bolts",
        title="Diameters and stress area of a metric thread",
        inputs=(SIZE,),
        outputs=(
            Output("diameter", "d", "Nominal diameter", "mm"),
            Output("pitch", "P", "Pitch", "mm"),
            Output("height", "H", "Height of the sharp triangle", "mm"),
            Output("pitch-diameter", "d2", "Pitch diameter", "mm"),
            Output("minor-diameter", "d1", "Minor diameter of the nut", "mm"),
            Output("root-diameter", "d3", "Root diameter of the bolt", "mm"),
            Output("stress-area", "As", "Stress area", "mm²"),
        ),
        function=_geometry,
        formula=(
            "H = 0.8660 P",
            "d2 = d - 0.6495 P",
            "d1 = d - 1.0825 P",
            "d3 = d - 1.2269 P",
            "As = pi / 4 ((d2 + d3) / 2)²",
        ),
        source="ISO 68-1, ISO 262, ISO 724",
        mark="published",
        valid="For metric threads of 60°; not for inch or pipe threads.",
        example="size=M10x1.25",
    ),
    Calculator(
        name="bolt-strength",
        family="bolts",
        title="What a bolt stands",
        inputs=(SIZE, GRADE),
        outputs=(
            Output("tensile", "Rm", "Tensile strength", "MPa"),
            Output("yield", "Rp", "Yield stress", "MPa"),
            Output("proof", "Sp", "Proof stress", "MPa"),
            Output("stress-area", "As", "Stress area", "mm²"),
            Output("tensile-load", "Fm", "Least load at which it breaks", "kN"),
            Output("yield-load", "Fp", "Load at which it stays longer", "kN"),
            Output("proof-load", "Fs", "Load that it stands unchanged", "kN"),
        ),
        function=_strength,
        formula=("Fm = Rm As", "Fp = Rp As", "Fs = Sp As"),
        source="ISO 898-1; softer classes than 8.8, and 9.8, from memory of the same table",
        mark="published",
        valid="M1.6 to M39 at room temperature, whole shank, full nut.",
        example="size=M10 grade=8.8",
    ),
)
