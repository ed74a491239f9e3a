"""A field to type into: what is pasted or typed is cleaned, and arrows leave it."""

import asyncio
from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.widgets import Input

from engine.plain import clean


class Field(Input):
    """One line of text. Up and down go to the neighbouring field or line, Enter sends."""

    DEFAULT_CSS = """
    Field, Field:focus, Field.-textual-compact, Field.-textual-compact:focus {
        width: 1fr; min-width: 10; height: 1; border: none; padding: 0 1; text-style: none;
        background: $panel; color: $foreground; background-tint: $foreground 0%;
    }
    Field:focus { background: $block-cursor-background; color: $block-cursor-foreground; text-style: bold; }
    Field > .input--cursor { background: $foreground; color: $background; text-style: none; }
    Field:focus > .input--cursor { background: $background; color: $foreground; text-style: none; }
    Field:nocolor, Field.-textual-compact:nocolor {
        border-left: solid $foreground; border-right: solid $foreground;
    }
    Field:nocolor:focus { text-style: bold; border-left: outer $foreground; border-right: outer $foreground; }
    Field:nocolor:focus > .input--cursor { text-style: reverse; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("up", "app.focus_previous", show=False),
        Binding("down", "app.focus_next", show=False),
    ]

    def __init__(self, name: str, value: str, *, longest: int) -> None:
        # a blinking cursor is one more thing that moves in the corner of an eye all day
        super().__init__(value, name=name, max_length=longest, select_on_focus=False)
        self.cursor_blink = False

    def validate_value(self, value: str) -> str:
        """What stands in the field is always harmless to show, also after a paste."""
        return clean(value, lines=False)

    async def settled(self) -> None:
        """Wait until the keys that were pressed before now have been taken in."""
        done = asyncio.Event()
        self.call_later(done.set)
        await done.wait()
