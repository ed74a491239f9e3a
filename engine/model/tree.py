"""Trees and procedures: frozen documents of the six kinds of step."""

from collections.abc import Mapping
from dataclasses import Field, dataclass
from fractions import Fraction
from typing import ClassVar, NamedTuple, TypeVar, dataclass_transform

from engine.model.place import Place

_Kind = TypeVar("_Kind")


#: A word of a document that names something defined elsewhere: (kind, name, line, column). A plain
#: tuple, since a document has hundreds and hardly any is ever looked at again.
#:
#: Kinds: target (a step, or an outcome of the procedure), procedure, state, caution, gauge, suspect,
#: source, fact, figure, unit, sheet (a value of the sheet), value (`fact=value`), outcome
#: (`procedure=outcome`).
Reference = tuple[str, str, int, int]


class Limit(NamedTuple):
    """One end of a band: a number in the unit of its step, or a value of the vehicle's sheet."""

    #: The number, where the document gives one.
    value: Fraction | None
    #: The reference without its leading `sheet.`, where the sheet gives it (`tyres.spread.max`).
    sheet: str | None
    #: Whether the limit itself lies in the band (`upto`, `from`) or outside (`below`, `over`).
    owned: bool
    place: Place


class Band(NamedTuple):
    """A stretch of readings that leads on to one step."""

    low: Limit | None
    high: Limit | None
    then: str
    #: What the band means in words; shown beside its limits.
    say: str
    fits: Mapping[str, Fraction]
    source: str
    place: Place


class Answer(NamedTuple):
    """One answer to a question, and the step it leads to."""

    say: str
    then: str
    fits: Mapping[str, Fraction]
    place: Place


class Wanted(NamedTuple):
    """A reading that a step asks for: its name, its unit, the gauge, and the plausible range."""

    name: str
    unit: str
    gauge: str
    low: Fraction
    high: Fraction
    place: Place


class _Compared:
    """Compares and shows itself by its fields; written once for all kinds of steps and documents."""

    __slots__ = ()
    __dataclass_fields__: ClassVar[dict[str, Field[object]]]
    name: str
    place: Place

    def __eq__(self, other: object) -> bool:
        if type(other) is not type(self):
            return NotImplemented
        return all(getattr(self, name) == getattr(other, name) for name in self.__dataclass_fields__)

    def __hash__(self) -> int:
        return hash((type(self), self.name, self.place))

    def __repr__(self) -> str:
        return f"<{type(self).__name__} {self.name} at {self.place}>"


@dataclass_transform(frozen_default=True, kw_only_default=True)
def _kind(kind: type[_Kind]) -> type[_Kind]:
    """A frozen dataclass of which only the constructor is made anew.

    Steps compare and show themselves alike. Whole dataclasses for every kind would cost more at
    start-up than reading and checking a tree.
    """
    return dataclass(frozen=True, slots=True, kw_only=True, eq=False, repr=False)(kind)


@_kind
class Step(_Compared):
    """What every kind of step has."""

    name: str
    place: Place
    why: str = ""
    needs: tuple[str, ...] = ()
    forbids: tuple[str, ...] = ()
    sets: tuple[str, ...] = ()
    clears: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    minutes: Fraction = Fraction(0)
    source: str = ""
    #: Values of the sheet shown beside the text (`torques.propeller-shaft-flange`).
    show: tuple[str, ...] = ()


@_kind
class Do(Step):
    """Something to do before going on."""

    text: str
    then: str
    unsure: str = ""


@_kind
class Ask(Step):
    """Something to observe, with its possible answers."""

    text: str
    answers: tuple[Answer, ...]
    unsure: str = ""


@_kind
class Measure(Step):
    """One or more readings, compared (themselves, or as one figure of them) with bands."""

    text: str
    readings: tuple[Wanted, ...]
    #: The calculator that makes one figure of the readings; empty where the one reading decides.
    figure: str
    #: The unit in which bare numbers of the bands are meant.
    unit: str
    bands: tuple[Band, ...]
    unsure: str = ""


@_kind
class Sort(Step):
    """A branch that the vehicle's sheet answers; never asked."""

    fact: str
    cases: Mapping[str, str]


@_kind
class Run(Step):
    """A procedure entered here and left by one of its named outcomes."""

    procedure: str
    outcomes: Mapping[str, str]


@_kind
class Verdict(Step):
    """Where a tree ends: the cause in words, whom it convicts, and what corrects it."""

    text: str
    suspects: tuple[str, ...]
    #: repair | adjust | no-fault | refer
    grade: str
    correction: str
    follow: tuple[str, ...] = ()


class Suspect(NamedTuple):
    """A cause that the tree may convict, with its weight before any evidence."""

    name: str
    title: str
    weight: Fraction
    correction: str
    place: Place


class Source(NamedTuple):
    """Where a statement comes from: published (with its citation), common practice, memory or invented."""

    name: str
    kind: str
    cite: str
    place: Place


@_kind
class Document(_Compared):
    """What trees and procedures share: a start and steps that lead on from it."""

    name: str
    place: Place
    title: str
    revision: int
    #: Facts that a sheet must have for this document to be meant for it.
    facts: Mapping[str, tuple[str, ...]]
    sources: Mapping[str, Source]
    start: str
    steps: Mapping[str, Step]
    #: Every word that names something else, with its place, in the order of the text.
    references: tuple[Reference, ...] = ()


@_kind
class Tree(Document):
    """A diagnosis: from a complaint to a verdict."""

    complaint: str
    suspects: Mapping[str, Suspect]
    #: The probability below which a reading is too close to its limit to call.
    confidence: Fraction


@_kind
class Procedure(Document):
    """Something done the same way in many trees, left by one of its named outcomes."""

    outcomes: Mapping[str, str]
