"""The walk line by line: what is said, what a typed line means, and that nothing typed breaks it."""

from typing import Final
from unicodedata import category

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from engine import api
from engine.errors import Full
from engine.interview.command import Note
from engine.records.event import Entry, Measured, Undecided
from engine.records.memory import MemoryStore
from tests.engine.cli.spoken import TO_FOURTH, TO_SECOND, TO_SHEARED, TO_THIRD, Spoken

_MEASURE = "{measure: M, reading: {name: p, gauge: rule, unit: mm, plausible: [0, 5]}, bands: [%s]}"


def where(*typed: str) -> str:
    """Where a walk stands after these lines."""
    return Spoken(typed).job.state.where


def test_cautions_stand_before_the_step() -> None:
    """Each caution is said with its text and what is coming; the step itself only after both."""
    said = Spoken(["u", "u"]).said

    assert said[:3] == ["CAUTION: Hot parts", "The exhaust burns.", "It stands before: Put it in neutral."]
    assert said.index("CAUTION: Turning wheels") < said.index("Do: Put it in neutral.")


def test_a_step_to_do_is_said_whole() -> None:
    """Minutes left, text and reason are said before the cue."""
    assert Spoken(["u", "u"]).said[-4:] == [
        "[2 to 7 minutes left.]",
        "Do: Put it in neutral.",
        "Why: To turn it.",
        "u when done: ",
    ]


def test_a_question_is_said_with_numbered_answers() -> None:
    """The answers stand under the question, each with the number to type."""
    spoken = Spoken(TO_SECOND)

    assert spoken.said[-4:] == ["Which wheels turn?", "  1  All four", "  2  Front only", "1 to 2: "]


def test_a_measurement_is_said_with_gauge_and_bands() -> None:
    """Gauge and resolution, what would be believed, the figure and the bands are said."""
    spoken = Spoken(TO_THIRD)

    assert spoken.said[-6:] == [
        "Measure: Roll the tyres.",
        "Gauge: Steel rule, which shows 0.5 mm. Believed: 1500 mm to 2500 mm.",
        "Compared: Largest reading minus smallest.",
        "  up to 6 mm: Equal",
        "  over 6 mm",
        "left in mm: ",
    ]


#: What a verdict at 50 % says of itself.
WEAK: Final = "Possible, 50 %. Too weak to condemn: this tree wants 80 % before parts are replaced."


def test_a_verdict_is_said_whole() -> None:
    """Cause, reason, the convicted, grade, correction and what may follow are said."""
    assert Spoken(TO_SHEARED).said[-9:] == [
        "VERDICT: Sheared",
        "Why: W.",
        "Convicted: Shaft sheared",
        f"That this is right: {WEAK}",
        "Grade: repair",
        "Correction: Renew it.",
        "  1  The procedure look",
        "  2  The procedure prove",
        "u to accept the verdict: ",
    ]


def test_values_of_the_sheet_are_said() -> None:
    """What the step shows of the sheet stands beside it."""
    assert "Torque, flange: 45 N·m (≈ 33.19 lbf·ft)" in Spoken(TO_FOURTH).said


@pytest.mark.parametrize(
    "step",
    [
        "{do: Mark it., then: end}",
        "{ask: Marked?, answers: [{say: a, then: end}, {say: b, then: end}]}",
        _MEASURE % "{from: 0, then: end}",
        "{verdict: V., suspects: [], grade: refer, correction: C.}",
    ],
)
def test_the_picture_of_a_step_is_said(step: str) -> None:
    """Whatever its kind, its path stands on a line of its own."""
    end = "end: {verdict: Over, suspects: [], grade: refer, correction: C.}\n" if "then: end" in step else ""

    shown = step.replace("{", "{picture: pictures/mark.svg, ", 1)

    assert "Picture: pictures/mark.svg" in Spoken([], job_tree=f"first: {shown}\n{end}").said
    assert not [line for line in Spoken([], job_tree=f"first: {step}\n{end}").said if "Picture" in line]


@pytest.mark.parametrize("word", ["u", "U", "understood", "done", "Yes", " u "])
def test_several_words_confirm(word: str) -> None:
    """Whichever way it is typed, it is understood or done."""
    assert where(word, word, word) == "second"


@pytest.mark.parametrize(
    ("typed", "stands"),
    [
        (["1"], "third"),
        (["2"], "sheared"),
        (["cannot"], "referred"),
        (["cannot see them"], "referred"),
        (["back"], "first"),
        (["back 4"], "first"),
        (["pause", "1"], "second"),
        ([], "second"),
    ],
)
def test_a_line_at_a_question_means(typed: list[str], stands: str) -> None:
    """Numbers answer, words do what the help says, and without a line the walk stays."""
    assert where(*TO_SECOND, *typed) == stands


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        ("3", "There is no answer 3. Choose 1 to 2."),
        ("0", "There is no answer 0. Choose 1 to 2."),
        ("all", "`all` is no answer here. Wanted: 1 to 2; `?` for help."),
        ("", "`` is no answer here. Wanted: 1 to 2; `?` for help."),
        ("u", "`u` is no answer here. Wanted: 1 to 2; `?` for help."),
        ("-1", "`-1` is no answer here. Wanted: 1 to 2; `?` for help."),
        ("²", "`²` is no answer here. Wanted: 1 to 2; `?` for help."),
        ("1" * 5000, f"`{'1' * 40}` is no answer here. Wanted: 1 to 2; `?` for help."),
        ("back 9", "Event 9 is no settled step of this walk. Choose a line of the trail."),
        ("back one", "Type `back` and a number of the trail."),
        ("back " + "1" * 5000, "Type `back` and a number of the trail."),
        ("note", "The note is empty. Write something, or leave it."),
        ("note " + "x" * 2001, "The note has 2001 characters. Keep it to 2000."),
    ],
)
def test_a_line_that_does_not_fit_is_answered(typed: str, told: str) -> None:
    """One sentence with its cure, and the same cue again: the question is not said a second time."""
    spoken = Spoken([*TO_SECOND, typed])

    assert spoken.said[-3:] == ["1 to 2: ", told, "1 to 2: "]
    assert spoken.job.state.where == "second"


def test_nothing_to_step_back_to() -> None:
    """At the first step `back` says so."""
    assert Spoken(["back"]).said[-2:] == ["There is nothing to step back to.", "u when understood: "]


@pytest.mark.parametrize("word", ["?", "help", "HELP"])
def test_help_lists_what_can_be_typed(word: str) -> None:
    """Every word that is understood anywhere stands in the help."""
    told = "\n".join(Spoken([word]).said)

    assert [w for w in ("cannot", "back", "note", "trail", "suspects", "pause") if f"  {w}" not in told] == []


def test_the_trail_is_said_with_the_numbers_that_back_takes() -> None:
    """Each line begins with the number of its event; cautions and notes stand below it."""
    assert Spoken(["u", "u", "note drips", "u", "trail"]).said[-5:-1] == [
        "  5  Put it in neutral. - Done",
        "     Caution acknowledged: Hot parts",
        "     Caution acknowledged: Turning wheels",
        "     Note: drips",
    ]


def test_before_the_first_answer_the_trail_says_so() -> None:
    """An empty trail is a sentence and not silence."""
    assert Spoken(["trail"]).said[-2] == "Nothing has been answered yet."


def test_advice_is_said() -> None:
    """Marked as advice, and the question stands as before."""
    assert Spoken(["advice"]).said[-5:] == [
        "Advice by the numbers only; the tree leads, and its cautions stand.",
        "To a verdict by the tree: about 5 min on average, by how likely each suspect is now.",
        "No test ahead tells the suspects apart any further, as far as this tree says.",
        "This tree does not say the minutes of each repair, so nothing is said of repairing first.",
        "u when understood: ",
    ]


@pytest.mark.parametrize(
    ("typed", "beyond"), [([], ""), ([*TO_SECOND, "cannot"], "; no verdict from here convicts it")]
)
def test_suspects_are_said(typed: list[str], beyond: str) -> None:
    """Each in words and numbers, whether a verdict may still convict it or not, and what moved them."""
    assert Spoken([*typed, "suspects"]).said[-6:-1] == [
        f"Shaft sheared: possible, 50 %{beyond}",
        "Coupling dead: unlikely, 30 %; no verdict from here convicts it",
        "Bearing worn: unlikely, 10 %; no verdict from here convicts it",
        "Something else, not in this tree: unlikely, 10 %",
        "So far by their weights in the tree alone; no answer has moved them.",
    ]


def test_states_and_procedure_are_said_with_the_minutes() -> None:
    """Inside a procedure its title stands before the step."""
    spoken = Spoken([*TO_SHEARED, "u", "1", "u"])

    assert "[0 minutes left. In: The procedure look.]" in spoken.said


def test_readings_are_asked_for_one_by_one() -> None:
    """Each reading has its own cue with its unit, and the last one sends them all."""
    spoken = Spoken([*TO_THIRD, "1900", "190.4 cm"])
    event = spoken.job.entries[-1].event

    assert spoken.cues[-3:] == ["left in mm: ", "right in mm: ", "play in mm: "]
    assert isinstance(event, Measured)
    assert (event.typed, event.insisted) == ({"left": "1900", "right": "190.4 cm"}, False)


def test_a_reading_that_cannot_be_read_is_asked_again_alone() -> None:
    """Readings that were given before it are not lost."""
    spoken = Spoken([*TO_THIRD, "1900", "long", "", "1904"])

    assert spoken.cues[-4:] == ["right in mm: ", "right in mm: ", "right in mm: ", "play in mm: "]
    assert "`long` does not start with a number." in "\n".join(spoken.said)


def test_a_reading_that_is_hard_to_believe_is_asked_again_alone() -> None:
    """It is told in the other unit with what would be believed, and another one is taken in its place."""
    spoken = Spoken([*TO_THIRD, "1900", "19.04 m", "1904"])
    event = spoken.job.entries[-1].event

    assert any("outside what is believed here (1500 mm to 2500 mm)" in line for line in spoken.said)
    assert isinstance(event, Measured)
    assert (event.typed["right"], event.insisted) == ("1904", False)


def test_the_same_reading_once_more_is_meant() -> None:
    """Given again, the doubted reading is taken and recorded as insisted on."""
    event = Spoken([*TO_FOURTH, "7", "7"]).job.entries[-1].event

    assert isinstance(event, Measured)
    assert (event.typed, event.insisted) == ({"play": "7"}, True)


def test_each_reading_is_doubted_by_itself() -> None:
    """Confirming one reading does not confirm another that is hard to believe."""
    spoken = Spoken([*TO_THIRD, "100", "100", "101"])

    assert spoken.cues[-2:] == ["right in mm: ", "right in mm: "]
    assert Spoken([*TO_THIRD, "100", "100", "101", "101"]).job.state.where == "fourth"


def test_another_doubtful_reading_is_doubted_again() -> None:
    """Two different readings out of range confirm nothing."""
    assert where(*TO_FOURTH, "7", "8") == "fourth"
    assert where(*TO_FOURTH, "7", "oops", "7") == "fourth"


def test_a_reading_without_a_band_can_be_typed_anew() -> None:
    """Refused by the tree, the reading is asked for again from the first."""
    spoken = Spoken([*TO_FOURTH, "-1", "-1", "2"])

    assert "The tree has no band for -1 mm." in "\n".join(spoken.said)
    assert spoken.job.state.where == "sheared"


def test_readings_that_make_no_figure_are_all_typed_anew() -> None:
    """Refused together, the readings are asked for from the first on."""
    none = """
        first:
          measure: Measure both.
          readings: {gauge: rule, unit: mm, plausible: [0, 9], each: [left, right]}
          figure: relative-spread
          bands: [{upto: 5, then: ended}, {over: 5, then: ended}]
        """
    spoken = Spoken(["0", "1", "4", "4", "take"], job_tree=none)

    assert "nothing is a percentage of that" in "\n".join(spoken.said)
    assert spoken.cues[:4] == ["left in mm: ", "right in mm: "] * 2
    assert spoken.job.state.where == "ended"


@pytest.mark.parametrize(
    ("word", "stands"),
    [("cannot reach", "referred"), ("back", "second"), ("pause", "third"), ("trail", "third")],
)
def test_words_are_understood_between_readings(word: str, stands: str) -> None:
    """Half-way through the readings every word means what it means elsewhere."""
    assert where(*TO_THIRD, "1900", word) == stands


@pytest.mark.parametrize("aside", ["trail", "?", "note it slips", "suspects", "back 99"])
def test_an_aside_loses_no_reading(aside: str) -> None:
    """After a look at the trail, or a note, the next reading is the one that was still wanted."""
    spoken = Spoken([*TO_THIRD, "1900", aside, "1901"])

    assert spoken.job.state.where == "fourth"


def test_a_note_is_acknowledged_without_the_whole_question() -> None:
    """The note is kept, and the cue stands again at once."""
    spoken = Spoken([*TO_SECOND, "note smells burnt"])

    assert spoken.said[-2:] == ["Noted.", "1 to 2: "]
    assert spoken.job.state.notes == (("second", "smells burnt"),)


def test_a_step_back_says_what_may_have_changed() -> None:
    """What the walk and the vehicle may no longer agree on is said before the step."""
    driven = "first: {do: Drive it., sets: [warm], then: second}\nsecond: {do: Look., then: ended}\n"
    spoken = Spoken(["u", "back"], job_tree=driven)

    assert "Mind: You stepped back past it, but the vehicle may still be so: Warm." in spoken.said


def test_the_verdict_is_accepted_and_its_procedures_follow() -> None:
    """Each procedure is started by its number, and ends at the verdict with its outcome said."""
    spoken = Spoken([*TO_SHEARED, "u", "1", "u", "u"])

    assert "  1  The procedure look (ended: Seen)" in spoken.said
    assert spoken.cues[-1] == "number of a procedure to start, or pause: "


def test_the_walk_is_over_once_every_procedure_has_ended() -> None:
    """Nothing more is heard when nothing can follow."""
    spoken = Spoken([*TO_SHEARED, "u", "1", "u", "u", "2", "1", "never heard"])

    assert (spoken.job.state.followed, spoken.left) == ({"look": "Seen", "prove": "Gone"}, ["never heard"])


def test_the_walk_is_over_at_a_verdict_that_nothing_follows() -> None:
    """Accepted, such a verdict ends the talk."""
    assert Spoken([*TO_SECOND, "cannot", "u", "never heard"]).left == ["never heard"]


@pytest.mark.parametrize("number", ["0", "3", "x", "u"])
def test_only_a_procedure_of_the_verdict_follows(number: str) -> None:
    """Any other number is answered with what is wanted."""
    assert "is no answer here. Wanted: number of a procedure to start, or pause" in "".join(
        Spoken([*TO_SHEARED, "u", number]).said
    )


def test_everything_typed_is_kept_at_once() -> None:
    """When the input ends, the store has every answer."""
    spoken = Spoken([*TO_THIRD, "1900"])

    assert spoken.store.read("one") == spoken.job.entries
    assert api.resume(spoken.store, "one").state.where == "third"


def test_an_answer_that_could_not_be_kept_is_said() -> None:
    """A store without room is told with its cure; the walk stays, and the same line is taken later."""

    class FullOnce(MemoryStore):
        """A store without room for the fifth event, once."""

        full = True

        def append(self, entry: Entry) -> None:
            """Refuse the fifth event the first time."""
            if entry.sequence == 5 and self.full:
                self.full = False
                raise Full("No room.", "Make some.")
            super().append(entry)

    spoken = Spoken([*TO_SECOND, "1", "1"], FullOnce())

    assert "Not kept: No room. Make some." in spoken.said
    assert spoken.job.state.where == "third"


def test_another_window_is_said() -> None:
    """Where the case went on elsewhere, that is said, and the walk goes on from there."""
    first = Spoken(TO_SECOND)
    api.act(first.store, first.job, Note("from the other window"))
    spoken = Spoken(["1", "trail", "1"], first.store, first.job)

    assert "Case one went on in another window" in "\n".join(spoken.said)
    assert spoken.job.state.notes == (("second", "from the other window"),)
    assert spoken.job.state.where == "third"


NASTY = '"\\e[31mred\\e]0;title\\a \\x9b2J \\u202e"'


def test_escapes_of_a_document_are_shown_and_not_obeyed() -> None:
    """Nothing that a tree says reaches the terminal as a control character."""
    steps = f"""
        first:
          ask: {NASTY}
          why: {NASTY}
          answers: [{{say: {NASTY}, then: ended}}, {{say: b, then: ended}}]
        """
    spoken = Spoken(["1", "trail", "back", "?"], job_tree=steps)

    assert "␛[31mred␛]0;title␇" in "\n".join(spoken.said)
    assert [line for line in spoken.said if not harmless(line)] == []


@pytest.mark.parametrize(
    "typed", ["\x1b[31m", "note \x1b]0;x\x07", "cannot \x1b[2J", "back \x1b", "\x9b2J", "\u202e1", "\ud800"]
)
def test_what_was_typed_is_shown_and_not_obeyed(typed: str) -> None:
    """Nothing that was typed comes back to the terminal as a control character."""
    spoken = Spoken([*TO_SECOND, typed, "trail", "pause"])

    assert [line for line in spoken.said if not harmless(line)] == []


def harmless(line: str) -> bool:
    """Whether a line can be printed without commanding a terminal or turning the writing round."""
    turning = "\u061c\u200e\u200f\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069"
    return not any(category(sign) in ("Cc", "Cs") or sign in turning for sign in line.replace("\n", ""))


_lines = st.lists(
    st.sampled_from(
        ["u", "1", "2", "1900", "7", "back", "back 2", "cannot", "note x", "trail", "suspects", "?", ""]
    )
    | st.text(max_size=6),
    max_size=40,
)


@settings(max_examples=60, suppress_health_check=[HealthCheck.too_slow])
@given(_lines)
def test_no_line_breaks_the_talk(typed: list[str]) -> None:
    """Whatever is typed, the talk ends with its input or its verdict, and the store has what was taken."""
    spoken = Spoken(typed)

    assert spoken.store.read("one") == spoken.job.entries
    assert [line for line in spoken.said if not harmless(line)] == []


CLOSE: Final = """
    first:
      measure: Measure it.
      reading: {name: play, gauge: rule, unit: mm, plausible: [0, 9]}
      bands: [{upto: 5, then: ended}, {over: 5, then: ended}]
    """


def test_a_close_reading_is_repeated() -> None:
    """Too close to call, the next reading of the same is a repeat, and the two decide."""
    spoken = Spoken(["4.5", "4.5"], job_tree=CLOSE)

    assert "Too close to call: 4.5 mm, up to 5 mm: 93 % sure" in "\n".join(spoken.said)
    assert spoken.job.state.where == "ended"


def test_a_close_reading_is_taken_as_it_stands() -> None:
    """`take` decides what is too close, and nothing else does."""
    assert Spoken(["4.9", "take"], job_tree=CLOSE).job.state.where == "ended"
    assert Spoken(["take"], job_tree=CLOSE).job.state.where == "first"


def test_a_close_reading_is_kept_before_anything_else_is_asked() -> None:
    """The input ends there, and the store has what was read."""
    spoken = Spoken(["4.5"], job_tree=CLOSE)

    assert [entry.event.kind for entry in spoken.store.read("one")] == ["opened", "undecided"]


@pytest.mark.parametrize("word", ["4.5", "take"])
def test_a_case_that_was_left_at_a_close_reading_goes_on_there(word: str) -> None:
    """Taken up again, what was read is said with what can be typed, and a repeat or `take` decides it."""
    left = Spoken(["4.5", "pause"], job_tree=CLOSE)
    spoken = Spoken([word], left.store, api.resume(left.store, "one"))

    assert "Too close to call: 4.5 mm, up to 5 mm: 93 % sure" in "\n".join(spoken.said)
    assert any(line.startswith("Read so far: 4.5. Type a further reading, `take`") for line in spoken.said)
    assert spoken.job.state.where == "ended"


def test_a_mistyped_close_reading_is_taken_back() -> None:
    """`back` steps back over it alone, and the step is asked as if nothing had been read."""
    spoken = Spoken(["4.5", "back", "1"], job_tree=CLOSE)
    event = spoken.job.entries[-1].event

    assert isinstance(event, Measured)
    assert (event.typed, event.close) == ({"play": "1"}, False)


def test_a_close_reading_does_not_say_the_whole_question_again() -> None:
    """What is new is how close it was."""
    assert "\n".join(Spoken(["4.5"], job_tree=CLOSE).said).count("Measure: Measure it.") == 1


PAIR: Final = """
    first:
      measure: Measure both.
      readings: {gauge: rule, unit: mm, plausible: [0, 90], each: [left, right]}
      figure: spread
      bands: [{upto: 5, then: ended}, {over: 5, then: ended}]
    """


@pytest.mark.parametrize(
    "typed", [["right", "14.5"], ["2", "14.5"], ["right 14.5"], ["2 14.5"], ["RIGHT", "x", "14.5"]]
)
def test_only_the_wanted_reading_is_repeated(typed: list[str]) -> None:
    """By its name or its number, at once or when asked for; the other stays as it was read."""
    spoken = Spoken(["10", "14.5", *typed], job_tree=PAIR)
    event = spoken.job.entries[-1].event

    assert isinstance(event, Undecided | Measured)
    assert event.typed == {"left": "10", "right": "14.5; 14.5"}


def test_which_reading_is_repeated_is_asked_for() -> None:
    """Each is listed with its number; another word asks once more."""
    spoken = Spoken(["10", "14.5", "up", "right"], job_tree=PAIR)

    assert spoken.cues[-3:] == ["1 to 2, or take: ", "1 to 2, or take: ", "right in mm: "]
    assert spoken.said.count("  2  right once more, as proposed; so far 14.5") == 2


def test_a_reading_whose_repeat_decides_nothing_is_not_proposed() -> None:
    """The spread is made by the ends; the one between may still be repeated."""
    steps = PAIR.replace("left, right", "left, middle, right")
    said = Spoken(["10", "12", "14.5"], job_tree=steps).said

    assert [line for line in said if line.startswith("  ") and " once more" in line] == [
        "  1  left once more, as proposed; so far 10",
        "  2  middle once more; so far 12",
        "  3  right once more, as proposed; so far 14.5",
    ]


def test_the_sum_of_a_repeat_is_made_of_all_that_was_read() -> None:
    """The others stand in it as they were read before."""
    said = Spoken(["10", "14.5", "right 14.7"], job_tree=PAIR).said

    assert any("14.6" in line and "10" in line for line in said if line.startswith("  "))


def test_a_repeat_that_is_hard_to_believe_is_doubted() -> None:
    """Given once more it is meant, and goes behind the right reading."""
    spoken = Spoken(["10", "14.5", "right", "100", "100"], job_tree=PAIR)
    event = spoken.job.entries[-1].event

    assert isinstance(event, Undecided | Measured)
    assert (event.typed["right"], event.insisted) == ("14.5; 100", True)
