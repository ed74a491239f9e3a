"""The documents that a command is to look at, and the shipped ones that these may refer to."""

import re
from collections.abc import Iterable
from itertools import chain
from pathlib import Path
from typing import Final, NamedTuple

from engine.cli.crew import together
from engine.cli.progress import counted
from engine.cli.settings import settings
from engine.errors import Failure
from engine.loading import folders
from engine.loading.leaf import File
from engine.loading.library import Library, gather

_REHEARSAL: Final = re.compile(rb"^rehearsal:", re.MULTILINE)


class Papers(NamedTuple):
    """Files as they lie on disk at one moment."""

    #: Those that were asked for.
    own: tuple[File, ...]
    #: The shipped ones that they may refer to; they were linted before they were shipped.
    referred: tuple[File, ...]

    @property
    def shown(self) -> frozenset[str]:
        """The names of the files that were asked for."""
        return frozenset(file.shown for file in self.own)

    def library(self) -> Library:
        """The library that these files make, read by every core where they are many."""
        return gather(chain(counted(self.own, "reading"), self.referred), together)


def named(paths: Iterable[Path]) -> list[Path]:
    """What is looked at: these paths, else the folders of the settings, else ./trees; else nothing."""
    return [*paths] or [*settings().library] or [path for path in (Path("trees"),) if path.is_dir()]


def papers(paths: Iterable[Path]) -> Papers:
    """The files to look at: those of these paths, or the whole shipped library where there are none.

    Raises Failure where a path is not there or holds no document.
    """
    chosen = named(paths)
    for path in chosen:
        if not path.exists():
            raise Failure(f"There is no file or folder {path}.", "Check the path.")
    own = tuple(folders.below(chosen)) if chosen else tuple(folders.shipped())
    if not own:
        raise Failure(f"There is no YAML file below {chosen[0]}.", "Name a folder of documents.")
    return Papers(own, _referred(own) if chosen else ())


def _referred(own: tuple[File, ...]) -> tuple[File, ...]:
    """The shipped documents; one that the paths give anew makes way for it."""
    scripted = any(_REHEARSAL.search(file.content) for file in own)
    kinds = ("shop/", "procedures/", "vehicles/", *(("complaints/",) if scripted else ()))
    shown = {file.shown for file in own}
    others = (file for file in folders.shipped(kinds) if file.shown not in shown)
    return tuple(file._replace(trusted=True) for file in others)


def under_review(paths: Iterable[Path]) -> tuple[Library, frozenset[str]]:
    """The library to look at, and the files of it that were asked for."""
    held = papers(paths)
    return held.library(), held.shown
