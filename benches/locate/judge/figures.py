"""Tables of what was judged, with intervals: shares by Wilson (1927), 95 %; means with their standard error."""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np

BINS = [0.0, 0.25, 0.5, 0.7, 0.85, 0.95, 0.99, 1.0001]


def interval(right: int, of: int) -> tuple[float, float]:
    z = 1.96
    p = right / of
    middle, half = p + z * z / (2 * of), z * np.sqrt(p * (1 - p) / of + z * z / (4 * of * of))
    return max((middle - half) / (1 + z * z / of), 0.0), min((middle + half) / (1 + z * z / of), 1.0)


def share(values: Iterable) -> str:
    values = [bool(value) for value in values]
    if not values:
        return "none"
    low, high = interval(sum(values), len(values))
    return f"{100 * np.mean(values):.1f} % ({100 * low:.1f}–{100 * high:.1f}; {len(values)})"


def mean(values: Iterable, digits: int = 2) -> str:
    values = [value for value in values if value is not None]
    if not values:
        return "none"
    error = np.std(values, ddof=1) / np.sqrt(len(values)) if len(values) > 1 else float("nan")
    return f"{np.mean(values):.{digits}f} ± {error:.{digits}f}"


def middle(values: Iterable) -> str:
    values = list(values)
    return f"{np.median(values):.0f}" if values else "none"


def brier(rows: list[dict], said: str = "said", right: str = "right") -> str:
    return mean([(row[said] - row[right]) ** 2 for row in rows], 3)


def table(title: list[str], lines: list[list[str]]) -> str:
    out = ["| " + " | ".join(title) + " |", "|" + "---|" * len(title)]
    return "\n".join(out + ["| " + " | ".join(line) + " |" for line in lines]) + "\n"


def statements(rows: list[dict], said: str = "said", right: str = "right") -> list[dict]:
    """Bins of what is said: number, mean said, share right and its interval."""
    found = []
    for low, high in zip(BINS[:-1], BINS[1:]):
        inside = [row for row in rows if low <= row[said] < high]
        if inside:
            rights = sum(row[right] for row in inside)
            found.append({"low": low, "high": min(high, 1.0), "number": len(inside), "said": float(np.mean([row[said] for row in inside])),
                          "right": rights / len(inside), "interval": interval(rights, len(inside))})
    return found


def calibration(rows: list[dict], said: str = "said", right: str = "right") -> str:
    lines = [
        [f"{100 * one['low']:.0f} to {100 * one['high']:.0f} %", str(one["number"]), f"{100 * one['said']:.1f} %",
         f"{100 * one['right']:.1f} % ({100 * one['interval'][0]:.1f} to {100 * one['interval'][1]:.1f})"]
        for one in statements(rows, said, right)
    ]
    return table(["said", "statements", "mean said", "right"], lines)


def against_the_oracle(rows: list[dict]) -> str:
    lines = []
    rows = [row for row in rows if row["listed"] and "oracle_fixed" in row and not row["refused"]]
    for site in [*sorted({row["site"] for row in rows}), None]:
        here = [row for row in rows if site in (row["site"], None)]
        known, other = [row for row in here if row["oracle_fixed"] >= 0.97], [row for row in here if row["oracle_fixed"] < 0.97]
        lines.append([
            f"{site} stations" if site else "all",
            share(row["right"] for row in known), share(row["three"] for row in known), share(row["right"] for row in other),
            share(row["oracle_right"] for row in other), mean([row["apart"] for row in here], 3),
        ])
    return table(["site", "class first where the oracle has it at 97 %", "in the first three there", "class first elsewhere", "the oracle there",
                  "total variation to the oracle"], lines)


def counted(rows: list[dict]) -> str:
    lines = []
    for policy in ("random", "next-best"):
        of_policy = [row for row in rows if row["policy"] == policy and row["listed"]]
        for site in [*sorted({row["site"] for row in of_policy}), None]:
            here = [row for row in of_policy if site in (row["site"], None)]
            fixed = [row for row in here if "within" in row]
            lines.append([
                f"{site} stations, {policy}" if site else f"all, {policy}", str(len(here)),
                share(row["right"] for row in here), share(row["three"] for row in here),
                share(row["right"] and row["within"] for row in fixed),
                share(row["right"] and row["outside"] < 0.05 for row in fixed), brier(here),
            ])
    return table(["site and policy", "faults", "contains the cause", "in the first three", "counts: contains it and lies within the class fixed before",
                  "the same, but for 5 % of what is said", "Brier"], lines)


def narrow(rows: list[dict]) -> str:
    lines = []
    for policy in ("random", "next-best"):
        of_policy = [row for row in rows if row["policy"] == policy and row["listed"]]
        for site in [*sorted({row["site"] for row in of_policy}), None]:
            here = [row for row in of_policy if site in (row["site"], None)]
            fixed = [row["fixed_size"] for row in here if "fixed_size" in row]
            lines.append([
                f"{site} stations, {policy}" if site else f"all, {policy}", middle(row["size"] for row in here), middle(fixed),
                middle(row["metres"] for row in here), share(row["single"] and row["right"] for row in here),
                mean(row["readings"] for row in here), mean(row["dwellings"] for row in here),
            ])
    return table(["site and policy", "median class named", "median class fixed before", "median metres spanned", "single cause, right", "readings",
                  "dwellings entered"], lines)


def by_kind(rows: list[dict]) -> str:
    lines = []
    kinds = [kind for kind in dict.fromkeys(row["kind"] for row in rows if row["listed"])]
    for kind in sorted(kinds):
        cells = [kind]
        for policy in ("random", "next-best"):
            here = [row for row in rows if row["kind"] == kind and row["policy"] == policy]
            cells += [share(row["right"] for row in here), share(row["single"] and row["right"] for row in here)]
        best = [row for row in rows if row["kind"] == kind and row["policy"] == "next-best" and row["third"] is not None]
        cells.append(", ".join(f"{100 * np.mean([row['single'] and row['right'] for row in best if row['third'] == k]):.0f} %"
                               if any(row["third"] == k for row in best) else "–" for k in range(3)) if best else "no size")
        lines.append(cells)
    return table(["kind", "class first, random", "single, random", "class first, next-best", "single, next-best", "single by third of the size"], lines)


def isolating(rows: list[dict], classes: dict[int, tuple[int, int]]) -> str:
    lines = []
    for site in sorted({row["site"] for row in rows}):
        here = [row for row in rows if row["site"] == site and row["policy"] == "next-best" and row["listed"]]
        done = [row for row in here if row["stopped"] and row["right"]]
        kinds = classes[site]
        lines.append([f"{site} stations", share(row["stopped"] and row["right"] for row in here), mean(row["readings"] for row in done),
                      mean(row["walking"] for row in done), mean(row["halving"] for row in done),
                      f"{np.log2(kinds[0]):.1f}" if kinds[0] else "not counted", f"{np.log2(kinds[1]):.1f}"])
    return table(["site", "stopped by itself, and right", "readings then", "walking the way", "halving the way", "log2 of the classes", "log2 of the causes"], lines)


def tilted(rows: list[dict]) -> str:
    lines = []
    for title, keep in (("every kind halved", lambda one: one["tilt"]["factor"] < 1), ("every kind doubled", lambda one: one["tilt"]["factor"] > 1),
                        ("that of the fault halved", lambda one: one["tilt"]["factor"] < 1 and one["tilt"]["kind"] == one["kind"]),
                        ("that of the fault doubled", lambda one: one["tilt"]["factor"] > 1 and one["tilt"]["kind"] == one["kind"])):
        here = [row for row in rows if row["listed"] and "tilt" in row and keep(row)]
        band = [row["tilt"] for row in here if 0.85 <= row["tilt"]["said"] < 0.95]
        said = f"{100 * np.mean([row['said'] for row in band]):.1f} %" if band else "none"
        lines.append([title, str(len(here)), share(row["right"] for row in here), share(row["tilt"]["right"] for row in here),
                      brier([row["tilt"] for row in here]), f"{said}: {share(row['right'] for row in band)}"])
    return table(["tilt", "faults", "class first, as it was", "class first, tilted", "Brier, tilted", "said at 85 to 95 %, and right"], lines)


def callers(rows: list[dict]) -> str:
    lines = []
    for site in [*sorted({row["site"] for row in rows}), None]:
        here = [row for row in rows if site in (row["site"], None)]
        lines.append([f"{site} stations" if site else "all", share(row["place_right"] for row in here), share(row["place_three"] for row in here),
                      brier(here, "place_said", "place_right"), share(row["right"] for row in here), share(row["three"] for row in here),
                      middle(row["size"] for row in here), share(row["asked"] for row in here)])
    return table(["site", "place first", "place in the first three", "Brier of the place", "class first", "class in the first three", "median class",
                  "a question was put"], lines)


def strangers(rows: list[dict]) -> str:
    lines = []
    rows = [row for row in rows if "fixed_size" in row]
    groups = [(kind, [row for row in rows if row["kind"] == kind and not row["listed"]]) for kind in sorted({row["kind"] for row in rows if not row["listed"]})]
    groups.append(("all, where no cause of the list is within 2 of the truth", [row for row in rows if not row["listed"] and row["fixed_size"] == 0]))
    groups.append(("for comparison: faults of the list", [row for row in rows if row["listed"]]))
    for title, here in groups:
        lines.append([title, str(len(here)), share(row["none"] > 0.5 for row in here), mean(row["none"] for row in here)])
    return table(["fault that is not in the list", "faults", "said to be none of these at more than 50 %", "mean said"], lines)
