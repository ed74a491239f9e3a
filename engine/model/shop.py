"""What the whole workshop shares: cautions, states, gauges, facts."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from typing import NamedTuple

from engine.model.place import Place


class Caution(NamedTuple):
    """What can hurt, and what keeps it from hurting; acknowledged before the step."""

    name: str
    title: str
    text: str
    source: str
    place: Place
    #: Words in the text of a step that call for this caution (`raise`, `turn ... wheel`).
    words: tuple[str, ...] = ()


class State(NamedTuple):
    """Something that may be true of the vehicle while it is worked on: raised, engine running."""

    name: str
    title: str
    #: No verdict may be given while it may still hold.
    must_clear: bool
    excludes: tuple[str, ...]
    place: Place


class Gauge(NamedTuple):
    """A measuring tool: the smallest step it shows, and its standard uncertainty."""

    name: str
    title: str
    unit: str
    resolution: Fraction
    uncertainty: Fraction
    source: str
    place: Place


class Fact(NamedTuple):
    """Something a sheet says of a vehicle, with its allowed values and what each means."""

    name: str
    title: str
    values: Mapping[str, str]
    place: Place


@dataclass(frozen=True, slots=True)
class Shop:
    """All that the documents of one library share."""

    cautions: Mapping[str, Caution] = field(default_factory=dict)
    states: Mapping[str, State] = field(default_factory=dict)
    gauges: Mapping[str, Gauge] = field(default_factory=dict)
    facts: Mapping[str, Fact] = field(default_factory=dict)
