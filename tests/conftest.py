"""What every test may rely on."""

import os
from collections.abc import Iterator

import pytest


@pytest.fixture(scope="session", autouse=True)
def _nothing_remembered(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    """No test sees what an earlier run remembered, and none leaves anything in the user's own cache."""
    with pytest.MonkeyPatch.context() as patched:
        patched.setitem(os.environ, "XDG_CACHE_HOME", str(tmp_path_factory.mktemp("cache")))
        yield
