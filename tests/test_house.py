"""What the contributor guide says of the house is true of it."""

import ast
import re
import subprocess
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
GUIDE = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
CODE = sorted(path for folder in ("engine", "tui") for path in (ROOT / folder).rglob("*.py"))
PARTS = sorted(p.stem for p in (ROOT / "engine").iterdir() if p.name[0] != "_" and p.name != "py.typed")


def _name(path: Path) -> str:
    return path.relative_to(ROOT).as_posix()


@pytest.mark.parametrize("part", PARTS)
def test_every_part_is_in_the_guide(part: str) -> None:
    """The table of the house has a row for each part of the engine."""
    assert re.search(rf"^\|.*`{part}/?`.*\|", GUIDE, re.MULTILINE)


@pytest.mark.parametrize("path", CODE, ids=_name)
def test_every_module_says_why_it_exists(path: Path) -> None:
    """Each module opens with a sentence that says what it is for."""
    assert ast.get_docstring(ast.parse(path.read_text(encoding="utf-8")))


@pytest.mark.parametrize("path", [p for p in CODE if p.name == "__init__.py"], ids=_name)
def test_packages_hold_no_code(path: Path) -> None:
    """An `__init__.py` below the top holds one docstring, and the top one the version besides."""
    body = ast.parse(path.read_text(encoding="utf-8")).body

    assert len(body) == (2 if _name(path) == "engine/__init__.py" else 1)


def test_nothing_is_left_to_be_done_later() -> None:
    """No file holds a mark of unfinished work."""
    marks = "|".join(("TO" + "DO", "FIX" + "ME", "X" + "XX"))
    tracked = subprocess.run(
        ["git", "ls-files"], cwd=ROOT, capture_output=True, text=True, check=False
    ).stdout
    files = [ROOT / name for name in tracked.splitlines()] or CODE
    texts = ((path, path.read_text(encoding="utf-8", errors="replace")) for path in files if path.is_file())

    assert [_name(path) for path, text in texts if re.search(rf"\b({marks})\b", text)] == []
