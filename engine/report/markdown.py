"""A case as a Markdown page: complaint, cause, correction, and the trail that led there."""

from collections.abc import Iterable, Iterator
from fractions import Fraction

from engine.interview.aftermath import outcome
from engine.interview.reckoned import reckoned
from engine.interview.state import State
from engine.interview.suspecting import sureness
from engine.interview.told import certain, readings
from engine.model.tree import Verdict
from engine.quantity import Quantity
from engine.records.event import Cautioned, Confirmed, Entry, Opened
from engine.report.gone import gone, measuring, pictured, said, taken, where
from engine.report.literal import code, plain
from engine.report.suspects import suspects
from engine.trade.calculator import Sum

_GRADES = {
    "repair": "repair",
    "adjust": "adjust",
    "no-fault": "no fault found",
    "refer": "not decided here, refer",
}


def report(case: str, entries: tuple[Entry, ...], state: State) -> str:
    """The page, from the entries of a case and the walk that they make.

    Texts of people and trees are escaped: they show as they were written and mean nothing to Markdown.
    """
    opened = entries[0].event
    assert isinstance(opened, Opened)
    parts = (
        _head(case, entries, state, opened),
        _three(state),
        _trail(entries, state),
        suspects(state),
        _readings(entries, state),
        _sums(entries, state),
        _cautions(entries, state),
        _notes(state),
        _taken_back(entries, state),
        _confirmed(entries, state),
        _foot(entries, opened),
    )
    return "\n".join(line for part in parts for line in part).rstrip() + "\n"


def _head(case: str, entries: tuple[Entry, ...], state: State, opened: Opened) -> Iterator[str]:
    yield f"# {plain(state.tree.title)}"
    yield ""
    yield "| | |"
    yield "|---|---|"
    rows = (
        ("Case", case),
        ("Job", opened.label),
        ("Vehicle", state.sheet.title),
        ("Worked on by", opened.by),
        ("Opened", entries[0].at),
        ("Last entry", entries[-1].at),
        ("Tree", f"{state.tree.name}, revision {state.tree.revision}"),
        ("Sheet", f"{state.sheet.name}, revision {state.sheet.revision}"),
    )
    yield from (f"| {name} | {plain(value)} |" for name, value in rows if value)
    yield ""


def _three(state: State) -> Iterator[str]:
    yield "## Complaint"
    yield ""
    yield plain(state.tree.complaint)
    yield ""
    yield "## Cause"
    yield ""
    step = state.tree.steps[state.frames[0].step]
    if isinstance(step, Verdict):
        standing = "" if state.concluded else " (verdict reached, not accepted yet)"
        yield f"{plain(step.text)}{standing}"
        yield ""
        convicted = "; ".join(plain(state.tree.suspects[name].title) for name in step.suspects)
        yield f"- Convicted: {convicted or 'no suspect'}"
        if sure := sureness(state, step):
            yield f"- That this is right: {plain(sure.told)}"
        yield f"- Grade: {_GRADES[step.grade]}"
        if step.picture:
            yield f"- Picture: {code(step.picture)}"
        yield ""
        yield "## Correction"
        yield ""
        yield plain(step.correction)
        for name, ended in state.followed.items():
            yield f"- {plain(state.library.procedures[name].title)}: {plain(ended)}"
    else:
        yield f"No verdict yet; the walk stands at {code(state.where)}."
    yield ""


def _trail(entries: tuple[Entry, ...], state: State) -> Iterator[str]:
    at = {entry.sequence: entry.at for entry in entries}
    yield "## Trail"
    yield ""
    if not state.past:
        yield "Nothing has been settled yet."
    for number, past in enumerate(state.past, 1):
        line = past.line
        answer = f" **{plain(line.answer)}**" if line.answer.strip() else ""
        yield f"{number}. {plain(line.question)}{answer} ({plain(at[line.sequence])}, event {line.sequence})"
        yield from (f"   - {plain(remark)}" for remark in line.remarks)
        if picture := pictured(line.step, state):
            yield f"   - Picture: {code(picture)}"
    yield ""


def _readings(entries: tuple[Entry, ...], state: State) -> Iterator[str]:
    over = {entry.sequence for _, settled in gone(entries) for entry in settled}
    measured = [(entry.sequence in over, event) for entry, event in taken(entries)]
    if measured:
        yield "## Readings"
        yield ""
        yield "| Step | Read | Compared | Limits |"
        yield "|---|---|---|---|"
        for no_longer, event in measured:
            order = [want.name for want in measuring(event.step, state).readings]
            sure = "; confirmed outside the plausible range" if event.insisted else ""
            mark = "; stepped back over" if no_longer else ""
            compared = f"{event.figure} {event.figure_unit}"
            limits = event.limits + certain(event) + sure + mark
            cells = (event.step, ", ".join(readings(event, order)), compared, limits)
            yield "| " + " | ".join(plain(cell) for cell in cells) + " |"
        yield ""


def _sums(entries: tuple[Entry, ...], state: State) -> Iterator[str]:
    """Each figure as it comes about, so that whoever doubts it can reckon it once more."""
    lines: list[str] = []
    for entry, event in taken(entries):
        step = measuring(event.step, state)
        names = [want.name for want in step.readings]
        read = {name: Quantity(Fraction(event.values[name]), event.unit_of(name)) for name in names}
        made = reckoned(step, read, state.sheet) if step.figure else None
        if isinstance(made, Sum):
            lines.append(f"- {code(event.step)}, event {entry.sequence}")
            lines += [f"  - {plain(line)}" for line in made.lines]
    yield from _section("Sums", lines)


def _cautions(entries: tuple[Entry, ...], state: State) -> Iterator[str]:
    told = [(entry.at, entry.event) for entry in entries if isinstance(entry.event, Cautioned)]
    titles = {name: caution.title for name, caution in state.library.shop.cautions.items()}
    lines = (f"- {plain(titles[e.caution])} (before {code(e.step)}, {plain(at)})" for at, e in told)
    yield from _section("Cautions acknowledged", lines)


def _notes(state: State) -> Iterator[str]:
    yield from _section("Notes", (f"- {plain(text)} (at {code(step)})" for step, text in state.notes))


def _taken_back(entries: tuple[Entry, ...], state: State) -> Iterator[str]:
    yield from _section("Stepped back", _over(entries, state))


def _over(entries: tuple[Entry, ...], state: State) -> Iterator[str]:
    for back, settled in gone(entries):
        place = f"to before event {settled[0].sequence} (event {back.sequence})"
        yield f"- {plain(back.at)}: {place}; this no longer counts:"
        for entry in settled:
            at = f"{code(where(entry))}: " if where(entry) else ""
            yield f"  - event {entry.sequence}, {at}{plain(said(entry, state))}"


def _confirmed(entries: tuple[Entry, ...], state: State) -> Iterator[str]:
    told = [(entry.at, entry.event) for entry in entries if isinstance(entry.event, Confirmed)]
    yield from _section(
        "After the repair", (f"- {plain(at)}: {plain(outcome(state.tree, event))}" for at, event in told)
    )


def _section(title: str, lines: Iterable[str]) -> Iterator[str]:
    held = list(lines)
    if held:
        yield from (f"## {title}", "", *held, "")


def _foot(entries: tuple[Entry, ...], opened: Opened) -> Iterator[str]:
    yield "---"
    yield ""
    yield (
        f"{len(entries)} events, each carrying the hash of the one before it. "
        f"Last: {code(entries[-1].hash)}. Documents: {code(opened.digest)}."
    )
    yield ""
    yield (
        "The manufacturer's procedure, local rules and licensed practice come before this page. "
        "Figures of the sheet are as good as their sources."
    )
