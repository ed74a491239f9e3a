"""The pictures of the README: drawn by the app, and asking nothing of other places."""

import asyncio
import re

import pytest

from tests.tui.pictures import FOLDER, SCENES, draw

README = FOLDER.parent / "README.md"


@pytest.mark.parametrize("path", sorted(FOLDER.glob("*.svg")), ids=lambda path: path.stem)
def test_a_picture_asks_nothing_of_other_places(path: object) -> None:
    """No font, link or script: whoever opens it is not told to anybody."""
    text = (FOLDER / str(path)).read_text("utf-8")

    assert set(re.findall(r"https?://[^\"' )]+", text)) == {"http://www.w3.org/2000/svg"}
    assert "<script" not in text


def test_every_picture_is_shown() -> None:
    """None is kept for nobody, and none that is shown is missing."""
    shown = set(re.findall(r"\(\.pictures/([a-z]+)\.svg\)", README.read_text("utf-8")))

    assert shown == {path.stem for path in FOLDER.glob("*.svg")} >= set(SCENES)


def test_a_picture_is_of_the_app() -> None:
    """Readings, the figure they make and how sure it is stand in the picture of a measurement."""
    words = re.sub(r"<[^>]+>", " ", asyncio.run(draw("reading"))).replace("&#160;", " ")

    assert "5 mm: up to 8 mm - The tyres roll alike, over 99 % sure" in words
