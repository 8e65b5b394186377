"""A pack for a reader who is used to feet, gauges and letter paper, read by pdftotext (poppler)."""

from __future__ import annotations

import os
import pathlib
import re
import subprocess

import pytest


@pytest.fixture(scope="module")
def folder(tmp_path_factory) -> pathlib.Path:
    folder = tmp_path_factory.mktemp("us")
    run = lambda *arguments: subprocess.run(  # noqa: E731
        [os.environ["LATCHLINE"], *arguments], cwd=folder, capture_output=True, text=True, timeout=300
    )
    assert run("new", "--demo", "demo").returncode == 0
    made = run("pack", "demo/site.toml", "-o", "pack", "--units", "us", "--sheet", "letter", "--date", "2026-11-02")
    assert made.returncode == 0, made.stderr
    return folder


@pytest.fixture(scope="module")
def text(folder) -> str:
    done = subprocess.run(["pdftotext", "pack/pack.pdf", "-"], cwd=folder, capture_output=True, text=True)
    return done.stdout


def test_no_length_and_no_temperature_is_metric(text):
    flat = " ".join(text.split())
    # Clauses of standards are quoted as they stand there: 0.3 m, 0.75 m and 1.20 m of BS 8300 and the Approved Document.
    quoted = {"0.3 m", "0.75 m", "1.20 m"}
    metres = set(re.findall(r"\b\d+(?:\.\d+)? m\b(?!²)", flat)) - quoted
    assert not metres, metres
    assert "°C" not in flat
    assert "ohm/km" not in flat and "per metre" not in flat
    assert "ohm/1000 ft" in flat and " ft" in flat and "°F" in flat


def test_spelling_is_american(text):
    assert not re.findall(r"\b\w*[Cc]olour\w*", text)
    assert "Color used" in " ".join(text.split())


def test_every_cross_section_has_its_gauge(folder):
    import csv

    rows = list(csv.reader((folder / "pack/tables/07-cables.csv").read_text(encoding="utf-8-sig").splitlines()))
    heading = next(row for row in rows if "Conductor size" in row or "Conductor" in row)
    at = next(index for index, title in enumerate(heading) if title.startswith("Conductor"))
    sizes = {row[at] for row in rows[rows.index(heading) + 1 :] if len(row) > at and row[at]}
    assert sizes and all("AWG" in size for size in sizes), sizes


def test_sheets_are_letter_or_tabloid(folder):
    info = subprocess.run(
        ["pdfinfo", "-f", "1", "-l", "1000", "pack/pack.pdf"], cwd=folder, capture_output=True, text=True
    ).stdout
    # ANSI/ASME Y14.1: A is 8.5 x 11 in, B is 11 x 17 in, at 72 points an inch.
    sizes = {tuple(sorted(map(float, pair))) for pair in re.findall(r"size:\s+([\d.]+) x ([\d.]+) pts", info)}
    assert sizes == {(612.0, 792.0), (792.0, 1224.0)}, sizes


HERE = pathlib.Path(__file__).parent / "by_hand"
# Clauses of standards are quoted as they stand there: heights of BS 8300 and the Approved Document; the metre by which a catalogue's
# own words name a part is its maker's.
QUOTED = {"0.3 m", "0.75 m", "1.20 m"}
SITES = ["demo/site.toml", "demo/faulty.toml", "terrace-of-eight.toml", "heater-at-the-gate.toml", "riser-of-a-metre.toml"]


@pytest.mark.parametrize("site", SITES)
def test_no_table_of_any_site_is_metric(folder, tmp_path, site):
    """Every table of a pack in US units, cell by cell: no metre, centimetre, kilometre, degree Celsius or ohm per kilometre."""
    path = folder / site if site.startswith("demo/") else HERE / site
    made = subprocess.run(
        [os.environ["LATCHLINE"], "pack", path, "-o", tmp_path / "pack", "--units", "us"],
        capture_output=True, text=True, timeout=300, check=False,
    )
    assert made.returncode in (0, 1), made.stderr
    found = set()
    for table in sorted((tmp_path / "pack/tables").glob("*.csv")):
        text = table.read_text(encoding="utf-8-sig")
        for unit in re.findall(r"(?<![\w.])\d+(?:[.,]\d+)? ?(?:m|cm|km|metres?|K)\b(?![²2/\w])|°C|ohm/km|ohm/m\b|F/km|per metre|kilometre", text):
            if unit not in QUOTED:
                found.add((table.name, unit))
    assert not found, sorted(found)
