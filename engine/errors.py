"""The few kinds of failure: facts as fields, the sentence and the cure in `__str__`."""

from typing import NamedTuple


class Problem(NamedTuple):
    """Something wrong at one place of a document; lines and columns count from 1.

    >>> print(Problem("a.yaml", 3, 7, "unknown-key", "No key `minuts`.", "Did you mean `minutes`?"))
    a.yaml:3:7: No key `minuts`. Did you mean `minutes`?
    """

    file: str
    line: int
    column: int
    rule: str
    message: str
    cure: str

    def __str__(self) -> str:
        return f"{self.file}:{self.line}:{self.column}: {self.message} {self.cure}"


class Refusal(NamedTuple):
    """An answer that cannot be taken as it stands; the walk stays where it was.

    `kind` is one word for programs; `insist` is true where the same answer, given again and
    confirmed, will be taken (a reading outside its plausible range).
    """

    kind: str
    message: str
    cure: str
    insist: bool = False

    def __str__(self) -> str:
        return f"{self.message} {self.cure}"


class Failure(Exception):  # noqa: N818  reason: the house says failure
    """What a command cannot do: one sentence, its cure, exit code 2.

    >>> print(Failure("There is no tree `no-rear`.", "Did you mean `no-rear-drive`?"))
    There is no tree `no-rear`. Did you mean `no-rear-drive`?
    """

    def __init__(self, message: str, cure: str) -> None:
        super().__init__(message, cure)
        self.message = message
        self.cure = cure

    def __str__(self) -> str:
        return f"{self.message} {self.cure}"


class Unreadable(Failure):
    """A document that must be sound before work can start is not; carries every problem."""

    def __init__(self, problems: tuple[Problem, ...]) -> None:
        first = problems[0]
        more = f" (and {len(problems) - 1} more)" if len(problems) > 1 else ""
        super().__init__(f"{first.file}:{first.line}:{first.column}: {first.message}{more}", first.cure)
        self.problems = problems


class StoreFailure(Failure):
    """The store of cases cannot do what was asked; nothing half-written was left."""


class Conflict(StoreFailure):
    """Another window has already written this sequence number of the case, with other content."""

    def __init__(self, case: str, sequence: int) -> None:
        super().__init__(
            f"Case {case} went on in another window: its event {sequence} is already written.",
            "Open the case again to see what was added; nothing was lost.",
        )
        self.case = case
        self.sequence = sequence


class Damaged(StoreFailure):
    """The store's file or an entry in it is not what was written."""


class Full(StoreFailure):
    """The disk or the store has no room for one more event."""


class NotWritable(StoreFailure):
    """The store's folder or file may not be written."""
