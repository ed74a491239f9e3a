"""A library of documents: which kind each is, which names are taken, and what a broken one leaves behind."""

import pytest

from engine.loading.leaf import ONE, File
from engine.loading.library import Library, gather

TREE = """\
tree: {name}
format: 1
revision: 1
title: A tree
complaint: It does not drive.
suspects: {{shaft: {{name: Shaft broken, weight: 2}}}}
start: end
steps:
  end: {{verdict: Broken, suspects: [shaft], grade: repair, correction: Mend it.}}
"""
CAUTIONS = """\
cautions: {hot-parts: {title: Hot parts, text: Wear gloves., source: habit}}
format: 1
sources: {habit: {kind: common-practice}}
"""


def library(**texts: str) -> Library:
    """The library that these files make, each under its name with .yaml."""
    return gather(File(f"{name}.yaml", f"{name}.yaml", text.encode()) for name, text in texts.items())


def rules(found: Library) -> list[str]:
    """File, place and rule of every problem."""
    return [f"{p.file}:{p.line}:{p.column} {p.rule}" for p in found.problems]


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("tre: x\n", "a.yaml:1:1 unknown-kind"),
        ("# a comment\n\n  tre: x\n", "a.yaml:3:3 unknown-kind"),
        ("format: 1\n", "a.yaml:1:1 unknown-kind"),
        ("{format: 1}\n", "a.yaml:1:2 unknown-kind"),
        ("{}\n", "a.yaml:1:1 empty-document"),
    ],
)
def test_a_document_of_no_kind_is_told_at_its_first_key(text: str, told: str) -> None:
    """The first key should have been its kind."""
    assert rules(library(a=text)) == [told]


def test_the_kind_may_stand_behind_other_keys() -> None:
    """The order of keys means nothing to YAML."""
    lines = TREE.format(name="a").splitlines(keepends=True)
    found = library(a="".join((*lines[1:4], lines[0], *lines[4:])))

    assert (found.problems, list(found.trees)) == ((), ["a"])


def test_a_name_belongs_to_the_first_document() -> None:
    """The second is told where it takes the name, with the place of the first."""
    found = library(a=TREE.format(name="same"), b="# another\n" + TREE.format(name="same"))

    assert rules(found) == ["b.yaml:2:7 name-taken"]
    assert "a.yaml:1:7" in found.problems[0].message
    assert found.trees["same"].place.file == "a.yaml"


def test_names_of_the_shop_are_taken_one_by_one() -> None:
    """Two files of cautions go together; only the caution that both have is told."""
    more = CAUTIONS.replace(
        "{hot-parts:", "{jack: {title: Jack, text: Use stands., source: habit}, hot-parts:"
    )
    found = library(a=CAUTIONS, b=more)

    assert rules(found) == [f"b.yaml:1:{more.index('hot-parts') + 1} name-taken"]
    assert set(found.shop.cautions) == {"hot-parts", "jack"}


def test_a_trusted_document_makes_way() -> None:
    """What is under review comes first; the shipped document of the same name is passed over in silence."""
    text = TREE.format(name="same").encode()
    found = gather([File("a.yaml", "a.yaml", text), File("b.yaml", "b.yaml", text, trusted=True)])

    assert (found.problems, found.trees["same"].place.file) == ((), "a.yaml")


def test_kinds_do_not_share_names() -> None:
    """A tree and a procedure may be called the same."""
    text = TREE.format(name="same")
    procedure = (
        "procedure: same\nformat: 1\nrevision: 1\ntitle: P\noutcomes: {done: Done}\n"
        "start: go\nsteps: {go: {do: Go., then: done}}\n"
    )

    assert library(a=text, b=procedure).problems == ()


@pytest.mark.parametrize(
    ("name", "text", "broken"),
    [
        ("a", TREE.format(name="mine").replace("revision: 1", "revision: one"), {"tree mine"}),
        ("a", TREE.format(name="[1]"), set()),
        ("a", CAUTIONS.replace("format: 1", "format: 2"), {"caution hot-parts"}),
        ("a", "cautions: [hot-parts]\nformat: 1\n", {"caution"}),
        ("mine", "tree: [", {f"{kind} mine" for kind in ONE}),
        ("gauges", "gauges: [", {f"{kind} gauges" for kind in ONE} | {"gauge"}),
    ],
)
def test_what_a_broken_document_would_hold_is_known(name: str, text: str, broken: set[str]) -> None:
    """Its names count as there, so that whoever refers to them is not blamed as well."""
    assert library(**{name: text}).broken == broken


def test_an_unreadable_file_breaks_nothing_that_is_there() -> None:
    """A guess from the name of a file gives way to the document that has the name."""
    found = library(a=TREE.format(name="mine"), mine="tree: [")

    assert "tree mine" not in found.broken
    assert "procedure mine" in found.broken


def test_one_broken_document_does_not_touch_the_others() -> None:
    """The sound ones are built and can be worked with."""
    found = library(a="\tx", b=TREE.format(name="b"), c="tree: c\n", d=CAUTIONS)

    assert list(found.trees) == ["b"]
    assert list(found.shop.cautions) == ["hot-parts"]
    assert {problem.file for problem in found.problems} == {"a.yaml", "c.yaml"}
