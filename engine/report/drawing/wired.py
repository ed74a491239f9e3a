"""Which ways of a chart are drawn as wires, and which are told in words at the foot of their card."""

from engine.report.drawing.chart import Chart, Way


def wired(chart: Chart) -> frozenset[Way]:
    """The ways that get a wire.

    Nearly every step can be left undone, and nearly all of those ways lead to the same few ends; as wires
    they would hide all others. One of them is drawn only where a walked case went it, or where nothing else
    leads to its target: then the first.
    """
    led = {chart.start, *(way.then for way in chart.ways if _drawn(way))}
    out = {way for way in chart.ways if _drawn(way)}
    for way in chart.ways:
        if way.then not in led:
            led.add(way.then)
            out.add(way)
    return frozenset(out)


def _drawn(way: Way) -> bool:
    return not way.aside or bool(way.taken)
