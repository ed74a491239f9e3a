"""Events of every kind, and cases made of them."""

import os
from collections.abc import Mapping
from dataclasses import fields
from typing import Any, Final

from hypothesis import strategies as st

from engine.records.codec import NOTHING_BEFORE, seal
from engine.records.event import (
    Answered,
    Cautioned,
    Concluded,
    Confirmed,
    Done,
    Entry,
    Event,
    Followed,
    Measured,
    Noted,
    Opened,
    TakenBack,
    Undecided,
    Unsure,
)
from engine.records.forms import EVENTS

AT: Final = "2026-03-05T08:30:00+01:00"
OPENED: Final = Opened(
    tree="no-rear-drive",
    vehicle="fellside",
    documents={
        "complaints/no-rear-drive.yaml": "tree: no-rear-drive\n",
        "vehicles/fellside.yaml": "vehicle: fellside\n",
    },
    digest="5" * 64,
    title="Rear wheels do not drive",
    vehicle_title="Brennick Fellside",
    label="Order 118",
    by="second bay",
)
#: One event of every kind, in an order in which they can happen.
EVERY: Final[tuple[Event, ...]] = (
    OPENED,
    Cautioned(step="idle-in-low", caution="turning-wheels"),
    Done(step="warm-up"),
    Answered(step="idle-in-low", answer=1, say="Front wheels only", also="Answer: use"),
    Measured(
        step="tyres",
        typed={"left-front": "1975", "left-rear": "77 3/4 in"},
        values={"left-front": "1975", "left-rear": "39497/20"},
        unit="mm",
        figure="3/20",
        figure_unit="mm",
        band=0,
        limits="up to 10 mm",
        insisted=True,
        probability="0.8123",
        uncertainty="0.8165",
        gauge="tape",
        close=True,
        units={"left-rear": "in"},
        also="Slip at the coupling: 31 rpm",
    ),
    Undecided(
        step="level",
        typed={"below": "11.9"},
        values={"below": "119/10"},
        unit="mm",
        figure="11.9",
        figure_unit="mm",
        band=0,
        limits="up to 12 mm",
        insisted=False,
        probability="0.6180",
        uncertainty="0.3329",
        gauge="steel-rule",
        units={"oil": "°C"},
        also="At 20 °C: 9 mm",
    ),
    Unsure(step="lift", reason="the hoist is taken"),
    TakenBack(to=4),
    Noted(step="lift", text="Öl am Gehäuse: 3 Tropfen\nsee the tray"),
    Concluded(
        step="verdict-shaft",
        verdict="Propeller shaft or transfer assembly damaged",
        suspects=("shaft-sheared",),
        grade="repair",
        correction="Replace the propeller shaft.",
    ),
    Followed(procedure="replace-propeller-shaft"),
    Confirmed(fixed=True, cause="shaft-sheared", remark="Sheared at the front flange."),
)


def chain(case: str, *events: Event) -> tuple[Entry, ...]:
    """The events as the entries of a case, each sealed behind the one before."""
    entries: list[Entry] = []
    for event in events:
        previous = entries[-1].hash if entries else NOTHING_BEFORE
        entries.append(seal(case, len(entries) + 1, AT, event, previous))
    return tuple(entries)


def notes(case: str, count: int) -> tuple[Entry, ...]:
    """A case that was opened and has notes behind that, so many entries in all."""
    return chain(case, OPENED, *(Noted("lift", f"note {number}") for number in range(2, count + 1)))


def thick(count: int) -> Opened:
    """An opening that carries so many characters of documents, none of which can be squeezed."""
    return Opened(
        "no-rear-drive", "fellside", {"complaints/no-rear-drive.yaml": os.urandom(count // 2).hex()}, "5" * 64
    )


#: Texts with everything in them that text can hold, halves of characters included.
nasty: Final = st.lists(
    st.characters() | st.sampled_from('\ud83d\ude00\udcff\0\x1b\u2028"\\'), max_size=8
).map("".join)
#: Texts of whole characters only.
whole: Final = st.text(st.characters(exclude_categories=["Cs"]), max_size=12)


def _values(text: st.SearchStrategy[str]) -> Mapping[Any, st.SearchStrategy[Any]]:
    return {
        str: text,
        int: st.integers(),
        bool: st.booleans(),
        tuple[str, ...]: st.lists(text, max_size=4).map(tuple),
        Mapping[str, str]: st.dictionaries(text, text, max_size=4),
    }


def events(text: st.SearchStrategy[str]) -> st.SearchStrategy[Event]:
    """Any event of any kind, with such texts in it."""
    values = _values(text)
    return st.one_of([st.builds(kind, **{f.name: values[f.type] for f in fields(kind)}) for kind in EVENTS])


def entries(text: st.SearchStrategy[str]) -> st.SearchStrategy[Entry]:
    """Any sealed entry, with such texts in it."""
    return st.builds(seal, text, st.integers(), text, events(text), text)
