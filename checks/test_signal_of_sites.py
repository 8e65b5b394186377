"""The signals that `latchline check` finds on whole sites, against a network built here from the same site files.

The site file and the catalogue are read with Python's own TOML reader and turned into a nodal admittance matrix: lines as
two-ports by scikit-rf, everything else by circuit theory, solved by NumPy frequency by frequency. Nothing is shared with the
program but the two files and the meaning of their keys (docs/site-file.md, docs/catalogue.md).
"""

import json
import os
import subprocess
import tomllib

import numpy as np
import pytest
from second_solver import conductor_ohm_per_m, si
from skrf.frequency import Frequency
from skrf.media import DefinedGammaZ0

COPPER_PER_K = 0.00393  # IEC 60028
REFERENCE_OHM = 100.0  # between which a box's loss is stated
HOTTEST_C, COLDEST_C = 45.0, -8.0
LENGTH_TOLERANCE, MEASURING_ERROR = 0.06, 0.02  # the latter is common practice, no source
PICTURE_SHARE = 0.7
# What lengths are multiplied by, the temperature, and the sign of the tolerances of resistance and of a measured figure.
CORNERS = {
    "as-stated": (1.0, HOTTEST_C, 1, 0),
    "longest": (1.0 + LENGTH_TOLERANCE, HOTTEST_C, 1, 1),
    "shortest": (1.0 - LENGTH_TOLERANCE, COLDEST_C, -1, -1),
}

CATALOGUE = """
[families.mere]
title = "Mere (invented)"
source = "invented"
nominal_voltage = "48 V"
simultaneous_calls = 1
terminator_resistance = "120 ohm"
terminator_capacitance = "47 nF"
signal_bands = [
  { name = "speech", low = "20 kHz", high = "60 kHz", budget = "120 dB" },
  { name = "picture", low = "500 kHz", high = "5000 kHz", budget = "120 dB" },
  { name = "data", low = "500 kHz", high = "5000 kHz", budget = "120 dB", share = "70 %" },
]
addresses.indoor = [{ field = "dwelling", first = 1, last = 99, set_by = "keyed", digits = 2, label = "FLAT" }]
addresses.door = [{ field = "entrance", first = 0, last = 9, set_by = "keyed", digits = 1, label = "DOOR" }]
addresses.management = [{ field = "management", first = 1, last = 9, set_by = "keyed", digits = 1, label = "DESK" }]

[supplies]
ps = { title = "Supply", source = "invented", family = "mere", voltage = "48 V", voltage_tolerance = "2 %", source_resistance = "0.2 ohm", rated_current = "5 A", limit_kind = "constant-current", feed_choke = "3 mH" }

[boxes]
plain = { title = "Distributor", source = "invented", family = "mere", role = "distributor", kind = "transparent", ports = 4, signal_loss = "1.5 dB" }
isolating = { title = "Isolating distributor", source = "invented", family = "mere", role = "distributor", kind = "isolating", ports = 4, signal_loss = "2 dB", feed_choke = "4 mH" }
fresh = { title = "Regenerating distributor", source = "invented", family = "mere", role = "distributor", kind = "regenerated", ports = 4, output_voltage = "48 V", efficiency = "90 %", signal_loss = "1 dB", feed_choke = "2 mH" }
tee = { title = "Branch box", source = "invented", family = "mere", role = "branch-box", kind = "transparent", ports = 4 }

[stations]
flat = { title = "Station", source = "invented", family = "mere", kind = "indoor", media = "video", loop_through = "bridged", converter = false, standby = "5 mA", ringing = "20 mA", talking = "20 mA", least_voltage = "20 V", least_standby_voltage = "20 V", bridging_resistance = "12 kohm", bridging_capacitance = "80 pF", signal_impedance = "110 ohm" }
other = { title = "Other station", source = "invented", family = "mere", kind = "indoor", media = "video", loop_through = "bridged", converter = false, standby = "5 mA", ringing = "20 mA", talking = "20 mA", least_voltage = "20 V", least_standby_voltage = "20 V", bridging_resistance = "30 kohm", bridging_capacitance = "150 pF", signal_impedance = "600 ohm" }
door = { title = "Door station", source = "invented", family = "mere", kind = "door", media = "video", loop_through = "bridged", converter = false, standby = "10 mA", ringing = "30 mA", talking = "30 mA", least_voltage = "20 V", least_standby_voltage = "20 V", directory = 99, bridging_resistance = "8 kohm", bridging_capacitance = "120 pF", signal_impedance = "90 ohm" }
desk = { title = "Desk", source = "invented", family = "mere", kind = "management", media = "video", loop_through = "bridged", converter = false, standby = "10 mA", ringing = "30 mA", talking = "30 mA", least_voltage = "20 V", least_standby_voltage = "20 V", bridging_resistance = "20 kohm", bridging_capacitance = "60 pF", signal_impedance = "150 ohm" }

[cables]
pair = { title = "Telephone pair", source = "invented", gauge = "88 ohm/km", pairs = 4, resistance_tolerance = "4 %", line = { capacitance = "52 nF/km", inductance = "0.62 mH/km", skin_corner = "60 kHz", loss_tangent = 0.004 } }
flex = { title = "Flex", source = "invented", gauge = "19.5 ohm/km", pairs = 2, resistance_tolerance = "3 %", line = { capacitance = "95 nF/km", inductance = "0.55 mH/km", skin_corner = "25 kHz", loss_tangent = 0.03 } }
"""

def random_site(seed):
    """A site file as text: a distributor on the supply, behind it another of any kind and a branch box, chains, branches from
    stations, doubled pairs, terminators, surge protectors, measured runs, up to three callers."""
    rng = np.random.default_rng(seed)
    kind = ["plain", "isolating", "fresh"][seed % 3]
    length = lambda low=2.0, high=60.0: f'"{rng.uniform(low, high):.2f} m"'  # noqa: E731
    doors = 1 + int(rng.integers(0, 2))
    desk = bool(rng.random() < 0.5)
    starts = ["D1.3", "D2.1", "D2.2", "T1.1", "T1.2"]
    runs, dwellings, count = [], [], 0

    def chain(name, start):
        nonlocal count
        stops = []
        for _ in range(int(rng.integers(1, 4))):
            count += 1
            model = "flat" if rng.random() < 0.6 else "other"
            dwellings.append(f'F{count} = {{ station = "{model}" }}')
            stops.append(f'"F{count}"')
        extra = ""
        if rng.random() < 0.3:
            extra += ", pairs = 2"
        if rng.random() < 0.4:
            extra += f", terminator = true, terminator_capacitor = {str(rng.random() < 0.5).lower()}"
        if rng.random() < 0.3:
            at = ["start", "end", "both"][int(rng.integers(0, 3))]
            extra += f', surge_protection = "{rng.uniform(1, 8):.2f} ohm", surge_protection_at = "{at}"'
        if rng.random() < 0.2:
            extra += f', measured = {{ loop = "{rng.uniform(2, 12):.2f} ohm" }}'
        elif rng.random() < 0.2:
            extra += f', measured = {{ capacitance = "{rng.uniform(2, 8):.2f} nF" }}'
        cable = "pair" if rng.random() < 0.6 else "flex"
        lengths = ", ".join(length() for _ in stops)
        runs.append(
            f'{name} = {{ from = "{start}", to = [{", ".join(stops)}], cable = "{cable}", lengths = [{lengths}]{extra} }}'
        )
        return stops[0].strip('"')

    firsts = [chain(f"R{number}", start) for number, start in enumerate(starts)]
    if rng.random() < 0.7:
        chain("B1", firsts[1])
    callers = []
    for number in range(doors):
        role = "main" if number == 0 else "secondary"
        scope = '"everyone"' if number == 0 or rng.random() < 0.5 else '"F1", "F2"'
        protection = f', surge_protection = "{rng.uniform(1, 8):.2f} ohm"' if rng.random() < 0.5 else ""
        callers.append(f'E{number} = {{ role = "{role}", calls = [{scope}]{protection} }}')
        start = "PS" if number == 0 else "D1.4"
        runs.append(f'E{number}-run = {{ from = "{start}", to = ["E{number}"], lengths = [{length()}] }}')
    link = '"D2.link"' if kind == "isolating" else '"D2"'
    supplies = 'PS = { model = "ps" }\n'
    runs.append(f'W0 = {{ from = "PS", to = "D1", length = {length(1, 10)} }}')
    runs.append(f'W1 = {{ from = "D1.1", to = [{link}], lengths = [{length()}] }}')
    runs.append(f'W2 = {{ from = "D2.3", to = ["T1"], cable = "flex", lengths = [{length()}] }}')
    if kind == "isolating":
        supplies += 'Q = { model = "ps" }\n'
        runs.append(f'W3 = {{ from = "Q", to = "D2", length = {length(1, 10)} }}')
    management = ""
    if desk:
        management = '[management]\nDesk = { calls = ["everyone"] }\n'
        runs.append(f'Desk-run = {{ from = "D1.2", to = ["Desk"], lengths = [{length()}] }}')
    return (
        '[site]\ntitle = "T"\nfamily = "mere"\nindoor_station = "flat"\ndoor_station = "door"\nmanagement_station = "desk"\n'
        f'cable = "pair"\ncatalogues = ["catalogue.toml"]\n[conditions]\nhottest_temperature = "{HOTTEST_C:g} °C"\nusual_temperature = "20 °C"\n'
        f'coldest_temperature = "{COLDEST_C:g} °C"\nlength_tolerance = "{LENGTH_TOLERANCE * 100:g} %"\n'
        f'[supplies]\n{supplies}[distributors]\nD1 = {{ model = "plain" }}\nD2 = {{ model = "{kind}" }}\n'
        '[branch-boxes]\nT1 = { model = "tee" }\n'
        "[entrances]\n" + "\n".join(callers) + "\n" + management + "[dwellings]\n" + "\n".join(dwellings)
        + "\n[runs]\n" + "\n".join(runs) + "\n"
    )


class Network:
    """Nodes by name, two-ports and shunts as functions of frequency."""

    def __init__(self, site, catalogue, corner):
        self.site, self.catalogue = site, catalogue
        self.stretch, self.celsius, self.tolerance_sign, self.measured_sign = corner
        self.index, self.two_ports, self.shunts = {}, [], []
        self.models, self.bridging = {}, {}
        for run_id, run in site["runs"].items():
            self.run(run_id, run)
        for name, supply in site["supplies"].items():
            self.choke(name, catalogue["supplies"][supply["model"]]["feed_choke"])
        for name, box in site["distributors"].items():
            self.box(name, catalogue["boxes"][box["model"]])
        for name, box in site.get("branch-boxes", {}).items():
            self.box(name, catalogue["boxes"][box["model"]])

    def node(self, name):
        return self.index.setdefault(name, len(self.index))

    def shunt(self, name, admittance):
        self.shunts.append((self.node(name), admittance))

    def two_port(self, a, b, y):
        self.two_ports.append((self.node(a), self.node(b), y))

    def series(self, a, b, ohm):
        y = 1.0 / ohm
        self.two_port(a, b, lambda f: np.broadcast_to(np.array([[y, -y], [-y, y]]), (len(f), 2, 2)))

    def choke(self, name, inductance):
        henry = si(inductance)
        self.shunt(name, lambda f: 1 / (2j * np.pi * f * henry))

    def line(self, a, b, cable, run, metres, total_m):
        constants = cable["line"]
        pairs = run.get("pairs", 1)
        measured = run.get("measured", {})
        metres, total_m = metres * self.stretch, total_m * self.stretch
        hot = 1 + COPPER_PER_K * (self.celsius - 20)
        tolerance = 1 + self.tolerance_sign * si(cable.get("resistance_tolerance", "0 %"))
        r = 2 * conductor_ohm_per_m(cable, self.celsius) * tolerance / pairs
        by_measuring = 1 + self.measured_sign * MEASURING_ERROR
        if "loop" in measured:
            r = si(measured["loop"]) * by_measuring / total_m * hot
        c = si(constants["capacitance"]) * pairs
        if "capacitance" in measured:
            c = si(measured["capacitance"]) * by_measuring / total_m
        l, corner = si(constants["inductance"]) / pairs, si(constants["skin_corner"])
        tangent = constants["loss_tangent"]

        def y(f):
            w = 2 * np.pi * f
            z = r * (1 + (f / corner) ** 2) ** 0.25 + 1j * w * l
            shunt = w * c * (tangent + 1j)
            medium = DefinedGammaZ0(
                Frequency.from_f(f, unit="hz"), gamma=np.sqrt(z * shunt), z0=np.sqrt(z / shunt), z0_port=REFERENCE_OHM
            )
            return medium.line(metres, "m").y

        self.two_port(a, b, y)

    def run(self, run_id, run):
        site, catalogue = self.site, self.catalogue
        cable = catalogue["cables"][run.get("cable", site["site"]["cable"])]
        stops = run["to"] if isinstance(run["to"], list) else [run["to"]]
        lengths = [si(text) for text in run["lengths"]] if "lengths" in run else [si(run["length"])]
        here = run["from"]
        # All stands in one building: without a word of where, a protector sits at the start.
        at = run.get("surge_protection_at", "start")
        if "surge_protection" in run and at != "end":
            self.series(here, f"{run_id} protected", si(run["surge_protection"]))
            here = f"{run_id} protected"
        for stop, metres in zip(stops, lengths, strict=True):
            protection = site["entrances"].get(stop, {}).get("surge_protection")
            if not protection and stop == stops[-1] and at != "start":
                protection = run.get("surge_protection")
            end = f"{stop} outside" if protection else stop
            self.line(here, end, cable, run, metres, sum(lengths))
            if protection:
                self.series(end, stop, si(protection))
            here = stop
            self.station(stop)
        if run.get("terminator"):
            family = catalogue["families"][site["site"]["family"]]
            ohm, farad = si(family["terminator_resistance"]), si(family["terminator_capacitance"])
            capacitor = run["terminator_capacitor"]
            self.shunt(here, lambda f: 1 / (ohm + (1 / (2j * np.pi * f * farad) if capacitor else 0.0)) + 0j * f)

    def station(self, name):
        site, stations = self.site, self.catalogue["stations"]
        usual = site["site"]
        if name in site["entrances"]:
            model = stations[site["entrances"][name].get("station", usual["door_station"])]
        elif name in site.get("management", {}):
            model = stations[usual["management_station"]]
        elif name in site["dwellings"]:
            model = stations[site["dwellings"][name].get("station", usual.get("indoor_station"))]
        else:
            return
        self.models[name] = model
        ohm, farad = si(model["bridging_resistance"]), si(model["bridging_capacitance"])
        self.bridging[name] = lambda f: 1 / ohm + 2j * np.pi * f * farad

    def box(self, name, model):
        isolating, fresh = model["kind"] == "isolating", model["kind"] == "regenerated"
        inside = f"{name}.link" if isolating else name
        for port in [port for port in list(self.index) if port.startswith(f"{name}.") and port != inside]:
            if "signal_loss" in model:
                reference_ohm = si(model.get("signal_reference", f"{REFERENCE_OHM} ohm"))
                self.two_port(inside, port, attenuator(si(model["signal_loss"]), reference_ohm))
            else:
                self.series(inside, port, 1e-6)
            if isolating or fresh:
                self.choke(port, model["feed_choke"])

    def loss_db(self, caller, listener, f):
        """Insertion loss: level wired straight to the caller less level in place."""
        f = np.asarray(f, float)
        n = len(self.index)
        y = np.zeros((len(f), n, n), complex)
        for a, b, two_port in self.two_ports:
            part = two_port(f)
            for i, row in enumerate((a, b)):
                for j, column in enumerate((a, b)):
                    y[:, row, column] += part[:, i, j]
        for node, admittance in self.shunts:
            y[:, node, node] += admittance(f)
        source_ohm = si(self.models[caller]["signal_impedance"])
        listener_ohm = si(self.models[listener]["signal_impedance"])
        for name, admittance in self.bridging.items():
            own = {caller: 1 / source_ohm, listener: 1 / listener_ohm}.get(name)
            y[:, self.index[name], self.index[name]] += admittance(f) if own is None else own
        # What is not joined to the caller floats; a tiny leak keeps the matrix regular.
        y[:, range(n), range(n)] += 1e-15
        current = np.zeros((len(f), n, 1), complex)
        current[:, self.index[caller], 0] = 1 / source_ohm
        v = np.linalg.solve(y, current)[:, self.index[listener], 0]
        straight = listener_ohm / (source_ohm + listener_ohm)
        return 20 * np.log10(straight / np.abs(v))


def attenuator(loss_db, reference_ohm):
    """Matched T attenuator as admittances: z = R (k - 1)/(k + 1) in each arm, R 2k/(k² - 1) across, k = 10^(dB/20)."""
    k = 10 ** (loss_db / 20)
    arm, across = reference_ohm * (k - 1) / (k + 1), reference_ohm * 2 * k / (k * k - 1)
    z = np.array([[arm + across, across], [across, arm + across]])
    y = np.linalg.inv(z)
    return lambda f: np.broadcast_to(y, (len(f), 2, 2))


def called_by(site, caller):
    calls = (site["entrances"] | site.get("management", {}))[caller]["calls"]
    if "everyone" in calls:
        return [*site["dwellings"], *(name for name in site.get("management", {}) if name != caller)]
    return calls


def checked(text, directory):
    (directory / "site.toml").write_text(text)
    (directory / "catalogue.toml").write_text(CATALOGUE)
    done = subprocess.run(
        [os.environ["LATCHLINE"], "check", "--format", "json", "site.toml"],
        cwd=directory, capture_output=True, text=True, timeout=60,
    )
    assert done.returncode in (0, 1), (done.stdout[:2000], done.stderr)
    return json.loads(done.stdout)


def networks(site):
    return {lengths: Network(site, tomllib.loads(CATALOGUE), corner) for lengths, corner in CORNERS.items()}


@pytest.mark.parametrize("seed", range(15))
def test_signals_of_a_site(seed, tmp_path):
    text = random_site(seed)
    found = checked(text, tmp_path)
    site = tomllib.loads(text)
    at_lengths = networks(site)
    assert len(found["signal"]) == 3, found["not_judged"]
    for band in found["signal"]:
        worst = band["worst"]
        network = at_lengths[worst["lengths"]]
        frequencies = np.array(band["frequency_hz"])
        mine = network.loss_db(worst["caller"], worst["station"], frequencies)
        theirs = np.array(band["insertion_loss_db"])
        # Where the share is met stands between the points that were looked at.
        tolerance_db = np.where(np.abs(frequencies - worst["at_hz"]) < 1e-5 * frequencies, 0.05, 1e-3)
        assert (np.abs(mine - theirs) <= (tolerance_db if band["band"] == "data" else 1e-3)).all(), worst
        if band["band"] == "data":
            continue
        # The weakest station of every caller, at the frequency where it hears least.
        for caller in band["callers"]:
            at = at_lengths[caller["lengths"]].loss_db(caller["caller"], caller["station"], [caller["at_hz"]])
            assert at[0] == pytest.approx(caller["loss_db"], abs=1e-3)
            # None of its stations hears less at that frequency, at any of the lengths.
            for listener in called_by(site, caller["caller"]):
                for network in at_lengths.values():
                    if listener in network.models:
                        other = network.loss_db(caller["caller"], listener, [caller["at_hz"]])[0]
                        assert other <= caller["loss_db"] + 1e-3, listener


@pytest.mark.parametrize("seed", range(9))
def test_loss_at_a_share_of_a_band(seed, tmp_path):
    """The greatest loss within the best 70 % of the band, as a plain quantile of evenly spaced frequencies: ten times as many as the program
    looks at for the weakest station of every caller, a quarter of them for all others at all lengths."""
    text = random_site(seed)
    found = checked(text, tmp_path)
    site = tomllib.loads(text)
    band = next(band for band in found["signal"] if band["band"] == "data")
    assert band["complete"]
    at_lengths = networks(site)

    def at_share(caller, listener, lengths, count):
        middle = 0.5e6 + 4.5e6 * (np.arange(count) + 0.5) / count
        return np.quantile(at_lengths[lengths].loss_db(caller, listener, middle), PICTURE_SHARE)

    count = 10 * len(band["frequency_hz"])
    for caller in band["callers"]:
        mine = at_share(caller["caller"], caller["station"], caller["lengths"], count)
        assert mine == pytest.approx(caller["loss_db"], abs=0.05)
        for listener in called_by(site, caller["caller"]):
            for lengths, network in at_lengths.items():
                if listener in network.models:
                    assert at_share(caller["caller"], listener, lengths, 200) <= caller["loss_db"] + 0.3


def test_the_check_can_fail(tmp_path):
    """A metre more on one run is seen."""
    text = random_site(3)
    found = checked(text, tmp_path)
    site = tomllib.loads(text)
    site["runs"]["W0"]["length"] = f"{si(site['runs']['W0']['length']) + 1:.2f} m"
    band = found["signal"][1]
    network = networks(site)[band["worst"]["lengths"]]
    mine = network.loss_db(band["worst"]["caller"], band["worst"]["station"], band["frequency_hz"])
    assert np.abs(mine - np.array(band["insertion_loss_db"])).max() > 1e-2
