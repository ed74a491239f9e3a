"""Flow graphs with their dominators as they were published, written down from the sources named."""

from collections.abc import Mapping
from typing import Final, NamedTuple

Edges = tuple[tuple[str, str], ...]


class Published(NamedTuple):
    """A graph with what its source says of it; a part that it does not say is empty."""

    source: str
    edges: Edges
    start: str
    #: Immediate dominator of each node but the start.
    immediate: Mapping[str, str]
    #: Where the graph is left, and the immediate post-dominator of each other node.
    exit: str = ""
    after: Mapping[str, str] = {}
    #: Dominance frontier of each node.
    frontiers: Mapping[str, str] = {}


def _edges(text: str) -> Edges:
    return tuple((a, b) for a, _, b in (pair.partition("-") for pair in text.split()))


def _each(text: str) -> dict[str, str]:
    return {a: b for a, _, b in (pair.partition(":") for pair in text.split())}


PUBLISHED: Final = {
    "thirteen nodes": Published(
        "Lengauer & Tarjan, A Fast Algorithm for Finding Dominators, ACM TOPLAS 1(1), 1979, fig. 1",
        _edges("R-A R-B R-C A-D B-A B-D B-E C-F C-G D-L E-H F-I G-I G-J H-E H-K I-K J-I K-R K-I L-H"),
        "R",
        _each("A:R B:R C:R D:R E:R H:R I:R K:R F:C G:C J:G L:D"),
    ),
    "irreducible, five nodes": Published(
        "Cooper, Harvey & Kennedy, A Simple, Fast Dominance Algorithm, 2001, fig. 2",
        _edges("1-2 2-1 3-2 4-1 5-3 5-4"),
        "5",
        _each("1:5 2:5 3:5 4:5"),
        frontiers=_each("1:2 2:1 3:2 4:1 5:"),
    ),
    "irreducible, six nodes": Published(
        "Cooper, Harvey & Kennedy, A Simple, Fast Dominance Algorithm, 2001, fig. 4",
        _edges("1-2 2-1 2-3 3-2 4-2 4-3 5-1 6-4 6-5"),
        "6",
        _each("1:6 2:6 3:6 4:6 5:6"),
        frontiers=_each("1:2 2:13 3:2 4:23 5:1"),
    ),
    "eight nodes": Published(
        "tests of the Boost Graph Library, dominator tree, first graph; the same in the tests of networkx",
        _edges("0-1 1-2 1-3 2-7 3-4 4-5 4-6 5-7 6-4"),
        "0",
        _each("1:0 2:1 3:1 4:3 5:4 6:4 7:1"),
        exit="7",
        after=_each("0:1 1:7 2:7 3:4 4:5 5:7 6:4"),
    ),
    "a loop": Published(
        "tests of networkx, dominance, after the article on dominators in Wikipedia",
        _edges("1-2 2-3 2-4 2-6 3-5 4-5 5-2"),
        "1",
        _each("2:1 3:2 4:2 5:2 6:2"),
        exit="6",
        after=_each("1:2 2:6 3:5 4:5 5:2"),
    ),
    "a loop with a choice": Published(
        "Appel, Modern Compiler Implementation, fig. 19.4, as in the tests of the Boost Graph Library",
        _edges("0-1 1-2 1-3 2-4 2-5 4-6 5-6 6-1"),
        "0",
        _each("1:0 2:1 3:1 4:2 5:2 6:2"),
    ),
}
