"""QR codes of rendered label sheets read back by zbar, and switch positions decoded from drawn cards."""

from __future__ import annotations

import csv
import os
import pathlib
import re
import subprocess
import xml.etree.ElementTree as ElementTree

import pytest

SVG = "{http://www.w3.org/2000/svg}"


def pack(folder: pathlib.Path, *options: str) -> pathlib.Path:
    program = os.environ["LATCHLINE"]
    subprocess.run([program, "new", "--demo", "demo"], cwd=folder, check=True, capture_output=True)
    subprocess.run([program, "pack", "demo/site.toml", "-o", "pack", *options], cwd=folder, check=True, capture_output=True)
    return folder / "pack"


def devices(folder: pathlib.Path) -> list[dict[str, str]]:
    with open(next((folder / "tables").glob("*-devices.csv")), encoding="utf-8-sig", newline="") as file:
        lines = [line for line in file if not line.startswith(("# ", '"# '))]
    return list(csv.DictReader(lines))


def read_codes(sheet: pathlib.Path, tmp_path: pathlib.Path) -> set[str]:
    """The codes of one sheet. At one resolution zbar overlooks some of two dozen codes side by side, so the
    sheet is scanned at two."""
    found: set[str] = set()
    for resolution in ("200", "400"):
        picture = tmp_path / f"{sheet.stem}-{resolution}.png"
        subprocess.run(["rsvg-convert", "--dpi-x", resolution, "--dpi-y", resolution, "-o", str(picture), str(sheet)],
                       check=True)
        done = subprocess.run(["zbarimg", "--quiet", "--xml", "-Sdisable", "-Sqrcode.enable", str(picture)],
                              capture_output=True, text=True, check=True)
        read = ElementTree.fromstring(done.stdout)
        found |= {data.text for data in read.iter() if data.tag.endswith("}data")}
    return found


@pytest.mark.parametrize("options", [[], ["--sheet", "letter"], ["--base-url", "https://door.example/site-4"]])
def test_every_code_reads_back(tmp_path, options):
    folder = pack(tmp_path, *options)
    codes: list[str] = []
    for sheet in sorted((folder / "labels").glob("devices-*.svg")):
        codes += sorted(read_codes(sheet, tmp_path))
    names = [device["Designation"] for device in devices(folder)]
    if "--base-url" in options:
        from urllib.parse import unquote

        prefix = "https://door.example/site-4/"
        assert all(code.startswith(prefix) and len(code) < 80 for code in codes)
        read = [unquote(code.removeprefix(prefix)) for code in codes]
    else:
        read = [code.split("\n")[0] for code in codes]
        assert all("Quillmere Yard" in code for code in codes)
    assert sorted(read) == sorted(names)


@pytest.mark.parametrize("options", [[], ["--sheet", "letter"], ["--language", "de"]])
def test_four_millimetres_at_the_edge_of_the_paper_stay_white(tmp_path, options):
    """What office printers cannot reach: 4 mm (common practice, no source). Looked at as a picture of the sheet."""
    folder = pack(tmp_path, *options)
    sheets = sorted((folder / "labels").glob("*.svg"))
    assert len(sheets) >= 4
    for sheet in sheets:
        picture = tmp_path / "sheet.pgm"
        png = subprocess.run(["rsvg-convert", "--dpi-x", "254", "--dpi-y", "254", "--background-color", "white", str(sheet)],
                             capture_output=True, check=True).stdout
        from PIL import Image
        import io

        image = Image.open(io.BytesIO(png)).convert("L")
        # 254 dots an inch are 10 a millimetre.
        edge = 40
        width, height = image.size
        inked = image.point(lambda grey: 255 * (grey < 128)).getbbox()
        assert inked and edge <= inked[0] and edge <= inked[1], (sheet.name, inked)
        assert inked[2] <= width - edge and inked[3] <= height - edge, (sheet.name, inked, image.size)


def test_a_label_that_is_fed_aside_loses_nothing(tmp_path):
    """4 mm left and right of what is printed on every label of A4 stock: 3 columns of 70 mm, 5 of 38.1 mm."""
    folder = pack(tmp_path)
    from PIL import Image
    import io

    for name, columns, first, pitch, size in (("devices", 3, 0.0, 70.0, 70.0), ("cable-ends", 5, 4.65, 40.65, 38.1)):
        sheet = folder / "labels" / f"{name}-1.svg"
        png = subprocess.run(["rsvg-convert", "--dpi-x", "254", "--dpi-y", "254", "--background-color", "white", str(sheet)],
                             capture_output=True, check=True).stdout
        image = Image.open(io.BytesIO(png)).convert("L").point(lambda grey: 255 * (grey < 128))
        for column in range(columns):
            left = first + column * pitch
            label = image.crop((round(left * 10), 0, round((left + size) * 10), image.size[1]))
            inked = label.getbbox()
            assert inked and inked[0] >= 40 and inked[2] <= label.size[0] - 40, (name, column, inked, label.size)


NAMES = ["Büro Süd", "شقة ٣", "三〇二号室", "=1+1", "Quartier \U0001f511", "Flat 1"]


@pytest.mark.parametrize("language", ["en", "de"])
def test_codes_of_names_in_any_script_read_back(tmp_path, language):
    """A reader must not have to guess the character set: the code says that it is UTF-8."""
    rows = "\n".join(f'"{name}" = {{ place = "A/G" }}' for name in NAMES)
    stops = ", ".join(f'"{name}"' for name in NAMES)
    (tmp_path / "site.toml").write_text(
        f"""[site]
title = "Höfe & Gärten"
family = "ostrel-48"
indoor_station = "ostrel-v4"
door_station = "ostrel-dv1"
cable = "pair-0.8"
[buildings]
A = {{ floors = ["G"] }}
[supplies]
PS = {{ model = "ostrel-ps-120", place = "A/G" }}
[entrances]
E = {{ role = "main", place = "A/G" }}
[dwellings]
{rows}
[distributors]
D = {{ model = "ostrel-d4", place = "A/G" }}
[runs]
W1 = {{ from = "PS", to = "D", length = "1 m" }}
W2 = {{ from = "D.1", to = "E", length = "5 m" }}
W3 = {{ from = "D.2", to = [{stops}], first = "5 m", spacing = "5 m" }}
""",
        encoding="utf-8",
    )
    command = [os.environ["LATCHLINE"], "pack", "site.toml", "-o", "pack", "--only", "labels", "--language", language]
    subprocess.run(command, cwd=tmp_path, capture_output=True)
    picture = tmp_path / "labels.png"
    sheet = tmp_path / "pack" / "labels" / "devices-1.svg"
    command = ["rsvg-convert", "--dpi-x", "400", "--dpi-y", "400", "-o", str(picture), str(sheet)]
    subprocess.run(command, check=True)
    # Raw: as XML zbarimg writes such texts in base64, and that wrongly.
    command = ["zbarimg", "--quiet", "--raw", "-Sdisable", "-Sqrcode.enable", str(picture)]
    raw = subprocess.run(command, capture_output=True, text=True, check=True).stdout
    codes = re.split(r"(?:Revision|Stand) [0-9a-f]{8}\n", raw)
    assert codes.pop() == ""
    read = [code.split("\n") for code in codes]
    assert sorted(lines[0] for lines in read) == sorted([*NAMES, "PS", "D", "E"])
    assert all(lines[1] == "Höfe & Gärten" for lines in read)
    assert any("Gebäude 0" in line for lines in read for line in lines) == (language == "de")


def dial_position(group: ElementTree.Element) -> list[int]:
    """Where the arrows of the rotary switches of one picture point, from their geometry alone."""
    circles = [(float(c.get("cx")), float(c.get("cy"))) for c in group.iter(f"{SVG}circle")]
    numbers = [t.text for t in group.iter(f"{SVG}text") if re.fullmatch("[0-9A-F]", t.text or "")]
    positions = 16 if "F" in numbers else 10
    import math

    found = []
    arrows = [p for p in group.iter(f"{SVG}path") if (p.get("d") or "").endswith("Z")]
    for (cx, cy), arrow in zip(circles, arrows):
        x, y = map(float, re.match(r"M(\S+) (\S+?)L", arrow.get("d")).groups())
        clockwise = math.degrees(math.atan2(x - cx, cy - y)) % 360
        found.append(round(clockwise / (360 / positions)) % positions)
    return found


def test_switch_positions_of_the_drawn_cards_are_the_addresses(tmp_path):
    """The demo's indoor stations have ten-position rotary switches, most significant first (positional
    notation): the arrows, read as a decimal number, are the number of the dwelling."""
    folder = pack(tmp_path)
    address = {device["Designation"]: device["Address"] for device in devices(folder)}
    decoded = 0
    for sheet in sorted((folder / "drawings").glob("switch-cards-*.svg")):
        for card in ElementTree.parse(sheet).iter(f"{SVG}g"):
            name = card.get("data-element")
            if not name or "switch-card" not in (card.get("class") or ""):
                continue
            pictures = [g for g in card if g.get("class") == "switch"]
            numbers = [int(number) for number in re.findall(r"\d+", address[name])]
            assert len(pictures) == len(numbers), name
            for picture, number in zip(pictures, numbers):
                title = picture.find(f"{SVG}title").text
                if list(picture.iter(f"{SVG}circle")):
                    base = 16 if any(t.text == "F" for t in picture.iter(f"{SVG}text")) else 10
                    value = 0
                    for position in dial_position(picture):
                        value = value * base + position
                    assert value == number, (name, title)
                    decoded += 1
    assert decoded >= len([name for name in address if re.fullmatch(r"[AB]-\d\d", name)])


DOUBLE = {"en": "DOUBLE: ", "de": "DOPPELT: "}


def texts(path: pathlib.Path) -> list[tuple[str, float]]:
    """The lettering of a drawing with its size in millimetres."""
    found = []
    for text in ElementTree.parse(path).iter(f"{SVG}text"):
        found.append(("".join(text.itertext()), float(text.get("font-size"))))
    return found


@pytest.mark.parametrize("language", ["en", "de"])
def test_two_devices_with_one_number_are_marked_large_everywhere(tmp_path, language):
    """In the faulty demo A-12 and A-13 are both stated to be 13; each says the other, and nobody else says anything."""
    program = os.environ["LATCHLINE"]
    subprocess.run([program, "new", "--demo", "demo"], cwd=tmp_path, check=True, capture_output=True)
    command = [program, "pack", "demo/faulty.toml", "-o", "pack", "--language", language]
    assert subprocess.run(command, cwd=tmp_path, capture_output=True).returncode == 1
    folder = tmp_path / "pack"
    marks = [DOUBLE[language] + other for other in ("A-12", "A-13")]
    # Larger than anything else on a label but the designation; as large as the marks of a card.
    for kind, files, least in (
        ("labels", "labels/devices-*.svg", 2.5),
        ("job cards", "drawings/job-cards-*.svg", 3.5),
        ("elevation", "drawings/elevation-*.svg", 2.5),
    ):
        found = [entry for path in sorted(folder.glob(files)) for entry in texts(path) if entry[0].startswith(DOUBLE[language])]
        assert sorted(text for text, _ in found) == marks, (kind, found)
        assert all(size >= least for _, size in found), (kind, found)
    begins = DOUBLE[language].strip()
    cards = [text for path in sorted(folder.glob("drawings/switch-cards-*.svg")) for text, _ in texts(path) if text.startswith(begins)]
    assert len(cards) == 2 and "A-12" in cards[1] and "A-13" in cards[0]
    (path,) = (folder / "tables").glob("*-devices.csv")
    lines = path.read_text(encoding="utf-8-sig").splitlines()
    separator = {"en": ",", "de": ";"}[language]
    rows = list(csv.reader([line for line in lines if not line.startswith(("# ", '"# '))], delimiter=separator))
    doubles = [row for row in rows if any(cell.startswith(begins.rstrip(":")) for cell in row)]
    assert [row[1] for row in doubles] == ["A-12", "A-13"]
    import openpyxl

    book = openpyxl.load_workbook(folder / "workbook.xlsx")
    sheet = book[{"en": "devices", "de": "Geräte"}[language]]
    heads = [str(row[0].value) for row in sheet.iter_rows() if str(row[0].value or "").startswith(("DOUBLE NUMBER", "NUMMER DOPPELT"))]
    assert len(heads) == 2 and all("A-12" in head and "A-13" in head for head in heads)


def test_a_site_without_doubles_says_nothing_of_them(tmp_path):
    folder = pack(tmp_path)
    for path in folder.rglob("*.svg"):
        assert not [text for text, _ in texts(path) if text.startswith("DOUBLE")], path


SITE_OF_COLOURS = """[site]
title = "Colours"
family = "ostrel-48"
indoor_station = "ostrel-v4"
door_station = "ostrel-dv1"
cable = "pair-0.8"
[cables]
striped = {{ title = "Striped", source = "data sheet", gauge = "0.8 mm", pairs = 2, colours = {colours} }}
[buildings]
A = {{ floors = ["G"] }}
[supplies]
PS = {{ model = "ostrel-ps-120", place = "A/G" }}
[entrances]
E = {{ role = "main", place = "A/G" }}
[dwellings]
"1" = {{ place = "A/G" }}
[distributors]
D = {{ model = "ostrel-d4", place = "A/G" }}
[runs]
W1 = {{ from = "PS", to = "D", length = "1 m" }}
W2 = {{ from = "D.1", to = "E", length = "5 m" }}
W3 = {{ from = "D.2", to = "1", length = "5 m", cable = "striped", pairs = 2 }}
"""


def test_colours_of_the_catalogue_are_printed_pair_by_pair(tmp_path):
    """Written out: the first pair is RD on plus and BK on minus, of the second only plus is named, YE."""
    site = tmp_path / "site.toml"
    site.write_text(SITE_OF_COLOURS.format(colours='["RD", "BK", "YE"]'))
    command = [os.environ["LATCHLINE"], "pack", "site.toml", "-o", "pack"]
    assert subprocess.run(command, cwd=tmp_path, capture_output=True).returncode in (0, 1)
    (path,) = (tmp_path / "pack" / "tables").glob("*-wiring.csv")
    lines = [line for line in path.read_text(encoding="utf-8-sig").splitlines() if not line.startswith(("# ", '"# '))]
    rows = [row for row in csv.DictReader(lines) if row["Cable type"] == "striped"]
    poles = {"+": "+", "−": "-", "'+": "+", "'−": "-", "'-": "-", "-": "-"}
    colours = {(poles[row["Leg"]], row["Pair"], row["Colour"]) for row in rows}
    assert colours == {("+", "1", "RD"), ("-", "1", "BK"), ("+", "2", "YE"), ("-", "2", "")}
    others = {row["Colour"] for row in csv.DictReader(lines) if row["Cable type"] == "pair-0.8"}
    # DIN 47100 (from memory): the first pair is white and brown.
    assert others == {"WH", "BN"}
    assert "Colour used" in lines[0]
    cards = [text for path in (tmp_path / "pack" / "drawings").glob("job-cards-*.svg") for text, _ in texts(path)]
    assert {"RD", "BK", "YE"} <= set(cards)


@pytest.mark.parametrize("colours, word", [('["RD", "GNYE"]', "GNYE"), ('["red"]', "red"), ('"RD"', "colours")])
def test_colours_that_are_none_are_refused_at_their_line(tmp_path, colours, word):
    site = tmp_path / "site.toml"
    site.write_text(SITE_OF_COLOURS.format(colours=colours))
    done = subprocess.run([os.environ["LATCHLINE"], "check", "site.toml"], cwd=tmp_path, capture_output=True, text=True)
    said = done.stdout + done.stderr
    assert done.returncode != 0 and word in said and "site.toml" in said, said
