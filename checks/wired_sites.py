"""Random sites for the checks of netlists: small invented houses whose doors have every kind of lock, button, release, module and light,
with surge protectors and screened cables. The same seed gives the same text."""

import random

LOCKS = {
    # Model, feeds that it may have, suppressors that suit its current.
    "strike-12": (["station", "own-supply"], ["diode", "clamp", "varistor", "none"]),
    "strike-12-safe": (["station", "own-supply"], ["diode", "clamp", "none"]),
    "strike-12-ac": (["own-supply"], ["varistor", "none"]),
    "magnet-24": (["own-supply", "bus"], ["diode", "clamp", "varistor"]),
    "motor-12": (["own-supply"], ["none"]),
    "gate-contact": (["dry-contact"], ["none"]),
}
CABLES = ["pair-0.6", "pair-0.8", "flex-1.5", "signal-0.8", "outdoor-0.8"]
DOOR_CABLES = ["flex-0.75", "flex-1.0", "pair-0.8", "outdoor-0.8"]


def text_of(value):
    """A value as TOML."""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, dict):
        return "{ " + ", ".join(f"{key} = {text_of(item)}" for key, item in value.items()) + " }"
    if isinstance(value, list):
        return "[" + ", ".join(text_of(item) for item in value) + "]"
    return '"' + str(value) + '"' if isinstance(value, str) else str(value)


def length(r, least, most):
    return f"{r.randint(least, most)} m"


def random_lock(r):
    model = r.choice(list(LOCKS))
    feeds, suppressors = LOCKS[model]
    lock = {"model": model}
    feed = r.choice(feeds)
    if feed not in ("station", "dry-contact"):
        lock["feed"] = feed
    if feed == "own-supply":
        lock["supply_voltage"] = "24 V" if model == "magnet-24" else "12 V"
        if model == "strike-12-ac":
            lock["supply_ac"] = True
    if feed != "dry-contact" or r.random() < 0.5:
        lock["cable"] = r.choice(DOOR_CABLES)
        lock["length"] = length(r, 1, 9)
    fitted = r.choice(suppressors)
    if feed != "dry-contact":
        lock["suppression"] = fitted
        if fitted in ("clamp", "varistor"):
            lock["suppression_voltage"] = "30 V"
    for key, share in [("exit_button", 0.6), ("emergency_release", 0.5), ("door_contact", 0.4)]:
        if r.random() < share:
            lock[key] = True
    if feed in ("own-supply", "bus") and r.random() < 0.3:
        lock["relay_between"] = "5 A"
    elif r.random() < 0.25:
        lock["relay_on_secure_side"] = True
    parts = [("exit_button", "exit-button"), ("emergency_release", "emergency-release"), ("relay_between", "relay"), ("relay_on_secure_side", "relay")]
    has_cable = [to for key, to in parts if key in lock and r.random() < 0.5]
    # A release breaks only the circuit of a lock that opens without power.
    if model in ("strike-12", "strike-12-ac", "motor-12", "gate-contact"):
        has_cable = [to for to in has_cable if to != "emergency-release"]
    if has_cable:
        lock["cables"] = [{"to": to, "cable": r.choice(DOOR_CABLES), "length": length(r, 1, 8)} for to in has_cable]
    return lock


def random_entrance(r, first):
    entrance = {"role": "main" if first else "secondary", "place": r.choice(["A/G", "A/G", "outdoors"]), "station": "ostrel-dv1"}
    locks = [random_lock(r) for _ in range(r.choice([0, 1, 1, 1, 2]))]
    if len(locks) == 1 and r.random() < 0.5:
        entrance["lock"] = locks[0]
    elif locks:
        entrance["locks"] = locks
    if r.random() < 0.3:
        entrance["fire_interlock"] = True
    if r.random() < 0.3:
        entrance["surge_protection"] = "1 ohm"
    if r.random() < 0.4:
        entrance["accessories"] = r.choice([["ostrel-keypad"], ["ostrel-reader"], ["ostrel-keypad", "ostrel-reader"]])
    if r.random() < 0.4:
        light = {"model": "names-12", "feed": "station", "cable": "pair-0.8", "length": "1 m"}
        entrance["lights"] = [light, {"model": "porch-24", "feed": "own-supply"}][: r.choice([1, 2])]
    if r.random() < 0.3:
        kinds = r.sample(["tamper", "duress", "fire"], r.choice([1, 2]))
        inputs = []
        for kind in kinds:
            alarm = {"kind": kind}
            if r.random() < 0.5:
                alarm["end_of_line_resistor"] = True
            if r.random() < 0.5:
                alarm |= {"cable": "pair-0.6", "length": length(r, 1, 9)}
            inputs.append(alarm)
        entrance["alarm_inputs"] = inputs
    return entrance


def wired_site(seed):
    """A site file as TOML text."""
    r = random.Random(seed)
    floors = ["G", "1", "2", "3"][: r.randint(1, 4)]
    tables = {name: {} for name in ("supplies", "distributors", "branch-boxes", "entrances", "dwellings", "runs")}
    tables["supplies"]["PS"] = {"model": "ostrel-ps-120b", "place": "A/G"}
    free = []
    runs = tables["runs"]

    def run(start, stops):
        entry = {"from": start, "to": stops if len(stops) > 1 or r.random() < 0.5 else stops[0], "cable": r.choice(CABLES)}
        if len(stops) > 1:
            entry["lengths"] = [length(r, 1, 12) for _ in stops]
        else:
            entry["length"] = length(r, 1, 12)
        if entry["cable"] == "outdoor-0.8":
            entry["environment"] = r.choice(["indoors", "outdoors", "buried"])
        if r.random() < 0.15:
            entry["surge_protection"] = "1 ohm"
        if r.random() < 0.2:
            entry["existing"] = True
        if r.random() < 0.1:
            entry["pairs"] = 2
        runs[f"W{len(runs) + 1}"] = entry

    def box(start, floor):
        name = f"D{len(tables['distributors']) + 1}"
        tables["distributors"][name] = {"model": "ostrel-d4", "place": f"A/{floor}"}
        run(start, [name])
        free.extend(f"{name}.{port}" for port in range(1, 5))

    box("PS", "G")
    if r.random() < 0.3:
        box("PS", floors[-1])

    def port(floor):
        if len(free) == 1:
            box(free.pop(), floor)
        return free.pop(0)

    for number in range(r.randint(1, 3)):
        name = ["front", "gate", "yard"][number]
        tables["entrances"][name] = random_entrance(r, number == 0)
        run(port("G"), [name])
    for floor in floors:
        here = []
        for number in range(r.randint(1, 4)):
            name = f"A-{floor}{number + 1}"
            dwelling = {"place": f"A/{floor}", "station": r.choice(["ostrel-v4", "ostrel-v7"])}
            here.append(name)
            if r.random() < 0.15:
                dwelling["extensions"] = ["ostrel-v4"]
                here.append(f"{name}:2")
            tables["dwellings"][name] = dwelling
        way = r.choice(["chain", "chain", "star", "branch", "split"])
        if way == "star":
            for name in here:
                run(port(floor), [name])
        elif way == "branch" and len(here) > 1:
            name = f"T{floor}"
            tables["branch-boxes"][name] = {"model": "ostrel-t2", "place": f"A/{floor}"}
            run(port(floor), [name])
            run(f"{name}.1", here[:1])
            run(f"{name}.2", here[1:])
        elif way == "split" and len(here) > 2:
            run(port(floor), here[:2])
            run(here[0], here[2:])
        else:
            run(port(floor), here)
    lines = [
        "[site]",
        f'title = "Invented house {seed}"',
        'family = "ostrel-48"',
        'indoor_station = "ostrel-v4"',
        'door_station = "ostrel-dv1"',
        'cable = "pair-0.8"',
        "[buildings]",
        f"A = {text_of({'floors': floors})}",
    ]
    for table, rows in tables.items():
        if rows:
            lines.append(f"[{table}]")
            lines += [f"{text_of(name) if ':' in name else name} = {text_of(row)}" for name, row in rows.items()]
    return "\n".join(lines) + "\n"


if __name__ == "__main__":
    import sys

    sys.stdout.write(wired_site(int(sys.argv[1])))
