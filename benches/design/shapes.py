"""Designs invented buildings of the shapes that people build and prints cost, gap and processor time of each.

    LATCHLINE=target/debug/latchline .venv/bin/python benches/design/shapes.py [FOLDER]
"""

from __future__ import annotations

import json
import os
import resource
import subprocess
import sys
import tempfile
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2] / "checks"))
import survey_files  # noqa: E402
from survey_files import corridor_blocks, write  # noqa: E402

survey_files.LETTERS = "ABCDEFGHJKLMNPQRSTUVWX"
LATCHLINE = os.environ.get("LATCHLINE", "target/debug/latchline")
SITE = [["Setting", "Value"], ["Title", "Shape"], ["Family", "ostrel-48"]]
ENTRANCE = ["Entrance", "Place", "Drop", "Role", "Lock", "Lock cable", "Lock length"]
LOCK = ["strike-12", "flex-1.0", 5]


def house(dwellings: int) -> dict:
    """A stair with two flats on a landing, the cupboard and the door at its foot."""
    places = [["Place", "Building", "Floor", "Mains", "Boxes"], ["cupboard", "A", "G", "yes", "yes"]]
    routes, flats, before = [["From", "To", "Length"]], [["Dwelling", "Place", "Drop"]], "cupboard"
    for number in range(dwellings):
        if number % 2 == 0:
            landing = f"landing {number // 2}"
            places.append([landing, "A", str(number // 2) if number else "G", "no", "yes"])
            routes.append([before, landing, 3])
            before = landing
        flats.append([f"F{number + 1}", before, 4])
    floors = ["G"] + [str(floor) for floor in range(1, (dwellings + 1) // 2)]
    return {"site": SITE, "buildings": [["Building", "Floors"], ["A", ";".join(floors)]], "places": places, "routes": routes,
            "dwellings": flats, "entrances": [ENTRANCE, ["front", "cupboard", 8, "main", *LOCK]]}


def terrace(houses: int) -> dict:
    """Houses in a row, six metres apart, one gate that calls them all."""
    places = [["Place", "Mains", "Boxes"], ["gate", "yes", "yes"]]
    routes, dwellings, before = [["From", "To", "Length"]], [["Dwelling", "Place", "Drop"]], "gate"
    for number in range(houses):
        places.append([f"step {number}", "no", "yes"])
        routes.append([before, f"step {number}", 6])
        before = f"step {number}"
        dwellings.append([f"H{number + 1}", before, 5])
    return {"site": SITE, "places": places, "routes": routes, "dwellings": dwellings,
            "entrances": [ENTRANCE, ["front", "gate", 4, "main", *LOCK]]}


def courtyard() -> dict:
    """Three blocks of twelve around a gatehouse 40 to 60 m away; gate and desk call everyone."""
    places = [["Place", "Building", "Floor", "Mains", "Boxes"], ["gatehouse", "", "", "yes", "yes"]]
    routes, flats = [["From", "To", "Length", "Environment"]], [["Dwelling", "Place", "Drop"]]
    for block, metres in zip("ABC", (40, 50, 60)):
        for floor in range(3):
            places.append([f"{block}-{floor}", block, floor, "yes" if floor == 0 else "no", "yes"])
            routes.append(["gatehouse", f"{block}-0", metres, "buried"] if floor == 0 else [f"{block}-{floor - 1}", f"{block}-{floor}", 3, ""])
            flats += [[f"{block}-{floor}{flat}", f"{block}-{floor}", 6] for flat in range(1, 5)]
    return {"site": [*SITE, ["Largest silenced group", 8]], "buildings": [["Building", "Floors"]] + [[block, "0;1;2"] for block in "ABC"],
            "places": places, "routes": routes, "dwellings": flats, "entrances": [ENTRANCE, ["gate", "gatehouse", 5, "main", *LOCK]],
            "management": [["Desk", "Place"], ["porter", "gatehouse"]]}


def gated(blocks: int, floors: int, flats: int) -> dict:
    """Blocks with doors of their own and a gate that calls everyone."""
    sheets = corridor_blocks(blocks, floors, flats)
    sheets["places"].append(["gate", "", "", "yes", "yes"])
    sheets["routes"].append(["gate", "A-G", 25, "buried"])
    sheets["entrances"].append(["gate-door", "gate", 3, "secondary", "everyone", *LOCK])
    return sheets


def hall(rooms: int) -> dict:
    """Corridors of twenty rooms over one another, no cable through a room."""
    places = [["Place", "Building", "Floor", "Mains", "Boxes"], ["desk", "H", "0", "yes", "yes"]]
    routes, dwellings = [["From", "To", "Length"]], [["Dwelling", "Place", "Drop"]]
    for floor in range(rooms // 20):
        before = f"c{floor - 1}-0" if floor else "desk"
        for step in range(10):
            places.append([f"c{floor}-{step}", "H", floor, "no", "yes"])
            routes.append([before, f"c{floor}-{step}", 4 if step else 3])
            before = f"c{floor}-{step}"
            dwellings += [[f"R{floor}{step}{side}", before, 2] for side in (0, 1)]
    return {"site": [*SITE, ["Wiring", "corridors"]], "buildings": [["Building", "Floors"], ["H", ";".join(map(str, range(rooms // 20)))]],
            "places": places, "routes": routes, "dwellings": dwellings, "entrances": [ENTRANCE, ["front", "desk", 6, "main", *LOCK]]}


def standby(hours: int) -> dict:
    sheets = corridor_blocks(1, 5, 10)
    sheets["site"].append(["Standby hours", hours])
    return sheets


def damaged() -> dict:
    sheets = house(6)
    sheets["existing cables"] = [["From", "To", "Cable", "Length", "Loop", "Insulation"], ["landing 0", "F1", "pair-0.5", 5, 1.2, 0.02]]
    return sheets


SHAPES = {
    "one dwelling": house(1),
    "two dwellings": house(2),
    "six dwellings": house(6),
    "six, one old drop damaged": damaged(),
    "terrace of 20": terrace(20),
    "courtyard, 3 blocks of 12": courtyard(),
    "block of 50": corridor_blocks(1, 5, 10),
    "block of 50, 24 h on battery": standby(24),
    "2 blocks of 50": corridor_blocks(2, 5, 10),
    "6 blocks of 50": corridor_blocks(6, 5, 10),
    "12 blocks of 50": corridor_blocks(12, 5, 10),
    "2 blocks of 20 and a gate": gated(2, 5, 4),
    "4 blocks of 12 and a gate": gated(4, 3, 4),
    "3 blocks of 30 and a gate": gated(3, 5, 6),
    "hall of 40 rooms": hall(40),
}


def main() -> None:
    with tempfile.TemporaryDirectory() as made:
        folder = Path(sys.argv[1]) if len(sys.argv) > 1 else Path(made)
        for name, sheets in SHAPES.items():
            survey = write(folder / name.replace(" ", "-").replace(",", ""), sheets)
            before = resource.getrusage(resource.RUSAGE_CHILDREN)
            done = subprocess.run([LATCHLINE, "design", survey, "--format", "json"], capture_output=True, text=True, check=False)
            after = resource.getrusage(resource.RUSAGE_CHILDREN)
            seconds = after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime
            design = json.loads(done.stdout)["families"][0]["design"]
            cost = f"{design['cost']:,.2f} | {100 * design['gap']:.2f} %" if design else "none | "
            print(f"| {name} | {cost} | {seconds:.2f} |", flush=True)


if __name__ == "__main__":
    main()
