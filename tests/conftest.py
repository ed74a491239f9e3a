"""What every test may rely on."""

import os
from collections.abc import Iterator

import pytest
from hypothesis import HealthCheck, settings

# a slow machine is no fault of what is tested: nothing here is measured in seconds
settings.register_profile("untimed", deadline=None, suppress_health_check=[HealthCheck.too_slow])
settings.load_profile("untimed")


@pytest.fixture(scope="session", autouse=True)
def _nothing_remembered(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    """No test sees what an earlier run remembered, and none leaves anything in the user's own cache."""
    with pytest.MonkeyPatch.context() as patched:
        patched.setitem(os.environ, "XDG_CACHE_HOME", str(tmp_path_factory.mktemp("cache")))
        yield
