"""Trees to draw: random ones with hostile texts, and a small one that has everything."""

from fractions import Fraction
from typing import Any, Final

from hypothesis import strategies as st

from engine.loading.library import Library, gather
from engine.model.place import Place
from engine.model.shop import Caution, Fact, Shop
from engine.model.tree import Answer, Ask, Band, Do, Limit, Measure, Run, Sort, Step, Tree, Verdict, Wanted

HOSTILE: Final = (
    "</text></svg><script>alert(1)</script>",
    "<!--", "]]>", "&amp; &#x41;", '" onload="x', "'; }", "\x1b[31mred\x00", "\ufffe\uffff", "\ud800",
    "n1 --> n2", "%%{init: {}}%%", "end", "#quot;", "`code` **bold**", "1. a list", "- a list",
    'a\\"b\\N\\', "\n%% x\n", "|", "]", "}}", "مرحبا بالعالم", "前輪が回らない" * 20,
    "é" * 300, "\u202egnp.exe", "e" + "\u0301" * 80, "🚗🔧",
)  # fmt: skip
_TEXTS: Final = st.one_of(
    st.sampled_from(HOSTILE), st.text(max_size=60), st.text(alphabet="ab -\n", max_size=200)
).map(lambda text: f"x{text}")
SHOP: Final = Shop(
    cautions={"hot": Caution("hot", "Hot <parts>", "They burn.", "", Place("shop", 1, 1))},
    facts={
        "box": Fact("box", "Gearbox", {"manual": "by hand", "automatic": "by itself"}, Place("shop", 2, 1))
    },
)


def library() -> Library:
    """A library with a shop and nothing else."""
    return gather(())._replace(shop=SHOP)


def place(line: int) -> Place:
    """A place in the file of the tree."""
    return Place("tree.yaml", line, 3)


def tree(steps: dict[str, Step], start: str = "s0", **more: Any) -> Tree:
    """A tree of these steps."""
    plain: dict[str, Any] = {
        "name": "t", "place": Place("tree.yaml", 1, 1), "title": "The <tree> & more", "revision": 2,
        "facts": {}, "sources": {}, "complaint": "It does not go.", "suspects": {},
        "confidence": Fraction(95, 100),
    }  # fmt: skip
    return Tree(start=start, steps=steps, **{**plain, **more})


@st.composite
def trees(draw: st.DrawFn) -> Tree:
    """Any tree of up to a dozen steps: loops, steps led to from nowhere and targets not there among them."""
    count = draw(st.integers(1, 12))
    targets = st.sampled_from([*(f"s{k}" for k in range(count)), "nowhere"])
    return tree({f"s{k}": draw(_step(f"s{k}", k, targets)) for k in range(count)}, title=draw(_TEXTS))


@st.composite
def _step(draw: st.DrawFn, name: str, number: int, targets: st.SearchStrategy[str]) -> Step:
    common: dict[str, Any] = {"name": name, "place": place(10 * number + 10), "why": draw(_TEXTS)}
    cautions = draw(st.sampled_from(((), ("hot",), ("hot", "unknown"))))
    unsure = draw(st.just("") | targets)
    text = draw(_TEXTS)
    kind = draw(st.sampled_from(("do", "ask", "measure", "sort", "run", "verdict")))
    if kind == "do":
        return Do(**common, cautions=cautions, text=text, then=draw(targets), unsure=unsure)
    if kind == "ask":
        answers = tuple(
            Answer(said, draw(targets), {}, place(1))
            for said in draw(st.lists(_TEXTS, min_size=2, max_size=4))
        )
        return Ask(**common, cautions=cautions, text=text, answers=answers, unsure=unsure)
    if kind == "measure":
        return measure(common, draw(targets), draw(targets), unsure=unsure, say=text)
    if kind == "sort":
        return Sort(**common, fact="box", cases={"manual": draw(targets), "automatic": draw(targets)})
    if kind == "run":
        return Run(**common, procedure="p", outcomes={"yes": draw(targets), "no": draw(targets)})
    grade = draw(st.sampled_from(("repair", "adjust", "no-fault", "refer")))
    return Verdict(**common, text=text, suspects=("a",), grade=grade, correction=text, follow=("p",))


def measure(common: dict[str, Any], low: str, high: str, *, unsure: str = "", say: str = "") -> Measure:
    """A reading up to 6 mm, and one over the sheet's play.max."""
    reading = Wanted("play", "mm", "rule", Fraction(0), Fraction(9), place(1))
    bands = (
        Band(None, Limit(Fraction(6), None, owned=True, place=place(1)), low, say, {}, "", place(1)),
        Band(Limit(None, "shaft.play.max", owned=False, place=place(1)), None, high, "", {}, "", place(1)),
    )
    return Measure(
        **common, text="How much?", readings=(reading,), figure="", unit="mm", bands=bands, unsure=unsure
    )
