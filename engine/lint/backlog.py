"""The backlog: findings that an old library came with, written down so that only new ones stop it.

A finding is known again by its file, its rule and its words, not by its line; the same words as often as they
were written down. A file is named as seen from the folder of the backlog, with `/` on every system.
"""

import json
import os
from collections import Counter
from collections.abc import Iterable
from pathlib import Path
from typing import Any, NamedTuple

from engine.errors import Failure
from engine.lint.finding import Finding
from engine.lint.identity import identity

Key = tuple[str, str, str]


class Parted(NamedTuple):
    """Findings held against a backlog."""

    new: tuple[Finding, ...]
    old: tuple[Finding, ...]
    #: How many of the backlog were not found again.
    mended: int


def part(findings: Iterable[Finding], backlog: Counter[Key], folder: Path) -> Parted:
    """The findings that the backlog does not hold, those that it does, and how many it holds in vain."""
    left = Counter(backlog)
    new: list[Finding] = []
    old: list[Finding] = []
    for finding in findings:
        key = _key(finding, folder)
        if left[key] > 0:
            left[key] -= 1
            old.append(finding)
        else:
            new.append(finding)
    return Parted(tuple(new), tuple(old), left.total())


def written(findings: Iterable[Finding], folder: Path) -> str:
    """The backlog of these findings, as the text of a file that lies in this folder."""
    counted = Counter(_key(finding, folder) for finding in findings)
    told = [
        {"file": file, "rule": rule, "message": message, "times": times}
        for (file, rule, message), times in sorted(counted.items())
    ]
    return json.dumps({"format": 1, "findings": told}, indent=1, ensure_ascii=False) + "\n"


def read(path: Path) -> Counter[Key]:
    """The backlog that a file holds; Failure where it holds none."""
    try:
        held = json.loads(path.read_text("utf-8"))
    except FileNotFoundError:
        told = f"There is no backlog {path}."
        raise Failure(told, "`witnessmark lint --write-backlog FILE` writes one.") from None
    except (OSError, ValueError, RecursionError) as error:
        raise Failure(f"The backlog {path} cannot be read: {error}.", _CURE) from None
    try:
        return _counted(held)
    except (TypeError, KeyError, ValueError):
        raise Failure(f"{path} is no backlog of lint.", _CURE) from None


_CURE = "Write it anew with `witnessmark lint --write-backlog FILE`."


def _counted(held: Any) -> Counter[Key]:
    if held["format"] != 1:
        raise ValueError
    found: Counter[Key] = Counter()
    for each in held["findings"]:
        key = (each["file"], each["rule"], each["message"])
        if not all(isinstance(part, str) for part in key) or not isinstance(each["times"], int):
            raise TypeError
        found[key] += each["times"]
    return found


def _key(finding: Finding, folder: Path) -> Key:
    file, rule, message = identity(finding)
    # two drives of one system have no way between them
    near = os.path.relpath(file, folder) if Path(file).drive == folder.drive or not folder.drive else file
    return near.replace(os.sep, "/"), rule, message
