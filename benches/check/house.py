"""An invented house that holds, as a site file: `house.py DWELLINGS`, a multiple of 48.

Every 48 dwellings are a block of six floors with a supply, three distributors, a chain of eight on each floor and a door.
"""

import sys


def house(dwellings: int) -> str:
    blocks = "ABCDEFGH"[: dwellings // 48]
    buildings, supplies, boxes, entrances, flats, runs = [], [], [], [], [], []
    for number, b in enumerate(blocks):
        floors = ", ".join(f'"{floor}"' for floor in ["G", "1", "2", "3", "4", "5"])
        buildings.append(f"{b} = {{ floors = [{floors}] }}")
        supplies.append(f'{b}-PS = {{ model = "ostrel-ps-120", place = "{b}/G" }}')
        boxes.append(f'{b}-D1 = {{ model = "ostrel-d8t", place = "{b}/G" }}')
        boxes.append(f'{b}-D2 = {{ model = "ostrel-d4", place = "{b}/1" }}')
        boxes.append(f'{b}-D3 = {{ model = "ostrel-d4", place = "{b}/4" }}')
        role = "main" if number == 0 else "secondary"
        lock = 'lock = { model = "strike-12", cable = "flex-1.0", length = "4 m" }'
        entrances.append(f'{b}-door = {{ role = "{role}", place = "{b}/G", calls = "{b}", {lock} }}')
        runs.append(f'{b}-feed = {{ from = "{b}-PS", to = "{b}-D1", cable = "flex-1.5", length = "1 m" }}')
        runs.append(f'{b}-front = {{ from = "{b}-D1.1", to = "{b}-door", length = "8 m" }}')
        runs.append(f'{b}-r2 = {{ from = "{b}-D1.3", to = "{b}-D2", cable = "flex-1.5", length = "4 m" }}')
        runs.append(f'{b}-r3 = {{ from = "{b}-D1.4", to = "{b}-D3", cable = "flex-1.5", length = "14 m" }}')
        for floor in range(6):
            names = [f"{b}{floor}{flat}" for flat in range(8)]
            place = "G" if floor == 0 else str(floor)
            flats.extend(f'{name} = {{ place = "{b}/{place}" }}' for name in names)
            start = f"{b}-D2.{floor + 1}" if floor < 3 else f"{b}-D3.{floor - 2}"
            stops = ", ".join(f'"{name}"' for name in names)
            runs.append(f'{b}-R{floor} = {{ from = "{start}", to = [{stops}], first = "6 m", spacing = "3 m" }}')
    head = (
        f'[site]\ntitle = "House of {dwellings}"\nfamily = "ostrel-48"\nindoor_station = "ostrel-v4"\n'
        'door_station = "ostrel-dv1"\ncable = "pair-0.8"\n'
    )
    tables = {
        "buildings": buildings, "supplies": supplies, "distributors": boxes, "entrances": entrances,
        "dwellings": flats, "runs": runs,
    }
    return head + "".join(f"[{name}]\n" + "\n".join(rows) + "\n" for name, rows in tables.items())


print(house(int(sys.argv[1])), end="")
