"""How much room a screen has: where the layout changes, in columns and lines."""

from typing import Final

#: Fewer columns than this: labels stand above their texts.
SLIM: Final = 60
#: From so many columns on the trail stands beside the step.
WIDE: Final = 100
#: Fewer lines than this: no air, no frames, and only what safety needs at the top.
LOW: Final = 18
