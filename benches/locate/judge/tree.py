"""Direct-current physics of a bus that is a tree, in NumPy: many circuits at once, and how every reading depends on every tolerance.

Node 0 is the supply's terminals; its branch is the source resistance behind the ideal voltage. Branch k leads from `parent[k]` to node k. What hangs at
a node draws a constant power and a conductance, i = P/v + g v. Arrays are (nodes, circuits). Ohm's and Kirchhoff's laws, Newton's iteration from the
supply's voltage downwards; sensitivities by the adjoint network (reciprocity of the linearised network; Director and Rohrer, IEEE Trans. Circuit
Theory 16, 1969, from memory).
"""

from __future__ import annotations

import subprocess
from dataclasses import dataclass
from pathlib import Path

import numpy as np

ROOT3 = np.sqrt(3.0)
LEAK_S = 1e-12  # at every node, for ngspice to have a way to ground behind a break
LEAST_V = 24.0  # below it a station stops; what a meter shows then no circuit of constant powers tells


@dataclass
class Circuits:
    """Numbers of some circuits; `cut[k]` is a branch that is broken."""

    supply_v: np.ndarray
    copper: np.ndarray
    terminals: np.ndarray
    other_ohm: np.ndarray
    watt: np.ndarray
    scale: np.ndarray
    extra_watt: np.ndarray
    across: np.ndarray
    cut: np.ndarray

    def take(self, columns) -> "Circuits":
        return Circuits(**{key: value[..., columns] for key, value in vars(self).items()})

    def copy(self) -> "Circuits":
        return Circuits(**{key: np.array(value) for key, value in vars(self).items()})


@dataclass
class Solved:
    """Voltages (0 behind a break), branch currents, slopes of the loads; `collapsed` without operating point, `bad` then or where a station would stop."""

    v: np.ndarray
    f: np.ndarray
    slope: np.ndarray
    dark: np.ndarray
    bad: np.ndarray
    collapsed: np.ndarray


class Tree:
    """The shape: parents come before their children."""

    def __init__(self, parent: list[int]) -> None:
        self.parent = np.array(parent)
        self.nodes = len(parent)

    def behind(self, circuits: Circuits) -> np.ndarray:
        dark = np.array(circuits.cut)
        for k in range(1, self.nodes):
            dark[k] |= dark[self.parent[k]]
        return dark

    def solve(self, c: Circuits) -> Solved:
        parent, n = self.parent, self.nodes
        ohm = c.copper + c.terminals + c.other_ohm
        dark = self.behind(c)
        watt = np.where(dark, 0.0, c.watt * c.scale + c.extra_watt)
        across = np.where(dark, 0.0, c.across)
        v = np.broadcast_to(c.supply_v, ohm.shape).copy()
        bad = np.zeros(ohm.shape[1], dtype=bool)
        for _ in range(60):
            slope = across - watt / v**2
            y, j = slope.copy(), 2.0 * watt / v
            for k in range(n - 1, 0, -1):
                pivot = 1.0 + ohm[k] * y[k]
                y[parent[k]] += y[k] / pivot
                j[parent[k]] += j[k] / pivot
                bad |= pivot <= 1e-9
            new = np.empty_like(v)
            for k in range(n):
                above = c.supply_v if k == 0 else new[parent[k]]
                new[k] = (above - ohm[k] * j[k]) / (1.0 + ohm[k] * y[k])
            bad |= ~np.isfinite(new).all(0) | (new < 1.0).any(0)
            new[:, bad] = c.supply_v[bad] if np.ndim(c.supply_v) else c.supply_v
            step = np.abs(new - v).max()
            v = new
            if step < 1e-9:
                break
        slope = across - watt / v**2
        collapsed = bad.copy()
        bad |= ((v < LEAST_V) & (watt > 0)).any(0)
        f = watt / v + across * v
        for k in range(n - 1, 0, -1):
            f[parent[k]] += f[k]
        return Solved(np.where(dark, 0.0, v), f, slope, dark, bad, collapsed)

    def transfer(self, c: Circuits, s: Solved, at: list[int]) -> tuple[np.ndarray, np.ndarray]:
        """What 1 A drawn at each node of `at` does to all voltages and branch currents: (nodes, circuits, at)."""
        parent, n = self.parent, self.nodes
        ohm = c.copper + c.terminals + c.other_ohm
        y = s.slope.copy()
        j = np.zeros((*y.shape, len(at)))
        for number, node in enumerate(at):
            j[node, :, number] = np.where(s.dark[node], 0.0, 1.0)  # what is behind a break moves nothing
        for k in range(n - 1, 0, -1):
            pivot = 1.0 + ohm[k] * y[k]
            y[parent[k]] += y[k] / pivot
            j[parent[k]] += j[k] / pivot[:, None]
        z = np.empty_like(j)
        for k in range(n):
            above = 0.0 if k == 0 else z[parent[k]]
            z[k] = (above - ohm[k][:, None] * j[k]) / (1.0 + ohm[k] * y[k])[:, None]
        f = j + y[:, :, None] * z
        z[s.dark] = 0.0
        f[s.dark] = 0.0
        return z, f

    def ngspice(self, c: Circuits, folder: Path) -> tuple[np.ndarray, float]:
        """Voltages and the supply's current of one circuit by ngspice."""
        ohm = (c.copper + c.terminals + c.other_ohm)[:, 0]
        watt = np.where(self.behind(c), 0.0, c.watt * c.scale + c.extra_watt)[:, 0]
        lines = ["tree", f"V0 in 0 {float(np.ravel(c.supply_v)[0])!r}"]
        for k in range(self.nodes):
            above = "in" if k == 0 else f"n{self.parent[k]}"
            lines.append(f"R{k} {above} n{k} {1e12 if c.cut[k, 0] else max(float(ohm[k]), 1e-9)!r}")
            if watt[k] > 0:
                lines.append(f"B{k} n{k} 0 I = {float(watt[k])!r}/max(v(n{k}), 1)")
            lines.append(f"Rx{k} n{k} 0 {float(1.0 / max(c.across[k, 0], LEAK_S))!r}")
            lines.append(f".nodeset v(n{k})=45")
        names = [f"v(n{k})" for k in range(self.nodes)] + ["i(v0)"]
        lines += [".options reltol=1e-9 abstol=1e-13 vntol=1e-10", ".control", "set numdgt=12", "op"] + [f"print {name}" for name in names] + [".endc", ".end"]
        netlist = folder / "fault.cir"
        netlist.write_text("\n".join(lines) + "\n")
        done = subprocess.run(["ngspice", "-b", str(netlist)], capture_output=True, text=True, timeout=120)
        found = dict(line.split(" = ") for line in done.stdout.splitlines() if line.count(" = ") == 1)
        return np.array([float(found[name]) for name in names[:-1]]), -float(found["i(v0)"])
