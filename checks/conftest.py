"""What the checks share: running `latchline flow` and random networks."""

from __future__ import annotations

import json
import os
import subprocess

import numpy as np
import pytest


class Flow:
    """Runs `latchline flow` on a network given as a dictionary (or as text)."""

    def __init__(self, program: str) -> None:
        self.program = program

    def run(self, network, *options: str) -> subprocess.CompletedProcess:
        text = network if isinstance(network, str) else json.dumps(network)
        command = [self.program, "flow", "-", *options]
        return subprocess.run(command, input=text, capture_output=True, text=True, timeout=120)

    def __call__(self, network, *options: str, status: int = 0) -> dict:
        done = self.run(network, *options)
        assert done.returncode == status, (done.returncode, done.stdout[:500], done.stderr[:500])
        return json.loads(done.stdout)

    def voltages(self, network, *options: str) -> dict[str, float]:
        answer = self(network, *options)
        return {node["id"]: node["voltage_v"] for node in answer["nodes"]}


@pytest.fixture(scope="session")
def flow() -> Flow:
    return Flow(os.environ["LATCHLINE"])


def random_network(seed: int, nodes: int, *, mixed: bool = False, zero_ohm: bool = False) -> dict:
    """A random tree with shuffled rows; with `mixed`, current and resistive loads beside the powers."""
    rng = np.random.default_rng(seed)
    names = [f"n{k}" for k in rng.permutation(nodes)]
    segments, loads = [], []
    for k in range(1, nodes):
        ends = [names[int(rng.integers(max(0, k - 8), k))], names[k]]
        if rng.random() < 0.5:
            ends.reverse()
        resistance = 0.0 if zero_ohm and rng.random() < 0.2 else float(rng.uniform(0.02, 1.0))
        segments.append({"from": ends[0], "to": ends[1], "loop_resistance_ohm": resistance})
        kind = rng.choice(["power", "current", "resistance"], p=[0.6, 0.2, 0.2]) if mixed else "power"
        # Larger trees are deeper: lighter loads keep them below their limit.
        size = float(rng.uniform(0.2, 1.0)) * min(1.0, (30 / nodes) ** 2)
        value = {"power": size, "current": size / 50, "resistance": 2000 / size}[str(kind)]
        loads.append({"node": names[k], "kind": str(kind), "value": value})
    order = rng.permutation(nodes - 1)
    return {
        "source": {"node": names[0], "voltage_v": 48.0, "source_resistance_ohm": 0.2},
        "nodes": [names[k] for k in rng.permutation(nodes)],
        "segments": [segments[k] for k in order],
        "loads": loads,
    }


def scaled(network: dict, factor: float) -> dict:
    """The network with every load (power, current, conductance) times `factor`."""
    loads = [
        load | {"value": load["value"] / factor if load["kind"] == "resistance" else load["value"] * factor}
        for load in network["loads"]
    ]
    return network | {"loads": loads}


@pytest.fixture(scope="session")
def make_network():
    return random_network


@pytest.fixture(scope="session")
def scale_loads():
    return scaled
