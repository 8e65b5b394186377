"""Hidden faults: drawn by the table of rates, in a site whose every tolerance lies at random within its limits, and read by a meter with heavy tails.

Seeds: NumPy's PCG64 of [seed, stations, policy, number]. What leaves no operating point, or a station below its cut-off voltage, is drawn anew: what a
meter shows there depends on how devices restart. One in fifty is no single cause of the list.
"""

from __future__ import annotations

from pathlib import Path

import numpy as np
from kinds import CARELESS, NONE_OF_THESE, STRANGERS, WRONG, element, put, put_stranger
from oracle import FLOOR_A, FLOOR_V, SHARE, Oracle
from sites import Quantity
from tree import ROOT3

FLOOR_OHM, MOST_OHM = 0.1, 5e7
CHECKED = 10  # every so manieth case is solved by ngspice as well


class Case:
    """One hidden fault, and what is read of it."""

    def __init__(self, oracle: Oracle, seed: list[int], folder: Path | None) -> None:
        self.oracle, self.site = oracle, oracle.site
        self.rng = np.random.default_rng(seed)
        rng, site = self.rng, self.site
        while True:
            self.built, self.drawn = site.circuits(1, rng), site.circuits(1)
            self.number, self.size = -1, 1.0
            if rng.random() < NONE_OF_THESE:
                stranger = int(rng.integers(len(STRANGERS)))
                begin = rng.bit_generator.state
                put_stranger(site, self.built, stranger, rng)
                rng.bit_generator.state = begin
                put_stranger(site, self.drawn, stranger, rng)
                self.kind, self.element = STRANGERS[stranger], ""
            else:
                self.number = int(rng.choice(len(oracle.causes), p=oracle.prior / oracle.prior.sum()))
                self.cause = oracle.causes[self.number]
                if self.cause.size is not None:
                    low, high = self.cause.size
                    self.size = float(low * (high / low) ** rng.random())
                put(site, self.built, 0, self.cause, self.size)
                put(site, self.drawn, 0, self.cause, self.size)
                self.kind, self.element = self.cause.kind, element(site, self.cause)
            self.states = {None: site.tree.solve(self.built)}
            if not self.states[None].bad[0] and not site.tree.solve(self.drawn).bad[0]:
                break
        self.is_listed = self.number >= 0
        if folder is not None:
            solved = self.states[None]
            volts, amps = site.tree.ngspice(self.built, folder)
            live = ~solved.dark[:, 0]
            off = max(np.abs(volts - solved.v[:, 0])[live].max(initial=0.0), abs(amps - solved.f[0, 0]))
            assert off < 1e-5, f"NumPy and ngspice differ by {off} V or A: {seed}"

    def state(self, state: int | None):
        if state not in self.states:
            c = self.built.copy()
            self.site.ring(c, state)
            self.states[state] = self.site.tree.solve(c)
        return self.states[state]

    def is_readable(self, one: Quantity) -> bool:
        return not self.state(one.state).bad[0]

    def truth(self, quantities: list[Quantity]) -> np.ndarray:
        """Without meter and tolerances."""
        values = []
        for one in quantities:
            c = self.drawn.copy()
            if one.state is not None:
                self.site.ring(c, one.state)
            values.append(float(one.of(self.site.tree.solve(c))[0]))
        return np.array(values)

    def meter(self, value: float, floor: float) -> float:
        wide = 5.0 if self.rng.random() < CARELESS else 1.0
        return float(value + wide * self.rng.normal() * (SHARE * abs(value) + floor) / ROOT3)

    def read(self, one: Quantity) -> float:
        """What the meter shows: three readings in a thousand are of another place."""
        if self.rng.random() < WRONG and one.kind == "voltage":
            one = Quantity("voltage", int(self.rng.integers(self.site.tree.nodes)), one.state)
        value = float(one.of(self.state(one.state))[0])
        return max(self.meter(value, FLOOR_A if one.kind == "current" else FLOOR_V), 0.0)

    def written(self, one: Quantity, value: float) -> str:
        """As a command line has it."""
        names = self.site.names
        place = names[one.node]
        if one.kind == "current" and one.node != 0:
            place = self.site.runs[self.site.run_of[one.node]].name
        state = ""
        if one.state is not None:
            is_own = one.kind == "voltage" and one.state == one.node
            state = "@ringing" if is_own else f"@ringing:{names[one.state]}"
        return f"{place}{state}={value:.6f}{'V' if one.kind == 'voltage' else 'A'}"

    def random_readings(self) -> list[Quantity]:
        """The supply's current, and two to seven voltages and currents of runs, one in four while a station rings; none twice."""
        rng, site = self.rng, self.site
        wanted = [Quantity("current", 0)]
        count = int(rng.integers(2, 8))
        while len(wanted) <= count:
            which = rng.random()
            if which < 0.25:
                one = Quantity("current", site.runs[rng.integers(len(site.runs))].nodes[0])
            elif which < 0.5:
                station = int(rng.choice(np.flatnonzero(site.is_indoor)))
                one = Quantity("voltage", station, station)
            else:
                one = Quantity("voltage", int(rng.integers(site.tree.nodes)))
            if one not in wanted and self.is_readable(one):
                wanted.append(one)
        return wanted

    def taken(self, one: Quantity) -> tuple[str, list[tuple[Quantity, float]]] | None:
        if not self.is_readable(one):
            return None
        value = self.read(one)
        return self.written(one, value), [(one, value)]

    def proposed(self, following: dict) -> tuple[str, list[tuple[Quantity, float]]] | None:
        """A reading as the program proposes it, taken; with what it consists of; nothing for what these circuits do not have.

        A loop, an insulation or earth is read, but the oracle does not weigh it: then the list is empty.
        """
        site = self.site
        at, kind, state = following["at"], following["quantity"], None
        run = next((run for run in site.runs if run.name == at), None)
        if following["state"]:
            moment, _, of = following["state"].partition(":")
            state = site.node.get(of or at)
            if moment != "ringing" or state is None or not site.is_indoor[state]:
                return None
        if kind == "voltage" and at in site.node:
            one = Quantity("voltage", site.node[at], state)
            return self.taken(one)
        if kind == "current" and (at == "PS" or run):
            one = Quantity("current", run.nodes[0] if run else 0, state)
            return self.taken(one)
        if kind == "drop" and at in site.node and following.get("from") in site.node:
            one = Quantity("drop", site.node[at], state, site.node[following["from"]])
            if not self.is_readable(one):
                return None
            where = f"@ringing:{site.names[state]}" if state is not None else ""
            value = self.read(one)
            return f"{following['from']}..{at}{where}={value:.6f}V", [(one, value)]
        if run is None:
            return None
        nodes = run.nodes
        siemens = np.where(self.built.cut[nodes, 0].cumsum() > 0, 0.0, self.built.across[nodes, 0])
        if kind == "insulation":
            ohm = min(1.0 / max(float(siemens.sum()), 1e-12), MOST_OHM)
            return f"insulation:{at}={self.meter(ohm, FLOOR_OHM) if ohm < MOST_OHM else ohm:.4g}ohm", []
        if kind == "earth":
            return f"earth:{at}={MOST_OHM:.4g}ohm", []
        if kind == "loop":
            if self.built.cut[nodes, 0].any():
                return f"loop:{at}=open", []
            ohm = 0.0  # the far end is shorted
            for node in nodes[::-1]:
                across = float(self.built.across[node, 0])
                ohm = ohm / (1.0 + ohm * across) + float((self.built.copper + self.built.terminals)[node, 0])
            return f"loop:{at}={self.meter(ohm, FLOOR_OHM):.6f}ohm", []
        return None
