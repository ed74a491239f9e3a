"""A small tree, and cases of it as they ended."""

from datetime import UTC, datetime, timedelta
from typing import Final

from engine.belief.confirmed import Ended
from tests.engine.interview.given import library, tree

TREE: Final = tree("""
    first:
      ask: Does it whine?
      answers:
        - {say: It whines, then: shaft, fits: {shaft: 0.9, coupling: 0.2, bearing: 0.5}}
        - {say: It is quiet, then: dead, fits: {shaft: 0.1, coupling: 0.8, bearing: 0.5}}
      unsure: ended
    shaft: {verdict: The shaft, suspects: [shaft], grade: repair, correction: Renew it.}
    dead: {verdict: The coupling, suspects: [coupling], grade: repair, correction: Renew it.}
    """)
HELD: Final = library(TREE).trees["bench"]
#: The day on which the first case is opened, and has its verdict.
DAY: Final = datetime(2026, 3, 1, 8, tzinfo=UTC)


def case(
    name: str,
    *,
    cause: str = "",
    fixed: bool | None = True,
    sign: int = 0,
    day: int = 0,
    label: str = "",
    grade: str = "repair",
) -> Ended:
    """A case of the bench tree as it ended, on the day that it was opened."""
    step, verdict = ("shaft", "The shaft") if sign == 0 else ("dead", "The coupling")
    suspects = ("shaft",) if sign == 0 else ("coupling",)
    at = DAY + timedelta(days=day)
    told = (verdict, step, suspects, grade, fixed, cause, (("first", sign),))
    return Ended(name, "bench", "wagon", label, at, at, *told)
