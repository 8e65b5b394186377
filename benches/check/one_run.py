"""A site file with N dwellings on one run: `one_run.py N`. No family allows so many; the question is how soon check says so."""

import sys

count = int(sys.argv[1])
names = [f"A-{number}" for number in range(1, count + 1)]
dwellings = "\n".join(f'{name} = {{ place = "A/1" }}' for name in names)
stops = ", ".join(f'"{name}"' for name in names)
print(f"""[site]
title = "One run"
family = "ostrel-48"
indoor_station = "ostrel-v4"
door_station = "ostrel-dv1"
cable = "pair-0.8"
[buildings]
A = {{ floors = ["G", "1"] }}
[supplies]
PS = {{ model = "ostrel-ps-60", place = "A/G" }}
[distributors]
D = {{ model = "ostrel-d4", place = "A/G" }}
[entrances]
E = {{ role = "main", place = "A/G" }}
[dwellings]
{dwellings}
[runs]
feed = {{ from = "PS", to = "D", length = "5 m" }}
door = {{ from = "D.1", to = "E", length = "9 m" }}
flats = {{ from = "D.2", to = [{stops}], spacing = "2 m" }}""")
