"""Kinds of fault, where each can be, how often it is met, what it does to the circuit, and what people tell of it.

The rates are invented; the same table is given to the program with `--rates`. Sizes are log-uniform. Of a kind, every element is as likely, but leakage (1 + a
tenth a metre of its section) and a section longer than drawn (1 + a twentieth a metre), as the program's table has them.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from sites import Site
from tree import Circuits

# Share of a hundred calls and range of the size. What no meter sees in the states that are read stands below.
KINDS: dict[str, tuple[float, tuple[float, float] | None]] = {
    "joint": (22, (0.5, 100.0)),
    "open": (13, None),
    "short-resistive": (8, (40.0, 500.0)),
    "leakage": (7, (300.0, 5000.0)),
    "thin-conductor": (6, (1.25, 4.0)),
    "longer-run": (5, (1.2, 5.0)),
    "station-dead": (8, None),
    "station-removed": (4, None),
    "station-overdraw": (11, (0.7, 25.0)),
    "door-station-dead": (2, None),
    "door-overdraw": (3, (1.0, 25.0)),
    "supply-dead": (1, None),
    "supply-low": (4, (0.6, 0.93)),
    "supply-soft": (4, (0.3, 10.0)),
    "port-dead": (2, None),
}
# Told by a caller only.
UNSEEN = {
    "setting-wrong": 6,
    "setting-duplicate": 3,
    "ringer-muted": 8,
    "handset-failed": 6,
    "display-failed": 5,
    "button-failed": 4,
    "microphone-failed": 3,
    "camera-failed": 3,
}
NONE_OF_THESE = 0.02
WRONG, CARELESS = 0.003, 0.03

# Symptom, kind and probability that it is told where the cause concerns the place; beside it how often it is told for no such reason.
SYMPTOMS = {
    "dead": (0.01, {"setting-wrong": 0.25, "setting-duplicate": 0.1, "ringer-muted": 0.05, "display-failed": 0.1}),
    "restarts": (0.01, {"display-failed": 0.05, "station-overdraw": 0.3}),
    "dim": (0.01, {"joint": 0.05, "display-failed": 0.4}),
    "no-picture": (0.01, {"camera-failed": 0.9, "display-failed": 0.6, "joint": 0.15, "longer-run": 0.1, "setting-wrong": 0.1}),
    "two-ring": (0.002, {"setting-duplicate": 0.8, "setting-wrong": 0.1}),
    "rings-elsewhere": (0.002, {"setting-wrong": 0.6, "button-failed": 0.02}),
    "does-not-ring": (0.02, {"setting-wrong": 0.4, "ringer-muted": 0.9, "button-failed": 0.5, "setting-duplicate": 0.1}),
    "no-speech": (0.01, {"handset-failed": 0.8, "microphone-failed": 0.7}),
    "when-wet": (0.01, {"leakage": 0.7, "short-resistive": 0.2, "joint": 0.15}),
    "comes-and-goes": (0.05, {"joint": 0.4, "open": 0.15, "leakage": 0.3, "short-resistive": 0.2, "supply-soft": 0.2}),
}
TOLD_OF = 0.1


def rates_text(with_unseen: bool, tilt: tuple[str, float] | None = None) -> str:
    """The table of rates as the program reads it, with the share of one kind multiplied."""
    every = {kind: (share, size) for kind, (share, size) in KINDS.items()}
    if with_unseen:
        every |= {kind: (share, None) for kind, share in UNSEEN.items()}
    if tilt is not None:
        every[tilt[0]] = (every[tilt[0]][0] * tilt[1], every[tilt[0]][1])
    total = sum(share for share, _ in every.values())
    kinds = "\n".join(
        f'{kind} = {{ group = "all", share = {share / total!r}' + (f", low = {size[0]}, high = {size[1]}" if size else "") + " }"
        for kind, (share, size) in every.items()
    )
    symptoms = ""
    for symptom, (other, table) in SYMPTOMS.items():
        told = "\n".join(f"{kind} = {share}" for kind, share in table.items() if kind in every)
        symptoms += f"\n[symptoms.{symptom}]\nother = {other}\n{told}\n"
    return (
        f"none_of_these = {100 * NONE_OF_THESE}\nwrong_reading = {WRONG}\ncareless_reading = {CARELESS}\ntold_of = {TOLD_OF}\n"
        f"[groups]\nall = {{ first-month = 100, in-service = 100 }}\n[kinds]\n{kinds}\n{symptoms if with_unseen else '[symptoms]'}\n"
    )


@dataclass(frozen=True)
class Cause:
    """A kind at a node (or run, for kinds of whole runs)."""

    kind: str
    place: int
    weight: float

    @property
    def size(self) -> tuple[float, float] | None:
        return KINDS[self.kind][1] if self.kind in KINDS else None


def causes(site: Site, with_unseen: bool) -> tuple[list[Cause], np.ndarray]:
    """Every single cause of a site, and its probability by the table (without that of none of these)."""
    sections = [int(node) for node in np.flatnonzero(site.run_of >= 0)]
    indoor = [int(node) for node in np.flatnonzero(site.is_indoor)]
    stations, door = [int(node) for node in np.flatnonzero(site.is_station)], [site.node["front"]]
    found, prior = [], []
    every = {kind: share for kind, (share, _) in KINDS.items()} | (UNSEEN if with_unseen else {})
    for kind, share in every.items():
        weight = lambda _: 1.0  # noqa: E731
        if kind in ("joint", "open", "short-resistive"):
            places = sections
        elif kind == "leakage":
            places, weight = sections, lambda node: 1.0 + 0.1 * site.metres[node]
        elif kind == "longer-run":
            places, weight = sections, lambda node: 1.0 + 0.05 * site.metres[node]
        elif kind == "thin-conductor":
            places = list(range(len(site.runs)))
        elif kind.startswith("supply"):
            places = [0]
        elif kind == "port-dead":
            places = list(site.port.values())
        elif kind.startswith("setting"):
            places = stations
        elif kind.startswith("door") or kind in ("button-failed", "microphone-failed", "camera-failed"):
            places = door
        else:
            places = indoor
        weights = np.array([weight(place) for place in places])
        for place, part in zip(places, weights / weights.sum() if len(places) else []):
            found.append(Cause(kind, place, float(part)))
            prior.append(share * part)
    prior = np.array(prior)
    return found, prior / prior.sum() * (1 - NONE_OF_THESE)


def element(site: Site, cause: Cause) -> str:
    """The name that the program gives the place of a cause."""
    if cause.kind == "thin-conductor":
        return site.runs[cause.place].name
    if cause.kind in ("joint", "open", "short-resistive", "leakage", "longer-run"):
        run = site.runs[site.run_of[cause.place]]
        section = run.nodes.index(cause.place)
        return f"{run.name}: {run.start if section == 0 else run.stops[section - 1]} – {run.stops[section]}"
    return site.names[cause.place]


def metres(site: Site, cause: Cause) -> set[int]:
    """The sections that somebody who looks for it would look along."""
    if cause.kind == "thin-conductor":
        return set(site.runs[cause.place].nodes)
    if cause.kind in ("joint", "open", "short-resistive", "leakage", "longer-run"):
        return {cause.place}
    return set()


def put(site: Site, c: Circuits, column: int | slice, cause: Cause, size) -> None:
    """Puts a cause into some of the circuits."""
    kind, place = cause.kind, cause.place
    if kind == "joint":
        c.terminals[place, column] += size
    elif kind in ("open", "port-dead", "supply-dead"):
        c.cut[place, column] = True
    elif kind in ("short-resistive", "leakage"):
        c.across[place, column] += 1.0 / size
    elif kind == "thin-conductor":
        c.copper[site.runs[place].nodes, column] *= size
    elif kind == "longer-run":
        c.copper[place, column] *= size
    elif kind in ("station-dead", "station-removed", "door-station-dead"):
        c.watt[place, column] = 0.0
    elif kind in ("station-overdraw", "door-overdraw"):
        c.extra_watt[place, column] += size
    elif kind == "supply-low":
        c.supply_v[column] *= size
    elif kind == "supply-soft":
        c.other_ohm[0, column] += size


STRANGERS = ("a whole run draws more", "two bad joints", "a joint and a station that draws too much")


def put_stranger(site: Site, c: Circuits, kind: int, rng: np.random.Generator) -> None:
    """A fault that is no single cause of the list."""
    runs = [k for k, run in enumerate(site.runs) if run.name.startswith("R")]
    if kind == 0:
        c.scale[site.runs[runs[rng.integers(len(runs))]].nodes] *= rng.uniform(1.5, 3.0)
        return
    one, other = rng.choice(len(runs), 2, replace=False)
    node = lambda run: site.runs[runs[run]].nodes[rng.integers(len(site.runs[runs[run]].nodes))]  # noqa: E731
    c.terminals[node(one)] += 4.0 * 10.0 ** rng.random()
    if kind == 1:
        c.terminals[node(other)] += 4.0 * 10.0 ** rng.random()
    else:
        c.extra_watt[node(other)] += 4.0 * 4.0 ** rng.random()
