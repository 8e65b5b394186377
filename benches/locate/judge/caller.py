"""What a caller alone can tell: a fault, of whom it is told, and the one question that the program puts.

Voltage shows as the parts' limits have it: a station behind a break is dead, one that is below its cut-off voltage or falls below it while it is called restarts, one
below its least voltage then is dim. What no voltage shows is told with the probability of the table. Each of those who
notice is told of with one probability that differs from case to case (beta distribution, mean one in ten), at least one of them; where nobody notices, nobody
calls, and another fault is drawn. The question is answered by what shows at the station asked of.
"""

from __future__ import annotations

import numpy as np
from ask import Program
from kinds import KINDS, SYMPTOMS, TOLD_OF, Cause, causes, element, put
from sites import CUT_OFF_V, LEAST_V, Site

SILENT = {"station-dead", "station-removed"}


class Caller:
    """Of one site."""

    def __init__(self, site: Site) -> None:
        self.site = site
        self.causes, self.prior = causes(site, with_unseen=True)

    def voltages(self, cause: Cause, size: float, rng: np.random.Generator) -> tuple[np.ndarray, np.ndarray]:
        """Of every indoor station in standby, and while itself is called; without operating point 0 for those that the cause concerns."""
        site = self.site
        indoor = np.flatnonzero(site.is_indoor)
        c = site.circuits(len(indoor) + 1, rng)  # the last one in standby
        put(site, c, slice(None), cause, size)
        for column, node in enumerate(indoor):
            site.ring(c.take(slice(column, column + 1)), int(node))
        solved = site.tree.solve(c)
        concerned = np.isin(indoor, self.concerned(cause))
        standby = np.where(solved.collapsed[-1] & concerned, 0.0, solved.v[indoor, -1])
        called = np.where(solved.collapsed[:-1] & concerned, 0.0, solved.v[indoor, np.arange(len(indoor))])
        return standby, called

    def concerned(self, cause: Cause) -> np.ndarray:
        """Nodes of indoor stations that a cause concerns: those behind it, or all that the door calls."""
        site = self.site
        if cause.place == 0 or cause.kind in ("button-failed", "microphone-failed", "camera-failed", "door-station-dead", "door-overdraw"):
            return np.flatnonzero(site.is_indoor)
        node = site.runs[cause.place].nodes[0] if cause.kind == "thin-conductor" else cause.place
        if cause.kind not in KINDS or cause.kind.startswith("station"):
            return np.array([node]) if site.is_indoor[node] else np.array([], dtype=int)
        behind = np.zeros(site.tree.nodes, dtype=bool)
        behind[node] = True
        for k in range(node + 1, site.tree.nodes):
            behind[k] = behind[site.tree.parent[k]]
        return np.flatnonzero(behind & site.is_indoor)

    def story(self, rng: np.random.Generator) -> tuple[Cause, float, dict[int, str]]:
        """A fault, and what shows at which station."""
        site = self.site
        indoor = np.flatnonzero(site.is_indoor)
        while True:
            cause = self.causes[int(rng.choice(len(self.causes), p=self.prior / self.prior.sum()))]
            size = 1.0 if cause.size is None else float(cause.size[0] * (cause.size[1] / cause.size[0]) ** rng.random())
            shows: dict[int, str] = {}
            if cause.kind in SILENT:
                shows[cause.place] = "dead"
            elif cause.kind in KINDS:
                standby, called = self.voltages(cause, size, rng)
                for node, still, ringing in zip(indoor, standby, called):
                    if still < CUT_OFF_V:
                        # Behind a break nothing comes on; behind too much resistance it tries again and again.
                        shows[int(node)] = "dead" if cause.size is None else "restarts"
                    elif ringing < CUT_OFF_V:
                        shows[int(node)] = "restarts"
                    elif ringing < LEAST_V:
                        shows[int(node)] = "dim"
            if not shows:
                # By the table: one symptom for all that it concerns; of a door's buttons one fails.
                told = [name for name, (_, table) in SYMPTOMS.items() if rng.random() < table.get(cause.kind, 0.0)]
                if told:
                    nodes = self.concerned(cause)
                    if cause.kind == "button-failed":
                        nodes = rng.choice(nodes, 1)
                    symptom = told[int(rng.integers(len(told)))]
                    shows = {int(node): symptom for node in nodes}
            if shows:
                return cause, size, shows


def caller_case(caller: Caller, program: Program, number: int, seed: list[int]) -> dict:
    rng = np.random.default_rng(seed)
    site = caller.site
    cause, size, shows = caller.story(rng)
    noticing = sorted(shows)
    told = np.zeros(len(noticing), dtype=bool)
    while not told.any():
        told = rng.random(len(noticing)) < rng.beta(0.5, 0.5 / TOLD_OF - 0.5)
    items = [f"{site.names[at]}={shows[at]}" for at, is_told in zip(noticing, told) if is_told]
    answer = program.ask(items, "told.toml")
    question = answer.get("question")
    if question is not None:
        node = site.node[question["element"]]
        items.append(f"{question['element']}={shows.get(node, 'works')}")
        answer = program.ask(items, "told.toml")
    truth = (cause.kind, element(site, cause))
    every = {(one["kind"], one["element"]): one["probability"] for one in answer["causes"]}
    first = [(one["kind"], one["element"]) for one in answer["causes"] if one.get("class") == 1]
    three = [(one["kind"], one["element"]) for one in answer["causes"] if one.get("class", 99) <= 3]
    places = answer["places"]
    mine = place_of(site, cause)
    return {
        "policy": "caller", "site": site.stations, "number": number, "kind": cause.kind, "element": truth[1], "fault_size": size, "third": None,
        "listed": True, "said": sum(every[one] for one in first), "right": truth in first, "three": truth in three, "size": len(first),
        "single": len(first) == 1, "none": answer["none_of_these"], "asked": question is not None, "of_truth": every.get(truth, 0.0),
        "place_said": places[0]["probability"], "place_right": places[0]["element"] in mine,
        "place_three": any(place["element"] in mine for place in places[:3]), "refused": answer["refused"], "command": answer["command"],
    }


def place_of(site: Site, cause: Cause) -> set[str]:
    """Names of the place to look at: a length of cable with what it starts from and leads to, else the run or the supply."""
    node = cause.place
    if cause.kind == "thin-conductor":
        return {site.runs[node].name}
    if site.names[node] in site.port:
        # A port belongs to the first section that starts there.
        node = next(run.nodes[0] for run in site.runs if run.start == site.names[node])
    if site.run_of[node] >= 0:
        return {element(site, Cause("joint", node, 1.0))}
    return {site.names[node]}
