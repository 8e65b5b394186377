"""The judge of `latchline locate` (`benches/locate/judge`) is held against others before it judges.

Sources: ngspice's operating point; finite differences of the judge's own flow; plain Monte Carlo over the tolerances (JCGM 101:2008) with the whole
nonlinear circuit, in place of the judge's linearised covariance. The names of the causes are held against those that the program lists.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "benches" / "locate" / "judge"))

from kinds import causes, element, put, rates_text  # noqa: E402
from oracle import CARELESS, MOST_A, MOST_V, WRONG, Oracle, meter_variance  # noqa: E402
from sites import CABLES, DRUM_TOLERANCE, LENGTH_TOLERANCE, LOAD_TOLERANCE, TERMINAL_DEVIATION, VOLTAGE_TOLERANCE, Quantity, Site  # noqa: E402
from tree import ROOT3  # noqa: E402


def faulted(site: Site, rng=None):
    """A bad joint, a short of some resistance, and a break elsewhere."""
    c = site.circuits(1, rng)
    runs = [run for run in site.runs if run.name.startswith("R")]
    c.terminals[runs[0].nodes[1]] += 7.3
    c.across[runs[0].nodes[2]] += 1.0 / 210.0
    c.cut[runs[-1].nodes[2]] = True
    return c


@pytest.mark.parametrize("stations", [12, 31, 130])
def test_the_flow_is_that_of_ngspice(stations, tmp_path):
    site = Site(stations)
    c = faulted(site, np.random.default_rng(stations))
    solved = site.tree.solve(c)
    volts, amps = site.tree.ngspice(c, tmp_path)
    live = ~solved.dark[:, 0]
    assert not solved.bad[0] and 0 < live.sum() < site.tree.nodes
    assert np.abs(volts[live] - solved.v[live, 0]).max() < 1e-5
    assert abs(amps - solved.f[0, 0]) < 1e-5


def varied(site: Site, c, z: np.ndarray):
    """A circuit with every tolerance at a value in deviations; many columns at once. The order is that of `Site.rows`."""
    c, many = c.copy(), z.shape[1]
    for key, value in vars(c).items():
        setattr(c, key, np.repeat(value, many, axis=-1))
    k = 0

    def take(count: int) -> np.ndarray:
        nonlocal k
        k += count
        return z[k - count : k]

    c.supply_v *= 1 + take(1)[0] * VOLTAGE_TOLERANCE / ROOT3
    drum, length, batch = take(len(CABLES)), take(len(site.runs)), take(2)
    for run in range(len(site.runs)):
        of = site.run_of == run
        c.copper[of] *= (1 + drum[site.cable[of]] * DRUM_TOLERANCE / ROOT3) * (1 + length[run] * LENGTH_TOLERANCE / ROOT3)
    c.scale[site.is_indoor] *= 1 + batch[0] * 0.5 * LOAD_TOLERANCE / ROOT3
    c.scale[site.is_door] *= 1 + batch[1] * 0.5 * LOAD_TOLERANCE / ROOT3
    c.scale[site.is_station] *= 1 + take(int(site.is_station.sum())) * 0.5 * LOAD_TOLERANCE / ROOT3
    of = site.run_of >= 0
    c.terminals[of] += take(int(of.sum())) * site.circuits(1).terminals[of] * TERMINAL_DEVIATION
    assert k == len(z)
    return c


def read(site: Site, c, quantities: list[Quantity]) -> np.ndarray:
    found = []
    for one in quantities:
        called = c.copy()
        if one.state is not None:
            site.ring(called, one.state)
        found.append(one.of(site.tree.solve(called)))
    return np.array(found)


@pytest.mark.parametrize("state", [None, "S1-4"])
def test_sensitivities_are_those_of_finite_differences(state):
    site = Site(31)
    c, at = faulted(site), site.node[state] if state else None
    quantities = [Quantity("voltage", site.node[name], at) for name in ("PS", "S1-3", "S1-4", "S5-8", "D1.2")]
    quantities += [Quantity("current", 0, at), Quantity("current", site.node["S1-1"], at), Quantity("drop", site.node["S1-4"], at, site.node["D1.1"])]
    rows = site.rows(c, quantities, at)[:, 0]
    steps = np.eye(len(rows)) * 1e-3
    difference = (read(site, varied(site, c, steps), quantities) - read(site, varied(site, c, -steps), quantities)).T / 2e-3
    assert np.abs(rows).max(0)[3] == 0.0, "behind a break nothing moves"
    assert np.abs(rows - difference).max() < 1e-6
    assert np.abs(rows).max() > 0.1


def test_the_posterior_is_that_of_monte_carlo():
    """Two breaks that fit nearly alike, a break that does not, and a bad joint: 100,000 sites each, seed 5."""
    site = Site(12)
    oracle = Oracle(site)
    quantities = [Quantity("current", 0), Quantity("voltage", site.node["S1-2"]), Quantity("current", site.node["front"]), Quantity("voltage", site.node["S2-4"])]
    seen = np.array([0.253436, 46.743920, 0.066551, 0.010671])
    posterior, _ = oracle.posterior(quantities, seen)
    names = [("open", "S2-2"), ("open", "S2-3"), ("open", "S2-4"), ("open", "S1-1")]
    meters, many = meter_variance(quantities, seen), 100_000
    most = np.array([MOST_A if one.kind == "current" else MOST_V for one in quantities])
    fine, rng, logs = np.log(1 - WRONG - CARELESS), np.random.default_rng(5), []
    numbers = [next(k for k, one in enumerate(oracle.causes) if (one.kind, site.names[one.place]) == name) for name in names]
    for number in numbers:
        c = site.circuits(1)
        put(site, c, 0, oracle.causes[number], 1.0)
        e = seen[:, None] - read(site, varied(site, c, rng.normal(size=(len(site.rows(c, quantities, None)), many))), quantities)
        normal = lambda variance: -0.5 * (e**2 / variance[:, None] + np.log(2 * np.pi * variance[:, None]))  # noqa: E731
        each = normal(meters)
        base, n = each.sum(0), len(quantities)
        odd = base - each + (n - 1) * fine
        parts = [base[None] + n * fine, odd + normal(25 * meters) + np.log(CARELESS), odd + np.log(WRONG / most)[:, None]]
        logs.append(np.logaddexp.reduce(np.logaddexp.reduce(np.concatenate(parts))) - np.log(many) + np.log(oracle.prior[number]))
    sampled = np.exp(np.array(logs) - np.logaddexp.reduce(logs))
    ours = posterior[numbers] / posterior[numbers].sum()
    assert 0.02 < sampled[1] < 0.98, sampled
    assert np.abs(ours - sampled).max() < 0.02, (ours, sampled)


@pytest.mark.parametrize("stations", [12, 31])
def test_the_causes_are_those_of_the_program(stations, tmp_path):
    site = Site(stations)
    path = site.write(tmp_path)
    for with_unseen in (False, True):
        (tmp_path / "rates.toml").write_text(rates_text(with_unseen))
        command = [os.environ["LATCHLINE"], "locate", str(path), "PS=47.9V", "--rates", str(tmp_path / "rates.toml"), "--format", "json"]
        answer = json.loads(subprocess.run(command, capture_output=True, text=True, timeout=120, check=True).stdout)
        theirs = {(one["kind"], one["element"]) for one in answer["causes"]}
        assert theirs == {(one.kind, element(site, one)) for one in causes(site, with_unseen)[0]}
