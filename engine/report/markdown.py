"""A case as a Markdown page: complaint, cause, correction, and the trail that led there."""

from collections.abc import Iterable, Iterator

from engine.interview.state import State
from engine.interview.told import readings
from engine.model.tree import Verdict
from engine.plain import clean
from engine.records.event import Confirmed, Entry, Measured, Opened, TakenBack

_SPECIAL = str.maketrans({c: "\\" + c for c in "\\`*_{}[]<>#|~"})
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
        _readings(entries),
        _cautions(state),
        _notes(state),
        _taken_back(entries),
        _confirmed(entries),
        _foot(entries, opened),
    )
    return "\n".join(line for part in parts for line in part).rstrip() + "\n"


def plain(text: str) -> str:
    r"""A text as Markdown shows it letter by letter, in one line.

    >>> print(plain("*red*\nline"))
    \*red\* line
    """
    return clean(text, lines=False).translate(_SPECIAL)


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
        yield f"- Grade: {_GRADES[step.grade]}"
        yield ""
        yield "## Correction"
        yield ""
        yield plain(step.correction)
        for name, ended in state.followed.items():
            yield f"- {plain(state.library.procedures[name].title)}: {plain(ended)}"
    else:
        yield f"No verdict yet; the walk stands at `{state.where}`."
    yield ""


def _trail(entries: tuple[Entry, ...], state: State) -> Iterator[str]:
    at = {entry.sequence: entry.at for entry in entries}
    yield "## Trail"
    yield ""
    for number, past in enumerate(state.past, 1):
        line = past.line
        when = f"({at[line.sequence]}, event {line.sequence})"
        yield f"{number}. {plain(line.question)} **{plain(line.answer)}** {when}"
        yield from (f"   - {plain(remark)}" for remark in line.remarks)
    yield ""


def _readings(entries: tuple[Entry, ...]) -> Iterator[str]:
    measured = [entry.event for entry in entries if isinstance(entry.event, Measured)]
    if measured:
        yield "## Readings"
        yield ""
        yield "| Step | Read | Compared | Limits |"
        yield "|---|---|---|---|"
        for event in measured:
            read = ", ".join(readings(event, list(event.typed)))
            sure = "; confirmed outside the plausible range" if event.insisted else ""
            cells = (event.step, read, f"{event.figure} {event.figure_unit}", event.limits + sure)
            yield "| " + " | ".join(plain(cell) for cell in cells) + " |"
        yield ""


def _cautions(state: State) -> Iterator[str]:
    mark = "Caution acknowledged: "
    told = [
        (p.line.step, r.removeprefix(mark)) for p in state.past for r in p.line.remarks if r.startswith(mark)
    ]
    yield from _section(
        "Cautions acknowledged", (f"- {plain(text)} (before `{step}`)" for step, text in told)
    )


def _notes(state: State) -> Iterator[str]:
    yield from _section("Notes", (f"- {plain(text)} (at `{step}`)" for step, text in state.notes))


def _taken_back(entries: tuple[Entry, ...]) -> Iterator[str]:
    """What was stepped back over stays in the record: a reader sees it as no longer valid."""
    taken = [(e.at, e.sequence, e.event.to) for e in entries if isinstance(e.event, TakenBack)]
    lines = (f"- {at}: stepped back to before event {to} (event {number})" for at, number, to in taken)
    yield from _section("Stepped back", lines)


def _confirmed(entries: tuple[Entry, ...]) -> Iterator[str]:
    told = [(entry.at, entry.event) for entry in entries if isinstance(entry.event, Confirmed)]
    yield from _section("After the repair", (f"- {at}: {_outcome(event)}" for at, event in told))


def _outcome(event: Confirmed) -> str:
    gone = "the complaint is gone" if event.fixed else "the complaint is still there"
    return f"{gone}. {plain(event.cause)} {plain(event.remark)}".rstrip()


def _section(title: str, lines: Iterable[str]) -> Iterator[str]:
    held = list(lines)
    if held:
        yield from (f"## {title}", "", *held, "")


def _foot(entries: tuple[Entry, ...], opened: Opened) -> Iterator[str]:
    yield "---"
    yield ""
    yield (
        f"{len(entries)} events, each carrying the hash of the one before it. Last: `{entries[-1].hash}`. "
        f"Documents: `{opened.digest}`."
    )
    yield ""
    yield (
        "The manufacturer's procedure, local rules and licensed practice come before this page. "
        "Figures of the sheet are as good as their sources."
    )
