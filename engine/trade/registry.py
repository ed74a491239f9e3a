"""Every calculator by its name; the file that holds it is read when it is wanted.

Starting up reads none: the tables of the trade are long, and a walk needs one figure or two.
"""

from importlib import import_module
from typing import TYPE_CHECKING

from engine.trade.contents import CONTENTS

if TYPE_CHECKING:
    from engine.trade.calculator import Calculator

__all__ = ["calculators", "find", "names"]


def names() -> tuple[str, ...]:
    """The name of every calculator, family by family.

    >>> "spread" in names()
    True
    """
    return tuple(name for files in CONTENTS.values() for held in files.values() for name in held)


def find(name: str) -> "Calculator | None":
    """The calculator of this name, or None.

    >>> find("spread").title
    'Largest reading minus smallest'
    """
    for files in CONTENTS.values():
        for file, held in files.items():
            if name in held:
                return next(made for made in _of(file) if made.name == name)
    return None


def calculators() -> "tuple[Calculator, ...]":
    """All of them, family by family."""
    return tuple(made for files in CONTENTS.values() for file in files for made in _of(file))


def _of(file: str) -> "tuple[Calculator, ...]":
    made: tuple[Calculator, ...] = import_module(f"engine.trade.{file}").CALCULATORS
    return made
