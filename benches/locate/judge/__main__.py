"""An independent judge of `latchline locate`.

    python benches/locate/judge FAULTS SEED LATCHLINE WORK [PICTURE]

Draws FAULTS faults on five sites of 12 to 300 stations, fixes the class of each before the program is asked, and judges the answers. Nothing is shared with
the program but the meaning of its files and names. Seven cases in ten are read at random, one in ten by the program's own next readings, two in ten are told
by a caller alone; of eighty cases 48, 20, 8, 3 and 1 are of the five sites. Every case is kept in
WORK/cases.jsonl, so that what was interrupted goes on where it stopped; FAULTS of 0 writes the sites and reports what is kept. PICTURE is where the reliability diagram goes.
"""

from __future__ import annotations

import json
import sys
import time
from pathlib import Path

import figures
import numpy as np
from ask import Program, next_best_case, random_case
from caller import Caller, caller_case
from cases import CHECKED, Case
from kinds import KINDS, rates_text
from oracle import Oracle
from picture import reliability
from sites import SHAPES, Site

POLICIES = ["random"] * 4 + ["caller"] + ["random"] * 3 + ["next-best", "caller"]
OFTEN = [12] * 48 + [31] * 20 + [64] * 8 + [130] * 3 + [300]
TILTED = 3  # every so manieth case read at random is asked a second time, with the rate of one kind doubled or halved
COUNTED_UP_TO = 64  # stations: classes are counted


def write_files(site: Site, work: Path) -> Path:
    """The files that the program is given, so that every case can be asked again by hand."""
    folder = work / f"site-{site.stations}"
    path = site.write(folder)
    (folder / "rates.toml").write_text(rates_text(False))
    (folder / "told.toml").write_text(rates_text(True))
    return path


class Bench:
    """A site, its oracle and the program, made when they are first needed."""

    def __init__(self, stations: int, latchline: str, work: Path) -> None:
        self.site = Site(stations)
        self.folder = work / f"site-{stations}"
        self.program = Program(latchline, write_files(self.site, work), self.site)
        self.oracle, self.caller = Oracle(self.site), Caller(self.site)


def judged(bench: Bench, number: int, seed: int) -> dict:
    policy, stations = POLICIES[number % len(POLICIES)], bench.site.stations
    key = [seed, stations, ["random", "next-best", "caller"].index(policy), number]
    if policy == "caller":
        return caller_case(bench.caller, bench.program, number, key)
    case = Case(bench.oracle, key, bench.folder if number % CHECKED == 0 else None)
    if policy == "next-best":
        return next_best_case(case, bench.program, number)
    rng = np.random.default_rng([*key, 1])
    # Half of the tilts are of the fault's own kind.
    kind = str(rng.choice(list(KINDS))) if rng.random() < 0.5 or not case.is_listed else case.kind
    tilt = (kind, float(rng.choice([0.5, 2.0]))) if number % TILTED == 0 else None
    return random_case(case, bench.program, number, tilt)


def report(rows: list[dict], classes: dict[int, tuple[int, int]], picture: Path | None) -> None:
    read = [row for row in rows if row["policy"] != "caller"]
    told = [row for row in rows if row["policy"] == "caller"]
    listed = [row for row in read if row["listed"]]
    if not rows:
        print("no case was judged yet")
        return
    for title, text in (
        ("Against the oracle, readings at random", figures.against_the_oracle([row for row in read if row["policy"] == "random"])),
        ("All answers", figures.counted(read)),
        ("How narrow", figures.narrow(read)),
        ("Readings until it stops", figures.isolating(read, classes)),
        ("What is said, readings at random", figures.calibration([row for row in listed if row["policy"] == "random"])),
        ("What is said, next-best", figures.calibration([row for row in listed if row["policy"] == "next-best"])),
        ("What is said, with faults that are not in the list", figures.calibration(read)),
        ("Rates tilted", figures.tilted(read)),
        ("By kind", figures.by_kind(read)),
        ("Not in the list", figures.strangers(read)),
        ("Told by a caller alone", figures.callers(told)),
        ("What is said of the place, caller alone", figures.calibration(told, "place_said", "place_right")),
        ("What is said of the class, caller alone", figures.calibration(told)),
    ):
        print(f"#### {title}\n\n{text}")
    if picture is not None:
        panels = [(policy, [row for row in listed if row["policy"] == policy], "said", "right") for policy in ("random", "next-best")]
        picture.write_text(reliability([*panels, ("caller alone, place", told, "place_said", "place_right")]))


def main() -> None:
    faults, seed, latchline, work = int(sys.argv[1]), int(sys.argv[2]), sys.argv[3], Path(sys.argv[4])
    picture = Path(sys.argv[5]) if len(sys.argv) > 5 else None
    work.mkdir(parents=True, exist_ok=True)
    for stations in SHAPES:
        write_files(Site(stations), work)
    kept = work / "cases.jsonl"
    rows = [json.loads(line) for line in kept.read_text().splitlines()] if kept.exists() else []
    done = {row["number"] for row in rows}
    benches: dict[int, Bench] = {}
    begun = time.time()
    with kept.open("a") as file:
        for number in range(faults):
            if number in done:
                continue
            stations = OFTEN[(number // len(POLICIES)) * 27 % len(OFTEN)]
            if stations not in benches:
                benches[stations] = Bench(stations, latchline, work)
            row = judged(benches[stations], number, seed)
            rows.append(row)
            file.write(json.dumps(row) + "\n")
            file.flush()
    print(f"{len(rows)} cases; {time.time() - begun:.0f} s", file=sys.stderr)
    classes = {}
    for stations in SHAPES:
        oracle = Oracle(Site(stations)) if stations <= COUNTED_UP_TO else None
        of = len(oracle.causes) if oracle else len(benches[stations].oracle.causes) if stations in benches else len(Oracle(Site(stations)).causes)
        classes[stations] = (oracle.number_of_classes() if oracle else 0, of)
    report(rows, classes, picture)


if __name__ == "__main__":
    main()
