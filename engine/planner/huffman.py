"""The least that telling suspects apart can cost, if any test were to be had: Huffman's tree."""

from bisect import insort
from collections.abc import Iterable
from heapq import heapify, heappop, heappush


def huffman(weights: Iterable[int], ways: int = 2) -> int:
    """The least sum of weight times number of tests, over all trees of tests with at most so many outcomes.

    Source: D. A. Huffman, Proc. IRE 40(9):1098-1101, 1952. Right as a bound only where every weight can and
    must be told from every other; the trap of theory: 0.45 and 0.45 that no test tells apart are one weight
    of 0.90.

    >>> huffman([70, 1, 2, 10, 5, 12])
    159
    >>> huffman([45, 45, 10]), huffman([90, 10])
    (155, 100)
    >>> huffman([1, 1, 1, 1, 1], ways=3)
    8
    """
    heap = [*weights]
    if ways == 2:
        return binary(heap)
    if len(heap) <= ways:
        return sum(heap) if len(heap) > 1 else 0
    heap += [0] * ((1 - len(heap)) % (ways - 1))
    heapify(heap)
    total = 0
    while len(heap) > 1:
        joined = sum(heappop(heap) for _ in range(ways))
        total += joined
        heappush(heap, joined)
    return total


def binary(weights: list[int]) -> int:
    """The usual case, quicker: the search asks for it a hundred thousand times, most often of few weights.

    The list is used up.

    >>> binary([70, 1, 2, 10, 5, 12])
    159
    """
    weights.sort()
    total = 0
    while (left := len(weights)) > 4:
        joined = weights[0] + weights[1]
        del weights[:2]
        insort(weights, joined)  # of so few weights a sorted list is quicker than a heap
        total += joined
    if left < 3:
        return sum(weights) if left > 1 else 0
    total += 2 * sum(weights)
    return total - weights[2] if left == 3 else total - max(0, weights[3] - weights[0] - weights[1])
