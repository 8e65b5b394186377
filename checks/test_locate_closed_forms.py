"""Single faults whose size has a closed form, located by the program.

Sources: Ohm's law with the quadratic of a constant power behind a resistance, V^2 - Vs V + R P = 0; the rule of every loop test, distance is loop
resistance over loop resistance per metre, with the conductor resistances of IEC 60228 table 1 (class 1 at 20 degrees C: 18.1 ohm/km for
1 mm2, 12.1 ohm/km for 1.5 mm2; figures from memory, and the same as the program's tests hold against its own table).
"""

from __future__ import annotations

import math

import locate_site as site
import pytest
from locate_site import locate, write


@pytest.mark.parametrize("ohm", [2.7, 9.3, 26.0])
def test_a_joint_before_a_single_load_has_the_size_of_the_quadratic(ohm, tmp_path):
    path = write(tmp_path)
    way = 2 * site.OHM_PER_M * site.DOOR_M + 4 * site.JOINT_OHM
    supply = 47.2  # at the supply's terminals, whatever the chain draws
    door = 0.5 * (supply + math.sqrt(supply**2 - 4 * (way + ohm) * site.DOOR_W))
    answer = locate(path, f"PS={supply}V", f"front={door:.5f}V", "front@standby=%.5fV" % door)
    joint = next(cause for cause in answer["causes"] if (cause["kind"], cause["element"]) == ("joint", "way: PS – front"))
    assert joint["class"] == 1
    size = joint["parameter"]
    # The door's power is known to 10 %, and a volt of loss to the meter's 0.27 V.
    assert size["low"] < ohm < size["high"]
    assert abs(size["best"] / ohm - 1) < 0.15 + 0.4 / ohm


@pytest.mark.parametrize("gauge, ohm_per_km", [("1 mm2", 18.1), ("1.5 mm2", 12.1)])
@pytest.mark.parametrize("metres", [33.0, 51.5, 60.0])
def test_a_short_lies_where_the_loop_says(gauge, ohm_per_km, metres, tmp_path):
    path = write(tmp_path)
    text = site.CATALOGUE.replace(f'gauge = "{1000 * site.OHM_PER_M} ohm/km"', f'gauge = "{gauge}"\nclass = 1')
    assert "class = 1" in text
    (tmp_path / "mere.toml").write_text(text)
    ends = [site.FIRST_M + site.SPACING_M * k for k in range(site.STATIONS)]
    sections = 1 + sum(end < metres for end in ends)
    loop = 2 * ohm_per_km / 1000 * metres + 4 * site.JOINT_OHM * sections
    answer = locate(path, f"chain={loop:.4f}ohm", f"insulation:chain={loop:.4f}ohm")
    names = ["PS"] + [f"S{k}" for k in range(1, site.STATIONS + 1)]
    shorts = [cause for cause in answer["causes"] if cause["kind"] == "short" and cause.get("class") == 1]
    assert shorts, answer["causes"][:3]
    low, high = math.inf, -math.inf
    for short in shorts:
        place = names.index(short["element"].rpartition(" – ")[2]) - 1
        begin = 0.0 if place == 0 else ends[place - 1]
        size, length = short["parameter"], ends[place] - begin
        low, high = min(low, begin + size["low"] * length), max(high, begin + size["high"] * length)
    # Drum, length and the meter's 0.1 ohm leave a few metres each way.
    assert low < metres < high and high - low < 30, (low, high)
    assert f"chain: {names[sections - 1]} – {names[sections]}" in [short["element"] for short in shorts]
