"""What the checks of whole sites share: quantities of the site file, conductors, sets of calls, and lowest voltages by plain sweeps.

Nothing here is shared with the program but the meaning of the keys (docs/site-file.md, docs/catalogue.md).
"""

import itertools
import math

import numpy as np

UNITS = {
    "ohm": 1.0, "kohm": 1e3, "ohm/km": 1e-3, "H": 1.0, "mH": 1e-3, "mH/km": 1e-6, "F": 1.0, "nF": 1e-9, "pF": 1e-12, "uF": 1e-6,
    "nF/km": 1e-12, "pF/ft": 1e-12 / 0.3048, "Hz": 1.0, "kHz": 1e3, "MHz": 1e6, "dB": 1.0, "m": 1.0, "%": 1e-2, "°C": 1.0, "V": 1.0,
    "A": 1.0, "mA": 1e-3, "W": 1.0,
}  # fmt: skip

# Ohm per km of plain conductors at 20 °C by cross-section in mm², classes 1 and 2 and class 5: IEC 60228.
IEC_60228 = {0.75: (24.5, 26.0), 1.0: (18.1, 19.5), 1.5: (12.1, 13.3)}
# Ohm mm²/m at 20 °C and change per kelvin: annealed copper by IEC 60028; aluminium clad with 15 % copper by volume by ASTM B566
# (from memory), its change weighted by the conductances of the two, aluminium at 61 % and 0.00403/K (IEC 60889, from memory).
METALS = {
    "copper": (1 / 58, 0.00393),
    "clad-aluminium-15": (0.02676, (0.15 * 0.00393 + 0.85 * 0.61 * 0.00403) / (0.15 + 0.85 * 0.61)),
}


def si(text):
    number, unit = text.split(" ")
    return float(number) * UNITS[unit]


def conductor_ohm_per_m(cable, celsius):
    """One conductor of a cable of the catalogue: from its stated resistance, IEC 60228, or geometry and metal."""
    resistivity, per_kelvin = METALS[cable.get("material", "copper")]
    number, unit = cable["gauge"].split(" ")
    number = float(number)
    if unit == "ohm/km":
        at_20 = number / 1e3
    elif unit == "mm²" and number in IEC_60228:
        at_20 = IEC_60228[number][cable["class"] == 5] / 1e3
    elif unit == "mm²":
        at_20 = resistivity / number
    else:
        # ASTM B258: 36 AWG is 0.127 mm, and 39 gauges up to 0000 are a factor of 92.
        diameter_mm = number if unit == "mm" else 0.127 * 92 ** ((36 - number) / 39)
        at_20 = resistivity / (math.pi / 4 * diameter_mm**2)
    return at_20 * (1 + per_kelvin * (celsius - 20))


def sets_of_calls(doors, flats, moments, at_once):
    """Every admissible set of calls (door, flat, moment): nobody takes part in two of them."""
    calls = [(door, flat, moment) for door in doors for flat in flats for moment in moments]
    for count in range(at_once + 1):
        for chosen in itertools.combinations(calls, count):
            parties = [party for door, flat, _ in chosen for party in (door, flat)]
            if len(set(parties)) == len(parties):
                yield chosen


def shared_ohm(tree):
    """Resistance that the ways from the source to every two places share; `tree` holds (parent, ohm) by name, parents first,
    None being the open voltage."""
    ways = {}
    for name, (parent, ohm) in tree.items():
        ways[name] = (ways[parent] if parent is not None else {}) | {name: ohm}
    return np.array([[sum(ohm for part, ohm in ways[a].items() if part in ways[b]) for b in tree] for a in tree])


def greatest_voltages(ohm, open_v, watts, amperes=0.0, drop_v=0.0):
    """Voltages where each place draws a power (behind a rectifier's drop) and a current, a row for each case: sweeps by Ohm's and
    Kirchhoff's laws fall from the open voltage to the greatest solution. NaN in the rows of cases that collapse."""
    watts = np.atleast_2d(np.asarray(watts, float))
    amperes, drop_v = np.broadcast_to(amperes, watts.shape), np.broadcast_to(drop_v, watts.shape[1:])
    solved = np.full(watts.shape, np.nan)
    left, volts = np.arange(len(watts)), np.full(watts.shape, open_v)
    for _ in range(20_000):
        new = open_v - (watts / (volts - drop_v) + amperes) @ ohm
        moved = np.abs(new - volts).max(axis=1)
        collapsed = (new - drop_v).min(axis=1) <= 1
        done = (moved < 1e-10) | collapsed
        if done.any():
            settled = done & ~collapsed
            solved[left[settled]] = new[settled]
            left, new, watts, amperes = left[~done], new[~done], watts[~done], amperes[~done]
            if not len(left):
                return solved
        volts = new
    raise AssertionError("the sweeps did not settle")
