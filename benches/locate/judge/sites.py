"""Five invented sites of 12 to 300 indoor stations, each written down twice: as a site file, and as a tree for `tree.py`.

One supply each. In the smallest the chains start at the supply; in the others at distributors that pass the bus on. Chains differ in length, spacing and
cable. Every part is invented.
"""

from __future__ import annotations

import sys
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from tree import ROOT3, Circuits, Tree

sys.path.insert(0, str(Path(__file__).resolve().parents[3] / "checks"))
from locate_site import site_head  # noqa: E402

SUPPLY_V, SUPPLY_OHM, PORT_OHM, BOX_W = 48.0, 0.15, 0.08, 0.6
JOINT_OHM = 0.02
STANDBY_W, RING_W, DOOR_W, DOOR_RING_W = 1.2, 5.0, 3.0, 7.0
CUT_OFF_V, LEAST_V = 24.0, 30.0
VOLTAGE_TOLERANCE, LOAD_TOLERANCE, DRUM_TOLERANCE, LENGTH_TOLERANCE = 0.02, 0.10, 0.04, 0.05
TERMINAL_DEVIATION = 0.5
CABLES = {"pair": 0.035, "thin": 0.06, "feed": 0.004}  # ohm per metre of one conductor

CATALOGUE = f"""
[families.mere]
title = "Mere (invented)"
source = "invented"
nominal_voltage = "48 V"
simultaneous_calls = 1
addresses.indoor = [{{ field = "dwelling", first = 1, last = 999, set_by = "keyed", digits = 3, label = "FLAT" }}]
addresses.door = [{{ field = "entrance", first = 0, last = 9, set_by = "keyed", digits = 1, label = "DOOR" }}]

[supplies.ps]
title = "Supply"
source = "invented"
family = "mere"
voltage = "{SUPPLY_V} V"
voltage_tolerance = "{100 * VOLTAGE_TOLERANCE} %"
source_resistance = "{SUPPLY_OHM} ohm"
rated_current = "40 A"
limit_kind = "constant-current"

[boxes.box]
title = "Distributor"
source = "invented"
family = "mere"
role = "distributor"
kind = "transparent"
ports = 8
consumption = "{BOX_W} W"
load_tolerance = "10 %"
port_resistance = "{PORT_OHM} ohm"
least_voltage = "{CUT_OFF_V} V"

[stations.flat]
title = "Station"
source = "invented"
family = "mere"
kind = "indoor"
media = "video"
loop_through = "bridged"
standby = "{STANDBY_W} W"
ringing = "{RING_W} W"
talking = "{RING_W} W"
load_tolerance = "{100 * LOAD_TOLERANCE} %"
turn_off_voltage = "{CUT_OFF_V} V"
least_voltage = "{LEAST_V} V"
least_standby_voltage = "{LEAST_V} V"

[stations.door]
title = "Door station"
source = "invented"
family = "mere"
kind = "door"
media = "video"
loop_through = "bridged"
standby = "{DOOR_W} W"
ringing = "{DOOR_RING_W} W"
talking = "{DOOR_RING_W} W"
load_tolerance = "{100 * LOAD_TOLERANCE} %"
turn_off_voltage = "{CUT_OFF_V} V"
least_voltage = "{LEAST_V} V"
least_standby_voltage = "{LEAST_V} V"
directory = 999
"""

CATALOGUE += "".join(
    f"""
[cables.{name}]
title = "{name}"
source = "invented"
gauge = "{1000 * ohm} ohm/km"
pairs = 2
resistance_tolerance = "{100 * DRUM_TOLERANCE} %"
"""
    for name, ohm in CABLES.items()
)

# Stations of every chain behind each distributor; the smallest has its chains at the supply.
SHAPES = {
    12: [None, [5, 7]],
    31: [[4, 5, 6, 7, 9]],
    64: [[5, 8, 11, 6], [9, 10, 7, 8]],
    130: [[8, 12, 10, 9, 11], [10, 13, 7, 12], [9, 8, 11, 10]],
    300: [[15] * 5, [12, 18, 15, 14, 16], [15, 13, 17, 15, 15], [11, 19, 15, 15, 15]],
}


@dataclass
class Run:
    """A run: where it starts, where it leads, its cable, the length of every section and the node behind it."""

    name: str
    start: str
    stops: list[str]
    cable: str
    first_m: float
    spacing_m: float
    nodes: list[int]

    def metres(self, section: int) -> float:
        return self.first_m if section == 0 else self.spacing_m


class Site:
    """A site: names of places, nodes, and which tolerance acts where."""

    def __init__(self, stations: int) -> None:
        self.stations = stations
        self.names, parent = ["PS"], [-1]
        self.runs: list[Run] = []
        self.boxes: dict[str, list[int]] = {}
        self.port: dict[str, int] = {}

        def add(name: str, above: int) -> int:
            self.names.append(name)
            parent.append(above)
            return len(parent) - 1

        def run(name: str, start: str, above: int, stops: list[str], cable: str, first_m: float, spacing_m: float) -> None:
            nodes = []
            for stop in stops:
                above = add(stop, above)
                nodes.append(above)
            self.runs.append(Run(name, start, stops, cable, first_m, spacing_m, nodes))

        def chains(lengths: list[int], ports: list[tuple[str, int]]) -> None:
            for length, (start, above) in zip(lengths, ports):
                number = len([one for one in self.runs if one.name.startswith("R")]) + 1
                stops = [f"S{number}-{k + 1}" for k in range(length)]
                cable = "thin" if number % 3 == 0 else "pair"
                run(f"R{number}", start, above, stops, cable, 8.0 + 3.0 * (number % 5), 4.0 + 1.5 * (number % 4))

        run("way", "PS", 0, ["front"], "pair", 14.0, 14.0)
        shape = SHAPES[stations]
        if shape[0] is None:
            chains(shape[1], [("PS", 0)] * len(shape[1]))
        else:
            for number, lengths in enumerate(shape, 1):
                box = f"D{number}"
                run(f"F{number}", "PS", 0, [box], "feed", 6.0 + 9.0 * number, 1.0)
                at = len(parent) - 1
                ports = []
                for port in range(1, len(lengths) + 1):
                    name = f"{box}.{port}"
                    self.port[name] = add(name, at)
                    ports.append((name, self.port[name]))
                self.boxes[box] = [at, *[node for _, node in ports]]
                chains(lengths, ports)
        self.tree = Tree(parent)
        self.node = {name: k for k, name in enumerate(self.names)}
        n = self.tree.nodes
        self.is_indoor = np.array([name.startswith("S") for name in self.names])
        self.is_door = np.array([name == "front" for name in self.names])
        self.is_station = self.is_indoor | self.is_door
        self.run_of = np.full(n, -1)
        self.metres, self.ohm_per_m, self.cable = np.zeros(n), np.zeros(n), np.full(n, -1)
        for number, one in enumerate(self.runs):
            for section, node in enumerate(one.nodes):
                self.run_of[node] = number
                self.metres[node] = one.metres(section)
                self.ohm_per_m[node] = 2.0 * CABLES[one.cable]
                self.cable[node] = list(CABLES).index(one.cable)
        # What does not vary: source resistance and ports.
        self.other_ohm = np.zeros(n)
        self.other_ohm[0] = SUPPLY_OHM
        for node in self.port.values():
            self.other_ohm[node] = PORT_OHM
        self.watt = np.where(self.is_indoor, STANDBY_W, np.where(self.is_door, DOOR_W, 0.0))
        for nodes in self.boxes.values():
            self.watt[nodes[0]] = BOX_W

    def circuits(self, many: int, rng: np.random.Generator | None = None) -> Circuits:
        """The site as drawn, `many` times; with `rng` one site whose every tolerance lies at random within its limits."""
        n = self.tree.nodes
        uniform = (lambda *shape: rng.uniform(-1.0, 1.0, shape)) if rng else (lambda *shape: np.zeros(shape))
        in_run = self.run_of >= 0
        drum = 1 + DRUM_TOLERANCE * uniform(len(CABLES))[self.cable]
        length = 1 + LENGTH_TOLERANCE * uniform(len(self.runs))[self.run_of]
        copper = self.ohm_per_m * self.metres * drum * length
        terminals = np.where(in_run, 4 * JOINT_OHM * np.maximum(1 + TERMINAL_DEVIATION * ROOT3 * uniform(n), 0.1), 0.0)
        batch = 1 + 0.5 * LOAD_TOLERANCE * uniform(2)
        scale = np.where(self.is_door, batch[1], batch[0]) * (1 + 0.5 * LOAD_TOLERANCE * uniform(n))
        scale[~self.is_station] = 1 + LOAD_TOLERANCE * uniform(1)[0]
        wide = lambda column: np.repeat(column[:, None], many, axis=1)  # noqa: E731
        supply_v = np.full(many, SUPPLY_V) * (1 + VOLTAGE_TOLERANCE * uniform(1)[0])
        nothing = np.zeros((n, many))
        return Circuits(supply_v, wide(copper), wide(terminals), wide(self.other_ohm), wide(self.watt), wide(scale), nothing.copy(),
                        nothing.copy(), np.zeros((n, many), dtype=bool))

    def ring(self, circuits: Circuits, node: int) -> None:
        """The first door calls the station at a node; what draws nothing goes on drawing nothing."""
        for at, watt in ((node, RING_W), (self.node["front"], DOOR_RING_W)):
            circuits.watt[at] = np.where(circuits.watt[at] > 0, watt, 0.0)

    def rows(self, c: Circuits, quantities: list["Quantity"], state: int | None) -> np.ndarray:
        """How readings in one state depend on every tolerance, in deviations: (factors, circuits, readings)."""
        c = c.copy()
        if state is not None:
            self.ring(c, state)
        s = self.tree.solve(c)
        at = sorted({0} | {node for one in quantities for node in one.needs(self)})
        z, f = self.tree.transfer(c, s, at)
        with np.errstate(divide="ignore", invalid="ignore"):
            per_load = np.where(s.v > 0, c.watt * c.scale / s.v, 0.0)[:, :, None] * z * (0.5 * LOAD_TOLERANCE / ROOT3)
        per_copper = -(s.f * c.copper)[:, :, None] * f
        per_terminal = -(s.f * np.minimum(c.terminals, 4 * JOINT_OHM))[:, :, None] * f * TERMINAL_DEVIATION
        rows = [(c.supply_v[:, None] * f[0] * VOLTAGE_TOLERANCE / ROOT3)[None]]
        rows += [per_copper[self.cable == k].sum(0)[None] * DRUM_TOLERANCE / ROOT3 for k in range(len(CABLES))]
        rows += [per_copper[self.run_of == k].sum(0)[None] * LENGTH_TOLERANCE / ROOT3 for k in range(len(self.runs))]
        rows += [per_load[of].sum(0)[None] for of in (self.is_indoor, self.is_door)]
        rows.append(per_load[self.is_station])
        rows.append(per_terminal[self.run_of >= 0])
        volts = np.concatenate(rows)  # of the voltages at `at`
        index = {node: number for number, node in enumerate(at)}
        ohm = c.copper + c.terminals + c.other_ohm
        result = np.empty((*volts.shape[:2], len(quantities)))
        for number, one in enumerate(quantities):
            if one.kind == "voltage":
                result[:, :, number] = volts[:, :, index[one.node]]
            elif one.kind == "drop":
                result[:, :, number] = volts[:, :, index[one.start]] - volts[:, :, index[one.node]]
            elif one.node == 0:
                change = -volts[:, :, index[0]]
                change[0] += c.supply_v * VOLTAGE_TOLERANCE / ROOT3
                result[:, :, number] = change / ohm[0]
            else:
                # (v_parent - v)/r moves with the voltages and with r itself.
                node = one.node
                change = volts[:, :, index[self.tree.parent[node]]] - volts[:, :, index[node]]
                own = np.zeros_like(change)
                cables, runs = 1, 1 + len(CABLES)
                own[cables + self.cable[node]] = c.copper[node] * DRUM_TOLERANCE / ROOT3
                own[runs + self.run_of[node]] = c.copper[node] * LENGTH_TOLERANCE / ROOT3
                last = 1 + len(CABLES) + len(self.runs) + 2 + self.is_station.sum()
                own[last + (self.run_of[:node] >= 0).sum()] = 4 * JOINT_OHM * TERMINAL_DEVIATION
                result[:, :, number] = np.where(s.dark[node], 0.0, (change - s.f[node] * own) / ohm[node])
        return result

    def write(self, folder: Path) -> Path:
        folder.mkdir(parents=True, exist_ok=True)
        (folder / "mere.toml").write_text(CATALOGUE)
        runs = []
        for one in self.runs:
            to = f'"{one.stops[0]}"' if not self.is_indoor[one.nodes[0]] else "[" + ", ".join(f'"{stop}"' for stop in one.stops) + "]"
            length = f'length = "{one.first_m} m"' if to[0] == '"' else f'first = "{one.first_m} m", spacing = "{one.spacing_m} m"'
            runs.append(f'{one.name} = {{ from = "{one.start}", to = {to}, cable = "{one.cable}", {length} }}')
        boxes = "\n".join(f'{name} = {{ model = "box", place = "A/G" }}' for name in self.boxes)
        flats = "\n".join(f'{name} = {{ place = "A/G" }}' for name, is_indoor in zip(self.names, self.is_indoor) if is_indoor)
        lines = "\n".join(runs)
        path = folder / "site.toml"
        head = site_head(f"Judged, {self.stations} stations (invented)", LENGTH_TOLERANCE, JOINT_OHM)
        path.write_text(f"""{head}
[distributors]
{boxes}

[entrances]
front = {{ role = "main", place = "A/G" }}

[dwellings]
{flats}

[runs]
{lines}
""".replace("[distributors]\n\n", "" if not boxes else "[distributors]\n\n"))
        return path


@dataclass(frozen=True)
class Quantity:
    """A voltage at a node, the current into its branch, or what is lost from `start` to it, in standby or while the station at `state` rings."""

    kind: str
    node: int
    state: int | None = None
    start: int = -1

    def needs(self, site: Site) -> list[int]:
        if self.kind == "drop":
            return [self.node, self.start]
        if self.kind == "voltage" or self.node == 0:
            return [self.node]
        return [self.node, int(site.tree.parent[self.node])]

    def of(self, solved) -> np.ndarray:
        if self.kind == "drop":
            return solved.v[self.start] - solved.v[self.node]
        return solved.v[self.node] if self.kind == "voltage" else np.where(solved.dark[self.node], 0.0, solved.f[self.node])
