"""Somebody who walks a case by keys: sees what is asked before a key, and the answer kept after it."""

import time
from typing import Final

from engine import api
from engine.interview import command as ask
from engine.interview.command import Command
from engine.interview.question import CautionPrompt, DoPrompt, MeasurePrompt, Prompt, VerdictPrompt
from tests.tui.terminal import PATIENCE, Terminal

CASE: Final = "demo"
CLOSE: Final = "Too close to call"
#: Words of a question that tell it from the one before.
_WORDS: Final = 4
#: Seconds after which a caution that has not changed took no key: it came too early.
_STILL: Final = 3.0
#: Seconds after which a screen that began to change is whole.
_DRAWN: Final = 0.4


def keys(command: Command) -> str:
    """What a person presses for a command of the script."""
    match command:
        case ask.Acknowledge():
            return "u"
        case ask.Confirm():
            return "1"
        case ask.Choose(answer):
            return str(answer + 1)
        case ask.Read(typed):
            return "".join(f"{text}\r" for text in typed.values())
        case ask.Accept():
            return "a"
        case _:
            raise AssertionError(f"the script has no {command}")


def head(store: api.Store) -> int:
    """The number of the last event of the case."""
    return store.heads().get(CASE, 0)


def stands(terminal: Terminal, prompt: Prompt) -> bool:
    """Whether this is what the screen asks now."""
    seen = terminal.seen()
    match prompt:
        case CautionPrompt():
            return "u understood" in seen and _first(prompt.caution.title) in seen
        case MeasurePrompt(close=None):
            return "Gauge" in seen and CLOSE not in seen
        case MeasurePrompt():
            return CLOSE in seen
        case VerdictPrompt():
            return "a accept" in seen
        case _:
            kind = "Do" if isinstance(prompt, DoPrompt) else "Question"
            return f"{kind} {_first(prompt.text)}" in seen


def _first(text: str) -> str:
    return " ".join(text.split()[:_WORDS])


def give(terminal: Terminal, store: api.Store, command: Command) -> str:
    """Press the keys of a command once what it answers is seen, until its event is kept; gives the keys.

    A caution takes its time to be read, and a long one a key for each part of it. A reading that is too
    close to call is taken as it stands, by the last line of the choice.
    """
    prompt = api.prompt(api.resume(store, CASE))
    terminal.until(lambda: stands(terminal, prompt))
    if isinstance(command, ask.Acknowledge):
        terminal.read()
    pressed = keys(command)
    if isinstance(prompt, MeasurePrompt) and prompt.close:
        pressed = str(len(prompt.blanks) + 1)
    before, end = head(store), time.monotonic() + PATIENCE
    while not _kept(terminal, store, pressed, before):
        again = isinstance(command, ask.Acknowledge) and time.monotonic() < end
        assert again, f"{command} was not taken:\n{terminal.text()}"
    return pressed


def _kept(terminal: Terminal, store: api.Store, pressed: str, before: int) -> bool:
    """Whether these keys make an event; false once the screen says that they do not, or stands still."""
    terminal.press(pressed)
    seen, still = terminal.text(), time.monotonic() + (_STILL if pressed == "u" else PATIENCE)
    while time.monotonic() < still:
        terminal.hear()
        if head(store) > before:
            return True
        if terminal.text() != seen and "Not yet" in terminal.text():
            seen, still = terminal.text(), time.monotonic() + _DRAWN
    return False
