"""What every store is held to. A store's own test says only how one is opened."""

from collections.abc import Callable, Iterator
from dataclasses import replace
from itertools import count
from pathlib import Path
from threading import Barrier, Thread

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from engine.errors import Conflict, Damaged
from engine.records.chain import verify
from engine.records.codec import NOTHING_BEFORE, seal
from engine.records.event import Entry, Event, Noted
from engine.records.store import Store
from tests.engine.records.samples import AT, EVERY, OPENED, chain, notes, thick

#: Opens a window on the same cases each time it is called.
Open = Callable[[], Store]

CASE = chain("k7qdx", *EVERY)
NAMES = ["", " ", "a'b", 'a"b', "a\0b", "../b", "%_", "é", "e\u0301", "😀", "A", "a", "x" * 3000]
FRESH = count()
#: Entries that do not stand behind the first two of the case, and why not.
WRONG = {
    "a gap": (CASE[3], "Case k7qdx cannot go on: event 4 follows on 2: 3 is missing."),
    "a wide gap": (CASE[8], "Case k7qdx cannot go on: event 9 follows on 2: 3 to 8 are missing."),
    "another entry before it": (
        seal("k7qdx", 3, AT, EVERY[2], CASE[0].hash),
        "Case k7qdx cannot go on: event 3 does not carry the hash of the event before it.",
    ),
    "a case that was not opened": (
        seal("b2mzr", 1, AT, EVERY[1], NOTHING_BEFORE),
        "Case b2mzr cannot go on: the case begins with an event `cautioned` and not with `opened`.",
    ),
    "the second entry of a new case": (
        notes("b2mzr", 2)[1],
        "Case b2mzr cannot go on: event 2 follows on 0: 1 is missing.",
    ),
    "no number": (
        seal("k7qdx", 0, AT, OPENED, NOTHING_BEFORE),
        "Case k7qdx cannot go on: event 0 follows on 2: a number is repeated.",
    ),
    "a negative number": (
        seal("k7qdx", -1, AT, OPENED, NOTHING_BEFORE),
        "Case k7qdx cannot go on: event -1 follows on 2: a number is repeated.",
    ),
    "a number beyond 64 bits": (
        seal("k7qdx", 2**70, AT, EVERY[2], CASE[1].hash),
        f"Case k7qdx cannot go on: event {2**70} follows on 2: 3 to {2**70 - 1} are missing.",
    ),
    "a hash of something else": (
        replace(CASE[2], at="later"),
        "Event 3 of case k7qdx does not match its hash.",
    ),
}


def rewritten(entry: Entry, text: str = "written elsewhere") -> Entry:
    """Another entry for the same place."""
    event: Event = replace(OPENED, label=text) if entry.sequence == 1 else Noted("lift", text)
    return seal(entry.case, entry.sequence, AT, event, entry.previous)


def filled(store: Store, *entries: Entry) -> Store:
    """The store with these entries in it."""
    for entry in entries:
        store.append(entry)
    return store


def attempt(name: str, kept: list[Entry], number: int, text: str) -> Entry:
    """An entry behind so many others, with the hash of the one before it where that is there."""
    event: Event = Noted("lift", text) if number else replace(OPENED, label=text)
    before = kept[number - 1].hash if 0 < number <= len(kept) else NOTHING_BEFORE
    return seal(name, number + 1, AT, event, before)


def judged(kept: list[Entry], entry: Entry) -> str:
    """What must become of an entry, by the plainest model there is."""
    if entry.sequence <= len(kept):
        return "kept" if kept[entry.sequence - 1] == entry else "conflict"
    return "kept" if entry.sequence == len(kept) + 1 else "damaged"


def tried(store: Store, entry: Entry) -> str:
    """What becomes of an entry."""
    try:
        store.append(entry)
    except (Conflict, Damaged) as failure:
        return type(failure).__name__.lower()
    return "kept"


class StoreContract:
    """One contract for every store; `place` opens windows on cases that are new for each test."""

    @pytest.fixture
    def place(self, tmp_path: Path) -> Iterator[Open]:
        """How to open a window."""
        raise NotImplementedError

    @pytest.fixture
    def store(self, place: Open) -> Store:
        """One window."""
        return place()

    # -- reading

    def test_a_new_store_is_empty(self, store: Store) -> None:
        """There is nothing that nobody wrote."""
        assert (store.cases(), dict(store.heads())) == ((), {})

    @pytest.mark.parametrize("name", ["k7qdx", "", "\udcff", "a\0b"])
    def test_an_unknown_case_has_no_entries(self, store: Store, name: str) -> None:
        """Asking for a case that is not there is no failure."""
        assert store.read(name) == ()

    def test_every_kind_of_event_is_read_in_order(self, store: Store) -> None:
        """A case comes back as it was written."""
        filled(store, *CASE)

        assert store.read("k7qdx") == CASE

    def test_cases_are_kept_apart(self, store: Store) -> None:
        """What is written to one case does not show in another."""
        mine, theirs = notes("mine", 3), notes("theirs", 2)

        filled(store, mine[0], theirs[0], mine[1], theirs[1], mine[2])

        assert (store.read("mine"), store.read("theirs")) == (mine, theirs)

    def test_cases_are_sorted(self, store: Store) -> None:
        """The list of cases has the same order in every store."""
        for case in ("b", "c", "a"):
            filled(store, *notes(case, 2))

        assert store.cases() == ("a", "b", "c")

    def test_heads_are_the_last_numbers(self, store: Store) -> None:
        """For each case the number of its last entry is told."""
        filled(store, *notes("a", 3), *notes("b", 1))

        assert dict(store.heads()) == {"a": 3, "b": 1}

    def test_heads_follow(self, place: Open) -> None:
        """Asking again shows what came since, from whichever window."""
        mine, theirs = place(), place()
        case = notes("a", 4)
        seen = []
        for window, entry in zip((mine, theirs, theirs, mine), case, strict=True):
            window.append(entry)
            seen.append((dict(mine.heads()), dict(theirs.heads())))

        assert seen == [({"a": number}, {"a": number}) for number in (1, 2, 3, 4)]

    def test_what_is_given_back_cannot_change_the_store(self, store: Store) -> None:
        """Heads are a copy."""
        filled(store, *notes("a", 2))
        heads = store.heads()
        assert isinstance(heads, dict)
        heads["a"] = 9

        assert dict(store.heads()) == {"a": 2}

    @pytest.mark.parametrize("name", NAMES, ids=lambda name: ascii(name[:9]))
    def test_a_case_may_have_any_name(self, store: Store, name: str) -> None:
        """A name is text like any other; none is mistaken for another."""
        for other in NAMES:
            filled(store, *notes(other, 1))

        assert store.read(name) == notes(name, 1)
        assert store.cases() == tuple(sorted(NAMES))

    def test_an_entry_may_be_large(self, store: Store) -> None:
        """An opening carries the documents of its walk, however many."""
        case = chain("k7qdx", thick(1_000_000), Noted("lift", "so far"))

        filled(store, *case)

        assert store.read("k7qdx") == case

    # -- appending again

    @pytest.mark.parametrize("number", range(1, len(CASE) + 1))
    def test_an_entry_may_be_given_again(self, store: Store, number: int) -> None:
        """After a crash nobody need know whether the last entry was kept."""
        filled(store, *CASE)

        store.append(CASE[number - 1])

        assert store.read("k7qdx") == CASE
        assert dict(store.heads()) == {"k7qdx": len(CASE)}

    def test_a_case_goes_on_after_an_entry_was_given_again(self, store: Store) -> None:
        """Repeating is no step of its own."""
        filled(store, CASE[0], CASE[1], CASE[1], CASE[0], CASE[2], CASE[2], CASE[3])

        assert store.read("k7qdx") == CASE[:4]

    def test_an_entry_may_be_given_again_from_another_window(self, place: Open) -> None:
        """It does not matter which window wrote it first."""
        mine, theirs = filled(place(), *CASE[:2]), place()

        filled(theirs, *CASE[:3])
        filled(mine, *CASE[:4])

        assert theirs.read("k7qdx") == CASE[:4]

    # -- conflicts

    @pytest.mark.parametrize("number", [1, 2, 3])
    def test_other_content_at_a_number_is_a_conflict(self, store: Store, number: int) -> None:
        """What is written is never rewritten; the failure names the case and the number."""
        filled(store, *CASE[:3])

        with pytest.raises(Conflict) as caught:
            store.append(rewritten(CASE[number - 1]))

        assert (caught.value.case, caught.value.sequence) == ("k7qdx", number)
        assert store.read("k7qdx") == CASE[:3]

    def test_the_slower_window_meets_a_conflict(self, place: Open) -> None:
        """Both windows stood at the same step; the second to answer is told."""
        mine, theirs = filled(place(), *CASE[:2]), place()
        theirs.append(CASE[2])

        with pytest.raises(Conflict):
            mine.append(rewritten(CASE[2]))

        assert mine.read("k7qdx") == theirs.read("k7qdx") == CASE[:3]

    def test_the_slower_window_goes_on_after_reading(self, place: Open) -> None:
        """A conflict costs nothing but reading again."""
        mine, theirs = filled(place(), *CASE[:2]), place()
        theirs.append(CASE[2])
        with pytest.raises(Conflict):
            mine.append(rewritten(CASE[2]))

        mine.append(CASE[3])

        assert theirs.read("k7qdx") == CASE[:4]

    # -- what does not stand behind the last entry

    @pytest.mark.parametrize(("entry", "message"), WRONG.values(), ids=WRONG)
    @pytest.mark.parametrize("again", [False, True], ids=["same window", "new window"])
    def test_what_breaks_the_chain_is_refused(
        self, place: Open, entry: Entry, message: str, *, again: bool
    ) -> None:
        """A store keeps nothing that `verify` would name, whether the window wrote the case or not."""
        store = filled(place(), *CASE[:2])

        with pytest.raises(Damaged) as caught:
            (place() if again else store).append(entry)

        assert caught.value.message == message
        assert (store.read("k7qdx"), store.cases()) == (CASE[:2], ("k7qdx",))

    @settings(max_examples=40, suppress_health_check=list(HealthCheck))
    @given(st.lists(st.tuples(st.booleans(), st.integers(0, 5), st.sampled_from("xy"))))
    def test_two_windows_agree_with_a_list(self, place: Open, tries: list[tuple[bool, int, str]]) -> None:
        """Whatever two windows try, the store is a list that only grows at its end, by what fits there."""
        windows = place(), place()
        name, kept = f"case-{next(FRESH)}", list[Entry]()
        for second, number, text in tries:
            entry = attempt(name, kept, number, text)
            expected = judged(kept, entry)
            if expected == "kept":
                kept[number:] = kept[number:] or [entry]

            assert tried(windows[second], entry) == expected
            assert windows[0].read(name) == windows[1].read(name) == tuple(kept)

    # -- several at once

    def test_threads_may_write_through_one_window(self, store: Store) -> None:
        """Cases written at the same time do not disturb each other."""
        cases = [notes(f"case-{number}", 12) for number in range(4)]
        threads = [Thread(target=filled, args=(store, *case)) for case in cases]
        for thread in threads:
            thread.start()
        for thread in threads:
            thread.join()

        assert [store.read(case[0].case) for case in cases] == cases

    def test_of_threads_that_write_one_number_one_wins(self, place: Open) -> None:
        """The others meet a conflict, in the same window or in another."""
        store = filled(place(), *CASE[:1])
        windows = [store, store, place(), place()]
        start, outcomes = Barrier(len(windows)), list[str]()

        def write(window: Store, text: str) -> None:
            start.wait()
            outcomes.append(tried(window, rewritten(CASE[1], text)))

        threads = [Thread(target=write, args=(w, f"from {n}")) for n, w in enumerate(windows)]
        for thread in threads:
            thread.start()
        for thread in threads:
            thread.join()

        assert sorted(outcomes) == ["conflict", "conflict", "conflict", "kept"]
        assert verify(store.read("k7qdx")) == ()

    def test_closing_twice_is_harmless(self, store: Store) -> None:
        """Whoever closes last need not know."""
        filled(store, *CASE[:1])
        store.close()

        store.close()
