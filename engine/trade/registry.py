"""Every calculator by its name: a line for each file of them, which is read when one of them is wanted.

Starting up reads none: the tables of the trade are long, and a walk needs one figure or two.
"""

from importlib import import_module
from typing import Final, NamedTuple

from engine.trade.calculator import Calculator

__all__ = ["FILES", "Calculator", "File", "calculators", "find", "names"]


class File(NamedTuple):
    """One file of calculators, with the names in it."""

    module: str
    names: tuple[str, ...]


FILES: Final = (
    File("tyres", ("spread", "relative-spread")),
    File("tyre_size", ("tyre-size", "tyre-width")),
    File("tyre_service", ("tyre-service", "load-index")),
    File("tyre_wear", ("tyre-mismatch", "tread-mismatch", "tread-wear", "tread-allowed")),
    File("tyre_pressure", ("inflation", "tyre-pressure")),
    File("tyre_heat", ("mismatch-heat",)),
    File("rolled_heat", ("rolled-heat",)),
    File("orders", ("orders", "order-fit", "gear-order")),
    File("order_count", ("road-order", "engine-order")),
    File("tyre_beat", ("tyre-beat", "beat-mismatch", "recording-time")),
    File("viscosity", ("viscosity", "viscosity-constants", "viscosity-temperature", "oil-mixture")),
    File("viscosity_index", ("viscosity-index",)),
    File("gear_oil", ("gear-oil-grade", "gear-oil-meaning", "gear-oil-for-cold", "industrial-oil-grade")),
    File("oil_service", ("oil-substitution", "limited-slip-additive")),
    File("oil_level", ("oil-growth", "oil-density", "oil-level", "oil-refill", "oil-lost")),
    File("threads", ("bolt-thread", "bolt-strength")),
    File("preload", ("bolt-torque", "bolt-preload")),
    File("bolt_factor", ("torque-by-factor", "preload-by-factor")),
    File("bolt_angle", ("bolt-angle",)),
    File(
        "wrench",
        ("wrench-setting", "wrench-at-bolt", "tightening-circle", "tightening-rows", "torque-mix-up"),
    ),
    File("shims", ("end-play-shim", "preload-shim", "end-play-with")),
    File("end_play", ("end-play-readings", "end-play-uncertainty", "end-play-heat")),
    File("shim_choice", ("shim-choice", "shim-choice-preload")),
    File("gear_mesh", ("backlash-move", "backlash-ratio", "tooth-contact", "bearing-torque")),
    File(
        "coupling_torque",
        ("coupling-torque", "coupling-torque-power-law", "coupling-torque-cross", "coupling-curve"),
    ),
    File("coupling_fluid", ("coupling-fluid", "coupling-full")),
    File("coupling_heat", ("coupling-temperature", "coupling-time", "coupling-heat-capacity")),
    File("coupling_slip", ("mismatch-hour", "turn-slip")),
    File("air_cooling", ("air-cooling",)),
    File("coupling_road", ("coupling-road",)),
    File(
        "coupling_bench",
        (
            "lever-time",
            "lever-damping",
            "damping-at-wheel",
            "damping-from-wheel",
            "coupling-run-down",
        ),
    ),
    File(
        "differential",
        ("other-wheel-speed", "shaft-turns", "axle-ratio", "hoist-speed", "limited-slip-torque"),
    ),
    File("other_wheel", ("other-wheel",)),
    File("centre_split", ("centre-split", "centre-speed")),
    File("cardan", ("cardan", "cardan-turn")),
    File("joint_chain", ("joint-angle", "joints-two", "joints-three", "joint-second")),
    File("shafts", ("run-out-force", "run-out-shape", "shaft-critical-speed")),
    File("towing_heat", ("towing-heat",)),
    File("moving", ("moving",)),
    File("parking_brake", ("parking-brake-hold",)),
    File("engine_load", ("load-at-crank", "torque-of-power", "engine-friction")),
    File("repair_counts", ("repair-share", "repair-shares")),
    File("vin", ("vin",)),
    File("vin_slips", ("vin-slips",)),
    File("dtc", ("trouble-code", "trouble-code-bytes")),
)


def names() -> tuple[str, ...]:
    """The name of every calculator, family by family.

    >>> "spread" in names()
    True
    """
    return tuple(name for file in FILES for name in file.names)


def find(name: str) -> Calculator | None:
    """The calculator of this name, or None.

    >>> find("spread").title
    'Largest reading minus smallest'
    """
    for file in FILES:
        if name in file.names:
            return next(made for made in _of(file) if made.name == name)
    return None


def calculators() -> tuple[Calculator, ...]:
    """All of them, family by family."""
    return tuple(made for file in FILES for made in _of(file))


def _of(file: File) -> tuple[Calculator, ...]:
    made: tuple[Calculator, ...] = import_module(f"engine.trade.{file.module}").CALCULATORS
    return made
