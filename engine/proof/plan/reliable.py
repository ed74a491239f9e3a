"""The independent checker of plans whose tests are reliable, whole in this file.

It knows the matrix (`engine/model/table.py` tells what a document means) and nothing of the planner, and it
does not search. Prices are whole parts of a minute; where the mean is wanted, times whole parts of a weight.
A state is the groups of faults still suspected (as bits), and what stands and was done. A proof holds for
three reasons.

**Claims.** A claim says that a state costs at least so much. It holds if every test that can come next does,
with what the states behind its outcomes cost at least: by their own claims, or by a floor. So no plan of a
state undercuts its claim, by induction on the size of the plan. Where one group is left nothing can come
next, and nothing can be claimed. (A test that parts nothing and that no other waits for is left out, since it
only costs.) What the proof says of the start is the lower bound.

**Dues** are one floor. Each pair of groups owes something, and any test that tells the two apart has it paid
by both: a share by the first, the rest by the second. No group may pay more at a test than its price times
its own weight. Every pair among the suspects will be told apart, so a plan costs at least what they owe.

**Layers** are another floor. Cut the price of a test of 7 minutes into 7 layers. At each height the cheaper
tests leave groups together; whatever parts these reaches that height, and costs them at least Huffman's sum.

**Kinds** are the third floor. Groups are put into kinds, and only their numbers are looked at
(`engine/model/kinds.py`): any of a kind may then take the place of any other, and weighs as its lightest,
which costs no more.

Floors are means by weights. Where the mean is wanted, they are those of the matrix. Where the longest way is
wanted, the proof may choose them, for no mean is longer than the longest way.
"""

from collections.abc import Iterator, Mapping
from functools import cache
from typing import Any

from engine.model.table import State, Table, among


def figures(seen: Table, made: Mapping[str, Any]) -> tuple[float, float, float, bool]:
    """Minutes of the mean way and of the longest, minutes that no plan undercuts, whether they meet.

    :raises ValueError: where the plan cannot be followed, or its proof does not hold.
    """
    mean, worst = (cost(seen, made["plan"], seen.start, mean=one) for one in (True, False))
    least, parts = {"expected": (mean, seen.whole), "worst": (worst, seen.scale)}[made["goal"]]
    low = bound(seen, made["certificate"], mean=made["goal"] == "expected")
    return mean / seen.whole, worst / seen.scale, low / parts, low == least


def cost(seen: Table, node: Mapping[str, Any], state: State, *, mean: bool) -> int:
    """The price of a plan from a state on: of all ways, times weight; or of the longest."""
    if [node.get("faults")] == [[*names] for names in among(seen.groups, state[0])]:
        return 0
    said = node.get("test"), node.get("setups"), node.get("minutes"), node.get("outcomes", {}).keys()
    for test in seen.next(state):
        if said == (test.name, [*test.setups], test.minutes, test.after.keys()):
            below = [cost(seen, node["outcomes"][k], then, mean=mean) for k, then in test.after.items()]
            return test.cost(below, mean=mean)
    raise ValueError(f"{node.get('test', node.get('faults'))!r} cannot come where it stands")


def bound(seen: Table, proof: Mapping[str, Any], *, mean: bool) -> int:
    """What no plan undercuts, by the claim about the start."""
    scale, dues = int(proof["scale"]), [(i, j, int(due)) for i, j, due in proof["dues"]]
    weights = [scale * int(weight) for weight in (seen.weights if mean else proof["weights"])]
    claims = {(groups, frozenset(marks)): int(low) for groups, marks, low in proof["claims"]}
    rises = [*layers(seen, weights, dues, proof["shares"])]
    tree = cache(lambda groups: huffman(sorted(among(weights, groups)), seen.ways))
    kinds = seen.kinds(proof.get("kinds", []), weights)
    few = cache(lambda left: min((paid + sum(map(few, to)) for paid, to in kinds.next(left)), default=0))

    @cache
    def least(state: State) -> int:
        owed = sum(due for i, j, due in dues if state[0] >> i & state[0] >> j & 1)
        layered = sum(rise * tree(state[0] & left) for rise, left in rises)
        unit = scale if mean else sum(among(weights, state[0])) or 1
        return max(claims.get(state, 0), -(-max(owed, layered, int(few(kinds.told(state[0])))) // unit))

    for state, low in claims.items():
        if low > min((t.cost(map(least, t.after.values()), mean=mean) for t in seen.next(state)), default=0):
            raise ValueError(f"from {state[0]:b} on, with {sorted(state[1])}, it may cost less than {low}")
    return claims[seen.start]


def layers(seen: Table, weights: list[int], dues: list[Any], shares: Any) -> Iterator[tuple[int, int]]:
    """Each rise of the price with the groups that cheaper tests leave together; the dues are paid."""
    height, classes = 0, [seen.start[0]]
    for test, price in sorted(seen.prices.items(), key=lambda priced: priced[1]):
        parts, room = seen.behind[test].values(), [price * weight for weight in weights]
        parted = [(i, j, due) for i, j, due in dues if not any(part >> i & part >> j & 1 for part in parts)]
        for (i, j, due), share in zip(parted, map(int, shares[test]), strict=False):
            room[i], room[j] = room[i] - max(0, share), room[j] - max(0, due - share)
        if min(room) < 0 or len(shares[test]) != len(parted) or any(i == j for i, j, _ in dues):
            raise ValueError(f"the dues at the test {test!r} are not paid")
        yield from ((price - height, old) for old in classes if price > height)
        classes, height = [new for old in classes for part in parts if (new := old & part) & (new - 1)], price


def huffman(weights: list[int], ways: int) -> int:
    """The least sum of weight times number of tests with at most so many outcomes (Huffman 1952).

    >>> huffman([1, 2, 5, 10, 12, 70], 2)
    159
    """
    few = (len(weights) - 2) % (ways - 1) + 2
    return (one := sum(weights[:few])) + huffman(sorted([one, *weights[few:]]), ways) if weights[1:] else 0
