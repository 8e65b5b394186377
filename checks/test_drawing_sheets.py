"""References from sheet to sheet of an elevation meet."""

from __future__ import annotations

import os
import re
import subprocess
import xml.etree.ElementTree as ElementTree

from drawing_sites import random_site

SVG = "{http://www.w3.org/2000/svg}"
REFERENCE = re.compile(r"(.+) → (\d+)/([A-Z])(\d+)")


def drawn(folder, site: str, *options: str) -> list[ElementTree.Element]:
    file = folder / "site.toml"
    file.write_text(site, encoding="utf-8")
    command = [os.environ["LATCHLINE"], "draw", str(file), "-o", str(folder / "sheets"), "--format", "svg", "--sheet", "a3", *options]
    done = subprocess.run(command, capture_output=True, text=True, timeout=300)
    assert done.returncode == 0, done.stderr
    return [ElementTree.parse(name).getroot() for name in done.stdout.split("\n")[:-1]]


def test_references_from_sheet_to_sheet_meet(tmp_path):
    """Each line that leaves a sheet is named on the other one too, in the zone that is told, and leads back."""
    sheets = drawn(tmp_path, random_site(3, 120))
    assert len(sheets) > 2
    flags = []
    for number, sheet in enumerate(sheets, 1):
        columns, rows = zones(sheet)
        for text in sheet.iter(f"{SVG}text"):
            if found := REFERENCE.fullmatch(text.text or ""):
                at = (float(text.get("x")), float(text.get("y")))
                flags.append((number, found[1].split(" to ")[0], int(found[2]), found[3], int(found[4]), at, columns, rows))
    assert len(flags) > 10
    for number, run, other, row, column, _, _, _ in flags:
        back = [flag for flag in flags if flag[0] == other and flag[1] == run and flag[2] == number]
        assert back, (number, run, other)
        # A flag stands beside its line, within a zone or at its edge.
        hits = [flag for flag in back if abs(zone_of(flag[6], flag[5][0]) - column) <= 1 and abs(zone_of(flag[7], flag[5][1]) - (ord(row) - ord("A") + 1)) <= 1]
        assert hits, (number, run, other, row, column, back)


def zones(sheet) -> tuple[list[float], list[float]]:
    """The middles of the zones by their names on the frame: columns from left to right, rows from the top."""
    frame = next(group for group in sheet.iter(f"{SVG}g") if group.get("class") == "frame")
    texts = [(text.text, float(text.get("x")), float(text.get("y"))) for text in frame.iter(f"{SVG}text")]
    columns = sorted({x for words, x, _ in texts if words.isdigit()})
    rows = sorted({y for words, _, y in texts if not words.isdigit()})
    return columns, rows


def zone_of(middles: list[float], value: float) -> int:
    return min(range(len(middles)), key=lambda index: abs(middles[index] - value)) + 1
