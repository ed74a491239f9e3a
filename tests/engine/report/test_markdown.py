"""The page of a case: whole, in order, and true to what no longer counts."""

import os
from collections.abc import Iterator
from pathlib import Path

import pytest
from markdown_it import MarkdownIt
from markdown_it.token import Token

from engine import api
from engine.interview.command import Acknowledge, Choose, Command, Confirm, Read, StepBack
from engine.records.memory import MemoryStore
from tests.engine.interview.given import library, tree
from tests.engine.report.case import COMMANDS, walked, whole

GOLDEN = Path(__file__).parent / "whole-case.md"


def sections(page: str) -> dict[str, list[str]]:
    """The lines of each section by its heading."""
    out: dict[str, list[str]] = {}
    for line in page.splitlines():
        if line.startswith("#"):
            out[line.lstrip("# ")] = []
        elif line and out:
            out[list(out)[-1]].append(line)
    return out


def inline(page: str) -> Iterator[Token]:
    """Every inline token of the rendered page, raw HTML allowed."""
    for token in MarkdownIt("commonmark", {"html": True}).enable(["table", "strikethrough"]).parse(page):
        yield token
        yield from token.children or ()


def test_a_whole_case_is_told_as_it_was() -> None:
    """The page is the kept one, letter by letter; WITNESSMARK_REFRESH=1 writes it anew for review."""
    page = api.report(whole())
    if os.environ.get("WITNESSMARK_REFRESH"):
        GOLDEN.write_text(page, encoding="utf-8")

    assert page == GOLDEN.read_text(encoding="utf-8")


def test_the_page_is_the_same_before_and_after_it_was_stored() -> None:
    """What the walk tells while it is live is what its stored entries tell."""
    store = MemoryStore()
    job = walked(store, *COMMANDS)

    assert api.report(job) == api.report(api.resume(store, job.case))


def test_no_data_becomes_markup() -> None:
    """Rendered with HTML allowed, nothing typed or written in a document is HTML, link, image or code."""
    kinds = {token.type for token in inline(api.report(whole()))}

    assert kinds.isdisjoint({"html_block", "html_inline", "link_open", "image", "em_open", "s_open", "fence"})


def test_only_answers_are_strong() -> None:
    """Emphasis comes from the page alone: each strong text is a whole answer of the trail."""
    job = whole()
    tokens = list(inline(api.report(job)))
    strong = [tokens[k + 1].content for k, token in enumerate(tokens) if token.type == "strong_open"]

    assert strong == [past.line.answer for past in job.state.past if past.line.answer]


@pytest.mark.parametrize(
    "text",
    [
        "smells of *burnt* oil <script>alert(1)</script>",
        "- told the customer - twice",
        "HP·118 | **urgent**",
        "Bay #2",
        "Tree #1: wheels > axles",
        '1. "It does not go" & <i>whines</i>',
        "[Worn](out) | 1. bearing",
        "- Renew it; 50 % of them `squeal` $x$",
        "Which wheels *really* turn?",
        "Front_only_",
        "Could not be done or told here: too _dark_",
        "Bearing <worn>",
    ],
)
def test_every_text_shows_letter_by_letter(text: str) -> None:
    """Rendered, each text of people and documents reads as it was written."""
    shown = [token.content for token in inline(api.report(whole())) if token.type in ("text", "inline")]

    assert any(text in content for content in shown)


def test_the_trail_holds_what_counts() -> None:
    """Steps that were stepped back over are not in the trail."""
    lines = sections(api.report(whole()))["Trail"]

    assert [line for line in lines if "Which wheels" in line] == [
        "2. Which wheels \\*really\\* turn? **Front\\_only\\_** (2026-03-05T08:10:00+01:00, event 10)"
    ]


def test_what_was_stepped_back_over_is_told() -> None:
    """Each step back tells when, and what no longer counts since."""
    read = "right 1900 mm, left 1901.825 mm (typed 74 7/8 in)"

    assert sections(api.report(whole()))["Stepped back"] == [
        "- 2026-03-05T08:07:00+01:00: to before event 5 (event 7); this no longer counts:",
        "  - event 5, `second`: \\<b\\>All\\</b\\> four",
        f"  - event 6, `third`: {read}; 1.825 mm (up to 6 mm, over 99 % sure)",
        "- 2026-03-05T08:09:00+01:00: to before event 8 (event 9); this no longer counts:",
        "  - event 8, `second`: Could not be done or told here: too \\_dark\\_",
    ]


def test_a_conclusion_that_was_stepped_back_over_is_told() -> None:
    """Taken back to before everything, the verdict and what followed it no longer count."""
    lines = sections(api.report(walked(MemoryStore(), *COMMANDS, StepBack(4))))["Stepped back"]

    assert [line for line in lines if "Verdict: " in line or "Started: " in line] == [
        "  - event 15, `worn`: Verdict: \\[Worn\\](out) \\| 1. bearing",
        "  - event 17, Started: The procedure look",
    ]


def test_nothing_is_stepped_back_over_twice() -> None:
    """What no longer counted before a later step back is not told again there."""
    lines = sections(api.report(walked(MemoryStore(), *COMMANDS, StepBack(4))))["Stepped back"]

    assert len([line for line in lines if line.startswith("  - event 5,")]) == 1


def test_readings_are_told_with_their_limits() -> None:
    """Each measurement stands with figure and limits, marked where it was stepped back over."""
    read = "right 1900 mm, left 1901.825 mm (typed 74 7/8 in)"
    over = f"{read} | 1.825 mm | up to 6 mm, over 99 % sure; stepped back over"

    assert sections(api.report(whole()))["Readings"][2:] == [
        f"| third | {over} |",
        "| third | right 1900 mm, left 1905 mm | 5 mm | up to 6 mm, 98 % sure |",
    ]


def test_a_reading_that_was_insisted_on_is_marked() -> None:
    """A reading confirmed outside its plausible range says so beside its limits."""
    read = Read({"right": "19", "left": "1905"}, insist=True)
    page = api.report(walked(MemoryStore(), Acknowledge("hot"), Confirm(), Choose(0), read))

    assert sections(page)["Readings"][-1].endswith(
        "| over 6 mm, over 99 % sure; confirmed outside the plausible range |"
    )


def test_every_caution_that_was_read_is_listed() -> None:
    """Cautions before steps, before runs and in what followed the verdict stand with their time."""
    assert sections(api.report(whole()))["Cautions acknowledged"] == [
        "- Hot parts (before `first`, 2026-03-05T08:02:00+01:00)",
        "- Turning wheels (before `fourth`, 2026-03-05T08:12:00+01:00)",
        "- Hot parts (before `look/first`, 2026-03-05T08:13:00+01:00)",
        "- Hot parts (before `look/first`, 2026-03-05T08:18:00+01:00)",
    ]


def test_a_case_without_a_verdict_says_where_it_stands() -> None:
    """The cause is left open, and sections without content are left out."""
    told = sections(api.report(walked(MemoryStore())))

    assert told["Cause"] == ["No verdict yet; the walk stands at `first`."]
    assert told["Trail"][0] == "Nothing has been settled yet."
    assert {"Correction", "Readings", "Notes", "Stepped back", "After the repair"}.isdisjoint(told)


def test_a_verdict_that_was_only_reached_says_so() -> None:
    """Reached and not accepted, the verdict is marked."""
    page = api.report(walked(MemoryStore(), *COMMANDS[:13]))

    assert sections(page)["Cause"][0].endswith("(verdict reached, not accepted yet)")


def test_pictures_of_steps_and_of_the_verdict_are_named() -> None:
    """Each by its path, set apart as code; steps without one say nothing of it."""
    steps = """
        first: {do: Mark it., picture: pictures/mark.svg, then: second}
        second: {do: Look., then: worn}
        worn: {verdict: V., suspects: [], grade: refer, correction: C., picture: pictures/worn.png}
        """
    held = library(tree(steps))
    store = MemoryStore()
    job = api.open_job(store, held, *(next(iter(named)) for named in (held.trees, held.sheets)))
    for _ in range(2):
        after = api.act(store, job, Confirm())
        assert isinstance(after, api.Job)
        job = after
    told = sections(api.report(job))

    assert [line for line in told["Trail"] if "Picture" in line] == ["   - Picture: `pictures/mark.svg`"]
    assert [line for line in told["Cause"] if "Picture" in line] == ["- Picture: `pictures/worn.png`"]


CLOSE = tree("""
    first:
      measure: Measure it.
      reading: {name: play, gauge: rule, unit: mm, plausible: [0, 9]}
      bands: [{upto: 5, then: ended}, {over: 5, then: ended}]
    """)


def close(*commands: Command) -> dict[str, list[str]]:
    """The sections of the page after these commands at a step with a limit at 5 mm."""
    store = MemoryStore()
    job = api.open_job(store, library(CLOSE), "bench", "wagon", case="one")
    for command in commands:
        after = api.act(store, job, command)
        assert isinstance(after, api.Job)
        job = after
    return sections(api.report(job))


def rows(*commands: Command) -> list[str]:
    """The lines of its table of readings."""
    return [line for line in close(*commands)["Readings"] if line.startswith("| first ")]


def test_a_reading_that_has_yet_to_be_decided_is_told_as_that() -> None:
    """Whoever reads the page of a case that was left there sees what was read."""
    assert rows(Read({"play": "4.5"})) == [
        "| first | 4.5 mm | 4.5 mm | up to 5 mm, 93 % sure, too close to call, not decided |"
    ]


@pytest.mark.parametrize(
    ("last", "told"),
    [
        (Read({"play": "4.5; 4.5"}), "4.5 mm (typed 4.5; 4.5) | 4.5 mm | up to 5 mm, 97 % sure |"),
        (
            Read({"play": "4.5"}, settle=True),
            "4.5 mm | 4.5 mm | up to 5 mm, 93 % sure, too close to call, taken as it stands |",
        ),
    ],
    ids=["repeated", "taken"],
)
def test_a_close_reading_that_was_gone_on_from_is_told_once(last: Read, told: str) -> None:
    """What decides it says all that was read."""
    assert rows(Read({"play": "4.5"}), last) == [f"| first | {told}"]


def test_a_close_reading_that_was_typed_over_stays_on_the_page() -> None:
    """Nothing that was read is lost to whoever doubts the verdict."""
    told = rows(Read({"play": "4.5"}), Read({"play": "0.5"}))

    assert [line.split(" | ")[1] for line in told] == ["4.5 mm", "0.5 mm"]


def test_a_close_reading_that_was_stepped_back_over_is_told() -> None:
    """In the readings with its mark, and under what no longer counts."""
    page = close(Read({"play": "4.5"}), StepBack(2))

    assert page["Readings"][2].endswith("too close to call, not decided; stepped back over |")
    assert page["Stepped back"][1].startswith("  - event 2, `first`: 4.5 mm (up to 5 mm, 93 % sure")
