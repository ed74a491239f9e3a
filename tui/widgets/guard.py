"""A key that is held down, or bounces under a glove, counts once: it may not answer the next question too."""

from collections.abc import Callable
from typing import Final

#: Seconds without the key after which it counts again. Keyboards repeat a held key after at most 0.66 s.
QUIET: Final = 0.7
MOUSE: Final = "the mouse button"
#: What acknowledges a caution: these do not count before it can have been read.
_ACKNOWLEDGES: Final = frozenset(("u", MOUSE))


class Guard:
    """Knows which key brought the question that stands now, and when it was last felt.

    >>> ticks = iter([0.0, 0.1, 0.2, 1.0])
    >>> guard = Guard(lambda: next(ticks))
    >>> guard.counts("1"), guard.turned(), guard.counts("1"), guard.counts("1"), guard.counts("1")
    (True, None, False, False, True)
    """

    def __init__(self, clock: Callable[[], float]) -> None:
        self._clock = clock
        self._last = ""
        self._felt = 0.0
        self._deaf = ""
        self._open = 0.0
        self._dropped = ""
        #: A key that did not count, though this other one follows it as fast as somebody types.
        self.lost = ""

    def drawn(self, pause: float) -> None:
        """Something new was drawn; what acknowledges does not count before `pause` seconds have passed."""
        self._open = self._clock() + pause

    def turned(self) -> None:
        """What stands on the screen changed: the key that did it is deaf until it has been let go."""
        self._deaf = self._last

    def counts(self, key: str) -> bool:
        """Whether this press is meant for what stands on the screen now."""
        now = self._clock()
        soon = now - self._felt < QUIET
        held = key == self._deaf and key == self._last and soon
        # whoever holds a key down presses no other: then it was typed, and what is missing must be told
        self.lost = self._dropped if soon and not held else ""
        self._dropped = key if held else ""
        self._last, self._felt = key, now
        if not held:
            self._deaf = ""
        early = key in _ACKNOWLEDGES and now < self._open
        return not held and not early
