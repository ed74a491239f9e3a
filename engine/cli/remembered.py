"""What lint found in the same files the last time, so that it need not look again.

The key is all that the findings depend on: the bytes and names of every file, and the program itself. What is
remembered is plain JSON in the user's own cache folder. It may be thrown away at any time; where the folder
cannot be used, lint does its work each time.
"""

import hashlib
import json
import os
import sys
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path
from typing import Any, Final

from engine import resources
from engine.cli.reviewed import Papers
from engine.lint.finding import Finding
from engine.lint.review import Accepted
from engine.model.place import Place
from engine.model.stop import Stop

#: So many runs are remembered; the oldest goes first.
_MOST: Final = 40

Found = tuple[tuple[Finding, ...], tuple[Accepted, ...], int]


def key(papers: Papers) -> str:
    """A name for these files under this program."""
    digest = hashlib.blake2b(_program(), digest_size=24)
    for file in (*papers.own, *papers.referred):
        for part in (file.shown, file.path, repr(file.trusted), "\n".join(sorted(file.pictures))):
            digest.update(part.encode("utf-8", "surrogateescape") + b"\0")
        digest.update(hashlib.blake2b(file.content, digest_size=24).digest())
    return digest.hexdigest()


def recall(name: str) -> Found | None:
    """The findings, what is accepted, and how many trees there were; None where nothing is remembered."""
    path = _folder() / f"{name}.json"
    try:
        held = json.loads(path.read_bytes())
        findings = tuple(_finding(each) for each in held["findings"])
        accepted = tuple(Accepted(_finding(each), reason) for each, reason in held["accepted"])
        trees = int(held["trees"])
    except (OSError, ValueError, TypeError, KeyError, RecursionError):
        return None
    with suppress(OSError):
        os.utime(path)  # what is used stays
    return findings, accepted, trees


def remember(name: str, found: Found) -> None:
    """Keep the findings for the next time, where that can be done."""
    findings, accepted, trees = found
    held = {
        "findings": findings,
        "accepted": [(each.finding, each.reason) for each in accepted],
        "trees": trees,
    }
    folder = _folder()
    part = folder / f"{name}.{os.getpid()}.part"
    with suppress(OSError):
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
        part.write_text(json.dumps(held), "utf-8")
        part.replace(folder / f"{name}.json")
        _forget(folder)


def _forget(folder: Path) -> None:
    """Throw away the oldest runs, and what a run that was stopped has left."""
    dated = sorted((entry.stat().st_mtime, entry.path) for entry in os.scandir(folder))
    for _, path in dated[: -_MOST or None]:
        Path(path).unlink(missing_ok=True)


def _finding(told: Any) -> Finding:
    file, line, column, rule, severity, message, cure, path = told
    stops = tuple(Stop(said, Place(*place)) for said, place in path)
    return Finding(file, int(line), int(column), rule, severity, message, cure, stops)


def _folder() -> Path:
    from platformdirs import user_cache_path

    return user_cache_path("witnessmark", appauthor=False) / "lint"


def _program() -> bytes:
    """What stands for the program: its code and schemas, byte by byte, so that no change is missed."""
    digest = hashlib.blake2b(sys.version.encode(), digest_size=24)
    for path, content in sorted(_sources()):
        digest.update(f"{path}\0{len(content)}\0".encode())
        digest.update(content)
    return digest.digest()


def _sources() -> Iterator[tuple[str, bytes]]:
    home = Path(__file__).parents[1]
    for folder, _, names in os.walk(home):
        for name in names:
            if name.endswith(".py"):
                path = Path(folder, name)
                yield path.relative_to(home).as_posix(), path.read_bytes()
    yield from resources.schemas()
