"""Random sites for the checks of drawings: invented buildings, wired in every way that drawings must show."""

import random

STATIONS = ["ostrel-v4", "ostrel-v7", "ostrel-v7x"]
CABLES = ["pair-0.5", "pair-0.6", "pair-0.8", "flex-0.75", "flex-1.5"]
NAMES = ["Penthouse", "Garden flat", "Caretaker's lodge", "Büro 3", "Flat \"Nord\" & Süd"]


def random_site(seed, stations):
    """A site file with about this many stations, as TOML text. The same seed gives the same text."""
    r = random.Random(seed)
    blocks = max(1, min(8, round(stations / r.choice([12, 30, 60, 90]))))
    per_block = max(1, stations // blocks)
    boxes, branches, supplies, entrances, dwellings, runs, buildings = [], [], [], [], [], [], []
    number = [0]

    def quoted(name):
        return '"' + name.replace("\\", "\\\\").replace('"', '\\"') + '"'

    def run(start, stops):
        number[0] += 1
        name = f"W{number[0]}" if r.random() < 0.9 else f"W{number[0]}-riser"
        extra = ""
        if r.random() < 0.2:
            extra += f', pairs = {r.choice([2, 2, 3])}'
        if r.random() < 0.2:
            extra += ", existing = true"
        stops = ", ".join(quoted(stop) for stop in stops)
        runs.append(
            f'{name} = {{ from = {quoted(start)}, to = [{stops}], first = "{r.randint(3, 40)} m",'
            f' spacing = "{r.randint(3, 12)} m", cable = "{r.choice(CABLES)}"{extra} }}'
        )

    for b in range(blocks):
        block = "ABCDEFGH"[b]
        flats_per_floor = r.choice([2, 4, 4, 6, 8, 12])
        floors = max(1, min(30, -(-per_block // flats_per_floor)))
        names = (["B1"] if r.random() < 0.3 else []) + ["G"] + [str(f) for f in range(1, floors)]
        cores = r.choice([[], [], ["North", "South"]])
        title = f', title = {quoted(r.choice(["Hawthorn Court", "Mill House", "Lindenhof"]))}' if r.random() < 0.7 else ""
        listed = ", ".join(quoted(n) for n in names)
        core_text = f', cores = [{", ".join(quoted(c) for c in cores)}]' if cores else ""
        buildings.append(f"{block} = {{ floors = [{listed}]{core_text}{title} }}")
        ground = names.index("G")
        supply = f"PS-{block}"
        supplies.append(f'{supply} = {{ model = "ostrel-ps-120", place = "{block}/{names[0]}" }}')

        def place(floor):
            core = f"{r.choice(cores)}/" if cores else ""
            return f"{block}/{core}{names[floor]}"

        free = []  # free ports of the distributors of this block
        count = 0

        def distributor(floor, start):
            nonlocal count
            count += 1
            name = f"{block}-D{count}"
            boxes.append(f'{name} = {{ model = "ostrel-d4", place = "{place(floor)}" }}')
            run(start, [name])
            return name

        box = distributor(ground, supply)
        free = [(box, p) for p in range(1, 5)]

        def port(floor):
            if len(free) == 1:
                name, p = free.pop()
                fed = distributor(floor, f"{name}.{p}")
                free.extend((fed, q) for q in range(1, 5))
            name, p = free.pop(0)
            return f"{name}.{p}"

        for e in range(r.choice([1, 1, 2])):
            name = f"{block}-E{e + 1}"
            where = f'"{block}/G"' if r.random() < 0.85 else '"outdoors"'
            role = "main" if b == 0 and e == 0 else "secondary"
            entrances.append(f'{name} = {{ role = "{role}", place = {where}, station = "ostrel-dv1" }}')
            run(port(ground), [name])
        flat = 0
        for f in range(floors):
            floor = ground + f if ground + f < len(names) else len(names) - 1
            here = []
            for _ in range(flats_per_floor):
                if flat >= per_block:
                    break
                flat += 1
                name = f"{block}-{floor}{flat:02d}"
                if r.random() < 0.02:
                    name = f"{block} {r.choice(NAMES)} {flat}"
                extension = r.random() < 0.06
                text = f'place = "{place(floor)}", station = "{r.choice(STATIONS)}"'
                if extension:
                    text += f', extensions = ["{r.choice(STATIONS)}"]'
                dwellings.append(f"{quoted(name)} = {{ {text} }}")
                here.append(name)
                if extension:
                    here.append(name + ":2")
            if not here:
                continue
            wiring = r.choice(["chain", "chain", "chain", "star", "branch", "split"])
            if wiring == "chain":
                run(port(floor), here)
            elif wiring == "star" and len(here) <= 4:
                for name in here:
                    run(port(floor), [name])
            elif wiring == "branch" and len(here) >= 2:
                box = f"{block}-T{floor}"
                branches.append(f'{box} = {{ model = "ostrel-t2", place = "{place(floor)}" }}')
                run(port(floor), [box])
                half = len(here) // 2
                run(f"{box}.1", here[:half])
                run(f"{box}.2", here[half:])
            elif len(here) >= 3:
                half = len(here) // 2
                run(port(floor), here[:half])
                run(here[0], here[half:])
            else:
                run(port(floor), here)

    def table(name, lines):
        return f"[{name}]\n" + "\n".join(lines) + "\n" if lines else ""

    return (
        f'[site]\ntitle = "Invented site {seed}"\nfamily = "ostrel-48"\n'
        'indoor_station = "ostrel-v4"\ndoor_station = "ostrel-dv1"\ncable = "pair-0.8"\n'
        + table("buildings", buildings)
        + table("supplies", supplies)
        + table("distributors", boxes)
        + table("branch-boxes", branches)
        + table("entrances", entrances)
        + table("dwellings", dwellings)
        + table("runs", runs)
    )


if __name__ == "__main__":
    import sys

    sys.stdout.write(random_site(int(sys.argv[1]), int(sys.argv[2])))
