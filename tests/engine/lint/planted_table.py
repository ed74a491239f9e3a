"""What every rule makes of the slips planted into the released library, as a table in Markdown.

python -m tests.engine.lint.planted_table
"""

from typing import NamedTuple

from tests.engine.lint.planting import CHECKS, rows, seen


class Line(NamedTuple):
    """What one rule made of its slips and near misses."""

    rule: str
    planted: int
    caught: int
    near_misses: int
    false: int


def line(slug: str) -> Line:
    """The counts of one rule: caught where it tells exactly the lines at fault; false where it tells any."""
    planted = [seen(slug, row.name, "defects") for row in rows("defects") if row.slug == slug]
    near = [seen(slug, row.name, "near-misses") for row in rows("near-misses") if row.slug == slug]
    caught = sum(one.found == one.expected for one in planted)
    return Line(slug, len(planted), caught, len(near), sum(bool(one.findings) for one in near))


def table() -> str:
    """Every rule in the order of the manual, and all of them together."""
    lines = [line(slug) for slug in CHECKS]
    total = Line("**all**", *(sum(one[column] for one in lines) for column in range(1, 5)))  # type: ignore[misc]  # reason: only the first column is no number
    told = [
        f"| {one.rule} | {one.planted} | {one.caught} | {one.planted - one.caught} "
        f"| {one.near_misses} | {one.false} |"
        for one in (*lines, total)
    ]
    head = "| rule | planted | caught | missed | near misses | false |\n|---|--:|--:|--:|--:|--:|"
    return "\n".join((head, *told)) + "\n"


if __name__ == "__main__":
    print(table(), end="")
