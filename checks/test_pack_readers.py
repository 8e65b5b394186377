"""The files for one reader, read by programs that know nothing of Latchline: `pdftotext`, `pdftoppm`, `zbarimg`."""

from __future__ import annotations

import collections
import csv
import os
import pathlib
import subprocess
import xml.etree.ElementTree as ElementTree

import pikepdf
import pytest

PROGRAM = os.environ["LATCHLINE"]


@pytest.fixture(scope="module", params=["en", "de"])
def pack(request, tmp_path_factory) -> pathlib.Path:
    folder = tmp_path_factory.mktemp(request.param)
    subprocess.run([PROGRAM, "new", "--demo", "demo"], cwd=folder, check=True, capture_output=True)
    command = [PROGRAM, "pack", "demo/site.toml", "-o", "pack", "--language", request.param]
    subprocess.run(command, cwd=folder, check=True, capture_output=True)
    return folder / "pack"


def lines_of(pdf: pathlib.Path) -> list[str]:
    done = subprocess.run(["pdftotext", "-raw", str(pdf), "-"], capture_output=True, text=True, check=True)
    return [line.strip() for line in done.stdout.splitlines()]


def devices(pack: pathlib.Path) -> list[str]:
    """The second column of the device schedule, without the lines before the heads."""
    text = next((pack / "tables").glob("*-devices.csv")).read_text(encoding="utf-8-sig")
    separator = ";" if "Stand" in text.splitlines()[1] else ","
    rows = [row for row in csv.reader(text.splitlines(), delimiter=separator) if not row[0].startswith("# ")]
    return [row[1].removeprefix("'") for row in rows[1:] if len(row) > 1 and row[0].isdigit()]


def test_the_installer_finds_each_device_once(pack):
    names = devices(pack)
    assert len(names) > 50
    # Each is the head of one block of one card, which may go on on the next sheet; the elevation of the same file has it again.
    lines = lines_of(next((pack / "parts").glob("*-job-cards.pdf")))
    # What goes on behind a comma ("Talking," and below it the door station) is no head.
    counts = collections.Counter(line for before, line in zip(["", *lines], lines) if not before.endswith(","))
    assert {name for name in names if counts[name] == 0} == set()
    # A device with all that a door can have goes on twice: in the next column, and behind the other parts of its door.
    assert {name: counts[name] for name in names if counts[name] > 3} == {}
    assert len([name for name in names if counts[name] > 2]) <= 1
    whole = collections.Counter(lines_of(pack / "installer.pdf"))
    assert all(whole[name] >= counts[name] for name in names)


def test_codes_of_the_cards_read_back(pack, tmp_path):
    pages = next((pack / "parts").glob("*-job-cards.pdf"))
    # At one resolution zbar overlooks some codes on a full page, so where one is missing the pages are scanned at another.
    found: set[str] = set()
    for resolution in ("300", "360", "450"):
        subprocess.run(["pdftoppm", "-r", resolution, "-gray", str(pages), str(tmp_path / resolution)], check=True)
        for picture in sorted(tmp_path.glob(f"{resolution}-*.pgm")):
            command = ["zbarimg", "--quiet", "--xml", "-Sdisable", "-Sqrcode.enable", str(picture)]
            done = subprocess.run(command, capture_output=True, text=True)
            if done.stdout:
                read = ElementTree.fromstring(done.stdout)
                found |= {data.text for data in read.iter() if data.tag.endswith("}data")}
            picture.unlink()
        if found == set(devices(pack)):
            break
    assert found == set(devices(pack))


def test_each_file_holds_what_is_its_reader_s(pack):
    contents = (pack / "contents.txt").read_text(encoding="utf-8")
    text = {name: "\n".join(lines_of(pack / f"{name}.pdf")) for name in ("installer", "office", "client")}
    card = "Card 1 of" if "Card 1 of" in text["installer"] else "Karte 1 von"
    assert card in text["installer"]
    assert all(card not in text[name] for name in ("office", "client"))
    # The heads of their columns may take two lines.
    for prices in ("Prices in EUR", "Preise in EUR"):
        assert prices not in text["installer"] and prices not in text["client"]
    assert any(prices in text["office"] for prices in ("Prices in EUR", "Preise in EUR"))
    for price in ("Unit price", "Einzelpreis"):
        assert price not in text["installer"] and price not in text["client"]
    for names in ("Name on the panel", "Name auf dem Tableau"):
        assert all(names not in words for words in text.values())
    for instrument in ("calibrated until", "kalibriert bis"):
        if instrument in text["client"]:
            break
    else:
        raise AssertionError("the handover record lists no instruments")
    assert all(f"{name}.pdf: " in contents for name in text)
    pages = {name: len(pikepdf.open(pack / f"{name}.pdf").pages) for name in ("pack", *text)}
    assert max(pages["installer"], pages["client"], pages["office"]) < pages["pack"]
