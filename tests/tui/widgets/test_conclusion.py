"""A verdict as the app tells it."""

from fractions import Fraction

from engine.interview.question import Spare, VerdictPrompt, Where
from tui.widgets.conclusion import Conclusion
from tui.widgets.labelled import Labelled, Text

WHERE = Where("It drips", "Wagon", "end", (), (), (), Spare(Fraction(0), Fraction(0)), (), (), ())


def texts(picture: str) -> list[Text]:
    """The labelled texts of a verdict that shows a picture."""
    prompt = VerdictPrompt(
        WHERE, "Worn", "", (), picture, (), "refer", "Renew it.", accepted=False, follow=()
    )
    return [
        text for part in Conclusion(prompt).compose() if isinstance(part, Labelled) for text in part.texts
    ]


def test_the_picture_of_a_verdict_is_named() -> None:
    """By its path, behind a label of its own."""
    assert [text.text for text in texts("pictures/worn.svg") if text.label == "Picture"] == [
        "pictures/worn.svg"
    ]


def test_a_verdict_without_a_picture_has_no_label_for_one() -> None:
    """Nothing stands there to be wondered at."""
    assert [text for text in texts("") if text.label == "Picture"] == []
