"""How many stations `latchline reach` says a chain carries, by a second solver and by hand.

Every cell is built here as a site file of that many stations, and of one more. The file's text and the built-in catalogue's are read with
Python's own TOML reader; voltages, currents and powers come from plain sweeps over every admissible set of calls (second_solver.py),
signals from scikit-rf (test_signal_of_sites.py), counts and lengths from the catalogue's own numbers. With the printed count every one of
them must hold, with one more the limit that is named must be broken. Nothing of the program's own is read but the count, the name of the
limit and the parts that it says it took.

What is not said in the JSON of `reach` is what its text says: 5 m of flex-1.5 to the distributor, doors behind 10 m of flex-1.0 on
outputs of the supply that are free, then on ports, conductors at 40 °C, lengths 5 % long. The lock that JSON names is at each door and
held while a call stands: the door then draws what talking takes and its `releasing_extra`. What arrives at the lock itself is not looked at.

Where a family asks for terminators, every run has one (`TERMINATED`), as the text says.

Signals are held at every station where the signal is what is named, else at the farthest. Not covered: start-up and short circuits, and
resistive loads, which the program bounds (docs/physics.md).
"""

import json
import os
import subprocess
import tomllib

import numpy as np
import pytest
from second_solver import conductor_ohm_per_m, greatest_voltages, sets_of_calls, shared_ohm, si
from test_signal_of_sites import Network, called_by

HOTTEST_C, COLDEST_C, LENGTH_TOLERANCE, JOINT_OHM = 40.0, 0.0, 0.05, 0.01  # docs/site-file.md, where nothing is stated
DOORS = {"ostrel-48": "ostrel-dv1", "larkfen-24": "larkfen-dv2", "mossop-24": "mossop-p1"}
# Whether `reach` sets the terminator that a family needs at the end of a chain.
TERMINATED = True
# A margin nearer to nothing than this, in volts, amperes, watts or decibels, could be rounding: there must be none.
NEAR = 1e-6

# Options of `reach`, then spacings and feeders in metres.
TABLES = [
    (("ostrel-48", "--cable", "pair-0.5"), (6, 12, 20), (5, 30)),
    (("ostrel-48", "--cable", "pair-0.8"), (5, 12), (5, 60)),
    (("ostrel-48", "--cable", "cat-5e", "--supply", "ostrel-ps-120b"), (3, 6, 12), (5, 15)),
    (("ostrel-48", "--cable", "flex-0.75", "--supply", "ostrel-ps-120b"), (8, 20), (15,)),
    (("ostrel-48", "--cable", "clad-0.5", "--supply", "ostrel-ps-120b"), (8,), (15,)),
    (("ostrel-48", "--cable", "clad-0.5", "--station", "ostrel-v7", "--supply", "ostrel-ps-60"), (3, 6), (5,)),
    (("ostrel-48", "--cable", "alarm-0.22", "--station", "ostrel-v7", "--distributor", "ostrel-d8t"), (6, 12), (5,)),
    (
        ("ostrel-48", "--cable", "pair-0.8", "--station", "ostrel-v7", "--distributor", "ostrel-d8t", "--supply", "ostrel-ps-60"),
        (2, 12), (5,),
    ),
    (("ostrel-48", "--cable", "alarm-0.22", "--station", "ostrel-a1"), (3, 12), (5,)),
    (("larkfen-24", "--cable", "pair-0.8"), (3, 12), (5, 60)),
    (("larkfen-24", "--cable", "pair-0.5", "--station", "larkfen-h1"), (6, 12), (5,)),
    (("larkfen-24", "--cable", "alarm-0.22", "--station", "larkfen-h1"), (12,), (5,)),
    (("larkfen-24", "--cable", "solid-1.0"), (3, 20), (5,)),
    (("mossop-24", "--cable", "pair-0.5"), (3, 6, 20), (5, 30)),
    (("mossop-24", "--cable", "flex-0.75"), (6, 12), (5,)),
    (("mossop-24", "--cable", "cat-5e", "--supply", "mossop-ps-24"), (6, 12), (5,)),
    (("ostrel-48", "--cable", "pair-0.5", "--supply", "ostrel-ps-60", "--lock", "none"), (6, 12), (5,)),
    (("mossop-24", "--cable", "pair-0.5", "--lock", "none"), (6, 20), (5,)),
]  # fmt: skip
TOTALS = [
    (station, cable, total)
    for station, cables, totals in (
        ("ostrel-v7x", ("pair-0.5", "pair-0.8", "cat-5e", "flex-0.75"), (60, 140)),
        ("ostrel-v4", ("pair-0.5", "clad-0.5"), (60,)),
        ("larkfen-v5", ("pair-0.8", "flex-0.75"), (60,)),
        ("mossop-t1", ("pair-0.5", "pair-0.8", "cat-5e", "clad-0.5"), (60, 200)),
    )
    for cable in cables
    for total in totals
]
# What the names of limits stand for: those of the table, and the codes that --total names.
LIMITS = {
    "voltage": "voltage", "voltage-too-low": "voltage", "collapse": "collapse", "no-operating-point": "collapse",
    "port current": "port", "port-overloaded": "port", "supply current": "supply", "supply-overloaded": "supply",
    "count": "count", "too-many-stations-on-port": "count", "supply-count-exceeded": "count",
    "length": "length", "run-too-long": "length", "total-length-exceeded": "length",
    "signal": "signal", "signal-notch": "signal", "signal-ripple": "signal", "signal-too-weak": "signal",
}  # fmt: skip


def latchline(*arguments):
    done = subprocess.run(
        [os.environ["LATCHLINE"], *arguments], capture_output=True, text=True, encoding="utf-8", timeout=120, check=False
    )
    assert done.returncode in (0, 1), done.stderr
    return done.stdout


@pytest.fixture(scope="module")
def catalogue():
    return tomllib.loads(latchline("catalogue", "--whole"))


def port_too_weak(asked, catalogue):
    """Whether a door that talks at night and holds its lock draws more than a port gives: it then hangs at the supply, by a branch box."""
    door, limit = catalogue["stations"][DOORS[asked["family"]]], catalogue["boxes"][asked["distributor"]].get("port_current_limit")
    extra = load(door["releasing_extra"]) if "lock" in asked else np.zeros(2)
    watts, amperes = (load(door["talking"]) + load(door["night_extra"]) + extra) * (1 + si(door["load_tolerance"]))
    return limit is not None and watts / si(door["least_voltage"]) + amperes > si(limit)


def site_text(asked, catalogue, stations, lengths_m, feed_m):
    """The site file of a cell."""
    calls = asked["simultaneous_calls"]
    ports = catalogue["boxes"][asked["distributor"]]["ports"]
    outputs = calls + 1 if port_too_weak(asked, catalogue) else catalogue["supplies"][asked["supply"]]["outputs"]
    places = [f"D{1 + port // ports}.{1 + port % ports}" for port in range(1, calls + 1)]
    places = ["PS"] * (outputs - 1) + places
    boxes = sorted({"D1"} | {place.split(".")[0] for place in places[:calls] if place != "PS"})
    flats = [f"F{number}" for number in range(1, stations + 1)]
    is_terminated = TERMINATED and catalogue["families"][asked["family"]].get("terminator_required", False)
    end = ", terminator = true, terminator_capacitor = true" if is_terminated else ""
    quoted = lambda texts: ", ".join(f'"{text}"' for text in texts)  # noqa: E731
    lock = f', lock = {{ model = "{asked["lock"]["model"]}" }}' if "lock" in asked else ""
    lines = [
        "[site]", 'title = "T"', f'family = "{asked["family"]}"', f'indoor_station = "{asked["station"]}"',
        f'door_station = "{DOORS[asked["family"]]}"', f'cable = "{asked["cable"]}"',
        "[conditions]", f'hottest_temperature = "{HOTTEST_C:g} °C"', f'coldest_temperature = "{COLDEST_C:g} °C"',
        f'length_tolerance = "{LENGTH_TOLERANCE * 100:g} %"', f'joint_resistance = "{JOINT_OHM} ohm"',
        "[supplies]", f'PS = {{ model = "{asked["supply"]}" }}',
        "[distributors]", *(f'{box} = {{ model = "{asked["distributor"]}" }}' for box in boxes),
        "[entrances]", *(f'E{door} = {{ role = "{"secondary" if door else "main"}", calls = ["everyone"]{lock} }}' for door in range(calls)),
        "[dwellings]", *(f"{flat} = {{}}" for flat in flats),
        "[runs]", *(f'{box}-feed = {{ from = "PS", to = "{box}", cable = "flex-1.5", length = "{feed_m} m" }}' for box in boxes),
        *(f'E{door}-run = {{ from = "{places[door]}", to = "E{door}", cable = "flex-1.0", length = "10 m" }}' for door in range(calls)),
        f'chain = {{ from = "D1.1", to = [{quoted(flats)}], lengths = [{quoted(f"{metres!r} m" for metres in lengths_m)}]{end} }}',
    ]  # fmt: skip
    return "\n".join(lines) + "\n"


def load(text):
    """A load of the catalogue as watts and amperes."""
    if text is None:
        return np.zeros(2)
    assert text.endswith(("W", "A")), "resistive loads are not covered"
    return np.array([si(text), 0.0] if text.endswith("W") else [0.0, si(text)])


class Stage:
    """What one source feeds: resistances by place, the source's terminals first, and the models of the devices among them."""

    def __init__(self, source, ohm, voltage, tolerance):
        self.tree = {source: (None, ohm)}
        self.source_ohm, self.low_v, self.high_v = ohm, voltage * (1 - tolerance), voltage * (1 + tolerance)
        self.models, self.ports, self.below = {}, {}, {}

    def lay_out(self):
        self.index = {name: number for number, name in enumerate(self.tree)}
        self.ohm = shared_ohm(self.tree)
        self.beyond = {}
        for name in self.tree:
            way = name
            while way is not None:
                self.beyond.setdefault(way, []).append(self.index[name])
                way = self.tree[way][0]


class Cell:
    """A site file's text as stages, and what is worst of them in every state."""

    def __init__(self, text, catalogue):
        self.site, self.catalogue = tomllib.loads(text), catalogue
        self.family = catalogue["families"][self.site["site"]["family"]]
        self.supply = catalogue["supplies"][self.site["supplies"]["PS"]["model"]]
        self.stages = []
        self.chain_m = {}
        top = self.stage("PS", si(self.supply["source_resistance"]), self.supply["voltage"], self.supply["voltage_tolerance"])
        self.lay(top, "PS", "PS", 0.0)
        for stage in self.stages:
            stage.lay_out()

    def stage(self, source, ohm, voltage, tolerance):
        self.stages.append(Stage(source, ohm, si(voltage), si(tolerance)))
        return self.stages[-1]

    def lay(self, stage, at, start, port_m):
        for run in self.site["runs"].values():
            if run["from"] == start:
                self.lay_run(stage, at, run, port_m)

    def lay_run(self, stage, here, run, port_m):
        cable = self.catalogue["cables"][run.get("cable", self.site["site"]["cable"])]
        # docs/physics.md, "Resistances", the adverse corner: two conductors, a joint at both ends of each.
        adverse = (1 + LENGTH_TOLERANCE) * (1 + si(cable.get("resistance_tolerance", "0 %")))
        per_metre = 2 * conductor_ohm_per_m(cable, HOTTEST_C) * adverse
        stops = run["to"] if isinstance(run["to"], list) else [run["to"]]
        for stop, text in zip(stops, run.get("lengths", [run.get("length")]), strict=True):
            stage.tree[stop] = (here, per_metre * si(text) + 4 * JOINT_OHM)
            port_m += si(text)
            here = stop
            if stop in self.site["distributors"]:
                self.lay_box(stage, stop, self.catalogue["boxes"][self.site["distributors"][stop]["model"]])
            else:
                usual = "door_station" if stop in self.site["entrances"] else "indoor_station"
                stage.models[stop] = self.catalogue["stations"][self.site["site"][usual]]
        self.chain_m[run["from"]] = port_m

    def lay_box(self, stage, name, model):
        stage.models[name] = model
        ports_of, at = stage, name
        if model["kind"] == "regenerated":
            at = f"{name} output"
            ports_of = self.stage(at, si(model["output_resistance"]), model["output_voltage"], model["output_tolerance"])
            stage.below[name] = ports_of
            ports_of.box = model
        for port in (f"{name}.{number}" for number in range(1, model["ports"] + 1)):
            if any(run["from"] == port for run in self.site["runs"].values()):
                ports_of.tree[port] = (at, si(model["port_resistance"]))
                if "port_current_limit" in model:
                    ports_of.ports[port] = si(model["port_current_limit"])
                self.lay(ports_of, port, port, 0.0)

    def least(self, name, amount):
        self.margins[name] = min(self.margins.get(name, np.inf), float(amount))

    def worst(self):
        """What is to spare of every limit, negative where it is broken, and of the chain's voltages alone."""
        self.margins, self.chain_v = {}, np.inf
        flats = list(self.site["dwellings"])
        self.least("count", self.family["stations_per_port"] - len(flats))
        model = self.catalogue["stations"][self.site["site"]["indoor_station"]]
        if "most_per_supply" in model:
            self.least("count", model["most_per_supply"] - len(flats))
        for port, metres in self.chain_m.items():
            if port != "PS":
                limit = min(si(self.family["longest_run"]), si(self.family["total_length_per_port"]))
                self.least("length", round(limit - metres, 6))
        has_locks = any("lock" in door for door in self.site["entrances"].values())
        moments = ("ringing", "talking", "releasing") if has_locks else ("ringing", "talking")
        calls = list(sets_of_calls(self.site["entrances"], flats, moments, self.family["simultaneous_calls"]))
        for stage in self.stages:
            for model in stage.models.values():
                # No voltage is above the open one.
                self.least("highest", si(model["highest_voltage"]) - stage.high_v)
        # Every state that sites without locks held at rest, desks and fire alarms have; views that residents start draw as talking does.
        self.state("standby", [()], night=False)
        self.state("standby", calls, night=True)
        self.state("boot", [()], night=True)
        if "battery" in self.supply:
            self.state("standby", calls, night=True, supply_v=si(self.supply["battery"]["end_bus_voltage"]))
        return self.margins

    def state(self, resting, calls, night, supply_v=None):
        # Stages below come after those above them: they are solved first, their input is a load above.
        drawn = {}
        for stage in reversed(self.stages):
            is_top = stage is self.stages[0]
            open_v = supply_v if is_top and supply_v else stage.low_v
            loads = np.zeros((2, len(calls), len(stage.tree)))
            drop_v, least_v = np.zeros(len(stage.tree)), np.full((len(calls), len(stage.tree)), -np.inf)
            for name, model in stage.models.items():
                at = stage.index[name]
                drop_v[at] = si(model.get("rectifier_drop", "0 V"))
                is_box = "ports" in model
                resting_load = model.get("consumption") if is_box else model.get(resting, model.get("standby"))
                extra = load(model.get("night_extra")) if night else 0.0
                factor = 1 + si(model["load_tolerance"])
                loads[:, :, at] = ((load(resting_load) + extra) * factor)[:, None]
                least_v[:, at] = si(model["least_voltage" if is_box else "least_standby_voltage"])
                for number, chosen in enumerate(calls):
                    for door, flat, moment in chosen:
                        if name in (door, flat):
                            # While it releases a door goes on talking and feeds its lock; who called it goes on talking.
                            drawn_w_a = load(model["talking" if moment == "releasing" else moment])
                            if moment == "releasing" and name == door:
                                drawn_w_a = drawn_w_a + load(model["releasing_extra"])
                            loads[:, number, at] = (drawn_w_a + extra) * factor
                            least_v[number, at] = si(model["least_voltage"])
            for name, below in stage.below.items():
                # docs/physics.md: what a regenerating box draws is its output voltage times its current over its efficiency.
                loads[0, :, stage.index[name]] += below.low_v * drawn[id(below)] / si(below.box["efficiency"])
            volts = greatest_voltages(stage.ohm, open_v, *loads, drop_v)
            if np.isnan(volts).any():
                self.least("collapse", -np.inf)
                return
            amperes = loads[0] / (volts - drop_v) + loads[1]
            margins = (volts - least_v).min(axis=0)
            self.least("voltage", margins.min())
            for flat in self.site["dwellings"]:
                if flat in stage.index:
                    self.chain_v = min(self.chain_v, margins[stage.index[flat]])
            for port, limit in stage.ports.items():
                self.least("port", limit - amperes[:, stage.beyond[port]].sum(axis=1).max())
            drawn[id(stage)] = total = amperes.sum(axis=1)
            rated_w = self.supply["rated_power"] if is_top else stage.box["output_power"]
            self.least("supply", si(rated_w) - ((open_v - stage.source_ohm * total) * total).max())
            if is_top:
                self.least("supply", si(self.supply["rated_current"]) - total.max())
            if loads[1].any():
                # Constant currents take most power at the high end of the source's voltage.
                assert is_top, "a regenerating box with constant currents is bounded by the program and not covered here"
                if not supply_v:
                    high = greatest_voltages(stage.ohm, stage.high_v, *loads, drop_v)
                    total = (loads[0] / (high - drop_v) + loads[1]).sum(axis=1)
                    self.least("supply", si(rated_w) - ((stage.high_v - stage.source_ohm * total) * total).max())

    def signal(self, listeners, frequencies):
        """What is to spare of budget and ripple at these stations, by scikit-rf, at so many frequencies a band."""
        margin = np.inf
        corners = [(1.0, HOTTEST_C, 1, 0), (1 + LENGTH_TOLERANCE, HOTTEST_C, 1, 1), (1 - LENGTH_TOLERANCE, COLDEST_C, -1, -1)]
        networks = [Network(self.site, self.catalogue, corner) for corner in corners]
        for band in self.family["signal_bands"]:
            low, high = si(band["low"]), si(band["high"])
            hz = np.linspace(low, high, frequencies)
            for network in networks:
                for caller in self.site["entrances"]:
                    for listener in listeners:
                        media = network.models[listener]["media"], network.models[caller]["media"]
                        if band.get("video_only") and "audio" in media:
                            continue
                        assert listener in called_by(self.site, caller)
                        loss_db = network.loss_db(caller, listener, hz)
                        margin = min(margin, si(band["budget"]) - np.quantile(loss_db, si(band.get("share", "100 %"))))
                        if "ripple" in band:
                            margin = min(margin, si(band["ripple"]) - np.ptp(loss_db))
        return margin


def judged(asked, catalogue, stations, lengths_m, feed_m, limit):
    cell = Cell(site_text(asked, catalogue, stations, lengths_m, feed_m), catalogue)
    margins = cell.worst()
    if "line" in catalogue["cables"][asked["cable"]]:
        # All stations where the signal is what is named, else the farthest alone.
        flats = list(cell.site["dwellings"])
        margins["signal"] = cell.signal(flats, 401) if limit == "signal" else cell.signal(flats[-1:], 151)
    near = [name for name in ("voltage", "port", "supply", "signal") if abs(margins.get(name, 1.0)) < NEAR]
    assert not near, f"{near} of {asked['cable']} with {stations} are within {NEAR}"
    return margins, cell


def compare(asked, catalogue, stations, limit, lengths_of, feed_m):
    limit = LIMITS[limit]
    if stations:
        margins, cell = judged(asked, catalogue, stations, lengths_of(stations), feed_m, limit)
        broken = {name: amount for name, amount in margins.items() if amount < 0}
        assert not broken, f"{stations} are printed, but {broken}"
    more, _ = judged(asked, catalogue, stations + 1, lengths_of(stations + 1), feed_m, limit)
    broken = {name: amount for name, amount in more.items() if amount < 0}
    assert limit in broken, f"{stations} are printed for {limit}, but with one more {broken} of {more}"
    return cell if stations else None


@pytest.mark.parametrize(("options", "spacings", "feeders"), TABLES, ids=lambda value: "-".join(map(str, value)))
def test_tables(options, spacings, feeders, catalogue):
    joined = lambda values: ",".join(map(str, values))  # noqa: E731
    arguments = [*options, "--spacing", joined(spacings), "--feeder", joined(feeders), "--format", "json"]
    found = json.loads(latchline("reach", *arguments))
    (cable,) = found["cables"]
    assert [(cell["spacing_m"], cell["feeder_m"]) for cell in cable["chains"]] == [(a, b) for a in spacings for b in feeders]
    for chain in cable["chains"]:
        lengths_of = lambda stations, chain=chain: [chain["feeder_m"]] + [chain["spacing_m"]] * (stations - 1)  # noqa: E731
        asked = found | {"cable": cable["cable"]}
        cell = compare(asked, catalogue, chain["stations"], chain["limit"], lengths_of, found["feed_m"])
        if cell:
            # The search leaves out what cannot be worse by more than 1 mV (docs/physics.md).
            assert chain["margin_v"] == pytest.approx(cell.chain_v, abs=1.1e-3)


@pytest.mark.parametrize(("station", "cable", "total_m"), TOTALS)
def test_totals(station, cable, total_m, catalogue):
    """On mains and to the battery's end."""
    arguments = ["--station", station, "--cable", cable, "--total", str(total_m), "--format", "json"]
    found = json.loads(latchline("reach", *arguments))
    assert sorted(carried["power"] for carried in found["carried"]) == ["battery-end", "mains"]
    for carried in found["carried"]:
        assert ("battery" in catalogue["supplies"][carried["supply"]]) == (carried["power"] == "battery-end")
        asked = found | {"supply": carried["supply"]}
        lengths_of = lambda stations: [total_m / stations] * stations  # noqa: E731
        cell = compare(asked, catalogue, carried["stations"], carried["limit"], lengths_of, found["feed_m"])
        if cell:
            assert carried["margin_v"] == pytest.approx(cell.margins["voltage"], abs=1.1e-3)


def test_an_answer_names_the_lock_or_says_that_there_is_none():
    """A figure that leaves out what a held lock draws never comes without the word of it. What it draws is the door station's own figure."""
    question = ("reach", "--station", "ostrel-v7x", "--cable", "pair-0.5", "--total", "60", "--supply", "ostrel-ps-60")
    with_lock, without = latchline(*question), latchline(*question, "--lock", "none")
    plain = lambda text: " ".join(text.split())  # noqa: E731
    assert "with 2 calls at once, each door holding a 7 W lock." in plain(with_lock)
    assert "with 2 calls at once, no lock fed by a door." in plain(without)
    counts = [json.loads(latchline(*question, *more, "--format", "json"))["carried"][0]["stations"] for more in ((), ("--lock", "none"))]
    assert counts[0] < counts[1]


def test_the_check_can_fail(catalogue):
    """A station more or fewer than fit is seen, and so is another limit than the one that binds."""
    found = json.loads(latchline("reach", "ostrel-48", "--cable", "pair-0.5", "--spacing", "12", "--feeder", "5", "--format", "json"))
    (chain,) = found["cables"][0]["chains"]
    asked = found | {"cable": "pair-0.5"}
    lengths_of = lambda stations: [5.0] + [12.0] * (stations - 1)  # noqa: E731
    for stations, limit in ((chain["stations"] - 1, "voltage"), (chain["stations"] + 1, "voltage"), (chain["stations"], "count")):
        with pytest.raises(AssertionError, match="are printed"):
            compare(asked, catalogue, stations, limit, lengths_of, found["feed_m"])
