"""Files broken by hand, in the folder `broken`: each is blamed at the place that its author must mend."""

import re
import subprocess
import sys
from collections import defaultdict
from pathlib import Path

import pytest

from engine.errors import Problem
from engine.loading.leaf import File
from engine.loading.library import gather

FOLDER = Path(__file__).with_name("broken")
FILES = sorted(FOLDER.glob("*.yaml"))


def expected() -> dict[str, list[str]]:
    """By the name of the file, every `line:column rule` of the list beside the files."""
    blamed = defaultdict(list)
    for row in (FOLDER / "expected.txt").read_text("utf-8").splitlines():
        if not row.startswith("#"):
            name, place, rule = row.split()
            blamed[name].append(f"{place} {rule}")
    return dict(blamed)


EXPECTED = expected()


def problems(path: Path) -> tuple[Problem, ...]:
    """What loading finds in the file."""
    return gather([File(path.name, path.name, path.read_bytes())]).problems


@pytest.mark.parametrize("path", FILES, ids=[path.stem for path in FILES])
def test_a_broken_file_is_blamed_where_it_is_broken(path: Path) -> None:
    """Line, column and rule of each problem are those of the list, in the order of the text."""
    assert [f"{p.line}:{p.column} {p.rule}" for p in problems(path)] == EXPECTED[path.stem]


def test_the_list_and_the_folder_agree() -> None:
    """Every file is in the list, and the list names no other."""
    assert set(EXPECTED) == {path.stem for path in FILES}


@pytest.mark.parametrize("path", FILES, ids=[path.stem for path in FILES])
def test_what_is_said_is_a_sentence_and_a_cure(path: Path) -> None:
    """Message and cure are sentences, and none of the parser's own words is left in them."""
    jargon = re.compile(r"did not find|expected <|while (scanning|parsing)|in this context|token|scalar")

    assert [
        problem
        for problem in problems(path)
        if not (problem.message.endswith(".") and problem.cure.endswith((".", "?")))
        or jargon.search(str(problem))
    ] == []


@pytest.mark.parametrize(
    ("name", "cure"),
    [
        ("tab-indent", "Replace the tab by spaces."),
        ("second-colon", "Put quotes round a text that holds `: `."),
        ("no-blank-after-colon", "Add the colon, or the blank behind it, or indent the line."),
        ("open-double-quote", "Close it with the same mark."),
        ("text-after-quote", "Put quotes round the whole text."),
        ("text-begins-with-star", "Put quotes round the text."),
        ("unknown-alias", "Define `&title` above it, or put quotes round it if it is meant as text."),
        ("nearly-a-kind", "Did you mean `procedure`?"),
        ("not-utf-8", "Save the file as UTF-8 in your editor."),
        ("line-separator", "Put a plain line end or a space there."),
        ("two-documents", "Put it into a file of its own and take out the `---` line."),
        ("bad-escape", "Write `\\\\`, or use single quotes."),
    ],
)
def test_the_cure_mends_the_slip(name: str, cure: str) -> None:
    """The first cure is what the author has to do."""
    assert problems(FOLDER / f"{name}.yaml")[0].cure == cure


def test_the_command_line_tells_every_broken_file() -> None:
    """`lint` over the folder ends with 1, tells each file at its places, and no file stops it."""
    run = subprocess.run(
        [
            sys.executable,
            "-c",
            "import sys, engine.cli.main as m; sys.exit(m.main(sys.argv[1:]))",
            "lint",
            "--format",
            "lines",
            FOLDER,
        ],
        capture_output=True,
        check=False,
        encoding="utf-8",
        timeout=120,
        cwd=Path(__file__).parents[3],
    )
    *told, summary = run.stdout.splitlines()
    named = {re.sub(r"^.*/", "", line.split(":")[0]).removesuffix(".yaml") for line in told}

    assert (run.returncode, run.stderr) == (1, "")
    assert [
        line for line in told if not re.match(r"\S+\.yaml:\d+:\d+: (error|warning) [a-z-]+: \S", line)
    ] == []
    assert named == {path.stem for path in FILES}
    assert re.fullmatch(rf"{len(FILES)} files, 0 trees: \d+ errors, 0 warnings\.", summary)
