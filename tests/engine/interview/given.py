"""Small documents to walk on, and the few words that tests walk with."""

from dataclasses import replace
from functools import cache
from textwrap import dedent, indent
from typing import Final

from engine.errors import Refusal
from engine.interview.command import Acknowledge, Command, Read
from engine.interview.decide import decide
from engine.interview.evolve import evolve, opened
from engine.interview.pack import pack
from engine.interview.state import State
from engine.lint.registry import RULES
from engine.lint.rule import Scope
from engine.loading.leaf import File
from engine.loading.library import Library, gather
from engine.records.event import Entry, Event

SHOP: Final = {
    "shop/cautions.yaml": """
        cautions:
          hot: {title: Hot parts, text: The exhaust burns., source: habit}
          turning: {title: Turning wheels, text: Stand clear of the wheels., source: habit}
        format: 1
        sources: {habit: {kind: common-practice}}
        """,
    "shop/states.yaml": """
        states:
          raised: {title: Raised, must-clear: true}
          running: {title: Engine running, must-clear: true}
          warm: {title: Warm}
        format: 1
        """,
    "shop/gauges.yaml": """
        gauges:
          rule: {title: Steel rule, unit: mm, resolution: 0.5, uncertainty: 0.3, source: habit}
          wrench: {title: Torque wrench, unit: N·m, resolution: 1, uncertainty: 2, source: habit}
          probe: {title: Probe, unit: °C, resolution: 0.5, uncertainty: 1, source: habit}
          jug: {title: Measuring jug, unit: L, resolution: 0.05, uncertainty: 0.05, source: habit}
          counter: {title: Rev counter, unit: rpm, resolution: 10, uncertainty: 10, source: habit}
          watch: {title: Watch, unit: min, resolution: 0.1, uncertainty: 0.1, source: habit}
        format: 1
        sources: {habit: {kind: common-practice}}
        """,
    "shop/facts.yaml": """
        facts:
          gearbox: {title: Gearbox, values: {manual: shifted by hand, automatic: shifts by itself}}
          axle: {title: Rear axle, values: {open: open, limited: limited slip}}
        format: 1
        """,
    "vehicles/wagon.yaml": """
        vehicle: wagon
        format: 1
        revision: 3
        title: Brennick test wagon
        facts: {gearbox: manual, axle: limited}
        sources: {ours: {kind: invented}}
        limits:
          bearing:
            end-play: {max: {is: 0.2, unit: mm, source: ours}}
          tyres:
            spread: {max: {is: 0.25, unit: in, source: ours}}
            relative: {max: {is: 0.5, unit: "%", source: ours}}
          oil:
            heat: {max: {is: 212, unit: °F, source: ours}}
            drained: {max: {is: 1, unit: US qt, source: ours}}
          flange:
            holding: {min: {is: 30, unit: lbf·ft, source: ours}}
        capacities: {transfer: {is: 0.9, unit: L, source: ours}}
        lubricants: {transfer: {grade: 80W-90, service: GL-5, remark: No friction modifier., source: ours}}
        torques: {flange: {is: 45, unit: N·m, source: ours}}
        """,
}

#: What a walk relies on; whether it is wise is another matter.
_WALKED: Final = (
    "unknown-name",
    "name-clash",
    "unreachable-step",
    "loop",
    "dead-end",
    "open-branch",
    "figure-inputs",
    "sheet-value",
)

#: The verdict of trees whose steps lead to `ended` and do not say what that is.
ENDED: Final = "ended: {verdict: Ended here, suspects: [], grade: refer, correction: None.}\n"


def tree(steps: str, *, name: str = "bench", start: str = "first") -> str:
    """The text of a tree with these steps; the suspects are a shaft, a coupling and a bearing."""
    if ": ended" in steps and "ended: {" not in steps:
        steps = dedent(steps) + ENDED
    return dedent(f"""\
        tree: {name}
        format: 1
        revision: 7
        title: The bench tree
        complaint: It does not go.
        suspects:
          bearing: {{name: Bearing worn, weight: 1}}
          shaft: {{name: Shaft sheared, weight: 5}}
          coupling: {{name: Coupling dead, weight: 3}}
        start: {start}
        """) + _tail(steps)


def measuring(bands: str, *, unit: str = "mm", gauge: str = "rule", plausible: str = "[0, 300]") -> State:
    """A walk at a step that wants one reading `x`, with these bands, leading to `ended` or `other`."""
    reading = f"{{name: x, gauge: {gauge}, unit: {unit}, plausible: {plausible}}}"
    step = f"first: {{measure: How far?, reading: {reading}, bands: [{bands}], unsure: ended}}\n"
    other = "other: {verdict: Ended there, suspects: [], grade: refer, correction: None.}\n"
    return walk(tree(step + (other if ": other" in bands else "")))


def procedure(name: str, outcomes: str, steps: str, start: str = "first") -> str:
    """The text of a procedure; `outcomes` is the inside of a flow mapping."""
    return dedent(f"""\
        procedure: {name}
        format: 1
        revision: 1
        title: The procedure {name}
        outcomes: {{{outcomes}}}
        start: {start}
        """) + _tail(steps)


def _tail(steps: str) -> str:
    return "steps:\n" + indent(dedent(steps), "  ")


@cache
def library(*texts: str) -> Library:
    """The library of these documents beside the shop and the wagon; sound, and each leading to its end."""
    shelf = {path: dedent(text) for path, text in SHOP.items()}
    shelf |= {f"{text.partition(': ')[0]}/{k}.yaml": text for k, text in enumerate(texts)}
    held = gather(File(path, path, text.encode()) for path, text in shelf.items())
    assert not held.problems, held.problems
    scope = Scope(held)
    findings = [str(found) for rule in RULES if rule.slug in _WALKED for found in rule.check(scope)]
    assert not findings, findings
    return held


@cache
def walk(*texts: str, vehicle: str = "wagon") -> State:
    """The walk of the tree among these texts, just opened."""
    held = library(*texts)
    return opened(pack(held, next(iter(held.trees)), vehicle))


def entry(state: State, event: Event) -> Entry:
    """The event as the next entry of its case, unsealed."""
    return Entry("bench", state.sequence + 1, "", event, "")


def after(state: State, *commands: Command) -> State:
    """The walk after these commands, each of which it must take."""
    for command in commands:
        for event in made(state, command):
            state = evolve(state, entry(state, event))
    return state


def made(state: State, command: Command) -> tuple[Event, ...]:
    """The events of a command that the walk must take; readings decide as they stand, however close."""
    if isinstance(command, Read):
        command = replace(command, settle=True)
    decision = decide(state, command)
    assert not isinstance(decision, Refusal), decision
    return decision


def refused(state: State, command: Command) -> Refusal:
    """The refusal of a command that the walk must not take."""
    decision = decide(state, command)
    assert isinstance(decision, Refusal), decision
    return decision


def read(state: State) -> State:
    """The walk once every caution before its step has been read."""
    while state.pending:
        state = after(state, Acknowledge(state.pending[0]))
    return state
