"""`latchline flow` on published figures; the source stands beside each check."""

from __future__ import annotations

import json
import math

import pytest


def single(voltage_v, resistance_ohm, power_w):
    return {
        "source": {"node": "a", "voltage_v": voltage_v, "source_resistance_ohm": resistance_ohm},
        "nodes": ["a"],
        "segments": [],
        "loads": [{"node": "a", "kind": "power", "value": power_w}],
    }


@pytest.mark.parametrize(
    "voltage_v, resistance_ohm, power_w, device_v, current_a",
    [(44.0, 20.0, 12.95, 37.0, 0.35), (50.0, 12.5, 25.5, 42.5, 0.6), (50.0, 6.25, 51.0, 42.5, 1.2)],
)
def test_power_over_ethernet(flow, voltage_v, resistance_ohm, power_w, device_v, current_a):
    """IEEE 802.3af, at, bt: 37.0 V at 12.95 W, 42.5 V at 25.5 W and 51 W (6.25 ohm from memory)."""
    answer = flow(single(voltage_v, resistance_ohm, power_w))
    assert answer["nodes"][0]["voltage_v"] == pytest.approx(device_v, abs=1e-9)
    assert answer["source"]["current_a"] == pytest.approx(current_a, abs=1e-9)
    limit = voltage_v**2 / (4 * resistance_ohm * power_w)
    assert answer["loading_margin"] == pytest.approx(limit, rel=1e-6)


def test_beyond_the_limit(flow):
    """IEEE 802.3 type 1 feed (44 V, 20 ohm): Vs^2/(4R) = 24.2 W, so 24.3 W has no solution."""
    answer = flow(single(44.0, 20.0, 24.3), status=1)
    assert answer == {
        "feasible": False,
        "loading_margin": pytest.approx(24.2 / 24.3, rel=1e-6),
        "weakest_node": "a",
    }


def test_two_wire_distributor(flow):
    """Mehta and Mehta, Principles of Power System (title from memory), Example 13.1: 295.0, 291.0,
    288.0, 287.6 V."""
    lengths, currents = [500, 500, 600, 400], [100, 150, 200, 50]
    network = {
        "source": {"node": "A", "voltage_v": 300, "source_resistance_ohm": 0},
        "nodes": list("EDCBA"),
        "segments": [
            {"from": far, "to": near, "length_m": m, "loop_resistance_ohm": 2 * m * 1e-5}
            for near, far, m in zip("ABCD", "BCDE", lengths)
        ],
        "loads": [{"node": n, "kind": "current", "value": i} for n, i in zip("BCDE", currents)],
    }
    answer = flow(network)
    found = {node["id"]: node["voltage_v"] for node in answer["nodes"]}
    for name, printed in zip("BCDE", [295.0, 291.0, 288.0, 287.6]):
        assert found[name] == pytest.approx(printed, abs=1e-9)
    # The segments run towards the source, so their currents count as negative.
    assert [s["current_a"] for s in answer["segments"]] == pytest.approx([-500, -400, -250, -50])
    # The last voltage reaches zero at 300/12.4 times the currents.
    assert answer["loading_margin"] == pytest.approx(300 / 12.4, rel=1e-6)


def test_resistive_loads_have_no_limit(flow):
    """Ladder of 1 ohm in series and 1 ohm across: 1/2, 1/5, 1/13, 1/34 (odd Fibonacci numbers)."""
    for cells, denominator in [(1, 2), (2, 5), (3, 13), (4, 34), (5, 89)]:
        names = [f"n{k}" for k in range(cells + 1)]
        network = {
            "source": {"node": "n0", "voltage_v": 1.0, "source_resistance_ohm": 0.0},
            "nodes": names,
            "segments": [
                {"from": a, "to": b, "loop_resistance_ohm": 1.0} for a, b in zip(names, names[1:])
            ],
            "loads": [{"node": n, "kind": "resistance", "value": 1.0} for n in names[1:]],
        }
        answer = flow(network)
        assert answer["nodes"][-1]["voltage_v"] == pytest.approx(1 / denominator, rel=1e-9)
        assert answer["loading_margin"] is None


def test_mixed_loads_by_the_quadratic_formula(flow):
    """Power beside a current at one node: (V0 - R I - V) V = R P (quadratic formula)."""
    network = single(48.0, 8.0, 25.0)
    network["loads"].append({"node": "a", "kind": "current", "value": 0.5})
    supply = 48.0 - 8.0 * 0.5
    expected = 0.5 * (supply + math.sqrt(supply**2 - 4 * 8.0 * 25.0))
    assert flow.voltages(network)["a"] == pytest.approx(expected, abs=1e-9)


def test_bad_input_is_refused(flow):
    """Exit status 2, nothing on standard output, and the place on standard error."""
    good = single(44.0, 20.0, 12.95)
    text = json.dumps(good)
    cases = [
        (text.replace("44.0", "NaN"), "line 1"),
        (text.replace("44.0", "1e999"), "line 1"),
        (text.replace("44.0", "-44.0"), "source.voltage_v"),
        (text.replace("voltage_v", "voltage"), "voltage"),
        (text.replace('"value"', '"watt": 1, "value"'), "watt"),
        (text.replace('["a"]', '["a", "b"]'), '"b"'),
        (text.replace('["a"]', '["a", "a"]'), "nodes[1]"),
        (text.replace('"segments": []', '"segments": [{"from": "a", "to": "a", "loop_resistance_ohm": 1}]'), "segments[0]"),
        (text[:-1], "EOF"),
        ('{"x":' + "[" * 100_000 + "]" * 100_000 + "}", "source"),
        ("", "it is empty"),
        ("\0" * 100, "line 1"),
    ]
    for bad, place in cases:
        done = flow.run(bad)
        assert (done.returncode, done.stdout) == (2, ""), bad[:200]
        assert place in done.stderr, (place, done.stderr)


def test_without_margin(flow):
    assert "loading_margin" not in flow(single(44.0, 20.0, 12.95), "--no-margin")
