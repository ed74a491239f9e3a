"""A released document that rests on what somebody invented, or remembers and never looked up.

`released: true` says that a document is ready for work on real vehicles. While it is being written, an
invented or remembered figure is better than none; before it is released, somebody looks it up.

Bad:

    released: true
    sources:
      guess: {kind: memory}

Good: the source was found; or the document is not released yet.

    released: true
    sources:
      jacks: {kind: published, cite: "29 CFR 1910.244(a), jacks"}
"""

from collections.abc import Iterator
from typing import Final

from engine.lint.finding import Found
from engine.lint.rule import Scope

_UNPROVEN: Final = {"invented": "invented", "memory": "only remembered"}


def check(scope: Scope) -> Iterator[Found]:
    """Every source of a released document that cannot be looked up and is no common practice."""
    for document in scope.documents:
        for source in document.sources.values() if document.released else ():
            if source.kind in _UNPROVEN:
                yield Found(
                    source.place,
                    f"The source `{source.name}` of this released document is {_UNPROVEN[source.kind]}.",
                    "Look it up and cite it, or take `released` away until that is done.",
                )
