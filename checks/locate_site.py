"""A small invented site for checks of `latchline locate`, and its circuit, written down twice: as a site file, and as numbers.

One supply feeds one chain of stations and one run to a door. Loads are constant powers; there is no box in between, so that
the circuit can be written down by hand. Nothing is shared with the program but the meaning of its files.
"""

from __future__ import annotations

import json
import os
import subprocess

import numpy as np

STATIONS = 6
SUPPLY_V, SUPPLY_OHM = 48.0, 0.2
OHM_PER_M = 0.05  # one conductor
JOINT_OHM = 0.01
STANDBY_W, DOOR_W = 1.5, 4.0
FIRST_M, SPACING_M, DOOR_M = 20.0, 9.0, 15.0
VOLTAGE_TOLERANCE, LOAD_TOLERANCE, DRUM_TOLERANCE, LENGTH_TOLERANCE = 0.02, 0.10, 0.04, 0.05

CATALOGUE = f"""
[families.mere]
title = "Mere (invented)"
source = "invented"
nominal_voltage = "48 V"
simultaneous_calls = 1
addresses.indoor = [{{ field = "dwelling", first = 1, last = 99, set_by = "keyed", digits = 2, label = "FLAT" }}]
addresses.door = [{{ field = "entrance", first = 0, last = 9, set_by = "keyed", digits = 1, label = "DOOR" }}]

[supplies.ps]
title = "Supply"
source = "invented"
family = "mere"
voltage = "{SUPPLY_V} V"
voltage_tolerance = "{100 * VOLTAGE_TOLERANCE} %"
source_resistance = "{SUPPLY_OHM} ohm"
rated_current = "5 A"
limit_kind = "constant-current"

[stations.flat]
title = "Station"
source = "invented"
family = "mere"
kind = "indoor"
media = "video"
loop_through = "bridged"
standby = "{STANDBY_W} W"
ringing = "5 W"
talking = "5 W"
load_tolerance = "{100 * LOAD_TOLERANCE} %"
least_voltage = "20 V"
least_standby_voltage = "20 V"

[stations.door]
title = "Door station"
source = "invented"
family = "mere"
kind = "door"
media = "video"
loop_through = "bridged"
standby = "{DOOR_W} W"
ringing = "6 W"
talking = "6 W"
load_tolerance = "{100 * LOAD_TOLERANCE} %"
least_voltage = "20 V"
least_standby_voltage = "20 V"
directory = 99

[cables.pair]
title = "Pair"
source = "invented"
gauge = "{1000 * OHM_PER_M} ohm/km"
pairs = 2
resistance_tolerance = "{100 * DRUM_TOLERANCE} %"
"""


def site_head(title: str, length_tolerance: float, joint_ohm: float) -> str:
    """What the sites have alike: one supply in one building, stations of one family, conductors at 20 °C."""
    return f"""[site]
title = "{title}"
family = "mere"
indoor_station = "flat"
door_station = "door"
cable = "pair"
catalogues = ["mere.toml"]

[conditions]
usual_temperature = "20 °C"
hottest_temperature = "20 °C"
coldest_temperature = "20 °C"
length_tolerance = "{100 * length_tolerance} %"
joint_resistance = "{joint_ohm} ohm"

[buildings]
A = {{ title = "A", floors = ["G"] }}

[supplies]
PS = {{ model = "ps", place = "A/G" }}
"""


def site_text() -> str:
    flats = [f"S{k}" for k in range(1, STATIONS + 1)]
    dwellings = "\n".join(f'{name} = {{ place = "A/G" }}' for name in flats)
    return f"""
{site_head("Check", LENGTH_TOLERANCE, JOINT_OHM)}
[entrances]
front = {{ role = "main", place = "A/G" }}

[dwellings]
{dwellings}

[runs]
chain = {{ from = "PS", to = {json.dumps(flats)}, first = "{FIRST_M} m", spacing = "{SPACING_M} m" }}
way = {{ from = "PS", to = "front", length = "{DOOR_M} m" }}
"""


def write(folder) -> str:
    (folder / "mere.toml").write_text(CATALOGUE)
    (folder / "site.toml").write_text(site_text())
    return str(folder / "site.toml")


def locate(site: str, *readings: str, options: tuple[str, ...] = ()) -> dict:
    command = [os.environ["LATCHLINE"], "locate", site, *readings, "--format", "json", *options]
    done = subprocess.run(command, capture_output=True, text=True, timeout=120)
    assert done.returncode == 0, done.stderr
    return json.loads(done.stdout)


# Factors, each with deviation 1: supply, drum, length of the chain, length of the way, batch of stations, batch of doors, then
# each station's own (doors last), then the terminals of each section (the way's last).
FACTORS = 6 + (STATIONS + 1) + (STATIONS + 1)
ROOT3 = np.sqrt(3.0)


class Circuit:
    """The circuit as numbers: `ohm[k]` leads to station k, the last to the door."""

    def __init__(self, factors: np.ndarray | None = None) -> None:
        z = np.zeros(FACTORS) if factors is None else factors
        self.supply_v = SUPPLY_V * (1 + z[0] * VOLTAGE_TOLERANCE / ROOT3)
        self.supply_ohm = SUPPLY_OHM
        drum = 1 + z[1] * DRUM_TOLERANCE / ROOT3
        metres = np.array([FIRST_M] + [SPACING_M] * (STATIONS - 1) + [DOOR_M])
        length = np.array([1 + z[2] * LENGTH_TOLERANCE / ROOT3] * STATIONS + [1 + z[3] * LENGTH_TOLERANCE / ROOT3])
        self.terminals = 4 * JOINT_OHM * (1 + 0.5 * z[6 + STATIONS + 1 :])
        self.ohm = 2 * OHM_PER_M * metres * drum * length + self.terminals
        batch = np.array([z[4]] * STATIONS + [z[5]])
        half = 0.5 * LOAD_TOLERANCE / ROOT3
        own = z[6 : 6 + STATIONS + 1]
        self.watt = np.array([STANDBY_W] * STATIONS + [DOOR_W]) * (1 + half * batch) * (1 + half * own)
        self.across = np.zeros(STATIONS + 1)  # siemens at each place
        self.open = None  # section that is broken
