"""Times power-grid-model, a general load-flow library, on the tree files that the Rust bench writes.

    python library.py TREE...

The tree becomes a symmetric three-phase network without reactance or reactive power, whose equations are
those of direct current with the same volts, ohms and watts. Newton-Raphson to 1e-12 per unit.
"""

import sys
import time

import numpy as np
import power_grid_model as pgm


def read(path):
    with open(path, "rb") as file:
        n = int(np.fromfile(file, "<i8", 1)[0])
        v0, r0 = np.fromfile(file, "<f8", 2)
        return v0, r0, np.fromfile(file, "<i4", n), np.fromfile(file, "<f8", n), np.fromfile(file, "<f8", n)


def network(v0, r0, parent, r, p):
    """Node n is the ideal source; line k joins parent[k] to k, line 0 is the source resistance."""
    n = len(p)
    node = pgm.initialize_array("input", "node", n + 1)
    node["id"], node["u_rated"] = np.arange(n + 1), v0
    line = pgm.initialize_array("input", "line", n)
    line["id"] = n + 1 + np.arange(n)
    line["from_node"] = np.concatenate([[n], parent[1:]])
    line["to_node"] = np.arange(n)
    line["from_status"] = line["to_status"] = 1
    line["r1"], line["x1"] = np.concatenate([[r0], r[1:]]), 0.0
    line["c1"] = line["tan1"] = 0.0
    load = pgm.initialize_array("input", "sym_load", n)
    load["id"], load["node"] = 2 * n + 1 + np.arange(n), np.arange(n)
    load["status"], load["type"] = 1, pgm.LoadGenType.const_power
    load["p_specified"], load["q_specified"] = p, 0.0
    source = pgm.initialize_array("input", "source", 1)
    source["id"], source["node"], source["status"], source["u_ref"], source["sk"] = 3 * n + 1, n, 1, 1.0, 1e20
    return {"node": node, "line": line, "sym_load": load, "source": source}


def calculate(model, **more):
    return model.calculate_power_flow(
        calculation_method=pgm.CalculationMethod.newton_raphson,
        error_tolerance=1e-12,
        max_iterations=50,
        output_component_types={"node": ["u"]} if not more else {"node": ["u_pu"]},
        **more,
    )


def main():
    for path in sys.argv[1:]:
        tree = read(path)
        model = pgm.PowerGridModel(network(*tree))
        calculate(model)
        took = []
        for _ in range(15):
            start = time.perf_counter()
            found = calculate(model)
            took.append(time.perf_counter() - start)
        lowest = found["node"]["u"].min()
        print(f"power-grid-model {len(tree[4])}: {1e6 * np.median(took):.0f} us, lowest {lowest:.6f} V")
        if len(tree[4]) > 1000:
            continue
        # Batch: loads and resistances vary; the library takes resistances only by rebuilding its matrix.
        samples, rng = 1_000, np.random.default_rng(1)
        n = len(tree[4])
        load = pgm.initialize_array("update", "sym_load", (samples, n))
        load["id"] = 2 * n + 1 + np.arange(n)
        load["p_specified"] = tree[4] * rng.uniform(0.95, 1.05, (samples, n))
        start = time.perf_counter()
        calculate(model, update_data={"sym_load": load}, threading=-1)
        loads_only = 10 * (time.perf_counter() - start)
        start = time.perf_counter()
        for _ in range(100):
            v0, r0, parent, r, p = tree
            varied = network(
                v0, r0, parent, r * rng.uniform(0.95, 1.05, n), p * rng.uniform(0.95, 1.05, n)
            )
            calculate(pgm.PowerGridModel(varied))
        rebuilt = 100 * (time.perf_counter() - start)
        print(
            f"power-grid-model {n} x 10000 (extrapolated from 1000 and 100): loads alone {loads_only:.2f} s, "
            f"resistances as well {rebuilt:.2f} s, one thread"
        )


main()
