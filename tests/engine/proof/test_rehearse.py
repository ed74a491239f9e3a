"""Rehearsals: walked from the first answer to the verdict, or to the place where they part from the tree."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.proof.rehearse import rehearse, rehearse_all
from tests.engine.interview.given import procedure, tree
from tests.engine.proof.scripts import LOOK, TREE, gathered, only, rehearsed, script

TYRES = "at: third, read: {left: 1900, right: 1904}"
FOLLOWED = "at: second, say: Front only\nat: sheared, follow: look"
TAKE_OUT = "Take the answer out, or change one before it."
PUT_RIGHT = "Put right the tree, an answer, or what is expected."
GO = "first: {do: Go., then: ended}\n"
SORTS = """
    first: {sort: gearbox, cases: {manual: second, automatic: second}}
    second: {sort: axle, cases: {open: first, limited: first}}
    """
LIMIT = """
    first:
      measure: How far?
      reading: {name: x, gauge: rule, unit: mm, plausible: [0, 9]}
      bands: [{upto: sheet.a.b.max, then: ended}]
    """
LIFT = "first: {run: lift, outcomes: {up: ended}}\n"

SOUND = [
    ("at: second, say: Front only", "sheared"),
    ("at: first, done: true\nat: second, say: Front only", "sheared"),
    ("at: first, unsure: no key", "referred"),
    ("at: second, unsure: too dark", "referred"),
    (f"at: second, say: All four\n{TYRES}\nat: fourth, read: 0.5", "fine"),
    (f"at: second, say: All four\n{TYRES}\nat: fourth, read: 0.02 in", "fine"),
    (f"at: second, say: All four\n{TYRES}\nat: fourth, read: 1.5", "worn"),
    (
        f"at: second, say: All four\n{TYRES}\nat: fourth, read: 1.5\nat: look/first, unsure: dark",
        "referred",
    ),
    ("at: second, say: All four\nat: third, read: {left: 190 cm, right: 1906.5}", "referred"),
    ("at: second, say: All four\nat: third, read: {left: 19, right: 1906}, insist: true", "referred"),
    ("at: second, say: All four\nat: second, back: true\nat: second, say: Front only", "sheared"),
    ("at: second, say: Front only\nat: first, back: true\nat: first, unsure: stalled", "referred"),
    (FOLLOWED, "sheared"),
    (f"{FOLLOWED}\nat: look/first, unsure: dark\nat: sheared, follow: look", "sheared"),
]
PARTED = [
    (
        "at: second, say: All four\nat: fourth, read: 3",
        8,
        "The walk asks `third`, and the next answer is for `fourth`. Answer `third` first.",
    ),
    ("at: second, say: All five", 7, "`All five` is no answer of `second`. Did you mean `All four`?"),
    ("at: second, done: true", 7, "The step `second` takes `say`. Write `say` in the line for it."),
    (
        "at: second, say: All four\nat: third, say: long",
        8,
        "The step `third` takes `read`. Write `read` in the line for it.",
    ),
    ("at: first, say: warm", 7, "The step `first` takes `done`. Write `done` in the line for it."),
    (
        "at: second, say: All four",
        7,
        "The walk asks `third`, and no answer is left. Add a line `at: third`.",
    ),
    (
        "at: second, say: Front only\nat: third, read: 4",
        8,
        f"The walk is at its verdict `sheared`, and an answer for `third` is left. {TAKE_OUT}",
    ),
    (
        "at: third, back: true",
        7,
        "The walk has not passed `third`, so it cannot step back to it. There are none here.",
    ),
    (
        "at: second, say: All four\nat: frist, back: true",
        8,
        "The walk has not passed `frist`, so it cannot step back to it. Did you mean `first`?",
    ),
    (
        "at: second, say: All four\nat: third, read: {left: 1900}",
        8,
        "At `third`: The reading `right` is missing. Type it, in mm.",
    ),
    (
        "at: second, say: Front only\nat: sheared, follow: paint",
        8,
        "At `sheared`: The verdict does not name `paint`. It names: look.",
    ),
]


@pytest.mark.parametrize(("answers", "verdict"), SOUND)
def test_a_rehearsal_that_ends_where_it_should_passes(answers: str, verdict: str) -> None:
    """Answers of every kind lead on; cautions and what is to be done confirm themselves."""
    result = rehearsed(answers, verdict)

    assert (result.verdict, result.passed, result.message) == (verdict, True, "")


def test_without_an_expected_verdict_any_will_do() -> None:
    """A script that expects nothing passes as soon as it comes to a verdict."""
    result = rehearsed("at: second, say: Front only")

    assert (result.verdict, result.passed) == ("sheared", True)


def test_another_verdict_fails() -> None:
    """A walk that ends elsewhere names both verdicts."""
    result = rehearsed("at: second, say: Front only", "fine")

    assert not result.passed
    assert result.message == (f"The walk ended in `sheared` and should end in `fine`. {PUT_RIGHT}")


@pytest.mark.parametrize(("answers", "line", "message"), PARTED)
def test_a_script_that_parts_from_the_walk_fails(answers: str, line: int, message: str) -> None:
    """The answer that does not fit is told with its line and the cure."""
    result = rehearsed(answers, "fine")

    assert (result.passed, result.message) == (False, message)
    assert (result.place.file, result.place.line) == ("rehearsals/try.yaml", line)


def test_the_line_that_does_not_fit_is_blamed_and_not_a_later_one() -> None:
    """Answers that would come after the one that does not fit are left alone."""
    result = rehearsed("at: second, say: All five\nat: third, read: 3\nat: fourth, read: 3")

    assert result.place.line == 7


def test_a_step_that_was_met_twice_is_returned_to_where_it_was_met_last() -> None:
    """After two runs of a procedure `back` leads into the second one."""
    twice = tree("""
        first: {run: look, outcomes: {seen: second, unseen: ended}}
        second: {run: look, outcomes: {seen: third, unseen: other}}
        third: {ask: Sure?, answers: [{say: "Yes", then: ended}, {say: "No", then: other}]}
        other: {verdict: Other, suspects: [], grade: refer, correction: C.}
        """)
    back = "at: third, say: 'Yes'\nat: look/first, back: true\nat: look/first, unsure: dark"
    result = rehearsed(back, "other", twice, LOOK)

    assert (result.verdict, result.message) == ("other", "")


def test_an_implausible_reading_fails_unless_insisted_on() -> None:
    """What a person would be asked again fails a rehearsal, for nobody is there to ask."""
    result = rehearsed("at: second, say: All four\nat: third, read: {left: 19, right: 1906}", "referred")

    assert not result.passed
    assert "lies outside what is believed here" in result.message


def test_an_empty_script_walks_what_confirms_itself() -> None:
    """Without an answer the walk stops at the first step that needs one, at the rehearsal's own place."""
    result = rehearsed("", "fine")

    assert (result.place.line, result.message) == (
        1,
        "The walk asks `second`, and no answer is left. Add a line `at: second`.",
    )


@pytest.mark.parametrize(("name", "vehicle"), [("table", "wagon"), ("bench", "van")])
def test_a_rehearsal_of_what_is_not_there_fails(name: str, vehicle: str) -> None:
    """A tree or vehicle that the library lacks is told, and nothing is walked."""
    held = gathered(TREE, LOOK, script("at: second, say: Front only", "sheared", tree=name, vehicle=vehicle))
    result = rehearse(held, only(held))

    assert (result.passed, result.visited) == (False, frozenset())
    assert result.message == f"Its tree `{name}` or vehicle `{vehicle}` is not in the library."


def test_a_rehearsal_on_another_vehicle_fails() -> None:
    """A vehicle that the tree is not for is told with the reason."""
    manual = tree("first: {sort: gearbox, cases: {automatic: ended}}\n").replace(
        "complaint:", "for: {gearbox: automatic}\ncomplaint:"
    )

    assert rehearsed("", "ended", manual).message == (
        "Its tree is not for `wagon`: gearbox is manual; the tree is for automatic."
    )


@pytest.mark.parametrize(
    "documents",
    [
        [tree(GO.replace("ended", "nowhere"))],
        [tree("first: {do: Go., then: second}\nsecond: {do: Go back., then: first}\n")],
        [tree(SORTS)],
        [tree(LIFT)],
        [tree(LIFT), procedure("lift", "up: Up", "first: {dew: Lift., then: up}\n")],
        [tree(GO.replace("then", "cautions: [cold], then"))],
        [tree(LIMIT)],
    ],
    ids=["no-step", "loop", "loop-of-sorts", "no-procedure", "broken-procedure", "no-caution", "no-limit"],
)
def test_documents_with_errors_are_not_walked(documents: list[str]) -> None:
    """What lint finds fails the rehearsal with the first finding, instead of breaking or never ending."""
    result = rehearsed("at: first, done: true", "ended", *documents)

    assert not result.passed
    assert result.message.startswith("Its documents have errors; the first: ")


def test_every_way_that_was_taken_is_visited() -> None:
    """Answers, bands and unsure exits are remembered with their document, the verdict with an empty way."""
    result = rehearsed(
        f"at: second, say: All four\n{TYRES}\nat: fourth, read: 1.5\nat: look/first, unsure: dark"
    )

    assert {visit for visit in result.visited if visit[2]} == {
        ("", "second", "answer `All four`"),
        ("", "third", "band 1"),
        ("", "fourth", "band 2"),
        ("look", "first", "cannot do or tell"),
    }
    assert ("", "referred", "") in result.visited


def test_scripts_together_go_as_each_alone() -> None:
    """One that cannot be walked on its vehicle is told each time, and bars none on another."""
    texts = [
        script("at: second, say: Front only", "sheared", vehicle=vehicle).replace("try", name)
        for name, vehicle in (("one", "van"), ("two", "wagon"), ("three", "van"), ("four", "wagon"))
    ]
    held = gathered(TREE, LOOK, *texts)
    scripts = tuple(held.rehearsals.values())

    assert [result.passed for result in rehearse_all(held, scripts)] == [
        s.vehicle == "wagon" for s in scripts
    ]
    assert rehearse_all(held, scripts) == tuple(rehearse(held, each) for each in scripts)


@given(st.permutations([*SOUND, *((answers, "fine") for answers, _, _ in PARTED)]))
def test_scripts_that_begin_alike_go_as_each_alone(order: list[tuple[str, str]]) -> None:
    """Whatever another script did before, and in whatever order they are given, each ends as by itself."""
    texts = [script(*each).replace("try", f"script-{k}") for k, each in enumerate(order)]
    held = gathered(TREE, LOOK, *texts)
    scripts = tuple(held.rehearsals.values())

    assert rehearse_all(held, scripts) == tuple(rehearse(held, each) for each in scripts)
