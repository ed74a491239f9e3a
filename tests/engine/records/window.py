"""A second window as a process of its own, which the tests release, race and kill.

Run as `python -I -S window.py HOUSE MODE FILE CASE COUNT`: HOUSE is the folder that holds `engine`.
"""

import sys
from pathlib import Path

if __name__ == "__main__":
    sys.path.insert(0, sys.argv[1])

from engine.errors import Conflict
from engine.records.codec import NOTHING_BEFORE, seal
from engine.records.event import Entry, Noted, Opened
from engine.records.sqlite import SqliteStore
from engine.records.store import Store

AT = "2026-03-05T08:30:00+01:00"


def say(line: str) -> None:
    """Tell a line at once, in one write, as an acknowledgement is told."""
    sys.stdout.write(line + "\n")
    sys.stdout.flush()


def opened(case: str) -> Entry:
    """The first entry of a case, with a document that needs several pages."""
    documents = {"complaints/no-rear-drive.yaml": case * 2000}
    return seal(case, 1, AT, Opened("no-rear-drive", "fellside", documents, "5" * 64), NOTHING_BEFORE)


def append(store: Store, case: str, count: int) -> None:
    """Add entries to the case, telling the number and hash of each as soon as it is durable."""
    entry = opened(case)
    for number in range(1, count + 1):
        store.append(entry)
        say(f"{entry.sequence} {entry.hash}")
        entry = seal(case, number + 1, AT, Noted("lift", f"note {number + 1}"), entry.hash)


def race(store: Store, name: str, count: int) -> None:
    """At each line on standard input try to write the next entry of the one case that all race for."""
    say("ready")
    for _ in range(count):
        sys.stdin.readline()
        entries = store.read("race")
        entry = seal("race", len(entries) + 1, AT, Noted("lift", f"by {name}"), entries[-1].hash)
        say("read")
        sys.stdin.readline()
        try:
            store.append(entry)
        except Conflict:
            say("conflict")
        else:
            say("won")


def main() -> None:
    """Open the file and do what is asked."""
    _, _, mode, file, case, count = sys.argv
    store = SqliteStore(Path(file), patience=30)
    {"append": append, "race": race}[mode](store, case, int(count))
    store.close()


if __name__ == "__main__":
    main()
