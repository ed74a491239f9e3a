"""What a picture shows, before anything has a place: cards for steps, ways for what leads on."""

from typing import Final, Literal, NamedTuple

Kind = Literal["do", "ask", "measure", "sort", "run", "verdict", "outcome", "missing"]
Sign = Literal["caution", "error", "warning"]

#: The words of each grade of verdict, as they stand on a card.
GRADES: Final = {
    "repair": "repair",
    "adjust": "adjust",
    "no-fault": "no fault found",
    "refer": "refer",
}


class Mark(NamedTuple):
    """Something that a card warns of: a caution before the step, or what lint found at it."""

    sign: Sign
    text: str


class Card(NamedTuple):
    """One step, or one outcome of a procedure, or a target that is not there."""

    name: str
    #: Counted from 1 in the order of the text; 0 for a target that is not there.
    number: int
    kind: Kind
    #: Of a verdict; empty for all others.
    grade: str
    text: str
    #: Smaller lines below the text: whom a verdict convicts, what is read, how long it takes.
    notes: tuple[str, ...] = ()
    marks: tuple[Mark, ...] = ()
    #: Why the step is there, or what corrects the fault; shown where somebody points at the card.
    more: str = ""
    #: When a walked case came here, counted from 1.
    visits: tuple[int, ...] = ()

    @property
    def heading(self) -> str:
        """The kind in words: `ASK`, `VERDICT: REPAIR`."""
        grade = GRADES.get(self.grade, self.grade)
        return f"{self.kind}: {grade}".upper() if grade else self.kind.upper()


class Way(NamedTuple):
    """One way out of a step."""

    source: str
    then: str
    #: What is answered, read or known; empty where there is only one way on.
    text: str
    #: The step could not be done or told.
    aside: bool = False
    #: When a walked case went this way: the number of the visit it left by.
    taken: tuple[int, ...] = ()
    #: Whether the vehicle's sheet rules it out.
    barred: bool = False


class Chart(NamedTuple):
    """A whole picture without places."""

    title: str
    #: Lines below the title: the complaint, the tree with its revision, the vehicle, the case.
    about: tuple[str, ...]
    #: What lint found that belongs to no one step.
    marks: tuple[Mark, ...]
    start: str
    cards: tuple[Card, ...]
    ways: tuple[Way, ...]
