"""From a matrix and its plan to a tree document that a trainer words.

A test becomes a question with an answer for each outcome; a set-up becomes something to do before it, and is
undone before a verdict where the shop says that it must not last. An outcome that no suspect left can lead
to still has its answer: it ends where what was found does not fit together. Every question may be left as
unsure. Faults that no test tells apart are one suspect.
"""

from collections.abc import Callable, Iterable, Sequence
from fractions import Fraction
from typing import Any, Final

from engine.model.matrix import Matrix, Trial, TrialOutcome
from engine.model.shop import Shop
from engine.model.table import alike
from engine.planner.tree import Leaf, Mend, Node, Plan

Steps = dict[str, dict[str, Any]]
#: The cautions that a text calls for.
Cautions = Callable[[str], Sequence[str]]

_SOURCE: Final = "matrix"
_NOT_TOLD: Final = "not-told"
_NO_FIT: Final = "does-not-fit"
#: More probable than this, a fault is convicted beside the one that is repaired first.
_LIKELY: Final = 0.2


def compiled(matrix: Matrix, plan: Plan, shop: Shop, cautions: Cautions) -> dict[str, Any]:
    """The tree as plain data, in the order of its keys."""
    return _Compiler(matrix, plan, shop, cautions).document()


class _Compiler:
    def __init__(self, matrix: Matrix, plan: Plan, shop: Shop, cautions: Cautions) -> None:
        self._matrix, self._states, self._cautions = matrix, shop.states, cautions
        # of any vehicle, until somebody says which
        self._facts = {name: list(fact.values) for name, fact in [*shop.facts.items()][:1]}
        self._trials = {trial.id: trial for trial in matrix.tests}
        self._setups = {setup.id: setup for setup in matrix.setups}
        self._faults = {fault.id: fault for fault in matrix.faults}
        self._groups = {group[0]: group for group in alike(matrix)}
        self._plan = plan
        self._steps: Steps = {}
        self._ends: Steps = {}
        #: Of each fault that is repaired, where it is likeliest.
        self._likeliest: dict[str, tuple[float, str]] = {}
        self._numbers: dict[tuple[str, str], list[object]] = {}

    def document(self) -> dict[str, Any]:
        """The whole document."""
        start = self._grow(self._plan, frozenset())
        self._convict()
        return {
            "tree": f"{self._matrix.id}-planned",
            "format": 1,
            "revision": 1,
            "title": self._matrix.title,
            "complaint": f"What the customer says of: {self._matrix.title}.",
            "for": self._facts or {"drive": "all-wheel"},
            "suspects": {name: self._suspect(group) for name, group in self._groups.items()},
            "sources": {
                _SOURCE: {
                    "kind": "invented",
                    "cite": f"Minutes, weights and fits of the matrix {self._matrix.id}",
                }
            },
            "start": start,
            "steps": self._steps | self._ends,
        }

    # -- what is asked

    def _grow(self, plan: Plan, standing: frozenset[str], came: str = "") -> str:
        """The steps of a plan, where this came before; the name of the first."""
        if isinstance(plan, Leaf):
            return self._undone(standing, self._verdict(plan.faults))
        if isinstance(plan, Mend):
            return self._undone(standing, self._mended(plan))
        trial = self._trials[plan.test]
        name = self._free(trial.id)
        first = self._prepared(name, [setup for setup in trial.needs if setup not in standing], standing)
        self._steps[name] = {}  # its place; what follows stands behind it
        again = f" (Here after: {came}.)" if came and name != trial.id else ""
        self._steps[name] = self._question(plan, trial, standing | set(trial.needs), again)
        return first

    def _question(self, plan: Node, trial: Trial, ready: frozenset[str], again: str) -> dict[str, Any]:
        text = (trial.say or f"Do the test {_words(trial.id)}. What comes of it?") + again
        lost = [state for state in trial.drops if state in self._states]
        return {
            "ask": text,
            **self._told(text),
            **_some(needs=[name for name in trial.needs if name in self._states], clears=lost),
            "minutes": _number(trial.minutes),
            "source": _SOURCE,
            "answers": [
                {
                    "say": _words(outcome.name).capitalize(),
                    "then": self._after(plan, outcome.name, ready - set(trial.drops)),
                    **self._fits(outcome),
                }
                for outcome in trial.outcomes
            ],
            "unsure": self._undone(ready, self._end(_NOT_TOLD)),
        }

    def _after(self, plan: Node, outcome: str, standing: frozenset[str]) -> str:
        """Where an outcome leads."""
        if outcome in plan.after:
            return self._grow(plan.after[outcome], standing, f"{_words(plan.test)}, {_words(outcome)}")
        return self._undone(standing, self._end(_NO_FIT))

    def _fits(self, outcome: TrialOutcome) -> dict[str, Any]:
        """The suspects that lead to an outcome; whoever is not named goes where it is named."""
        found = {name: _number(outcome.chances[name]) for name in self._groups if outcome.chances.get(name)}
        return {"fits": found} if found else {}

    # -- what is done before and after

    def _prepared(self, then: str, setups: Sequence[str], standing: frozenset[str]) -> str:
        """The set-ups made before a step, one after the other; the name of the first of all."""
        for setup in reversed(setups):
            name, text = self._free(f"set-up-{setup}"), f"Make it so: {self._setups[setup].name}."
            excluded = self._states[setup].excludes if setup in self._states else ()
            self._steps[name] = {
                "do": text,
                **self._told(text),
                **_some(
                    sets=[setup] if setup in self._states else [], clears=standing.intersection(excluded)
                ),
                "minutes": _number(self._setups[setup].minutes),
                "source": _SOURCE,
                "then": then,
            }
            then = name
        return then

    def _undone(self, standing: frozenset[str], then: str) -> str:
        """What must not last is undone first, the last set-up first."""
        lasting = [name for name in self._setups if name in standing and name in self._states]
        for state in (name for name in lasting if self._states[name].must_clear):
            name = self._named("undo", state, then)
            text = f"Undo this: {self._setups[state].name}."
            self._ends[name] = {
                "do": text,
                **self._told(text),
                "clears": [state],
                "source": _SOURCE,
                "then": then,
            }
            then = name
        return then

    # -- where it ends

    def _verdict(self, faults: Sequence[str]) -> str:
        """The verdict on a group."""
        name = f"found-{faults[0]}"
        held = [self._faults[fault] for fault in faults]
        sound = all(fault.repair == 0 for fault in held)
        self._ends[name] = {
            "verdict": " or ".join(fault.name for fault in held),
            "suspects": [faults[0]],
            "grade": "no-fault" if sound else "repair",
            "correction": self._correction(faults),
            **({} if sound else {"follow": ["road-test"]}),
        }
        return name

    def _mended(self, plan: Mend) -> str:
        """The verdict on what is repaired first, and on all that is likely enough; the rest in its order."""
        first = self._faults[plan.order[0][0]]
        name = self._named("repair", first.id, plan.order)
        told = (f"{self._faults[fault].name} ({chance:.0%})." for fault, chance in plan.order)
        likely = [fault for fault, chance in plan.order if fault == first.id or chance > _LIKELY]
        self._ends[name] = {
            "verdict": f"First: {first.name}",
            "suspects": [*dict.fromkeys(map(self._group, likely))],
            "grade": "repair",
            "correction": f"Repair in this order, until the complaint is gone. {' Then: '.join(told)}",
            "follow": ["road-test"],
        }
        for fault, chance in plan.order:
            self._likeliest[fault] = max(self._likeliest.get(fault, (0.0, "")), (chance, name))
        return name

    def _group(self, fault: str) -> str:
        """The suspect that a fault belongs to."""
        return next(name for name, group in self._groups.items() if fault in group)

    def _convict(self) -> None:
        """Whoever is never likely enough is named where it is likeliest."""
        named = {suspect for end in self._ends.values() for suspect in end.get("suspects", ())}
        for fault, (_, name) in self._likeliest.items():
            if self._group(fault) not in named:
                self._ends[name]["suspects"].append(self._group(fault))
                named.add(self._group(fault))

    def _correction(self, faults: Sequence[str]) -> str:
        held = [self._faults[fault] for fault in faults]
        if len(held) > 1:
            return f"No test of the matrix tells them apart: {' or '.join(fault.name for fault in held)}."
        return "Nothing is to be corrected." if held[0].repair == 0 else f"Correct this: {held[0].name}."

    def _suspect(self, group: Sequence[str]) -> dict[str, Any]:
        held = [self._faults[fault] for fault in group]
        return {
            "name": " or ".join(fault.name for fault in held),
            "weight": _number(sum((fault.weight for fault in held), Fraction(0))),
            **_repair([fault.repair for fault in held]),
            "correction": self._correction(group),
        }

    def _end(self, name: str) -> str:
        """A verdict that convicts nobody."""
        said = {
            _NOT_TOLD: ("Not decided", "Say who goes on from here, and with what."),
            _NO_FIT: ("What was found does not fit together", "Check what was observed, and begin again."),
        }[name]
        self._ends[name] = {"verdict": said[0], "suspects": [], "grade": "refer", "correction": said[1]}
        return name

    # -- small things

    def _told(self, text: str) -> dict[str, Any]:
        return _some(cautions=self._cautions(text))

    def _named(self, doing: str, what: str, other: object) -> str:
        """A name for an end, the same for the same end: numbered from the second on."""
        alike = self._numbers.setdefault((doing, what), [])
        if other not in alike:
            alike.append(other)
        number = alike.index(other) + 1
        return f"{doing}-{what}" + (f"-{number}" if number > 1 else "")

    def _free(self, name: str) -> str:
        """The name, or with a number behind it where it is taken."""
        taken, number = name, 1
        while taken in self._steps:
            number += 1
            taken = f"{name}-{number}"
        return taken


def _some(**lists: Iterable[str]) -> dict[str, list[str]]:
    """Those that are not empty."""
    return {key: found for key, names in lists.items() if (found := sorted(names))}


def _repair(minutes: Sequence[Fraction | None]) -> dict[str, Any]:
    """The minutes until all of them are repaired, where each has some.

    >>> _repair([Fraction(20), Fraction(5)]), _repair([Fraction(20), None])
    ({'repair': 25}, {})
    """
    known = [each for each in minutes if each]
    return {"repair": _number(sum(known, Fraction(0)))} if len(known) == len(minutes) else {}


def _number(value: Fraction) -> int | float:
    """As a document writes it; thirds lose what nine digits cannot tell."""
    return int(value) if value.denominator == 1 else float(f"{float(value):.9g}")


def _words(name: str) -> str:
    """A name as words.

    >>> _words("front-only")
    'front only'
    """
    return name.replace("-", " ")
