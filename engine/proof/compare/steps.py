"""What one step says otherwise in another version."""

from collections.abc import Callable, Iterator, Sequence
from typing import Final, NamedTuple

from engine.lint.stretch import said
from engine.model.tree import Ask, Band, Do, Fed, Limit, Measure, Run, Step, Verdict, Wanted
from engine.model.vehicle import Sheet
from engine.proof.compare.align import Alignment, words
from engine.proof.compare.change import Change
from engine.proof.compare.refine import Standing, refined
from engine.proof.compare.ways import Both, ways
from engine.quantity import Quantity, write

#: The sheets of one vehicle in both versions.
Sheets = tuple[Sheet, Sheet]
#: serious, kind, message.
_Told = tuple[bool, str, str]


class Pair(NamedTuple):
    """A step in both versions."""

    document: str
    old: Step
    new: Step
    aligned: Alignment
    sheets: Sequence[Sheets]


def step_changes(pair: Pair) -> Iterator[Change]:
    """Every change of one step."""
    for serious, kind, message in _told(pair):
        yield Change(serious, kind, pair.document, pair.new.name, message, pair.old.place, pair.new.place)


def _told(pair: Pair) -> Iterator[_Told]:
    old, new = pair.old, pair.new
    if old.name != new.name:
        yield False, "renamed", f"Renamed: was `{old.name}`."
    yield from _words(old, new)
    yield from _safety(old, new)
    yield from _ways(pair)
    if isinstance(old, Measure) and isinstance(new, Measure):
        yield from _measure(pair, old, new)
    if isinstance(old, Ask) and isinstance(new, Ask):
        yield from _reckoned(old, new)
    if isinstance(old, Verdict) and isinstance(new, Verdict):
        yield from _verdict(old, new)
    if old.minutes != new.minutes:
        yield False, "minutes", f"Takes {_minutes(new)}, was {_minutes(old)}."
    if old.show != new.show:
        yield False, "shown", f"Shows {_list(new.show)} of the sheet, was {_list(old.show)}."
    if old.picture != new.picture:
        yield False, "shown", f"Picture: {new.picture or 'none'} (was: {old.picture or 'none'})."


def _words(old: Step, new: Step) -> Iterator[_Told]:
    if words(old) != words(new):
        asked = isinstance(new, Do | Ask | Measure | Verdict)
        yield isinstance(new, Run), "text", f"{'Text' if asked else 'Runs'}: {words(new)} (was: {words(old)})"


_STATES: Final[tuple[tuple[str, Callable[[Step], tuple[str, ...]]], ...]] = (
    ("needs", lambda step: step.needs),
    ("forbids", lambda step: step.forbids),
    ("sets", lambda step: step.sets),
    ("clears", lambda step: step.clears),
)


def _safety(old: Step, new: Step) -> Iterator[_Told]:
    for name in old.cautions:
        if name not in new.cautions:
            yield True, "caution-dropped", f"The caution `{name}` was dropped."
    for name in new.cautions:
        if name not in old.cautions:
            yield False, "caution-added", f"The caution `{name}` was added."
    for key, of in _STATES:
        for name in of(old):
            if name not in of(new):
                yield key in ("needs", "forbids"), key, f"No longer {key} `{name}`."
        for name in of(new):
            if name not in of(old):
                yield False, key, f"Now {key} `{name}`."


def _ways(pair: Pair) -> Iterator[_Told]:
    targets = pair.aligned.targets
    for both in ways(pair.old, pair.new, targets):
        if both.old is None and both.new is not None:
            yield False, "way-added", f"New: {both.new.label} leads to `{both.new.then}`."
        elif both.new is None and both.old is not None:
            yield True, "way-dropped", f"Dropped: {both.old.label} (led to `{both.old.then}`)."
        else:
            yield from _way(both, pair)


def _way(both: Both, pair: Pair) -> Iterator[_Told]:
    assert both.old is not None
    assert both.new is not None
    if both.old.label != both.new.label:
        yield False, "reworded", f"Reworded: {both.new.label} (was {both.old.label})."
    if pair.aligned.targets.get(both.old.then) != both.new.then:
        message = f"Leads to `{both.new.then}`, led to `{both.old.then}`: {both.new.label}."
        yield False, "leads", message


def _measure(pair: Pair, old: Measure, new: Measure) -> Iterator[_Told]:
    told: set[str] = set()
    for was, now in _pairs(old, new):
        if was.gauge != now.gauge and now.gauge not in told:
            told.add(now.gauge)
            yield False, "gauge", f"Measured with `{now.gauge}`, was `{was.gauge}`."
        ranged = f"Plausible {_range(now)}, was {_range(was)}."
        if (was.low, was.high, was.unit) != (now.low, now.high, now.unit) and ranged not in told:
            told.add(ranged)
            yield False, "plausible", ranged
    for number, (a, b) in enumerate(zip(old.bands, new.bands, strict=False), 1):
        if len(old.bands) == len(new.bands) and _written(a, old.unit) != _written(b, new.unit):
            message = f"Band {number}: {_written(b, new.unit)}, was {_written(a, old.unit)}."
            yield False, "limit", message
    yield from _given(old, new)
    yield from _readings(pair, old, new)


def _pairs(old: Measure, new: Measure) -> Iterator[tuple[Wanted, Wanted]]:
    """The readings of both versions: by their names, else the first of each."""
    names = {want.name: want for want in new.readings}
    same = [(want, names[want.name]) for want in old.readings if want.name in names]
    yield from same or [(old.readings[0], new.readings[0])]


def _reckoned(old: Ask, new: Ask) -> Iterator[_Told]:
    """The calculator of a question, and what its answers say to it and rely on."""
    if old.figure != new.figure:
        yield True, "given", f"Worked out by `{new.figure or 'nothing'}`, was `{old.figure or 'nothing'}`."
    yield from _given(old, new)
    said = {answer.say: answer for answer in old.answers}
    for answer in new.answers:
        was = said.get(answer.say, answer)
        if (was.given, was.gives) != (answer.given, answer.gives):
            now = f"`{answer.given or 'nothing'}`, relies on `{answer.gives or 'nothing'}`"
            before = f"`{was.given or 'nothing'}`, `{was.gives or 'nothing'}`"
            yield True, "given", f"{answer.say}: gives {now} (was: {before})."


def _given(old: Ask | Measure, new: Ask | Measure) -> Iterator[_Told]:
    """Inputs of the calculator that come from elsewhere: the same readings make another figure."""
    was, now = ({fed.name: _source(fed) for fed in step.given} for step in (old, new))
    for name in dict.fromkeys((*was, *now)):
        if was.get(name) != now.get(name):
            told = f"`{name}` is {now.get(name, 'not given')}, was {was.get(name, 'not given')}"
            yield True, "given", f"`{new.figure}`: {told}."


def _source(fed: Fed) -> str:
    return ", ".join(fed.readings) or (f"sheet.{fed.sheet}" if fed.sheet else fed.typed)


def _readings(pair: Pair, old: Measure, new: Measure) -> Iterator[_Told]:
    """The stretches of readings that now go another way, once where every vehicle has the same."""
    told: dict[str, list[str]] = {}
    for a, b in pair.sheets:
        before, after = Standing(old, a), Standing(new, b)
        if not (before.known and after.known):
            continue
        for part in refined(before, after):
            if pair.aligned.targets.get(part.old) != part.new:
                where = f"`{part.new}`" if part.new else "nothing"
                was = f"`{part.old}`" if part.old else "nothing"
                line = f"Readings {said(*part.stretch, old.unit)} now lead to {where}, led to {was}"
                told.setdefault(line, []).append(b.name)
    for line, vehicles in told.items():
        on = "" if len(vehicles) == len(pair.sheets) else f" on {_list(vehicles)}"
        yield False, "readings", f"{line}{on}."


def _verdict(old: Verdict, new: Verdict) -> Iterator[_Told]:
    if set(old.suspects) != set(new.suspects):
        yield True, "convicts", f"Convicts {_list(new.suspects)}, convicted {_list(old.suspects)}."
    if old.grade != new.grade:
        yield True, "grade", f"Grade {new.grade}, was {old.grade}."
    if old.correction != new.correction:
        yield True, "correction", f"Correction: {new.correction} (was: {old.correction})"
    if old.follow != new.follow:
        yield True, "follow", f"Followed by {_list(new.follow)}, was {_list(old.follow)}."


def _minutes(step: Step) -> str:
    return f"{float(step.minutes):g} min"


def _list(names: Sequence[str]) -> str:
    return ", ".join(f"`{name}`" for name in names) or "nothing"


def _range(wanted: Wanted) -> str:
    return f"from {write(Quantity(wanted.low, wanted.unit))} to {write(Quantity(wanted.high, wanted.unit))}"


def _written(band: Band, unit: str) -> str:
    """The limits of a band as they are written, with the unit."""
    low = _limit(band.low, unit, "from" if band.low and band.low.owned else "over")
    high = _limit(band.high, unit, "up to" if band.high and band.high.owned else "below")
    return ", ".join(text for text in (low, high) if text)


def _limit(limit: Limit | None, unit: str, word: str) -> str:
    if limit is None:
        return ""
    if limit.value is None:
        return f"{word} `sheet.{limit.sheet}`"
    return f"{word} {write(Quantity(limit.value, unit))}"
