"""Rules that look across the library, where not all of it is under review or can be read."""

from pathlib import Path

from engine.lint.runner import run
from engine.loading.leaf import File
from engine.loading.library import gather

HOME = Path(__file__).with_name("documents")


def told(case: str, wanted: tuple[str, ...] = (), broken: bytes = b"") -> set[tuple[str, str]]:
    """Rule and file of what is found in a folder of documents, with one more that cannot be read."""
    own = [File(path.name, path.name, path.read_bytes()) for path in (HOME / case).glob("*.yaml")]
    more = [File("broken.yaml", "broken.yaml", broken)] if broken else []
    return {(found.rule, found.file) for found in run(gather([*own, *more]), frozenset(wanted))}


def test_a_complaint_met_twice_is_told_in_the_file_under_review() -> None:
    """Also where that is the first of the two: whoever checks a single file learns of the other."""
    assert ("same-complaint", "one.yaml") in told("same-complaint/bad-same", ("one.yaml",))


def test_a_procedure_may_be_used_by_what_cannot_be_read() -> None:
    """One slip in a tree does not make its procedures useless."""
    broken = b"tree: other\nformat: one\n"

    assert ("procedure-never-used", "unused.yaml") in told("procedure-never-used/bad-one-of-two")
    assert ("procedure-never-used", "unused.yaml") not in told(
        "procedure-never-used/bad-one-of-two", broken=broken
    )


def test_a_tree_may_be_walked_by_what_cannot_be_read() -> None:
    """One slip in a rehearsal is told once, there."""
    broken = b"rehearsal: other\nformat: one\n"

    assert ("tree-not-rehearsed", "two.yaml") in told("tree-not-rehearsed/bad-one-of-two")
    assert ("tree-not-rehearsed", "two.yaml") not in told("tree-not-rehearsed/bad-one-of-two", broken=broken)
