"""What a measuring step asks for: readings, what a calculator is given, and bands with their limits."""

from collections.abc import Sequence
from typing import Final

from engine.loading.data import Map, Seq
from engine.loading.exact import at, exact
from engine.loading.words import Words
from engine.model import tree as model
from engine.model.place import Place
from engine.trade import registry
from engine.trade.inputs import SAME

_NOTHING: Final = Map()
_UPPER: Final = (("upto", True), ("below", False))
_LOWER: Final = (("from", True), ("over", False))


class Readings(Words):
    """Builds them."""

    def readings(self, data: Map) -> tuple[model.Wanted, ...]:
        """One reading, several that are taken alike, or a list of different ones."""
        if "reading" in data:
            return self.alike(data["reading"], [data["reading"]["name"]])
        many: Map | Seq = data["readings"]
        if isinstance(many, Map):
            return self.alike(many, many["each"])
        return tuple(want for one in many for want in self.alike(one, [one["name"]]))

    def alike(self, holder: Map, names: Sequence[str]) -> tuple[model.Wanted, ...]:
        """Readings that are taken with one gauge in one unit."""
        gauge = self.name("gauge", holder, "gauge")
        low, high = (exact(number) for number in holder["plausible"])
        self.refer("unit", holder["unit"], holder.marks["unit"][1])
        place = at(self.file, holder.mark)
        return tuple(model.Wanted(name, holder["unit"], gauge, low, high, place) for name in names)

    def given(self, data: Map, names: set[str]) -> tuple[model.Fed, ...]:
        """What the calculator is given, input by input; `names` are those of readings."""
        holder: Map = data.get("given", _NOTHING)
        return tuple(self.fed(holder, name, names) for name in holder)

    def fed(self, holder: Map, name: str, readings: set[str]) -> model.Fed:
        """One input: readings by their names, a value of the sheet, or what stands there."""
        value, mark = holder[name], holder.marks[name][1]
        place = at(self.file, mark)
        if isinstance(value, list):
            return model.Fed(name, tuple(value), "", "", place)
        if value in readings:
            return model.Fed(name, (value,), "", "", place)
        if isinstance(value, str) and value.startswith("sheet."):
            return model.Fed(name, (), self.sheet(value, mark), "", place)
        return model.Fed(name, (), "", str(value), place)

    def band(self, data: Map, place: Place) -> model.Band:
        """One band; a limit that it does not name is open."""
        return model.Band(
            low=self.limit(data, _LOWER),
            high=self.limit(data, _UPPER),
            then=self.name("target", data, "then"),
            say=data.get("say", ""),
            fits=self.shares(data),
            source=self.name("source", data, "source"),
            place=place,
        )

    def limit(self, data: Map, words: tuple[tuple[str, bool], ...]) -> model.Limit | None:
        """The limit under the first of these words, each with whether the limit itself is inside."""
        for word, owned in words:
            if word in data:
                mark = data.marks[word][1]
                place, given = at(self.file, mark), data[word]
                if isinstance(given, str):
                    return model.Limit(None, self.sheet(given, mark), owned, place)
                return model.Limit(exact(given), None, owned, place)
        return None


def figure_unit(figure: str, gives: str, unit: str, *, alone: bool) -> str:
    """The unit that bare limits are meant in; an unknown calculator is told elsewhere."""
    calculator = registry.find(figure) if figure else None
    if calculator is None:
        return unit
    if alone and not gives:
        return calculator.result_unit(unit) or unit
    output = calculator.output(gives)
    return unit if output is None or output.unit == SAME else output.unit
