"""What `latchline locate` says of sized causes is what plain Monte Carlo over sizes and tolerances says.

Source: JCGM 101:2008 (propagation by sampling), on the whole nonlinear circuit of the judge (`benches/locate/judge`, held against ngspice by
`test_locate_judge.py`): no derivative, no grid of sizes, no covariance. Sizes without operating point or with a station off are no part of either.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

import numpy as np

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "benches" / "locate" / "judge"))

from kinds import causes, element, put, rates_text  # noqa: E402
from oracle import CARELESS, MOST_A, MOST_V, WRONG, meter_variance  # noqa: E402
from sites import Quantity, Site  # noqa: E402
from test_locate_judge import read, varied  # noqa: E402

FIRST_LOOK, FAR = 2_000, 16.0


def logs(site: Site, cause, low: float, high: float, quantities: list[Quantity], seen: np.ndarray, many: int, rng) -> tuple[np.ndarray, np.ndarray]:
    """Sizes between two of the range, every decade as likely, and the logarithm of the likelihood of each with tolerances of its own."""
    sizes = low * (high / low) ** rng.random(many)
    c = varied(site, site.circuits(1), rng.normal(size=(len(site.rows(site.circuits(1), quantities, None)), many)))
    put(site, c, slice(None), cause, sizes)
    e = seen[:, None] - read(site, c, quantities)
    meters, most = meter_variance(quantities, seen), np.array([MOST_A if one.kind == "current" else MOST_V for one in quantities])
    fine, n = np.log(1 - WRONG - CARELESS), len(quantities)
    normal = lambda variance: -0.5 * (e**2 / variance[:, None] + np.log(2 * np.pi * variance[:, None]))  # noqa: E731
    each = normal(meters)
    odd = each.sum(0) - each + (n - 1) * fine
    parts = [each.sum(0)[None] + n * fine, odd + normal(25 * meters) + np.log(CARELESS), odd + np.log(WRONG / most)[:, None]]
    found = np.logaddexp.reduce(np.concatenate(parts))
    return sizes, np.where(site.tree.solve(c).bad | ~np.isfinite(found), -np.inf, found)


def integrals(site: Site, wanted, quantities: list[Quantity], seen: np.ndarray, many: int) -> dict[tuple[str, str], float]:
    """Logarithm of prior times likelihood of each of these causes: a first look where its sizes fit, then many sizes there."""
    rng, found = np.random.default_rng(7), {}
    every, prior = causes(site, with_unseen=False)
    looks = {k: logs(site, every[k], *(every[k].size or (1.0, 1.0001)), quantities, seen, FIRST_LOOK, rng) for k in range(len(every)) if wanted(every[k])}
    best = max(log.max() for _, log in looks.values())
    for k, (sizes, log) in looks.items():
        (low, high), near = every[k].size or (1.0, 1.0001), sizes[log > best - FAR]
        if len(near) == 0:
            found[every[k].kind, element(site, every[k])] = -np.inf
            continue
        step = (high / low) ** 0.01
        inner_low, inner_high = max(near.min() / step, low), min(near.max() * step, high)
        _, log = logs(site, every[k], inner_low, inner_high, quantities, seen, many, rng)
        share = np.log(inner_high / inner_low) / np.log(high / low)
        found[every[k].kind, element(site, every[k])] = np.logaddexp.reduce(log) - np.log(many) + np.log(share * prior[k])
    return found


def said(site: Site, folder: Path, items: list[str], kinds: tuple[str, ...]) -> dict[tuple[str, str], float]:
    """What the program says of causes of these kinds, among themselves."""
    path = site.write(folder)
    (folder / "rates.toml").write_text(rates_text(False))
    command = [os.environ["LATCHLINE"], "locate", str(path), *items, "--rates", str(folder / "rates.toml"), "--format", "json"]
    answer = json.loads(subprocess.run(command, capture_output=True, text=True, timeout=120, check=True).stdout)
    of_kinds = {(one["kind"], one["element"]): one["probability"] for one in answer["causes"] if one["kind"] in kinds}
    total = sum(of_kinds.values())
    return {name: value / total for name, value in of_kinds.items()}


def shares(found: dict[tuple[str, str], float]) -> dict[tuple[str, str], float]:
    total = np.logaddexp.reduce(list(found.values()))
    return {name: float(np.exp(log - total)) for name, log in found.items()}


def test_a_joint_that_lets_no_such_current_through_explains_none(tmp_path):
    """Through a joint the run gets no more than a quarter of the squared voltage by its resistance (maximum power transfer): far less than was read.
    Just below that size the voltage falls without bound for any further load, by its derivative."""
    site, kinds = Site(31), ("joint", "short-resistive")
    quantities = [Quantity("current", 0), Quantity("voltage", site.node["S1-1"]), Quantity("current", next(run.nodes[0] for run in site.runs if run.name == "R2"))]
    quantities += [Quantity("voltage", site.node["S2-4"]), Quantity("voltage", site.node["front"])]
    seen = np.array([1.820759, 47.249861, 0.133162, 46.998735, 47.673801])
    items = ["PS=1.820759A", "S1-1=47.249861V", "R2=0.133162A", "S2-4=46.998735V", "front=47.673801V"]
    ours = said(site, tmp_path, items, kinds)
    # Shorts of four runs fit alike; those of one and the joints of another say how much joints have.
    wanted = lambda cause: (cause.kind, site.runs[site.run_of[cause.place]].name) in (("joint", "R4"), ("short-resistive", "R3"))  # noqa: E731
    sampled = integrals(site, wanted, quantities, seen, 20_000)
    shorts = [name for name in sampled if name[0] == "short-resistive"]
    joints = [name for name in sampled if name[0] == "joint"]
    by_sampling = np.exp(np.logaddexp.reduce([sampled[name] for name in joints]) - np.logaddexp.reduce([sampled[name] for name in shorts]))
    by_program = sum(ours.get(name, 0.0) for name in joints) / sum(ours[name] for name in shorts)
    assert by_sampling < 0.005, by_sampling
    assert by_program < by_sampling + 0.005, (by_program, by_sampling)


def test_a_peak_between_two_sizes_is_found_wherever_it_lies(tmp_path):
    """Stations of one run that draw too much: the nearer ones predict what was read at sizes within a hundredth of their range, and fit nearly alike."""
    site, kinds = Site(12), ("station-overdraw",)
    run = next(run for run in site.runs if run.name == "R2")
    quantities = [Quantity("current", 0), Quantity("current", run.nodes[0]), Quantity("voltage", site.node["S2-5"])]
    ours = said(site, tmp_path, ["PS=0.808530A", "R2=0.617025A", "S2-5=46.723503V"], kinds)
    wanted = lambda cause: cause.kind in kinds and cause.place in run.nodes  # noqa: E731
    sampled = shares(integrals(site, wanted, quantities, np.array([0.808530, 0.617025, 46.723503]), 100_000))
    apart = {name: (ours.get(name, 0.0), share) for name, share in sampled.items()}
    assert len(apart) > 4
    assert max(abs(a - b) for a, b in apart.values()) < 0.02, apart


def test_a_short_is_no_tolerance_of_the_station_at_whose_terminals_it_is(tmp_path):
    """Resistive shorts and leakages whose sizes end and begin beside what fits: how much each has says where the likelihood lies."""
    site, kinds = Site(12), ("short-resistive", "leakage", "station-overdraw")
    quantities = [Quantity("current", 0), Quantity("voltage", site.node["S1-2"]), Quantity("voltage", 0), Quantity("voltage", site.node["S2-7"])]
    quantities += [Quantity("current", next(run.nodes[0] for run in site.runs if run.name == "R1"))]
    items = ["PS=0.485936A", "S1-2=46.820856V", "PS=47.014846V", "S2-7=46.448537V", "R1=0.232297A"]
    ours = said(site, tmp_path, items, kinds)
    place = site.node["S1-4"]
    wanted = lambda cause: cause.kind in kinds and cause.place == place  # noqa: E731
    sampled = shares(integrals(site, wanted, quantities, np.array([0.485936, 46.820856, 47.014846, 46.448537, 0.232297]), 200_000))
    total = sum(ours[name] for name in sampled)
    apart = {name: (ours[name] / total, share) for name, share in sampled.items()}
    assert max(abs(a - b) for a, b in apart.values()) < 0.02, apart
