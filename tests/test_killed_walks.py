"""A walk that is killed loses nothing that was acknowledged, and goes on where it stood."""

import json
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

ROOT = Path(__file__).parents[1]
KILLS = 200


@pytest.fixture(scope="module")
def walks(tmp_path_factory: pytest.TempPathFactory) -> list[dict[str, Any]]:
    """What became of two hundred walks, each killed with SIGKILL at a random instant.

    A kill leaves what the process had handed to the system; it proves nothing about a loss of power.
    """
    store = tmp_path_factory.mktemp("killed") / "cases.db"
    words = [sys.executable, "-m", "tests.killed_walks", str(store), str(KILLS), "1"]
    done = subprocess.run(words, cwd=ROOT, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr[-2000:]
    return [json.loads(line) for line in done.stdout.splitlines()]


def test_all_were_killed(walks: list[dict[str, Any]]) -> None:
    """Two hundred walks were tried, and the kills fell before, among and after their events."""
    kept = {walk["kept"] for walk in walks}

    assert len(walks) == KILLS
    assert min(kept) < 2
    assert len(kept) > 30


def test_nothing_acknowledged_is_lost(walks: list[dict[str, Any]]) -> None:
    """Every event that was acknowledged is in the store; at most one more is, durable but not yet told."""
    lost = [walk for walk in walks if not walk["acknowledged"] <= walk["kept"] <= walk["acknowledged"] + 1]

    assert lost == []


def test_every_chain_is_whole(walks: list[dict[str, Any]]) -> None:
    """No kill leaves a break in the chain of hashes, nor does going on afterwards."""
    assert [walk for walk in walks if walk["breaks"] or not walk.get("whole", True)] == []


def test_every_case_resumes_to_its_verdict(walks: list[dict[str, Any]]) -> None:
    """Each case that was opened goes on to the verdict that it would have come to."""
    assert {walk["verdict"] for walk in walks if walk["kept"]} == {"coupling-is-dead"}
