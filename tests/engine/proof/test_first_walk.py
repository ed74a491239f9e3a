"""The walk that a new rehearsal begins with, on every shipped tree and vehicle."""

from functools import cache

import pytest

from engine.lint.rule import suits
from engine.loading import folders
from engine.loading.leaf import File
from engine.loading.library import Library, gather
from engine.model.place import Place
from engine.model.rehearsal import Line, Rehearsal
from engine.proof.first_walk import FirstWalk, first_walk
from engine.proof.rehearse import rehearse

PLACE = Place("by-hand.yaml", 1, 1)
TREE = """\
tree: small
format: 1
revision: 1
title: A small tree
complaint: It does not drive.
for: {drive: all-wheel}
suspects: {worn: {name: Worn, weight: 1}}
sources: {habit: {kind: common-practice}}
start: how-wide
steps:
  how-wide:
    measure: How wide is it?
    reading: {name: gap, gauge: steel-rule, unit: mm, plausible: [2, 9]}
    source: habit
    bands: [{upto: 5, then: ask-first}, {over: 5, then: ask-first}]
    unsure: end
  ask-first: {ask: What now?, answers: [{say: This, then: end}, {say: That, then: end}], unsure: end}
  end: {verdict: Not decided, suspects: [], grade: refer, correction: Ask a colleague.}
"""


@cache
def shipped() -> Library:
    """The shipped documents and the small tree."""
    return gather([*folders.shipped(), File("small.yaml", "small.yaml", TREE.encode())])


PAIRS = [
    (tree.name, sheet.name)
    for tree in shipped().trees.values()
    for sheet in shipped().sheets.values()
    if not suits(tree, sheet)
]


def script(walk: FirstWalk, tree: str, vehicle: str) -> Rehearsal:
    """The rehearsal that is made of it."""
    lines = tuple(
        Line(said.at, said.say or None, said.read, done=False, unsure=None, back=False, follow="",
             insist=False, place=PLACE)
        for said in walk.lines
    )  # fmt: skip
    return Rehearsal("first", PLACE, "First", tree, vehicle, lines, walk.verdict)


@pytest.mark.parametrize(("tree", "vehicle"), PAIRS)
def test_it_can_be_rehearsed(tree: str, vehicle: str) -> None:
    """The script passes, and ends in the verdict that it says."""
    walk = first_walk(shipped(), tree, vehicle)

    assert walk.verdict
    assert rehearse(shipped(), script(walk, tree, vehicle)).message == ""


def test_it_answers_and_reads() -> None:
    """The middle of what is believed, and the first answer."""
    walk = first_walk(shipped(), "small", "fellside")

    assert [(said.at, said.say, dict(said.read)) for said in walk.lines] == [
        ("how-wide", "", {"gap": "5.5"}),
        ("ask-first", "This", {}),
    ]
    assert walk.verdict == "end"


def test_it_gives_up_in_a_circle() -> None:
    """Without a verdict, and without end only as far as anybody would walk."""
    text = TREE.replace("answers: [{say: This, then: end}", "answers: [{say: This, then: ask-first}")
    library = gather([*folders.shipped(), File("small.yaml", "small.yaml", text.encode())])

    assert first_walk(library, "small", "fellside").verdict == ""
