"""How good `latchline locate` is against an oracle that knows the houses.

    python benches/locate/oracle.py FAULTS SEED [LATCHLINE]

For every house: random faults of the kinds of `house.py`, off every grid, every tolerance at a random value within its limits, the meter's error
five times as wide in three of a hundred readings; one fault in forty is none of the list (all stations of a run draw half as much again). Readings
are made by ngspice. Before the program is asked, the oracle (NumPy) fixes the class of the case: the causes whose least whitened distance
to the truth, over their size and the tolerances, is below 2, and the probability of that class from the same rates.

Policies: `random`, one current and four voltages; `next-best`, what the program proposes, from the supply's voltage on, ten at most.
"""

from __future__ import annotations

import json
import subprocess
import sys
import tempfile
import time
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import numpy as np
from house import KINDS, NONE_OF_THESE, ROOT3, House

HOUSES = [(2, 6), (3, 10), (6, 10), (10, 12), (20, 15)]
SIZES = 21
RANDOM_READINGS, MOST_READINGS = 5, 10
SHARE, FLOOR_V, FLOOR_A, FLOOR_OHM = 0.005, 0.03, 0.002, 0.1
WRONG, CARELESS = 0.003, 0.03


class Oracle:
    """Everything that a house can show in standby, for every cause and size, and how it depends on the tolerances."""

    def __init__(self, house: House) -> None:
        self.house = house
        self.causes = house.causes()
        self.sound = house.solve([house.circuit()])[0]
        self.rows = self.derivatives()
        self.table = []
        for kind, place in self.causes:
            low_high = KINDS[kind][1]
            sizes = [1.0] if low_high is None else low_high[0] * (low_high[1] / low_high[0]) ** ((np.arange(SIZES) + 0.5) / SIZES)
            circuits = []
            for size in sizes:
                circuit = house.circuit()
                house.put(circuit, kind, place, size)
                circuits.append(circuit)
            self.table.append(house.solve(circuits))
        count = {kind: sum(1 for one, _ in self.causes if one == kind) for kind in KINDS}
        share = sum(share for share, _ in KINDS.values())
        self.prior = np.array([(1 - NONE_OF_THESE) * KINDS[kind][0] / share / count[kind] for kind, _ in self.causes])

    def derivatives(self) -> np.ndarray:
        house = self.house
        steps = []
        for factor in range(house.factors):
            z = np.zeros(house.factors)
            z[factor] = 1e-3
            steps.append(house.circuit(z))
        return (house.solve(steps) - self.sound) / 1e-3

    def judge(self, at: list[int], truth: np.ndarray, seen: np.ndarray) -> tuple[set[int], np.ndarray]:
        """The class of the case, and the posterior of every cause."""
        meters = ((SHARE * np.abs(seen) + np.array([FLOOR_A if k == self.house.nodes + 1 else FLOOR_V for k in at])) / ROOT3) ** 2
        rows = self.rows[:, at]
        covariance = rows.T @ rows + np.diag(meters)
        q = np.linalg.inv(covariance)
        log_det = np.linalg.slogdet(2 * np.pi * covariance)[1]
        alike, logs = set(), []
        for number, predicted in enumerate(self.table):
            said = predicted[:, at]
            said = said[~np.isnan(said).any(1)]
            if not len(said):
                logs.append(-np.inf)
                continue
            off = said - truth[at]
            if np.sqrt(np.einsum("ij,jk,ik->i", off, q, off).min()) < 2.0:
                alike.add(number)
            e = seen - said
            qe = e @ q
            base = -0.5 * ((qe * e).sum(1) + log_det)
            parts = [base + len(at) * np.log(1 - WRONG - CARELESS)]
            for i in range(len(at)):
                variance, off_i = 1 / q[i, i], qe[:, i] / q[i, i]
                others = base + 0.5 * (np.log(2 * np.pi * variance) + off_i**2 / variance) + (len(at) - 1) * np.log(1 - WRONG - CARELESS)
                wide = variance + 24 * meters[i]
                parts.append(others + np.log(CARELESS) - 0.5 * (np.log(2 * np.pi * wide) + off_i**2 / wide))
                parts.append(others + np.log(WRONG / (60.0 if at[i] != self.house.nodes + 1 else 5.0)))
            logs.append(np.logaddexp.reduce(np.logaddexp.reduce(parts)) - np.log(len(predicted)))
        logs = np.array(logs) + np.log(self.prior)
        return alike, np.exp(logs - np.logaddexp.reduce(logs)) * (1 - NONE_OF_THESE)


class Case:
    """One hidden fault, and what is read of it."""

    def __init__(self, house: House, oracle: Oracle, seed: list[int], folder: Path) -> None:
        self.house, self.folder = house, folder
        self.rng = np.random.default_rng(seed)
        rng = self.rng
        while True:
            self.is_listed = rng.random() > 0.025
            z = rng.uniform(-ROOT3, ROOT3, house.factors)
            weights = oracle.prior / oracle.prior.sum()
            self.number = int(rng.choice(len(oracle.causes), p=weights))
            self.kind, self.place = oracle.causes[self.number]
            low_high = KINDS[self.kind][1]
            self.size = 1.0 if low_high is None else float(low_high[0] * (low_high[1] / low_high[0]) ** rng.random())
            self.built, drawn = house.circuit(z), house.circuit()
            if self.is_listed:
                house.put(self.built, self.kind, self.place, self.size)
                house.put(drawn, self.kind, self.place, self.size)
            else:
                run = int(rng.integers(house.chains))
                for circuit in (self.built, drawn):
                    circuit["watt"][house.run == run] *= 1.5
            found = house.solve([self.built, drawn])
            # What collapses depends on how devices restart, which no circuit of resistances has.
            if not np.isnan(found).any():
                break
        self.truth = found[1]
        self.values: dict[str, np.ndarray] = {}

    def state(self, name: str) -> np.ndarray:
        if name not in self.values:
            circuit = {key: np.copy(value) for key, value in self.built.items()}
            if name:
                self.house.ring(circuit, self.house.names.index(name))
            self.values[name] = self.house.ngspice(circuit, self.folder)
        return self.values[name]

    def meter(self, value: float, floor: float) -> float:
        wide = 5.0 if self.rng.random() < 0.03 else 1.0
        return float(value + wide * self.rng.normal() * (SHARE * abs(value) + floor) / ROOT3)

    def read(self, quantity: str, at: str, state: str, start: str | None = None) -> str | None:
        """An item of a command line; nothing for what the circuit does not have."""
        house = self.house
        called = ""
        if state:
            moment, _, of = state.partition(":")
            called = of or at
            if moment != "ringing" or called not in house.names[:-1]:
                return None
        where = f"{at}@{state}" if state else at
        if quantity == "voltage" and at in [*house.names, "PS"]:
            place = house.nodes if at == "PS" else house.names.index(at)
            return f"{where}={max(self.meter(self.state(called)[place], FLOOR_V), 0.0):.6f}V"
        if quantity == "drop" and start in house.names and at in house.names:
            volts = self.state(called)
            lost = volts[house.names.index(start)] - volts[house.names.index(at)]
            return f"{start}..{where}={self.meter(lost, FLOOR_V):.6f}V"
        if quantity == "current" and at == "PS":
            return f"{where}={self.meter(self.state(called)[-1], FLOOR_A):.6f}A"
        nodes = house.run == house.runs.index(at) if at in house.runs else None
        if nodes is None:
            return None
        if quantity == "current":
            v = self.state(called)[: house.nodes]
            c = self.built
            watt = np.where(c["cut"], 0.0, c["watt"])
            if called:
                ringing = {key: np.copy(value) for key, value in c.items()}
                house.ring(ringing, house.names.index(called))
                watt = np.where(c["cut"], 0.0, ringing["watt"])
            amps = np.where(nodes, watt / np.maximum(v, 1.0) + c["across"] * v, 0.0).sum()
            return f"{where}={self.meter(amps, FLOOR_A):.6f}A"
        if quantity == "loop" and not self.built["across"][nodes].any():
            if self.built["cut"][nodes].any():
                return f"{where}=open"
            return f"loop:{at}={self.meter((self.built['copper'] + self.built['terminals'])[nodes].sum(), FLOOR_OHM):.6f}ohm"
        if quantity == "insulation":
            siemens = self.built["across"][nodes & ~self.built["cut"]].sum()
            return f"insulation:{at}={min(1 / max(siemens, 1e-12), 5e7):.4g}ohm"
        return None


def ask(latchline: str, site: Path, items: list[str], confidence: int = 90) -> dict:
    command = [latchline, "locate", str(site), *items, "--rates", str(site.parent / "rates.toml"), "--format", "json", "--confidence", str(confidence)]
    done = subprocess.run(command, capture_output=True, text=True, timeout=300)
    assert done.returncode in (0, 1), done.stderr
    return json.loads(done.stdout)


def one(house: House, oracle: Oracle, case: Case, policy: str, latchline: str, site: Path) -> dict:
    rng = case.rng
    if policy == "random":
        wanted = [("current", "PS", "")]
        picks = rng.choice(house.nodes, RANDOM_READINGS - 1, replace=False)
        wanted += [("voltage", house.names[k], "") for k in picks]
        items = [item for item in (case.read(*one) for one in wanted) if item]
        answer = ask(latchline, site, items)
    else:
        items = [case.read("voltage", "PS", "")]
        while True:
            answer = ask(latchline, site, items)
            following = answer.get("next_reading")
            if following is None or len(items) >= MOST_READINGS:
                break
            item = case.read(following["quantity"], following["at"], following["state"], following.get("from"))
            if item is None:
                break
            items.append(item)
    first = [cause for cause in answer["causes"] if cause.get("class") == 1]
    three = [cause for cause in answer["causes"] if cause.get("class", 99) <= 3]
    name = (case.kind, house.element(case.kind, case.place))
    has = lambda causes: case.is_listed and any((cause["kind"], cause["element"]) == name for cause in causes)  # noqa: E731
    said = sum(cause["probability"] for cause in first)
    found = {"kind": case.kind if case.is_listed else "none of the list", "said": said, "right": has(first), "three": has(three), "size": len(first),
             "readings": len(items), "single": has(answer["causes"][:1]), "none": answer["none_of_these"], "site": house.stations}
    if policy == "random":
        at = [house.nodes + 1] + [int(k) for k in picks]
        seen = np.array([float(item.partition("=")[2].rstrip("VA")) for item in items])
        alike, posterior = oracle.judge(at, case.truth, seen)
        numbers = {(kind, house.element(kind, place)): k for k, (kind, place) in enumerate(oracle.causes)}
        named = {numbers[cause["kind"], cause["element"]] for cause in first}
        alike.add(case.number)
        # What the oracle itself would have said: the class of the case, if it has the most of the probability.
        found |= {"within": len(named - alike) <= 0.05 * len(named), "oracle": float(posterior[list(alike)].sum()),
                  "truth": float(posterior[list(named)].sum()), "oracle_size": len(alike)}
    return found


def percent(values) -> str:
    values = list(values)
    return f"{100 * np.mean(values):.1f} %" if values else "none"


def report(rows: list[dict], title: str) -> None:
    listed = [row for row in rows if row["kind"] != "none of the list"]
    brier = np.mean([(row["said"] - row["right"]) ** 2 for row in listed])
    known = [row for row in listed if row.get("oracle", 0) >= 0.97]
    print(f"| {title} | {len(listed)} | {percent(r['right'] for r in listed)} | {percent(r['three'] for r in listed)} | "
          f"{percent(r['right'] for r in known)} of {len(known)} | {percent(r['within'] for r in listed if 'within' in r)} | {percent(r['single'] for r in listed)} | "
          f"{brier:.3f} | {np.median([r['size'] for r in listed]):.0f} | {np.mean([r['readings'] for r in listed]):.1f} |", flush=True)


def main() -> None:
    faults, seed = int(sys.argv[1]), int(sys.argv[2])
    latchline = sys.argv[3] if len(sys.argv) > 3 else "latchline"
    everything: dict[str, list[dict]] = {"random": [], "next-best": []}
    print("| house and policy | faults | class first | in the first three | class first where the oracle has it at 97 % | class within the oracle's | single cause | Brier | median class | readings |")
    print("|---|---|---|---|---|---|---|---|---|---|")
    with tempfile.TemporaryDirectory() as temporary:
        for chains, each in HOUSES:
            begun = time.process_time()
            house = House(chains, each)
            folder = Path(temporary) / f"{chains}x{each}"
            site = house.write(folder)
            oracle = Oracle(house)
            print(f"{house.stations} stations: {len(oracle.causes)} causes, oracle ready in {time.process_time() - begun:.0f} s", file=sys.stderr, flush=True)
            for policy in everything:
                count = faults if policy == "random" else max(faults // 4, 1)

                def numbered(number: int) -> dict:
                    work = folder / policy / str(number)
                    work.mkdir(parents=True)
                    case = Case(house, oracle, [seed, chains, each, number], work)
                    row = one(house, oracle, case, policy, latchline, site)
                    if not row["right"]:
                        print(policy, house.stations, number, case.kind, house.element(case.kind, case.place), f"{case.size:.3g}", row, file=sys.stderr)
                    return row

                with ThreadPoolExecutor(2) as pool:
                    rows = list(pool.map(numbered, range(count)))
                report(rows, f"{house.stations} stations, {policy}")
                everything[policy] += rows
        for policy, rows in everything.items():
            report(rows, f"all, {policy}")
    rows = everything["random"] + everything["next-best"]
    listed = [row for row in rows if row["kind"] != "none of the list"]
    print("\n| kind | faults | class first | first three | mean said |\n|---|---|---|---|---|")
    for kind in sorted({row["kind"] for row in listed}):
        of = [row for row in listed if row["kind"] == kind]
        print(f"| {kind} | {len(of)} | {percent(r['right'] for r in of)} | {percent(r['three'] for r in of)} | {percent(r['said'] for r in of)} |")
    print("\n| said | statements | mean said | right |\n|---|---|---|---|")
    for low, high in [(0, 0.25), (0.25, 0.5), (0.5, 0.7), (0.7, 0.85), (0.85, 0.95), (0.95, 0.99), (0.99, 1.01)]:
        of = [row for row in listed if low <= row["said"] < high]
        print(f"| {100 * low:.0f} to {min(100 * high, 100):.0f} % | {len(of)} | {percent(r['said'] for r in of)} | {percent(r['right'] for r in of)} |")
    others = [row for row in rows if row["kind"] == "none of the list"]
    if others:
        print(f"\nNone of the list: {len(others)} faults, 'none of these' at {percent(r['none'] for r in others)} on average.")


if __name__ == "__main__":
    main()
