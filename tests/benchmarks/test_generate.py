"""The generated trees have nothing wrong, and what is wrong on one sheet is told of that sheet."""

from functools import partial
from pathlib import Path

import pytest

from benchmarks.generate import by_sheet, write
from engine.lint.runner import run
from engine.loading import folders
from engine.loading.leaf import File
from engine.loading.library import gather

_SHARED = tuple(file._replace(trusted=True) for file in folders.shipped(("shop/", "vehicles/")))


def _found(folder: Path, *, one: bool, slip: tuple[bytes, bytes] = (b"-", b"-")) -> list[tuple[str, str]]:
    """Rule and message of what is wrong in two trees; the slip is made in one sheet."""
    paths = sorted(write(folder, 2, partial(by_sheet, one=one)).rglob("*.yaml"))
    shared = [
        file._replace(content=file.content.replace(*slip)) if b"vehicle: skerry" in file.content else file
        for file in _SHARED
    ]
    files = [File(path.name, path.name, path.read_bytes()) for path in paths]
    wanted = frozenset(path.name for path in paths)
    return [(finding.rule, finding.message) for finding in run(gather([*files, *shared]), wanted)]


@pytest.mark.parametrize("one", [True, False])
def test_limits_of_the_sheets_have_nothing_wrong(tmp_path: Path, *, one: bool) -> None:
    """Neither for one sheet nor for four."""
    assert [rule for rule, _ in _found(tmp_path, one=one) if rule != "no-rehearsal"] == []


def test_each_sheet_is_proven(tmp_path: Path) -> None:
    """A limit of 30 mm on one sheet of four overlaps the band from 20 on, on that sheet alone."""
    slip = (b"max: {is: 10, unit: mm", b"max: {is: 30, unit: mm")
    found = _found(tmp_path, one=False, slip=slip)
    told = [message for rule, message in found if rule == "band-overlap"]

    assert told != []
    assert [message for message in told if "skerry" not in message] == []
