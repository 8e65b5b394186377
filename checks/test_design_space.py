"""`latchline design` against enumeration, with `latchline check` alone as the judge.

The enumeration knows the prices of the built-in catalogue as printed in its files, works out every cost on
its own, and asks `check` from the cheapest design on until one passes: nothing of the designer is used.
"""

from __future__ import annotations

import heapq
import itertools
import json
import math
import random

import pytest

from survey_files import passes, run, write

# Price and minutes as the built-in catalogue states them.
RATE = 45.0
BRANCH_BOXES = ["ostrel-t2", "ostrel-t4", "larkfen-b2"]
CABLES = {"pair-0.5": (0.25, 1.2), "flex-1.5": (0.79, 1.5)}
FAMILIES = {
    # 48 V: what binds is counts and money.
    "ostrel-48": {
        "boxes": {"ostrel-d4": (96, 25, 4), "ostrel-d8t": (74, 25, 8)},
        "supplies": {"ostrel-ps-60": (118, 30), "ostrel-ps-120": (189, 30)},
        "outputs": {"ostrel-ps-60": 1, "ostrel-ps-120": 2},
        "indoor": ("ostrel-v4", 92, 20),
        "door": ("ostrel-dv1", 420, 60),
        "longest_m": 150,
        "terminator": "",
    },
    # 24 V: thin cable soon falls below the least voltage of 19 V.
    "larkfen-24": {
        "boxes": {"larkfen-r4": (129, 30, 4)},
        "supplies": {"larkfen-ps-40": (84, 30), "larkfen-ps-65b": (176, 40)},
        "outputs": {"larkfen-ps-40": 1, "larkfen-ps-65b": 2},
        "indoor": ("larkfen-v5", 88, 18),
        "door": ("larkfen-dv2", 340, 55),
        "longest_m": 100,
        "terminator": ", terminator = true",
    },
}


# The door station in the orders of runs: it hangs on the cupboard, and cannot be looped.
DOOR = -1
DOOR_DROP = 8


def money(price: float, minutes: float) -> float:
    return price + minutes * RATE / 60.0


def section(metres: float) -> float:
    """Slack 5 %, 0.3 m at each end, up to a whole tenth of a metre."""
    return math.ceil((metres * 1.05 + 0.6) * 10 - 1e-6) / 10


class Line:
    """A straight corridor: the cupboard at one end, dwellings at their distances along it."""

    def parents(self) -> list[int]:
        """The place before each on the way from the cupboard (-1)."""
        return [k - 1 for k in range(len(self.steps))]

    def way(self, a: int, b: int) -> float:
        """Metres between two places; -1 is the cupboard."""
        up = []
        for end in (a, b):
            chain, sums, place = [-1], {-1: 0.0}, end
            path = []
            while place != -1:
                path.append(place)
                place = self.parents()[place]
            total = 0.0
            for place in reversed(path):
                total += self.steps[place]
                sums[place] = total
                chain.append(place)
            up.append((chain, sums))
        (chain, ours), (other, theirs) = up
        joint = max((place for place in chain if place in other), key=lambda place: ours[place])
        return (ours[a] - ours[joint]) + (theirs[b] - theirs[joint])

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
                # The enumerations below know chains alone; test_design_branches has its own.
                ["Withdrawn parts", "; ".join(BRANCH_BOXES)],
            ],
            "buildings": [["Building", "Floors"], ["A", "G"]],
            "places": [["Place", "Building", "Floor", "Mains", "Boxes"], ["cupboard", "A", "G", "yes", "yes"]]
            + [[f"p{k}", "A", "G", "no", "no"] for k in range(count)],
            "routes": [["From", "To", "Length"]]
            + [["cupboard" if k == -1 else f"p{k}", f"p{at}", self.steps[at]] for at, k in enumerate(self.parents())],
            "dwellings": [["Dwelling", "Place", "Drop"]] + [[f"D{k}", f"p{k}", self.drops[k]] for k in range(count)],
            "entrances": [["Entrance", "Place", "Drop"], ["front", "cupboard", 8]],
        }

    def lengths(self, order: tuple[int, ...]) -> list[float]:
        out, place, drop = [], -1, 0.0
        for k in order:
            own = DOOR_DROP if k == DOOR else self.drops[k]
            out.append(section(self.way(place, k) + drop + own))
            place, drop = k, own
        return out

    def runs(self, order: tuple[int, ...]) -> list:
        """A run's ways to be made: cost, cable, lengths."""
        lengths = self.lengths(order)
        dwellings = sum(k != DOOR for k in order)
        if DOOR in order[:-1] or sum(lengths) > self.parts["longest_m"] or dwellings > self.group:
            return []
        return [(money(*CABLES[cable]) * sum(lengths), cable, lengths) for cable in CABLES]

    def designs(self):
        """Every division into ordered runs with every cable, box, supply and trunk cable, as (cost, site file)."""
        boxes, supplies = self.parts["boxes"], self.parts["supplies"]
        fixed = money(*self.parts["door"][1:]) + len(self.steps) * money(*self.parts["indoor"][1:])
        for division in divisions([DOOR, *range(len(self.steps))]):
            best_of = [
                [choice for order in itertools.permutations(part) for choice in map(lambda c, o=order: (*c, o), self.runs(order))]
                for part in division
            ]
            if not all(best_of):
                continue
            for choices in itertools.product(*best_of):
                runs = sum(choice[0] for choice in choices)
                for supply in supplies:
                    base, outputs = fixed + money(*supplies[supply]) + runs, self.parts["outputs"][supply]
                    if len(choices) <= outputs:
                        yield base, (choices, (), None, supply, next(iter(CABLES)))
                    # All on a box, or one run on an output beside the trunk.
                    beside = range(len(choices)) if outputs > 1 and len(choices) > 1 else []
                    for box, trunk, alone in itertools.product(boxes, CABLES, [None, *beside]):
                        price, minutes, ports = boxes[box]
                        on_box = [choice for at, choice in enumerate(choices) if at != alone]
                        if len(on_box) <= ports:
                            on_output = [] if alone is None else [choices[alone]]
                            cost = base + money(price, minutes) + section(0) * money(*CABLES[trunk])
                            yield cost, (on_output, on_box, box, supply, trunk)

    def site(self, made) -> str:
        on_output, on_box, box, supply, trunk = made
        runs = lambda choices: [(cable, order) for _, cable, _, order in choices]  # noqa: E731
        return self.site_of([(box, runs(on_box))] if box else [], supply, trunk, runs(on_output))

    def site_of(self, boxes, supply: str, trunk: str, on_outputs=()) -> str:
        """A site file of boxes one behind the other, each a model with its runs, cable and order; and of runs on outputs."""
        names = [f"B{at}" for at in range(len(boxes))]
        lines = [
            "[site]", 'title = "Line"', f'family = "{self.family}"', f'indoor_station = "{self.parts["indoor"][0]}"',
            f'door_station = "{self.parts["door"][0]}"', "[policy]", f"largest_silenced_group = {self.group}",
            "[buildings]", 'A = { floors = ["G"] }',
            "[supplies]", f'PS = {{ model = "{supply}", place = "A/G" }}', "[distributors]",
        ]
        lines += [f'{name} = {{ model = "{model}", place = "A/G" }}' for name, (model, _) in zip(names, boxes)]
        lines += ["[entrances]", 'front = { role = "main", place = "A/G" }', "[dwellings]"]
        lines += [f'D{k} = {{ place = "A/G" }}' for k in range(len(self.steps))]
        steps = json.dumps([f"{section(0)} m"] * len(boxes))
        lines.append("[runs]")
        if boxes:
            lines.append(f'T = {{ from = "PS", to = {json.dumps(names)}, cable = "{trunk}", lengths = {steps} }}')
        end = self.parts["terminator"]
        starts = [(f"{name}.{port}", made) for name, (_, runs) in zip(names, boxes) for port, made in enumerate(runs, start=1)]
        for number, (start, (cable, order)) in enumerate(starts + [("PS", made) for made in on_outputs]):
            stops = json.dumps(["front" if k == DOOR else f"D{k}" for k in order])
            metres = json.dumps([f"{length} m" for length in self.lengths(order)])
            lines.append(f'R{number} = {{ from = "{start}", to = {stops}, cable = "{cable}", lengths = {metres}{end} }}')
        return "\n".join(lines) + "\n"


class Tree(Line):
    """Corridors that branch: every place goes off any place before it."""

    def __init__(self, seed: int, dwellings: int) -> None:
        super().__init__(seed, dwellings)
        rng = random.Random(1000 + seed)
        self.before = [rng.randrange(-1, k) if k else -1 for k in range(dwellings)]

    def parents(self) -> list[int]:
        return self.before


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
        if passes(site):
            return cost
    return None


def equals_the_whole_space(line: Line, tmp_path) -> None:
    folder = write(tmp_path / "survey", line.sheets())
    done = run("design", folder, "-o", tmp_path / "site.toml", "--format", "json")
    design = json.loads(done.stdout)["families"][0].get("design")
    expected = cheapest_that_passes(line, tmp_path)
    if expected is None:
        assert done.returncode == 1 and design is None
        return
    assert done.returncode == 0 and passes(tmp_path / "site.toml")
    assert design["cost"] == pytest.approx(expected, abs=0.01)
    assert design["lower_bound"] <= expected + 0.01


# 11, 19, 55: what is cheapest by voltage alone fails for its signal.
@pytest.mark.parametrize("seed", [*range(40), 55, 57, 59, 61, 63])
def test_cost_equals_that_of_the_whole_space(seed: int, tmp_path) -> None:
    equals_the_whole_space(Line(seed, 1 + seed % 4), tmp_path)


@pytest.mark.parametrize("seed", range(40))
def test_cost_equals_that_of_the_whole_space_where_ways_branch(seed: int, tmp_path) -> None:
    equals_the_whole_space(Tree(seed, 2 + seed % 3), tmp_path)


def neighbours(line: Line):
    """Every division of the walk into neighbouring runs, and of the runs into boxes, from the cheapest on."""
    walk = [DOOR, *range(len(line.steps))]
    count = len(walk)
    choices = {}
    for first in range(count):
        for end in range(first + 1, count + 1):
            walked = tuple(walk[first:end])
            few = len(walked) <= 4
            turned = (*walked[1:], DOOR) if walked[0] == DOOR else walked
            orders = itertools.permutations(walked) if few else [turned, walked[::-1]]
            # Of one cable only the cheapest orders can matter while they pass; those behind come later in the heap.
            made = [(cost, cable, order) for order in orders for cost, cable, _ in line.runs(order)]
            if made:
                choices[first, end] = sorted(made)
    boxes, supplies = line.parts["boxes"], line.parts["supplies"]
    fixed = money(*line.parts["door"][1:]) + (count - 1) * money(*line.parts["indoor"][1:])
    heap, number = [], itertools.count()

    def push(skeleton, picks) -> None:
        parts, models, base = skeleton
        cost = base + sum(choices[part][pick][0] for part, pick in zip(parts, picks))
        heapq.heappush(heap, (cost, next(number), skeleton, picks))

    for parts in intervals(count, choices):
        for supply in supplies:
            outputs = line.parts["outputs"][supply]
            base = fixed + money(*supplies[supply])
            if len(parts) <= outputs:
                push((parts, ((0, len(parts)), (), (), supply, next(iter(CABLES))), base), (0,) * len(parts))
            # All on boxes, or the first or last run on an output beside the trunk.
            spans = [(0, len(parts))]
            if outputs > 1 and len(parts) > 1:
                spans += [(1, len(parts)), (0, len(parts) - 1)]
            for first, end in spans:
                for cuts in box_cuts(end - first, max(ports for _, _, ports in boxes.values())):
                    sizes = [b - a for a, b in itertools.pairwise((0, *cuts, end - first))]
                    for kinds, trunk in itertools.product(itertools.product(boxes, repeat=len(sizes)), CABLES):
                        if any(size > boxes[kind][2] for size, kind in zip(sizes, kinds)):
                            continue
                        cost = base + sum(money(*boxes[kind][:2]) for kind in kinds)
                        cost += len(kinds) * section(0) * money(*CABLES[trunk])
                        push((parts, ((first, end), sizes, kinds, supply, trunk), cost), (0,) * len(parts))
    while heap:
        cost, _, (parts, models, base), picks = heapq.heappop(heap)
        yield cost, parts, models, [choices[part][pick] for part, pick in zip(parts, picks)]
        # Each set of picks is reached once: only the last raised place and those behind it are raised further.
        last = max((at for at, pick in enumerate(picks) if pick), default=0)
        for at in range(last, len(parts)):
            if picks[at] + 1 < len(choices[parts[at]]):
                push((parts, models, base), (*picks[:at], picks[at] + 1, *picks[at + 1 :]))


def intervals(count: int, choices: dict, first: int = 0):
    """Divisions of `first..count` into neighbouring parts that can be runs."""
    if first == count:
        yield ()
        return
    for end in range(first + 1, count + 1):
        if (first, end) in choices:
            for rest in intervals(count, choices, end):
                yield ((first, end), *rest)


def box_cuts(runs: int, most: int):
    """Where a row of runs is cut into boxes of at most `most`; no more boxes than two beyond the fewest."""
    fewest = -(-runs // most)
    for boxes in range(fewest, fewest + 2):
        yield from itertools.combinations(range(1, runs), boxes - 1)


# Even seeds are of the 48 V family; of the 24 V family, where most of the space fails for its signal, a few.
@pytest.mark.parametrize("seed", [*range(0, 240, 2), *range(3, 43, 8)])
def test_cost_equals_that_of_the_declared_space(seed: int, tmp_path) -> None:
    """Five to eight dwellings on a line, in the order of the walk: `check` is asked from the cheapest design on."""
    line = Line(seed, 5 + seed % 4)
    folder = write(tmp_path / "survey", line.sheets())
    done = run("design", folder, "-o", tmp_path / "site.toml", "--format", "json")
    design = json.loads(done.stdout)["families"][0].get("design")
    candidate = tmp_path / "candidate.toml"
    for tried, (cost, _, (span, sizes, kinds, supply, trunk), picks) in enumerate(neighbours(line)):
        if design is not None and cost > design["cost"] + 0.01:
            break
        runs = [(cable, order) for _, cable, order in picks]
        on_boxes = runs[span[0] : span[1]] if kinds else []
        on_outputs = runs[: span[0]] + runs[span[1] :] if kinds else runs
        ends = list(itertools.accumulate(sizes))
        boxes = [(kind, on_boxes[end - size : end]) for kind, size, end in zip(kinds, sizes, ends)]
        candidate.write_text(line.site_of(boxes, supply, trunk, on_outputs))
        if passes(candidate):
            assert design is not None
            assert design["lower_bound"] <= cost + 0.01
            assert design["cost"] == pytest.approx(cost, abs=0.01)
            return
        if tried == 60:
            break  # what is left costs more: so far nothing undercuts the design
    if design is not None:
        assert passes(tmp_path / "site.toml")


def test_a_planted_grouping_of_others_than_neighbours_is_found_or_said_to_be_outside(tmp_path) -> None:
    """Two short spokes and two long ones off one hall, listed short, short, long, long; two dwellings on a run.

    A run to a short and then a long spoke passes the short one twice, one to two long spokes a long one: short with long is
    cheaper, and no neighbours in the order of the survey.
    """
    line = Tree(0, 8)
    line.group, line.drops = 2, [0] * 8
    line.steps = [30, 1, 2, 25, 28, 3, 3, 3]
    line.before = [-1, 0, 0, 0, 0, -1, -1, -1]
    planted = [(1, 3), (2, 4), (0,), (5,), (6,), (7,)]
    folder = write(tmp_path / "survey", line.sheets())

    def runs_cost(orders) -> float:
        return sum(sum(line.lengths(order)) * money(*CABLES["pair-0.5"]) for order in orders)

    assert runs_cost(planted) < runs_cost([(1, 2), (3, 4), (0,), (5,), (6,), (7,)])
    boxes = [("ostrel-d8t", [("pair-0.5", (DOOR,))] + [("pair-0.5", order) for order in planted])]
    site = tmp_path / "planted.toml"
    site.write_text(line.site_of(boxes, "ostrel-ps-60", "pair-0.5"))
    assert passes(site)
    fixed = money(*line.parts["door"][1:]) + 8 * money(*line.parts["indoor"][1:]) + money(*line.parts["supplies"]["ostrel-ps-60"])
    cost = fixed + money(74, 25) + section(0) * money(*CABLES["pair-0.5"]) + section(8) * money(*CABLES["pair-0.5"])
    cost += runs_cost(planted)
    result = json.loads(run("design", folder, "--format", "json", status=0).stdout)["families"][0]["design"]
    assert result["cost"] <= cost + 0.01 or "Other groupings are outside this space and may be cheaper." in " ".join(result["space"])
    assert result["lower_bound"] <= result["cost"] + 0.01
    # Further walking orders bring it into the space.
    longer = json.loads(run("design", folder, "--time", "4", "--format", "json", status=0).stdout)["families"][0]["design"]
    assert longer["orders_tried"] > result["orders_tried"]
    assert longer["cost"] <= cost + 0.01
