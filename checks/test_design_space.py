"""`latchline design` against enumeration, with `latchline check` alone as the judge.

The enumeration knows the prices of the built-in catalogue as printed in its files, works out every cost on
its own, and asks `check` from the cheapest design on until one passes: nothing of the designer is used.
"""

from __future__ import annotations

import itertools
import json
import math
import random

import pytest

from survey_files import run, write

# Price and minutes as the built-in catalogue states them.
RATE = 45.0
CABLES = {"pair-0.5": (0.25, 1.2), "flex-1.5": (0.79, 1.5)}
FAMILIES = {
    # 48 V: what binds is counts and money.
    "ostrel-48": {
        "boxes": {"ostrel-d4": (96, 25, 4), "ostrel-d6t": (74, 25, 6)},
        "supplies": {"ostrel-ps-60": (118, 30), "ostrel-ps-120": (189, 30)},
        "indoor": ("ostrel-v4", 92, 20),
        "door": ("ostrel-dv1", 420, 60),
        "longest_m": 150,
        "terminator": "",
    },
    # 24 V: thin cable soon falls below the least voltage of 19 V.
    "larkfen-24": {
        "boxes": {"larkfen-r4": (129, 30, 4)},
        "supplies": {"larkfen-ps-40": (84, 30), "larkfen-ps-65b": (176, 40)},
        "indoor": ("larkfen-v5", 88, 18),
        "door": ("larkfen-dv2", 340, 55),
        "longest_m": 100,
        "terminator": ", terminator = true",
    },
}


def money(price: float, minutes: float) -> float:
    return price + minutes * RATE / 60.0


def section(metres: float) -> float:
    """Slack 5 %, 0.3 m at each end, up to a whole tenth of a metre."""
    return math.ceil((metres * 1.05 + 0.6) * 10 - 1e-6) / 10


class Line:
    """A straight corridor: the cupboard at one end, dwellings at their distances along it."""

    def __init__(self, seed: int, dwellings: int) -> None:
        rng = random.Random(seed)
        self.family = "larkfen-24" if seed % 2 else "ostrel-48"
        self.parts = FAMILIES[self.family]
        self.steps = [rng.choice([3, 6, 14, 25, 40]) for _ in range(dwellings)]
        while sum(self.steps) > 80:
            self.steps[self.steps.index(max(self.steps))] = 3
        self.drops = [rng.choice([0, 1, 2]) for _ in range(dwellings)]
        self.group = rng.choice([2, 3, 8])
        self.at = list(itertools.accumulate(self.steps))

    def sheets(self) -> dict:
        count = len(self.steps)
        return {
            "site": [
                ["Setting", "Value"],
                ["Title", "Line"],
                ["Family", self.family],
                ["Cables", "; ".join(CABLES)],
                ["Largest silenced group", self.group],
            ],
            "buildings": [["Building", "Floors"], ["A", "G"]],
            "places": [["Place", "Building", "Floor", "Mains", "Boxes"], ["cupboard", "A", "G", "yes", "yes"]]
            + [[f"p{k}", "A", "G", "no", "no"] for k in range(count)],
            "routes": [["From", "To", "Length"]]
            + [["cupboard" if k == 0 else f"p{k - 1}", f"p{k}", self.steps[k]] for k in range(count)],
            "dwellings": [["Dwelling", "Place", "Drop"]] + [[f"D{k}", f"p{k}", self.drops[k]] for k in range(count)],
            "entrances": [["Entrance", "Place", "Drop"], ["front", "cupboard", 8]],
        }

    def lengths(self, order: tuple[int, ...]) -> list[float]:
        out, place, drop = [], 0.0, 0.0
        for k in order:
            out.append(section(abs(self.at[k] - place) + drop + self.drops[k]))
            place, drop = self.at[k], self.drops[k]
        return out

    def runs(self, order: tuple[int, ...]) -> list:
        """A run's ways to be made: cost, cable, lengths."""
        lengths = self.lengths(order)
        if sum(lengths) > self.parts["longest_m"] or len(order) > self.group:
            return []
        return [(money(*CABLES[cable]) * sum(lengths), cable, lengths) for cable in CABLES]

    def designs(self):
        """Every division into ordered runs with every cable, box, supply and trunk cable, as (cost, site file)."""
        boxes, supplies = self.parts["boxes"], self.parts["supplies"]
        fixed = money(*self.parts["door"][1:]) + len(self.steps) * money(*self.parts["indoor"][1:])
        for division in divisions(list(range(len(self.steps)))):
            best_of = [
                [choice for order in itertools.permutations(part) for choice in map(lambda c, o=order: (*c, o), self.runs(order))]
                for part in division
            ]
            if not all(best_of):
                continue
            for choices in itertools.product(*best_of):
                for box, supply, trunk, door in itertools.product(boxes, supplies, CABLES, CABLES):
                    price, minutes, ports = boxes[box]
                    if len(choices) + 1 > ports:
                        continue
                    cost = fixed + money(price, minutes) + money(*supplies[supply])
                    cost += section(0) * money(*CABLES[trunk]) + section(8) * money(*CABLES[door])
                    cost += sum(choice[0] for choice in choices)
                    yield cost, (choices, box, supply, trunk, door)

    def site(self, made) -> str:
        choices, box, supply, trunk, door = made
        lines = [
            "[site]", 'title = "Line"', f'family = "{self.family}"', f'indoor_station = "{self.parts["indoor"][0]}"',
            f'door_station = "{self.parts["door"][0]}"', "[policy]", f"largest_silenced_group = {self.group}",
            "[buildings]", 'A = { floors = ["G"] }',
            "[supplies]", f'PS = {{ model = "{supply}", place = "A/G" }}',
            "[distributors]", f'B = {{ model = "{box}", place = "A/G" }}',
            "[entrances]", 'front = { role = "main", place = "A/G" }', "[dwellings]",
        ]
        lines += [f'D{k} = {{ place = "A/G" }}' for k in range(len(self.steps))]
        lines += ["[runs]", f'T = {{ from = "PS", to = "B", cable = "{trunk}", length = "{section(0)} m" }}']
        end = self.parts["terminator"]
        lines += [f'F = {{ from = "B.1", to = "front", cable = "{door}", length = "{section(8)} m"{end} }}']
        for number, (_, cable, lengths, order) in enumerate(choices):
            stops = json.dumps([f"D{k}" for k in order])
            metres = json.dumps([f"{length} m" for length in lengths])
            lines.append(f'R{number} = {{ from = "B.{number + 2}", to = {stops}, cable = "{cable}", lengths = {metres}{end} }}')
        return "\n".join(lines) + "\n"


def divisions(items: list):
    """Every division of a list into unordered parts."""
    if not items:
        yield []
        return
    first, rest = items[0], items[1:]
    for division in divisions(rest):
        yield [[first], *division]
        for at in range(len(division)):
            yield [*division[:at], [first, *division[at]], *division[at + 1 :]]


def cheapest_that_passes(line: Line, folder) -> float | None:
    for cost, made in sorted(line.designs(), key=lambda entry: entry[0]):
        site = folder / "candidate.toml"
        site.write_text(line.site(made))
        if run("check", site).returncode == 0:
            return cost
    return None


@pytest.mark.parametrize("seed", range(120))
def test_cost_equals_that_of_the_whole_space(seed: int, tmp_path) -> None:
    line = Line(seed, 1 + seed % 4)
    folder = write(tmp_path / "survey", line.sheets())
    done = run("design", folder, "-o", tmp_path / "site.toml", "--format", "json")
    design = json.loads(done.stdout)["families"][0]["design"]
    expected = cheapest_that_passes(line, tmp_path)
    if expected is None:
        assert done.returncode == 1 and design is None
        return
    assert done.returncode == 0 and run("check", tmp_path / "site.toml").returncode == 0
    assert design["cost"] == pytest.approx(expected, abs=0.01)
    assert design["lower_bound"] <= expected + 0.01
