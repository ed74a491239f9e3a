"""What widgets and screens tell those above them: small values, nothing of the case itself."""

from dataclasses import dataclass

from textual.message import Message


@dataclass
class Picked(Message):
    """A line was chosen, by Enter or by the mouse.

    `turn` is the question it was shown with: an answer that was on its way when the question changed is late.
    """

    turn: int
    #: Counted from 0 within the list.
    line: int


@dataclass
class Typed(Message):
    """The text of a field changed."""

    name: str
    text: str


@dataclass
class Opened(Message):
    """A job is at hand now; show what it asks."""


@dataclass
class Turned(Message):
    """The walk moved on; another kind of screen may be due."""


@dataclass
class Drawn(Message):
    """What the job asks now has been drawn; `pause` seconds must pass before it can have been read."""

    pause: float = 0.0


@dataclass
class Left(Message):
    """The job was put aside."""
