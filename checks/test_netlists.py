"""What is joined to what: the wiring schedule against the drawings against the site file.

For the examples of the documents, the demo's three sites, every site of `by_hand`, a site with every kind of lock, and 200 random ones. A drawing
is read by its shapes and lettering alone (`netlists.py`).
"""

from __future__ import annotations

import collections
import functools
import json
import os
import pathlib
import re
import subprocess
import xml.etree.ElementTree as ElementTree

import pytest

import netlists
from netlists import SVG, Schedule, SiteFile
from wired_sites import wired_site

PROGRAM = os.environ["LATCHLINE"]
HERE = pathlib.Path(__file__).parent
ROOT = HERE.parent
DEMO = ROOT / "crates/latchline/src/demo"
# What cannot be used is refused, and has no pack.
EXPECTED = json.loads((HERE / "by_hand/expected.json").read_text(encoding="utf-8"))
REFUSED = {entry["file"] for entry in EXPECTED if entry["exit"] == 2}
FILES = [
    *sorted((ROOT / "docs/examples").glob("*.toml")),
    *(DEMO / name for name in ("site.toml", "faulty.toml", "designed.toml")),
    ROOT / "crates/drawing/src/wiring/every_lock.toml",
    *(file for file in sorted((HERE / "by_hand").glob("*.toml")) if file.name not in REFUSED),
]
RANDOM = 200
AT_ONCE = 10


class Drawn:
    """A site with its schedule and drawings."""

    def __init__(self, folder: pathlib.Path, file: pathlib.Path) -> None:
        self.file = SiteFile(file)
        pack = folder / "pack"
        command = [PROGRAM, "pack", str(file), "-o", str(pack), "--only", "wiring,lock-wiring,job-cards"]
        done = subprocess.run(command, capture_output=True, text=True, timeout=300)
        assert done.returncode in (0, 1), done.stderr
        self.schedule = Schedule(next((pack / "tables").glob("*-wiring.csv")))
        self.pictures = sorted((pack / "drawings").glob("lock-wiring*.svg"))
        self.cards = sorted((pack / "drawings").glob("job-cards*.svg"))
        # One sheet, so that no line is cut.
        elevation = folder / "elevation.svg"
        command = [PROGRAM, "draw", str(file), "-o", str(elevation), "--sheet", "4900x4900"]
        done = subprocess.run(command, capture_output=True, text=True, timeout=300)
        assert done.returncode in (0, 1), done.stderr
        self.by_run, self.elevation = netlists.elevation_nets(elevation)


def bus_nets(drawn: Drawn) -> tuple[set, set]:
    """Devices' terminals that are joined, by the elevation and by both poles of the schedule."""
    sets = {terminals for net in drawn.elevation.nets() for terminals in net}
    by_drawing = {frozenset(net) for net in drawn.elevation.nets() if len(net) > 1}
    joined = drawn.schedule.nets().nets()
    by_pole = []
    for pole in ("+", "−"):
        found = set()
        for net in joined:
            places = {(device, terminals) for device, terminals, own in net if own == pole}
            # What is fed from the bus at a door is no run.
            places = {place for place in places if place in sets or is_bus(place)}
            if len(places) > 1:
                found.add(frozenset(places))
        by_pole.append(found)
    assert by_pole[0] == by_pole[1], "plus and minus go different ways"
    return by_drawing, by_pole[0]


def is_bus(place: tuple[str, str]) -> bool:
    device, terminals = place
    return "/" not in device and re.fullmatch(r"in|out|link|\d+|out\d+", terminals) is not None


def faults_of_runs(drawn: Drawn) -> list[str]:
    by_drawing, by_schedule = bus_nets(drawn)
    faults = [f"drawn, not in the schedule: {sorted(net)}" for net in by_drawing - by_schedule]
    faults += [f"in the schedule, not drawn: {sorted(net)}" for net in by_schedule - by_drawing]
    # By device and port, run by run, against the site file.
    boxes = {name for table in ("distributors", "branch-boxes") for name in drawn.file.data.get(table, {})}

    def place(terminal: tuple[str, str]) -> str:
        device, mark = terminal
        return f"{device}.{mark}" if device in boxes and mark != "in" else device

    for run, sections in drawn.file.sections().items():
        wanted = collections.Counter(sections)
        found = collections.Counter(frozenset(place(end) for end in line) for line in drawn.by_run.get(run, []))
        # Sections that meet at one terminal are one line to the eye.
        if found != wanted and frozenset().union(*found) != frozenset().union(*wanted):
            faults.append(f"{run}: drawn {list(found)}, in the site file {list(wanted)}")
        elif sum(found.values()) > sum(wanted.values()):
            faults.append(f"{run}: {sum(found.values())} lines for {sum(wanted.values())} sections")
    return faults


def faults_of_locks(drawn: Drawn) -> list[str]:
    groups = {}
    for svg in drawn.pictures:
        for group in ElementTree.parse(svg).getroot().iter(f"{SVG}g"):
            if group.get("class") == "lock-wiring":
                groups[group.get("data-element")] = group
    faults = []
    for door, number, lock, has_fire in drawn.file.locks():
        name = f"{door} lock {number}"
        if name not in groups:
            faults.append(f"{name} has no picture")
            continue
        by_drawing = netlists.lock_nets(groups[name])
        by_schedule = netlists.lock_nets_of_schedule(drawn.schedule, door, number, drawn.file.feed(lock), drawn.file.is_secure(lock))
        if by_drawing != by_schedule:
            only = sorted(map(sorted, by_drawing - by_schedule)), sorted(map(sorted, by_schedule - by_drawing))
            faults.append(f"{name}: drawn {only[0]}, in the schedule {only[1]}")
        faults += [f"{name}: {fault}" for fault in drawn.file.lock_faults(lock, has_fire, by_schedule)]
    return faults


def squeezed(text: str) -> str:
    return re.sub(r"\s+", "", text)


def faults_of_cards(drawn: Drawn) -> list[str]:
    """Terminals and the far ends of what lands on them, as strips of job cards draw them."""
    found = collections.Counter()
    for svg in drawn.cards:
        for block in ElementTree.parse(svg).getroot().iter(f"{SVG}g"):
            if block.get("class") != "job-block":
                continue
            mark = ""
            for piece in block.iter(f"{SVG}g"):
                if piece.get("class") == "plugged-terminals":
                    # Side by side: the marks of all stand behind where they lead, in the same order.
                    heads = [group for group in piece.iter(f"{SVG}g") if group.get("class") == "terminal-set"]
                    mark = squeezed("".join(words for _, _, words in netlists.texts_of(heads[0])))
                    bodies = [group for group in piece if group.get("class") == "terminal"]
                    poles = ["".join(words for _, _, words in netlists.texts_of(body)) for body in bodies]
                    words = squeezed(" ".join(text.text for text in piece if text.tag == f"{SVG}text"))
                    led, joined = words.partition("[")[0], squeezed("".join(poles))
                    to = led.removesuffix(joined) if led.endswith(joined) else None
                    owner = block.get("data-element") or block.get("data-continues")
                    for pole in poles if to else []:
                        found[(owner, mark, pole, squeezed(to + pole))] += 1
                    continue
                if piece.get("class") != "terminal":
                    continue
                heads = [group for group in piece.iter(f"{SVG}g") if group.get("class") == "terminal-set"]
                if heads:
                    mark = squeezed("".join(words for _, _, words in netlists.texts_of(heads[0])))
                inside = [piece for piece in piece if piece.tag == f"{SVG}text"]
                # A box to write a colour into stands at the right of the terminal.
                rectangles = [rect for rect in piece.iter(f"{SVG}rect") if "layer-device" in netlists.classes(rect)]
                body = min(rectangles, key=lambda rect: float(rect.get("x")))
                left, width = float(body.get("x")), float(body.get("width"))
                pole = "".join(text.text for text in inside if left < float(text.get("x")) < left + width)
                # Words go on below: of what starts with an arrow, up to the next that does, or to other words.
                words = " ".join(text.text for text in inside if float(text.get("x")) > left + width)
                found[(block.get("data-element") or block.get("data-continues"), mark, pole, squeezed(words))] += 1
    faults = []
    for device in {row[0] for row in drawn.schedule.rows}:
        rows = [(terminal, other) for terminal, _, other in drawn.schedule.joins if terminal[0] == device and other]
        for terminal, other in rows:
            name = f"{other[0]}:{other[1]} {other[2]}".strip() if other[1] else other[0]
            wanted = squeezed(f"→ {name}")
            of_it = [words for (own, mark, pole, words), _ in found.items() if own == device and (mark, pole) == (squeezed(terminal[1]), terminal[2])]
            if not any(wanted in words for words in of_it):
                faults.append(f"the card of {device} does not draw {terminal[1:]} {wanted}")
    return faults


def every_fault(folder: pathlib.Path, file: pathlib.Path) -> list[str]:
    drawn = Drawn(folder, file)
    return faults_of_runs(drawn) + faults_of_locks(drawn) + faults_of_cards(drawn)


@pytest.mark.parametrize("file", FILES, ids=lambda file: file.stem)
def test_schedule_drawings_and_site_file_join_the_same(tmp_path, file):
    assert every_fault(tmp_path, file) == []


@pytest.mark.parametrize("first", range(0, RANDOM, AT_ONCE))
def test_random_sites_join_the_same(tmp_path, first):
    for seed in range(first, first + AT_ONCE):
        folder = tmp_path / str(seed)
        folder.mkdir()
        file = folder / "site.toml"
        file.write_text(wired_site(seed), encoding="utf-8")
        assert every_fault(folder, file) == [], seed


@functools.cache
def sites() -> list[dict]:
    return [netlists.tomllib.loads(wired_site(seed)) for seed in range(RANDOM)]


def test_the_random_sites_have_what_is_to_be_checked():
    locks = [lock for site in sites() for entrance in site["entrances"].values() for lock in entrance.get("locks", [entrance.get("lock")]) if lock]
    for key in ("exit_button", "emergency_release", "door_contact", "relay_between", "relay_on_secure_side", "suppression", "cables"):
        assert sum(key in lock for lock in locks) > 20, key
    for key in ("fire_interlock", "surge_protection", "accessories", "lights", "alarm_inputs"):
        assert sum(key in entrance for site in sites() for entrance in site["entrances"].values()) > 20, key
    screened = [run for site in sites() for run in site["runs"].values() if run["cable"] in ("signal-0.8", "outdoor-0.8")]
    assert len(screened) > 100


def test_the_check_itself_sees_faults(tmp_path):
    """A line that is led to another card, a wire that is left out, a row that names another terminal."""
    drawn = Drawn(tmp_path, DEMO / "site.toml")
    assert faults_of_runs(drawn) == []
    row = next(row for row in drawn.schedule.joins if row[0] == ("A-D1", "1", "+"))
    drawn.schedule.joins.remove(row)
    drawn.schedule.joins = [join for join in drawn.schedule.joins if join[2] != row[0]]
    with pytest.raises(AssertionError, match="different ways"):
        faults_of_runs(drawn)
    group = next(
        group
        for svg in drawn.pictures
        for group in ElementTree.parse(svg).getroot().iter(f"{SVG}g")
        if group.get("class") == "lock-wiring"
    )
    whole = netlists.lock_nets(group)
    wire = next(path for path in group.iter(f"{SVG}path") if "ink-wire" in netlists.classes(path))
    next(parent for parent in group.iter() if wire in list(parent)).remove(wire)
    assert netlists.lock_nets(group) != whole
