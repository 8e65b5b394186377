"""`latchline response` against scikit-rf, mpmath and published telephone figures.

scikit-rf and mpmath are general-purpose libraries; they know nothing of this project.
"""

import cmath
import json
import math
import os
import subprocess

import mpmath
import numpy as np
import pytest
from skrf.frequency import Frequency
from skrf.media import DefinedGammaZ0
from skrf.network import Network, a2s, y2s

PORT_OHM = 100.0


def run(text):
    return subprocess.run(
        [os.environ["LATCHLINE"], "response", "-"], input=text, capture_output=True, text=True, timeout=60
    )


def solve(file):
    done = run(json.dumps(file))
    assert done.returncode == 0, done.stderr
    return {node["id"]: node for node in json.loads(done.stdout)["nodes"]}


def plain_line(r, l, c, g=0.0, corner=None):
    line = {"r_ohm_per_m": r, "l_h_per_m": l, "c_f_per_m": c, "g_s_per_m": g}
    return line if corner is None else line | {"skin_corner_hz": corner}


PAIR = plain_line(0.176, 6e-7, 5e-11, 0.0, 6e4)


def termination_admittance(termination, w):
    y = 1j * w * termination.get("parallel_capacitance_f", 0.0)
    z = termination["resistance_ohm"] + 0j
    if "series_capacitance_f" in termination:
        z = z + 1 / (1j * w * termination["series_capacitance_f"])
    return y + 1 / z


def random_file(seed):
    rng = np.random.default_rng(seed)
    n = int(rng.integers(2, 40))
    names = [f"n{k}" for k in rng.permutation(n)]
    lines = [PAIR, plain_line(0.0686, 6.5e-7, 6e-11, 1e-9, 4e4), plain_line(0.0362, 6e-7, 9e-11, 1e-8)]
    segments, terminations = [], []
    for k in range(1, n):
        parent = k - 1 if rng.random() < 0.6 else int(rng.integers(0, k))
        ends = [names[parent], names[k]]
        if rng.random() < 0.5:
            ends.reverse()
        segment = {"from": ends[0], "to": ends[1], "length_m": float(rng.uniform(0.5, 80.0))}
        kind = int(rng.integers(0, 4))
        if kind < 3:
            segment["line"] = lines[kind]
        segments.append(segment)
    rng.shuffle(segments)
    for k in range(n):
        if rng.random() < 0.6:
            termination = {"node": names[k], "resistance_ohm": float(10 ** rng.uniform(1.7, 4.7))}
            if rng.random() < 0.3:
                termination["series_capacitance_f"] = float(10 ** rng.uniform(-8, -6))
            if rng.random() < 0.5:
                termination["parallel_capacitance_f"] = float(10 ** rng.uniform(-11, -9))
            terminations.append(termination)
    return {
        "source": {"node": names[0], "impedance_ohm": float(rng.uniform(0.0, 600.0))},
        "line": PAIR,
        "frequencies_hz": sorted(float(f) for f in 10 ** rng.uniform(2, 7.5, 19)),
        "segments": segments,
        "terminations": terminations,
    }


def neighbours(file):
    """Every node's list of (neighbour, segment)."""
    near = {file["source"]["node"]: []}
    for segment in file["segments"]:
        for a, b in ((segment["from"], segment["to"]), (segment["to"], segment["from"])):
            near.setdefault(a, []).append((b, segment))
    return near


def by_scikit_rf(file):
    """Voltage at every node over the open-circuit voltage: for each node the two-ports from the source to
    it are cascaded by scikit-rf, everything hanging off the way being reduced to one-ports by it."""
    f = np.array(file["frequencies_hz"])
    w = 2 * np.pi * f
    frequency = Frequency.from_f(f, unit="hz")
    near = neighbours(file)
    root = file["source"]["node"]

    def medium(segment):
        line = segment.get("line", file["line"])
        r = np.full(len(f), line["r_ohm_per_m"])
        if "skin_corner_hz" in line:
            r = r * (1 + (f / line["skin_corner_hz"]) ** 2) ** 0.25
        z = r + 1j * w * line["l_h_per_m"]
        y = line["g_s_per_m"] + 1j * w * line["c_f_per_m"]
        return DefinedGammaZ0(frequency, gamma=np.sqrt(z * y), z0=np.sqrt(z / y), z0_port=PORT_OHM)

    def cable(segment):
        return medium(segment).line(segment["length_m"], "m")

    own = {name: np.zeros(len(f), complex) for name in near}
    for termination in file["terminations"]:
        own[termination["node"]] += termination_admittance(termination, w)

    def looking_into(segment, y_end):
        load = Network(frequency=frequency, z0=PORT_OHM, s=y2s(y_end[:, None, None], PORT_OHM))
        return (cable(segment) ** load).y[:, 0, 0]

    order, parent = [root], {root: (None, None)}
    for name in order:
        for other, segment in near[name]:
            if segment is not parent[name][1]:
                parent[other] = (name, segment)
                order.append(other)
    into = {}
    for name in reversed(order[1:]):
        total = own[name] + sum(into[o] for o, s in near[name] if parent[o][0] == name)
        into[name] = looking_into(parent[name][1], total)

    voltages = {}
    for target in order:
        way = [target]
        while parent[way[0]][0] is not None:
            way.insert(0, parent[way[0]][0])
        chain = None
        for k, name in enumerate(way):
            onward = way[k + 1] if k + 1 < len(way) else None
            hanging = own[name] + sum(
                into[o] for o, _ in near[name] if parent[o][0] == name and o != onward
            )
            a = np.zeros((len(f), 2, 2), complex)
            a[:, 0, 0] = a[:, 1, 1] = 1
            a[:, 1, 0] = hanging
            step = Network(frequency=frequency, z0=PORT_OHM, s=a2s(a, PORT_OHM))
            if k:
                step = cable(parent[name][1]) ** step
            chain = step if chain is None else chain ** step
        a = chain.a
        voltages[target] = 1 / (a[:, 0, 0] + file["source"]["impedance_ohm"] * a[:, 1, 0])
    return voltages


@pytest.mark.parametrize("seed", range(12))
def test_random_trees_agree_with_scikit_rf(seed):
    file = random_file(seed)
    found, expected = solve(file), by_scikit_rf(file)
    assert set(found) == set(expected)
    terminated = {termination["node"] for termination in file["terminations"]}
    zs = file["source"]["impedance_ohm"]
    for name, node in found.items():
        v = expected[name]
        np.testing.assert_allclose(node["gain_db"], 20 * np.log10(np.abs(v)), rtol=0, atol=1e-6)
        turn = np.exp(1j * (np.radians(node["phase_deg"]) - np.angle(v)))
        np.testing.assert_allclose(turn, 1, rtol=0, atol=1e-7)
        assert ("insertion_gain_db" in node) == (name in terminated)
        if name in terminated:
            w = 2 * np.pi * np.array(file["frequencies_hz"])
            y = sum(termination_admittance(t, w) for t in file["terminations"] if t["node"] == name)
            want = 20 * np.log10(np.abs(v * (1 + zs * y)))
            np.testing.assert_allclose(node["insertion_gain_db"], want, rtol=0, atol=1e-6)


def test_telephone_pair_at_1600_hz():
    """UK supplier information note SIN 351: 168 ohm/km, 50 nF/km, 1.7 dB/km at 1600 Hz (nominal; the formula
    gives 3 to 5 % more). Terminated in its own impedance as nearly as a resistor and a capacitor can."""
    r, c, f = 0.168, 50e-12, 1600.0
    z0 = cmath.sqrt((r + 2j * math.pi * f * 0.6e-6) / (2j * math.pi * f * c))
    # R and C in series with that impedance at this one frequency
    end = {"resistance_ohm": z0.real, "series_capacitance_f": -1 / (2 * math.pi * f * z0.imag)}
    gains = []
    for km in (3, 8):
        file = {
            "source": {"node": "exchange", "impedance_ohm": 600.0},
            "line": plain_line(r, 0.6e-6, c),
            "frequencies_hz": [f],
            "segments": [{"from": "exchange", "to": "telephone", "length_m": 1000.0 * km}],
            "terminations": [{"node": "telephone", **end}],
        }
        gains.append(solve(file)["telephone"]["gain_db"][0])
    assert (gains[0] - gains[1]) / 5 == pytest.approx(1.7, rel=0.05)


def test_open_tap_notch():
    """First notch of an open tap at v c / (4 l): 25 m at 0.66 c, 1.979 MHz (transmission-line textbooks)."""
    speed = 0.66 * 299792458.0
    line = plain_line(0.0, 100.0 / speed, 1 / (100.0 * speed))
    notch = speed / 100.0
    assert notch == pytest.approx(1.979e6, rel=2e-4)
    file = {
        "source": {"node": "s", "impedance_ohm": 100.0},
        "line": line,
        "frequencies_hz": [notch * k for k in (0.25, 0.5, 0.9, 1.0, 2.0, 3.0)],
        "segments": [
            {"from": "s", "to": "m", "length_m": 31.0},
            {"from": "m", "to": "e", "length_m": 17.0},
            {"from": "tap", "to": "m", "length_m": 25.0},
        ],
        "terminations": [{"node": "e", "resistance_ohm": 100.0}],
    }
    gain = solve(file)["e"]["insertion_gain_db"]
    for got, loss in zip(gain, (0.182, 0.969, 10.40)):
        assert -got == pytest.approx(loss, abs=0.005)
    assert gain[3] < -200 and gain[5] < -200
    assert gain[4] == pytest.approx(0.0, abs=1e-8)


def chain_in_mpmath(file):
    """Gain and phase of the last node of a chain, to fifty digits."""
    mpmath.mp.dps = 50
    answer = []
    for f in file["frequencies_hz"]:
        w = 2 * mpmath.pi * mpmath.mpf(f)
        y = mpmath.mpc(0)
        ends = {t["node"]: t for t in file["terminations"]}
        ratio = mpmath.mpc(1)
        for segment in reversed(file["segments"]):
            if segment["to"] in ends:
                t = ends[segment["to"]]
                y += 1 / mpmath.mpf(t["resistance_ohm"])
            line = segment.get("line", file["line"])
            r = mpmath.mpf(line["r_ohm_per_m"])
            if "skin_corner_hz" in line:
                r *= (1 + (mpmath.mpf(f) / line["skin_corner_hz"]) ** 2) ** mpmath.mpf("0.25")
            z = r + 1j * w * mpmath.mpf(line["l_h_per_m"])
            yy = mpmath.mpf(line["g_s_per_m"]) + 1j * w * mpmath.mpf(line["c_f_per_m"])
            gd, z0 = mpmath.sqrt(z * yy) * mpmath.mpf(segment["length_m"]), mpmath.sqrt(z / yy)
            down = mpmath.cosh(gd) + z0 * y * mpmath.sinh(gd)
            ratio /= down
            y = (y * mpmath.cosh(gd) + mpmath.sinh(gd) / z0) / down
        v = ratio / (1 + mpmath.mpf(file["source"]["impedance_ohm"]) * y)
        answer.append((float(20 * mpmath.log10(abs(v))), float(mpmath.degrees(mpmath.arg(v)))))
    return answer


EXTREMES = {
    "long line at high frequency": ([1e6, 1e8, 1e9], [50_000.0, 20_000.0], 75.0, PAIR),
    "hardly any line": ([1e-9, 1.0, 1e3, 1e9], [1e-9, 1e-6], 75.0, PAIR),
    "hardly any frequency": ([1e-12, 1e-9, 1e-6, 1e-3], [100.0, 4000.0], 1e5, PAIR),
    "no length": ([1e3, 1e9], [0.0, 0.0], 75.0, PAIR),
    "almost lossless": ([1e3, 1e6, 3.3e7], [75.0, 310.0], 600.0, plain_line(1e-9, 6e-7, 5e-11, 1e-15)),
    "no resistance": ([1e3, 1e6, 3.3e7], [75.0, 310.0], 600.0, plain_line(0.0, 6e-7, 5e-11)),
    "no inductance": ([1e1, 1e3, 1e5], [1000.0, 3000.0], 600.0, plain_line(0.168, 0.0, 5e-11)),
    "heavy leakage": ([1e-6, 50.0, 1e6], [1000.0, 300.0], 60.0, plain_line(0.168, 6e-7, 5e-11, 1e-3)),
    "heavy mismatch": ([1e4, 1e7], [123.0, 456.0], 1e-6, PAIR),
}


@pytest.mark.parametrize("name", EXTREMES)
def test_extremes_agree_with_mpmath(name):
    frequencies, lengths, load, line = EXTREMES[name]
    file = {
        "source": {"node": "s", "impedance_ohm": 100.0},
        "line": line,
        "frequencies_hz": frequencies,
        "segments": [
            {"from": "s", "to": "a", "length_m": lengths[0]},
            {"from": "a", "to": "b", "length_m": lengths[1]},
        ],
        "terminations": [{"node": "a", "resistance_ohm": 5e3}, {"node": "b", "resistance_ohm": load}],
    }
    node = solve(file)["b"]
    for gain_db, phase_deg, (want_db, want_deg) in zip(node["gain_db"], node["phase_deg"], chain_in_mpmath(file)):
        # The phase of a line of many wavelengths carries the rounding of their number.
        assert gain_db == pytest.approx(want_db, rel=1e-12, abs=2e-8)
        wavelengths = max(frequencies) * sum(lengths) / 1e8
        off = (phase_deg - want_deg + 180.0) % 360.0 - 180.0
        assert abs(off) < 2e-8 + 1e-12 * wavelengths


def test_five_hundred_stations_are_answered_whole():
    """A whole process: file read, solved, printed; a gain at every frequency of every station."""
    rng = np.random.default_rng(5)
    segments = [
        {
            "from": f"n{k - 1 if rng.random() < 0.85 else rng.integers(0, k)}",
            "to": f"n{k}",
            "length_m": float(rng.uniform(2, 12)),
        }
        for k in range(1, 501)
    ]
    file = {
        "source": {"node": "n0", "impedance_ohm": 100.0},
        "line": PAIR,
        "frequencies_hz": [float(f) for f in np.geomspace(300, 3e7, 200)],
        "segments": segments,
        "terminations": [{"node": f"n{k}", "resistance_ohm": 1e4} for k in range(1, 501)],
    }
    text = json.dumps(file)
    done = run(text)
    assert done.returncode == 0
    nodes = json.loads(done.stdout)["nodes"]
    assert len(nodes) == 501
    assert all(len(node["gain_db"]) == 200 and np.isfinite(node["gain_db"]).all() for node in nodes)


GOOD = {
    "source": {"node": "s", "impedance_ohm": 100.0},
    "line": PAIR,
    "frequencies_hz": [1e3],
    "segments": [{"from": "s", "to": "e", "length_m": 10.0}],
    "terminations": [{"node": "e", "resistance_ohm": 100.0}],
}


@pytest.mark.parametrize(
    "change, words",
    [
        ({"frequencies_hz": None}, ["invalid type: null"]),
        ({"frequencies_hz": []}, ["frequencies_hz", "empty"]),
        ({"frequencies_hz": [0.0]}, ["frequencies_hz[0]", "0.0"]),
        ({"frequencies_hz": [1e3, -1.0]}, ["frequencies_hz[1]", "-1.0"]),
        ({"frequencies_hz": [1e11]}, ["frequencies_hz[0]", "1e10"]),
        ({"line": PAIR | {"c_f_per_m": 0.0}}, ["line: c_f_per_m is 0.0"]),
        ({"line": PAIR | {"color": 1}}, ["unknown field `color`"]),
        ({"source": {"node": "s", "impedance_ohm": 1.0, "voltage_v": 1}}, ["unknown field `voltage_v`"]),
        ({"segments": GOOD["segments"] + [{"from": "e", "to": "s", "length_m": 1.0}]}, ["loop"]),
        ({"segments": GOOD["segments"] + [{"from": "x", "to": "y", "length_m": 1.0}]}, ["segments[1]", "x"]),
        ({"terminations": [{"node": "x", "resistance_ohm": 1.0}]}, ["terminations[0]", "x"]),
        ({"terminations": [{"node": "e", "resistance_ohm": -1.0}]}, ["terminations[0]", "-1.0"]),
    ],
)
def test_bad_files_are_refused_by_place(change, words):
    done = run(json.dumps(GOOD | change))
    assert done.returncode == 2 and done.stdout == ""
    for word in words:
        assert word in done.stderr


@pytest.mark.parametrize("text", ["", "{", "[]", "null", json.dumps(GOOD).replace("1000.0", "NaN"), "\x00"])
def test_what_is_no_json_is_refused(text):
    done = run(text)
    assert done.returncode == 2 and done.stdout == "" and done.stderr.startswith("error:")


def test_missing_file_is_refused():
    done = subprocess.run(
        [os.environ["LATCHLINE"], "response", "no-such-file.json"], capture_output=True, text=True
    )
    assert done.returncode == 2 and "no-such-file.json" in done.stderr
