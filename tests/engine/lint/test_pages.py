"""Every slug that a finding may carry has a page in the manual."""

import re
from pathlib import Path

import pytest

from engine.cli.main import main
from engine.lint.pages import page, slugs

LOADING = Path(__file__).parents[3] / "engine" / "loading"
_SLUG = re.compile(r'(?:Fault|_Slip|Problem)\(\s*"([a-z]+(?:-[a-z]+)*)"|"(name-taken|unknown-kind)"')


def _told_by_the_loader() -> frozenset[str]:
    text = "\n".join(path.read_text(encoding="utf-8") for path in LOADING.glob("*.py"))
    return frozenset(a or b for a, b in _SLUG.findall(text) if " " not in (a or b))


def test_every_slug_of_the_loader_has_a_page() -> None:
    """No finding of the loader is left unexplained."""
    assert _told_by_the_loader() - set(slugs()) == set()


@pytest.mark.parametrize("slug", slugs())
def test_every_page_teaches(slug: str) -> None:
    """A page is headed by its slug and says what is bad or what would be good."""
    text = page(slug) or ""

    assert text.startswith(f"{slug}\n\n")
    assert re.search(r"\b(Bad|Good)\b", text)


def test_explain_prints_the_page(capsys: pytest.CaptureFixture[str]) -> None:
    """`explain SLUG` prints the page and ends with 0."""
    assert main(["explain", "loop"]) == 0
    assert capsys.readouterr().out == f"{page('loop')}\n"


def test_explain_names_the_nearest_slug(capsys: pytest.CaptureFixture[str]) -> None:
    """A slip in the slug ends with 2 and the slug that was meant."""
    assert main(["explain", "lop"]) == 2
    assert "Did you mean `loop`?" in capsys.readouterr().err
