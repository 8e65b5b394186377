"""Surveys for the checks of `latchline design`, as folders of CSV files."""

from __future__ import annotations

import csv
import json
import os
import subprocess
from pathlib import Path

LETTERS = "ABCDEFGHJK"


def write(folder: Path, sheets: dict[str, list[list]]) -> Path:
    folder.mkdir(parents=True, exist_ok=True)
    for name, rows in sheets.items():
        with open(folder / f"{name}.csv", "w", newline="", encoding="utf-8") as file:
            csv.writer(file).writerows(rows)
    return folder


def corridor_blocks(blocks: int, floors: int, flats: int, settings: dict | None = None) -> dict[str, list[list]]:
    """Blocks with a riser at the core and a corridor to both sides of every landing."""
    names = ["G"] + [str(floor) for floor in range(1, floors)]
    site = [["Setting", "Value"], ["Title", "Corridors"], ["Family", "ostrel-48"]]
    site += [[key, value] for key, value in (settings or {"Largest silenced group": 8}).items()]
    places = [["Place", "Building", "Floor", "Mains", "Boxes"]]
    routes = [["From", "To", "Length", "Environment"]]
    dwellings = [["Dwelling", "Place", "Drop"]]
    entrances = [["Entrance", "Place", "Drop", "Role", "Calls", "Lock", "Lock cable", "Lock length"]]
    for block in range(blocks):
        letter = LETTERS[block]
        for level, floor in enumerate(names):
            landing = f"{letter}-{floor}"
            places.append([landing, letter, floor, "yes" if level == 0 else "no", "yes"])
            if level:
                routes.append([f"{letter}-{names[level - 1]}", landing, 3.2, ""])
            number = 0
            for side, count in zip("lr", [(flats + 1) // 2, flats // 2]):
                before = landing
                for step in range(count):
                    node = f"{letter}{floor}{side}{step}"
                    places.append([node, letter, floor, "no", "no"])
                    routes.append([before, node, 6 if step else 4, ""])
                    before = node
                    number += 1
                    dwellings.append([f"{letter}-{floor}{number:02d}", node, 1.5])
        if block:
            routes.append([f"{LETTERS[block - 1]}-G", f"{letter}-G", 35, "buried"])
        entrances.append([f"front-{letter}", f"{letter}-G", 8, "main", letter, "strike-12", "flex-1.0", 5])
    buildings = [["Building", "Floors"]] + [[LETTERS[block], ";".join(names)] for block in range(blocks)]
    return {
        "site": site,
        "buildings": buildings,
        "places": places,
        "routes": routes,
        "dwellings": dwellings,
        "entrances": entrances,
    }


def run(*arguments, status: int | None = None) -> subprocess.CompletedProcess:
    done = subprocess.run(
        [os.environ["LATCHLINE"], *map(str, arguments)], capture_output=True, text=True, timeout=300
    )
    if status is not None:
        assert done.returncode == status, (done.returncode, done.stdout[-1500:], done.stderr[-1500:])
    return done


def passes(site: Path) -> bool:
    """Whether `check` finds no error; in the format in which it seeks no remedies, which takes a tenth of the time on a site that fails."""
    return run("check", site, "--format", "short").returncode == 0


def design(folder: Path, output: Path, *options: str) -> dict:
    """Designs, and gives the JSON of the chosen family."""
    done = run("design", folder, "-o", output, "--force", "--format", "json", *options, status=0)
    result = json.loads(done.stdout)
    return next(one["design"] for one in result["families"] if one["family"] == result["chosen"])
