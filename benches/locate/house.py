"""Invented houses for measuring `latchline locate`, written down twice: as site files, and as circuits for NumPy and ngspice.

A house has one supply, chains of stations and a run to its door, all from the supply's terminals. Nothing is shared with the program but the
meaning of its files; part data are those of `checks/locate_site.py`.
"""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import numpy as np

sys.path.insert(0, str(Path(__file__).resolve().parents[2] / "checks"))
import locate_site as parts  # noqa: E402

ROOT3 = np.sqrt(3.0)
RING_W, DOOR_RING_W = 5.0, 6.0
SPACING_M, FIRST_M, DOOR_M = 5.0, 15.0, 12.0
METER_S = 1e-7  # a meter of 10 Mohm, at every place

# Of a hundred calls; each size by decades, as `--rates` has it.
KINDS = {
    "joint": (0.30, (1.0, 60.0)),
    "open": (0.15, None),
    "leakage": (0.05, (300.0, 5000.0)),
    "short-resistive": (0.07, (40.0, 300.0)),
    "station-overdraw": (0.10, (1.0, 15.0)),
    "station-dead": (0.13, None),
    "supply-low": (0.07, (0.6, 0.93)),
    "supply-soft": (0.05, (0.3, 6.0)),
    "thin-conductor": (0.08, (1.5, 3.5)),
}
NONE_OF_THESE = 0.02


def rates_text() -> str:
    kinds = "\n".join(
        f'{kind} = {{ group = "all", share = {share}' + (f", low = {size[0]}, high = {size[1]}" if size else "") + " }"
        for kind, (share, size) in KINDS.items()
    )
    return (
        f"none_of_these = {100 * NONE_OF_THESE}\nwrong_reading = 0.003\ncareless_reading = 0.03\n"
        f"[groups]\nall = {{ first-month = 100, in-service = 100 }}\n[kinds]\n{kinds}\n[symptoms]\n"
    )


class House:
    """`chains` of `each` stations; node c * each + j is station j of chain c, the last node is the door."""

    def __init__(self, chains: int, each: int) -> None:
        self.chains, self.each = chains, each
        self.stations = chains * each
        self.nodes = self.stations + 1
        names = [f"S{c + 1}-{j + 1}" for c in range(chains) for j in range(each)]
        self.names = [*names, "front"]
        self.runs = [f"R{c + 1}" for c in range(chains)] + ["way"]
        # supply, drum, length of every run, batch of stations, of doors, every station's own, terminals of every section
        self.factors = 2 + (chains + 1) + 2 + self.nodes + self.nodes
        run = np.repeat(np.arange(chains), each)
        self.run = np.append(run, chains)
        first = np.tile(np.arange(each) == 0, chains)
        self.metres = np.append(np.where(first, FIRST_M, SPACING_M), DOOR_M)

    def write(self, folder: Path) -> Path:
        folder.mkdir(parents=True, exist_ok=True)
        (folder / "mere.toml").write_text(parts.CATALOGUE.replace('rated_current = "5 A"', 'rated_current = "60 A"').replace("last = 99, set_by", "last = 999, set_by").replace("digits = 2", "digits = 3"))
        runs = "\n".join(
            f'R{c + 1} = {{ from = "PS", to = {json.dumps([self.names[c * self.each + j] for j in range(self.each)])}, '
            f'first = "{FIRST_M} m", spacing = "{SPACING_M} m" }}'
            for c in range(self.chains)
        )
        dwellings = "\n".join(f'{name} = {{ place = "A/G" }}' for name in self.names[:-1])
        text = parts.site_text()
        head = text[: text.index("[dwellings]")]
        text = f'{head}[dwellings]\n{dwellings}\n\n[runs]\n{runs}\nway = {{ from = "PS", to = "front", length = "{DOOR_M} m" }}\n'
        (folder / "rates.toml").write_text(rates_text())
        path = folder / "site.toml"
        path.write_text(text)
        return path

    def circuit(self, z: np.ndarray | None = None) -> dict:
        z = np.zeros(self.factors) if z is None else z
        c = self.chains
        drum = 1 + z[1] * parts.DRUM_TOLERANCE / ROOT3
        length = 1 + z[2 : 3 + c] * parts.LENGTH_TOLERANCE / ROOT3
        copper = 2 * parts.OHM_PER_M * self.metres * drum * length[self.run]
        terminals = 4 * parts.JOINT_OHM * (1 + 0.5 * np.maximum(z[-self.nodes :], -1.8))
        half = 0.5 * parts.LOAD_TOLERANCE / ROOT3
        batch = np.append(np.full(self.stations, z[3 + c]), z[4 + c])
        own = z[5 + c : 5 + c + self.nodes]
        watt = np.append(np.full(self.stations, parts.STANDBY_W), parts.DOOR_W)
        return {
            "supply_v": parts.SUPPLY_V * (1 + z[0] * parts.VOLTAGE_TOLERANCE / ROOT3),
            "supply_ohm": parts.SUPPLY_OHM,
            "copper": copper,
            "terminals": terminals,
            "watt": watt * (1 + half * batch) * (1 + half * own),
            "scale": (1 + half * batch) * (1 + half * own),
            "across": np.zeros(self.nodes),
            "cut": np.zeros(self.nodes, dtype=bool),
        }

    def causes(self) -> list[tuple[str, int]]:
        """Every single cause: kind and node, run or nothing."""
        found = []
        for kind in KINDS:
            if kind in ("supply-low", "supply-soft"):
                places = [0]
            elif kind == "thin-conductor":
                places = range(self.chains + 1)
            elif kind in ("station-overdraw", "station-dead"):
                places = range(self.stations)
            else:
                places = range(self.nodes)
            found += [(kind, place) for place in places]
        return found

    def element(self, kind: str, place: int) -> str:
        if kind in ("supply-low", "supply-soft"):
            return "PS"
        if kind == "thin-conductor":
            return self.runs[place]
        if kind in ("station-overdraw", "station-dead"):
            return self.names[place]
        first = place == self.stations or place % self.each == 0
        return f"{self.runs[self.run[place]]}: {'PS' if first else self.names[place - 1]} – {self.names[place]}"

    def beyond(self, place: int) -> np.ndarray:
        """The nodes at and beyond a node."""
        nodes = np.arange(self.nodes)
        return (self.run == self.run[place]) & (nodes >= place)

    def put(self, circuit: dict, kind: str, place: int, size: float) -> None:
        if kind == "joint":
            circuit["terminals"][place] += size
        elif kind in ("leakage", "short-resistive"):
            circuit["across"][place] += 1.0 / size
        elif kind == "station-overdraw":
            circuit["watt"][place] += size
        elif kind == "station-dead":
            circuit["watt"][place] = 0.0
        elif kind == "open":
            circuit["cut"] |= self.beyond(place)
        elif kind == "supply-low":
            circuit["supply_v"] *= size
        elif kind == "supply-soft":
            circuit["supply_ohm"] += size
        elif kind == "thin-conductor":
            circuit["copper"][self.run == place] *= size

    def ring(self, circuit: dict, station: int) -> None:
        more = np.zeros(self.nodes)
        more[station] = RING_W - parts.STANDBY_W
        more[-1] = DOOR_RING_W - parts.DOOR_W
        circuit["watt"] = np.where(circuit["watt"] > 0, circuit["watt"] + more * circuit["scale"], 0.0)

    def solve(self, circuits: list[dict]) -> np.ndarray:
        """Voltages of all nodes, of the supply's terminals, and its current, of many circuits; NaN where it collapses."""
        stack = lambda key: np.array([circuit[key] for circuit in circuits])  # noqa: E731
        cut = stack("cut")
        ohm = stack("copper") + stack("terminals")
        watt, across = np.where(cut, 0.0, stack("watt")), np.where(cut, 0.0, stack("across"))
        supply_v, supply_ohm = stack("supply_v")[:, None], stack("supply_ohm")[:, None]
        v = np.broadcast_to(supply_v, ohm.shape).copy()
        chained = (len(circuits), self.chains, self.each)

        def sums(x: np.ndarray, backwards: bool) -> np.ndarray:
            inner = x[:, : self.stations].reshape(chained)
            inner = inner[:, :, ::-1].cumsum(2)[:, :, ::-1] if backwards else inner.cumsum(2)
            return np.concatenate([inner.reshape(len(circuits), -1), x[:, self.stations :]], axis=1)

        for _ in range(400):
            current = watt / v + across * v
            through = sums(current, True)
            total = current.sum(1, keepdims=True)
            root = supply_v - supply_ohm * total
            # Half way: a bridge with much resistance before it would make plain iteration swing.
            new = np.maximum(0.5 * v + 0.5 * (root - sums(ohm * through, False)), 1.0)
            done = np.abs(new - v).max() < 1e-7
            v = new
            if done:
                break
        bad = (v < 24.0).any(1) & ~(cut & (v < 24.0)).any(1)
        found = np.concatenate([np.where(cut, 0.0, v), root, total], axis=1)
        found[bad] = np.nan
        return found

    def ngspice(self, circuit: dict, folder: Path) -> np.ndarray:
        """The same of one circuit by ngspice."""
        lines = ["house", f"V0 in 0 {float(circuit['supply_v'])!r}", f"Rs in ps {float(circuit['supply_ohm'])!r}"]
        ohm = circuit["copper"] + circuit["terminals"]
        for k in range(self.nodes):
            above = "ps" if k == self.stations or k % self.each == 0 else f"n{k - 1}"
            is_broken = circuit["cut"][k] and (above == "ps" or not circuit["cut"][k - 1])
            lines.append(f"R{k} {above} n{k} {1e12 if is_broken else float(ohm[k])!r}")
            if not circuit["cut"][k] and circuit["watt"][k] > 0:
                lines.append(f"B{k} n{k} 0 I = {float(circuit['watt'][k])!r}/max(v(n{k}), 1)")
            lines.append(f"Rx{k} n{k} 0 {float(1.0 / max(circuit['across'][k], METER_S))!r}")
            lines.append(f".nodeset v(n{k})=45")
        names = [f"v(n{k})" for k in range(self.nodes)] + ["v(ps)", "i(v0)"]
        lines += [".control", "set numdgt=12", "op"] + [f"print {name}" for name in names] + [".endc", ".end"]
        netlist = folder / "fault.cir"
        netlist.write_text("\n".join(lines) + "\n")
        done = subprocess.run(["ngspice", "-b", str(netlist)], capture_output=True, text=True, timeout=120)
        found = dict(line.split(" = ") for line in done.stdout.splitlines() if line.count(" = ") == 1)
        values = np.array([float(found[name]) for name in names])
        values[-1] *= -1.0
        return values
