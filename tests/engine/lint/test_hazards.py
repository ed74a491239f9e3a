"""Words that tell of a hazard: where they are found, and where they only seem to be."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.lint.hazards import Hazard, Hazards, inflected
from engine.model.place import Place
from engine.model.shop import Caution

PLACE = Place("cautions.yaml", 1, 1)


def found(word: str, text: str) -> bool:
    """Whether a word is found in a text, by both of the sieves."""
    hazards = Hazards([Caution("careful", "", "", "", PLACE, (word,))])
    return any(hazard.told(text.lower()) for hazard in hazards.among([text]))


@pytest.mark.parametrize(
    ("word", "text"),
    [
        ("raise", "Raise it."),
        ("raise", "it is being RAISED"),
        ("raise", "raising it"),
        ("carry", "He carries it"),
        ("drag", "dragging"),
        ("winch", "Two winches pull"),
        ("start the engine", "Starting the\n engine"),
        ("tow-bar", "Fit the tow bar"),
        ("tow bar", "Fit the tow-bar"),
        ("turn ... wheel", "turn wheels"),
        ("turn ... wheel", "Turn by hand one front wheel"),
        ("turn ... wheel", "Turn, by hand, the wheel"),
        ("turn ... wheel", "Turn the owner's other wheel"),
        ("Öl", "heißes öl"),
        ("rpm", "at 1500 rpm"),
    ],
)
def test_a_word_is_found(word: str, text: str) -> None:
    """In its inflections, whatever its case, across line ends and hyphens, with a few words between."""
    assert found(word, text)


@pytest.mark.parametrize(
    ("word", "text"),
    [
        ("raise", "praise"),
        ("hot", "a hotel"),
        ("hot", "shot"),
        ("jack", "a jacket"),
        ("start the engine", "start it; the engine"),
        ("start the engine", "start the other engine"),
        ("turn ... wheel", "a wheel may turn"),
        ("turn ... wheel", "turn one two three four five wheels"),
        ("turn ... wheel", "Turn it. Wheels hang."),
        ("turn ... wheel", "turn it: the wheels hang"),
    ],
)
def test_what_looks_like_it_is_not(word: str, text: str) -> None:
    """Not inside another word, nor in another order, nor across the end of a sentence."""
    assert not found(word, text)


@given(st.from_regex(r"[a-z]{2,10}", fullmatch=True))
def test_every_inflection_is_found_and_is_found_alone(word: str) -> None:
    """By the whole machinery as by its own spelling; with letters around it, never."""
    for form in inflected(word):
        assert found(word, f"({form})")
        assert not found(word, f"x{form}x")


def test_cautions_that_list_a_word_share_it() -> None:
    """Any of them is meant for it, in the order of the shop."""
    hazards = Hazards([Caution(name, "", "", "", PLACE, ("drain",)) for name in ("hot-oil", "used-oil")])

    assert [hazard.cautions for hazard in hazards.among(["drain it"])] == [("hot-oil", "used-oil")]


def test_a_shop_without_words_has_no_hazards() -> None:
    """The list belongs to the shop; nothing is built in."""
    assert Hazards([Caution("hot-oil", "", "", "", PLACE)]).among(["Drain the hot oil."]) == ()


def test_a_hazard_is_named_as_the_shop_writes_it_in_small_letters() -> None:
    """So that two cautions that write it differently still share it."""
    hazards = Hazards(Caution(word, "", "", "", PLACE, (word,)) for word in ("Drain", "drain"))

    assert [(h.word, h.cautions) for h in hazards.among(["drain"])] == [("drain", ("Drain", "drain"))]


def test_words_of_several_texts_are_no_hazard_of_any() -> None:
    """The first sieve looks at all steps at once; the second one at each."""
    hazard = Hazard("turn ... wheel", ("turn-by-hand",))

    assert [hazard.told(text) for text in ("turn it", "which wheel?", "turn the wheel")] == [
        False,
        False,
        True,
    ]
