"""What every test may rely on."""

import gc
import os
import sys
from collections.abc import Iterator
from typing import Final

import pytest
from hypothesis import HealthCheck, settings

from engine.cli import crew
from tests.once import read_once

read_once()  # before anything takes the reader from its module
# the reading is shared out to nobody: all cores are at work on tests
pytest.MonkeyPatch().setattr(crew, "_cores", lambda: 1)

# a slow machine is no fault of what is tested: nothing here is measured in seconds
settings.register_profile("search", deadline=None, suppress_health_check=[HealthCheck.too_slow])
# and a change is judged by the same examples every time, unless somebody goes looking for others
settings.register_profile("same", settings.get_profile("search"), derandomize=True)
settings.load_profile(os.environ.get("WITNESSMARK_EXAMPLES", "same"))


#: The files whose tests take longest, the longest first. Begun last, one of them would keep one core at work
#: alone.
_LONG: Final = tuple(
    f"test_{name}.py"
    for name in (
        "mutants",
        "terminal",
        "measure",
        "readme",
        "calculators",
        "captures",
        "plan",
        "walk",
        "oracle",
        "against_z3",
        "mutations",
        "planted",
        "calculator",
        "killed_walks",
        "app",
        "scale",
        "shipped_trees",
        "processes",
        "trail",
        "drafting",
    )
)


#: How deep calls may go before anything has asked for more.
_DEEP: Final = sys.getrecursionlimit()


def pytest_configure(config: pytest.Config) -> None:
    """Files are begun in the order of their tests, and not those with the fewest tests last."""
    config.option.loadscopereorder = False


@pytest.hookimpl(wrapper=True)
def pytest_collection() -> Iterator[None]:
    """What is collected stays: to look for garbage meanwhile takes a quarter of the time for nothing."""
    gc.disable()
    try:
        return (yield)
    finally:
        gc.enable()


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """What takes long comes first."""
    ranks = {name: rank for rank, name in enumerate(_LONG)}
    items.sort(key=lambda item: ranks.get(item.path.name, len(ranks)))


def pytest_collection_finish() -> None:
    """What was collected stays to the end; whoever looks for garbage need not go through it every time."""
    gc.collect()
    gc.freeze()


def pytest_runtest_teardown() -> None:
    """A planner lets calls go deeper for good; the next test must not meet the end of the stack instead."""
    sys.setrecursionlimit(_DEEP)


@pytest.fixture(scope="session", autouse=True)
def _nothing_remembered(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    """No test sees what an earlier run remembered, and none leaves anything in the user's own cache."""
    with pytest.MonkeyPatch.context() as patched:
        patched.setitem(os.environ, "XDG_CACHE_HOME", str(tmp_path_factory.mktemp("cache")))
        yield
