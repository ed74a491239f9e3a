"""The six kinds of step: what each asks, what it takes, and where it leads."""

from dataclasses import replace

import pytest

from engine.interview.command import Accept, CannotTell, Choose, Confirm, Read
from engine.interview.prompt import prompt
from engine.interview.question import AskPrompt, DoPrompt, MeasurePrompt, VerdictPrompt
from engine.records.event import Answered, Concluded, Done, Measured, Unsure
from tests.engine.interview.given import ENDED, after, made, procedure, tree, walk

OTHER = "other: {verdict: Ended there, suspects: [], grade: refer, correction: None.}\n"
DO = tree("first: {do: Put the box in neutral., then: ended, unsure: other}\n" + ENDED + OTHER)
ASK = tree("""
    first:
      ask: Which wheels turn?
      answers:
        - {say: All four, then: second}
        - {say: Front only, then: ended}
      unsure: ended
    second: {do: Stop them., then: ended}
    """)
MEASURE = tree("""
    first:
      measure: How far does it move?
      reading: {name: end-play, gauge: rule, unit: mm, plausible: [0, 5]}
      bands:
        - {upto: 1, say: Good, then: ended}
        - {over: 1, say: Loose, then: second}
      unsure: ended
    second: {do: Set it., then: ended}
    """)
SORT = tree("""
    first: {sort: gearbox, cases: {manual: second, automatic: ended}}
    second: {sort: axle, cases: {open: ended, limited: third}}
    third: {do: Turn one wheel., then: ended}
    """)
RUN = tree("first: {run: lift, outcomes: {up: ended}}\n")
LIFT = procedure("lift", "up: It is up", "first: {do: Lift it., then: up}\n")


def test_a_step_to_do_is_put_as_written() -> None:
    """A `do` step shows its text, and that there is a way round it."""
    asked = prompt(walk(DO))

    assert isinstance(asked, DoPrompt)
    assert (asked.text, asked.can_refuse, asked.where.step) == ("Put the box in neutral.", True, "first")


def test_a_step_to_do_is_done() -> None:
    """Confirming a `do` step makes `done` and leads to its `then`."""
    assert made(walk(DO), Confirm()) == (Done("first"),)
    assert after(walk(DO), Confirm()).where == "ended"


def test_a_step_that_cannot_be_done_leads_round() -> None:
    """Saying why not makes `unsure` with the reason and leads to the step's `unsure`."""
    assert made(walk(DO), CannotTell(" no room ")) == (Unsure("first", "no room"),)
    assert after(walk(DO), CannotTell("no room")).where == "other"


def test_a_question_shows_its_answers() -> None:
    """An `ask` step shows its answers in the order of the text."""
    asked = prompt(walk(ASK))

    assert isinstance(asked, AskPrompt)
    assert [choice.say for choice in asked.choices] == ["All four", "Front only"]


@pytest.mark.parametrize(
    ("number", "say", "leads_to"), [(0, "All four", "second"), (1, "Front only", "ended")]
)
def test_an_answer_leads_to_its_step(number: int, say: str, leads_to: str) -> None:
    """Each answer is kept with its words and leads to its own `then`."""
    assert made(walk(ASK), Choose(number)) == (Answered("first", number, say),)
    assert after(walk(ASK), Choose(number)).where == leads_to


def test_a_measurement_shows_what_to_read() -> None:
    """A `measure` step shows its reading with gauge, resolution and range, and the bands in words."""
    asked = prompt(walk(MEASURE))

    assert isinstance(asked, MeasurePrompt)
    blank = asked.blanks[0]
    assert (blank.name, blank.unit, blank.gauge, blank.resolution) == (
        "end-play",
        "mm",
        "Steel rule",
        "0.5 mm",
    )
    assert (blank.plausible, asked.figure) == ("0 mm to 5 mm", "")
    assert [(scale.limits, scale.say) for scale in asked.scales] == [
        ("up to 1 mm", "Good"),
        ("over 1 mm", "Loose"),
    ]


def test_a_reading_leads_to_its_band() -> None:
    """A reading is kept as typed and exactly, with the band and its limits, and leads to the band's step."""
    event = Measured("first", {"end-play": "1.2"}, {"end-play": "6/5"}, "mm", "1.2", "mm", 1, "over 1 mm")
    event = replace(event, probability="0.7260", uncertainty="0.3329", gauge="rule", close=True)

    assert made(walk(MEASURE), Read({"end-play": "1.2"})) == (event,)
    assert after(walk(MEASURE), Read({"end-play": "1.2"})).where == "second"


def test_a_sort_is_never_asked() -> None:
    """The sheet answers each `sort`, one after the other; the first prompt is the first step for a person."""
    state = walk(SORT)

    assert state.where == "third"
    assert prompt(state).where.trail == ()


def test_a_run_enters_its_procedure() -> None:
    """A `run` step is never asked itself: the walk stands at the first step of its procedure."""
    asked = prompt(walk(RUN, LIFT))

    assert asked.where.step == "lift/first"
    assert asked.where.inside == ("The bench tree", "The procedure lift")


def test_a_verdict_names_whom_it_convicts() -> None:
    """A verdict shows the cause, the titles of the convicted, its grade and its correction."""
    both = tree("""
        first: {verdict: Both worn, suspects: [shaft, coupling], grade: repair, correction: Renew both.}
        """)
    asked = prompt(walk(both))

    assert isinstance(asked, VerdictPrompt)
    assert (asked.verdict, asked.convicts) == ("Both worn", ("Shaft sheared", "Coupling dead"))
    assert (asked.grade, asked.correction, asked.accepted) == ("repair", "Renew both.", False)


def test_a_verdict_is_accepted() -> None:
    """Accepting keeps the verdict in full; the walk stays at it and is concluded."""
    state = after(walk(DO), Confirm())

    assert made(state, Accept()) == (Concluded("ended", "Ended here", (), "refer", "None."),)
    assert (after(state, Accept()).concluded, after(state, Accept()).where) == (True, "ended")


@pytest.mark.parametrize(
    ("show", "told"),
    [
        ("sheet.torques.flange", "Torque, flange: 45 N·m (≈ 33.19 lbf·ft)"),
        ("sheet.capacities.transfer", "Capacity, transfer: 0.9 L (≈ 0.95102 US qt)"),
        ("sheet.lubricants.transfer", "Lubricant, transfer: 80W-90, GL-5, No friction modifier."),
        ("sheet.bearing.end-play.max", "Bearing, end play, max: 0.2 mm (≈ 0.007874 in)"),
    ],
)
def test_values_of_the_sheet_stand_beside_a_step(show: str, told: str) -> None:
    """What a step shows of the sheet is told with its unit and, where the trade uses two, the other one."""
    asked = prompt(walk(tree(f"first: {{do: Tighten it., show: [{show}], then: ended}}\n")))

    assert isinstance(asked, DoPrompt)
    assert asked.show == (told,)
