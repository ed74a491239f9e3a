"""The pictures of the README: the app on the shipped library, drawn by itself, without links to other places.

python -m tests.tui.pictures
"""

import asyncio
import re
from collections.abc import Callable
from pathlib import Path
from typing import Final

from engine import api
from engine.interview.command import Acknowledge
from engine.loading.folders import shipped
from engine.loading.library import gather
from engine.proof.script import Go, following
from engine.records.memory import MemoryStore
from tests.tui.seat import Seat, seat
from tui.app import Start
from tui.session import Session

FOLDER: Final = Path(__file__).parents[2] / ".pictures"
SIZE: Final = (120, 36)
SCRIPT: Final = "tyres-just-over-fellside"
ROLLED: Final = ("1875", "1874", "1870", "1872")


class Bay(Session):
    """The real session on the shipped library, with a clock that stands."""

    def __init__(self, until: Callable[[str], bool] = lambda _: False, *, others: bool = False) -> None:
        super().__init__(at=lambda: "2026-11-25T14:02:11+01:00")
        self._store = MemoryStore()
        self._held = gather(shipped())
        if others:
            self.open("no-rear-drive", "skerry", "HP-198", case="skerry-one")
        self.open("no-rear-drive", "fellside", "HP-204", case="fellside-one")
        self._walk(until)

    @property
    def library(self) -> api.Library:
        """The shipped library, its rehearsals too."""
        return self._held

    def _walk(self, until: Callable[[str], bool]) -> None:
        """Walk the script as far as a step, or to its verdict."""
        left = self._held.rehearsals[SCRIPT].lines
        while not until(self.job.state.where) and isinstance(move := following(self.job.state, left), Go):
            assert self.act(move.command) is None
            left = move.rest
        while self.job.state.pending:
            assert self.act(Acknowledge(self.job.state.pending[0])) is None


async def _read(sat: Seat) -> None:
    for reading in ROLLED:
        await sat.write(reading)
        if reading != ROLLED[-1]:
            await sat.press("enter")


async def _reckon(sat: Seat) -> None:
    await sat.press("k", "s")
    await sat.write("heat of the coupling over")
    await sat.press("enter")
    await sat.press("escape", "e", "g")


async def _nothing(_: Seat) -> None:
    return


def _jobs() -> Bay:
    bay = Bay(lambda where: where == "which-wheels", others=True)
    bay.leave()
    return bay


SCENES: Final = {
    "home": (_jobs, _nothing),
    "walk": (lambda: Bay(lambda where: where == "which-wheels"), _nothing),
    "reading": (lambda: Bay(lambda where: where == "measure-tyres/roll"), _read),
    "verdict": (Bay, _nothing),
    "calculator": (_jobs, _reckon),
}


def plain(svg: str) -> str:
    """The picture without what the toolkit adds: fonts of other places, marks of a window, a note."""
    svg = re.sub(r"@font-face \{.*?\}\n?", "", svg, flags=re.DOTALL)
    svg = re.sub(r"<!--.*?-->\n?", "", svg, flags=re.DOTALL)
    svg = re.sub(r'<g transform="translate\(26,22\)">.*?</g>\n?', "", svg, flags=re.DOTALL)
    svg = svg.replace("Fira Code, monospace", "DejaVu Sans Mono, monospace")
    return "\n".join(line.rstrip() for line in svg.splitlines()) + "\n"


async def draw(name: str) -> str:
    """One picture, as it stands in the README."""
    bay, keys = SCENES[name]
    session = bay()
    start = Start(case=session.job.case) if session.busy else None
    async with seat(session, SIZE, start) as sat:
        await keys(sat)
        await sat.settle()
        return plain(sat.app.export_screenshot(title="witnessmark"))


if __name__ == "__main__":
    for each in SCENES:
        (FOLDER / f"{each}.svg").write_text(asyncio.run(draw(each)), encoding="utf-8")
        print(f"Written: {FOLDER.name}/{each}.svg")
