"""Three looks of our own: dark, light, and the terminal's own colours where none are wanted.

Foreground and background differ by at least 7 to 1 in the first two. In the third nothing but bold,
underline and reverse is sent to the terminal, so its own colours stand.
"""

from collections.abc import Mapping
from typing import Final

from textual.theme import Theme

_DARK_INK: Final = "#f1efe6"
_LIGHT_INK: Final = "#14181b"

DARK: Final = Theme(
    name="workshop-dark",
    dark=True,
    primary="#7fb4a6",
    secondary="#9fb1bd",
    accent="#f2c84b",
    warning="#f08a3c",
    error="#ff8f7a",
    success="#8fd18a",
    foreground=_DARK_INK,
    background="#11171b",
    surface="#1c252b",
    panel="#27333b",
    boost="#27333b",
    variables={
        "text-muted": "#b9c3c8",
        "text-disabled": "#b9c3c8",
        "warning-muted": "#4a2f17",
        "scrollbar": "#6f8794",
        "scrollbar-hover": "#8fa6b2",
        "scrollbar-active": "#f2c84b",
        "scrollbar-background": "#1c252b",
        "block-cursor-background": "#f2c84b",
        "block-cursor-foreground": "#11171b",
        "ansi-background": "#11171b",
        "ansi-foreground": _DARK_INK,
    },
)
LIGHT: Final = Theme(
    name="workshop-light",
    dark=False,
    primary="#1f5f54",
    secondary="#3c5361",
    accent="#5a2b00",
    warning="#7c3000",
    error="#841407",
    success="#17531f",
    foreground=_LIGHT_INK,
    background="#f6f3ea",
    surface="#ebe6d8",
    panel="#dcd5c2",
    boost="#dcd5c2",
    variables={
        "text-muted": "#363e43",
        "text-disabled": "#363e43",
        "warning-muted": "#f3d9b8",
        "scrollbar": "#8a8371",
        "scrollbar-hover": "#6d6758",
        "scrollbar-active": "#14323a",
        "scrollbar-background": "#dcd5c2",
        "block-cursor-background": "#14323a",
        "block-cursor-foreground": "#f6f3ea",
        "ansi-background": "#f6f3ea",
        "ansi-foreground": _LIGHT_INK,
    },
)
_OWN: Final = "ansi_default"
_OWN_VARIABLES: Final[Mapping[str, str]] = dict.fromkeys(
    (
        *("text", "text-muted", "text-disabled", "border", "border-blurred", "foreground-muted"),
        *("primary-muted", "warning-muted", "error-muted", "success-muted", "accent-muted"),
        *("block-cursor-background", "block-cursor-foreground", "block-hover-background"),
        *("scrollbar", "scrollbar-hover", "scrollbar-active", "scrollbar-background"),
        *("scrollbar-background-hover", "scrollbar-background-active", "scrollbar-corner-color"),
        *("ansi-background", "ansi-foreground", "input-cursor-background", "input-cursor-foreground"),
        *("input-selection-background", "input-selection-foreground"),
        *("screen-selection-background", "screen-selection-foreground"),
    ),
    _OWN,
)
PLAIN: Final = Theme(
    name="workshop-plain",
    ansi=True,
    primary=_OWN,
    secondary=_OWN,
    accent=_OWN,
    warning=_OWN,
    error=_OWN,
    success=_OWN,
    foreground=_OWN,
    background=_OWN,
    surface=_OWN,
    panel=_OWN,
    boost=_OWN,
    variables=dict(_OWN_VARIABLES),
)
