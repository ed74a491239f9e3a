"""How a picture is coloured and lettered: on white paper by day, on slate by night, and readable in grey.

Tones only repeat what shapes, lines and words say.
"""

from typing import Final

from engine.report.drawing.lines import SIZES

_DAY: Final = {
    "paper": "#faf8f3", "card": "#ffffff", "ink": "#1d2327", "soft": "#4b565e", "wire": "#707c85",
    "ask": "#e6f0f8", "measure": "#e3f1ec", "sort": "#ecebe6", "run": "#f0eaf5", "repair": "#fbe3d6",
    "adjust": "#fbf0cf", "nofault": "#dff0dc", "refer": "#e9ecef", "caution": "#8a4b00", "error": "#a3142b",
    "trail": "#12507b", "tag": "#fffdf6",
}  # fmt: skip
_NIGHT: Final = {
    "paper": "#171b1f", "card": "#242a30", "ink": "#f0f2f3", "soft": "#b6c0c8", "wire": "#8b98a3",
    "ask": "#1e3242", "measure": "#1d3831", "sort": "#34363a", "run": "#352d41", "repair": "#4d2d20",
    "adjust": "#453a17", "nofault": "#23401f", "refer": "#31373d", "caution": "#f2b85c", "error": "#ff97a3",
    "trail": "#7cc4f5", "tag": "#2c3238",
}  # fmt: skip
_RULES: Final = """
text{font-family:"Segoe UI","Helvetica Neue","Noto Sans","Liberation Sans","DejaVu Sans",sans-serif;
fill:var(--ink);unicode-bidi:isolate}
.paper{fill:var(--paper)}
.edge{fill:var(--card);stroke:var(--ink);stroke-width:1.4;stroke-linejoin:round}
.inner{fill:none;stroke:var(--ink);stroke-width:1}
.ask .edge{fill:var(--ask)}
.measure .edge{fill:var(--measure)}
.sort .edge{fill:var(--sort)}
.run .edge{fill:var(--run)}
.verdict .edge,.outcome .edge{stroke-width:2.6}
.repair .edge{fill:var(--repair);stroke-width:3.4}
.adjust .edge{fill:var(--adjust)}
.no-fault .edge,.outcome .edge{fill:var(--nofault)}
.refer .edge{fill:var(--refer);stroke-dasharray:7 4}
.missing .edge{stroke:var(--error);stroke-dasharray:3 3}
.missing .inner{stroke:var(--error);stroke-opacity:.35}
.heading{font-weight:700;letter-spacing:.4px}
.name{fill:var(--soft);font-family:"DejaVu Sans Mono","Liberation Mono",Consolas,Menlo,monospace}
.verdict .text,.outcome .text,.title{font-weight:600}
.note,.about,.aside{fill:var(--soft)}
.aside{font-style:italic}
.caution{fill:var(--caution);font-weight:600}
.error,.warning{fill:var(--error);font-weight:600}
.sign{fill:none;stroke-width:1.6;stroke-linejoin:round;stroke-linecap:round}
.sign.caution{stroke:var(--caution)}
.sign.error,.sign.warning{stroke:var(--error)}
.fold{stroke:var(--wire);stroke-dasharray:3 3}
.wire{fill:none;stroke:var(--wire);stroke-width:1.6;stroke-linejoin:round}
.arrow{fill:var(--wire)}
.away .wire{stroke-dasharray:5 4}
.barred .wire{stroke-dasharray:1.5 4}
.tag{text-anchor:middle}
.barred text{fill:var(--soft)}
.slip{fill:var(--tag);stroke:var(--wire);stroke-width:1.1}
.hole{fill:var(--paper);stroke:var(--wire)}
.away .slip{stroke-dasharray:5 4}
.barred .slip{stroke-dasharray:1.5 3}
.taken .wire{stroke:var(--trail);stroke-width:6}
.taken .core{fill:none;stroke:var(--paper);stroke-width:1.8}
.taken .arrow{fill:var(--trail)}
.taken .slip{fill:var(--trail);stroke:var(--trail)}
.taken text{fill:var(--paper);font-weight:600}
.visited .edge{stroke:var(--trail);stroke-width:4}
.badge{fill:var(--trail)}
.count{fill:var(--paper);font-size:12px;font-weight:700;text-anchor:middle}
.begin{font-size:11px;font-weight:700;letter-spacing:1.5px;text-anchor:middle}
"""


def sheet() -> str:
    """The style sheet; all of it is fixed text."""
    sizes = "".join(f".{style}{{font-size:{size:g}px}}" for style, (size, _) in SIZES.items())
    night = f"@media (prefers-color-scheme:dark){{:root{{{_tones(_NIGHT)}}}}}"
    return f":root{{{_tones(_DAY)}}}\n{night}{_RULES}{sizes}\n"


def _tones(tones: dict[str, str]) -> str:
    return "".join(f"--{name}:{tone};" for name, tone in tones.items())
