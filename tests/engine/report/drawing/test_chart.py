"""The chart of a tree: everything once, in words, with what lint found and what the sheet knows."""

from fractions import Fraction

from hypothesis import given, settings

from engine.graph.exits import exits
from engine.lint.finding import Finding
from engine.model.place import Place
from engine.model.tree import Sort, Tree, Verdict
from engine.model.vehicle import Amount, Sheet
from engine.report.drawing.chart import Mark
from engine.report.drawing.graph import Subject, chart
from engine.report.drawing.wired import wired
from tests.engine.report.drawing.trees import library, measure, place, tree, trees

VERDICT = Verdict(
    name="end", place=place(90), text="Over", suspects=(), grade="refer", correction="C.", cautions=("hot",)
)
SHEET = Sheet(
    name="wagon", place=Place("w", 1, 1), title="Wagon", revision=1, facts={"box": "manual"},
    limits={"shaft.play.max": Amount(Fraction(1, 2), "cm", "", place(1))},
    capacities={}, lubricants={}, torques={},
)  # fmt: skip


def finding(line: int, file: str = "tree.yaml") -> Finding:
    """A finding at a line."""
    return Finding(file, line, 1, "band-gap", "error", "There is a gap.", "Close it.")


@settings(max_examples=60)
@given(trees())
def test_every_step_is_one_card(given_tree: Tree) -> None:
    """Each step has one card, in the order of the text, numbered from 1."""
    cards = [card for card in chart(Subject(library(), given_tree)).cards if card.kind != "missing"]

    assert [card.name for card in cards] == list(given_tree.steps)
    assert [card.number for card in cards] == list(range(1, len(cards) + 1))


@settings(max_examples=60)
@given(trees())
def test_every_way_out_is_one_way(given_tree: Tree) -> None:
    """Each way out of each step is there once, and leads where it led."""
    ways = chart(Subject(library(), given_tree)).ways
    wanted = [(step.name, way.then, way.aside) for step in given_tree.steps.values() for way in exits(step)]

    assert [(way.source, way.then, way.aside) for way in ways] == wanted


@settings(max_examples=60)
@given(trees())
def test_whatever_is_led_to_has_a_wire(given_tree: Tree) -> None:
    """No card but the start hangs in the air where some way leads to it."""
    made = chart(Subject(library(), given_tree))
    reached = {way.then for way in wired(made)} | {made.start}

    assert {way.then for way in made.ways} <= reached


def test_bands_without_a_vehicle_name_the_sheet() -> None:
    """A limit of the sheet is named where no sheet is given."""
    step = measure({"name": "s0", "place": place(10)}, "end", "end", say="good")
    ways = chart(Subject(library(), tree({"s0": step, "end": VERDICT}))).ways

    assert [way.text for way in ways] == ["up to 6 mm: good", "over the sheet's shaft.play.max"]


def test_bands_on_a_vehicle_have_its_numbers() -> None:
    """A limit of the sheet is a number, in the unit that the sheet has it in."""
    step = measure({"name": "s0", "place": place(10)}, "end", "end")
    ways = chart(Subject(library(), tree({"s0": step, "end": VERDICT}), SHEET)).ways

    assert ways[1].text == "over 0.5 cm"


def test_the_sheet_bars_the_other_cases() -> None:
    """Drawn for a vehicle, a sort goes one way only."""
    step = Sort(name="s0", place=place(10), fact="box", cases={"manual": "end", "automatic": "end"})
    ways = chart(Subject(library(), tree({"s0": step, "end": VERDICT}), SHEET)).ways

    assert [(way.text, way.barred) for way in ways] == [
        ("manual", False),
        ("automatic", True),
    ]


def test_findings_stand_at_their_steps() -> None:
    """A finding belongs to the step that its line lies in, one above all steps to the tree."""
    step = measure({"name": "s0", "place": place(10)}, "end", "end")
    found = (finding(3), finding(12), finding(12, "other.yaml"))
    made = chart(Subject(library(), tree({"s0": step, "end": VERDICT}), findings=found))

    said = Mark("error", "band-gap: There is a gap.")
    assert (made.marks, made.cards[0].marks) == ((said,), (said,))


def test_cautions_are_told_by_their_titles() -> None:
    """A caution's title is on the card."""
    made = chart(Subject(library(), tree({"end": VERDICT}, start="end")))

    assert made.cards[0].marks == (Mark("caution", "Hot <parts>"),)


def test_a_target_that_is_not_there_is_shown() -> None:
    """A way to nowhere leads to a card that says so."""
    step = measure({"name": "s0", "place": place(10)}, "end", "gone")
    made = chart(Subject(library(), tree({"s0": step, "end": VERDICT})))

    assert [(card.name, card.kind) for card in made.cards][-1] == ("gone", "missing")
