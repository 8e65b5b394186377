"""A site whose names are formulas, of several scripts, written from right to left, or very long."""

import pathlib

NAMES = ["=1+1", "شقة ٣", "三〇二号室", ("Very long name " * 8).strip()]

TEXT = """
[site]
title = "=HYPERLINK(\\"x\\")"
family = "ostrel-48"
indoor_station = "ostrel-v4"
door_station = "ostrel-dv1"
cable = "pair-0.8"
[buildings]
A = { floors = ["G"] }
[supplies]
PS = { model = "ostrel-ps-120", place = "A/G" }
[entrances]
"@door" = { role = "main", place = "A/G" }
[dwellings]
DWELLINGS
[distributors]
D = { model = "ostrel-d4", place = "A/G" }
[runs]
W1 = { from = "PS", to = "D", length = "1 m" }
W2 = { from = "D.1", to = "@door", length = "5 m" }
W3 = { from = "D.2", to = [STOPS], first = "5 m", spacing = "5 m" }
"""


def hostile_site(file: pathlib.Path) -> list[str]:
    """Writes it; the names of its dwellings."""
    quoted = [f'"{name}"' for name in NAMES]
    dwellings = "\n".join(f'{name} = {{ place = "A/G" }}' for name in quoted)
    file.write_text(TEXT.replace("DWELLINGS", dwellings).replace("STOPS", ", ".join(quoted)), encoding="utf-8")
    return NAMES
