"""The certificates of `latchline flow --certificate`, computed again with mpmath at 50 digits.

Nothing of the program is used but the vectors that it prints. A lower vector w is shown by
T(w) > w, an upper one u by T(u) <= u and u >= w, where T solves the network with the constant-power
and constant-current loads frozen; non-existence by
sum [2 sqrt(f c w P) + f w I] > y0 V0 for the weights w that the currents c produce in the dead network.
"""

from __future__ import annotations

import mpmath
import pytest
from mpmath import mpf

mpmath.mp.dps = 50


class Exact:
    """A network in exact numbers, outwards from the root."""

    def __init__(self, network: dict) -> None:
        self.names = network["nodes"]
        index = {name: k for k, name in enumerate(self.names)}
        beside = [[] for _ in self.names]
        for s in network["segments"]:
            a, b = index[s["from"]], index[s["to"]]
            beside[a].append((b, mpf(s["loop_resistance_ohm"])))
            beside[b].append((a, mpf(s["loop_resistance_ohm"])))
        self.v0 = mpf(network["source"]["voltage_v"])
        root = index[network["source"]["node"]]
        self.order, self.up, self.r = [root], {root: None}, {root: mpf(network["source"]["source_resistance_ohm"])}
        for node in self.order:
            for other, ohm in beside[node]:
                if other not in self.up:
                    self.up[other], self.r[other] = node, ohm
                    self.order.append(other)
        count = len(self.names)
        self.p, self.i, self.g = [mpf(0)] * count, [mpf(0)] * count, [mpf(0)] * count
        for load in network["loads"]:
            k, value = index[load["node"]], mpf(load["value"])
            if load["kind"] == "power":
                self.p[k] += value
            elif load["kind"] == "current":
                self.i[k] += value
            else:
                self.g[k] += 1 / value

    def linear(self, injected, supply, factor):
        """Voltages of the resistive network with `injected` drawn at the nodes, and the source current."""
        slope = [factor * g for g in self.g]
        current = list(injected)
        for node in reversed(self.order):
            pivot = 1 + self.r[node] * slope[node]
            if self.up[node] is not None:
                slope[self.up[node]] += slope[node] / pivot
                current[self.up[node]] += current[node] / pivot
        v = [None] * len(self.names)
        for node in self.order:
            above = supply if self.up[node] is None else v[self.up[node]]
            v[node] = (above - self.r[node] * current[node]) / (1 + self.r[node] * slope[node])
        root = self.order[0]
        through = current[root] + slope[root] * v[root]
        return v, through

    def image(self, w, factor=mpf(1)):
        frozen = [factor * (p / x + i) for p, x, i in zip(self.p, w, self.i)]
        return self.linear(frozen, self.v0, factor)[0]

    def excludes(self, injected, factor) -> bool:
        assert all(c >= 0 for c in injected)
        minus, through = self.linear([-c for c in injected], mpf(0), factor)
        w = minus
        assert all(x >= 0 for x in w)
        left = sum(
            2 * mpmath.sqrt(factor * c * x * p) + factor * x * i
            for c, x, p, i in zip(injected, w, self.p, self.i)
        )
        # Nothing flows from the dead source: it takes what the injections push into it.
        return left > -through * self.v0


CASES = [(s, n, mixed, zero) for s, (n, mixed, zero) in enumerate([(2, False, False), (30, False, True), (30, True, True), (200, True, True), (400, False, False)])]


@pytest.mark.parametrize("seed, nodes, mixed, zero_ohm", CASES)
@pytest.mark.parametrize("part", [0.3, 0.95, 1 - 1e-6])
def test_enclosure(flow, make_network, scale_loads, seed, nodes, mixed, zero_ohm, part):
    network = make_network(seed, nodes, mixed=mixed, zero_ohm=zero_ohm)
    network = scale_loads(network, part * flow(network)["loading_margin"])
    answer = flow(network, "--certificate", "--no-margin")
    lower = [mpf(v) for v in answer["certificate"]["lower_v"]]
    upper = [mpf(v) for v in answer["certificate"]["upper_v"]]
    exact = Exact(network)
    assert all(w > 0 for w in lower)
    assert all(t > w for t, w in zip(exact.image(lower), lower))
    assert all(t <= u for t, u in zip(exact.image(upper), upper))
    assert all(0 <= u - w <= 1e-9 for u, w in zip(upper, lower))
    for node, w, u in zip(answer["nodes"], lower, upper):
        assert w <= node["voltage_v"] <= u


@pytest.mark.parametrize("seed, nodes, mixed, zero_ohm", CASES)
def test_margin(flow, make_network, seed, nodes, mixed, zero_ohm):
    """A factor up to the margin's upper end is excluded, and the lower end is at most 1e-6 below."""
    network = make_network(seed, nodes, mixed=mixed, zero_ohm=zero_ohm)
    answer = flow(network, "--certificate")
    low = answer["certificate"]["possible_factor"]
    weights = answer["certificate"]["impossible"]
    assert low <= answer["loading_margin"] <= weights["load_factor"] <= low * (1 + 1e-6)
    assert Exact(network).excludes([mpf(c) for c in weights["injected_a"]], mpf(weights["load_factor"]))


@pytest.mark.parametrize("seed, nodes, mixed, zero_ohm", CASES)
@pytest.mark.parametrize("excess", [1e-6, 1e-3, 1.0])
def test_no_solution(flow, make_network, scale_loads, seed, nodes, mixed, zero_ohm, excess):
    network = make_network(seed, nodes, mixed=mixed, zero_ohm=zero_ohm)
    network = scale_loads(network, (1 + excess) * flow(network)["loading_margin"])
    answer = flow(network, "--certificate", status=1)
    assert answer["feasible"] is False and "nodes" not in answer
    weights = answer["certificate"]["impossible"]
    assert weights["load_factor"] <= 1
    assert Exact(network).excludes([mpf(c) for c in weights["injected_a"]], mpf(weights["load_factor"]))


def test_the_check_can_fail(flow, make_network):
    """Weights of a network that has a solution exclude nothing at factor 1."""
    network = make_network(1, 30)
    weights = flow(network, "--certificate")["certificate"]["impossible"]
    assert not Exact(network).excludes([mpf(c) for c in weights["injected_a"]], mpf(1))
