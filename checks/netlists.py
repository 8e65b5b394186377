"""Which terminals are joined: read from the wiring schedule, from the drawings' geometry, and from the site file.

The three readers share no code but a union of sets. Of a drawing only shapes and lettering are read: which lines meet, in which
dots, contacts and boxes they end, and what is written beside those.
"""

from __future__ import annotations

import collections
import csv
import itertools
import math
import pathlib
import re
import tomllib
import xml.etree.ElementTree as ElementTree

SVG = "{http://www.w3.org/2000/svg}"
# Coordinates are written to a hundredth of a millimetre.
ROUNDED = 0.03


class Joined:
    """Things that are joined, and with what."""

    def __init__(self) -> None:
        self.above: dict = {}

    def top(self, thing):
        self.above.setdefault(thing, thing)
        while self.above[thing] != thing:
            self.above[thing] = self.above[self.above[thing]]
            thing = self.above[thing]
        return thing

    def join(self, one, other) -> None:
        self.above[self.top(one)] = self.top(other)

    def nets(self) -> list[frozenset]:
        found = collections.defaultdict(set)
        for thing in list(self.above):
            found[self.top(thing)].add(thing)
        return [frozenset(net) for net in found.values()]


# ---- the schedule -------------------------------------------------------------------------------------------------

Terminal = tuple[str, str, str]  # device, terminals, pole


def schedule_rows(table: pathlib.Path) -> list[list[str]]:
    text = table.read_text(encoding="utf-8-sig")
    rows = [row for row in csv.reader(text.splitlines(keepends=True)) if not (len(row) == 1 and row[0].startswith("# "))]
    return [[cell.removeprefix("'") for cell in row] for row in rows[1:]]


def named_terminal(name: str) -> Terminal:
    """`front-A:relay1 NC` as device, terminals and pole; a connector has no more than its name."""
    device, colon, rest = name.rpartition(":")
    if not colon:
        return (name, "", "")
    # Extensions have a colon of their own: "A-12:2:in +".
    terminals, _, pole = rest.partition(" ")
    return (device, terminals, pole)


class Schedule:
    """The rows of a wiring schedule."""

    def __init__(self, table: pathlib.Path) -> None:
        self.rows = schedule_rows(table)
        # What each terminal is joined to, row by row.
        self.joins: list[tuple[Terminal, str, Terminal | None]] = []
        self.terminals: set[Terminal] = set()
        for device, terminals, pole, cable, *_, other, _remark, _pair, _colour, _done in self.rows:
            terminal = (device, terminals, pole)
            self.terminals.add(terminal)
            if cable:
                self.joins.append((terminal, cable, named_terminal(other) if ":" in other or "-joint" in other else None))

    def nets(self) -> Joined:
        joined = Joined()
        for terminal, _, other in self.joins:
            if other:
                joined.join(terminal, other)
        # A protector passes its poles on.
        for device, terminals, pole in self.terminals:
            if device.endswith(("/surge", "/surge-end")) and terminals == "line":
                joined.join((device, "line", pole), (device, "protected", pole))
        return joined


# ---- shapes of a drawing ------------------------------------------------------------------------------------------

Point = tuple[float, float]


def classes(element) -> set[str]:
    return set(element.get("class", "").split())


def lines_of(element) -> list[list[Point]]:
    """The corners of a path, an arc as its two ends."""
    data = element.get("d", "")
    points: list[Point] = []
    for command, numbers in re.findall(r"([MLAZ])([^MLAZ]*)", data):
        values = [float(value) for value in numbers.split()]
        if command in "ML":
            points.append((values[0], values[1]))
        elif command == "A":
            points.append((values[5], values[6]))
        elif command == "Z":
            points.append(points[0])
    return [points] if points else []


def near(one: Point, other: Point, most: float = ROUNDED) -> bool:
    return math.dist(one, other) <= most


def on(point: Point, a: Point, b: Point) -> bool:
    """Whether a point lies on a straight piece."""
    length = math.dist(a, b)
    if length < 1e-9:
        return near(point, a)
    along = ((point[0] - a[0]) * (b[0] - a[0]) + (point[1] - a[1]) * (b[1] - a[1])) / length
    off = abs((point[0] - a[0]) * (b[1] - a[1]) - (point[1] - a[1]) * (b[0] - a[0])) / length
    return off <= ROUNDED and -ROUNDED <= along <= length + ROUNDED


def wires_of(group) -> list[list[Point]]:
    """Open lines that are wires."""
    wires = []
    for path in group.iter(f"{SVG}path"):
        if {"layer-wiring", "ink-wire"} <= classes(path) or {"layer-wiring", "ink-trouble"} <= classes(path) or {"layer-wiring", "ink-doubt"} <= classes(path):
            wires += lines_of(path)
    return wires


def circles_of(group, layer: str, *, filled: bool) -> list[tuple[Point, float]]:
    found = []
    for circle in group.iter(f"{SVG}circle"):
        own = classes(circle)
        if f"layer-{layer}" in own and ("fill-wire" in own) == filled:
            found.append(((float(circle.get("cx")), float(circle.get("cy"))), float(circle.get("r"))))
    return found


def texts_of(group) -> list[tuple[Point, str, str]]:
    """Place, anchor and words of each text."""
    return [
        ((float(text.get("x")), float(text.get("y"))), text.get("text-anchor", "start"), text.text or "")
        for text in group.iter(f"{SVG}text")
    ]


# ---- the elevation ------------------------------------------------------------------------------------------------


def elevation_nets(svg: pathlib.Path) -> tuple[dict[str, list[frozenset]], Joined]:
    """What the lines of each run join, as sets of (device, mark of its terminals); and all of it as nets."""
    root = ElementTree.parse(svg).getroot()
    dots: list[tuple[Point, tuple[str, str]]] = []
    for device in root.iter(f"{SVG}g"):
        if device.get("class") != "device":
            continue
        texts = texts_of(device)
        for dot, radius in circles_of(device, "wiring", filled=True):
            # Below the card the mark stands over its dot; at a side beside it, a little lower.
            def distance(text):
                (x, y), anchor, words = text
                if anchor == "middle" and abs(x - dot[0]) <= ROUNDED and 0 < dot[1] - y < 5 * radius:
                    return abs(dot[1] - y)
                if anchor in ("start", "end") and 0 < abs(x - dot[0]) < 2.5 * radius and 0 < y - dot[1] < 3 * radius:
                    return abs(x - dot[0])
                return math.inf

            mark = min(texts, key=distance)
            assert distance(mark) < math.inf, f"{device.get('data-element')}: a terminal without a mark"
            dots.append((dot, (device.get("data-element"), mark[2])))
    by_run: dict[str, list[frozenset]] = {}
    nets = Joined()
    for run in root.iter(f"{SVG}g"):
        if run.get("class") != "run":
            continue
        name = run.get("data-element") or run.get("data-continues")
        ends = Joined()
        wires = wires_of(run)
        # Pieces that follow each other end to end are one line; one that crosses another does not meet it.
        for number, wire in enumerate(wires):
            ends.top(number)
            for other in range(number):
                if any(near(a, b) for a in (wire[0], wire[-1]) for b in (wires[other][0], wires[other][-1])):
                    ends.join(number, other)
        for line in ends.nets():
            # A run that goes on from the terminals of a box passes its dot in a corner.
            corners = [corner for number in line for corner in wires[number]]
            met = {terminal for dot, terminal in dots if any(near(corner, dot) for corner in corners)}
            by_run.setdefault(name, []).append(frozenset(met))
            for one, other in itertools.pairwise(sorted(met)):
                nets.join(one, other)
    return by_run, nets


# ---- the wiring of a lock -----------------------------------------------------------------------------------------

PARTS = {
    "exit button": "exit",
    "emergency release": "release",
    "fire alarm contact": "fire",
    "relay in between": "between",
}


def part_named(words: str) -> str | None:
    if re.fullmatch(r"relay \d+, normally (open|closed)", words):
        return "relay"
    if re.fullmatch(r"relay on the secure side, normally (open|closed)", words):
        return "secure"
    return PARTS.get(words)


def lines_of_words(texts, size_of) -> list[tuple[Point, str]]:
    """Texts below one another with one anchor, put together: place of the first line, and all words."""
    found: list[list] = []
    for (x, y), anchor, words in texts:
        for paragraph in found:
            (px, py), panchor, lines, last = paragraph
            if panchor == anchor and abs(px - x) <= ROUNDED and 0 < y - last <= size_of:
                lines.append(words)
                paragraph[3] = y
                break
        else:
            found.append([(x, y), anchor, [words], y])
    return [(place, " ".join(lines)) for place, _, lines, _ in found]


def lock_nets(group) -> set[frozenset[str]]:
    """The nets of the picture of a lock: each a set of ends of parts, such as "relay:C" or "lock 1"."""
    wires = wires_of(group)
    joints = [centre for centre, _ in circles_of(group, "wiring", filled=True)]
    ends: list[tuple[Point, str]] = []
    texts = texts_of(group)
    rectangles = [
        tuple(float(box.get(key)) for key in ("x", "y", "width", "height"))
        for box in group.iter(f"{SVG}rect")
        if "layer-device" in classes(box)
    ]
    contacts = sorted(centre for centre, _ in circles_of(group, "device", filled=False))
    # The scale of the picture: both ends of a contact are 8 mm apart in it.
    pairs = []
    while contacts:
        left = contacts.pop(0)
        right = min((point for point in contacts if abs(point[1] - left[1]) <= ROUNDED), key=lambda point: point[0])
        contacts.remove(right)
        pairs.append((left, right))
    scale = (pairs[0][1][0] - pairs[0][0][0]) / 8.0
    paragraphs = lines_of_words(texts, 5.2 * scale)
    for left, right in pairs:
        middle = (left[0] + right[0]) / 2

        def far(paragraph):
            (x, y), words = paragraph
            known = part_named(first_words(words))
            # Below the contact, or at the right of one in a branch.
            below = abs(x - middle) <= ROUNDED and 0 < y - left[1] < 7 * scale
            beside = 0 < x - right[0] < 12 * scale and abs(y - left[1]) < 2 * scale
            return math.dist((x, y), (middle, left[1])) if known and (below or beside) else math.inf

        name = min(paragraphs, key=far)
        if far(name) == math.inf:
            # The door's contact leads to its own input and is no part of the lock's circuit.
            assert any("door contact" in words for _, words in paragraphs), "a contact without a name"
            continue
        part = part_named(first_words(name[1]))
        if part in ("relay", "between", "secure"):
            marks = {
                words: x for (x, y), anchor, words in texts if words in ("C", "NO", "NC") and abs(y - left[1] + 1.2 * scale) <= 2 * ROUNDED
            }
            at_left = [words for words, x in marks.items() if 0 < left[0] - x < 3 * scale]
            at_right = [words for words, x in marks.items() if 0 < x - right[0] < 4 * scale]
            assert at_left == ["C"] and len(at_right) == 1, (part, marks)
            ends += [(left, f"{part}:C"), (right, f"{part}:{at_right[0]}")]
        else:
            ends += [(left, part), (right, part)]
    source = min(rectangles)
    right_edge = source[0] + source[2]
    for wire in wires:
        for tip in (wire[0], wire[-1]):
            if abs(tip[0] - right_edge) <= ROUNDED and source[1] < tip[1] < source[1] + source[3]:
                upper = tip[1] < source[1] + source[3] / 2
                ends.append((tip, "feed 1" if upper else "feed 2"))
            for x, y, width, height in rectangles:
                if (x, y, width, height) == source:
                    continue
                if abs(tip[0] - x - width / 2) <= 2 * ROUNDED and width == min(width, height):
                    # Lock, or what lies across it: upright in the circuit.
                    name = "lock" if width > 5 * scale else "across"
                    if abs(tip[1] - y) <= 2 * ROUNDED:
                        ends.append((tip, f"{name} 1"))
                    elif abs(tip[1] - y - height) <= 2 * ROUNDED:
                        ends.append((tip, f"{name} 2"))
                elif height > width and abs(tip[0] - x) <= 2 * ROUNDED and y < tip[1] < y + height:
                    # A relay on the secure side takes its command from the left.
                    ends.append((tip, f"command {1 if tip[1] < y + height / 2 else 2}"))
                elif height < width and abs(tip[1] - y - height / 2) <= 2 * ROUNDED:
                    if abs(tip[0] - x) <= 2 * ROUNDED:
                        ends.append((tip, "coil:A1"))
                    elif abs(tip[0] - x - width) <= 2 * ROUNDED:
                        ends.append((tip, "coil:A2"))
    for path in group.iter(f"{SVG}path"):
        # A diode or clamp: a filled triangle whose tip is its bar.
        if {"layer-device", "fill-text"} <= classes(path) and path.get("d", "").endswith("Z"):
            (corners,) = lines_of(path)
            if len(corners) == 4:
                tip = min(corners, key=lambda corner: corner[1])
                base = max(corner[1] for corner in corners)
                ends += [(tip, "across 1"), ((tip[0], base), "across 2")]
    # The command of a relay on the secure side begins at two open circles beside the words.
    for centre, _ in circles_of(group, "wiring", filled=False):
        for (x, y), words in paragraphs:
            found = re.fullmatch(r"command \d+: ([12])", words)
            if found and 0 < centre[0] - x < 4 * scale and abs(y - centre[1]) < 2 * scale:
                ends.append((centre, f"asks {found[1]}"))
    # The feed of a coil's circuit is drawn again, as two open circles beside the words.
    for centre, _ in circles_of(group, "wiring", filled=False):
        for (x, y), words in paragraphs:
            if 0 < centre[0] - x < 4 * scale and abs(y - centre[1]) < 2 * scale and words.startswith("feed"):
                sign = words.removeprefix("feed").strip()
                number = {"+": 1, "–": 2}.get(sign)
                if number is None:
                    alike = [other for other, _ in circles_of(group, "wiring", filled=False)]
                    number = 1 if centre[1] == min(other[1] for other in alike) else 2
                ends.append((centre, f"feed {number}"))
    joined = Joined()
    for number, wire in enumerate(wires):
        joined.top(number)
        for other in range(number):
            tips = (wire[0], wire[-1])
            others = (wires[other][0], wires[other][-1])
            if any(near(a, b) for a in tips for b in others):
                joined.join(number, other)
    for joint in joints:
        meeting = [
            number for number, wire in enumerate(wires) if any(on(joint, a, b) for a, b in itertools.pairwise(wire))
        ]
        for one, other in itertools.pairwise(meeting):
            joined.join(one, other)
    names = collections.defaultdict(set)
    for point, name in ends:
        for number, wire in enumerate(wires):
            if near(point, wire[0], 0.1) or near(point, wire[-1], 0.1):
                names[joined.top(number)].add(name)
    # The feed is drawn twice where a coil has a circuit of its own.
    merged = Joined()
    for number, net in names.items():
        for name in net:
            merged.join(("net", number), ("feed", name) if name.startswith("feed") else ("net", number))
    grouped = collections.defaultdict(set)
    for number, net in names.items():
        grouped[merged.top(("net", number))] |= net
    return {frozenset(net) for net in grouped.values() if len(net) > 1}


def first_words(words: str) -> str:
    """The name at the head of a paragraph of name and remark."""
    known = sorted(PARTS, key=len, reverse=True)
    for name in known:
        if words.startswith(name):
            return name
    found = re.match(r"relay (\d+|on the secure side), normally (open|closed)", words)
    return found[0] if found else words


def lock_nets_of_schedule(schedule: Schedule, door: str, lock: int, feed: str, is_secure: bool) -> set[frozenset[str]]:
    """The same nets by the rows of the schedule."""
    number = "" if lock == 1 else str(lock)
    suppressors = {f"{door}/{kind}{number}" for kind in ("diode", "clamp", "varistor")}
    poles = {"+": 1, "−": 2, "1": 1, "2": 2}

    def end(terminal: Terminal) -> str | None:
        device, terminals, pole = terminal
        if terminals == "screen":
            return None
        if device == door and terminals == f"relay{lock}":
            return f"relay:{pole}"
        if (device, terminals) in FEEDS[feed](door, lock, number):
            return f"feed {poles[pole]}"
        if device == f"{door}/lock{number}":
            return f"{'feed' if terminals == 'input' else 'lock'} {poles[pole]}"
        if device in suppressors:
            return f"across {poles[pole]}"
        if device == door and terminals == f"command{lock}":
            return f"asks {pole}"
        if device == f"{door}/relay{number}":
            if is_secure:
                return f"command {pole}" if terminals == "command" else f"secure:{pole}"
            return f"coil:{pole}" if terminals == "coil" else f"between:{pole}"
        for part in ("exit", "release", "fire"):
            if device == f"{door}/{part}{number}":
                return part
        return None

    found = set()
    for net in schedule.nets().nets():
        names = frozenset(name for terminal in net if (name := end(terminal)))
        if len(names) > 1:
            found.add(names)
    return found


FEEDS = {
    "station": lambda door, lock, number: {(door, f"lock{lock}")},
    "bus": lambda door, lock, number: {(door, "in")},
    "own-supply": lambda door, lock, number: {(f"{door}/supply{number}", "out1")},
    "dry-contact": lambda door, lock, number: set(),
}


# ---- the site file ------------------------------------------------------------------------------------------------

CATALOGUE = pathlib.Path(__file__).parent.parent / "crates/site/src/builtin/generic.toml"


class SiteFile:
    """A site file as TOML: what it asks to be joined."""

    def __init__(self, file: pathlib.Path) -> None:
        self.data = tomllib.loads(file.read_text(encoding="utf-8"))
        self.locks_known = tomllib.loads(CATALOGUE.read_text(encoding="utf-8"))["locks"] | self.data.get("locks", {})

    def sections(self) -> dict[str, list[frozenset]]:
        """For each run the places that its sections join: a port, or a device by its name."""
        found = {}
        for name, run in self.data.get("runs", {}).items():
            named = run["to"] if isinstance(run["to"], list) else [run["to"]]
            stops = [stop for name in named for stop in self.stops(name)]
            ways = [run["from"], *stops]
            found[name] = [frozenset(pair) for pair in itertools.pairwise(ways)]
        return found

    def stops(self, name: str) -> list[str]:
        """The stations of `A-1..A-12`, in the order of their numbers."""
        first, dots, last = name.partition("..")
        if not dots:
            return [name]
        head = first.rstrip("0123456789")
        digits = len(first) - len(head) if first[len(head)] == "0" else 0
        found = []
        for number in range(int(first[len(head) :]), int(last.removeprefix(head)) + 1):
            found.append(f"{head}{number:0{digits}d}")
        return found

    def locks(self) -> list[tuple[str, int, dict, bool]]:
        """Door, number, lock, and whether the fire alarm breaks its circuit."""
        found = []
        for door, entrance in self.data.get("entrances", {}).items():
            listed = entrance.get("locks", [entrance["lock"]] if "lock" in entrance else [])
            for number, lock in enumerate(listed, 1):
                found.append((door, number, lock, entrance.get("fire_interlock") is True))
        return found

    def feed(self, lock: dict) -> str:
        kind = self.locks_known[lock["model"]]
        return lock.get("feed", "dry-contact" if kind.get("kind") in ("gate", "lift") else "station")

    def is_secure(self, lock: dict) -> bool:
        """Whether a relay of the station's family on the secure side releases a lock, and none in between."""
        has_relay = "relay_between" in lock and self.feed(lock) != "dry-contact"
        return lock.get("relay_on_secure_side") is True and not has_relay

    def lock_faults(self, lock: dict, has_fire: bool, nets: set[frozenset[str]]) -> list[str]:
        """What the nets of a lock do that they must not, by trying each contact: what opens by losing power must let go
        where any contact of the way opens; what opens by power must take it through the relay or the button alone."""
        kind = self.locks_known[lock["model"]]
        feed = self.feed(lock)
        has_relay = "relay_between" in lock and feed != "dry-contact"
        opens_without = kind["power_loss"] == "opens" and feed != "dry-contact"
        has_exit = lock.get("exit_button") is True
        breaking = {"exit": has_exit, "release": lock.get("emergency_release") is True, "fire": has_fire}
        is_secure = self.is_secure(lock)
        main = "between" if has_relay else "secure" if is_secure else "relay"
        wanted = [part for part, there in breaking.items() if there] if opens_without else []
        faults = []

        def reaches(closed: set[str], start: str, end: str) -> bool:
            joined = Joined()
            for net in nets:
                for name in net:
                    # Both ends of a contact have one name until it is known to be closed.
                    joined.join(("net", net), ("end", name) if name.split(":")[0] not in CONTACTS else ("net", net))
            for part in CONTACTS:
                if part in closed:
                    own = [net for net in nets if any(name.split(":")[0] == part for name in net)]
                    for one, other in itertools.pairwise(own):
                        joined.join(("net", one), ("net", other))
            return joined.top(("end", start)) == joined.top(("end", end))

        target = "feed 2" if feed == "dry-contact" else "lock 1"
        back = feed == "dry-contact" or reaches(set(), "lock 2", "feed 2")
        if not back:
            faults.append("the lock has no way back to its feed")
        every = {main, *wanted}
        if opens_without:
            if not reaches(every, "feed 1", target):
                faults.append("no way to the lock with every contact closed")
            for part in every:
                if reaches(every - {part}, "feed 1", target):
                    faults.append(f"the lock stays held while {part} is open")
        else:
            if reaches(set(), "feed 1", target):
                faults.append("the lock is fed without anybody asking")
            if not reaches({main}, "feed 1", target):
                faults.append("the relay does not release")
            if has_exit and not reaches({"exit"}, "feed 1", target):
                faults.append("the exit button does nothing")
        far = "NC" if opens_without and not has_relay else "NO"
        used = {name for net in nets for name in net}
        if f"{main}:{far}" not in used:
            faults.append(f"{main} is not wired to {far}")
        if is_secure:
            if any(name.startswith("relay:") for name in used):
                faults.append("the contact in the station is wired, though the relay on the secure side releases")
            for pole in (1, 2):
                if not reaches(set(), f"asks {pole}", f"command {pole}"):
                    faults.append(f"the command of the relay does not reach it: {pole}")
        if has_relay:
            coil_far = "NC" if opens_without else "NO"
            for part in ("coil:A1", "coil:A2", f"relay:{coil_far}", "relay:C"):
                if part not in used:
                    faults.append(f"{part} is not joined to anything")
            if not reaches({"relay"}, "feed 1", "coil:A1") or not reaches(set(), "coil:A2", "feed 2"):
                faults.append("the coil of the relay in between is not switched by the station's relay")
        fitted = lock.get("suppression")
        if fitted not in (None, "none") and not (
            reaches(set(), "across 1", "lock 1") and reaches(set(), "across 2", "lock 2")
        ):
            faults.append(f"the {fitted} does not lie across the lock")
        return faults


CONTACTS = ("relay", "between", "secure", "exit", "release", "fire")
