"""The tables in trees/README.md are of today, and every dear order has its reason."""

import os

import pytest

from tests.tree_tables import DEARER, GUIDE, Order, orders, renewed


def test_the_tables_are_of_today() -> None:
    """They say what the engine finds; WITNESSMARK_REFRESH=1 writes them anew."""
    kept = GUIDE.read_text(encoding="utf-8")
    fresh = renewed(kept)
    if os.environ.get("WITNESSMARK_REFRESH"):
        GUIDE.write_text(fresh, encoding="utf-8")

    assert kept.count("\n| no-rear-drive | ") >= 2
    assert GUIDE.read_text(encoding="utf-8") == fresh


@pytest.mark.parametrize("order", orders(), ids=lambda order: order.tree)
def test_the_cheapest_order_is_proven(order: Order) -> None:
    """No order of the tree's tests takes fewer expected minutes than the one that it is held against."""
    assert order.cheapest.proven


@pytest.mark.parametrize("order", orders(), ids=lambda order: order.tree)
def test_an_order_is_cheap_or_says_why_not(order: Order) -> None:
    """Whatever is more than a tenth dearer than the cheapest order has a reason above its start."""
    assert order.dearer <= 10 or order.reason.startswith(DEARER)
