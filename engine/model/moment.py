"""What can be done at a moment of a matrix, what it takes then, and what stands afterwards.

A moment is told by its **marks**: set-ups that stand (`raised`), and tests that were done (`look done`).
No name holds a space, so the two cannot be mixed up.
"""

from collections.abc import Iterator
from fractions import Fraction
from typing import NamedTuple

from engine.model.matrix import Matrix, Trial

Marks = frozenset[str]


class Step(NamedTuple):
    """A test that can come next."""

    test: Trial
    #: The set-ups to be made before it, in the order of the matrix.
    setups: tuple[str, ...]
    #: Its minutes with theirs.
    minutes: Fraction
    #: What stands, and what was done, after it.
    marks: Marks


def steps(matrix: Matrix, marks: Marks) -> Iterator[Step]:
    """The tests that can come next, as they come: each is done once, and after all that it waits for.

    >>> from engine.model.matrix import Setup
    >>> from engine.model.place import Place
    >>> here = Place("drive.yaml", 1, 1)
    >>> look = Trial("look", "", Fraction(2), (), ("raised",), (), (), here)
    >>> drive = Trial("drive", "", Fraction(9), (), (), ("raised",), ("look",), here)
    >>> matrix = Matrix("drive", "", here, (), (look, drive), (Setup("raised", "", Fraction(5), here),))
    >>> [(step.test.id, step.setups, str(step.minutes)) for step in steps(matrix, frozenset())]
    [('look', ('raised',), '7')]
    >>> [sorted(step.marks) for step in steps(matrix, frozenset({"raised", "look done"}))]
    [['drive done', 'look done']]
    """
    for test in matrix.tests:
        if done(test.id) not in marks and marks.issuperset(map(done, test.after)):
            missing = [setup for setup in matrix.setups if setup.id in test.needs and setup.id not in marks]
            minutes = sum((setup.minutes for setup in missing), test.minutes)
            standing = (marks | {done(test.id), *test.needs}) - {*test.drops}
            yield Step(test, tuple(setup.id for setup in missing), minutes, standing)


def done(test: str) -> str:
    """The mark of a test that was done.

    >>> done("look")
    'look done'
    """
    return f"{test} done"
