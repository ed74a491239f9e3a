"""From the data of a sound tree or procedure to the model. The schema has already decided the shape."""

from collections.abc import Callable, Mapping
from fractions import Fraction
from typing import Any, Final

from engine.loading.build_readings import Readings, figure_unit
from engine.loading.data import Map, Mark, Seq
from engine.loading.exact import at, exact, key_at, value_at
from engine.loading.sources import sources
from engine.model import tree as model

CONFIDENCE: Final = Fraction(95, 100)
#: Where the words of a step's own lists point to.
_LISTS: Final = {
    "needs": "state",
    "forbids": "state",
    "sets": "state",
    "clears": "state",
    "cautions": "caution",
}


class _Maker(Readings):
    """Builds the steps of one document."""

    def common(self, data: Map) -> dict[str, Any]:
        """The fields that every kind of step has."""
        out: dict[str, Any] = {}
        for key in data:
            if key in _LISTS:
                out[key] = self.names(_LISTS[key], data, key)
            elif key == "why":
                out[key] = data[key]
            elif key == "minutes":
                out[key] = exact(data[key])
            elif key in ("source", "picture"):
                out[key] = self.name(key, data, key)
            elif key == "show":
                show: Seq = data[key]
                out[key] = tuple(self.sheet(word, mark) for word, mark in zip(show, show.marks, strict=True))
        return out

    def do(self, data: Map, common: dict[str, Any]) -> model.Step:
        then = self.name("target", data, "then")
        return model.Do(text=data["do"], then=then, unsure=self.name("target", data, "unsure"), **common)

    def ask(self, data: Map, common: dict[str, Any]) -> model.Step:
        answers: Seq = data["answers"]
        built = tuple(self.answer(a, mark) for a, mark in zip(answers, answers.marks, strict=True))
        if "figure" in data:
            common["figure"], common["gives"] = self.name("figure", data, "figure"), data.get("gives", "")
        if "given" in data:
            common["given"] = self.given(data, {model.ANSWER})
        return model.Ask(
            text=data["ask"], answers=built, unsure=self.name("target", data, "unsure"), **common
        )

    def answer(self, data: Map, mark: Mark) -> model.Answer:
        then = self.name("target", data, "then")
        place = at(self.file, mark)
        if "given" not in data:
            return model.Answer(data["say"], then, self.shares(data), place)
        return model.Answer(
            data["say"], then, self.shares(data), place, str(data["given"]), str(data["gives"])
        )

    def measure(self, data: Map, common: dict[str, Any]) -> model.Step:
        readings = self.readings(data)
        figure = self.name("figure", data, "figure")
        given, gives = self.given(data, {want.name for want in readings}), data.get("gives", "")
        bands: Seq = data["bands"]
        return model.Measure(
            text=data["measure"],
            readings=readings,
            figure=figure,
            unit=figure_unit(figure, gives, readings[0].unit, alone=not given),
            given=given,
            gives=gives,
            bands=tuple(
                self.band(b, at(self.file, mark)) for b, mark in zip(bands, bands.marks, strict=True)
            ),
            unsure=self.name("target", data, "unsure"),
            **common,
        )

    def sort(self, data: Map, common: dict[str, Any]) -> model.Step:
        fact = self.name("fact", data, "sort")
        return model.Sort(fact=fact, cases=self.targets("value", fact, data["cases"]), **common)

    def run(self, data: Map, common: dict[str, Any]) -> model.Step:
        procedure = self.name("procedure", data, "run")
        outcomes = self.targets("outcome", procedure, data["outcomes"])
        return model.Run(procedure=procedure, outcomes=outcomes, fits=self.fits(procedure, data), **common)

    def fits(self, procedure: str, data: Map) -> Mapping[str, Mapping[str, Fraction]]:
        """What the step that runs a procedure says of its outcomes."""
        said: Map | None = data.get("fits")
        if not said:
            return model.NO_FITS
        for outcome, marks in said.marks.items():
            self.refer("outcome", f"{procedure}={outcome}", marks[0])
        return {outcome: self.probabilities(row) for outcome, row in said.items()}

    def verdict(self, data: Map, common: dict[str, Any]) -> model.Step:
        return model.Verdict(
            text=data["verdict"],
            suspects=self.names("suspect", data, "suspects"),
            grade=data["grade"],
            correction=data["correction"],
            follow=self.names("procedure", data, "follow"),
            **common,
        )

    def steps(self, data: Map) -> Mapping[str, model.Step]:
        makers: Mapping[str, Callable[[Map, dict[str, Any]], model.Step]] = {
            "ask": self.ask,
            "measure": self.measure,
            "do": self.do,
            "verdict": self.verdict,
            "sort": self.sort,
            "run": self.run,
        }
        out = {}
        for name, step in data.items():
            common = self.common(step)
            common["name"] = name
            common["place"] = key_at(self.file, data, name)
            out[name] = next(makers[key] for key in step if key in makers)(step, common)
        return out

    def shared(self, kind: str, data: Map) -> dict[str, Any]:
        """What trees and procedures share."""
        return {
            "name": data[kind],
            "place": value_at(self.file, data, kind),
            "title": data["title"],
            "revision": data["revision"],
            "released": data.get("released", False),
            "facts": self.facts(data.get("for")),
            "sources": sources(self.file, data.get("sources")),
            "start": self.name("target", data, "start"),
            "steps": self.steps(data["steps"]),
        }

    def facts(self, data: Map | None) -> Mapping[str, tuple[str, ...]]:
        out: dict[str, tuple[str, ...]] = {}
        for fact in data or ():
            assert data is not None
            given = data[fact]
            self.refer("fact", fact, data.marks[fact][0])
            out[fact] = tuple(given) if isinstance(given, list) else (given,)
            for value in out[fact]:
                self.refer("value", f"{fact}={value}", data.marks[fact][1])
        return out


def tree(file: str, data: Map) -> model.Tree:
    """The tree that a sound document describes."""
    maker = _Maker(file)
    suspects: Map = data["suspects"]
    return model.Tree(
        **maker.shared("tree", data),
        complaint=data["complaint"],
        suspects={
            name: model.Suspect(
                name,
                s["name"],
                exact(s["weight"]),
                s.get("correction", ""),
                key_at(file, suspects, name),
                exact(s["repair"]) if "repair" in s else None,
                maker.names("state", s, "needs"),
            )
            for name, s in suspects.items()
        },
        confidence=exact(data["confidence"]) if "confidence" in data else CONFIDENCE,
        elsewhere=exact(data["elsewhere"]) if "elsewhere" in data else None,
        condemn=exact(data["condemn"]) if "condemn" in data else model.CONDEMN,
        references=dict(maker.references),
    )


def procedure(file: str, data: Map) -> model.Procedure:
    """The procedure that a sound document describes."""
    maker = _Maker(file)
    return model.Procedure(
        **maker.shared("procedure", data), outcomes=dict(data["outcomes"]), references=dict(maker.references)
    )
