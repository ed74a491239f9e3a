"""From the data of a sound rehearsal (or answers file) to the model."""

from engine.loading.data import Map, Seq
from engine.loading.exact import item_at, value_at
from engine.model.rehearsal import Line, Rehearsal


def rehearsal(file: str, data: Map) -> Rehearsal:
    """The scripted walk that a sound document describes."""
    answers: Seq = data["answers"]
    return Rehearsal(
        name=data["rehearsal"],
        place=value_at(file, data, "rehearsal"),
        title=data["title"],
        tree=data["tree"],
        vehicle=data["vehicle"],
        lines=tuple(_line(a, file, answers, i) for i, a in enumerate(answers)),
        verdict=data.get("expect", {}).get("verdict", ""),
    )


def _line(data: Map, file: str, held: Seq, index: int) -> Line:
    read = data.get("read", {})
    typed = read if isinstance(read, dict) else {"": read}
    return Line(
        at=data["at"],
        say=data.get("say"),
        read={name: str(value) for name, value in typed.items()},
        done=bool(data.get("done")),
        unsure=data.get("unsure"),
        back=bool(data.get("back")),
        follow=data.get("follow", ""),
        insist=bool(data.get("insist")),
        place=item_at(file, held, index),
    )
