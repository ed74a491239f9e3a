"""Both validators on real documents and on broken ones: the same answer, at the exact place."""

import copy
import math
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.loading.document import read
from tests.schema_files import HOME, KINDS, decided, deciding, explained
from tests.shipped import SHIPPED as FEW

SHIPPED = {str(p.relative_to(HOME)): p for p in sorted((HOME / "trees").rglob("*.yaml"))}


def plain(path: Path) -> Any:
    """What a shipped document holds."""
    return read(path.read_bytes(), path.name).data


def kind(data: Any) -> str:
    """The kind of document, told by its first key."""
    return str(next(iter(data)))


TREE: dict[str, Any] = {
    "tree": "small",
    "format": 1,
    "revision": 1,
    "title": "A small tree",
    "complaint": "It does not drive.",
    "for": {"drive": ["all-wheel"]},
    "suspects": {"shaft": {"name": "Shaft broken", "weight": 2}},
    "sources": {"book": {"kind": "published", "cite": "A book"}},
    "start": "go",
    "steps": {
        "go": {"do": "Drive.", "then": "see"},
        "see": {
            "ask": "What turns?",
            "answers": [{"say": "All", "then": "gap"}, {"say": "None", "then": "end"}],
        },
        "gap": {
            "measure": "How wide?",
            "reading": {"name": "gap", "gauge": "rule", "unit": "mm", "plausible": [0, 9]},
            "bands": [{"upto": 1, "then": "all"}, {"over": 1, "then": "end"}],
        },
        "all": {
            "measure": "How far?",
            "readings": {"gauge": "tape", "unit": "mm", "plausible": [1, 9], "each": ["left", "right"]},
            "figure": "spread",
            "bands": [{"upto": "sheet.tyres.spread.max", "then": "box"}, {"over": 3, "then": "end"}],
        },
        "box": {"sort": "transmission", "cases": {"manual": "lift", "automatic": "lift"}},
        "lift": {"run": "raise", "outcomes": {"raised": "end"}},
        "end": {"verdict": "Broken", "suspects": ["shaft"], "grade": "repair", "correction": "Mend it."},
    },
}
PROCEDURE: dict[str, Any] = {
    "procedure": "raise",
    "format": 1,
    "revision": 1,
    "title": "Raise it",
    "outcomes": {"raised": "It is up"},
    "start": "up",
    "steps": {"up": {"do": "Raise it.", "then": "raised"}},
}
SHEET: dict[str, Any] = {
    "vehicle": "wagon",
    "format": 1,
    "revision": 1,
    "title": "A wagon",
    "facts": {"drive": "all-wheel"},
    "limits": {"tyres": {"spread": {"max": {"is": 8, "unit": "mm", "source": "made-up"}}}},
}
STATES: dict[str, Any] = {"states": {"raised": {"title": "Raised", "must-clear": True}}, "format": 1}
GAUGES: dict[str, Any] = {
    "gauges": {"tape": {"title": "Tape", "unit": "mm", "resolution": 1, "uncertainty": 0, "source": "us"}},
    "format": 1,
}
CAUTIONS: dict[str, Any] = {
    "cautions": {"hot": {"title": "Hot", "text": "Gloves.", "source": "us"}},
    "format": 1,
}
FACTS: dict[str, Any] = {"facts": {"drive": {"title": "Drive", "values": {"all-wheel": "All"}}}, "format": 1}
WALK: dict[str, Any] = {
    "rehearsal": "walk",
    "format": 1,
    "title": "A walk",
    "tree": "small",
    "vehicle": "wagon",
    "answers": [{"at": "see", "say": "All"}, {"at": "all", "read": {"left": 5, "right": "5,1"}}],
    "expect": {"verdict": "end"},
}
MATRIX: dict[str, Any] = {
    "matrix": "faults",
    "format": 1,
    "revision": 1,
    "title": "A matrix",
    "faults": {"shaft": {"name": "Shaft broken", "weight": 2, "repair": 90}, "tyres": {"weight": 0.5}},
    "setups": {"raised": {"minutes": 12}},
    "tests": {
        "look": {"say": "Look.", "minutes": 3, "fails": ["shaft"]},
        "turn": {"minutes": 2, "needs": ["raised"], "outcomes": {"both": ["tyres"], "one": ["shaft"]}},
        "hear": {"minutes": 1, "drops": ["raised"], "after": ["look"], "chances": {"shaft": 0.9, "tyres": 0}},
    },
}
SOUND = (TREE, PROCEDURE, SHEET, STATES, GAUGES, CAUTIONS, FACTS, WALK, MATRIX)
GONE: Any = object()


def broken(document: Any, path: str, value: Any) -> Any:
    """A copy of the document with one value put in, exchanged or taken out."""
    whole = copy.deepcopy(document)
    *above, last = path.split("/")
    node = whole
    for key in above:
        node = node[int(key)] if isinstance(node, list) else node[key]
    where: Any = int(last) if isinstance(node, list) else last
    if value is GONE:
        del node[where]
    else:
        node[where] = value
    return whole


#: A sound document, where it is broken and how, and the place that must be blamed.
BROKEN: list[tuple[dict[str, Any], str, Any, str]] = [
    # the document itself
    (TREE, "title", GONE, ""),
    (TREE, "notes", "A remark", ""),
    (TREE, "format", 2, "format"),
    (TREE, "format", True, "format"),
    (TREE, "revision", 0, "revision"),
    (TREE, "revision", 1.5, "revision"),
    (TREE, "released", "soon", "released"),
    (TREE, "title", "x" * 81, "title"),
    (TREE, "title", "Two\nlines", "title"),
    (TREE, "title", " blank before", "title"),
    (TREE, "tree", "Small", "tree"),
    (TREE, "tree", "small--tree", "tree"),
    (TREE, "tree", "2-trees", "tree"),
    (TREE, "tree", "small\n", "tree"),
    (TREE, "confidence", 0.4, "confidence"),
    (TREE, "confidence", 1, "confidence"),
    (TREE, "elsewhere", 0, "elsewhere"),
    (TREE, "elsewhere", "1", "elsewhere"),
    (TREE, "condemn", 0.4, "condemn"),
    (TREE, "condemn", 1, "condemn"),
    (TREE, "steps/lift/fits", {}, "steps/lift/fits"),
    (TREE, "steps/lift/fits", {"raised": {}}, "steps/lift/fits/raised"),
    (TREE, "steps/lift/fits", {"raised": {"shaft": 2}}, "steps/lift/fits/raised/shaft"),
    (TREE, "steps/lift/fits", {"raised": 0.5}, "steps/lift/fits/raised"),
    (TREE, "for", {}, "for"),
    (TREE, "for/drive", [], "for/drive"),
    (TREE, "for/drive", 4, "for/drive"),
    (TREE, "for/drive", ["all-wheel", "all-wheel"], "for/drive"),
    (TREE, "suspects", {}, "suspects"),
    (TREE, "suspects/shaft/weight", 0, "suspects/shaft/weight"),
    (TREE, "suspects/shaft/name", GONE, "suspects/shaft"),
    (TREE, "sources/book/cite", GONE, "sources/book"),
    (TREE, "sources/book/kind", "rumour", "sources/book/kind"),
    (TREE, "steps", {}, "steps"),
    (TREE, "steps/No", {"do": "It.", "then": "end"}, "steps"),
    # what every step may have
    (TREE, "steps/go", None, "steps/go"),
    (TREE, "steps/go", "Drive.", "steps/go"),
    (TREE, "steps/go/minuts", 3, "steps/go"),
    (TREE, "steps/go/minutes", -1, "steps/go/minutes"),
    (TREE, "steps/go/minutes", "3", "steps/go/minutes"),
    (TREE, "steps/go/sets", "warm", "steps/go/sets"),
    (TREE, "steps/go/sets", ["warm", "warm"], "steps/go/sets"),
    (TREE, "steps/go/sets", ["Warm"], "steps/go/sets/0"),
    (TREE, "steps/go/why", "", "steps/go/why"),
    (TREE, "steps/go/why", "x" * 601, "steps/go/why"),
    (TREE, "steps/go/show", ["sheet.torques"], "steps/go/show/0"),
    (TREE, "steps/go/show", ["sheet.tyres.spread"], "steps/go/show/0"),
    # its kind
    (TREE, "steps/go/do", GONE, "steps/go"),
    (TREE, "steps/go/ask", "And which wheels?", "steps/go"),
    (TREE, "steps/go/do", "", "steps/go/do"),
    (TREE, "steps/go/do", "x" * 401, "steps/go/do"),
    (TREE, "steps/go/then", GONE, "steps/go"),
    (TREE, "steps/see/answers/1", GONE, "steps/see/answers"),
    (TREE, "steps/see/answers/0/then", GONE, "steps/see/answers/0"),
    (TREE, "steps/see/answers/0/say", "x" * 121, "steps/see/answers/0/say"),
    (TREE, "steps/see/answers/0/fits", {"shaft": 1.2}, "steps/see/answers/0/fits/shaft"),
    (TREE, "steps/see/answers/0/fits", {}, "steps/see/answers/0/fits"),
    (TREE, "steps/box/minutes", 1, "steps/box"),
    (TREE, "steps/box/cases", {}, "steps/box/cases"),
    (TREE, "steps/box/cases/manual", None, "steps/box/cases/manual"),
    (TREE, "steps/lift/outcomes", ["raised"], "steps/lift/outcomes"),
    (TREE, "steps/lift/then", "end", "steps/lift"),
    (TREE, "steps/end/grade", "replace", "steps/end/grade"),
    (TREE, "steps/end/suspects", GONE, "steps/end"),
    (TREE, "steps/end/then", "go", "steps/end"),
    # readings
    (TREE, "steps/gap/reading", GONE, "steps/gap"),
    (TREE, "steps/gap/given", {"turn": {}}, "steps/gap/given/turn"),
    (TREE, "steps/all/given", {"front": []}, "steps/all/given/front"),
    (TREE, "steps/all/gives", "Two Words", "steps/all/gives"),
    (TREE, "steps/gap/reading/plausible", [0], "steps/gap/reading/plausible"),
    (TREE, "steps/gap/reading/plausible", [0, 5, 9], "steps/gap/reading/plausible"),
    (TREE, "steps/gap/reading/plausible", [0, "9"], "steps/gap/reading/plausible/1"),
    (TREE, "steps/gap/reading/plausible", [0, math.inf], "steps/gap/reading/plausible/1"),
    (TREE, "steps/gap/reading/unit", "", "steps/gap/reading/unit"),
    (TREE, "steps/all/figure", GONE, "steps/all"),
    (TREE, "steps/all/reading", {"name": "left"}, "steps/all"),
    (TREE, "steps/all/readings/each", ["left"], "steps/all/readings/each"),
    # bands
    (TREE, "steps/gap/bands", [], "steps/gap/bands"),
    (TREE, "steps/gap/bands/0", {"then": "end"}, "steps/gap/bands/0"),
    (TREE, "steps/gap/bands/0/below", 2, "steps/gap/bands/0"),
    (TREE, "steps/gap/bands/1/from", 2, "steps/gap/bands/1"),
    (TREE, "steps/gap/bands/0/upto", "1", "steps/gap/bands/0/upto"),
    (TREE, "steps/gap/bands/0/upto", "sheet.tyres.spread", "steps/gap/bands/0/upto"),
    (TREE, "steps/gap/bands/0/upto", "sheet.tyres.spread.max.mm", "steps/gap/bands/0/upto"),
    (TREE, "steps/gap/bands/0/upto", True, "steps/gap/bands/0/upto"),
    (TREE, "steps/gap/bands/0/upto", math.inf, "steps/gap/bands/0/upto"),
    (TREE, "steps/gap/bands/0/upto", None, "steps/gap/bands/0/upto"),
    # the other kinds of document
    (PROCEDURE, "outcomes", {}, "outcomes"),
    (PROCEDURE, "suspects", {}, ""),
    (
        PROCEDURE,
        "steps/up",
        {"verdict": "Up", "suspects": [], "grade": "refer", "correction": "-"},
        "steps/up",
    ),
    (SHEET, "facts", {}, "facts"),
    (SHEET, "facts/drive", True, "facts/drive"),
    (SHEET, "limits/torques", {"nut": {"max": {"is": 1, "unit": "N·m", "source": "us"}}}, "limits"),
    (SHEET, "limits/tyres/spread/max/is", "8 mm", "limits/tyres/spread/max/is"),
    (SHEET, "limits/tyres/spread/max/source", GONE, "limits/tyres/spread/max"),
    (SHEET, "lubricants", {"rear-axle": {"grade": "80W-90", "source": "us"}}, "lubricants/rear-axle"),
    (STATES, "states/raised/must-clear", "yes", "states/raised/must-clear"),
    (STATES, "states/raised/excludes", "warm", "states/raised/excludes"),
    (GAUGES, "gauges/tape/resolution", 0, "gauges/tape/resolution"),
    (GAUGES, "gauges/tape/uncertainty", -1, "gauges/tape/uncertainty"),
    (CAUTIONS, "cautions/hot/text", "  ", "cautions/hot/text"),
    (CAUTIONS, "cautions/Hot", {"title": "Hot", "text": "Gloves.", "source": "us"}, "cautions"),
    (FACTS, "facts/drive/values", {}, "facts/drive/values"),
    (FACTS, "facts/drive/values/all-wheel", None, "facts/drive/values/all-wheel"),
    (WALK, "answers/0/say", GONE, "answers/0"),
    (WALK, "answers/0/done", True, "answers/0"),
    (WALK, "answers/0/insist", True, "answers/0"),
    (WALK, "answers/0/at", "a/b/c", "answers/0/at"),
    (WALK, "answers/1/read/left", None, "answers/1/read/left"),
    (WALK, "answers/1/read", {}, "answers/1/read"),
    (WALK, "answers/0", {"at": "go", "done": False}, "answers/0/done"),
    (WALK, "answers/0", {"at": "go", "back": "yes"}, "answers/0/back"),
    (WALK, "answers/0", {"at": "go", "unsure": ""}, "answers/0/unsure"),
    (WALK, "expect/steps", 4, "expect"),
    (MATRIX, "revision", GONE, ""),
    (MATRIX, "fault", {}, ""),
    (MATRIX, "faults", {}, "faults"),
    (MATRIX, "faults/shaft", 2, "faults/shaft"),
    (MATRIX, "faults/shaft/weight", GONE, "faults/shaft"),
    (MATRIX, "faults/shaft/weight", 0, "faults/shaft/weight"),
    (MATRIX, "faults/shaft/weight", -1, "faults/shaft/weight"),
    (MATRIX, "faults/shaft/repair", -1, "faults/shaft/repair"),
    (MATRIX, "faults/shaft/repair", "90", "faults/shaft/repair"),
    (MATRIX, "faults/Shaft", {"weight": 1}, "faults"),
    (MATRIX, "setups", {}, "setups"),
    (MATRIX, "setups/raised/minutes", GONE, "setups/raised"),
    (MATRIX, "setups/raised/minutes", 0, "setups/raised/minutes"),
    (MATRIX, "tests", {}, "tests"),
    (MATRIX, "tests/look/minutes", GONE, "tests/look"),
    (MATRIX, "tests/look/minutes", 0, "tests/look/minutes"),
    (MATRIX, "tests/look/fails", GONE, "tests/look"),
    (MATRIX, "tests/look/fails", ["shaft", "shaft"], "tests/look/fails"),
    (MATRIX, "tests/look/fails", "shaft", "tests/look/fails"),
    (MATRIX, "tests/look/outcomes", {"a": ["shaft"], "b": ["tyres"]}, "tests/look"),
    (MATRIX, "tests/turn/chances", {"shaft": 1}, "tests/turn"),
    (MATRIX, "tests/turn/outcomes/one", [], "tests/turn/outcomes/one"),
    (MATRIX, "tests/turn/outcomes/one", GONE, "tests/turn/outcomes"),
    (MATRIX, "tests/turn/outcomes/two", "shaft", "tests/turn/outcomes/two"),
    (MATRIX, "tests/turn/needs", "raised", "tests/turn/needs"),
    (MATRIX, "tests/hear/chances/shaft", 1.1, "tests/hear/chances/shaft"),
    (MATRIX, "tests/hear/chances/shaft", -0.1, "tests/hear/chances/shaft"),
    (MATRIX, "tests/hear/chances", {}, "tests/hear/chances"),
    (MATRIX, "tests/hear/after", ["Look"], "tests/hear/after/0"),
]


@pytest.mark.parametrize("path", FEW.values(), ids=FEW)
def test_a_shipped_document_keeps_its_schema(path: Path) -> None:
    """Neither validator finds anything in a document of the library."""
    data = plain(path)
    reference = f"{kind(data)}.schema.json"

    assert (explained(reference, data), decided(reference, data)) == (set(), set())


@pytest.mark.parametrize("path", SHIPPED.values(), ids=SHIPPED)
def test_a_shipped_document_tells_editors_its_schema(path: Path) -> None:
    """The first line leads from the document's own folder to the schema of its kind."""
    line = path.read_text("utf-8").splitlines()[0]
    told = (path.parent / line.removeprefix("# yaml-language-server: $schema=")).resolve()

    assert told == HOME / "schemas" / f"{kind(plain(path))}.schema.json"


@pytest.mark.parametrize("document", SOUND, ids=kind)
def test_a_small_document_is_sound(document: dict[str, Any]) -> None:
    """What the broken ones are made from has nothing wrong with it; each kind has one."""
    assert explained(f"{kind(document)}.schema.json", document) == set()


def test_each_kind_is_broken_somewhere() -> None:
    """No kind of document goes without a broken one."""
    assert {kind(document) for document, *_ in BROKEN} == set(KINDS)


@pytest.mark.parametrize(
    ("document", "path", "value", "blamed"),
    BROKEN,
    ids=[f"{kind(d)}:{p}={'gone' if v is GONE else str(v)[:24]}" for d, p, v, _ in BROKEN],
)
def test_the_exact_place_is_blamed(document: dict[str, Any], path: str, value: Any, blamed: str) -> None:
    """One fault gives one place, the same from both validators."""
    reference = f"{kind(document)}.schema.json"
    data = broken(document, path, value)

    assert (explained(reference, data), decided(reference, data)) == ({blamed}, {blamed})


@pytest.mark.parametrize(("first", "second"), [("upto", "below"), ("from", "over")])
def test_the_second_limit_of_a_side_is_named(first: str, second: str) -> None:
    """Of two upper or two lower limits the deciding validator blames the one that gives way."""
    band = {first: 1, second: 2, "then": "end"}
    errors = deciding("step.schema.json#/$defs/band").iter_errors(band)

    assert [error.instance_path for error in errors] == [[second]]


def spots(node: Any, path: tuple[str, ...] = ()) -> Iterator[str]:
    """The path of every value inside a document."""
    pairs = node.items() if isinstance(node, dict) else enumerate(node) if isinstance(node, list) else ()
    for key, inner in pairs:
        yield "/".join((*path, str(key)))
        yield from spots(inner, (*path, str(key)))


WHOLE = [*SOUND, *map(plain, SHIPPED.values())]
NUMBERS = st.integers(-9, 9) | st.floats(-2, 2) | st.just(1e12)
# never an empty key: the loader refuses it, and the deciding validator leaves it out of its paths
KEYS = st.sampled_from(
    [" ", "no", "Big", "a-b", "a--b", "a\n", "a/b", "do", "ask", "sheet.torques.a", "é" * 500]
)
WORDS = st.just("") | KEYS
VALUES = st.recursive(
    st.none() | st.booleans() | NUMBERS | WORDS,
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(KEYS, inner, max_size=3),
    max_leaves=4,
)


@given(st.data())
def test_both_validators_blame_the_same_places(data: st.DataObject) -> None:
    """However a real document is damaged, what one finds the other finds, where it is."""
    document = data.draw(st.sampled_from(WHOLE))
    path = data.draw(st.sampled_from(sorted(spots(document))))
    damaged = broken(document, path, data.draw(st.just(GONE) | VALUES))
    reference = f"{kind(document)}.schema.json"

    assert explained(reference, damaged) == decided(reference, damaged)
