"""A finding: what is wrong, where, how bad, and what cures it."""

from typing import Final, Literal, NamedTuple

from engine.errors import Problem
from engine.model.place import Place
from engine.model.stop import Stop

#: A note tells what the author should know, and may be as it should be: it stops nobody.
Severity = Literal["error", "warning", "note"]
#: Worst first.
SEVERITIES: Final[tuple[Severity, ...]] = ("error", "warning", "note")


class Finding(NamedTuple):
    """One thing that lint found; ordered by its place."""

    file: str
    line: int
    column: int
    rule: str
    severity: Severity
    message: str
    cure: str
    #: The stops of a walk that shows it, with their places; empty where the place alone shows it.
    path: tuple[Stop, ...] = ()

    @property
    def problem(self) -> Problem:
        """The finding as a plain problem."""
        return Problem(self.file, self.line, self.column, self.rule, self.message, self.cure)

    def __str__(self) -> str:
        return (
            f"{self.file}:{self.line}:{self.column}: {self.severity} {self.rule}: {self.message} {self.cure}"
        )


class Found(NamedTuple):
    """What a rule yields: it knows neither its own name nor how bad it is."""

    place: Place
    message: str
    cure: str
    path: tuple[Stop, ...] = ()


def of(problem: Problem) -> Finding:
    """A problem met while loading, as a finding."""
    return Finding(
        problem.file, problem.line, problem.column, problem.rule, "error", problem.message, problem.cure
    )
