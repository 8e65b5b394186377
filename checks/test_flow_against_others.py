"""`latchline flow` against pandapower and ngspice: general tools that know nothing of this project.

pandapower solves alternating current; with a reactance of next to nothing and no reactive power its
equations are those of direct current with the same volts, ohms and watts.
"""

from __future__ import annotations

import subprocess

import numpy as np
import pandapower as pp
import pandapower.networks
import pytest


def solve_by_pandapower(network: dict) -> dict[str, float]:
    """Voltages by pandapower's Newton; power, current and resistive loads as `const_i`, `const_z` parts."""
    net = pp.create_empty_network(sn_mva=1e-4, f_hz=50)
    supply = network["source"]["voltage_v"]
    bus = {name: pp.create_bus(net, supply / 1e3) for name in network["nodes"]}
    ideal = pp.create_bus(net, supply / 1e3)
    pp.create_ext_grid(net, ideal, vm_pu=1.0)

    def line(a, b, ohm):
        pp.create_line_from_parameters(net, a, b, 1.0, ohm, 1e-12, 0.0, 1.0)

    line(ideal, bus[network["source"]["node"]], network["source"]["source_resistance_ohm"])
    for s in network["segments"]:
        line(bus[s["from"]], bus[s["to"]], s["loop_resistance_ohm"])
    for load in network["loads"]:
        # At the nominal voltage; a constant current and impedance draw less below it.
        watts = {
            "power": load["value"],
            "current": load["value"] * supply,
            "resistance": supply**2 / load["value"],
        }[load["kind"]]
        part = {"power": {}, "current": {"const_i_p_percent": 100}, "resistance": {"const_z_p_percent": 100}}
        pp.create_load(net, bus[load["node"]], watts / 1e6, 0.0, **part[load["kind"]])
    pp.runpp(net, algorithm="nr", tolerance_mva=1e-12, max_iteration=60, init="flat", numba=False)
    return {name: float(net.res_bus.vm_pu[b]) * supply for name, b in bus.items()}


def solve_by_ngspice(network: dict, folder) -> dict[str, float]:
    """Voltages by the operating point of ngspice; powers as behavioural current sources."""
    index = {name: k for k, name in enumerate(network["nodes"])}
    source = network["source"]
    deck = ["* tree", f"V0 ideal 0 {source['voltage_v']!r}"]
    deck.append(f"R0 ideal n{index[source['node']]} {source['source_resistance_ohm']!r}")
    for k, s in enumerate(network["segments"]):
        deck.append(f"RS{k} n{index[s['from']]} n{index[s['to']]} {s['loop_resistance_ohm']!r}")
    for k, load in enumerate(network["loads"]):
        node = f"n{index[load['node']]}"
        if load["kind"] == "power":
            deck.append(f"B{k} {node} 0 I={load['value']!r}/V({node})")
        elif load["kind"] == "current":
            deck.append(f"I{k} {node} 0 {load['value']!r}")
        else:
            deck.append(f"RL{k} {node} 0 {load['value']!r}")
    deck += [f".nodeset v(n{k})={source['voltage_v']!r}" for k in range(len(index))]
    deck += [".options reltol=1e-10 vntol=1e-10 abstol=1e-13 itl1=500 numdgt=15", ".control", "op"]
    deck += ["set numdgt=15"] + [f"print v(n{k})" for k in range(len(index))]
    deck += ["quit", ".endc", ".end"]
    file = folder / "tree.cir"
    file.write_text("\n".join(deck) + "\n")
    done = subprocess.run(["ngspice", "-b", str(file)], capture_output=True, text=True, timeout=60)
    found = {}
    for row in done.stdout.splitlines():
        if row.startswith("v(n") and "=" in row:
            name, value = row.split("=")
            found[int(name.strip()[3:-1])] = float(value)
    assert len(found) == len(index), done.stdout[-500:] + done.stderr[-500:]
    return {name: found[k] for name, k in index.items()}


def agree(found: dict, expected: dict, volts: float) -> None:
    worst = max(abs(found[name] - v) for name, v in expected.items())
    assert worst < volts, worst


@pytest.mark.parametrize("seed, nodes, mixed", [(1, 12, False), (2, 60, False), (3, 200, False), (4, 40, True)])
def test_random_trees_against_pandapower(flow, make_network, scale_loads, seed, nodes, mixed):
    network = make_network(seed, nodes, mixed=mixed)
    margin = flow(network)["loading_margin"]
    network = scale_loads(network, 0.5 * margin)
    agree(flow.voltages(network), solve_by_pandapower(network), 1e-6)


@pytest.mark.parametrize("seed, nodes, mixed", [(11, 15, False), (12, 120, True), (13, 120, True)])
def test_random_trees_against_ngspice(flow, make_network, scale_loads, tmp_path, seed, nodes, mixed):
    network = make_network(seed, nodes, mixed=mixed)
    margin = flow(network)["loading_margin"]
    network = scale_loads(network, 0.6 * margin)
    agree(flow.voltages(network), solve_by_ngspice(network, tmp_path), 1e-6)


def feeder() -> tuple[dict, dict[str, float]]:
    """The 33-bus feeder of Baran and Wu (1989) as pandapower holds it, made a direct-current network:
    no reactance, no reactive power; and pandapower's own solution of that."""
    net = pandapower.networks.case33bw()
    net.line["x_ohm_per_km"] = 1e-9
    net.load["q_mvar"] = 0.0
    # Open tie lines are left out: what is in service is a tree.
    net.line = net.line[net.line.in_service]
    pp.runpp(net, tolerance_mva=1e-12, numba=False)
    volts = 12_660.0
    root = int(net.ext_grid.bus.iloc[0])
    network = {
        "source": {"node": str(root), "voltage_v": volts, "source_resistance_ohm": 0.0},
        "nodes": [str(b) for b in net.bus.index],
        "segments": [
            {
                "from": str(row.from_bus),
                "to": str(row.to_bus),
                "loop_resistance_ohm": float(row.r_ohm_per_km * row.length_km / row.parallel),
            }
            for row in net.line.itertuples()
        ],
        "loads": [
            {"node": str(row.bus), "kind": "power", "value": float(row.p_mw * 1e6)}
            for row in net.load.itertuples()
        ],
    }
    return network, {str(b): float(v) * volts for b, v in net.res_bus.vm_pu.items()}


def test_the_33_bus_feeder(flow):
    network, expected = feeder()
    answer = flow(network)
    found = {node["id"]: node["voltage_v"] for node in answer["nodes"]}
    # Relative 1e-9: the reactance that pandapower needs is not quite zero.
    for name, v in expected.items():
        assert found[name] == pytest.approx(v, rel=1e-9)
    # Computed with pandapower 3.5.6 and by an independent sweep: 129 285.19 W; 0.939916 at bus 18.
    assert sum(s["loss_w"] for s in answer["segments"]) == pytest.approx(129_285.19, abs=0.02)
    assert min(found.values()) / 12_660 == pytest.approx(0.939916, abs=6e-7)
    assert min(found, key=found.get) == "17"


def test_margin_by_pandapower(flow, make_network, scale_loads):
    """pandapower converges a little below the margin and not a little above it."""
    network = make_network(21, 30)
    margin = flow(network)["loading_margin"]
    below = scale_loads(network, margin * 0.9999)
    agree(flow.voltages(below), solve_by_pandapower(below), 1e-5)
    above = scale_loads(network, margin * 1.0001)
    with pytest.raises(pp.LoadflowNotConverged):
        solve_by_pandapower(above)
    assert flow(above, status=1)["feasible"] is False


def test_monte_carlo_against_numpy(flow, make_network):
    """Quantiles of the lowest voltage against 20,000 samples solved by NumPy, drawn independently."""
    network = make_network(31, 25)
    spread, samples = 0.1, 20_000
    rng = np.random.default_rng(5)
    names = network["nodes"]
    index = {name: k for k, name in enumerate(names)}
    n, root = len(names), index[network["source"]["node"]]
    # Incidence matrix: one row a segment, the source resistance last; columns are nodes.
    ends = [(index[s["from"]], index[s["to"]]) for s in network["segments"]]
    incidence = np.zeros((n, n))
    for row, (a, b) in enumerate(ends):
        incidence[row, a], incidence[row, b] = 1.0, -1.0
    incidence[n - 1, root] = 1.0
    nominal_r = np.array([s["loop_resistance_ohm"] for s in network["segments"]])
    nominal_p = np.array([load["value"] for load in network["loads"]])
    at = np.array([index[load["node"]] for load in network["loads"]])
    v0, r0 = network["source"]["voltage_v"], network["source"]["source_resistance_ohm"]
    r = nominal_r * rng.uniform(1 - spread, 1 + spread, (samples, n - 1))
    p = np.zeros((samples, n))
    p[:, at] = nominal_p * rng.uniform(1 - spread, 1 + spread, (samples, len(at)))
    # Drops through the inverse of the conductance matrix, fixed point v = V0 - R P/v.
    inverse = np.linalg.inv(incidence)
    resistance = np.concatenate([r, np.full((samples, 1), r0)], axis=1)
    v = np.full((samples, n), v0)
    for _ in range(200):
        drop = ((p / v) @ inverse * resistance) @ inverse.T
        new = v0 - drop
        if np.abs(new - v).max() < 1e-9:
            break
        v = new
    lowest = v.min(axis=1)
    answer = flow(network, "--samples", str(samples), "--seed", "3", "--spread", "10")
    found = answer["monte_carlo"]
    assert (found["samples"], found["infeasible"]) == (samples, 0)
    deviation = lowest.std()
    # Five standard errors of the difference: 1.41/sqrt(N) for the mean; for a quantile sqrt(p(1-p)/N)/density.
    assert found["minimum_v"]["mean"] == pytest.approx(lowest.mean(), abs=5 * 1.42 * deviation / samples**0.5)
    for key, q, density in [("p01", 0.01, 0.0267), ("p50", 0.5, 0.399), ("p99", 0.99, 0.0267)]:
        error = 1.42 * (q * (1 - q) / samples) ** 0.5 / density * deviation
        assert found["minimum_v"][key] == pytest.approx(np.quantile(lowest, q), abs=5 * error)
    again = flow(network, "--samples", str(samples), "--seed", "3", "--spread", "10")
    assert again == answer


def test_monte_carlo_across_the_limit(flow):
    """One load at its nominal limit: a sample has no solution when 4 P R > V0^2, about half of them;
    the share against NumPy, five standard errors."""
    network = {
        "source": {"node": "s", "voltage_v": 48.0, "source_resistance_ohm": 0.0},
        "nodes": ["s", "a"],
        "segments": [{"from": "s", "to": "a", "loop_resistance_ohm": 10.0}],
        "loads": [{"node": "a", "kind": "power", "value": 57.0}],
    }
    rng = np.random.default_rng(6)
    a, b = rng.uniform(0.9, 1.1, (2, 1_000_000))
    share = float(np.mean(4 * 570.0 * a * b > 48.0**2))
    samples = 40_000
    found = flow(network, "--samples", str(samples), "--spread", "10", "--no-margin")["monte_carlo"]
    error = (share * (1 - share) / samples) ** 0.5
    assert found["infeasible"] / samples == pytest.approx(share, abs=5 * error)
    assert found["minimum_v"]["p01"] is None
    assert found["minimum_v"]["p99"] == pytest.approx(
        float(np.quantile(24 + np.sqrt(np.maximum(576 - 570 * a * b, 0)), 0.99)), abs=0.15
    )
