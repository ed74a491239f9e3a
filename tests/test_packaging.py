"""The wheel holds what it needs and nothing else, and works away from the repository."""

import os
import subprocess
import sys
import zipfile
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A wheel built from the working tree."""
    folder = tmp_path_factory.mktemp("dist")
    words = [sys.executable, "-m", "hatchling", "build", "-t", "wheel", "-d", str(folder)]
    done = subprocess.run(words, cwd=ROOT, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    return next(folder.glob("*.whl"))


@pytest.fixture(scope="module")
def names(wheel: Path) -> frozenset[str]:
    """The files in the wheel."""
    with zipfile.ZipFile(wheel) as archive:
        return frozenset(archive.namelist())


def _below(folder: str) -> Iterator[str]:
    for path in sorted((ROOT / folder).rglob("*")):
        if path.is_file() and "__pycache__" not in path.parts:
            yield path.relative_to(ROOT / folder).as_posix()


@pytest.mark.parametrize("folder", ["trees", "schemas"])
def test_wheel_carries_every_document(names: frozenset[str], folder: str) -> None:
    """Every file of trees/ and schemas/ is in the wheel, under engine/_data, and no other."""
    carried = {
        n.removeprefix(f"engine/_data/{folder}/") for n in names if n.startswith(f"engine/_data/{folder}/")
    }

    assert set(_below(folder)) == carried


def test_wheel_carries_no_tests(names: frozenset[str]) -> None:
    """Neither tests nor benchmarks are shipped."""
    assert not [name for name in names if name.startswith(("tests/", "benchmarks/"))]


@pytest.mark.parametrize("package", ["engine", "tui"])
def test_wheel_says_that_it_is_typed(names: frozenset[str], package: str) -> None:
    """Both packages carry their types to whoever imports them."""
    assert f"{package}/py.typed" in names


@pytest.mark.parametrize("folder", ["trees", "schemas"])
def test_no_code_among_documents(folder: str) -> None:
    """No Python file stands among the documents: the editable build would refuse the whole project."""
    assert not list((ROOT / folder).rglob("*.py"))


def test_wheel_lints_its_own_documents(wheel: Path, tmp_path: Path) -> None:
    """Unpacked elsewhere and run from an empty folder, the shipped library is found and is clean."""
    with zipfile.ZipFile(wheel) as archive:
        archive.extractall(tmp_path / "site")
    (tmp_path / "empty").mkdir()
    environment = {**os.environ, "PYTHONPATH": str(tmp_path / "site"), "PYTHONSAFEPATH": "1"}
    words = [sys.executable, "-m", "tui", "lint"]
    done = subprocess.run(
        words, cwd=tmp_path / "empty", env=environment, capture_output=True, text=True, check=False
    )

    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout.endswith("nothing found.\n")


_HEAVY = (
    "textual",
    "networkx",
    "jsonschema",
    "jsonschema_rs",
    "asyncio",
    "sqlite3",
    "yaml",
    "numpy",
)
#: Light beside those, but more than one sum takes.
_SLOW = ("argparse", "difflib", "json", "textwrap")
_LIGHT = {
    "--version": _HEAVY,
    "--help": _HEAVY,
    "lint --help": ("textual", "asyncio", "sqlite3"),
    "calc": (*_HEAVY, *_SLOW, "fractions", "engine.trade.calculator"),
    "calc tread-wear": (*_HEAVY, *_SLOW, "engine.trade.tyres", "engine.trade.sums"),
    "calc tread-wear depth=1.6 diameter=632": (*_HEAVY, *_SLOW, "engine.trade.tyres", "engine.trade.guess"),
}


@pytest.mark.parametrize("words", _LIGHT)
def test_start_imports_nothing_heavy(words: str) -> None:
    """What a command does not use is not imported."""
    code = (
        "import sys; sys.argv[1:] = sys.argv[1].split()\n"
        "from tui.__main__ import main\n"
        "try:\n    main()\nexcept SystemExit:\n    pass\n"
        "print(*sorted(sys.modules), file=sys.stderr)"
    )
    done = subprocess.run(
        [sys.executable, "-c", code, words], cwd=ROOT, capture_output=True, text=True, check=True
    )

    assert not set(_LIGHT[words]) & set(done.stderr.split())
