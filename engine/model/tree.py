"""Trees and procedures: frozen documents of the six kinds of step."""

from collections.abc import Mapping, Sequence
from fractions import Fraction
from typing import Final, NamedTuple

from engine.model.place import Place
from engine.model.value import Value

#: A word of a document that names something defined elsewhere: (name, line, column). A plain tuple, since a
#: document has hundreds and hardly any is ever looked at again.
Reference = tuple[str, int, int]

#: All references of a document by the kind of what they name, each kind in the order of the text.
#:
#: Kinds: target (a step, or an outcome of the procedure), procedure, state, caution, gauge, suspect,
#: source, picture (a file), fact, figure, unit, sheet (a value of the sheet), value (`fact=value`), outcome
#: (`procedure=outcome`).
References = Mapping[str, Sequence[Reference]]

NO_REFERENCES: Final[References] = {}

#: What is suspected beside the suspects of a tree: something that it does not name. `fits` may name it.
ELSEWHERE: Final = "elsewhere"

#: Four in five: of five parts that are replaced on such a verdict, one at most was good.
CONDEMN: Final = Fraction(4, 5)

NO_FITS: Final[Mapping[str, Mapping[str, Fraction]]] = {}


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
    #: What it gives to the calculator of its step, and what that must say of it; both or none.
    given: str = ""
    gives: str = ""


#: The name, among what a calculator is given, of what an answer gives.
ANSWER: Final = "answer"


class Wanted(NamedTuple):
    """A reading that a step asks for: its name, its unit, the gauge, and the plausible range."""

    name: str
    unit: str
    gauge: str
    low: Fraction
    high: Fraction
    place: Place


class Fed(NamedTuple):
    """What one input of a calculator is given: readings of the step, a value of the sheet, or a figure."""

    name: str
    #: Names of readings; empty where something else is given.
    readings: tuple[str, ...]
    #: The reference, without its leading `sheet.`; empty where something else is given.
    sheet: str
    #: As a person would type it; empty where something else is given.
    typed: str
    place: Place


class Step(Value):
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
    #: The path of a picture inside the library; empty where the words say it all.
    picture: str = ""


class Do(Step):
    """Something to do before going on."""

    text: str
    then: str
    unsure: str = ""


class Ask(Step):
    """Something to observe, with its possible answers."""

    text: str
    answers: tuple[Answer, ...]
    unsure: str = ""
    #: The calculator that gives the reason for where an answer leads; empty where none does.
    figure: str = ""
    #: What it is given; the reading `answer` stands for what the answer gives.
    given: tuple[Fed, ...] = ()
    #: Which of its outputs the answers rely on; where nothing is said, the first.
    gives: str = ""


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
    #: What the calculator is given; where nothing is said, all readings are its first input.
    given: tuple[Fed, ...] = ()
    #: Which of its outputs is held against the bands; where nothing is said, the first.
    gives: str = ""


class Sort(Step):
    """A branch that the vehicle's sheet answers; never asked."""

    fact: str
    cases: Mapping[str, str]


class Run(Step):
    """A procedure entered here and left by one of its named outcomes."""

    procedure: str
    outcomes: Mapping[str, str]
    #: By outcome: how often the procedure is left by it where a suspect is to blame.
    fits: Mapping[str, Mapping[str, Fraction]] = NO_FITS


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
    #: Minutes of its repair, where the tree says them, and the states that the vehicle is in for it.
    repair: Fraction | None = None
    needs: tuple[str, ...] = ()


class Source(NamedTuple):
    """Where a statement comes from: published (with its citation), common practice, memory or invented."""

    name: str
    kind: str
    cite: str
    place: Place


class Document(Value):
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
    #: Ready for work on real vehicles, as its author says.
    released: bool = False
    #: Every word that names something else, with its place.
    references: References = NO_REFERENCES


class Tree(Document):
    """A diagnosis: from a complaint to a verdict."""

    complaint: str
    suspects: Mapping[str, Suspect]
    #: The probability below which a reading is too close to its limit to call.
    confidence: Fraction
    #: The weight of `ELSEWHERE` before any evidence; None where the tree leaves it to the engine.
    elsewhere: Fraction | None = None
    #: The probability of its suspects below which a verdict is too weak to condemn.
    condemn: Fraction = CONDEMN


class Procedure(Document):
    """Something done the same way in many trees, left by one of its named outcomes."""

    outcomes: Mapping[str, str]
