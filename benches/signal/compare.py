"""Response of a tree of lossy lines at many frequencies: Latchline's kernel against a vectorised NumPy
chain-matrix program and scikit-rf, on the same tree in the same run.

The NumPy program works level by level on arrays of (nodes of the level) x (frequencies), with all
hyperbolic functions taken in one call each: a Python loop over levels only. A second NumPy
program, node by node over arrays of frequencies, is timed too; the faster of the two counts.
scikit-rf computes the response at one node only (the farthest), by cascading networks.
"""
import os
import statistics
import subprocess
import sys
import tempfile
import time

os.environ.setdefault("OMP_NUM_THREADS", "1")
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
import numpy as np  # noqa: E402
from skrf.frequency import Frequency  # noqa: E402
from skrf.network import Network, a2s, y2s  # noqa: E402
from skrf.media import DefinedGammaZ0  # noqa: E402

SOURCE_OHM = 100.0
LINES = np.array([  # R, L, C, G per metre, skin corner
    [0.176, 6e-7, 5e-11, 0.0, 6e4],
    [0.0686, 6.5e-7, 6e-11, 1e-9, 4e4],
    [0.0362, 6e-7, 9e-11, 1e-8, 3e4],
])


def make_tree(nodes, seed):
    """A building: mostly chains, a branch now and then, 2 to 12 m apart, a bridging load at every node."""
    rng = np.random.default_rng(seed)
    parent = np.full(nodes, -1)
    for k in range(1, nodes):
        parent[k] = k - 1 if rng.random() < 0.85 else rng.integers(0, k)
    return {
        "parent": parent,
        "length": np.r_[0.0, rng.uniform(2.0, 12.0, nodes - 1)],
        "line": np.r_[0, rng.integers(0, len(LINES), nodes - 1)],
        "resistance": np.r_[np.inf, rng.uniform(5e3, 5e4, nodes - 1)],
        "capacitance": np.r_[0.0, rng.uniform(2e-11, 2e-10, nodes - 1)],
    }


def line_constants(f):
    """Propagation constant and characteristic impedance, line by line."""
    r, l, c, g, corner = (LINES[:, i:i + 1] for i in range(5))
    w = 2 * np.pi * f
    z = r * (1 + (f / corner) ** 2) ** 0.25 + 1j * w * l
    y = g + 1j * w * c
    return np.sqrt(z * y), np.sqrt(z / y)


def levels_of(parent):
    depth = np.zeros(len(parent), int)
    for k in range(1, len(parent)):
        depth[k] = depth[parent[k]] + 1
    return [np.flatnonzero(depth == d) for d in range(depth.max() + 1)]


def by_levels(tree, f, levels):
    parent, line = tree["parent"], tree["line"]
    gamma, z0 = line_constants(f)
    gd, z = gamma[line] * tree["length"][:, None], z0[line]
    cosh, sinh = np.cosh(gd), np.sinh(gd)
    b, c = z * sinh, sinh / z
    y = 1 / tree["resistance"][:, None] + 2j * np.pi * f * tree["capacitance"][:, None]
    ratio = np.empty_like(y)
    for level in levels[:0:-1]:
        yl = y[level]
        ratio[level] = 1 / (cosh[level] + b[level] * yl)
        np.add.at(y, parent[level], (c[level] + cosh[level] * yl) * ratio[level])
    v = np.empty_like(y)
    v[0] = 1 / (1 + SOURCE_OHM * y[0])
    for level in levels[1:]:
        v[level] = v[parent[level]] * ratio[level]
    return v


def by_nodes(tree, f):
    parent, line = tree["parent"], tree["line"]
    gamma, z0 = line_constants(f)
    gd, z = gamma[line] * tree["length"][:, None], z0[line]
    cosh, sinh = np.cosh(gd), np.sinh(gd)
    b, c = z * sinh, sinh / z
    y = 1 / tree["resistance"][:, None] + 2j * np.pi * f * tree["capacitance"][:, None]
    ratio = np.empty_like(y)
    for k in range(len(parent) - 1, 0, -1):
        ratio[k] = 1 / (cosh[k] + b[k] * y[k])
        y[parent[k]] += (c[k] + cosh[k] * y[k]) * ratio[k]
    v = np.empty_like(y)
    v[0] = 1 / (1 + SOURCE_OHM * y[0])
    for k in range(1, len(parent)):
        v[k] = v[parent[k]] * ratio[k]
    return v


def by_scikit_rf(tree, f, target):
    """Voltage at `target` alone."""
    frequency = Frequency.from_f(f, unit="hz")
    gamma, z0 = line_constants(f)
    media = [DefinedGammaZ0(frequency, gamma=gamma[i], z0=z0[i], z0_port=100.0) for i in range(len(LINES))]
    parent, n = tree["parent"], len(tree["parent"])
    w = 2 * np.pi * f
    own = [1 / tree["resistance"][k] + 1j * w * tree["capacitance"][k] for k in range(n)]
    path = [target]
    while path[-1]:
        path.append(parent[path[-1]])
    on_path = set(path)
    y = [np.array(v) for v in own]
    for k in range(n - 1, 0, -1):
        if k in on_path:
            continue
        load = Network(frequency=frequency, z0=100.0, s=y2s(y[k][:, None, None], 100.0))
        y[parent[k]] = y[parent[k]] + (media[tree["line"][k]].line(tree["length"][k], "m") ** load).y[:, 0, 0]
    total = None
    for k in path[::-1]:
        if k:
            step = media[tree["line"][k]].line(tree["length"][k], "m")
            total = step if total is None else total ** step
        if k != target:
            a = np.zeros((len(f), 2, 2), complex)
            a[:, 0, 0] = a[:, 1, 1] = 1
            a[:, 1, 0] = y[k]
            shunt = Network(frequency=frequency, z0=100.0, s=a2s(a, 100.0))
            total = shunt if total is None else total ** shunt
    a = total.a
    yt = y[target]
    return 1 / (a[:, 0, 0] + a[:, 0, 1] * yt + SOURCE_OHM * (a[:, 1, 0] + a[:, 1, 1] * yt))


def kernel(binary, tree, f, repeats, *widest):
    with tempfile.NamedTemporaryFile("w", suffix=".txt") as file:
        print(SOURCE_OHM, file=file)
        print(*map(repr, map(float, f)), file=file)
        for k in range(1, len(tree["parent"])):
            values = [tree["length"][k], *LINES[tree["line"][k]], tree["resistance"][k], tree["capacitance"][k]]
            print(tree["parent"][k], *map(repr, map(float, values)), file=file)
        file.flush()
        out = subprocess.run([binary, file.name, str(repeats), *widest], capture_output=True, text=True, check=True).stdout
    head, _, rest = out.partition("\n")
    table = np.array(rest.split(), float).reshape(len(tree["parent"]), len(f), 2)
    return tuple(map(float, head.split())), table


def timed(function, *arguments):
    start = time.perf_counter()
    result = function(*arguments)
    return (time.perf_counter() - start) * 1e3, result


def main():
    binary, widest = sys.argv[1], sys.argv[2:]
    nodes, count, rounds = 501, 200, 7
    tree = make_tree(nodes, 1)
    f = np.geomspace(300.0, 30e6, count)
    levels = levels_of(tree["parent"])
    target = int(levels[-1][0])
    names = ("kernel", "kernel and dB", "NumPy by levels", "NumPy by nodes", "faster NumPy and dB", "scikit-rf, one node")
    times = {name: [] for name in names}
    ratios = []
    for _ in range(rounds):
        (ours, ours_db), table = kernel(binary, tree, f, 15, *widest)
        by_level, v = min((timed(by_levels, tree, f, levels) for _ in range(3)), key=lambda t: t[0])
        by_node, _ = min((timed(by_nodes, tree, f) for _ in range(3)), key=lambda t: t[0])
        rf, vt = timed(by_scikit_rf, tree, f, target)
        taking_db = min(timed(lambda: 20 * np.log10(np.abs(v)))[0] for _ in range(3))
        numpy_ms = min(by_level, by_node)
        for name, value in zip(times, (ours, ours_db, by_level, by_node, numpy_ms + taking_db, rf)):
            times[name].append(value)
        ratios.append((numpy_ms / ours, (numpy_ms + taking_db) / ours_db, rf / ours))
    db = 20 * np.log10(np.abs(v))
    off = np.max(np.abs(db - table[:, :, 0]))
    off_rf = np.max(np.abs(20 * np.log10(np.abs(vt)) - table[target, :, 0]))
    print(f"{nodes} nodes ({len(levels)} levels), {count} frequencies, one thread, median of {rounds} rounds; kernel {widest[0] if widest else 'with all that the processor has'}")
    for name, values in times.items():
        print(f"  {name:20s} {statistics.median(values):9.3f} ms")
    print(f"faster NumPy program / kernel, complex voltages: {statistics.median(r[0] for r in ratios):.1f}")
    print(f"the same with decibels: {statistics.median(r[1] for r in ratios):.1f}")
    print(f"scikit-rf (one node) / kernel (all nodes): {statistics.median(r[2] for r in ratios):.0f}")
    print(f"largest difference: NumPy {off:.1e} dB, scikit-rf {off_rf:.1e} dB")
    for big in (10_000, 100_000):
        (ours, _), _ = kernel(binary, make_tree(big, 2), f[:32], 3, *widest)
        print(f"  {big} nodes, 32 frequencies: {ours:.1f} ms, {ours * 1e6 / big / 32:.1f} ns per node and frequency")
    assert off < 1e-6 and off_rf < 1e-6, "the programs disagree"


main()
