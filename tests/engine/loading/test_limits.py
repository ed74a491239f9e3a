"""Files made to exhaust a reader: each is refused, or read, in a moment and in little memory."""

import time
import tracemalloc
from collections.abc import Callable

import pytest

from engine.loading import explain
from engine.loading.document import MOST_BYTES, read
from engine.loading.explain import _suspicious
from engine.loading.leaf import File, leaf
from engine.loading.library import gather

FULL = MOST_BYTES - 100
MEGABYTE = 1 << 20


def laughs() -> bytes:
    """Nine aliases of nine aliases of nine ...: 9 to the 25th values in one kilobyte."""
    rows = [b"a: &a [x, x, x, x, x, x, x, x, x]"]
    rows += [b"%c: &%c [%s]" % (c, c, b", ".join([b"*%c" % (c - 1)] * 9)) for c in range(98, 123)]
    return b"\n".join(rows)


def laughing_maps() -> bytes:
    """The same with mappings."""
    rows = [b"a: &a {x: 1}"]
    rows += [
        b"%c: &%c {%s}" % (c, c, b", ".join(b"k%d: *%c" % (k, c - 1) for k in range(9)))
        for c in range(98, 123)
    ]
    return b"\n".join(rows)


def blow_up() -> bytes:
    """One text of a megabyte, repeated two thousand times."""
    return b"tree: a\ntext: &a " + b"x" * MEGABYTE + b"\nall: [" + b"*a, " * 1990 + b"]"


def named_by_a_blow_up() -> bytes:
    """The same where a document has its name."""
    return b"a: &a " + b"x" * MEGABYTE + b"\ntree: [" + b"*a, " * 1990 + b"]"


def many(row: bytes, head: bytes = b"", tail: bytes = b"") -> bytes:
    """Half a megabyte of rows, some fifty thousand; `%d` counts them."""
    count = MEGABYTE // 2 // (len(row) + 4)
    return head + b"".join(row % k if b"%d" in row else row for k in range(count)) + tail


#: What the file is, how it is made, and the rule that it is told by.
BOMBS: list[tuple[str, Callable[[], bytes], str]] = [
    ("billion laughs", laughs, "too-many-aliases"),
    ("billion laughs of mappings", laughing_maps, "too-many-aliases"),
    ("quadratic blow-up", blow_up, "too-many-aliases"),
    ("quadratic blow-up in the name", named_by_a_blow_up, "too-many-aliases"),
    ("ten thousand brackets", lambda: b"tree: " + b"[" * 10_000, "too-deep"),
    ("ten thousand closed brackets", lambda: b"tree: " + b"[" * 10_000 + b"]" * 10_000, "too-deep"),
    ("ten thousand braces", lambda: b"{a: " * 10_000, "too-deep"),
    ("ten thousand dashes", lambda: b"- " * 10_000, "too-deep"),
    ("ten thousand question marks", lambda: b"? " * 10_000, "key-not-text"),
    ("two million brackets", lambda: b"[" * FULL, "too-deep"),
    ("three mebibytes", lambda: b"tree: a\n" * (3 * MEGABYTE // 8), "too-large"),
    ("one long list", lambda: b"tree: [" + b"a," * (FULL // 2) + b"]", "too-long-list"),
    ("one long list of lines", lambda: b"tree:\n" + b"-\n" * (FULL // 2), "too-long-list"),
    (
        "a list that cannot be ordered",
        lambda: b"tree: a\nsets: [" + b"a,1," * 400_000 + b"]",
        "too-long-list",
    ),
    ("two hundred thousand anchors", lambda: b"tree: [" + b"&a a," * 200_000 + b"]", "too-long-list"),
    ("one key again and again", lambda: many(b"a: 1\n", b"tree: a\n"), "duplicate-key"),
    ("unknown keys", lambda: many(b"k%d: 1\n", b"tree: a\n"), "unknown-key"),
    ("steps without a kind", lambda: many(b" s%d: {}\n", b"tree: a\nsteps:\n"), "missing-key"),
    ("suspects that are numbers", lambda: many(b" s%d: 1\n", b"tree: a\nsuspects:\n"), "wrong-type"),
    ("unknown aliases", lambda: many(b"k%d: *a\n", b"tree: a\n"), "unknown-alias"),
    ("unknown tags", lambda: many(b"k%d: !x\n", b"tree: a\n"), "unknown-tag"),
    ("numbers too long", lambda: many(b"k%d: 1e999\n", b"tree: a\n"), "number-too-long"),
    ("a number of a million digits", lambda: b"tree: a\nrevision: " + b"9" * MEGABYTE, "number-too-long"),
    ("a million hexadecimal digits", lambda: b"tree: a\nformat: 0x" + b"F" * MEGABYTE, "number-too-long"),
    ("a key of a megabyte", lambda: b'tree: a\n? "' + b"k" * MEGABYTE + b'"\n: 1', "unknown-key"),
    ("a tag of a megabyte", lambda: b"tree: !" + b"t" * MEGABYTE + b" a", "unknown-tag"),
    ("a name of two megabytes", lambda: b"tree: " + b"a" * FULL, "out-of-bounds"),
    ("a text of two megabytes", lambda: b"tree: a\ntitle: " + b"a b " * (FULL // 4), "out-of-bounds"),
    ("blanks behind a text", lambda: b"tree: a\ntitle: 'a" + b" " * (FULL - 20) + b"'", "wrong-form"),
    ("quotes", lambda: b'"' * FULL, "syntax"),
    ("colons", lambda: b":" * FULL, "syntax"),
    ("tabs", lambda: b"\t" * FULL, "syntax"),
    ("an open quote before two megabytes", lambda: b'tree: "' + b"a\n" * (FULL // 2), "syntax"),
    ("line ends", lambda: b"\n" * FULL, "empty-document"),
    ("comments", lambda: b"#\n" * (FULL // 2), "empty-document"),
    ("a control character at the end", lambda: b"a" * FULL + b"\x01", "control-character"),
    ("a broken character at the end", lambda: b"a" * FULL + b"\xff", "not-text"),
]


def told(content: bytes) -> set[str]:
    """The rules by which a file is told."""
    return {problem.rule for problem in gather([File("a.yaml", "a.yaml", content)]).problems}


@pytest.mark.parametrize(("make", "rule"), [bomb[1:] for bomb in BOMBS], ids=[bomb[0] for bomb in BOMBS])
def test_a_bomb_costs_neither_time_nor_memory(make: Callable[[], bytes], rule: str) -> None:
    """It is told by its rule in a moment; the limit is generous, for a busy machine."""
    content = make()
    began = time.process_time()
    rules = told(content)
    took = time.process_time() - began

    assert (rule in rules, took < 5) == (True, True), (rules, took)


@pytest.mark.parametrize("make", [laughs, laughing_maps, blow_up, named_by_a_blow_up])
def test_a_bomb_is_over_at_once(make: Callable[[], bytes]) -> None:
    """What would unfold is refused within a second, before it does."""
    content = make()
    began = time.process_time()
    told(content)

    assert time.process_time() - began < 1


@pytest.mark.parametrize("make", [laughs, laughing_maps, blow_up, named_by_a_blow_up])
def test_a_bomb_never_unfolds(make: Callable[[], bytes]) -> None:
    """At its highest the memory stays within a few times the size of the file."""
    content = make()
    told(content)  # what loading keeps for good is not the bomb's
    tracemalloc.start()
    try:
        told(content)
        peak = tracemalloc.get_traced_memory()[1]
    finally:
        tracemalloc.stop()

    assert peak < 4 * len(content) + MEGABYTE


def test_a_bracket_costs_no_more_the_deeper_it_stands() -> None:
    """A file that is nested for ever is left after its sixty-fourth level."""
    tracemalloc.start()
    try:
        read(b"tree: " + b"[" * 10_000, "a.yaml")
        peak = tracemalloc.get_traced_memory()[1]
    finally:
        tracemalloc.stop()

    assert peak < MEGABYTE


def test_what_an_author_repeats_is_allowed() -> None:
    """A row with an anchor may be repeated some hundred times."""
    rows = b"".join(b"  s%d: *row\n" % k for k in range(500))
    document = read(
        b"steps:\n  s: &row {do: Wait., then: end, minutes: 5, needs: [raised]}\n" + rows, "a.yaml"
    )

    assert document.problems == ()
    assert document.data is not None
    assert document.data["steps"]["s499"] == {"do": "Wait.", "then": "end", "minutes": 5, "needs": ["raised"]}


def test_sixty_four_levels_are_read() -> None:
    """The document itself is the first level."""
    document = read(b"tree: " + b"[" * 63 + b"]" * 63, "a.yaml")

    assert document.problems == ()


def test_a_file_at_the_limit_is_read() -> None:
    """Two mebibytes are read, one byte more is not."""
    text = b"tree: a\n#" + b"x" * (MOST_BYTES - 9)

    assert read(text, "a.yaml").data == {"tree": "a"}
    assert [p.rule for p in read(text + b"x", "a.yaml").problems] == ["too-large"]


def test_a_hundred_problems_are_told_and_no_more() -> None:
    """One more says that there are more, where the last of them stands."""
    found = gather(
        [File("a.yaml", "a.yaml", b"tree: a\n" + b"".join(b"k%d: 1\n" % k for k in range(200)))]
    ).problems
    more = [problem for problem in found if problem.rule == "too-many-problems"]

    assert (len(found), len(more)) == (101, 1)
    assert more[0].line == found[-1].line


STEPS = b"".join(b"  s%d: {do: Wait., then: s%d}\n" % (k, k + 1) for k in range(20_000))
LONG = (
    b"procedure: long\nformat: 1\nrevision: 1\ntitle: Long\noutcomes: {end: At last}\nstart: s0\nsteps:\n"
    + STEPS
    + b"  s20000: {do: Stop., then: end}\n"
)


def test_one_slip_among_thousands_of_steps_is_found() -> None:
    """The one wrong step of a long document is named."""
    content = LONG.replace(b"s10000: {do: Wait.", b"s10000: {do: 5")
    found = gather([File("a.yaml", "a.yaml", content)]).problems

    assert [(p.line, p.column, p.rule) for p in found] == [(10_008, 16, "wrong-type")]


def test_a_slip_beside_thousands_of_sound_steps_is_found() -> None:
    """Sound steps are not explained, and not missed either."""
    found = gather([File("a.yaml", "a.yaml", LONG.replace(b"title: Long\n", b""))]).problems

    assert [(p.line, p.column, p.rule) for p in found] == [(1, 1, "missing-key")]


def test_only_what_is_wrong_is_explained() -> None:
    """The talkative validator would take seconds for all of them; it is given the one that is wrong."""
    data = read(LONG.replace(b"s10000: {do: Wait.", b"s10000: {do: 5"), "a.yaml").data
    assert data is not None

    assert list(_suspicious("procedure", data)["steps"]) == ["s10000"]


def matrix_of(entries: int) -> bytes:
    """A matrix of so many faults, each of them sound."""
    rows = "".join(f"  f{k}: {{name: Fault {k}, weight: 1}}\n" for k in range(entries))
    head = "matrix: many\nformat: 1\nrevision: 1\ntitle: Many\nfaults:\n"
    return f"{head}{rows}tests:\n  turn: {{say: Turn it., minutes: 1, fails: [f1]}}\n".encode()


@pytest.mark.parametrize(
    ("entries", "rules"), [(2_000, []), (2_001, ["out-of-bounds"]), (40_000, ["out-of-bounds"])]
)
def test_too_many_entries_are_told_though_each_is_sound(entries: int, rules: list[str]) -> None:
    """A matrix holds 2,000 faults; one more is one too many, though nothing is wrong with any."""
    assert [p.rule for p in leaf(File("m.yaml", "m.yaml", matrix_of(entries))).problems] == rules


def test_thousands_too_many_are_counted_and_not_gone_through() -> None:
    """The talkative validator would take ten seconds for so many sound faults; it is given one of them."""
    data = read(matrix_of(3_000), "m.yaml").data
    assert data is not None

    assert list(_suspicious("matrix", data)["faults"]) == ["f0"]


def test_what_is_refused_is_never_without_a_word(monkeypatch: pytest.MonkeyPatch) -> None:
    """Should the talkative validator find nothing where the other refuses, nothing is let through."""
    monkeypatch.setattr(explain, "errors", lambda *_: iter(()))
    (problem,) = leaf(File("m.yaml", "m.yaml", matrix_of(2_002))).problems

    assert (problem.rule, problem.line) == ("wrong-form", 1)
