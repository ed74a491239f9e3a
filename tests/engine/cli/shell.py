"""The real program in a process of its own, through pipes, on documents and a store of the test's."""

import os
import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path
from textwrap import dedent
from typing import Final

from tests.engine.cli.spoken import LOOK, PROVE, TREE
from tests.engine.interview.given import SHOP

ROOT: Final = Path(__file__).parents[3]
#: What the documents of the tests need beside the shipped shop; their states and cautions are the shop's own.
_NEEDED: Final = ("shop/gauges.yaml", "shop/facts.yaml", "vehicles/wagon.yaml")
_CAUTIONS: Final = """
    cautions:
      hot: {title: Hot parts, text: The exhaust burns., source: habit}
      turning: {title: Turning wheels, text: Stand clear of the wheels., source: habit}
    format: 1
    sources: {habit: {kind: common-practice}}
    """


@dataclass(frozen=True, slots=True)
class Ended:
    """How the program ended: its exit code and all that it wrote."""

    code: int
    out: str
    err: str


@dataclass(frozen=True, slots=True)
class Shell:
    """A folder with documents and a store, and the program started there."""

    folder: Path

    def write(self, name: str, text: str) -> Path:
        """A file below the folder; gives its path."""
        path = self.folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(dedent(text), encoding="utf-8")
        return path

    def run(self, *words: str, typed: str | bytes = "", **environment: str) -> Ended:
        """The program with these words, its input typed beforehand."""
        content = typed if isinstance(typed, bytes) else typed.encode()
        ended = subprocess.run(
            [sys.executable, "-m", "tui", *words],
            cwd=self.folder,
            env=self.environment(**environment),
            input=content,
            capture_output=True,
            timeout=120,
            check=False,
        )
        return Ended(ended.returncode, ended.stdout.decode(), ended.stderr.decode())

    def environment(self, **more: str) -> dict[str, str]:
        """The environment of the program: nothing of the user's own data, and a plain UTF-8 terminal."""
        kept = {
            name: os.environ[name]
            for name in ("PATH", "SYSTEMROOT", "COVERAGE_PROCESS_START")
            if name in os.environ
        }
        return kept | {"PYTHONPATH": str(ROOT), "HOME": str(self.folder), "LC_ALL": "C.UTF-8"} | more

    def walk(self, *words: str, typed: str | bytes = "", **environment: str) -> Ended:
        """A plain walk of the test tree on the wagon, in the case `one`."""
        named = () if "--case" in words else ("--case", "one")
        fixed = ("--plain", "--library", "own", "--store", "cases.db", *named)
        return self.run("walk", *words, *fixed, typed=typed, **environment)


def shell(folder: Path, *documents: str) -> Shell:
    """A shell whose folder `own` has these documents, or the tree that the other tests talk through."""
    made = Shell(folder)
    for path in _NEEDED:
        made.write(f"own/{path}", SHOP[path])
    made.write("own/shop/cautions.yaml", _CAUTIONS)
    for number, text in enumerate(documents or (TREE, LOOK, PROVE)):
        made.write(f"own/documents/{number}.yaml", text)
    return made
