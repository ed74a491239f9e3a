"""Every key of the terminal app, in one table: what it is called, what it does, where it works.

Single letters, digits, arrows, Enter and Esc only: combinations with Alt or Ctrl get lost on some terminals,
and gloves do not find them.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from textual.binding import Binding


@dataclass(frozen=True, slots=True)
class Key:
    """One key: as the toolkit names it, as people read it, its word on the key line, its line of help."""

    #: The action it starts, and its name in this table.
    action: str
    key: str
    shown: str
    word: str
    help: str


_ALL: Final = (
    Key("answer", "", "1-9", "answer", "Choose the line with this number."),
    Key("pick", "enter", "Enter", "take", "Take the line that is marked; in a field, send what was typed."),
    Key("move", "", "↑ ↓", "move", "Mark another line, or go to another field."),
    Key("scroll", "", "PgDn", "more", "Read on where a text is longer than the screen; PgUp goes back."),
    Key("page", "", "PgDn", "more", "Show the next nine lines of a long list; PgUp goes back."),
    Key("field", "", "0-9", "type", "Go back to the field that is to be filled in."),
    Key("out", "escape", "Esc", "other keys", "Leave the field, so that letters are keys again."),
    Key("understood", "u", "u", "understood", "The caution has been read. Enter does not do this."),
    Key("back", "b", "b", "back", "Choose an earlier step to go back to."),
    Key("trail", "t", "t", "trail", "Show or hide what was answered so far."),
    Key(
        "who", "w", "w", "who", "Who is suspected, how likely, what moved it; and advice on what comes next."
    ),
    Key("note", "n", "n", "note", "Write a remark down beside this step."),
    Key("cannot", "x", "x", "cannot", "This step cannot be done or told here; say why and go on."),
    Key("pause", "p", "p", "pause", "Leave the job. All is saved; resume it at any time."),
    Key("accept", "a", "a", "accept", "Accept the verdict."),
    Key("fixed", "f", "f", "fixed?", "After the repair: whether the complaint is gone, and the true cause."),
    Key("report", "r", "r", "report", "Write the report of the case into a file."),
    Key("new", "n", "n", "new job", "Open a job: vehicle, complaint, label."),
    Key("standing", "f", "f", "finished jobs", "Switch between open and finished jobs."),
    Key(
        "calculators",
        "k",
        "k",
        "calculate",
        "Work something out; a job stays as it is.",
    ),
    Key("search", "s", "s", "search", "Look for a calculator by its name, its family or its title."),
    Key("example", "e", "e", "example", "Fill in the inputs of an example."),
    Key("curve", "g", "g", "curve", "Show the curve, the next one, or the sum again."),
    Key("again", "s", "s", "send again", "Send the same answer once more."),
    Key("leave", "escape", "Esc", "leave", "Go back without doing anything."),
    Key("look", "c", "c", "colours", "Switch between dark and light."),
    Key("help", "question_mark", "?", "help", "Show this page."),
    Key("quit", "q", "q", "quit", "End the program. All is saved."),
)
TABLE: Final[Mapping[str, Key]] = {key.action: key for key in _ALL}

HOME: Final = ("answer", "pick", "move", "page", "new", "standing", "calculators", "look", "help", "quit")
NEW_JOB: Final = ("answer", "pick", "move", "page", "look", "help", "leave")
#: What works wherever a case stands open.
_CASE: Final = ("back", "trail", "who", "note", "calculators", "pause", "look", "help")
CAUTION: Final = ("understood", "scroll", *_CASE)
WALK: Final = (
    *("answer", "pick", "move", "scroll", "field", "out"),
    *("cannot", *_CASE),
)
VERDICT: Final = ("accept", "fixed", "report", "answer", "pick", "scroll", *_CASE)
CALCULATORS: Final = ("answer", "pick", "move", "page", "search", "look", "help", "leave")
CALCULATOR: Final = ("field", "move", "scroll", "example", "curve", "look", "help", "leave")
FAILURE: Final = ("again", "leave")
#: The pages of the help screen: where, and which keys work there.
PLACES: Final = (
    ("Jobs", HOME),
    ("New job", NEW_JOB),
    ("A caution", CAUTION),
    ("A step", WALK),
    ("The verdict", VERDICT),
    ("Calculators", CALCULATORS),
    ("A calculator", CALCULATOR),
    ("Something went wrong", FAILURE),
)

DIGITS: Final = tuple(Binding(str(n), f"answer({n})", show=False) for n in range(1, 10))

SCROLL: Final = (
    Binding("pagedown", "scroll_on(1)", show=False),
    Binding("pageup", "scroll_on(-1)", show=False),
)


def bindings(*actions: str) -> list[Binding]:
    """The toolkit's bindings of these keys: `answer` is nine digits, `scroll` goes both ways.

    >>> [binding.key for binding in bindings("back", "help")]
    ['b', 'question_mark']
    """
    found: list[Binding] = []
    for action in actions:
        key = TABLE[action]
        if action == "answer":
            found.extend(DIGITS)
        elif action == "scroll":
            found.extend(SCROLL)
        elif key.key:
            found.append(Binding(key.key, action, key.word, show=False))
    return found
