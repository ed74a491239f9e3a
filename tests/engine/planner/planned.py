"""The tree of a plan among shipped documents."""

from pathlib import Path

from engine.loading import folders
from engine.loading.leaf import File
from engine.loading.library import Library, gather
from engine.model.matrix import Matrix
from engine.planner.planning import plan
from engine.report.plan_tree import tree_text

SHIPPED = gather(folders.shipped())
NAMED = "made/complaints/planned.yaml"
#: Without other trees and their many rehearsals: a planned tree has nothing to do with them.
_AROUND = [f for f in folders.shipped() if Path(f.path).parent.name not in {"complaints", "rehearsals"}]


def library(made: Matrix) -> Library:
    """Shop, vehicles, procedures and matrices as shipped, with the tree of the plan among them."""
    text = tree_text(made, plan(made).plan, SHIPPED.shop)
    return gather([*_AROUND, File(NAMED, NAMED, text.encode())])
