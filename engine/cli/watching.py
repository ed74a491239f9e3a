"""Looking again whenever a document changes, until Ctrl-C."""

import gc
import sys
from collections.abc import Callable, Iterable
from datetime import datetime
from pathlib import Path

from watchfiles import Change
from watchfiles import watch as changes_below

from engine import resources
from engine.cli.reviewed import named
from engine.errors import Failure
from engine.loading.pictures import SUFFIXES
from engine.plain import clean


def watch(paths: Iterable[Path], look: Callable[[], int]) -> int:
    """Look at once and after every change of a document or a picture; gives what the last look gave."""
    places = named(paths) or [resources.trees()]
    code = look()
    sys.stdout.flush()
    sys.stderr.write(
        f"Watching {', '.join(clean(str(path), lines=False) for path in places)}. Ctrl-C ends it.\n"
    )
    try:
        # an editor that writes a new file in place of the old one is only seen from the folder
        folders = {path if path.is_dir() else path.absolute().parent for path in places}
        for changed in changes_below(*sorted(folders), watch_filter=_looked_at, debounce=400):
            sys.stdout.flush()
            sys.stderr.write(f"\n{datetime.now():%H:%M:%S}  {_names(changed)}\n")  # noqa: DTZ005  reason: the wall clock
            code = _again(look)
    except KeyboardInterrupt:
        sys.stderr.write("\n")
    return code


def _again(look: Callable[[], int]) -> int:
    """Look; what cannot be done now may be done after the next change."""
    try:
        return look()
    except Failure as failure:
        sys.stderr.write(f"witnessmark: {clean(str(failure), lines=False)}\n")
        return 2
    finally:
        sys.stdout.flush()
        gc.collect()


def _looked_at(change: Change, path: str) -> bool:
    """Whether lint looks at such a file: documents, and the pictures that they name."""
    del change
    return path.endswith((".yaml", ".yml", *SUFFIXES))


def _names(changed: set[tuple[Change, str]]) -> str:
    names = sorted({Path(path).name for _, path in changed})
    more = f" and {len(names) - 3} more" if len(names) > 3 else ""
    return clean(", ".join(names[:3]) + more, lines=False)
