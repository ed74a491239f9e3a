"""A plan as the text of a tree document."""

from collections.abc import Sequence
from typing import Any, Final

import yaml

from engine.lint.hazards import Hazards
from engine.model.matrix import Matrix
from engine.model.shop import Shop
from engine.planner.compile import compiled
from engine.planner.tree import Plan

_HEAD: Final = """\
# yaml-language-server: $schema=../../schemas/tree.schema.json
# Made of the matrix `{name}` by `witnessmark plan`. The order is the cheapest; the words are yours.
"""


class _Dumper(yaml.SafeDumper):
    def ignore_aliases(self, _: Any) -> bool:
        """Every value is written where it stands."""
        return True


def tree_text(matrix: Matrix, plan: Plan, shop: Shop) -> str:
    """The document, ready to be worded."""
    hazards = Hazards(shop.cautions.values())

    def cautions(text: str) -> Sequence[str]:
        found = (hazard for hazard in hazards.among((text,)) if hazard.told(text.lower()))
        return sorted({min(hazard.cautions) for hazard in found})

    document = compiled(matrix, plan, shop, cautions)
    text = yaml.dump(
        document, Dumper=_Dumper, sort_keys=False, allow_unicode=True, width=100, default_flow_style=None
    )
    return _HEAD.format(name=matrix.id) + text
