"""Matrices: what the document says, and what the planner is given."""

import re
from collections.abc import Mapping
from fractions import Fraction

import pytest

from engine.lint.runner import run
from engine.loading.leaf import File
from engine.loading.library import Library, gather
from engine.model.matrix import Matrix, Trial

TEXT = """\
matrix: small
format: 1
revision: 1
title: A small matrix
faults:
  shaft: {name: Shaft broken, weight: 0.2, repair: 90}
  tyres: {weight: 3}
setups:
  raised: {minutes: 12}
tests:
  look: {say: Look under it., minutes: 2.5, fails: [shaft]}
  turn: {minutes: 4, needs: [raised], drops: [raised], after: [look], outcomes: {one: [shaft], both: [tyres]}}
  hear: {minutes: 1, chances: {shaft: 0.9, tyres: 0}}
"""


def library(text: str = TEXT) -> Library:
    """The library of this one document."""
    return gather([File("small.yaml", "matrices/small.yaml", text.encode())])


def small() -> Matrix:
    """The small matrix, built."""
    return library().matrices["small"]


def trial(name: str) -> Trial:
    """One test of it."""
    return next(test for test in small().tests if test.id == name)


def test_a_matrix_is_found_by_its_name() -> None:
    """With its title and the place of its name."""
    found = library()

    assert (found.problems, list(found.matrices)) == ((), ["small"])
    assert (small().title, str(small().place)) == ("A small matrix", "small.yaml:1:9")


def test_numbers_of_faults_are_exact() -> None:
    """As typed, and no nearest binary fraction."""
    assert [(f.weight, f.repair) for f in small().faults] == [(Fraction(1, 5), 90), (3, None)]


def test_what_has_no_name_for_people_is_called_by_its_own() -> None:
    """A fault and a set-up alike."""
    assert [f.name for f in small().faults] == ["Shaft broken", "tyres"]
    assert [(s.name, s.minutes) for s in small().setups] == [("raised", Fraction(12))]


def test_a_test_has_its_words_and_minutes() -> None:
    """Without words it has none."""
    assert [(t.say, t.minutes) for t in small().tests] == [
        ("Look under it.", Fraction(5, 2)),
        ("", 4),
        ("", 1),
    ]


def test_what_a_test_asks_of_the_vehicle() -> None:
    """Set-ups that it needs and drops, tests that come before."""
    turn = trial("turn")

    assert (turn.needs, turn.drops, turn.after) == (("raised",), ("raised",), ("look",))


@pytest.mark.parametrize(
    ("name", "outcomes"),
    [
        ("look", {"passes": {"tyres": 1}, "fails": {"shaft": 1}}),
        ("turn", {"one": {"shaft": 1}, "both": {"tyres": 1}}),
        ("hear", {"passes": {"shaft": Fraction(1, 10), "tyres": 1}, "fails": {"shaft": Fraction(9, 10)}}),
    ],
)
def test_the_outcomes_of_a_test(name: str, outcomes: Mapping[str, Mapping[str, Fraction]]) -> None:
    """With the probability under each fault; what cannot happen is left out."""
    assert {outcome.name: outcome.chances for outcome in trial(name).outcomes} == outcomes


def test_a_test_with_chances_is_unreliable() -> None:
    """One with faults alone is not."""
    assert [t.reliable for t in small().tests] == [True, True, False]


@pytest.mark.parametrize(("name", "line"), [("shaft", 6), ("tyres", 7), ("raised", 9), ("turn", 12)])
def test_everything_keeps_its_place(name: str, line: int) -> None:
    """The line of its name, and its column."""
    held = small()
    places = {fault.id: fault.place for fault in held.faults}
    places |= {setup.id: setup.place for setup in held.setups}
    places |= {test.id: test.place for test in held.tests}

    assert str(places[name]) == f"small.yaml:{line}:3"


@pytest.mark.parametrize(
    ("old", "new", "what"),
    [
        ("[shaft]}\n  turn", "[shat]}\n  turn", "fault named `shat`"),
        ("both: [tyres]", "both: [tires]", "fault named `tires`"),
        ("tyres: 0}", "tyre: 0}", "fault named `tyre`"),
        ("needs: [raised]", "needs: [risen]", "set-up named `risen`"),
        ("drops: [raised]", "drops: [shafts]", "set-up named `shafts`"),
        ("after: [look]", "after: [lok]", "test named `lok`"),
        ("weight: 3", "weight: 3, source: us", "source named `us`"),
    ],
)
def test_a_name_that_is_not_there_is_told_at_its_place(old: str, new: str, what: str) -> None:
    """At the very word."""
    text = TEXT.replace(old, new)
    (found,) = (each for each in run(library(text)) if each.rule == "unknown-name")
    (word,) = re.findall("`(.*)`", what)

    assert found.message == f"There is no {what}."
    assert re.match(rf"{word}\b", text.splitlines()[found.line - 1][found.column - 1 :])
    assert len(re.findall(rf"\b{word}\b", text)) == 1


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ("weight: 3", "weight: 0", "7:19 `weight` is `0`; it must be more than 0. Give more than 0."),
        ("tyres: 0}", "tyres: 2}", "13:51 `tyres` is `2`; the most is 1. Give at most 1."),
        (
            "fails: [shaft]",
            "fials: [shaft]",
            "11:3 `look` needs one of `fails`, `outcomes` or `chances`. Did you mean `fails`?",
        ),
        (
            "minutes: 1, ",
            "minutes: 1, fails: [shaft], ",
            "13:38 `chances` may not stand here beside the other keys of `hear`. Keep one of the two.",
        ),
    ],
)
def test_a_slip_is_told_at_its_place_with_its_cure(old: str, new: str, told: str) -> None:
    """In the words of whoever writes a matrix."""
    problems = library(TEXT.replace(old, new)).problems

    assert [f"{p.line}:{p.column} {p.message} {p.cure}" for p in problems] == [told]


def test_a_broken_matrix_is_known_to_be_there() -> None:
    """Its name is kept for whoever asks for it."""
    assert library(TEXT.replace("weight: 3", "weight: 0")).broken == {"matrix small"}
