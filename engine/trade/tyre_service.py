"""What a tyre may carry and how fast it may go: load index, speed symbol, and less load at high speed."""

from typing import Final

from engine.errors import Refusal
from engine.nearest import meant
from engine.trade.calculator import Calculator, Input, Output

_LOADS: Final = """
45 46.2 47.5 48.7 50 51.5 53 54.5 56 58 60 61.5 63 65 67 69 71 73 75 77.5
80 82.5 85 87.5 90 92.5 95 97.5 100 103 106 109 112 115 118 121 125 128 132 136
140 145 150 155 160 165 170 175 180 185 190 195 200 205 212 218 224 230 236 243
250 257 265 272 280 290 300 307 315 325 335 345 355 365 375 387 400 412 425 437
450 462 475 487 500 515 530 545 560 580 600 615 630 650 670 690 710 730 750 775
800 825 850 875 900 925 950 975 1000 1030 1060 1090 1120 1150 1180 1215 1250 1285 1320 1360
1400 1450 1500 1550 1600 1650 1700 1750 1800 1850 1900 1950 2000 2060 2120 2180 2240 2300 2360 2430
2500 2575 2650 2725 2800 2900 3000 3075 3150 3250 3350 3450 3550 3650 3750 3875 4000 4125 4250 4375
4500 4625 4750 4875 5000 5150 5300 5450 5600 5800 6000
"""
#: kg by load index from 0: UN R30 annex 4, UN R54 annex IV. 126 to 279 from memory; from 171 on, ten times
#: the load of the index 80 below, as the series is built.
_KNOWN: Final = tuple(float(load) for load in _LOADS.split())
LAST: Final = 279
#: km/h by speed symbol, UN R30 and R54. H stands out of order; ZR and (Y) name no upper end, so that what is
#: given is the speed above which the maker has to be asked.
SPEEDS: Final = {
    **{f"A{n}": 5.0 * n for n in range(1, 9)},
    **dict(zip("BCDEFG", (50.0, 60.0, 65.0, 70.0, 80.0, 90.0), strict=True)),
    **dict(zip("JKLMNPQRSTU", (float(v) for v in range(100, 201, 10)), strict=True)),
    "H": 210.0,
    "V": 240.0,
    "W": 270.0,
    "Y": 300.0,
    "(Y)": 300.0,
    "ZR": 240.0,
}
OPEN: Final = frozenset({"(Y)", "ZR"})
#: Where less load is allowed, km/h from and to, and the part left at the end; UN R30. Y from memory.
_DERATED: Final = {"V": (210.0, 240.0, 0.91), "W": (240.0, 270.0, 0.85), "Y": (270.0, 300.0, 0.85)}


def load_of(index: float) -> float | Refusal:
    """What one tyre of a load index may carry, in kg.

    Source: UN R30 annex 4 (0 to 125 as published, above from memory). Refuses what is no whole number from 0
    to 279.

    >>> load_of(91), load_of(95), load_of(100), load_of(62)
    (615.0, 690.0, 800.0, 265.0)
    """
    if index != int(index) or not 0 <= index <= LAST:
        return Refusal(
            "load-index", f"There is no load index {index:g}.", f"It is a whole number, 0 to {LAST}."
        )
    place = int(index)
    tens = 1.0
    while place >= len(_KNOWN):
        place, tens = place - 80, tens * 10
    return _KNOWN[place] * tens


def index_for(load: float) -> int | Refusal:
    """The lowest load index that carries a load in kg.

    >>> index_for(615), index_for(616)
    (91, 92)
    """
    for index in range(LAST + 1):
        kg = load_of(index)
        if not isinstance(kg, Refusal) and kg >= load:
            return index
    return Refusal("load-index", f"No tyre carries {load:g} kg.", "Look at the load and its unit.")


def speed_of(symbol: str) -> float | Refusal:
    """The speed in km/h of a speed symbol; for ZR and (Y) the speed that the tyre goes beyond.

    Source: UN R30. Refuses letters that are none.

    >>> speed_of("h"), speed_of("T"), speed_of("A8")
    (210.0, 190.0, 40.0)
    """
    wanted = symbol.strip().upper()
    if wanted in SPEEDS:
        return SPEEDS[wanted]
    return Refusal("speed-symbol", f"There is no speed symbol `{symbol[:10]}`.", meant(wanted, SPEEDS))


def load_at(index: float, symbol: str, speed: float) -> float | Refusal:
    """What one tyre may carry at a speed in km/h, in kg.

    Formula: the load of its index; for V above 210 km/h down to 91 % at 240, for W above 240 down to 85 % at
    270, in a straight line. Source: UN R30; Y (85 % at 300) from memory. Refuses a speed beyond the symbol.

    A W tyre at 255 km/h, half-way: 92.5 % of 615 kg.

    >>> load_at(91, "V", 240), round(load_at(91, "W", 255), 3)
    (559.65, 568.875)
    """
    load, most = load_of(index), speed_of(symbol)
    if isinstance(load, Refusal):
        return load
    if isinstance(most, Refusal):
        return most
    if speed > most:
        message = f"A tyre with the symbol {symbol.upper()} is not made for {speed:g} km/h."
        return Refusal("too-fast", message, f"{most:g} km/h is the most that its symbol says.")
    start, end, left = _DERATED.get(symbol.strip().upper(), (most, most + 1, 1.0))
    part = max(0.0, speed - start) / (end - start)
    return load * (1 - part * (1 - left))


def _service(load_index: float, symbol: str | None, speed: float | None) -> tuple[float, ...] | Refusal:
    most = None if symbol is None else speed_of(symbol)
    load = load_of(load_index)
    for found in (load, most):
        if isinstance(found, Refusal):
            return found
    allowed = None if symbol is None or speed is None else load_at(load_index, symbol, speed)
    return allowed if isinstance(allowed, Refusal) else (load, most, allowed)  # type: ignore[return-value]  # reason: refusals are sorted out above


def _index(load: float) -> tuple[float] | Refusal:
    found = index_for(load)
    return found if isinstance(found, Refusal) else (float(found),)


CALCULATORS: Final = (
    Calculator(
        name="tyre-service",
        family="tyres",
        title="Load and speed that a service description allows",
        inputs=(
            Input("load-index", "LI", "Load index, the number behind the size", "", least=0, most=LAST),
            Input(
                "symbol",
                "s",
                "Speed symbol, the letter behind it",
                "word",
                choices=tuple(SPEEDS),
                optional=True,
            ),
            Input(
                "speed", "v", "Speed at which the load is asked for", "km/h", least=0, most=400, optional=True
            ),
        ),
        outputs=(
            Output("load", "Q", "Load of one tyre", "kg"),
            Output("top-speed", "V", "Speed of the symbol", "km/h"),
            Output("load-at-speed", "Qv", "Load of one tyre at the speed", "kg"),
        ),
        function=_service,
        formula=(),
        source="UN R30, annexes 2 and 4; load indices above 125 and the load of Y tyres from memory",
        mark="published",
        valid="For single tyres at the pressure they are made for. ZR and (Y) go faster than is told here:"
        " ask the maker.",
        example="load-index=91 symbol=V speed=240",
    ),
    Calculator(
        name="load-index",
        family="tyres",
        title="Lowest load index that carries a load",
        inputs=(Input("load", "Q", "Load of one tyre", "kg", least=1, most=136_000),),
        outputs=(Output("load-index", "LI", "Load index", ""),),
        function=_index,
        formula=(),
        source="UN R30, annex 4; above 125 from memory",
        mark="published",
        valid="For single tyres. An axle load is carried by two.",
        example="load=620",
    ),
)
