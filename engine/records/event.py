"""The events of a case: what happened, in order, and nothing else. Frozen values of plain data."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import ClassVar


@dataclass(frozen=True, slots=True)
class Opened:
    """A case was opened: on which tree and sheet, with their own text, so that it replays for ever."""

    kind: ClassVar[str] = "opened"
    tree: str
    vehicle: str
    #: The text of every document the walk may enter, by its path in the library.
    documents: Mapping[str, str]
    #: SHA-256 over those documents, in the order of their paths.
    digest: str
    #: The titles of the tree and of the sheet, so that a list of cases need not read the documents.
    title: str = ""
    vehicle_title: str = ""
    #: What the workshop calls the job: a registration, an order number; may be empty.
    label: str = ""
    #: Who works on it; may be empty.
    by: str = ""


@dataclass(frozen=True, slots=True)
class Cautioned:
    """A caution was read and acknowledged before a step."""

    kind: ClassVar[str] = "cautioned"
    step: str
    caution: str


@dataclass(frozen=True, slots=True)
class Done:
    """A step was done."""

    kind: ClassVar[str] = "done"
    step: str


@dataclass(frozen=True, slots=True)
class Answered:
    """A question was answered; `answer` counts from 0, `say` is its text."""

    kind: ClassVar[str] = "answered"
    step: str
    answer: int
    say: str
    #: What the calculator of the step said of it, in words.
    also: str = ""


@dataclass(frozen=True, slots=True)
class Measured:
    """Readings were taken and a band chosen."""

    kind: ClassVar[str] = "measured"
    step: str
    #: What was typed, by the reading's name.
    typed: Mapping[str, str]
    #: The same as exact numbers in the unit the step asks for, written as `63/5`.
    values: Mapping[str, str]
    unit: str
    #: The figure that was compared (the reading itself where there is no calculator), and its unit.
    figure: str
    figure_unit: str
    #: The band, counted from 0, and its limits in words as they stood for this vehicle.
    band: int
    limits: str
    #: The technician confirmed a reading outside its plausible range.
    insisted: bool = False
    #: That the true value lies in the band, from 0 to 1; empty in cases of before it was told.
    probability: str = ""
    #: The standard uncertainty of the figure, in its unit.
    uncertainty: str = ""
    #: The gauge by its name in the shop; where there were several, each once.
    gauge: str = ""
    #: Decided by the technician although too close to call.
    close: bool = False
    #: The units of those readings that have another than `unit`.
    units: Mapping[str, str] = field(default_factory=dict)
    #: What else the calculator said, in words.
    also: str = ""

    def unit_of(self, name: str) -> str:
        """The unit of one reading."""
        return self.units.get(name, self.unit)


@dataclass(frozen=True, slots=True)
class Undecided:
    """Readings were taken that are too close to call: kept, while the step still stands open.

    The fields are those of `Measured`, which follows once it is decided.
    """

    kind: ClassVar[str] = "undecided"
    step: str
    typed: Mapping[str, str]
    values: Mapping[str, str]
    unit: str
    figure: str
    figure_unit: str
    band: int
    limits: str
    insisted: bool
    probability: str
    uncertainty: str
    gauge: str
    units: Mapping[str, str] = field(default_factory=dict)
    also: str = ""

    def unit_of(self, name: str) -> str:
        """The unit of one reading."""
        return self.units.get(name, self.unit)


@dataclass(frozen=True, slots=True)
class Unsure:
    """The step could not be done or answered here, and why."""

    kind: ClassVar[str] = "unsure"
    step: str
    reason: str = ""


@dataclass(frozen=True, slots=True)
class TakenBack:
    """The walk stepped back to before the event with this sequence number."""

    kind: ClassVar[str] = "taken-back"
    to: int


@dataclass(frozen=True, slots=True)
class Noted:
    """A remark was written down at a step."""

    kind: ClassVar[str] = "noted"
    step: str
    text: str


@dataclass(frozen=True, slots=True)
class Concluded:
    """The verdict was accepted."""

    kind: ClassVar[str] = "concluded"
    step: str
    verdict: str
    suspects: tuple[str, ...] = ()
    grade: str = ""
    correction: str = ""


@dataclass(frozen=True, slots=True)
class Followed:
    """A procedure that the verdict names was started in the same case."""

    kind: ClassVar[str] = "followed"
    procedure: str


@dataclass(frozen=True, slots=True)
class Confirmed:
    """After the repair: whether the complaint is gone, and the true cause."""

    kind: ClassVar[str] = "confirmed"
    fixed: bool
    cause: str = ""
    remark: str = ""


Event = (
    Opened
    | Cautioned
    | Done
    | Answered
    | Measured
    | Undecided
    | Unsure
    | TakenBack
    | Noted
    | Concluded
    | Followed
    | Confirmed
)


@dataclass(frozen=True, slots=True)
class Entry:
    """An event in its case: numbered, dated, and carrying the hash of the entry before it."""

    case: str
    #: 1 for the first event of the case.
    sequence: int
    #: ISO 8601 with offset, as the shell that wrote it read its clock.
    at: str
    event: Event
    #: SHA-256 in hexadecimal of the entry before; 64 zeros before the first.
    previous: str
    hash: str = field(default="")
