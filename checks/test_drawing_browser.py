"""Drawings measured by a browser's own layout: nothing over anything, every element once.

The oracle is Chromium's getBBox, which knows nothing of the widths and boxes that the drawing was
laid out with.
"""

import json
import os
import pathlib
import subprocess
import tomllib

import pytest
from drawing_sites import random_site

BROWSER = pathlib.Path(__file__).parent / "browser"
# The browser rounds the height of a font to whole pixels, here sixteenths of a millimetre.
SLACK_MM = 0.12


def draw(folder, site, *options):
    path = folder / "site.toml"
    path.write_text(site, encoding="utf-8")
    command = [os.environ["LATCHLINE"], "draw", str(path), "-o", str(folder / "out"), *options]
    done = subprocess.run(command, capture_output=True, text=True, timeout=300)
    assert done.returncode == 0, done.stderr
    return done.stdout.split("\n")[:-1]


def measured(files):
    command = ["node", str(BROWSER / "drawing_boxes.mjs")]
    done = subprocess.run(command, input="\n".join(files), capture_output=True, text=True, timeout=600)
    assert done.returncode == 0, done.stderr
    return json.loads(done.stdout)


def overlap(a, b, slack=SLACK_MM):
    return a[0] + slack < b[2] and b[0] + slack < a[2] and a[1] + slack < b[3] and b[1] + slack < a[3]


def within(inner, outer, slack=SLACK_MM):
    return (
        inner[0] >= outer[0] - slack
        and inner[1] >= outer[1] - slack
        and inner[2] <= outer[2] + slack
        and inner[3] <= outer[3] + slack
    )


def faults(sheet):
    """What lies over what on one sheet."""
    found = []
    edge = [0, 0, *sheet["sheet"]]
    texts, cards = sheet["texts"], sheet["cards"]
    for number, text in enumerate(texts):
        if not within(text["box"], edge):
            found.append(f"{text['text']!r} leaves the sheet")
        found += [f"{text['text']!r} over {other['text']!r}" for other in texts[number + 1 :] if overlap(text["box"], other["box"])]
        found += [f"{text['text']!r} on the line {line}" for line in sheet["lines"] if overlap(text["box"], line, 0.05)]
        for card in cards:
            if overlap(text["box"], card["box"]) and not within(text["box"], card["box"]):
                found.append(f"{text['text']!r} sticks out of {card['element']}")
    for number, card in enumerate(cards):
        x0, y0, x1, y1 = card["box"]
        inner = [x0 + 0.5, y0 + 0.5, x1 - 0.5, y1 - 0.5]
        found += [f"a line through {card['element']}: {line}" for line in sheet["lines"] if overlap(inner, line, 0)]
        found += [f"{card['element']} over {other['element']}" for other in cards[number + 1 :] if overlap(card["box"], other["box"])]
    return found


def elements(site):
    """Every designation of a site file, extensions included."""
    data = tomllib.loads(site)
    tables = ("supplies", "distributors", "branch-boxes", "entrances", "management", "dwellings", "runs")
    names = [name for table in tables for name in data.get(table, {})]
    for name, dwelling in data.get("dwellings", {}).items():
        names += [f"{name}:{n + 2}" for n in range(len(dwelling.get("extensions", [])))]
    return names


CASES = [(seed, stations, sheet) for seed, (stations, sheet) in enumerate(
    [(12, None), (12, "phone"), (24, "a4"), (40, None), (64, None), (64, "a4-upright"), (64, "phone"), (120, "a3"), (250, None), (500, None)]
)]


@pytest.mark.parametrize("seed, stations, sheet", CASES)
def test_nothing_covers_anything_and_every_element_is_there_once(tmp_path, seed, stations, sheet):
    site = random_site(seed, stations)
    files = draw(tmp_path, site, *(["--sheet", sheet] if sheet else []))
    sheets = measured(files)
    for name, measures in zip(files, sheets):
        assert faults(measures) == [], pathlib.Path(name).name
    drawn = [element for measures in sheets for element in measures["elements"]]
    assert sorted(drawn) == sorted(elements(site))


@pytest.mark.parametrize("units", ["metric", "us"])
@pytest.mark.parametrize("sheet", [None, "phone"])
def test_german_drawings_are_as_readable(tmp_path, sheet, units):
    site = random_site(5, 64)
    options = ["--language", "de", "--units", units, *(["--sheet", sheet] if sheet else [])]
    kinds = ("elevation", "profiles", "switches", "wiring", "signal", "start-up")
    every = [part for what in kinds for part in ("--what", what)]
    files = draw(tmp_path, site, *options, *every)
    sheets = measured(files)
    for name, measures in zip(files, sheets):
        assert faults(measures) == [], pathlib.Path(name).name
    texts = [text["text"] for measures in sheets for text in measures["texts"]]
    assert any("Verteiler" in text for text in texts) and any("Grenzwert" in text for text in texts)
    assert not any("distributor" in text or "Verdict" in text for text in texts)
    unit = "ft" if units == "us" else "m"
    assert any(text == f"{unit} ab der Quelle" for text in texts)


@pytest.mark.parametrize("what", ["profiles", "switches", "signal", "start-up"])
@pytest.mark.parametrize("sheet", [None, "phone", "a3"])
def test_charts_and_switches_are_readable(tmp_path, what, sheet):
    files = draw(tmp_path, random_site(7, 48), "--what", what, *(["--sheet", sheet] if sheet else []))
    for name, measures in zip(files, measured(files)):
        assert faults(measures) == [], pathlib.Path(name).name


EVERY_LOCK = pathlib.Path(__file__).parent.parent / "crates/drawing/src/wiring/every_lock.toml"


@pytest.mark.parametrize("language", ["en", "de"])
@pytest.mark.parametrize("sheet", [None, "a4", "phone"])
def test_the_wiring_of_every_kind_of_lock_is_readable(tmp_path, sheet, language):
    site = EVERY_LOCK.read_text(encoding="utf-8")
    files = draw(tmp_path, site, "--what", "wiring", "--language", language, *(["--sheet", sheet] if sheet else []))
    sheets = measured(files)
    for name, measures in zip(files, sheets):
        assert faults(measures) == [], pathlib.Path(name).name
    # Every lock and every door with alarm inputs has its picture, on whatever sheet.
    texts = [text["text"] for measures in sheets for text in measures["texts"]]
    lock, inputs = ("lock", "alarm inputs") if language == "en" else ("Schloss", "Meldeeingänge")
    for name, entrance in tomllib.loads(site)["entrances"].items():
        locks = entrance.get("locks", [entrance.get("lock")])
        assert all(f"{name} {lock} {number + 1}" in texts for number in range(len(locks)))
        assert (f"{name} {inputs}" in texts) == ("alarm_inputs" in entrance)


def test_the_table_of_widths_agrees_with_the_font(tmp_path):
    files = draw(tmp_path, random_site(4, 64))
    checked = 0
    for measures in measured(files):
        for text in measures["texts"]:
            # Kerning may make a text a little shorter than the sum of its widths.
            assert 0.93 * text["stated"] <= text["natural"] <= 1.01 * text["stated"] + 0.02, text
            checked += 1
    assert checked > 300


def test_the_check_itself_sees_faults():
    sheet = {
        "sheet": [100, 100],
        "texts": [{"text": "a", "box": [1, 1, 9, 4]}, {"text": "b", "box": [5, 2, 12, 5]}, {"text": "c", "box": [95, 50, 101, 53]}],
        "cards": [{"element": "A", "box": [20, 20, 40, 40]}],
        "lines": [[0, 30, 50, 30], [7, 0, 7, 10]],
    }
    assert len(faults(sheet)) == 5
