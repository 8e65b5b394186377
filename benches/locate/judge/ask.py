"""Asking the program, and what its answer is worth."""

from __future__ import annotations

import json
import subprocess
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from cases import Case
from kinds import element, metres, rates_text
from oracle import Oracle
from sites import Quantity, Site

MOST_READINGS, FIRST = 12, Quantity("voltage", 0)
POSTERIOR_UP_TO = 64  # stations: the oracle's posterior is worked out for these sites


class Refused(Exception):
    """The program asks back about the only reading that it was given."""


@dataclass
class Program:
    """The program with a site."""

    latchline: str
    path: Path
    site: Site

    def ask(self, items: list[str], rates: str) -> dict:
        command = [self.latchline, "locate", str(self.path), *items, "--rates", str(self.path.parent / rates), "--format", "json"]
        done = subprocess.run(command, capture_output=True, text=True, timeout=600)
        if done.returncode == 2 and "left out" in done.stderr:
            raise Refused(done.stderr)
        if done.returncode not in (0, 1):
            raise RuntimeError(f"{' '.join(command)}\n{done.stderr}")
        answer = json.loads(done.stdout)
        answer["command"] = " ".join(["locate", f"{self.site.stations}", *items])
        answer["refused"] = done.returncode == 1
        return answer


def named(answer: dict, oracle: Oracle) -> tuple[dict[tuple[str, str], float], list[tuple[str, str]], list[tuple[str, str]]]:
    every = {(one["kind"], one["element"]): one["probability"] for one in answer["causes"]}
    first = [(one["kind"], one["element"]) for one in answer["causes"] if one.get("class") == 1]
    three = [(one["kind"], one["element"]) for one in answer["causes"] if one.get("class", 99) <= 3]
    return every, first, three


def worth(answer: dict, case: Case) -> dict:
    """Of the first class: what is said, and whether it is right."""
    site = case.site
    every, first, three = named(answer, case.oracle)
    truth = (case.kind, case.element)
    place = {(one.kind, element(site, one)): one for one in case.oracle.causes}
    sections = set().union(*(metres(site, place[one]) for one in first)) if first else set()
    return {
        "said": sum(every[one] for one in first),
        "right": case.is_listed and truth in first,
        "three": case.is_listed and truth in three,
        "of_truth": every.get(truth, 0.0),
        "size": len(first),
        "single": len(first) == 1,
        "none": answer["none_of_these"],
        "metres": float(sum(site.metres[node] for node in sections)),
        "refused": answer["refused"],
    }


def against_oracle(answer: dict, case: Case, taken: list[tuple[Quantity, float]], alike: set[int]) -> dict:
    """Whether the first class lies within the class that was fixed before, and what the oracle would have said."""
    oracle = case.oracle
    numbers = {(one.kind, element(case.site, one)): number for number, one in enumerate(oracle.causes)}
    every, first, _ = named(answer, oracle)
    first_numbers = {numbers[one] for one in first}
    outside = first_numbers - alike
    probability = {numbers[one]: value for one, value in every.items()}
    found = {
        "within": not outside,
        "outside": sum(probability[one] for one in outside) / max(sum(probability[one] for one in first_numbers), 1e-12),
        "fixed_size": len(alike),
    }
    if case.site.stations <= POSTERIOR_UP_TO:
        quantities, seen = [one for one, _ in taken], np.array([value for _, value in taken])
        posterior, best = oracle.posterior(quantities, seen)
        likeliest = oracle.alike(quantities, oracle.said(quantities)[best], oracle.faulted(np.array([best])), seen)
        theirs = np.zeros(len(posterior))
        theirs[list(probability)] = list(probability.values())
        found |= {
            "oracle_fixed": float(posterior[list(alike)].sum()),
            "oracle_named": float(posterior[list(first_numbers)].sum()),
            "oracle_right": case.number in likeliest,
            "oracle_within": likeliest <= alike,
            "oracle_said": float(posterior[list(likeliest)].sum()),
            "apart": float(0.5 * np.abs(theirs / max(theirs.sum(), 1e-12) - posterior).sum()),
        }
    return found


def base(case: Case, policy: str, number: int) -> dict:
    low_high = case.cause.size if case.is_listed else None
    third = int(3 * np.log(case.size / low_high[0]) / np.log(low_high[1] / low_high[0])) if low_high else None
    return {"policy": policy, "site": case.site.stations, "number": number, "kind": case.kind, "element": case.element, "fault_size": case.size,
            "third": None if third is None else min(third, 2), "listed": case.is_listed}


def dwellings(site: Site, taken: list[Quantity]) -> int:
    return len({node for one in taken for node in (one.node, one.start) if one.kind != "current" and node >= 0 and site.is_indoor[node]})


def random_case(case: Case, program: Program, number: int, tilt: tuple[str, float] | None) -> dict:
    """Readings at random; the class is fixed first. With a tilt the same is asked with one kind's rate multiplied."""
    quantities = case.random_readings()
    seen = np.array([round(case.read(one), 6) for one in quantities])
    alike = case.oracle.alike(quantities, case.truth(quantities), case.drawn, seen)
    items = [case.written(one, value) for one, value in zip(quantities, seen)]
    answer = program.ask(items, "rates.toml")
    taken = list(zip(quantities, seen))
    row = base(case, "random", number) | worth(answer, case) | against_oracle(answer, case, taken, alike)
    row |= {"readings": len(items), "dwellings": dwellings(case.site, quantities), "command": answer["command"]}
    if tilt is not None:
        (program.path.parent / "tilted.toml").write_text(rates_text(False, tilt))
        row["tilt"] = {"kind": tilt[0], "factor": tilt[1]} | worth(program.ask(items, "tilted.toml"), case)
    return row


def next_best_case(case: Case, program: Program, number: int) -> dict:
    """The supply's voltage first, then what the program proposes until it proposes nothing more."""
    item, taken = case.taken(FIRST)
    items, is_weighed, is_stopped = [item], True, False
    while True:
        try:
            answer = program.ask(items, "rates.toml")
        except Refused:
            # Asked whether that is right, somebody reads again.
            item, taken = case.taken(FIRST)
            items = [item]
            continue
        following = answer.get("next_reading")
        if following is None or len(items) >= MOST_READINGS:
            is_stopped = following is None
            break
        found = case.proposed(following)
        if found is None:
            break
        items.append(found[0])
        taken += found[1]
        is_weighed &= bool(found[1])
    row = base(case, "next-best", number) | worth(answer, case) | {"stopped": is_stopped, "readings": len(items), "command": answer["command"]}
    row["dwellings"] = dwellings(case.site, [one for one, _ in taken])
    if is_weighed:
        quantities, seen = [one for one, _ in taken], np.array([value for _, value in taken])
        alike = case.oracle.alike(quantities, case.truth(quantities), case.drawn, seen)
        row |= against_oracle(answer, case, taken, alike)
    if case.is_listed:
        row |= ways(case)
    return row


def ways(case: Case) -> dict:
    """Readings that walking along the way to the fault, or halving it, would take if the way were known."""
    site, place = case.site, case.cause.place
    node = site.runs[place].nodes[0] if case.kind == "thin-conductor" else place
    walked = 1
    while node > 0:
        node = int(site.tree.parent[node])
        walked += 1
    node = site.runs[place].nodes[-1] if case.kind == "thin-conductor" else place
    run = site.run_of[node]
    end = site.runs[run].nodes[-1] if run >= 0 and node != 0 else node
    length = 1
    while end > 0:
        end = int(site.tree.parent[end])
        length += 1
    return {"walking": walked, "halving": int(np.ceil(np.log2(length))) if length > 1 else 1}
