"""The same start-up case as text for our example program and as a netlist for ngspice.

ngspice is a general circuit simulator with its own integrator (trapezoidal) and its own model
equations: limiters as behavioural sources, thresholds as switches with hysteresis, delays and boot
times as capacitors charged by a constant current.
"""

from __future__ import annotations

import pathlib
import subprocess
from dataclasses import dataclass, field

import numpy as np

# Series resistance of every bridge, ohm: ngspice needs one, so both models have it.
BRIDGE_OHM = 0.05
# A timer falls back this fast when its device stops, 1/s.
RESET = 1e5


@dataclass
class Device:
    node: int
    capacitance_f: float
    drop_v: float
    on_v: float
    off_v: float
    delay_s: float
    boot_w: float
    boot_s: float
    run_w: float


@dataclass
class Case:
    """Nodes 1.. are (parent, ohm); the supply is at node 0 and has an output capacitor."""

    voltage_v: float
    source_ohm: float
    output_f: float
    limit: tuple
    nodes: list[tuple[int, float]]
    devices: list[Device]
    loads: list[tuple[int, float]] = field(default_factory=list)  # node, siemens
    end_s: float = 3.0

    def as_text(self, extra: str = "") -> str:
        lines = [
            f"supply {self.voltage_v} {self.source_ohm} capacitance {self.output_f}",
            "limit " + " ".join(str(word) for word in self.limit),
        ]
        lines += [f"node {parent} {ohm}" for parent, ohm in self.nodes]
        first = len(self.nodes) + 1
        lines += [f"node {d.node} {BRIDGE_OHM}" for d in self.devices]
        for i, d in enumerate(self.devices):
            lines.append(
                f"device {first + i} {d.capacitance_f} {d.drop_v} 0 converter {d.on_v} {d.off_v} "
                f"{d.delay_s} {d.boot_w} {d.boot_s} {d.run_w}"
            )
        lines += [f"load {node} 0 {siemens}" for node, siemens in self.loads]
        lines.append(f"end {self.end_s}")
        return "\n".join(lines) + "\n" + extra

    def as_netlist(self, output: str, step_s: float, vectors: list[str] | None = None) -> str:
        lines = ["start-up"]
        free = f"(({self.voltage_v}-V(b0))/{self.source_ohm})"
        kind, *numbers = self.limit
        on = "1"
        if kind == "none":
            held = "1e6"
        elif kind == "foldback":
            largest, knee, short = numbers
            held = f"({short}+({largest}-{short})*max(0,min(1,V(b0)/{knee})))"
        else:
            held = str(numbers[0])
        if kind == "hiccup":
            limit_a, trip_s, off_s = numbers
            on = "(V(off)<0.5)"
            lines += [
                "Cx x 0 1 IC=0",
                f"Bx 0 x I=V(off)>0.5 ? {-1 / off_s} : "
                f"({free}>={limit_a} ? {1 / trip_s} : {-RESET}*V(x))",
                "Sx hi off x 0 latch OFF",
                ".model latch sw(vt=0.5 vh=0.5 ron=1 roff=1e9)",
                "Roff off 0 1e4",
            ]
        lines += [
            "Vhi hi 0 1",
            f"Bs 0 b0 I={on}*max(0,min({held},{free}))",
            f"Cs b0 0 {self.output_f} IC=0",
        ]
        for k, (parent, ohm) in enumerate(self.nodes, start=1):
            lines.append(f"R{k} b{parent} b{k} {ohm}")
        for i, d in enumerate(self.devices):
            middle = (d.on_v + d.off_v) / 2
            half = (d.on_v - d.off_v) / 2
            ready = f"V(t{i})<{d.delay_s}"
            power = f"(V(t{i})<{d.delay_s + d.boot_s} ? {d.boot_w} : {d.run_w})"
            lines += [
                f"Bd{i} b{d.node} c{i} I=max(0,(V(b{d.node})-V(c{i})-{d.drop_v})/{BRIDGE_OHM})",
                f"Cd{i} c{i} 0 {d.capacitance_f} IC=0",
                f"Se{i} hi e{i} c{i} 0 lockout{i} OFF",
                f".model lockout{i} sw(vt={middle} vh={half} ron=1 roff=1e9)",
                f"Re{i} e{i} 0 1e4",
                f"Ct{i} t{i} 0 1 IC=0",
                f"Bt{i} 0 t{i} I=V(e{i})>0.5 ? 1 : {-RESET}*V(t{i})",
                f"Bp{i} c{i} 0 I=({ready}) ? 0 : {power}/max(V(c{i}),1)",
            ]
        for i, (node, siemens) in enumerate(self.loads):
            lines.append(f"Rl{i} b{node} 0 {1 / siemens}")
        if vectors is None:
            vectors = self.vectors()
        lines += [
            ".options reltol=1e-4 abstol=1e-9 vntol=1e-5 method=trap",
            ".control",
            "set wr_singlescale",
            "set wr_vecnames",
            f"tran {step_s} {self.end_s} 0 {step_s} uic",
            f"wrdata {output} " + " ".join(vectors),
            "quit",
            ".endc",
            ".end",
        ]
        return "\n".join(lines) + "\n"

    def vectors(self) -> list[str]:
        vectors = [f"v(b{k})" for k in range(len(self.nodes) + 1)]
        for i in range(len(self.devices)):
            vectors += [f"v(c{i})", f"v(t{i})"]
        if self.limit[0] == "hiccup":
            vectors.append("v(off)")
        return vectors


@dataclass
class Waves:
    """ngspice's waveforms by vector name."""

    time_s: np.ndarray
    columns: dict[str, np.ndarray]

    def rises(self, name: str, level: float) -> np.ndarray:
        """Times at which a vector crosses a level upwards, by linear interpolation."""
        y = self.columns[name]
        at = np.flatnonzero((y[:-1] < level) & (y[1:] >= level))
        share = (level - y[at]) / (y[at + 1] - y[at])
        return self.time_s[at] + share * (self.time_s[at + 1] - self.time_s[at])


def ngspice(case: Case, folder: pathlib.Path, step_s: float) -> Waves:
    output = folder / "waves.txt"
    netlist = folder / "case.cir"
    netlist.write_text(case.as_netlist(str(output), step_s))
    done = subprocess.run(["ngspice", "-b", str(netlist)], capture_output=True, text=True, timeout=300)
    assert output.exists(), done.stdout + done.stderr
    table = np.loadtxt(output, skiprows=1)
    names = case.vectors()
    assert table.shape[1] == len(names) + 1
    return Waves(table[:, 0], {name: table[:, 1 + i] for i, name in enumerate(names)})


@dataclass
class Ours:
    """What our example program printed."""

    outcome: list[str]
    devices: list[list[str]]
    node_v: list[float]
    supply_a: float
    trips_s: list[float]


def ours(program: pathlib.Path, text: str) -> Ours:
    done = subprocess.run([str(program)], input=text, capture_output=True, text=True, timeout=60)
    assert done.returncode == 0, done.stderr
    rows = [line.split() for line in done.stdout.splitlines()]
    only = lambda word: [row[1:] for row in rows if row and row[0] == word]  # noqa: E731
    return Ours(
        outcome=only("outcome")[0],
        devices=[row[1:] for row in only("device")],
        node_v=[float(row[1]) for row in only("node")],
        supply_a=float(only("supply")[0][0]),
        trips_s=[float(word) for word in only("trips")[0]],
    )
