"""The long tree that is measured is one that can be proven, and its cost grows as it should."""

import time
from pathlib import Path

import pytest

from benchmarks.long import write
from engine.lint.registry import RULES
from engine.lint.runner import met, run
from engine.loading import folders
from engine.loading.leaf import File
from engine.loading.library import Library, gather

_SHOP = tuple(file._replace(trusted=True) for file in folders.shipped(("shop/", "vehicles/")))


def _library(folder: Path, steps: int, *, again: bool = False) -> Library:
    paths = write(folder, steps, again=again)
    files = [File(path.name, path.name, path.read_bytes()) for path in paths]
    return gather([*files, *_SHOP])


@pytest.mark.parametrize("again", [False, True])
@pytest.mark.parametrize("steps", [100, 9_000])
def test_the_long_tree_has_nothing_wrong(tmp_path: Path, steps: int, *, again: bool) -> None:
    """Every rule looks at it, in one document or in several, and finds no error."""
    library = _library(tmp_path, steps, again=again)

    assert library.problems == ()
    assert [finding for finding in run(library) if finding.severity == "error"] == []


@pytest.mark.parametrize(("steps", "files"), [(100, 1), (9_000, 2), (100_000, 13)])
def test_the_long_tree_is_as_long_as_it_should_be(tmp_path: Path, steps: int, files: int) -> None:
    """Within a row of six steps and the ends of each document; no file is larger than is read."""
    paths = write(tmp_path, steps)
    count = sum(path.read_text(encoding="utf-8").count("\n  s") for path in paths)

    assert len(paths) == files
    assert abs(count - steps) <= 6 + 20 * files
    assert max(path.stat().st_size for path in paths) <= 2 * 1024 * 1024


def test_a_slip_deep_in_a_procedure_is_found(tmp_path: Path) -> None:
    """A raising that is left out makes each step that needs it a finding, in the second document too."""
    paths = write(tmp_path, 9_000)
    text = paths[1].read_text(encoding="utf-8").replace("sets: [raised], minutes: 2, then: s1}", "then: s1}")
    paths[1].write_text(text, encoding="utf-8")
    files = [File(path.name, path.name, path.read_bytes()) for path in paths]
    found = met(gather([*files, *_SHOP]), rules=tuple(r for r in RULES if r.slug == "missing-state"))

    assert {f.file for f in found} == {paths[1].name}


@pytest.mark.parametrize("again", [False, True])
def test_ten_times_the_steps_cost_about_ten_times_as_much(tmp_path: Path, *, again: bool) -> None:
    """What grows as the square would cost a hundred times as much; of the short runs the best of three."""

    def cost(steps: int, runs: int = 1) -> float:
        library = _library(tmp_path / str(steps), steps, again=again)
        times = []
        for _ in range(runs):
            began = time.process_time()
            run(library)
            times.append(time.process_time() - began)
        return min(times)

    cost(100)

    assert cost(6_000) / cost(600, runs=3) < 30
