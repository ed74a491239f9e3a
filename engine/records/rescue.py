"""What can still be read of a damaged store, brought into another one; the damaged file is left as it is."""

from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path
from typing import Final, NamedTuple

from engine.errors import Conflict, Damaged, Failure
from engine.plain import clean
from engine.records import trouble
from engine.records.chain import START, Tail, misfits
from engine.records.codec import decode
from engine.records.event import Entry
from engine.records.pages import Pages, Row, logged, pages, rows
from engine.records.store import Store

#: What SQLite keeps beside a file while it is in use, or after a crash.
_BESIDE: Final = ("", "-wal", "-journal")
#: An event's case and its number in it.
Key = tuple[str, int]


class Rescued(NamedTuple):
    """What a rescue brought over, and what it could not."""

    #: How many cases, and how many of their events, the other store now has.
    cases: int
    entries: int
    #: How many events are known to be lost; of a file whose pages are gone there may have been more.
    lost: int
    #: A sentence for each case that lost something.
    told: tuple[str, ...]


def rescue(damaged: Path, into: Store) -> Rescued:
    """Bring every case of a damaged SQLite store into another store, each up to its first hole.

    An event proves by its hash that it is what was written, so nothing wrong is ever brought over. What lies
    behind a hole is counted and named: without the hole the case cannot be walked. The damaged file is only
    read; SQLite works on a copy of it. Raises Failure where there is no file, Damaged where no event can be
    read out of it, and what `into` raises.
    """
    keys, entries = _found(damaged)
    if not entries:
        raise Damaged(
            f"No event can be read out of {trouble.shown(damaged)}.",
            "Look for a backup of it, or for a file of the same name ending in `-wal` to put beside it.",
        )
    brought = [_bring(case, keys, entries, into) for case in sorted({case for case, _ in keys})]
    return Rescued(
        sum(case.entries > 0 for case in brought),
        sum(case.entries for case in brought),
        sum(case.lost for case in brought),
        tuple(sentence for case in brought for sentence in case.told),
    )


def _found(damaged: Path) -> tuple[set[Key], dict[Key, Entry]]:
    """Every event that some row or index names, and those of them that are what was written."""
    keys: set[Key] = set()
    entries: dict[Key, Entry] = {}
    for view in _views(damaged):
        for row in rows(view):
            key = _key(row)
            if key is not None and key not in entries:
                keys.add(key)
                entries.update(_proven(row))
    return keys | entries.keys(), entries


def _views(damaged: Path) -> Iterator[Pages]:
    """The pages as SQLite makes them out of the file and its journals; then as they lie there."""
    # rescues are rare, and whatever else is started should not wait for these
    from tempfile import TemporaryDirectory

    from engine.records.sqlite import play_back

    with TemporaryDirectory(prefix="witnessmark-") as folder:
        copy = Path(folder) / "copy"
        try:
            _copy(damaged, copy)
            raw, log = copy.read_bytes(), copy.with_name("copy-wal")
            written = logged(log.read_bytes()) if log.exists() else {}
            play_back(copy)
            yield pages(copy.read_bytes())
        except OSError as error:
            raise trouble.of_system(damaged, error) from error
    yield {**pages(raw), **written}


def _copy(damaged: Path, copy: Path) -> None:
    if not damaged.is_file():
        raise Failure(f"There is no file {trouble.shown(damaged)}.", "Check the name of the damaged store.")
    for ending in _BESIDE:
        source = damaged.with_name(damaged.name + ending)
        if source.is_file():
            copy.with_name(copy.name + ending).write_bytes(source.read_bytes())


def _key(row: Row) -> Key | None:
    match row:
        case (None, str(case), int(sequence), *_) | (str(case), int(sequence), int()):
            return case, sequence
    return None


def _proven(row: Row) -> dict[Key, Entry]:
    """The entry in a row of the table, where it is what was written."""
    if len(row) == 4 and isinstance(row[3], bytes):
        with suppress(Damaged):
            entry = decode(row[3])
            return {(entry.case, entry.sequence): entry}
    return {}


def _bring(case: str, keys: set[Key], entries: dict[Key, Entry], into: Store) -> Rescued:
    whole = _whole(case, entries)
    try:
        for entry in whole:
            into.append(entry)
    except Conflict:
        sentence = (
            f"Case {clean(case, lines=False)} stands otherwise in the other store and was left so there."
        )
        return Rescued(0, 0, len(whole), (sentence,))
    # an event that is what was written proves that there were as many before it
    proven = max((number for name, number in entries if name == case), default=0)
    lost = proven + sum(name == case and number > proven for name, number in keys) - len(whole)
    return Rescued(bool(whole), len(whole), lost, _told(case, len(whole), lost))


def _whole(case: str, entries: dict[Key, Entry]) -> tuple[Entry, ...]:
    """The entries of a case from its first up to its first hole."""
    tail, whole = START, list[Entry]()
    while (entry := entries.get((case, len(whole) + 1))) is not None and not any(misfits(tail, entry)):
        whole.append(entry)
        tail = Tail(entry.sequence, entry.hash)
    return tuple(whole)


def _told(case: str, whole: int, lost: int) -> tuple[str, ...]:
    if not lost:
        return ()
    name = f"Case {clean(case, lines=False)}"
    if not whole:
        return (f"{name} is lost: the event that opened it cannot be read ({lost} in all).",)
    return (f"{name} is kept up to event {whole}; {lost} after it {'is' if lost == 1 else 'are'} lost.",)
