"""Every rule on slips planted into the released library, and on what only looks like them."""

import os
import re
from pathlib import Path

import pytest

from engine.lint.runner import run
from engine.loading import folders
from engine.loading.library import gather
from tests.engine.lint.planted_table import line, table
from tests.engine.lint.planting import CHECKS, HOME, Row, rows, seen

FIGURES = Path(__file__).parents[3] / "benchmarks/README.md"
SLUGS = list(CHECKS)
#: Rules that show with a walk that what they say can happen.
SHOWN = ("missing-state", "forbidden-state", "left-unsafe", "states-together")


@pytest.mark.parametrize("row", rows("defects"), ids=str)
def test_a_planted_slip_is_found_where_it_was_planted(row: Row) -> None:
    """The rule tells the lines at fault, and no others in the whole library."""
    made = seen(row.slug, row.name, "defects")

    assert made.found == made.expected
    assert made.expected


@pytest.mark.parametrize("row", rows("near-misses"), ids=str)
def test_what_only_looks_like_a_slip_is_left_in_peace(row: Row) -> None:
    """The rule finds nothing at all."""
    assert seen(row.slug, row.name, "near-misses").findings == ()


@pytest.mark.parametrize("kind", ["defects", "near-misses"])
def test_only_rules_tell_of_what_was_planted(kind: str) -> None:
    """Every edited document can be read: the schema alone would not have caught a thing."""
    assert [str(row) for row in rows(kind) if seen(row.slug, row.name, kind).library.problems] == []


@pytest.mark.parametrize("row", [row for row in rows("defects") if row.slug in SHOWN], ids=str)
def test_a_fault_of_states_is_shown_by_a_walk(row: Row) -> None:
    """Each finding has its walk, which passes the step that the row names."""
    paths = [found.path for found in seen(row.slug, row.name, "defects").findings]

    assert all(
        re.search(
            rf"(^|[/\n]){row.data['through']}(:|$)", "\n".join(stop.said for stop in path), re.MULTILINE
        )
        for path in paths
    )


@pytest.mark.parametrize("kind", ["defects", "near-misses"])
@pytest.mark.parametrize("slug", SLUGS)
def test_a_rule_has_plantings(slug: str, kind: str) -> None:
    """Three of each kind; a rule without them is not proven on the released library."""
    names = [row.name for row in rows(kind) if row.slug == slug]

    assert len(names) >= 3, f"Plant at least three {kind} for `{slug}` in {HOME.name}/{slug}.yaml."


@pytest.mark.parametrize("kind", ["defects", "near-misses"])
def test_every_row_is_of_a_rule_and_says_why(kind: str) -> None:
    """The file is named after a rule; the row tells what goes wrong, or why it is right, in one line."""
    word = "wrong" if kind == "defects" else "right"
    told = re.compile(r"[A-Z`].*[.]")

    assert [str(row) for row in rows(kind) if row.slug not in SLUGS] == []
    assert [str(row) for row in rows(kind) if not told.fullmatch(row.data.get(word, ""))] == []


def test_the_released_library_is_clean_and_nothing_in_it_is_suppressed() -> None:
    """No finding, and no document that asks for one to be accepted."""
    library = gather(folders.shipped())

    assert run(library) == ()
    assert [path for path, text in library.texts.items() if re.search(r"^accept:", text, re.MULTILINE)] == []


def test_the_table_says_that_nothing_was_missed_and_nothing_false() -> None:
    """In the row of each rule and in the last one."""
    assert [line(slug) for slug in SLUGS if line(slug).caught < line(slug).planted or line(slug).false] == []
    assert re.search(r"^\| \*\*all\*\* \| (\d+) \| \1 \| 0 \| \d+ \| 0 \|$", table(), re.MULTILINE)


def test_the_table_of_the_figures_is_of_today() -> None:
    """It is what the command prints; WITNESSMARK_REFRESH=1 writes it anew."""
    kept = FIGURES.read_text("utf-8")
    head = table().partition("\n")[0]
    fresh = re.sub(rf"^{re.escape(head)}\n(\|.*\n)+", lambda _: table(), kept, flags=re.MULTILINE)
    if os.environ.get("WITNESSMARK_REFRESH"):
        FIGURES.write_text(fresh, "utf-8")

    assert head in kept
    assert FIGURES.read_text("utf-8") == fresh
