"""Each rule on documents that it must and must not find fault with, in the folder `documents`.

A line that is at fault says so itself: `# <- loop dead-end`. A case is a file, or a folder of files
that belong together; the shipped shop, procedures and sheets are there to be referred to.
"""

import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest

from engine.lint.finding import Finding
from engine.lint.registry import RULES
from engine.lint.runner import run
from engine.loading import folders
from engine.loading.leaf import File
from engine.loading.library import gather
from engine.loading.pictures import there

HERE = Path(__file__).parent
HOME = HERE / "documents"
CASES = sorted(case for rule in HOME.iterdir() for case in rule.iterdir())
BAD = [case for case in CASES if case.name.startswith("bad-")]
GOOD = [case for case in CASES if case.name.startswith("good-")]
#: The rules that are tried here; what others think of these documents is their own tests' affair.
TRIED = frozenset(path.name for path in HOME.iterdir())
#: Rules that documents written to try another rule are not asked to keep.
ADVICE = frozenset(["verdict-without-follow-up", "branch-never-taken"])
_MARK = re.compile(r"# <- ([a-z -]+)$")


def name(case: Path) -> str:
    """What a case is called, as `loop/bad-itself`."""
    return case.relative_to(HOME).with_suffix("").as_posix()


@cache
def shipped() -> tuple[File, ...]:
    """What the documents may refer to."""
    kinds = ("shop/", "procedures/", "vehicles/", "complaints/")
    return tuple(file._replace(trusted=True) for file in folders.shipped(kinds))


@cache
def linted(case: Path) -> tuple[Finding, ...]:
    """The findings in the files of a case."""
    own = [_file(path) for path in files(case)]
    # only scripts refer to complaints
    others = [f for f in shipped() if "rehearsal" in case.name or not f.path.startswith("complaints/")]
    return run(gather([*own, *others]), frozenset(file.shown for file in own))


def _file(path: Path) -> File:
    content = path.read_bytes()
    return File(str(path), path.name, content, pictures=there(path, content))


def judged(case: Path) -> frozenset[str]:
    """The rules that a case must keep, or break at its marks."""
    return TRIED - ADVICE | {case.parent.name}


def files(case: Path) -> list[Path]:
    """The files of a case."""
    return sorted(case.glob("*.yaml")) if case.is_dir() else [case]


def marked(case: Path) -> Iterator[tuple[str, int, str]]:
    """File, line and rule of every mark in the text."""
    for path in files(case):
        for number, line in enumerate(path.read_text("utf-8").splitlines(), 1):
            found = _MARK.search(line)
            yield from ((str(path), number, rule) for rule in (found[1].split() if found else ()))


@pytest.mark.parametrize("case", BAD, ids=name)
def test_bad_documents_are_found_fault_with_at_the_marks(case: Path) -> None:
    """The rule of the folder finds something, and every finding stands at its mark and every mark has one."""
    found = {(f.file, f.line, f.rule) for f in linted(case) if f.rule in judged(case)}

    assert case.parent.name in {rule for _, _, rule in found}
    assert sorted(found) == sorted(set(marked(case)))


@pytest.mark.parametrize("case", GOOD, ids=name)
def test_good_documents_are_not(case: Path) -> None:
    """None of these rules, nor the loader, finds anything."""
    alien = {f.rule for f in linted(case)} - {rule.slug for rule in RULES}

    assert [str(f) for f in linted(case) if f.rule in judged(case) | alien] == []


@pytest.mark.parametrize("case", BAD, ids=name)
def test_findings_say_what_is_wrong_and_what_cures_it(case: Path) -> None:
    """Message and cure are sentences; what the message names stands in backquotes."""
    assert [
        str(finding)
        for finding in linted(case)
        if not (re.fullmatch(r"[A-Z`].*\.", finding.message) and re.fullmatch(r"[A-Z].*[.?]", finding.cure))
    ] == []


@pytest.mark.parametrize("case", CASES, ids=name)
def test_findings_are_sorted_and_told_once(case: Path) -> None:
    """They come in the order of the text, and no two are alike."""
    found = linted(case)

    assert list(found) == sorted(set(found))


@pytest.mark.parametrize("rule", sorted(TRIED))
def test_two_bad_and_two_good_documents_try_a_rule(rule: str) -> None:
    """One could be a coincidence."""
    kinds = [case.name.split("-")[0] for case in (HOME / rule).iterdir()]

    assert min(kinds.count("bad"), kinds.count("good")) >= 2
    assert {*kinds} == {"bad", "good"}


def test_every_rule_is_tried() -> None:
    """By documents here, or by a test of its own beside this one that names it."""
    tests = " ".join(path.read_text("utf-8") for path in HERE.glob("test_*.py"))

    assert [rule.slug for rule in RULES if rule.slug not in TRIED and f'"{rule.slug}"' not in tests] == []


def test_every_file_of_the_folder_is_a_rule() -> None:
    """A rule that is written and not registered would never run."""
    folder = Path(__file__).parents[3] / "engine/lint/rules"
    written = {path.stem.replace("_", "-") for path in folder.glob("*.py") if path.stem != "__init__"}

    assert {rule.slug for rule in RULES} == written


def test_no_rule_is_registered_twice() -> None:
    """Each has a slug of its own."""
    assert len({rule.slug for rule in RULES}) == len(RULES)


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.slug)
@pytest.mark.parametrize("part", ["Bad:", "Good:"])
def test_a_page_shows_what_is_bad_and_what_is_good(rule: object, part: str) -> None:
    """The page begins with a sentence and has both parts."""
    page = getattr(rule, "page", "")

    assert re.match(r"[A-Z][^\n]+[.:]", page)
    assert re.search(rf"^{part}", page, re.MULTILINE)


@pytest.mark.parametrize(
    ("case", "path"),
    [
        (
            "loop/bad-two-steps",
            ("again: done -> look", "look: done -> again"),
        ),
        (
            "loop/bad-itself",
            ("first: done -> first",),
        ),
        (
            "dead-end/bad-nowhere",
            ("first: answer `Worn`", "renew: done", "renewed"),
        ),
        (
            "no-sheet/bad-fact",
            tuple(
                f"{sheet}: centre is {centre}; the tree is for geared"
                for sheet, centre in (
                    ("corran", "viscous"),
                    ("fellside-auto", "viscous"),
                    ("fellside", "viscous"),
                    ("ghyll", "electronic"),
                    ("skerry", "viscous"),
                    ("tarnside", "electronic"),
                )
            ),
        ),
    ],
)
def test_a_finding_shows_the_way_there(case: str, path: tuple[str, ...]) -> None:
    """Step by step, with the words of the answers; or sheet by sheet."""
    rule = case.partition("/")[0]
    found = next(f for f in linted(HOME / f"{case}.yaml") if f.rule == rule)

    assert tuple(stop.said for stop in found.path) == path
    assert all(stop.place.line for stop in found.path)


@pytest.mark.parametrize(
    ("case", "line", "cure"),
    [
        ("unknown-name/bad-target", 18, "Did you mean `worn`?"),
        ("unknown-name/bad-sheet", 6, "Did you mean `all-wheel`?"),
        ("unknown-name/bad-rehearsal", 4, "Did you mean `no-rear-drive`?"),
        ("unknown-name/bad-states", 7, "Did you mean `on-ramp`?"),
        ("open-branch/bad-sort", 13, "Add `automatic:` to its cases, or narrow the document's `for`."),
        ("open-branch/bad-run", 13, "Add `cannot:` to its outcomes."),
    ],
)
def test_the_cure_is_what_was_meant(case: str, line: int, cure: str) -> None:
    """The nearest word, or the words to add."""
    assert cure in [finding.cure for finding in linted(HOME / f"{case}.yaml") if finding.line == line]


def test_only_the_files_that_were_asked_for_are_told() -> None:
    """What is wrong elsewhere is somebody else's."""
    bad, good = HOME / "loop/bad-itself.yaml", HOME / "loop/good-diamond.yaml"
    own = [File(str(path), path.name, path.read_bytes()) for path in (bad, good)]

    assert run(gather([*own, *shipped()]), frozenset([str(good)])) == ()


@pytest.mark.parametrize(
    ("break_", "slug"),
    [
        ((b"format: 1", b"format: one"), "not-allowed"),
        ((b"raised:", b"\traised:"), "syntax"),
    ],
)
def test_one_slip_in_the_shop_is_told_once(break_: tuple[bytes, bytes], slug: str) -> None:
    """Whatever refers to the states of a broken file is not blamed as well."""
    files = [
        f._replace(content=f.content.replace(*break_), trusted=False) if f.path == "shop/states.yaml" else f
        for f in shipped()
    ]

    found = run(gather(f._replace(trusted=False) for f in files))

    assert [f.rule for f in found if f.rule in TRIED or f.file.endswith("states.yaml")] == [slug]


def test_one_slip_in_a_sheet_is_told_once() -> None:
    """Whatever refers to the values of a broken sheet is not blamed as well."""
    trees = [file for file in shipped() if file.path.startswith("complaints/")]
    broken = [f for f in shipped() if not f.path.startswith(("vehicles/", "complaints/"))]
    sheet = File("only.yaml", "vehicles/only.yaml", b"vehicle: only\nformat: one\n")

    found = run(gather([*trees, sheet, *broken]))

    assert {f.file for f in found if f.rule in TRIED - {"no-sheet"}} == set()
