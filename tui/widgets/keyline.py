"""The keys of the moment, at the foot of the screen; each may also be clicked."""

from collections.abc import Sequence
from dataclasses import replace
from typing import ClassVar, Final

from textual.content import Content
from textual.events import Click
from textual.geometry import Size
from textual.widget import Widget

from tui.keys import TABLE, Key
from tui.widgets.room import WIDE
from tui.widgets.words import words

_GAP: Final = 2


class Keyline(Widget):
    """As many lines as the keys need at this width; a key is never cut in two."""

    ALLOW_SELECT = False
    DEFAULT_CSS = """
    Keyline {
        dock: bottom; width: 1fr; height: auto; max-height: 5; padding: 0 1;
        background: $panel; color: $foreground;
        & .keyline--key { color: $accent; text-style: bold; }
        &:nocolor .keyline--key { text-style: bold underline; }
    }
    """
    COMPONENT_CLASSES: ClassVar[set[str]] = {"keyline--key"}

    def __init__(self, *actions: str, answers: int = 9) -> None:
        super().__init__()
        self._keys = _keys(actions, answers)

    def say(self, *actions: str, answers: int = 9) -> None:
        """Show other keys."""
        keys = _keys(actions, answers)
        if keys != self._keys:
            self._keys = keys
            self.refresh(layout=True)

    @property
    def keys(self) -> Sequence[Key]:
        """The keys that mean something.

        Where no colours are wanted there are none to switch, and where the trail has no room beside the step
        the way back shows it.
        """
        idle = {action for action, so in (("look", self.app.no_color), ("trail", self._narrow)) if so}
        return [key for key in self._keys if key.action not in idle]

    @property
    def _narrow(self) -> bool:
        return self.app.size.width < WIDE

    def render(self) -> Content:
        """The keys and their words, as they fit the width."""
        look = self.get_visual_style("keyline--key", partial=True)
        lines = flow([_width(key) for key in self.keys], self.size.width)
        return Content("\n").join(
            Content(" " * _GAP).join(
                Content.assemble(words(self.keys[k].shown).stylize(look), words(f" {self.keys[k].word}"))
                for k in line
            )
            for line in lines
        )

    def get_content_height(self, container: Size, viewport: Size, width: int) -> int:  # noqa: ARG002  reason: the toolkit's signature
        """As many lines as the keys take at this width."""
        return max(1, len(flow([_width(key) for key in self.keys], width)))

    def on_click(self, event: Click) -> None:
        """Press the key that was clicked."""
        event.stop()
        offset = event.get_content_offset(self)
        key = self.at(offset.x, offset.y) if offset is not None else None
        if key is not None and key.key:
            self.app.simulate_key(key.key)

    def at(self, x: int, y: int) -> Key | None:
        """The key at a place of the content."""
        lines = flow([_width(key) for key in self.keys], self.size.width)
        start = 0
        for k in lines[y] if y < len(lines) else ():
            if start <= x < start + _width(self.keys[k]):
                return self.keys[k]
            start += _width(self.keys[k]) + _GAP
        return None


def _keys(actions: Sequence[str], answers: int) -> tuple[Key, ...]:
    """The keys of these actions; as many digits as there are answers."""
    digits = "1" if answers == 1 else f"1-{min(answers, 9)}"
    keys = (TABLE[action] for action in actions)
    return tuple(replace(key, shown=digits) if key.action == "answer" else key for key in keys)


def _width(key: Key) -> int:
    return words(key.shown, " ", key.word).cell_length


def flow(widths: Sequence[int], room: int) -> list[list[int]]:
    """Numbers of the items on each line, so that no line is wider than the room.

    >>> flow([4, 4, 4], 10)
    [[0, 1], [2]]
    """
    lines: list[list[int]] = []
    used = 0
    for number, width in enumerate(widths):
        if lines and used + _GAP + width <= room:
            lines[-1].append(number)
            used += _GAP + width
        else:
            lines.append([number])
            used = width
    return lines
