"""May this oil stand in for the one that the sheet asks for? By API class, unit, and what is inside the unit.

Three things decide: a hypoid axle needs the full dose of extreme-pressure additive, synchroniser rings need
the friction that such additives take away, and yellow metal (brass, bronze) is eaten by them where it runs
hot. The sheet of the vehicle always wins over this page.
"""

from collections.abc import Callable
from typing import Final, NamedTuple

from engine.trade.calculator import Calculator, Input, Output

USE: Final = "use"
DO_NOT: Final = "do not use"
ASK: Final = "ask"

#: API Publication 1560, with what else stands on cans for the axle class: MIL-L-2105D satisfies GL-5.
GEAR: Final = ("GL-1", "GL-2", "GL-3", "GL-4", "GL-5", "GL-6")
OTHER: Final = ("MT-1", "ATF", "engine oil")
ASKED: Final = (*GEAR, *OTHER)
OFFERED: Final = (*ASKED, "GL-4/GL-5", "SAE J2360", "MIL-L-2105D")
UNITS: Final = (
    "synchronised transaxle",
    "synchronised gearbox",
    "unsynchronised gearbox",
    "hypoid axle",
    "limited-slip hypoid axle",
    "spiral-bevel axle",
    "worm axle",
    "sealed viscous coupling",
)
METAL: Final = ("yes", "no", "unknown")
_FULL_DOSE: Final = ("GL-4/GL-5", "SAE J2360", "MIL-L-2105D")


class Swap(NamedTuple):
    """An oil offered in place of the one asked for."""

    asked: str
    offered: str
    unit: str
    yellow_metal: str

    @property
    def dose(self) -> str:
        """The offered oil as a class: what claims to be GL-4 and GL-5 carries the dose of GL-5."""
        return "GL-5" if self.offered in _FULL_DOSE else self.offered

    @property
    def synchronised(self) -> bool:
        """Whether synchroniser rings run in the oil."""
        return self.unit.startswith("synchronised")

    @property
    def hypoid(self) -> bool:
        """Whether hypoid gears run in the oil; those of a transaxle count by the class that it asks for."""
        return self.unit.endswith("hypoid axle")

    @property
    def lower(self) -> bool:
        """Whether a lower GL class is offered than is asked for."""
        return _rank(self.dose) < _rank(self.asked)


Answer = tuple[str, str]


def substitution(asked: str, offered: str, unit: str, yellow_metal: str = "unknown") -> Answer:
    """One of `use`, `do not use` and `ask`, and why.

    The words allowed are those of ASKED, OFFERED, UNITS and METAL; anything else is ValueError. Source of
    the classes: API 1560; that GL-4 carries about half the sulphur and phosphorus of GL-5, and that GL-5 in
    a synchronised box gave two to four times the copper in used oil: trade articles; the logic is common
    practice.

    >>> substitution("GL-5", "GL-4", "hypoid axle")[0]
    'do not use'
    >>> substitution("GL-4", "GL-5", "synchronised transaxle", "no")[0]
    'ask'
    """
    for word, words in ((asked, ASKED), (offered, OFFERED), (unit, UNITS), (yellow_metal, METAL)):
        if word not in words:
            raise ValueError(f"{word!r} is none of {', '.join(words)}.")
    swap = Swap(asked, offered, unit, yellow_metal)
    return next(answer for rule in _RULES if (answer := rule(swap)) is not None)


def limited_slip_additive(unit: str) -> Answer:
    """Whether friction modifier for limited slip goes into a unit, and why. Source: common practice.

    >>> limited_slip_additive("limited-slip hypoid axle")[0], limited_slip_additive("hypoid axle")[0]
    ('use', 'do not use')
    """
    if unit == "limited-slip hypoid axle":
        return (
            USE,
            "Friction plates chatter without it: use it where the sheet asks for it, in the dose of the can.",
        )
    if unit == "sealed viscous coupling":
        return DO_NOT, "A viscous unit is sealed and holds its own silicone fluid: nothing is added to it."
    return (
        DO_NOT,
        "It is for friction plates only, and this unit has none: it takes friction from what needs it.",
    )


def _sealed(swap: Swap) -> Answer | None:
    if swap.unit != "sealed viscous coupling":
        return None
    return DO_NOT, "The coupling is sealed for life and filled with silicone fluid: no gear oil goes into it."


def _same(swap: Swap) -> Answer | None:
    if swap.offered == swap.asked == "GL-6":
        return (
            ASK,
            "GL-6 is withdrawn and cannot be tested any more: ask which oil serves this pinion offset.",
        )
    if swap.offered == swap.asked:
        return USE, "It is the class that the sheet asks for: see that the grade is the sheet's too."
    if swap.asked == "GL-5" and swap.dose == "GL-5":
        return USE, f"{swap.offered} oils have passed for GL-5: see that the grade is the sheet's too."
    return None


def _another_kind(swap: Swap) -> Answer | None:
    kinds = ("ATF", "engine oil")
    if swap.asked in kinds:
        return (
            DO_NOT,
            f"The unit is made for {swap.asked}, not for an API gear class: fill what the sheet says.",
        )
    if swap.offered in kinds:
        return DO_NOT, f"{swap.offered} is no API gear class: nothing says that it carries these gears."
    return None


def _for_trucks(swap: Swap) -> Answer | None:
    if swap.dose == "MT-1":
        if swap.unit == "unsynchronised gearbox" and _rank(swap.asked) <= _rank("GL-4"):
            return (
                ASK,
                "MT-1 is made for boxes without synchronisers, but it is not the class that is asked for.",
            )
        return (
            DO_NOT,
            "MT-1 is for boxes without synchronisers only: it replaces no GL-4 or GL-5.",
        )
    if swap.asked == "MT-1":
        if swap.lower or swap.yellow_metal != "no":
            return (
                DO_NOT,
                "MT-1 asks for more heat resistance and for less attack on copper than this oil shows.",
            )
        return ASK, "Nothing shows that this oil stands the heat that MT-1 is tested for."
    return None


def _too_weak(swap: Swap) -> Answer | None:
    if not swap.lower:
        return None
    if swap.asked == "GL-6":
        if swap.dose == "GL-5":
            return (
                ASK,
                "GL-6 is withdrawn and cannot be tested any more: ask which GL-5 serves this pinion offset.",
            )
        return DO_NOT, "GL-6 asks for more than GL-5, and this oil is below even that."
    if swap.hypoid:
        return (
            DO_NOT,
            f"Hypoid teeth slide under load: {swap.dose} has too little additive and they would score.",
        )
    return DO_NOT, f"{swap.dose} is tested for less load than the {swap.asked} that is asked for."


def _synchronisers(swap: Swap) -> Answer | None:
    if not swap.synchronised:
        return None
    if _rank(swap.dose) >= _rank("GL-5") and swap.yellow_metal != "no":
        known = (
            "There is yellow metal inside"
            if swap.yellow_metal == "yes"
            else "Take it that the rings are brass"
        )
        return DO_NOT, f"{known}: {swap.dose} carries about twice the additive of GL-4, which eats it."
    if _rank(swap.dose) >= _rank("GL-5"):
        return (
            ASK,
            f"{swap.dose} can make synchroniser rings slip, and shifts grate: ask whether it is allowed.",
        )
    return (
        ASK,
        "More additive than is asked for changes the friction of the rings: ask whether it is allowed.",
    )


def _yellow_metal(swap: Swap) -> Answer | None:
    if swap.yellow_metal == "yes":
        return (
            DO_NOT,
            f"{swap.dose} carries more additive than {swap.asked}, and it eats the yellow metal inside.",
        )
    if swap.yellow_metal == "unknown":
        return ASK, "Find out first whether there is brass or bronze inside: its additive would eat that."
    return None


def _withdrawn(swap: Swap) -> Answer | None:
    if swap.dose != "GL-6":
        return None
    return ASK, "GL-6 is withdrawn and its test cannot be run any more: the can's claim proves nothing."


def _stronger(swap: Swap) -> Answer:
    return (
        USE,
        f"{swap.dose} carries more load than {swap.asked}, and nothing in this unit minds its additive.",
    )


_RULES: Final[tuple[Callable[[Swap], Answer | None], ...]] = (
    _sealed,
    _same,
    _another_kind,
    _for_trucks,
    _too_weak,
    _synchronisers,
    _yellow_metal,
    _withdrawn,
    _stronger,
)


def _rank(name: str) -> int:
    """The place of a GL class, light to heavy; MT-1 counts as GL-4, for its load test is about that."""
    return GEAR.index(name) if name in GEAR else GEAR.index("GL-4")


CALCULATORS: Final = (
    Calculator(
        name="oil-substitution",
        family="oils",
        title="May this oil stand in for the one asked for?",
        inputs=(
            Input("asked", "asked", "Class that the sheet asks for", "word", choices=ASKED),
            Input("offered", "offered", "Class on the can", "word", choices=OFFERED),
            Input("unit", "unit", "Unit that it goes into", "word", choices=UNITS),
            Input(
                "yellow-metal", "metal", "Brass or bronze inside?", "word", default="unknown", choices=METAL
            ),
        ),
        outputs=(
            Output("answer", "answer", "Answer", "text"),
            Output("why", "why", "Why", "text"),
        ),
        function=substitution,
        formula=(),
        source="API 1560 for the classes; the logic is common practice",
        mark="common-practice",
        valid="The sheet of the vehicle wins. The grade is another question: see gear-oil-meaning.",
        example="asked=GL-4 offered=GL-5 unit='synchronised transaxle'",
    ),
    Calculator(
        name="limited-slip-additive",
        family="oils",
        title="Does limited-slip additive go into this unit?",
        inputs=(Input("unit", "unit", "Unit", "word", choices=UNITS),),
        outputs=(
            Output("answer", "answer", "Answer", "text"),
            Output("why", "why", "Why", "text"),
        ),
        function=limited_slip_additive,
        formula=(),
        source="common practice, no source",
        mark="common-practice",
        valid="The sheet of the vehicle wins.",
        example="unit='limited-slip hypoid axle'",
    ),
)
