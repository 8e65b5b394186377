"""The cut list against HiGHS, on published cutting-stock instances.

The instances are fed through the program itself: a site whose runs are the pieces and whose cable is sold
in the stock length. HiGHS solves the arc-flow model of Valério de Carvalho (Annals of Operations Research
86 (1999) 629-659), whose optimum is that of the cutting-stock problem.
"""

from __future__ import annotations

import csv
import os
import random
import re
import subprocess

import highspy
import numpy as np
import pytest

# Chvátal, Linear Programming (1983), chapter 13; the example of the article "Cutting stock problem" of the
# encyclopaedia Wikipedia (least number 73). Lengths in their own unit.
PUBLISHED = {
    "Chvátal": (100, {45: 97, 36: 610, 31: 395, 14: 211}, 453),
    "Wikipedia": (
        5600,
        {1380: 22, 1520: 25, 1560: 12, 1710: 14, 1820: 18, 1880: 18, 1930: 20, 2000: 10, 2050: 12, 2100: 14,
         2140: 16, 2150: 18, 2200: 20},
        73,
    ),
}


def falkenauer_uniform(seed: int, items: int = 120) -> tuple[int, dict[int, int]]:
    """The published class of Falkenauer (Journal of Heuristics 2 (1996) 5-30): sizes uniform in 20 to 100,
    bins of 150."""
    r = random.Random(seed)
    sizes: dict[int, int] = {}
    for _ in range(items):
        size = r.randint(20, 100)
        sizes[size] = sizes.get(size, 0) + 1
    return 150, sizes


def falkenauer_triplets(seed: int, triplets: int = 20) -> tuple[int, dict[int, int]]:
    """The same author's triplets: every bin of 1000 is filled exactly by three items, so the least number is
    known by construction."""
    r = random.Random(seed)
    sizes: dict[int, int] = {}
    for _ in range(triplets):
        first = r.randint(380, 490)
        second = r.randint(250, (1000 - first) // 2)
        for size in (first, second, 1000 - first - second):
            sizes[size] = sizes.get(size, 0) + 1
    return 1000, sizes


def arc_flow(stock: int, sizes: dict[int, int], relaxed: bool) -> float:
    """Optimum of the arc-flow model, or of its linear relaxation."""
    lengths = sorted(sizes, reverse=True)
    reachable = {0}
    arcs: set[tuple[int, int, int]] = set()
    for length in lengths:
        for start in sorted(reachable):
            at = start
            for _ in range(sizes[length]):
                if at + length > stock:
                    break
                arcs.add((at, at + length, length))
                at += length
                reachable.add(at)
    nodes = sorted(reachable | {stock})
    arcs |= {(a, b, 0) for a, b in zip(nodes, nodes[1:])}
    ordered = sorted(arcs)
    model = highspy.Highs()
    model.setOptionValue("output_flag", False)
    model.setOptionValue("time_limit", 60.0)
    infinity = highspy.kHighsInf
    for _ in ordered:
        model.addVar(0.0, infinity)
    flow = len(ordered)
    model.addVar(0.0, infinity)
    model.changeColCost(flow, 1.0)
    for node in nodes:
        index, value = [], []
        for column, (a, b, _) in enumerate(ordered):
            if a == node or b == node:
                index.append(column)
                value.append(1.0 if b == node else -1.0)
        if node in (0, stock):
            index.append(flow)
            value.append(1.0 if node == 0 else -1.0)
        model.addRow(0.0, 0.0, len(index), np.array(index, dtype=np.int32), np.array(value))
    for length in lengths:
        index = [column for column, arc in enumerate(ordered) if arc[2] == length]
        model.addRow(float(sizes[length]), infinity, len(index), np.array(index, dtype=np.int32), np.ones(len(index)))
    if not relaxed:
        for column in range(flow + 1):
            model.changeColIntegrality(column, highspy.HighsVarType.kInteger)
    model.run()
    assert model.getModelStatus() == highspy.HighsModelStatus.kOptimal
    return model.getObjectiveValue()


SITE = """
[site]
title = "Stock"
catalogues = ["stock.toml"]
family = "ostrel-48"
indoor_station = "ostrel-a1"
door_station = "ostrel-dv1"
cable = "reel"
[conditions]
length_tolerance = "0 %"
[buildings]
A = {{ floors = ["G"] }}
[supplies]
{supplies}
[dwellings]
{dwellings}
[runs]
{runs}
"""
CATALOGUE = """
[cables.reel]
title = "Reel"
source = "invented"
gauge = "2.5 mm²"
class = 2
drum_lengths = ["{stock:.1f} m"]
"""
# Each cut is lengthened by 0.3 m at each end for making off: 6 decimetres, which the instance's lengths
# already contain here.
ALLOWANCE_DM = 6


def cut(folder, stock: int, sizes: dict[int, int]) -> tuple[int, int]:
    """Drums and bound of the program's cut list; one unit of the instance is `scale` decimetres."""
    scale = -(-(ALLOWANCE_DM + 1) // min(sizes))
    supplies, dwellings, runs = [], [], []
    pieces = [size for size, count in sizes.items() for _ in range(count)]
    for number, size in enumerate(pieces):
        length = (size * scale - ALLOWANCE_DM) / 10
        supplies.append(f'P{number} = {{ model = "ostrel-ps-120", place = "A/G" }}')
        dwellings.append(f'F{number} = {{ place = "A/G" }}')
        runs.append(f'W{number} = {{ from = "P{number}", to = "F{number}", length = "{length:.1f} m" }}')
    text = SITE.format(supplies="\n".join(supplies), dwellings="\n".join(dwellings), runs="\n".join(runs))
    (folder / "site.toml").write_text(text, encoding="utf-8")
    (folder / "stock.toml").write_text(CATALOGUE.format(stock=stock * scale / 10), encoding="utf-8")
    done = subprocess.run(
        [os.environ["LATCHLINE"], "pack", "site.toml", "-o", "pack", "--only", "cut-list"],
        cwd=folder, capture_output=True, text=True, timeout=300,
    )
    assert done.returncode in (0, 1), done.stderr
    import openpyxl

    sheet = openpyxl.load_workbook(folder / "pack" / "workbook.xlsx")["cut-list"]
    heading = next(str(row[0].value) for row in sheet.iter_rows() if str(row[0].value).startswith("reel  "))
    bought = float(re.search(r"bought ([\d.]+) m", heading)[1])
    less = re.search(r"no cutting plan buys less than ([\d.]+) m", heading)
    bound = float(less[1]) if less else bought
    # The list itself: every piece once, no drum overfull.
    with open(folder / "pack" / "tables" / "08-cut-list.csv", encoding="utf-8-sig", newline="") as file:
        rows = list(csv.DictReader(line for line in file if not line.startswith(("# ", '"# '))))
    assert len(rows) == len(pieces)
    drums: dict[str, float] = {}
    for row in rows:
        drums[row["Drum"]] = drums.get(row["Drum"], 0.0) + float(row["Cut to, m"])
    length = stock * scale / 10
    assert all(total <= length + 1e-6 for total in drums.values())
    assert len(drums) == round(bought / length)
    return len(drums), round(bound / length)


@pytest.mark.parametrize("name", PUBLISHED)
def test_published_instances(name, tmp_path):
    stock, sizes, least = PUBLISHED[name]
    drums, bound = cut(tmp_path, stock, sizes)
    assert round(arc_flow(stock, sizes, relaxed=False)) == least
    assert drums == least and bound == least


@pytest.mark.parametrize("seed", range(4))
@pytest.mark.parametrize("make", [falkenauer_uniform, falkenauer_triplets])
def test_published_classes(make, seed, tmp_path):
    stock, sizes = make(seed)
    drums, bound = cut(tmp_path, stock, sizes)
    relaxed = arc_flow(stock, sizes, relaxed=True)
    # The program's bound is at least the linear one rounded up, and never above what HiGHS can do.
    assert bound >= int(np.ceil(relaxed - 1e-6)), (bound, relaxed)
    assert bound <= drums <= bound + 1
