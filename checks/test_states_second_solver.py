"""Lowest voltages of every state, release states, the largest power of a supply and what a run has to spare, by a second solver.

Small random sites: one supply, chains of stations that draw constant power, doors whose locks draw more while they are released. Every
admissible set of calls (ringing, talking, talking with the lock released) and of doors released outside of calls is solved here, by plain sweeps in
Python over a tree built from the same lengths (second_solver.py); nothing is shared with the program but the site file and the meaning of its keys.
"""

import itertools
import json
import os
import random
import subprocess

import pytest
from second_solver import greatest_voltages, sets_of_calls, shared_ohm

SOURCE_V, SOURCE_TOLERANCE, SOURCE_OHM = 48.0, 0.02, 0.8
CONDUCTOR_OHM_PER_KM, RESISTANCE_TOLERANCE, LENGTH_TOLERANCE, JOINT_OHM = 88.0, 0.03, 0.05, 0.01
CALLS_AT_ONCE = 2
# Standby, ringing, talking, and what releasing adds, in watts.
FLAT_W, DOOR_W, RELEASE_W = (0.5, 3.0, 6.0), (2.0, 6.0, 7.0), 5.0

CATALOGUE = f"""
[families.mere]
title = "Mere (invented)"
source = "invented"
nominal_voltage = "48 V"
simultaneous_calls = {CALLS_AT_ONCE}
addresses.indoor = [{{ field = "dwelling", first = 1, last = 99, set_by = "keyed", digits = 2, label = "FLAT" }}]
addresses.door = [{{ field = "entrance", first = 0, last = 9, set_by = "keyed", digits = 1, label = "DOOR" }}]

[supplies]
ps = {{ title = "Supply", source = "invented", family = "mere", voltage = "48 V", voltage_tolerance = "2 %", source_resistance = "{SOURCE_OHM} ohm", rated_current = "5 A", limit_kind = "constant-current" }}

[stations]
flat = {{ title = "Station", source = "invented", family = "mere", kind = "indoor", media = "audio", loop_through = "bridged", converter = true, standby = "{FLAT_W[0]} W", ringing = "{FLAT_W[1]} W", talking = "{FLAT_W[2]} W", load_tolerance = "0 %", least_voltage = "30 V", least_standby_voltage = "20 V" }}
door = {{ title = "Door station", source = "invented", family = "mere", kind = "door", media = "audio", loop_through = "bridged", converter = true, standby = "{DOOR_W[0]} W", ringing = "{DOOR_W[1]} W", talking = "{DOOR_W[2]} W", releasing_extra = "{RELEASE_W} W", load_tolerance = "0 %", least_voltage = "30 V", least_standby_voltage = "20 V", directory = 99, lock_outputs = 1 }}

[cables]
wire = {{ title = "Wire", source = "invented", gauge = "{CONDUCTOR_OHM_PER_KM} ohm/km", pairs = 2, resistance_tolerance = "3 %" }}

[locks]
strike = {{ title = "Strike", source = "invented", kind = "strike", power_loss = "stays-shut", voltage = "12 V", current = "0.3 A" }}
"""


class Site:
    """Chains from the supply: names by run, lengths by run; who calls whom is everybody by every door."""

    def __init__(self, seed, most_flats=7, shrunk=1.0):
        rng = random.Random(seed)
        self.doors = [f"E{number}" for number in range(rng.randint(2, 3))]
        flats = [f"F{number}" for number in range(1, rng.randint(4, most_flats + 1))]
        self.stations = {}
        self.chains = [[door] for door in self.doors]
        count = rng.randint(1, 2)
        chains = [[] for _ in range(count)]
        for flat in flats:
            rng.choice(chains).append(flat)
            self.stations[flat] = [flat]
        self.chains += [chain for chain in chains if chain]
        self.lengths = [[round(shrunk * rng.uniform(5, 60), 1) for _ in chain] for chain in self.chains]
        self.releases_at_once = len(self.doors) - 1
        self.laid_out = None

    def text(self):
        quoted = lambda names: ", ".join(f'"{name}"' for name in names)  # noqa: E731
        runs = "".join(
            f'R{number} = {{ from = "PS", to = [{quoted(chain)}], lengths = [{quoted(f"{metres} m" for metres in lengths)}] }}\n'
            for number, (chain, lengths) in enumerate(zip(self.chains, self.lengths, strict=True))
        )
        doors = "".join(
            f'{door} = {{ role = "{"secondary" if number else "main"}", calls = ["everyone"], '
            'lock = { model = "strike", feed = "station", contact = "normally-open" } }\n'
            for number, door in enumerate(self.doors)
        )
        flats = "".join(f"{flat} = {{}}\n" for flat in self.stations)
        return (
            '[site]\ntitle = "T"\nfamily = "mere"\nindoor_station = "flat"\ndoor_station = "door"\ncable = "wire"\ncatalogues = ["catalogue.toml"]\n'
            '[conditions]\nusual_temperature = "20 °C"\nhottest_temperature = "20 °C"\ncoldest_temperature = "20 °C"\n'
            f'length_tolerance = "{LENGTH_TOLERANCE * 100:g} %"\njoint_resistance = "{JOINT_OHM} ohm"\n'
            f"[policy]\nreleases_at_once = {self.releases_at_once}\n"
            f'[supplies]\nPS = {{ model = "ps" }}\n[entrances]\n{doors}[dwellings]\n{flats}[runs]\n{runs}'
        )

    def call_sets(self):
        """Every set of calls and releases, as what each station draws."""
        for chosen in sets_of_calls(self.doors, self.stations, ("ringing", "talking", "releasing"), CALLS_AT_ONCE):
            held = {door for door, _, moment in chosen if moment == "releasing"}
            others = [door for door in self.doors if door not in held]
            for released in range(self.releases_at_once + 1):
                for by_hand in itertools.combinations(others, released):
                    yield self.loads(chosen, by_hand)

    def loads(self, calls, by_hand):
        watts = {door: DOOR_W[0] for door in self.doors} | {flat: FLAT_W[0] for flat in self.stations}
        for door, flat, moment in calls:
            place = 1 if moment == "ringing" else 2
            watts[door], watts[flat] = DOOR_W[place], FLAT_W[place]
            if moment == "releasing":
                watts[door] += RELEASE_W
        for door in by_hand:
            watts[door] += RELEASE_W
        return watts

    def bears_all(self):
        """Whether every device has what it needs in every set."""
        for watts in self.call_sets():
            volts, _ = self.solve(watts)
            if volts is None:
                return False
            for name, voltage in volts.items():
                usual = DOOR_W[0] if name in self.doors else FLAT_W[0]
                in_use = watts[name] not in (usual, usual + RELEASE_W)
                if voltage < (30 if in_use else 20):
                    return False
        return True

    def add(self, run, metres):
        """One station more at the end of a run."""
        name = f"F{len(self.stations) + 1}"
        self.stations[name] = [name]
        self.chains[run].append(name)
        self.lengths[run].append(metres)
        self.laid_out = None

    def solve(self, watts):
        """Voltages and the current of the supply."""
        if self.laid_out is None:
            tree = self.tree()
            self.laid_out = list(tree), shared_ohm(tree)
        names, ohm = self.laid_out
        open_v = SOURCE_V * (1 - SOURCE_TOLERANCE)
        volts = greatest_voltages(ohm, open_v, [watts.get(name, 0.0) for name in names])[0].tolist()
        if volts[0] != volts[0]:
            return None, None
        return dict(zip(names[1:], volts[1:], strict=True)), (open_v - volts[0]) / SOURCE_OHM

    def tree(self):
        """Resistances by place, the supply's terminals first."""
        per_metre = 2e-3 * CONDUCTOR_OHM_PER_KM * (1 + RESISTANCE_TOLERANCE) * (1 + LENGTH_TOLERANCE)
        tree = {"PS": (None, SOURCE_OHM)}
        for chain, lengths in zip(self.chains, self.lengths, strict=True):
            for parent, name, metres in zip(["PS", *chain], chain, lengths, strict=False):
                tree[name] = (parent, per_metre * metres + 4 * JOINT_OHM)
        return tree


def checked(site, folder, catalogue=CATALOGUE):
    """What `latchline check` says of it."""
    (folder / "site.toml").write_text(site.text(), encoding="utf-8")
    (folder / "catalogue.toml").write_text(catalogue, encoding="utf-8")
    done = subprocess.run(
        [os.environ["LATCHLINE"], "check", "--format", "json", "site.toml"],
        cwd=folder, capture_output=True, text=True, encoding="utf-8", timeout=60, check=False,
    )
    return json.loads(done.stdout)


@pytest.mark.parametrize("seed", range(12))
def test_lowest_voltages_and_largest_power(seed, tmp_path):
    site = Site(seed)
    found = checked(site, tmp_path)
    assert found["devices"], found
    devices = {device["id"]: device for device in found["devices"]}
    standby, _ = site.solve(site.loads((), ()))
    lowest, most_w = dict.fromkeys(standby, float("inf")), 0.0
    least_margin = dict.fromkeys(standby, float("inf"))
    for watts in site.call_sets():
        volts, amperes = site.solve(watts)
        assert volts is not None, "these sites are made so that none collapses"
        most_w = max(most_w, (SOURCE_V * (1 - SOURCE_TOLERANCE) - SOURCE_OHM * amperes) * amperes)
        for name, voltage in volts.items():
            lowest[name] = min(lowest[name], voltage)
            usual = DOOR_W[0] if name in site.doors else FLAT_W[0]
            # By hand a door is released without being in use.
            in_use = watts[name] not in (usual, usual + RELEASE_W)
            least_margin[name] = min(least_margin[name], voltage - (30 if in_use else 20))
    for name, device in devices.items():
        # The search leaves out what cannot be worse by more than 1 mV, and takes it off.
        assert device["by_state_v"]["standby-day"] == pytest.approx(standby[name], abs=1e-5)
        assert lowest[name] - 2e-3 <= device["by_state_v"]["call"] <= lowest[name] + 1e-5, name
        if device["worst"]["state"] == "call":
            assert least_margin[name] - 2e-3 <= device["worst"]["margin_v"] <= least_margin[name] + 1e-5, name
    power_w = found["sources"][0]["power_w"]
    assert most_w - 1e-5 <= power_w <= most_w + 0.06, (power_w, most_w)


def first_limit(site, rated_a):
    """Factor on all loads up to which every device has what it needs and the supply gives no more than it is rated for, in every admissible set
    of calls, by bisection; and what is met there."""

    def past(factor, watts):
        """What of a set of calls is furthest past its limit, as (share of the limit, what); collapse is past everything."""
        volts, amperes = site.solve({name: factor * drawn for name, drawn in watts.items()})
        if volts is None:
            return (float("inf"), None)
        furthest = (amperes / rated_a, ("current", "PS"))
        for name, voltage in volts.items():
            usual = DOOR_W[0] if name in site.doors else FLAT_W[0]
            least = 30 if watts[name] not in (usual, usual + RELEASE_W) else 20
            furthest = max(furthest, (least / voltage, ("voltage", name)))
        return furthest

    sets = list(site.call_sets())

    def fails(factor):
        for at, watts in enumerate(sets):
            if past(factor, watts)[0] > 1:
                # What fails here most likely fails first at the next factor, too.
                sets.insert(0, sets.pop(at))
                return True
        return False

    low, high = 0.0, 1.0
    while not fails(high):
        low, high = high, 2 * high
    while high - low > 1e-6 * high:
        middle = (low + high) / 2
        low, high = (low, middle) if fails(middle) else (middle, high)
    return low, max(past(low, watts) for watts in sets)[1]


@pytest.mark.parametrize("rated_a", [5.0, 0.9])
@pytest.mark.parametrize("seed", range(6))
def test_load_at_the_first_limit(seed, rated_a, tmp_path):
    """The factor and the place. The program takes the sets of calls that are worst at today's load; here every set is solved at every factor, so
    that another set may come first, by little: loads are constant powers, and the order of the sets hardly changes."""
    site = Site(seed, most_flats=5)
    found = checked(site, tmp_path, CATALOGUE.replace('rated_current = "5 A"', f'rated_current = "{rated_a} A"'))
    source = found["sources"][0]
    told = source["first_limit"]
    factor, (kind, element) = first_limit(site, rated_a)
    assert factor * (1 - 1e-4) <= told["factor"] <= factor * 1.005, (told, factor)
    assert told["kind"] == kind
    if kind == "voltage":
        assert told["limit"] in (20, 30)
        assert told["element"] == element or told["factor"] > factor
    else:
        assert (told["element"], told["limit"]) == (element, rated_a)
    assert told["factor"] < source["loading_margin"] * (1 + 1e-6)


@pytest.mark.parametrize("seed", range(8))
def test_share_that_a_collapsing_bus_could_carry(seed, tmp_path):
    """In the state that is named, sweeps settle with a little less than the share of every load that is given, and collapse with a little
    more; on the run that is named more is lost than on any other. One chain follows the other, so a run is a chain."""
    site = Site(seed, shrunk=6.0)
    site.releases_at_once = 0
    found = checked(site, tmp_path)
    collapses = [one for one in found["findings"] if one["code"] == "no-operating-point" and one["state"] == "call"]
    assert collapses, "these sites are made so that they collapse"
    for one in collapses:
        arguments = one["arguments"]
        share = arguments["share"]["value"]
        assert 0 < share < 1
        calls = [(call["from"], call["to"], call["moment"]) for call in one["calls"]]
        watts = site.loads(calls, ())
        below, _ = site.solve({name: share * 0.999 * power for name, power in watts.items()})
        above, _ = site.solve({name: share * 1.001 * power for name, power in watts.items()})
        assert below is not None and above is None
        first = {f"R{number}": chain for number, chain in enumerate(site.chains)}
        source_v = SOURCE_V * (1 - SOURCE_TOLERANCE)
        lost = {run: source_v - below[chain[-1]] for run, chain in first.items()}
        assert arguments["run"] == max(lost, key=lost.get)
        asked_w = sum(watts[name] for name in first[arguments["run"]])
        assert arguments["asked"]["value"] == pytest.approx(asked_w, abs=1e-9)
        assert arguments["carried"]["value"] == pytest.approx(share * asked_w, abs=1e-9)


@pytest.mark.parametrize("seed", range(4))
def test_stations_that_a_run_has_to_spare(seed, tmp_path):
    """One station after the other is added at the end of each run, as far on as its stations are apart on average, until some set of
    calls leaves some device with less than it needs: `headroom` says so many less one. Errors of other kinds are accepted, since nothing is
    added to a site that fails as it is."""
    site = Site(seed, most_flats=4, shrunk=1.2)
    (tmp_path / "site.toml").write_text(site.text(), encoding="utf-8")
    (tmp_path / "catalogue.toml").write_text(CATALOGUE, encoding="utf-8")
    assert site.bears_all()
    errors = {(one["code"], one["element"]) for one in checked(site, tmp_path)["findings"] if one["severity"] == "error"}
    accepted = "".join(
        f'[[accept]]\ncode = "{code}"\nelement = "{element}"\nreason = "no matter here"\ndate = 2026-03-02\n'
        for code, element in sorted(errors)
    )
    (tmp_path / "site.toml").write_text(site.text() + "\n" + accepted, encoding="utf-8")
    done = subprocess.run(
        [os.environ["LATCHLINE"], "headroom", "--format", "json", "site.toml"],
        cwd=tmp_path, capture_output=True, text=True, encoding="utf-8", timeout=60, check=False,
    )
    rows = {row["element"]: row for row in json.loads(done.stdout)["headroom"]}
    compared = 0
    for run, lengths in enumerate(list(site.lengths)):
        row = rows.get(f"R{run}")
        if row is None or not row["stations"]:
            continue
        grown = Site(seed, most_flats=4, shrunk=1.2)
        metres = sum(lengths[1:]) / len(lengths[1:]) if len(lengths) > 1 else lengths[0]
        more = 0
        while True:
            grown.add(run, metres)
            if not grown.bears_all():
                break
            more += 1
            assert more < 12, "the random sites are made so that few fit"
        assert row["stations"][0]["more"] == more, row
        assert row["stations"][0]["limit"] in ("voltage-too-low", "no-operating-point")
        compared += 1
    assert compared
