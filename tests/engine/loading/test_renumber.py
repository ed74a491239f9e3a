"""Other numbers in a text: only they change, wherever and however they are written."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.errors import Refusal
from engine.loading.document import read
from engine.loading.renumber import Path, renumbered

WEIGHT: Path = ("suspects", "shaft", "weight")
LAST: Path = ("steps", 1, "fits", "shaft")


#: Texts with a mark where the number stands, and the number as it is written.
LAYOUTS = {
    "comment": ("suspects:\n  shaft:\n    weight: @ # weight: 2\n", "2", WEIGHT),
    "one line": ("suspects: {a: {weight: 2}, shaft: {weight: @}}", "2", WEIGHT),
    "in a text": ("{suspects: {shaft: {name: 'weight: 1', weight: @}}}", "2.50", WEIGHT),
    "quoted keys": ('suspects: {"shaft": {"weight":@}}', "2", WEIGHT),
    "windows": ("suspects:\r\n  shaft:\r\n    weight:   @\r\nb: 1\r\n", "2", WEIGHT),
    "mark of order": ("\ufeff{suspects: {shaft: {weight: @}}}", "2", WEIGHT),
    "next line": ("suspects:\n  shaft:\n    weight:\n      @\n", "2", WEIGHT),
    "wide signs": ("suspects: {shaft: {name: Gelenkwelle ≈ ü 🚗, weight: @}}", "2", WEIGHT),
    "flow": ("steps: [{fits: {shaft: 1}}, {fits: {shaft: @, b: 0.5}}]", ".5", LAST),
    "block": ("steps:\n- fits: {shaft: 1}\n- fits:\n    shaft: @\n", "2e-1", LAST),
}


@pytest.mark.parametrize("layout", LAYOUTS)
def test_only_the_number_changes(layout: str) -> None:
    """Whatever the layout: comments, blanks and line ends stay."""
    text, number, path = LAYOUTS[layout]

    assert renumbered(text.replace("@", number), {path: "7"}) == text.replace("@", "7")


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("suspects: {shaft: {weigth: 2}}", "There is no number at suspects, shaft, weight."),
        ("suspects: {shaft: {weight: heavy}}", "There is no number at suspects, shaft, weight."),
        ("suspects: {a: &w {weight: 2}, shaft: *w}", "without changing something else"),
        ("suspects: {a: {weight: &w 2}, shaft: {weight: *w}}", "There is no number at"),
        ("suspects: {shaft: {weight: '2'}}", "There is no number at"),
        ("suspects: [", "There is no number at"),
    ],
    ids=["not there", "no number", "shared map", "shared number", "a text", "broken"],
)
def test_what_cannot_be_changed_alone_is_refused(text: str, why: str) -> None:
    """With the reason, and without a changed text."""
    found = renumbered(text, {WEIGHT: "7"})

    assert isinstance(found, Refusal)
    assert why in found.message


@given(st.dictionaries(st.sampled_from("abcdef"), st.decimals(0, 99, places=3), min_size=1))
def test_any_numbers_are_read_back(numbers: dict[str, object]) -> None:
    """Several at once, of other lengths than before."""
    text = "".join(f"{name}: {{weight: 1.5, name: {name}}}\n" for name in "abcdef")
    found = renumbered(text, {(name, "weight"): str(number) for name, number in numbers.items()})

    assert isinstance(found, str)
    data = read(found.encode(), "").data
    assert data is not None
    wanted = {name: float(str(numbers.get(name, 1.5))) for name in "abcdef"}
    assert {name: float(data[name]["weight"]) for name in data} == wanted
