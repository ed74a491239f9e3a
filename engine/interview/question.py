"""What a walk asks right now, as plain words and numbers that any face can show."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from engine.interview.suspicion import NOTHING, Sureness, Suspicion


@dataclass(frozen=True, slots=True)
class TrailLine:
    """One thing already settled; `sequence` is what a step back names."""

    sequence: int
    #: `step` or `procedure/step`.
    step: str
    #: What was asked or to be done, and what was said, read or done.
    question: str
    answer: str
    #: Cautions acknowledged and remarks written at this step, as sentences.
    remarks: tuple[str, ...] = ()
    #: What a calculator said beside that, for the work that follows.
    also: str = ""


@dataclass(frozen=True, slots=True)
class Spare:
    """How many minutes the walk may still take from here: by the quickest and the longest path."""

    fewest: Fraction
    most: Fraction


@dataclass(frozen=True, slots=True)
class Warn:
    """A caution that must be acknowledged before the step."""

    name: str
    title: str
    text: str


@dataclass(frozen=True, slots=True)
class Choice:
    """One answer of a question."""

    say: str


@dataclass(frozen=True, slots=True)
class Blank:
    """One reading to take: what, in which unit, with which gauge, and what would be believed."""

    name: str
    unit: str
    gauge: str
    #: The smallest step of the gauge with its unit, in words (`1 mm`).
    resolution: str
    plausible: str
    low: Fraction
    high: Fraction


def gauges(blanks: Sequence[Blank]) -> list[tuple[str, Blank]]:
    """Each gauge that is told of with its range once, by a blank of it, after the names that it reads.

    There are no names where one gauge reads all.
    """
    alike: dict[tuple[str, str, str], list[Blank]] = {}
    for blank in blanks:
        alike.setdefault((blank.gauge, blank.resolution, blank.plausible), []).append(blank)
    return [(", ".join(b.name for b in each) if len(alike) > 1 else "", each[0]) for each in alike.values()]


@dataclass(frozen=True, slots=True)
class Scale:
    """One band of a measuring step, its limits in words as they stand for this vehicle."""

    limits: str
    say: str


@dataclass(frozen=True, slots=True)
class Where:
    """What every prompt tells of the moment."""

    title: str
    vehicle: str
    #: `step` or `procedure/step`.
    step: str
    #: The titles of the tree and of the procedures entered, outermost first.
    inside: tuple[str, ...]
    trail: tuple[TrailLine, ...]
    #: Titles of the vehicle's states that hold now (raised, engine running).
    states: tuple[str, ...]
    spare: Spare
    #: Said after stepping back past something that changed the vehicle.
    reminders: tuple[str, ...]
    #: Titles of the suspects that no verdict behind us has cleared, the most probable first; all of them
    #: before any evidence.
    suspects: tuple[str, ...]
    notes: tuple[str, ...]
    #: How probable each suspect is, whether or not a verdict ahead convicts it.
    suspicion: Suspicion = NOTHING


@dataclass(frozen=True, slots=True)
class CautionPrompt:
    """Read and acknowledge this before the step; the step's own text is shown as what is coming."""

    where: Where
    caution: Warn
    #: How many cautions of the step stand after this one.
    left: int
    coming: str


@dataclass(frozen=True, slots=True)
class DoPrompt:
    """Something to do."""

    where: Where
    text: str
    why: str
    show: tuple[str, ...]
    #: The path of a picture inside the library, or empty.
    picture: str
    minutes: Fraction
    can_refuse: bool


@dataclass(frozen=True, slots=True)
class AskPrompt:
    """A question with its answers."""

    where: Where
    text: str
    why: str
    show: tuple[str, ...]
    #: The path of a picture inside the library, or empty.
    picture: str
    minutes: Fraction
    choices: tuple[Choice, ...]
    can_refuse: bool


@dataclass(frozen=True, slots=True)
class Close:
    """What was read and is too close to call: kept, and waiting for a further reading or a word."""

    #: As it was typed, by the reading's name.
    typed: Mapping[str, str]
    #: How close it is, and what would decide it.
    told: str
    #: The readings that it is proposed to repeat, by name, that which was read least often first.
    again: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class MeasurePrompt:
    """Readings to take, and the bands they will be held against."""

    where: Where
    text: str
    why: str
    show: tuple[str, ...]
    #: The path of a picture inside the library, or empty.
    picture: str
    minutes: Fraction
    blanks: tuple[Blank, ...]
    #: The calculator's title where one figure is made of the readings, else empty.
    figure: str
    scales: tuple[Scale, ...]
    can_refuse: bool
    #: What was read at this step and has yet to be decided.
    close: Close | None = None


@dataclass(frozen=True, slots=True)
class VerdictPrompt:
    """The walk has come to a verdict; `accepted` once it was concluded."""

    where: Where
    verdict: str
    why: str
    show: tuple[str, ...]
    #: The path of a picture inside the library, or empty.
    picture: str
    #: Titles of the suspects convicted.
    convicts: tuple[str, ...]
    grade: str
    correction: str
    accepted: bool
    #: Procedures that may be started: (name, title, how it ended or empty).
    follow: tuple[tuple[str, str, str], ...]
    #: How probable it is that a convicted suspect is to blame; None where none is convicted.
    sure: Sureness | None = None
    #: What was told after the repair, in words; empty where nothing was.
    told: str = ""
    #: What can be named as the true cause: (name, title), those convicted first.
    causes: tuple[tuple[str, str], ...] = ()


Prompt = CautionPrompt | DoPrompt | AskPrompt | MeasurePrompt | VerdictPrompt
