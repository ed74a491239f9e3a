"""Ten thousand damaged documents in a library of sound ones, each linted by every rule to the end."""

import time
from collections import Counter
from collections.abc import Callable, Iterable, Iterator
from functools import cache
from typing import Final, NamedTuple

import pytest

from engine.lint.finding import Finding
from engine.lint.runner import run
from engine.loading.breaks import lines
from engine.loading.leaf import File, Leaf, leaf
from engine.loading.library import Library, gather
from tests.engine.loading.mutants import DOCUMENTS, KINDS, LONG, Mutant, around, mutants

COUNT: Final = 10_000
PARTS: Final = 20
#: In every so many the sound documents around are linted as well, which takes four times as long.
_AROUND_ONE_IN: Final = 10
#: The most that any one may take, in seconds of computing, on a busy machine; the slowest take a fiftieth.
BOUND: Final = 10.0
_SOUND: Final[dict[str, Leaf]] = {
    file.path: leaf(file._replace(trusted=True)) for file in (*around(LONG), *DOCUMENTS)
}


class Linted(NamedTuple):
    """A mutant, what was found, what was raised, and the seconds of computing that it took."""

    mutant: Mutant
    findings: tuple[Finding, ...]
    built: bool
    raised: str
    seconds: float


def _library(mutant: Mutant) -> Library:
    """The mutant among the sound documents, which are not read anew."""
    path = mutant.original.path

    def reading(read: Callable[[File], Leaf], files: Iterable[File]) -> Iterator[Leaf]:
        return (read(file) if file.path == path else _SOUND[file.path] for file in files)

    return gather((File(path, path, mutant.content), *around(mutant.original)), reading)


def _linted(mutant: Mutant) -> Linted:
    began = time.process_time()
    try:
        library = _library(mutant)
        alone = frozenset({mutant.original.path})
        findings = run(library, alone if mutant.number % _AROUND_ONE_IN else frozenset())
    except Exception as error:  # noqa: BLE001  reason: whatever it is, it is what the test looks for
        return Linted(mutant, (), built=False, raised=repr(error), seconds=time.process_time() - began)
    return Linted(mutant, findings, not library.problems, "", time.process_time() - began)


@cache
def linted(part: int) -> tuple[Linted, ...]:
    """A part of the mutants, linted."""
    return tuple(map(_linted, mutants(part * COUNT // PARTS, COUNT // PARTS)))


@pytest.mark.parametrize("part", range(PARTS))
def test_nothing_is_raised(part: int) -> None:
    """Whatever a document holds, the linter tells of it and ends."""
    assert [(each.mutant.name, each.raised) for each in linted(part) if each.raised] == []


@pytest.mark.parametrize("part", range(PARTS))
def test_none_takes_long(part: int) -> None:
    """Every one is read and linted in less than the bound."""
    assert [(each.mutant.name, each.seconds) for each in linted(part) if each.seconds > BOUND] == []


@pytest.mark.parametrize("part", range(PARTS))
def test_every_finding_stands_in_a_text(part: int) -> None:
    """Line and column lie within the file that is named; message and cure are there."""
    lame = [
        (each.mutant.name, finding)
        for each in linted(part)
        for finding in each.findings
        if not (_placed(finding, each.mutant) and finding.message.strip() and finding.cure.strip())
    ]

    assert lame == []


_ROWS: Final = {file.shown: lines(file.content.decode()) for file in (*around(LONG), *DOCUMENTS)}


def _placed(finding: Finding, mutant: Mutant) -> bool:
    own = finding.file == mutant.original.path
    rows = lines(mutant.content.decode(errors="replace")) if own else _ROWS[finding.file]
    return 1 <= finding.line <= len(rows) and 1 <= finding.column <= len(rows[finding.line - 1]) + 1


def test_the_sound_library_is_clean() -> None:
    """What is found in a mutant was not there before, but for practice that short documents leave out."""
    whole = Mutant(0, (), DOCUMENTS[0], DOCUMENTS[0].content)
    practice = {"hazard-without-caution", "limit-without-source"}
    errors = (finding for finding in run(_library(whole)) if finding.severity == "error")

    assert [finding for finding in errors if finding.rule not in practice] == []


def test_the_rules_meet_enough_of_them() -> None:
    """Three in ten are documents all the same, so that the rules and not only the reader are tried."""
    everyone = [each for part in range(PARTS) for each in linted(part)]

    assert len(everyone) == COUNT
    assert sum(each.built for each in everyone) >= COUNT * 3 // 10
    assert sum(each.built and bool(each.findings) for each in everyone) >= COUNT // 20


def test_every_kind_of_damage_is_done() -> None:
    """Each a dozen times at the least, whatever else is done to the same document."""
    done = Counter(kind for mutant in mutants(0, COUNT) for kind in {*mutant.done})

    assert sorted(kind for kind in KINDS if done[kind] < 12) == []


def test_every_document_is_damaged() -> None:
    """Each two dozen times at the least, the long tree among them."""
    damaged = Counter(mutant.original.path for mutant in mutants(0, COUNT))

    assert sorted(file.path for file in (LONG, *DOCUMENTS) if damaged[file.path] < 24) == []
