"""A walk line by line with everything scripted: what is typed goes in, what is said comes out."""

from collections.abc import Iterable
from typing import Final

from engine import api
from engine.cli.talk import talk
from engine.records.memory import MemoryStore
from tests.engine.interview.given import library, procedure, tree

TREE: Final = tree("""
    first: {do: Put it in neutral., why: To turn it., minutes: 2, cautions: [hot, turning], then: second}
    second:
      ask: Which wheels turn?
      answers: [{say: All four, then: third}, {say: Front only, then: sheared}]
      unsure: referred
    third:
      measure: Roll the tyres.
      minutes: 5
      readings: {gauge: rule, unit: mm, plausible: [1500, 2500], each: [left, right]}
      figure: spread
      bands: [{upto: 6, say: Equal, then: fourth}, {over: 6, then: referred}]
      unsure: referred
    fourth:
      measure: How far does it move?
      reading: {name: play, gauge: rule, unit: mm, plausible: [0, 5]}
      show: [sheet.torques.flange]
      bands: [{from: 0, upto: 1, then: referred}, {over: 1, then: sheared}]
    sheared:
      verdict: Sheared
      why: W.
      suspects: [shaft]
      grade: repair
      correction: Renew it.
      follow: [look, prove]
    referred: {verdict: Referred, suspects: [], grade: refer, correction: Elsewhere.}
    """)
LOOK: Final = procedure("look", "seen: Seen", "first: {do: Look., cautions: [hot], then: seen}\n")
PROVE: Final = procedure(
    "prove",
    "gone: Gone, there: There",
    "first: {ask: Gone?, answers: [{say: a, then: gone}, {say: b, then: there}]}\n",
)


class Spoken:
    """A talk that was had: every line that was said, every cue, and the job at its end."""

    def __init__(
        self,
        typed: Iterable[str],
        store: api.Store | None = None,
        job: api.Job | None = None,
        *,
        job_tree: str = "",
    ) -> None:
        self.said: list[str] = []
        self.cues: list[str] = []
        self.store = store or MemoryStore()
        held = library(tree(job_tree)) if job_tree else library(TREE, LOOK, PROVE)
        job = job or api.open_job(self.store, held, "bench", "wagon", case="one")
        self._typed = iter(typed)
        self.job = talk(self.store, job, self.said.append, self._hear)

    def _hear(self, cue: str) -> str | None:
        self.cues.append(cue)
        self.said.append(cue)
        return next(self._typed, None)

    @property
    def left(self) -> list[str]:
        """Lines that nobody listened to any more."""
        return list(self._typed)


#: To the question, past both cautions.
TO_SECOND: Final = ["u", "u", "u"]
TO_THIRD: Final = [*TO_SECOND, "1"]
TO_FOURTH: Final = [*TO_THIRD, "1900", "1901"]
TO_SHEARED: Final = [*TO_SECOND, "2"]
