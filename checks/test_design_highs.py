"""`latchline design` against HiGHS on a plain formulation of the same costs and limits.

A block with a corridor on every floor: 48 V and short ways, so that counts, ports and money bind. Every run over neighbours
of the walk from every landing is a binary with its cost from the printed prices; boxes are whole numbers; the trunk is a
way up the riser. The designer must not be worse than HiGHS's optimum by more than 1 %, nor its bound above it.
"""

from __future__ import annotations

import itertools
import time

import highspy
import pytest

from survey_files import design, passes, write
from test_design_space import BRANCH_BOXES, CABLES, FAMILIES, money, section

PARTS = FAMILIES["ostrel-48"]
CABLE = money(*CABLES["pair-0.5"])
RISE = 3.2


class Block:
    """Floors with one corridor each; flats at 4 m, then every `step` metres, `drop` from the corridor."""

    def __init__(self, floors: int, flats: int, group: int, step: float = 6, drop: float = 1.5) -> None:
        self.floors, self.flats, self.group, self.step, self.drop = floors, flats, group, step, drop
        self.items = [(floor, flat) for floor in range(floors) for flat in range(flats)]

    def sheets(self) -> dict:
        names = ["G"] + [str(floor) for floor in range(1, self.floors)]
        places = [["Place", "Building", "Floor", "Mains", "Boxes"]]
        routes, dwellings = [["From", "To", "Length"]], [["Dwelling", "Place", "Drop"]]
        for floor, name in enumerate(names):
            places.append([f"L{floor}", "A", name, "no" if floor else "yes", "yes"])
            before = f"L{floor}"
            for flat in range(self.flats):
                node = f"C{floor}-{flat}"
                places.append([node, "A", name, "no", "no"])
                routes.append([before, node, self.step if flat else 4])
                dwellings.append([f"A-{floor}{flat:02d}", node, self.drop])
                before = node
            if floor + 1 < self.floors:
                routes.append([f"L{floor}", f"L{floor + 1}", RISE])
        return {
            "site": [["Setting", "Value"], ["Title", "Block"], ["Family", "ostrel-48"], ["Cables", "pair-0.5"],
                     ["Largest silenced group", self.group], ["Withdrawn parts", "; ".join(["ostrel-ps-60", *BRANCH_BOXES])]],
            "buildings": [["Building", "Floors"], ["A", ";".join(names)]],
            "places": places, "routes": routes, "dwellings": dwellings,
            "entrances": [["Entrance", "Place", "Drop"], ["front", "L0", 8]],
        }

    def along(self, flat: int) -> float:
        return 4 + self.step * flat

    def way(self, a: tuple, b: tuple) -> float:
        """Between two points, each a floor with metres along its corridor."""
        if a[0] == b[0]:
            return abs(a[1] - b[1])
        return a[1] + b[1] + RISE * abs(a[0] - b[0])

    def run_cost(self, landing: int, order: list) -> float | None:
        total, at, drop = 0.0, (landing, 0.0), 0.0
        for floor, flat in order:
            point = (floor, self.along(flat))
            total += section(self.way(at, point) + drop + self.drop)
            at, drop = point, self.drop
        return total * CABLE if total <= PARTS["longest_m"] else None

    def optimum(self) -> tuple[float, float]:
        """HiGHS's optimum of the plain formulation, and its seconds."""
        model = highspy.Highs()
        model.setOptionValue("output_flag", False)
        model.setOptionValue("mip_rel_gap", 0.0)
        model.setOptionValue("time_limit", 120.0)
        cost, whole = [], []
        covers = {item: [] for item in self.items}
        ports = {landing: [] for landing in range(self.floors)}

        def variable(price: float, most: float) -> int:
            model.addVar(0, most)
            cost.append(price)
            whole.append(len(cost) - 1)
            return len(cost) - 1

        for landing in range(self.floors):
            for first in range(len(self.items)):
                for end in range(first + 1, min(first + self.group, len(self.items)) + 1):
                    walked = self.items[first:end]
                    # On small sites up to four come in any order, as the declared space says.
                    is_short = len(walked) <= 4 and len(self.items) < 24
                    orders = itertools.permutations(walked) if is_short else (walked, walked[::-1])
                    made = [self.run_cost(landing, list(order)) for order in orders]
                    made = [price for price in made if price is not None]
                    if made:
                        at = variable(min(made), 1)
                        ports[landing].append(at)
                        for item in walked:
                            covers[item].append(at)
        doors = []
        for landing in range(self.floors):
            at = variable(section(8 + RISE * landing) * CABLE, 1)
            ports[landing].append(at)
            doors.append(at)
        inf = highspy.kHighsInf

        def row(low: float, high: float, terms: dict) -> None:
            model.addRow(low, high, len(terms), list(terms), list(terms.values()))

        for terms in [*covers.values(), doors]:
            row(1, 1, dict.fromkeys(terms, 1.0))
        most = len(self.items) + 1
        boxes = {
            landing: {kind: variable(money(price, minutes), most) for kind, (price, minutes, _) in PARTS["boxes"].items()}
            for landing in range(self.floors)
        }
        for landing, runs in ports.items():
            terms = dict.fromkeys(runs, 1.0)
            terms |= {at: -float(PARTS["boxes"][kind][2]) for kind, at in boxes[landing].items()}
            row(-inf, 0, terms)
        # At most two trunks from the supply on the ground floor; each goes on from landing to landing.
        ways = {(-1, to): variable(section(RISE * to) * CABLE, 2) for to in range(self.floors)}
        ways |= {
            (a, b): variable(section(RISE * (b - a)) * CABLE, most)
            for a in range(self.floors) for b in range(a, self.floors)
        }
        row(1, 2, {at: 1.0 for (a, _), at in ways.items() if a == -1})
        for landing in range(self.floors):
            into = {at: 1.0 for (_, b), at in ways.items() if b == landing}
            # Every box is entered once, and no more trunks leave a landing than enter it.
            row(0, 0, into | {at: -1.0 for at in boxes[landing].values()})
            out = {at: -1.0 for (a, b), at in ways.items() if a == landing and b != landing}
            entries = {at: 1.0 for (a, b), at in ways.items() if b == landing and a != landing}
            row(0, inf, entries | out)
            # One box behind another on a landing only where a trunk has come to it.
            row(0, inf, {at: float(most) for at in entries} | {ways[landing, landing]: -1.0})
        columns = len(cost)
        model.changeColsCost(columns, list(range(columns)), cost)
        model.changeColsIntegrality(columns, whole, [highspy.HighsVarType.kInteger] * columns)
        started = time.perf_counter()
        model.run()
        seconds = time.perf_counter() - started
        assert model.getModelStatus() == highspy.HighsModelStatus.kOptimal
        fixed = money(*PARTS["door"][1:]) + len(self.items) * money(*PARTS["indoor"][1:])
        return fixed + money(*PARTS["supplies"]["ostrel-ps-120"]) + model.getObjectiveValue(), seconds


@pytest.mark.parametrize(
    ("floors", "flats", "group"),
    [(2, 4, 2), (3, 3, 3), (3, 4, 2), (3, 5, 4), (4, 4, 3), (4, 6, 4), (5, 5, 5), (4, 8, 8), (5, 8, 3), (6, 9, 6)],
)
def test_no_worse_than_highs_by_one_per_cent_and_the_bound_not_above_it(floors, flats, group, tmp_path) -> None:
    block = Block(floors, flats, group)
    site = tmp_path / "site.toml"
    result = design(write(tmp_path / "survey", block.sheets()), site)
    optimum, _ = block.optimum()
    assert passes(site)
    assert result["cost"] <= optimum * 1.01
    assert result["lower_bound"] <= optimum + 0.01
