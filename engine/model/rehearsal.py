"""A scripted walk: the vehicle, the answers in order, and the verdict it must end in."""

from collections.abc import Mapping
from typing import NamedTuple

from engine.model.place import Place


class Line(NamedTuple):
    """One line of the script, meant for one step.

    Exactly one of the fields after `at` is used: `say` answers a question, `read` gives readings
    by name (a single reading under the empty name), `done` confirms, `unsure` says why not,
    `back` returns to an earlier step, `follow` accepts the verdict and starts a procedure.
    """

    #: The step, as `step` or `procedure/step`.
    at: str
    say: str | None
    read: Mapping[str, str]
    done: bool
    unsure: str | None
    back: bool
    #: The procedure started after the verdict at this step was accepted; empty for none.
    follow: str
    #: Confirms readings outside their plausible range.
    insist: bool
    place: Place


class Rehearsal(NamedTuple):
    """A walk with every answer known beforehand; steps to do and cautions confirm themselves."""

    name: str
    place: Place
    title: str
    tree: str
    vehicle: str
    lines: tuple[Line, ...]
    #: The verdict step that the walk must end in; empty in a plain answers file.
    verdict: str
