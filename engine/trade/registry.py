"""The calculators that a tree may name, in one tuple; trees know no other formula."""

from collections.abc import Callable, Sequence
from typing import Final, Literal, NamedTuple

from engine.errors import Refusal
from engine.quantity import Quantity, dimension
from engine.trade import tyres


class Calculator(NamedTuple):
    """One figure made of several readings of the same kind."""

    name: str
    title: str
    #: Refuses readings that it cannot make a figure of; ValueError where `result_unit` gives None.
    function: Callable[[Sequence[Quantity]], Quantity | Refusal]
    formula: str
    source: str
    #: The unit of the figure: that of the readings, or per cent.
    gives: Literal["same", "%"]
    least_inputs: int

    def result_unit(self, unit: str) -> str | None:
        """The unit of the figure of readings in `unit`; None where it cannot be made of such readings.

        >>> find("relative-spread").result_unit("mm"), find("spread").result_unit("°C")
        ('%', None)
        """
        if dimension(unit) in (None, "temperature"):
            return None
        return unit if self.gives == "same" else "%"


CALCULATORS: Final = (
    Calculator(
        name="spread",
        title="Largest reading minus smallest",
        function=tyres.spread,
        formula="max(x) - min(x)",
        source="ISO 3534-1, sample range",
        gives="same",
        least_inputs=2,
    ),
    Calculator(
        name="relative-spread",
        title="Largest reading minus smallest, in per cent of the smallest",
        function=tyres.relative_spread,
        formula="100 (max(x) - min(x)) / min(x)",
        source="arithmetic",
        gives="%",
        least_inputs=2,
    ),
)


def find(name: str) -> Calculator | None:
    """The calculator of this name, or None.

    >>> find("spread").title
    'Largest reading minus smallest'
    """
    return next((calculator for calculator in CALCULATORS if calculator.name == name), None)
