"""The reading grade, held against published values and a pronouncing dictionary."""

import re
from functools import cache

import pytest
from pysyllables import SYLLABLE_COUNTS

from engine import api
from engine.lint.reading import reading, syllables, together
from engine.model.tree import Verdict

#: Of a dictionary full of names from every language so many words; of the words of our own texts, so many.
ALL, OURS = 0.90, 0.98
#: Words said in one syllable or in two; the dictionary prints both ways, the package keeps the longer.
EITHER = {"hour": 1, "hours": 1, "tyre": 1, "tyres": 1, "wire": 1, "wires": 1}


@cache
def heard() -> dict[str, int]:
    """The syllables of every plain word of the CMU Pronouncing Dictionary, one way to say it."""
    return {word: n for word, n in SYLLABLE_COUNTS.items() if re.fullmatch("[a-z]+", word)} | EITHER


@cache
def texts() -> tuple[str, ...]:
    """What the shipped steps say, and the cautions."""
    library = api.library()
    documents = (*library.trees.values(), *library.procedures.values())
    steps = [step for document in documents for step in document.steps.values()]
    said = [
        f"{getattr(step, 'text', '')}\n{step.correction if isinstance(step, Verdict) else ''}\n{step.why}"
        for step in steps
    ]
    return (*said, *(caution.text for caution in library.shop.cautions.values()))


def _words(text: str) -> list[str]:
    return re.findall(r"[a-z0-9]+(?:['’.,][a-z0-9]+)*", text.lower())


@pytest.mark.parametrize(
    ("text", "grade"),
    [
        # published with 13 words and 24 syllables
        ("The Australian platypus is seemingly a hybrid of a mammal and reptilian creature.", 11.3),
        # one sentence of six words of one syllable each
        ("The cat sat on the mat.", -1.45),
        # the lowest grade there is: sentences of one word of one syllable
        ("Stop. Look. Go.", -3.4),
    ],
)
def test_published_grades(text: str, grade: float) -> None:
    """Encyclopaedias print these, to one or two decimals."""
    assert reading(text).grade == pytest.approx(grade, abs=0.05)


def test_syllables_are_those_of_the_dictionary() -> None:
    """By the spelling alone, of more than a hundred thousand words."""
    right = sum(syllables(word) == count for word, count in heard().items())

    assert len(heard()) > 100_000
    assert right / len(heard()) >= ALL


def test_syllables_of_our_own_words_are_those_of_the_dictionary() -> None:
    """The words that technicians use are plainer than the dictionary's."""
    words = {word for text in texts() for word in re.findall(r"[a-z]+", text.lower())} & heard().keys()
    wrong = [word for word in words if syllables(word) != heard()[word]]

    assert len(words) > 500
    assert len(wrong) <= (1 - OURS) * len(words)


@pytest.mark.parametrize("text", [t for t in texts() if len(_words(t)) >= 30])
def test_a_grade_is_that_of_the_dictionary_within_half_a_year(text: str) -> None:
    """The same words and sentences, with the syllables that the dictionary gives."""
    words = _words(text)
    own = sum(map(syllables, words))
    known = sum(heard().get(word, syllables(word)) for word in words)

    assert 11.8 * abs(own - known) / len(words) <= 0.5


@pytest.mark.parametrize(
    ("text", "sentences"),
    [
        ("It turns. It stops.", 2),
        ("Is it 12.5 mm? It is!", 2),
        ("Set it to P, i.e. park it.", 1),
        ('Say "it turns." Then stop', 2),
        ("One line\nanother one\n\n", 2),
        ("Wait ... then go.", 2),
    ],
)
def test_sentences_are_counted_as_people_count_them(text: str, sentences: int) -> None:
    """Numbers and single letters end none; lines of their own are sentences."""
    assert reading(text).sentences == sentences


@pytest.mark.parametrize(
    ("text", "english"),
    [
        ("Turn the wheel by hand.", True),
        ("Das Rad von Hand drehen und auf das Geräusch achten.", False),
        ("Tourner la roue à la main et écouter le bruit.", False),
    ],
)
def test_other_languages_are_told_from_english(text: str, english: bool) -> None:  # noqa: FBT001  reason: what is expected
    """The formula says nothing of them."""
    assert reading(text).english is english


def test_a_text_without_words_has_no_grade() -> None:
    """Nothing is divided by nothing."""
    assert reading("—").grade == 0


def test_texts_together_are_read_as_one() -> None:
    """A text that lacks its point ends a sentence all the same."""
    assert together(("It turns", "", "It stops.")) == reading("It turns. It stops.")
