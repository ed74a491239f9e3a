"""The table of contents of the trade: every calculator by family and file, with its title.

Plain data, so that all are listed, and each is found, before any file of formulas is read.
"""

from typing import Final

#: Family, file of `engine.trade`, name, title.
CONTENTS: Final = {
    "tyres": {
        "tyres": {
            "spread": "Largest reading minus smallest",
            "relative-spread": "Largest reading minus smallest, in per cent of the smallest",
        },
        "tyre_size": {
            "tyre-size": "Diameter, circumference and turns a km from a size code",
            "tyre-width": "Width of a tyre's section on another rim",
        },
        "tyre_service": {
            "tyre-service": "Load and speed that a service description allows",
            "load-index": "Lowest load index that carries a load",
        },
        "tyre_wear": {
            "tyre-mismatch": "How unlike four tyres are, from what each rolls in a turn",
            "tread-mismatch": "How unlike four tyres are at most, from their tread",
            "tread-wear": "What losing tread takes off the circumference, at most",
            "tread-allowed": "Difference in tread that comes to a limit in per cent",
        },
        "tyre_pressure": {
            "inflation": "Whether four tyres are at their pressure",
            "tyre-pressure": "Pressure of a tyre at another temperature",
        },
        "tyre_heat": {
            "mismatch-heat": "Slip and heat of the coupling over speed, from a mismatch",
        },
        "rolled_heat": {
            "rolled-heat": "How hot the coupling runs on tyres as they roll",
        },
    },
    "orders": {
        "orders": {
            "orders": "How often each turning part shakes at a speed",
            "order-fit": "Which turning part a vibration or a whine fits",
            "gear-order": "How often in one turn something shakes: teeth, from a whine",
        },
        "order_count": {
            "road-order": "Times in one turn of wheel and shaft, at a road speed",
            "engine-order": "Times in one turn of the engine",
        },
        "tyre_beat": {
            "tyre-beat": "How often a drone of two unlike tyres comes and goes",
            "beat-mismatch": "Mismatch of tyres, from a drone that comes and goes",
            "recording-time": "How long to record, to tell two frequencies apart",
        },
    },
    "oils": {
        "viscosity": {
            "viscosity": "Viscosity of an oil at another temperature",
            "viscosity-constants": "Constants A and B of an oil from two viscosities",
            "viscosity-temperature": "Temperature at which an oil has a viscosity",
            "oil-mixture": "Viscosity of a mixture of oils",
        },
        "viscosity_index": {
            "viscosity-index": "Viscosity index of an oil",
        },
        "gear_oil": {
            "gear-oil-grade": "Gear oil grade from viscosity",
            "gear-oil-meaning": "What a gear oil grade promises",
            "gear-oil-for-cold": "Gear oil grades for the coldest day",
            "industrial-oil-grade": "ISO VG number from viscosity",
        },
        "oil_service": {
            "oil-substitution": "May this oil stand in for the one asked for?",
            "limited-slip-additive": "Does limited-slip additive go into this unit?",
        },
        "oil_level": {
            "oil-growth": "How much oil grows as it warms",
            "oil-density": "Density of oil at another temperature",
            "oil-level": "Level below the hole, from hot to cold or back",
            "oil-refill": "How much to fill after a drain",
            "oil-lost": "How much oil had been lost before a drain",
        },
        "old_oil_units": {
            "saybolt-viscosity": "Viscosity from Saybolt seconds on an old can",
            "api-gravity": "Density of oil from degrees API",
        },
    },
    "bolts": {
        "threads": {
            "bolt-thread": "Diameters and stress area of a metric thread",
            "bolt-strength": "What a bolt stands",
        },
        "preload": {
            "bolt-torque": "Tightening torque and preload of a bolt",
            "bolt-preload": "Preload that a torque makes",
        },
        "bolt_factor": {
            "torque-by-factor": "Torque for a preload, by the factor K",
            "preload-by-factor": "Preload of a torque, by the factor K",
        },
        "bolt_angle": {
            "bolt-angle": "Preload that a turn of the nut adds",
        },
        "wrench": {
            "wrench-setting": "What to set a torque wrench to",
            "wrench-at-bolt": "What the bolt gets through a crowfoot",
            "tightening-circle": "Order and passes for bolts on a circle",
            "tightening-rows": "Order and passes for two rows of bolts",
            "torque-mix-up": "Was this torque in another unit?",
        },
    },
    "shims": {
        "shims": {
            "end-play-shim": "Shim for an end play",
            "preload-shim": "Shim for a bearing preload",
            "end-play-with": "End play that another shim leaves",
        },
        "end_play": {
            "end-play-readings": "End play from several readings",
            "end-play-uncertainty": "Uncertainty of an end play",
            "end-play-heat": "End play gained as the unit warms",
        },
        "shim_choice": {
            "shim-choice": "Shims from a drawer for an end play",
            "shim-choice-preload": "Shims from a drawer for a bearing preload",
        },
        "gear_mesh": {
            "backlash-move": "How far to move the ring gear for a backlash",
            "backlash-ratio": "Backlash for 1 mm of move, from the gear's angles",
            "tooth-contact": "What to move for a contact pattern",
            "bearing-torque": "Turning torque of the bearings alone",
        },
    },
    "coupling": {
        "coupling_torque": {
            "coupling-torque": "Torque and heat of a pack of plates, even fluid",
            "coupling-torque-power-law": "Torque and heat of a pack, fluid thinning by a power law",
            "coupling-torque-cross": "Torque and heat of a pack, fluid thinning from a stress on",
            "coupling-curve": "Torque at a slip, from two measured points",
        },
        "coupling_fluid": {
            "coupling-fluid": "Viscosity of silicone fluid at a temperature",
            "coupling-full": "Temperature at which the fluid fills the case",
        },
        "coupling_heat": {
            "coupling-temperature": "How hot a slipping coupling is after a time",
            "coupling-time": "How long a slipping coupling has to a temperature",
            "coupling-heat-capacity": "Heat that warms a coupling by one kelvin",
        },
        "coupling_slip": {
            "mismatch-hour": "What a mismatch of the axles does to a coupling in an hour",
            "turn-slip": "Slip of the coupling in a tight turn",
        },
        "air_cooling": {
            "air-cooling": "Heat that the air takes from a case at a road speed",
        },
        "coupling_road": {
            "coupling-road": "How hot unlike tyres make a coupling in the air of the road",
        },
        "coupling_bench": {
            "lever-time": "How long a weighted lever takes to fall",
            "lever-damping": "Damping of a coupling from the lever's time",
            "damping-at-wheel": "Damping of the coupling as felt at one raised wheel",
            "damping-from-wheel": "Damping of the coupling from that at one raised wheel",
            "coupling-run-down": "Two free turning parts that a coupling brings together",
        },
    },
    "differential": {
        "differential": {
            "other-wheel-speed": "How fast the other wheel of the axle turns",
            "shaft-turns": "Turns of the propeller shaft for turns of the wheels",
            "axle-ratio": "Axle ratio from counted turns",
            "hoist-speed": "How fast a free wheel runs on the hoist",
            "limited-slip-torque": "What each wheel gets from a limited-slip differential",
        },
        "other_wheel": {
            "other-wheel": "Which way the other wheel turns, and why",
        },
        "centre_split": {
            "centre-split": "How a centre differential shares the torque",
            "centre-speed": "Speed of a centre differential's other output",
        },
    },
    "joints": {
        "cardan": {
            "cardan": "How unevenly a Cardan joint turns",
            "cardan-turn": "Where a Cardan joint's second shaft is at a turn",
        },
        "joint_chain": {
            "joint-angle": "Joint angle from the slopes of two shafts",
            "joints-two": "What two joints leave uneven",
            "joints-three": "What three joints of a two-piece shaft leave uneven",
            "joint-second": "Between which angles the second joint may be",
        },
    },
    "shafts": {
        "shafts": {
            "run-out-force": "Unbalance and force of a run-out",
            "run-out-shape": "Bent or oval: the shape behind the dial readings",
            "shaft-critical-speed": "Speed at which a shaft whips",
        },
    },
    "moving": {
        "towing_heat": {
            "towing-heat": "How long a coupling lasts, towed with one axle held",
        },
        "moving": {
            "moving": "May this vehicle be moved so, how fast and how far",
        },
    },
    "brakes": {
        "parking_brake": {
            "parking-brake-hold": "What a parking brake must hold on a gradient",
        },
    },
    "engine": {
        "engine_load": {
            "load-at-crank": "What a drag at the wheels takes from the engine",
            "torque-of-power": "The torque of a load whose power is known",
            "engine-friction": "What an engine's own friction takes",
        },
    },
    "records": {
        "repair_counts": {
            "repair-share": "How often a fault is the cause, from repair records",
            "repair-shares": "How probable each of several causes is, from repair records",
        },
    },
    "vin": {
        "vin": {
            "vin": "What a vehicle identification number says",
        },
        "vin_slips": {
            "vin-slips": "What a misread identification number may have been",
        },
    },
    "dtc": {
        "dtc": {
            "trouble-code": "What the structure of a trouble code says",
            "trouble-code-bytes": "The trouble code of two or three bytes",
        },
    },
}
