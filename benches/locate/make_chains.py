"""Writes sites of 54 and 270 stations: one supply and distributor for every 54, six chains of nine on each."""

from __future__ import annotations

import pathlib
import sys


def site(blocks: int) -> str:
    lines = [
        "[site]",
        f'title = "Chains, {54 * blocks} stations (invented)"',
        'family = "ostrel-48"',
        'indoor_station = "ostrel-v4"',
        'door_station = "ostrel-dv1"',
        'cable = "pair-0.8"',
        "",
        "[buildings]",
    ]
    for block in range(1, blocks + 1):
        lines.append(f'B{block} = {{ title = "Block {block}", floors = ["G", "1", "2", "3", "4", "5"] }}')
    lines.append("\n[supplies]")
    lines += [f'B{b}-PS = {{ model = "ostrel-ps-120", place = "B{b}/G" }}' for b in range(1, blocks + 1)]
    lines.append("\n[distributors]")
    lines += [f'B{b}-D = {{ model = "ostrel-d8t", place = "B{b}/G" }}' for b in range(1, blocks + 1)]
    lines += ["\n[entrances]"]
    lines += [
        f'front-{b} = {{ role = "{"main" if b == 1 else "secondary"}", place = "B{b}/G", calls = ["B{b}"] }}'
        for b in range(1, blocks + 1)
    ]
    lines.append("\n[dwellings]")
    floors = ["G", "1", "2", "3", "4", "5"]
    for b in range(1, blocks + 1):
        for chain in range(6):
            lines += [f'B{b}-{chain}{k:02d} = {{ place = "B{b}/{floors[chain]}" }}' for k in range(1, 10)]
    lines.append("\n[runs]")
    for b in range(1, blocks + 1):
        lines.append(f'B{b}-feed = {{ from = "B{b}-PS", to = "B{b}-D", cable = "flex-1.5", length = "1.5 m" }}')
        lines.append(f'B{b}-door = {{ from = "B{b}-PS", to = "front-{b}", cable = "outdoor-0.8", length = "12 m" }}')
        for chain in range(6):
            stops = ", ".join(f'"B{b}-{chain}{k:02d}"' for k in range(1, 10))
            lines.append(
                f'B{b}-R{chain} = {{ from = "B{b}-D.{chain + 1}", to = [{stops}], first = "{6 + 3 * chain} m", spacing = "6 m" }}'
            )
    return "\n".join(lines) + "\n"


if __name__ == "__main__":
    folder = pathlib.Path(sys.argv[1])
    (folder / "chains-54.toml").write_text(site(1))
    (folder / "chains-270.toml").write_text(site(5))
