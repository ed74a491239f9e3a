"""The trade's arithmetic: its families, the calculators of one, and those that a search finds."""

from collections import Counter
from collections.abc import Mapping, Sequence
from typing import ClassVar, Final

from textual import on
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.widgets import Input

from engine.trade.calculator import Calculator
from tui.keys import bindings
from tui.messages import Picked
from tui.screens.calculator import CalculatorScreen
from tui.screens.page import Page
from tui.session import Session
from tui.widgets.column import Listing
from tui.widgets.field import Field
from tui.widgets.keyline import Keyline
from tui.widgets.row import Line, Row
from tui.widgets.rows import PAGE, Rows, numbered
from tui.widgets.words import Words

_LONGEST: Final = 60
#: Families whose name is short for something.
_CALLED: Final[Mapping[str, str]] = {"vin": "identification numbers", "dtc": "trouble codes"}


class CalculatorsScreen(Page[None]):
    """Families first, then one of them; whatever is typed into the search looks through all."""

    DEFAULT_CSS = """
    CalculatorsScreen > Words { padding: 0 1; }
    CalculatorsScreen #title { background: $panel; text-style: bold; }
    CalculatorsScreen #search { margin: 1 0 0 0; }
    CalculatorsScreen #count { margin: 1 0; }
    .-low CalculatorsScreen #count { margin: 0; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [*bindings("search", "leave")]

    def __init__(self, session: Session) -> None:
        super().__init__()
        self.session = session
        self.sought = ""
        self.family = ""
        #: Grows with every list: a line of an earlier one was something else.
        self.turn = 0

    @property
    def face(self) -> object:
        """Each list is another face."""
        return id(self), self.family

    @property
    def families(self) -> Sequence[str]:
        """Each once, in the order of the registry."""
        return tuple(dict.fromkeys(one.family for one in self.session.calculators))

    @property
    def listed(self) -> Sequence[Calculator]:
        """The calculators to choose from; none while families are."""
        every = self.session.calculators
        if self.sought.strip():
            return [one for one in every if finds(one, self.sought)]
        return [one for one in every if one.family == self.family]

    def parts(self) -> ComposeResult:
        """Search, what is listed, the list, the keys."""
        yield Words("WITNESSMARK   Calculators", id="title")
        yield Words("Search: type a word of what is to be worked out", id="search")
        yield Field("search", self.sought, longest=_LONGEST)
        yield Words(self._count(), id="count")
        with Listing():
            yield Rows(self._lines(), self.turn)
        yield Keyline(*self.moment())

    def _count(self) -> str:
        found = len(self.listed)
        if self.sought.strip():
            return f"{found} found" if found else "Nothing found. Try another word, or fewer."
        if self.family:
            return f"{family_words(self.family)}: {found} calculators"
        return f"{len(self.session.calculators)} calculators in {len(self.families)} families"

    def _lines(self) -> Sequence[Line]:
        if self.sought.strip():
            return numbered([f"{one.title}   · {family_words(one.family)}" for one in self.listed])
        if self.family:
            return numbered([one.title for one in self.listed])
        count = Counter(one.family for one in self.session.calculators)
        return numbered([f"{family_words(family)}   · {count[family]}" for family in self.families])

    def moment(self) -> tuple[str, ...]:
        """In the field few keys are left."""
        if isinstance(self.focused, Field):
            return ("pick", "move", "out")
        return ("answer", "pick", "help", "search", "page", "look", "leave")

    def on_mount(self) -> None:
        """The first family is marked."""
        self.mark()

    def on_descendant_focus(self) -> None:
        """Other keys mean something inside the field than outside."""
        for keyline in self.query(Keyline):
            keyline.say(*self.moment())

    on_descendant_blur = on_descendant_focus

    async def relist(self) -> None:
        """Show what is to be chosen from now."""
        self.turn += 1
        self.query_one("#count", Words).say(self._count())
        for rows in self.query(Rows):
            rows.turn = self.turn
            await rows.show(self._lines())
            rows.scroll_home(animate=False)

    @on(Input.Changed)
    async def _typed(self, event: Input.Changed) -> None:
        event.stop()
        if event.value != self.sought:
            self.sought = event.value
            await self.relist()

    @on(Input.Submitted)
    def _entered(self, event: Input.Submitted) -> None:
        event.stop()
        if self.sought.strip() and self.listed:
            self._show(self.listed[0])

    @on(Picked)
    async def _picked(self, event: Picked) -> None:
        event.stop()
        if event.turn != self.turn:
            return
        if self.listed:
            self._show(self.listed[event.line])
        elif not self.sought.strip():
            self.family = self.families[event.line]
            await self.relist()
            self.mark()

    def _show(self, calculator: Calculator) -> None:
        self.app.push_screen(CalculatorScreen(self.session, calculator))

    def action_search(self) -> None:
        """Go into the search field."""
        for field in self.query(Field):
            field.focus()

    async def action_scroll_on(self, pages: int) -> None:
        """Mark the line nine further on, or nine before."""
        for rows in self.query(Rows):
            marked = [number for number, row in enumerate(rows.query(Row)) if row.has_focus]
            rows.mark(max(0, (marked[0] if marked else 0) + pages * PAGE))

    async def action_leave(self) -> None:
        """Out of the field; out of what was found; out of the family; back to where it was asked for."""
        if isinstance(self.focused, Field):
            self.mark()
        elif self.sought:
            for field in self.query(Field):
                field.value = ""
            self.sought = ""
            await self.relist()
            self.mark()
        elif self.family:
            at = self.families.index(self.family)
            self.family = ""
            await self.relist()
            for rows in self.query(Rows):
                rows.mark(at)
        else:
            self.dismiss(None)


def family_words(family: str) -> str:
    """A family as people call it.

    >>> family_words("tyres"), family_words("dtc")
    ('Tyres', 'Trouble codes')
    """
    return _CALLED.get(family, family).capitalize()


def finds(calculator: Calculator, sought: str) -> bool:
    """Whether every word that is sought is in its name, family, title, inputs or outputs."""
    told = " ".join(
        (
            *(calculator.name, calculator.family, family_words(calculator.family), calculator.title),
            *(wanted.title for wanted in calculator.inputs),
            *(output.title for output in calculator.outputs),
        )
    ).casefold()
    return all(word in told for word in sought.casefold().split())
