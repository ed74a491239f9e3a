"""Typical slips of an author: each is told at its place, by its rule, with what mends it."""

from pathlib import Path

import pytest

from engine.errors import Problem
from engine.loading.leaf import File
from engine.loading.library import gather

SOUND = (Path(__file__).with_name("sound.yaml")).read_text("utf-8")

#: The slip; what stands in the sound document; what is written instead; then for each problem the word it
#: stands at (in the changed document, counted from the change) and its rule.
Slip = tuple[str, str, str, list[tuple[str, str]]]
SLIPS: list[Slip] = [
    ("unknown key", "minutes: 15", "minuts: 15", [("minuts", "unknown-key")]),
    ("unknown key of the document", "revision: 3", "revision: 3\nauthor: me", [("author", "unknown-key")]),
    ("key of another kind of step", "do: Drive", "grade: repair\n    do: Drive", [("grade", "unknown-key")]),
    ("missing key", "    then: look\n", "", [("go:", "missing-key")]),
    ("missing key of the document", "title: Rear wheels do not drive\n", "", [("tree:", "missing-key")]),
    ("no kind key", "do: Drive", "why: Drive", [("go:", "missing-key")]),
    ("nearly a kind key", "measure: How", "mesure: How", [("gap:\n", "missing-key")]),
    ("two kind keys", "    ask: Which", "    do: Drive.\n    ask: Which", [
        ("look:", "missing-key"),
        ("ask: Which", "unknown-key"),
        ("answers", "unknown-key"),
    ]),
    ("number where text is meant", "say: All four", "say: 4", [("4,", "wrong-type")]),
    ("number where a name is meant", "unsure: refer}", "unsure: 7}", [("7}", "wrong-type")]),
    ("truth where text is meant", "say: All four", "say: true", [("true", "wrong-type")]),
    ("text where a number is meant", "minutes: 15", "minutes: a quarter", [("a quarter", "wrong-type")]),
    ("nothing where text is meant", "title: Rear wheels do not drive", "title:", [("", "wrong-type")]),
    ("list where text is meant", "title: Rear wheels", "title: [Rear, wheels]\nx: Rear wheels", [
        ("[Rear", "wrong-type"),
        ("x:", "unknown-key"),
    ]),
    ("one state, not a list", "sets: [warm]", "sets: warm", [("warm", "wrong-type")]),
    ("half a revision", "revision: 3", "revision: 3.5", [("3.5", "wrong-type")]),
    ("another format", "format: 1", "format: 2", [("2", "not-allowed")]),
    ("upto and below", "{upto: 5,", "{upto: 5, below: 6,", [("below", "not-together")]),
    ("below and upto, the same number", "{upto: 5,", "{below: 5, upto: 5,", [("below", "not-together")]),
    ("from and over", "{over: 5,", "{over: 5, from: 5,", [("over: 5, from", "not-together")]),
    ("band without a limit", "{upto: 5, then", "{then", [("{then: end", "missing-key")]),
    ("limit in words", "{upto: 5,", "{upto: five,", [("five", "wrong-form")]),
    ("limit with too few parts", "{upto: 5,", "{upto: sheet.spread.max,", [("sheet.spread", "wrong-form")]),
    ("limit with its unit", "{upto: 5,", "{upto: 5 mm,", [("5 mm", "wrong-form")]),
    ("shown value without sheet", "show: [sheet.torques.wheel-nuts]", "show: [torques.wheel-nuts]", [
        ("torques.wheel", "wrong-form")
    ]),
    ("empty text", "title: Rear wheels do not drive", 'title: ""', [('""', "out-of-bounds")]),
    ("blank text", "complaint: It gets stuck on wet grass.", 'complaint: "  "', [('"  "', "wrong-form")]),
    ("title too long", "title: Rear", f"title: {'long ' * 20}Rear", [("long long", "out-of-bounds")]),
    ("name with capitals", "start: go", "start: Go", [("Go", "wrong-form")]),
    ("name with an underscore", "  look:\n", "  look_under:\n", [("look_under", "wrong-form")]),
    ("suspect with a blank", "shaft-broken: {name", "shaft broken: {name", [("shaft broken", "wrong-form")]),
    ("unknown grade", "grade: repair", "grade: repiar", [("repiar", "not-allowed")]),
    ("unknown kind of source", "kind: common-practice", "kind: hearsay", [("hearsay", "not-allowed")]),
    ("published without cite", "kind: common-practice", "kind: published", [("habit", "missing-key")]),
    ("one answer only", "      - {say: None, then: end}\n", "", [("- {say: All", "out-of-bounds")]),
    ("probability above one", "shaft-broken: 0.9}", "shaft-broken: 1.5}", [("1.5", "out-of-bounds")]),
    ("negative minutes", "minutes: 15", "minutes: -5", [("-5", "out-of-bounds")]),
    ("weight of nothing", "weight: 2", "weight: 0", [("0}", "out-of-bounds")]),
    ("sure beyond doubt", "confidence: 0.95", "confidence: 1", [("1\n", "out-of-bounds")]),
    ("state named twice", "sets: [warm]", "sets: [warm, warm]", [("[warm", "out-of-bounds")]),
    ("one plausible limit", "plausible: [0, 80]", "plausible: [80]", [("[80]", "out-of-bounds")]),
    ("no steps", "suspects: {shaft-broken: {name: Shaft broken, weight: 2}}", "suspects: {}", [
        ("{}", "out-of-bounds")
    ]),
    ("several readings without a figure", "    figure: spread\n", "", [("roll:", "missing-key")]),
    ("reading and readings", "    figure: spread\n", "    figure: spread\n    reading: {name: a}\n", [
        ("reading: {name: a", "unknown-key")
    ]),
    ("sort with minutes", "box: {sort", "box: {minutes: 2, sort", [("minutes: 2", "unknown-key")]),
    ("verdict that leads on", "grade: refer,", "grade: refer, then: go,", [("then: go", "unknown-key")]),
]  # fmt: skip


def problems(text: str) -> tuple[Problem, ...]:
    """What loading finds in a document."""
    return gather([File("a.yaml", "a.yaml", text.encode())]).problems


def place(text: str, word: str, start: int) -> tuple[int, int]:
    """Line and column of the word: the first from a position on, else the last before it."""
    found = text.find(word, start)
    before = text[: found if found >= 0 else text.rindex(word, 0, start + len(word))]
    return before.count("\n") + 1, len(before) - before.rfind("\n")


def test_the_document_is_sound() -> None:
    """Before any slip nothing is found in it."""
    assert problems(SOUND) == ()


@pytest.mark.parametrize(
    ("was", "now", "blamed"), [slip[1:] for slip in SLIPS], ids=[slip[0] for slip in SLIPS]
)
def test_a_slip_is_told_at_its_place(was: str, now: str, blamed: list[tuple[str, str]]) -> None:
    """Line, column and rule, for each problem that the slip makes and no other."""
    assert SOUND.count(was) == 1
    text = SOUND.replace(was, now)
    start = SOUND.index(was)

    told = {(p.line, p.column, p.rule) for p in problems(text)}

    assert told == {(*_where(text, word, start, len(now)), rule) for word, rule in blamed}


def _where(text: str, word: str, start: int, length: int) -> tuple[int, int]:
    """An empty word is the end of what was written."""
    return place(text, word, start if word else start + length)


@pytest.mark.parametrize(
    ("was", "now", "cure"),
    [
        ("minutes: 15", "minuts: 15", "Did you mean `minutes`?"),
        ("measure: How", "mesure: How", "Did you mean `measure`?"),
        ("grade: repair", "grade: repiar", "Did you mean `repair`?"),
        ("kind: common-practice", "kind: memmory", "Did you mean `memory`?"),
        ("say: All four", "say: 4", 'Put quotes round it: "4".'),
        ("say: All four", "say: true", 'Put quotes round it: "true".'),
        ("sets: [warm]", "sets: warm", "Write a list."),
        ("title: Rear wheels do not drive", "title:", "Write text after the colon."),
        ("{upto: 5,", "{upto: 5, below: 6,", "Keep one of the two."),
        ("{upto: 5,", "{upto: five,", "A limit of the vehicle's sheet: sheet.UNIT.ITEM.BOUND, such as"),
        ("minutes: 15", "minutes: -5", "Give at least 0."),
        ("format: 1", "format: 2", "Known here: `1`."),
        ("    then: look\n", "", "Add `then:`."),
        ("title: Rear wheels do not drive\n", "", "Add `title:`."),
    ],
)
def test_the_cure_is_what_the_author_must_write(was: str, now: str, cure: str) -> None:
    """It names the word that was meant, or what is to be done."""
    assert [p.cure for p in problems(SOUND.replace(was, now)) if p.cure.startswith(cure)] != []


def test_a_procedure_has_no_verdict() -> None:
    """A verdict among the steps of a procedure is told, with the kinds that it may have."""
    text = (
        "procedure: chock\nformat: 1\nrevision: 1\ntitle: Chock it\n"
        "outcomes: {done: Done}\nstart: go\nsteps:\n"
        "  go: {do: Chock it., then: done}\n"
        "  end: {verdict: Broken, suspects: [], grade: refer, correction: Mend it.}\n"
    )

    assert [(p.line, p.column, p.rule) for p in problems(text)] == [(9, 3, "missing-key")]


def test_every_slip_of_a_document_is_told_at_once() -> None:
    """Five slips are five problems, in the order of the text."""
    text = (
        SOUND.replace("format: 1", "format: one")
        .replace("minutes: 15", "minuts: 15")
        .replace("say: All four", "say: 4")
        .replace("{upto: 5,", "{upto: 5, below: 5,")
        .replace("grade: refer", "grade: reffer")
    )

    rules = [problem.rule for problem in problems(text)]

    assert rules == ["not-allowed", "unknown-key", "wrong-type", "not-together", "not-allowed"]
