"""What pairs of groups owe for being told apart, once it is seen that every test has it paid.

`engine/planner/dues.py` tells why dues that are paid so are a floor.
"""

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from engine.proof.plan.floors import bits


class Owed:
    """A floor from dues of pairs `[i, j, due]`, in whole parts (`scale`) of price times weight.

    They are for the weights of the matrix, and then the floor is times weight as well; or, where none are
    given, for any weights, since no mean is longer than the longest way.

    >>> test = (3, (0b01, 0b10))  # price, and the groups behind each outcome
    >>> Owed({"scale": 1, "weights": [5, 2], "due": [[0, 1, 21]], "shares": [[15]]}, [test], [5, 2])(0b11)
    21
    >>> Owed({"scale": 1, "weights": [5, 2], "due": [[0, 1, 21]], "shares": [[16]]}, [test], [5, 2])
    Traceback (most recent call last):
    ...
    ValueError: the dues of test 0 are not paid
    """

    def __init__(
        self,
        told: Mapping[str, Any],
        tests: Iterable[tuple[int, Sequence[int]]],
        weights: Sequence[int] | None,
    ) -> None:
        self.weights, self.scale, self.mean = (
            [*map(int, told["weights"])],
            int(told["scale"]),
            weights is not None,
        )
        self.due = {(int(i), int(j)): int(due) for i, j, due in told["due"]}
        if weights is not None and self.weights != [*weights]:
            raise ValueError("the dues are for other weights")
        if any(i == j for i, j in self.due):
            raise ValueError("a group owes itself")
        for number, ((price, parts), shares) in enumerate(zip(tests, told["shares"], strict=True)):
            if self.scale < 1 or not self.paid(price, parts, shares):
                raise ValueError(f"the dues of test {number} are not paid")

    def paid(self, price: int, parts: Sequence[int], shares: Sequence[int]) -> bool:
        """Whether the first of each pair parted pays its share and the second the rest, none too much."""
        behind = {k: number for number, part in enumerate(parts) for k in bits(part)}
        parted = [pair for pair in self.due if behind[pair[0]] != behind[pair[1]]]
        spent = [0] * len(self.weights)
        for pair, share in zip(parted, shares, strict=True):
            if not 0 <= int(share) <= self.due[pair]:
                return False
            spent[pair[0]] += int(share)
            spent[pair[1]] += self.due[pair] - int(share)
        return all(
            0 <= sum_ <= self.scale * price * weight for sum_, weight in zip(spent, self.weights, strict=True)
        )

    def __call__(self, groups: int) -> int:
        """What all pairs among some groups owe together."""
        owed = sum(due for (i, j), due in self.due.items() if groups >> i & groups >> j & 1)
        weight = 1 if self.mean else sum(self.weights[k] for k in bits(groups))
        return -(-owed // (self.scale * weight)) if weight else 0
