"""What every test may rely on."""

import os
from collections.abc import Iterator
from functools import lru_cache

import pytest
from hypothesis import HealthCheck, settings

from engine.cli import crew
from engine.loading import leaf

# what a file holds depends on its bytes alone, so a process reads each once; this stands before anything
# takes the reader from its module
_patched = pytest.MonkeyPatch()
_patched.setattr(leaf, "leaf", lru_cache(maxsize=4096)(leaf.leaf))
# and shares the reading out to nobody: all cores are at work on tests
_patched.setattr(crew, "_cores", lambda: 1)

# a slow machine is no fault of what is tested: nothing here is measured in seconds
settings.register_profile("search", deadline=None, suppress_health_check=[HealthCheck.too_slow])
# and a change is judged by the same examples every time, unless somebody goes looking for others
settings.register_profile("same", settings.get_profile("search"), derandomize=True)
settings.load_profile(os.environ.get("WITNESSMARK_EXAMPLES", "same"))


@pytest.fixture(scope="session", autouse=True)
def _nothing_remembered(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    """No test sees what an earlier run remembered, and none leaves anything in the user's own cache."""
    with pytest.MonkeyPatch.context() as patched:
        patched.setitem(os.environ, "XDG_CACHE_HOME", str(tmp_path_factory.mktemp("cache")))
        yield
