"""Pairs of small documents, and what is said of the change from one to the other."""

from pathlib import Path
from typing import Any

import pytest
import yaml

from engine.loading import folders
from engine.loading.leaf import File
from engine.loading.library import gather
from engine.proof.compare.compare import Comparison, Version, compare

_CASES = sorted((Path(__file__).parent / "documents").glob("*.yaml"))


def _read(path: Path) -> tuple[dict[str, Any], Comparison]:
    """What a case expects, and the comparison of its two versions."""
    case = yaml.safe_load(path.read_text(encoding="utf-8"))
    old, new = (_version(case[side]) for side in ("old", "new"))
    return case["expect"], compare(old, new)


def _version(text: str) -> Version:
    shipped = (file._replace(trusted=True) for file in folders.shipped(("shop/", "vehicles/")))
    library = gather((File("bench.yaml", "bench.yaml", text.encode()), *shipped))
    assert library.problems == ()
    return Version(library, frozenset(("tree bench",)))


@pytest.mark.parametrize("path", _CASES, ids=lambda path: path.stem)
def test_a_change_is_told_as_it_is(path: Path) -> None:
    """The moved verdicts, the kinds of change, which of them are serious, and the paths gained and lost."""
    expected, found = _read(path)
    paths = found.paths.get("tree bench")

    assert [f"{each.moved.old} -> {each.moved.new}" for each in found.moved] == expected["moved"]
    assert sorted(change.kind for change in found.changes) == sorted(expected["changes"])
    assert sorted(change.kind for change in found.changes if change.serious) == sorted(expected["serious"])
    gained, lost = (paths.new - paths.shared, paths.old - paths.shared) if paths else (0, 0)
    assert [gained, lost] == expected["paths"]
    assert set(expected.get("says", ())) <= {change.message for change in found.changes}
    if "walk" in expected:
        assert [f"{line.step}: {line.answer}" for line in found.moved[0].moved.walk] == expected["walk"]


def test_serious_changes_come_first() -> None:
    """Whatever the order of the text."""
    for path in _CASES:
        serious = [change.serious for change in _read(path)[1].changes]

        assert serious == sorted(serious, reverse=True)
