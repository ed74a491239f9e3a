"""The shipped documents that a test takes one by one: of the rehearsals, many and alike, one in five."""

from pathlib import Path
from typing import Final

from engine import resources

_EVERY: Final = 5
_ALL: Final = dict(resources.documents(resources.trees()))
_REHEARSALS: Final = sorted(name for name in _ALL if name.startswith("rehearsals/"))
#: By their names within the library.
SHIPPED: Final[dict[str, Path]] = {
    name: path for name, path in _ALL.items() if name not in _REHEARSALS or name in _REHEARSALS[::_EVERY]
}
