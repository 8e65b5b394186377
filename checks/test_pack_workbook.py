"""The workbook of a pack, read by openpyxl and recalculated by LibreOffice.

Both are general programs that know nothing of Latchline: what they read is what the office reads.
"""

from __future__ import annotations

import csv
import os
import pathlib
import re
import subprocess

import openpyxl
import pytest

from hostile_site import hostile_site


def run(*arguments: str, cwd: pathlib.Path, status: int = 0) -> subprocess.CompletedProcess:
    done = subprocess.run(
        [os.environ["LATCHLINE"], *arguments], cwd=cwd, capture_output=True, text=True, timeout=300
    )
    assert done.returncode == status, (done.returncode, done.stdout, done.stderr)
    return done


@pytest.fixture(scope="module")
def packed(tmp_path_factory) -> pathlib.Path:
    folder = tmp_path_factory.mktemp("pack")
    run("new", "--demo", "demo", cwd=folder)
    run("pack", "demo/site.toml", "-o", "pack", cwd=folder)
    return folder


@pytest.fixture(scope="module")
def workbook(packed):
    return openpyxl.load_workbook(packed / "pack" / "workbook.xlsx")


def heading_row(sheet) -> int:
    """The row of the column headings: the one that is repeated on every page."""
    first, last = sheet.print_title_rows.replace("$", "").split(":")
    assert first == last
    return int(first)


def test_every_sheet_is_ready_to_print(workbook):
    assert workbook.sheetnames[0] == "contents" and len(workbook.sheetnames) == 24
    for sheet in workbook.worksheets[1:]:
        heading = heading_row(sheet)
        assert sheet.freeze_panes == f"B{heading + 1}", sheet.title
        columns = sum(1 for cell in sheet[heading] if cell.value)
        last = openpyxl.utils.get_column_letter(columns)
        assert sheet.print_area == f"'{sheet.title}'!$A$1:${last}${sheet.max_row}", sheet.title
        assert sheet.page_setup.paperSize == 9 and sheet.page_setup.orientation == "landscape"
        assert "SHA-256" in sheet["A2"].value


def test_the_workbook_and_the_csv_files_hold_the_same(packed, workbook):
    for path in sorted((packed / "pack" / "tables").glob("*.csv")):
        with open(path, encoding="utf-8-sig", newline="") as file:
            rows = [row for row in csv.reader(file) if not row[0].startswith("# ")]
        sheet = workbook[path.stem[3:]]
        heading = heading_row(sheet)
        assert rows[0] == [cell.value for cell in sheet[heading] if cell.value], path.name
        merged = {area.min_row for area in sheet.merged_cells.ranges}
        body = [row for row in sheet.iter_rows(min_row=heading + 1) if row[0].row not in merged]
        if any(str(cell.value or "").startswith("=SUM(") for cell in body[-1]):
            body.pop()
        assert len(body) == len(rows) - 1, path.name
        for cells, texts in zip(body, rows[1:]):
            for cell, text in zip(cells, texts):
                if isinstance(cell.value, (int, float)):
                    assert float(text.split(" ")[0]) == pytest.approx(cell.value, abs=1e-9), (path.name, cell)
                elif not str(cell.value or "").startswith("="):
                    assert (cell.value or "") == text.removeprefix("'"), (path.name, cell)


def test_numbers_are_numbers_with_formats(workbook):
    sheet = workbook["voltages"]
    heading = heading_row(sheet)
    column = next(cell.column for cell in sheet[heading] if cell.value == "Standby nominal, V")
    values = [sheet.cell(row, column) for row in range(heading + 1, sheet.max_row + 1)]
    numbers = [cell for cell in values if isinstance(cell.value, float)]
    assert len(numbers) > 50
    assert all(cell.number_format == "0.00_)" and 30 < cell.value < 60 for cell in numbers)


def test_totals_recomputed_by_libreoffice_are_equal(packed, tmp_path):
    source = packed / "pack" / "workbook.xlsx"
    done = subprocess.run(
        ["soffice", "--headless", f"-env:UserInstallation=file://{tmp_path}/profile",
         "--convert-to", "xlsx:Calc MS Excel 2007 XML", "--outdir", str(tmp_path), str(source)],
        capture_output=True, text=True, timeout=240,
    )
    assert done.returncode == 0, done.stderr
    formulas = openpyxl.load_workbook(source)
    written = openpyxl.load_workbook(source, data_only=True)
    again = openpyxl.load_workbook(tmp_path / "workbook.xlsx", data_only=True)
    seen = 0
    for sheet in formulas.worksheets:
        for row in sheet.iter_rows():
            for cell in row:
                if isinstance(cell.value, str) and cell.value.startswith("="):
                    ours = written[sheet.title][cell.coordinate].value
                    theirs = again[sheet.title][cell.coordinate].value
                    assert theirs == pytest.approx(ours, rel=1e-12, abs=1e-9), (sheet.title, cell.coordinate)
                    seen += 1
    assert seen > 20


@pytest.mark.parametrize("options", [[], ["--language", "de"], ["--units", "us", "--sheet", "letter"]])
@pytest.mark.parametrize("site", ["site.toml", "faulty.toml"])
def test_pages_end_where_the_workbook_says(tmp_path, site, options):
    """Every sheet is one page wide, and no page ends but where a break was set: with its own measure of letters
    and rows LibreOffice prints as many pages as the breaks make."""
    run("new", "--demo", "demo", cwd=tmp_path)
    status = 1 if site == "faulty.toml" else 0
    run("pack", f"demo/{site}", "-o", "pack", *options, cwd=tmp_path, status=status)
    source = tmp_path / "pack" / "workbook.xlsx"
    done = subprocess.run(
        ["soffice", "--headless", f"-env:UserInstallation=file://{tmp_path}/profile",
         "--convert-to", "pdf", "--outdir", str(tmp_path), str(source)],
        capture_output=True, text=True, timeout=240,
    )
    assert done.returncode == 0, done.stderr
    printed = len(re.findall(rb"/Type\s*/Page\b", (tmp_path / "workbook.pdf").read_bytes()))
    book = openpyxl.load_workbook(source)
    assert printed == sum(len(sheet.row_breaks.brk) + 1 for sheet in book.worksheets)
    for sheet in book.worksheets[1:]:
        merged = {area.min_row for area in sheet.merged_cells.ranges if area.max_col > area.min_col}
        for entry in sheet.row_breaks.brk:
            assert entry.id not in merged, f"{sheet.title}: a heading ends the page at row {entry.id}"


def test_totals_are_the_sums_of_their_columns(workbook, packed):
    values = openpyxl.load_workbook(packed / "pack" / "workbook.xlsx", data_only=True)
    for name, title in [("parts", "Price"), ("cables", "Length, m"), ("cut-list", "Cut to, m")]:
        sheet = values[name]
        heading = heading_row(workbook[name])
        column = next(cell.column for cell in sheet[heading] if cell.value == title)
        numbers = [sheet.cell(row, column).value for row in range(heading + 1, sheet.max_row + 1)]
        numbers = [number for number in numbers if isinstance(number, (int, float))]
        assert numbers[-1] == pytest.approx(sum(numbers[:-1]), abs=1e-6) and numbers[-1] > 0


def test_hostile_names_stay_text(tmp_path):
    names_of_dwellings = hostile_site(tmp_path / "site.toml")
    done = subprocess.run(
        [os.environ["LATCHLINE"], "pack", "site.toml", "-o", "pack"], cwd=tmp_path, capture_output=True, text=True
    )
    assert done.returncode in (0, 1), done.stderr
    book = openpyxl.load_workbook(tmp_path / "pack" / "workbook.xlsx")
    names = {row[1].value: row[1] for row in book["devices"].iter_rows() if row[1].value}
    for name in [*names_of_dwellings, "@door"]:
        assert names[name].data_type == "s", name
    devices = next((tmp_path / "pack" / "tables").glob("*-devices.csv")).read_text(encoding="utf-8-sig")
    assert "'=1+1" in devices and "'@door" in devices


def test_a_site_with_errors_says_so_on_every_sheet(tmp_path):
    run("new", "--demo", "demo", cwd=tmp_path)
    run("pack", "demo/faulty.toml", "-o", "pack", cwd=tmp_path, status=1)
    book = openpyxl.load_workbook(tmp_path / "pack" / "workbook.xlsx")
    for sheet in book.worksheets:
        assert sheet["A3"].value.startswith("THIS SITE HAS ERRORS"), sheet.title
    for path in (tmp_path / "pack").rglob("*"):
        if path.suffix in (".csv", ".svg", ".dxf", ".txt"):
            assert "SITE HAS ERRORS" in path.read_text(encoding="utf-8"), path


def test_full_disk_leaves_no_half_folder(tmp_path):
    """A limit on the size of files stands for the full disk: the write fails in the middle."""
    run("new", "--demo", "demo", cwd=tmp_path)
    command = "trap '' XFSZ; ulimit -f 40; exec \"$LATCHLINE\" pack demo/site.toml -o pack"
    for before in ([], None):
        done = subprocess.run(["sh", "-c", command], cwd=tmp_path, capture_output=True, text=True, timeout=300)
        assert done.returncode == 2 and "nothing was changed" in done.stderr, done
        present = sorted(path.name for path in tmp_path.iterdir())
        if before == []:
            assert present == ["demo"]
            run("pack", "demo/site.toml", "-o", "pack", cwd=tmp_path)
            whole = sorted(path.name for path in (tmp_path / "pack").rglob("*"))
        else:
            assert present == ["demo", "pack"]
            assert sorted(path.name for path in (tmp_path / "pack").rglob("*")) == whole


def test_folders_that_are_no_pack_are_left_alone(tmp_path):
    run("new", "--demo", "demo", cwd=tmp_path)
    (tmp_path / "mine").mkdir()
    (tmp_path / "mine" / "letter.txt").write_text("keep")
    done = run("pack", "demo/site.toml", "-o", "mine", cwd=tmp_path, status=2)
    assert "no pack" in done.stderr and (tmp_path / "mine" / "letter.txt").read_text() == "keep"
    run("pack", "demo/site.toml", "-o", "pack", "--only", "devices,labels", cwd=tmp_path)
    run("pack", "demo/site.toml", "-o", "pack", "--only", "cables", cwd=tmp_path)
    assert [path.name for path in (tmp_path / "pack" / "tables").iterdir()] == ["07-cables.csv"]
    (tmp_path / "pack" / "note.txt").write_text("keep")
    done = run("pack", "demo/site.toml", "-o", "pack", cwd=tmp_path, status=2)
    assert "note.txt" in done.stderr


def test_the_same_input_gives_the_same_bytes(packed):
    run("pack", "demo/site.toml", "-o", "again", cwd=packed)
    first = {path.relative_to(packed / "pack"): path.read_bytes() for path in (packed / "pack").rglob("*") if path.is_file()}
    again = {path.relative_to(packed / "again"): path.read_bytes() for path in (packed / "again").rglob("*") if path.is_file()}
    assert first == again


def test_contents_and_sheets_link_to_each_other(workbook):
    """Hyperlinks lead to the first cell of a sheet that is there, and back."""
    contents = workbook["contents"]
    leads = {cell.hyperlink.location for row in contents.iter_rows() for cell in row if cell.hyperlink}
    assert leads == {f"'{name}'!A1" for name in workbook.sheetnames[1:]}
    for sheet in workbook.worksheets[1:]:
        back = sheet.cell(heading_row(sheet) - 1, 1)
        assert back.hyperlink.location == "'contents'!A1", sheet.title


def test_headings_have_filters_over_all_rows_but_the_sum(workbook):
    for sheet in workbook.worksheets[1:]:
        heading = heading_row(sheet)
        columns = sum(1 for cell in sheet[heading] if cell.value)
        has_sum = any(str(cell.value or "").startswith("=SUM(") for cell in sheet[sheet.max_row])
        last = f"{openpyxl.utils.get_column_letter(columns)}{sheet.max_row - has_sum}"
        assert sheet.auto_filter.ref == f"A{heading}:{last}", sheet.title


def listed(sheet) -> dict[str, set[str]]:
    """Which words each cell with a list offers, by its coordinate."""
    cells: dict[str, set[str]] = {}
    for validation in sheet.data_validations.dataValidation:
        assert validation.type == "list" and validation.errorStyle == "information"
        words = set(validation.formula1.strip('"').split(","))
        for area in validation.sqref.ranges:
            for column, row in ((c, r) for r in range(area.min_row, area.max_row + 1) for c in range(area.min_col, area.max_col + 1)):
                cells[f"{openpyxl.utils.get_column_letter(column)}{row}"] = words
    return cells


@pytest.mark.parametrize("language, tab, right, passed", [
    ("en", "before-power", {"right", "reversed"}, {"passed", "failed"}),
    ("de", "Vor dem Einschalten", {"richtig", "vertauscht"}, {"bestanden", "nicht bestanden"}),
])
def test_few_words_are_chosen_from_lists(tmp_path, language, tab, right, passed):
    run("new", "--demo", "demo", cwd=tmp_path)
    run("pack", "demo/site.toml", "-o", "pack", "--language", language, cwd=tmp_path)
    sheet = openpyxl.load_workbook(tmp_path / "pack" / "workbook.xlsx")[tab]
    heading = heading_row(sheet)
    lists = listed(sheet)
    steps = [row for row in sheet.iter_rows(min_row=heading + 1) if isinstance(row[0].value, int)]
    polarity = [row for row in steps if lists.get(row[7].coordinate) == right]
    # One for each run of the demo that gets power: so many it has in its file.
    runs = sum(1 for line in (tmp_path / "demo" / "site.toml").read_text().splitlines() if re.match(r"[\w-]+ *= *\{ *from *=", line))
    assert len(polarity) == runs > 0
    assert all(row[7].value is None and lists[row[8].coordinate] == passed for row in polarity)
    measured = [row for row in steps if isinstance(row[5].value, float)]
    assert measured and all(lists[row[8].coordinate] == passed for row in measured)


def test_colours_of_old_cable_are_chosen_from_the_codes_of_iec_60757(workbook):
    sheet = workbook["wiring"]
    heading = heading_row(sheet)
    colour = next(cell.column_letter for cell in sheet[heading] if cell.value == "Colour")
    lists = {cell: words for cell, words in listed(sheet).items() if cell.startswith(colour)}
    # IEC 60757:2021, table 1, without the metals and the protective conductor.
    codes = {"BK", "BN", "RD", "OG", "YE", "GN", "BU", "VT", "GY", "WH", "PK"}
    assert len(lists) > 20 and all(words >= codes for words in lists.values())
    assert all(sheet[cell].value is None for cell in lists)


def test_tabs_are_in_the_language_of_the_pack(tmp_path, workbook):
    run("new", "--demo", "demo", cwd=tmp_path)
    run("pack", "demo/site.toml", "-o", "pack", "--language", "de", cwd=tmp_path)
    german = openpyxl.load_workbook(tmp_path / "pack" / "workbook.xlsx").sheetnames
    assert len(german) == len(workbook.sheetnames) and not set(german) & set(workbook.sheetnames)
    assert {"Inhalt", "Geräte", "Leitungen", "Mängel", "Spannungen", "Verdrahtung"} <= set(german)


@pytest.mark.parametrize("options", [[], ["--language", "de", "--sheet", "letter"]])
def test_the_body_is_printed_at_nine_points(tmp_path, options):
    """The least size of the body is that of its cells times the scale of the page."""
    run("new", "--demo", "demo", cwd=tmp_path)
    run("pack", "demo/site.toml", "-o", "pack", *options, cwd=tmp_path)
    book = openpyxl.load_workbook(tmp_path / "pack" / "workbook.xlsx")
    for sheet in book.worksheets[1:]:
        scale = (sheet.page_setup.scale or 100) / 100
        sizes = {cell.font.size for row in sheet.iter_rows(min_row=heading_row(sheet)) for cell in row if cell.value}
        assert min(sizes) * scale >= 9, (sheet.title, sizes, scale)
        assert not sheet.sheet_properties.pageSetUpPr or not sheet.sheet_properties.pageSetUpPr.fitToPage


def fills(page) -> list[tuple[float, ...]]:
    return [tuple(round(part, 2) for part in rect["non_stroking_color"] or ()) for rect in page.rects if rect["fill"]]


def test_readings_colour_themselves_in_libreoffice(packed, tmp_path):
    """A reading within, one below, one above its limits and one that is no number, as LibreOffice paints them."""
    import pdfplumber

    source = packed / "pack" / "workbook.xlsx"
    book = openpyxl.load_workbook(source)
    for name in book.sheetnames:
        if name != "voltages":
            del book[name]
    sheet = book["voltages"]
    first = heading_row(sheet) + 1
    rows = [row for row in range(first, first + 60) if isinstance(sheet.cell(row, 3).value, float)][:4]
    assert all(sheet.cell(row, 10).number_format == "0.00_)" for row in rows)
    lowest, highest = ([sheet.cell(row, column).value for row in rows] for column in (3, 4))
    # Colours change from row to row: neighbours of one colour are painted as one area.
    for row, written in zip(rows, [lowest[0] - 0.01, (lowest[1] + highest[1]) / 2, highest[2] + 0.01, "42 volts"]):
        sheet.cell(row, 10).value = written
    book.save(tmp_path / "written.xlsx")
    done = subprocess.run(
        ["soffice", "--headless", f"-env:UserInstallation=file://{tmp_path}/profile",
         "--convert-to", "pdf", "--outdir", str(tmp_path), str(tmp_path / "written.xlsx")],
        capture_output=True, text=True, timeout=240,
    )
    assert done.returncode == 0, done.stderr
    with pdfplumber.open(tmp_path / "written.pdf") as pdf:
        seen = [colour for page in pdf.pages for colour in fills(page)]
    red, green, yellow = (0.69, 0.06, 0.06), (0.78, 0.94, 0.81), (1.0, 0.75, 0.0)
    assert [seen.count(colour) for colour in (red, green, yellow)] == [2, 1, 1], set(seen)


def test_a_failing_site_is_said_large_on_every_sheet_and_page(tmp_path):
    run("new", "--demo", "demo", cwd=tmp_path)
    run("pack", "demo/faulty.toml", "-o", "pack", cwd=tmp_path, status=1)
    for sheet in openpyxl.load_workbook(tmp_path / "pack" / "workbook.xlsx").worksheets:
        assert sheet["A3"].font.size >= 18 and sheet["A3"].fill.fgColor.rgb == "FFB01010", sheet.title
        assert "THIS SITE HAS ERRORS" in sheet.oddHeader.center.text and sheet.oddHeader.center.size == 12
        assert sheet.sheet_properties.tabColor.rgb == "FFB01010"
