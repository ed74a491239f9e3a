"""Which suspects a tree can convict on a vehicle, and with which others it leaves each of them.

A suspect is detected where some verdict that convicts it has a chance under it (see `chances`). Its ambiguity
group are all suspects that each such verdict convicts as well: whichever of these verdicts the tree comes to
when this suspect is to blame, the others are accused with it. The suspect itself is one of its group.

Verdicts that convict somebody else, or nobody, make no group larger: the groups say how finely the tree's
verdicts name a suspect they convict, not how often they are right.
"""

from collections.abc import Mapping

from engine.model.tree import Tree, Verdict


def groups(tree: Tree, ends: Mapping[str, frozenset[str]]) -> dict[str, frozenset[str]]:
    """The group of each suspect that is detected, given the verdicts that may be reached under each."""
    found: dict[str, frozenset[str]] = {}
    for suspect, names in ends.items():
        verdicts = (tree.steps[name] for name in names)
        accused = [
            frozenset(v.suspects) for v in verdicts if isinstance(v, Verdict) and suspect in v.suspects
        ]
        if accused:
            found[suspect] = frozenset.intersection(*accused)
    return found
