"""What a person (or a script) asks of a walk. The walk answers with events, or with a refusal."""

from collections.abc import Mapping
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Acknowledge:
    """The caution that stands before the step has been read."""

    caution: str


@dataclass(frozen=True, slots=True)
class Confirm:
    """The step has been done."""


@dataclass(frozen=True, slots=True)
class Choose:
    """The answer with this number, counted from 0."""

    answer: int


@dataclass(frozen=True, slots=True)
class Read:
    """Readings as typed, by name; `insist` confirms one that lies outside its plausible range.

    A reading taken several times is one text with `;` between. What is too close to call
    is kept and asked about; `settle` takes it as it stands.
    """

    typed: Mapping[str, str]
    insist: bool = False
    settle: bool = False


@dataclass(frozen=True, slots=True)
class Repeat:
    """Further readings, by name, of what is too close to call.

    Each goes behind what was typed for it before; readings that are not named keep what they have.
    """

    typed: Mapping[str, str]
    insist: bool = False


@dataclass(frozen=True, slots=True)
class CannotTell:
    """The step cannot be done or answered here."""

    reason: str = ""


@dataclass(frozen=True, slots=True)
class StepBack:
    """Return to just before the event with this sequence number (one of the trail's)."""

    to: int


@dataclass(frozen=True, slots=True)
class Note:
    """Write a remark down beside the step."""

    text: str


@dataclass(frozen=True, slots=True)
class Accept:
    """Accept the verdict."""


@dataclass(frozen=True, slots=True)
class Follow:
    """Start a procedure that the accepted verdict names."""

    procedure: str


@dataclass(frozen=True, slots=True)
class Settle:
    """Say after the repair whether the complaint is gone, and which suspect was the true cause.

    The cause is a suspect's name, `elsewhere` for what the tree does not name, or empty where nobody knows.
    Where the complaint is gone and nothing is said, it is the suspect that the verdict convicts, if that is
    one alone.
    """

    fixed: bool
    cause: str = ""
    remark: str = ""


Command = (
    Acknowledge | Confirm | Choose | Read | Repeat | CannotTell | StepBack | Note | Accept | Follow | Settle
)
