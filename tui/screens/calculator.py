"""One calculator: its inputs, the result and the sum while one types, the curve, and why to trust it."""

import asyncio
import shlex
from collections.abc import Iterator
from typing import ClassVar

from textual import on, work
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Horizontal, Vertical, VerticalScroll
from textual.screen import Screen
from textual.widgets import Input

from engine.errors import Refusal
from engine.trade.calculator import Calculator, Sum
from engine.trade.marks import MARKS
from engine.trade.sums import written
from tui.keys import bindings
from tui.messages import Typed
from tui.screens.page import Page
from tui.session import Session
from tui.widgets.choice import Choice
from tui.widgets.column import Body
from tui.widgets.entry import Entry
from tui.widgets.field import Field
from tui.widgets.graph import Graph
from tui.widgets.keyline import Keyline
from tui.widgets.labelled import Labelled, Text
from tui.widgets.words import Words

#: So few inputs have air between them where the screen is high: larger targets.
_FEW = 4


class CalculatorScreen(Page[None]):
    """Draws what stands in the fields of one calculator; the session keeps it."""

    DEFAULT_CSS = """
    CalculatorScreen #title { background: $panel; text-style: bold; padding: 0 1; }
    CalculatorScreen #middle { height: 1fr; layout: vertical; }
    CalculatorScreen #left { height: 1fr; }
    CalculatorScreen #inputs { height: auto; max-height: 50%; padding: 1 0 0 0; scrollbar-size-vertical: 1; }
    CalculatorScreen #told { height: 1fr; }
    CalculatorScreen Graph { display: none; }
    CalculatorScreen.-curve #told { display: none; }
    CalculatorScreen.-curve #left { height: auto; max-height: 40%; }
    CalculatorScreen.-curve #inputs { max-height: 100%; }
    CalculatorScreen.-curve Graph { display: block; margin: 1 0 0 0; }
    CalculatorScreen.-high .-few Entry { margin: 0 0 1 0; }
    CalculatorScreen.-high.-curve .-few Entry { margin: 0; }
    CalculatorScreen.-wide.-plotted #middle { layout: horizontal; }
    CalculatorScreen.-wide.-plotted #left { width: 1fr; height: 1fr; max-height: 100%; }
    CalculatorScreen.-wide.-plotted #inputs { max-height: 50%; }
    CalculatorScreen.-wide.-plotted #told { display: block; }
    CalculatorScreen.-wide.-plotted Graph { display: block; width: 1fr; margin: 1 0 0 0; }
    CalculatorScreen.-slim Entry { layout: vertical; }
    CalculatorScreen.-low #inputs { padding: 0; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        *bindings("example", "curve", "leave"),
        Binding("up", "app.focus_previous", show=False),
        Binding("down", "app.focus_next", show=False),
    ]

    def __init__(self, session: Session, calculator: Calculator) -> None:
        super().__init__(classes="-plotted" if calculator.plots else "")
        self.session = session
        self.calculator = calculator
        #: 0: the sum; above: this curve, where there is no room for both.
        self.view = 0

    def parts(self) -> ComposeResult:
        """Inputs, result and what it rests on, curve, keys."""
        given = self.session.given(self.calculator)
        yield Words(f"WITNESSMARK   {self.calculator.title}", id="title")
        with Horizontal(id="middle"):
            with Vertical(id="left"):
                few = "-few" if len(self.calculator.inputs) <= _FEW else ""
                with Inputs(id="inputs", classes=few):
                    yield from (Entry(one, given[one.name]) for one in self.calculator.inputs)
                with Body(id="told"):
                    yield Labelled(self._told(), id="sum")
            if self.calculator.plots:
                yield Graph(id="graph")
        yield Keyline(*self.moment())

    def _told(self) -> Iterator[Text]:
        """The result or what keeps it from being told; then formula, source and validity."""
        made, one = self.session.reckon(self.calculator), self.calculator
        if isinstance(made, Sum):
            yield Text("Result", "\n".join(results_words(made)), main=True)
            yield Text("Sum", "\n".join(made.lines))
        elif made.kind == "missing":
            given = self.session.given(one)
            lacking = (i for i in one.inputs if not (given[i.name].strip() or i.default or i.optional))
            yield Text("Result", "Still to be filled in: " + "; ".join(i.title for i in lacking) + ".")
        else:
            yield Text("No result", refusal_words(made, one), main=True)
        if not isinstance(made, Sum):
            yield Text("Formula", "\n".join(one.formula))
        yield Text("Holds", one.valid)
        yield Text("Source", f"{one.source} ({MARKS[one.mark]})")

    def moment(self) -> tuple[str, ...]:
        """In a field few keys are left."""
        if isinstance(self.focused, Field):
            return ("move", "out")
        example = ("example",) if self.calculator.example else ()
        curve = ("curve",) if self._turns else ()
        return ("field", "move", "help", *example, *curve, "scroll", "leave")

    @property
    def _turns(self) -> bool:
        """Whether there is another curve, or the sum, to show in its place."""
        return len(self.calculator.plots) > (1 if self.has_class("-wide") else 0)

    # -- drawing

    def on_mount(self) -> None:
        """The cursor goes into the first field that is empty."""
        self.draw()
        self.start()

    def start(self) -> None:
        """Go into the first field that is empty, or the first of all."""
        given = self.session.given(self.calculator)
        entries = [*self.query(Entry)]
        empty = (entry for entry in entries if not given[entry.wanted.name].strip())
        for entry in (next(empty, entries[0]),):
            entry.into()

    def draw(self) -> None:
        """Work it out again, and draw the curve beside it."""
        for told in self.query(Labelled):
            told.say(self._told())
        self._curve()

    @work(exclusive=True)
    async def _curve(self) -> None:
        """Some curves take longer than a key: they are made beside what is typed."""
        for graph in self.query(Graph):
            if graph.display:
                plot = self.calculator.plots[max(0, self.view - 1)]
                graph.show(await asyncio.to_thread(self.session.curve, self.calculator, plot))

    def _laid_out(self, screen: Screen[object]) -> None:
        super()._laid_out(screen)
        shown = self.has_class("-wide"), self.view
        if shown != getattr(self, "_shown", None):
            self._shown = shown
            self.call_after_refresh(self.draw)

    # -- typing

    @on(Typed)
    def _typed(self, event: Typed) -> None:
        event.stop()
        given = self.session.given(self.calculator)
        if given[event.name] != event.text:
            given[event.name] = event.text
            self.draw()

    @on(Input.Submitted)
    def _entered(self, event: Input.Submitted) -> None:
        event.stop()
        self.focus_next()

    def on_descendant_focus(self) -> None:
        """Other keys mean something inside a field than outside."""
        for keyline in self.query(Keyline):
            keyline.say(*self.moment())

    on_descendant_blur = on_descendant_focus

    # -- keys

    def action_answer(self, number: int) -> None:
        """A digit chooses a word, or begins to fill in the first empty field."""
        if isinstance(self.focused, Choice):
            self.focused.choose(number)
            return
        self.start()
        if isinstance(self.focused, Field):
            self.focused.insert_text_at_cursor(str(number))

    def action_example(self) -> None:
        """Fill in the example; what it does not name is as usual."""
        given = self.session.given(self.calculator)
        typed = dict(word.split("=", 1) for word in shlex.split(self.calculator.example))
        for entry in self.query(Entry):
            wanted = entry.wanted
            text = typed.get(wanted.name, typed.get(wanted.symbol, wanted.default))
            given[wanted.name] = text
            entry.fill(text)
        self.draw()

    def action_curve(self) -> None:
        """The next curve; where there is no room for both, the sum again after the last."""
        count = len(self.calculator.plots)
        if self._turns:
            wide = self.has_class("-wide")
            self.view = max(1, self.view) % count + 1 if wide else (self.view + 1) % (count + 1)
            self.set_class(self.view > 0, "-curve")
            self.call_after_refresh(self.draw)

    def action_leave(self) -> None:
        """Out of the field first, so that letters are keys; then back to the list."""
        if isinstance(self.focused, Field):
            self.set_focus(None)
        else:
            self.dismiss(None)


class Inputs(VerticalScroll):
    """The fields; it scrolls to the one with the cursor, and takes no cursor itself."""

    can_focus = False


def results_words(made: Sum) -> Iterator[str]:
    """Each output with its value, a line each; lists that belong together side by side."""
    told = [(output.title, made.outputs.get(output.name)) for output in made.calculator.outputs]
    lists = [(title, value) for title, value in told if isinstance(value, tuple)]
    beside = len(lists) > 1 and len({len(value) for _, value in lists}) == 1
    for title, value in told:
        if value is not None and not (beside and isinstance(value, tuple)):
            yield f"{title}: {written(value)}"
    if beside:
        yield " · ".join(title for title, _ in lists)
        for row in zip(*(value for _, value in lists), strict=True):
            yield "  " + " · ".join(map(written, row))


def refusal_words(refusal: Refusal, calculator: Calculator) -> str:
    """Why there is no result and what helps, with the titles that stand on the screen for the names.

    >>> from engine.trade.registry import find
    >>> refusal_words(Refusal("outside", "depth: 90 mm is too much.", "Give less."), find("tread-wear"))
    'Tread lost, or difference in tread: 90 mm is too much. Give less.'
    """
    message = refusal.message
    for wanted in calculator.inputs:
        if message.startswith(f"{wanted.name}: "):
            message = wanted.title + message.removeprefix(wanted.name)
    return f"{message} {refusal.cure}"
