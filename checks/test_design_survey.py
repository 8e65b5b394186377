"""Surveys as spreadsheet programs write them (by openpyxl, an independent writer): what is wrong is told with its cell."""

from __future__ import annotations

import csv
import datetime
import json

import openpyxl
import pytest

from survey_files import corridor_blocks, run, write

SHEETS = {"site": "Site", "buildings": "Buildings", "places": "Places", "routes": "Routes", "dwellings": "Dwellings", "entrances": "Entrances"}


def workbook(sheets: dict) -> openpyxl.Workbook:
    book = openpyxl.Workbook()
    book.remove(book.active)
    for name, rows in sheets.items():
        sheet = book.create_sheet(SHEETS[name])
        for row in rows:
            sheet.append(row)
    return book


def told(tmp_path, book: openpyxl.Workbook, status: int = 2) -> str:
    file = tmp_path / "survey.xlsx"
    book.save(file)
    done = run("design", file, "-o", tmp_path / "site.toml", "--force", status=status)
    return done.stderr + done.stdout


def block() -> dict:
    return corridor_blocks(1, 2, 3)


def test_a_workbook_typed_in_a_spreadsheet_program_works(tmp_path) -> None:
    told(tmp_path, workbook(block()), status=0)
    assert run("check", tmp_path / "site.toml").returncode == 0


def test_numbers_as_text_with_decimal_commas_and_blank_rows_work(tmp_path) -> None:
    plain = told(tmp_path, workbook(block()), status=0)
    sheets = block()
    for row in sheets["routes"][1:]:
        row[2] = str(row[2]).replace(".", ",") + " m"
    for row in sheets["dwellings"][1:]:
        row[2] = str(row[2]).replace(".", ",")
    sheets["dwellings"].insert(3, [])
    sheets["routes"].insert(2, [None, None, None, None])
    assert told(tmp_path, workbook(sheets), status=0) == plain


@pytest.mark.parametrize(
    ("value", "words"),
    [
        ("=SUM(1,2)", "Drop: "),
        (datetime.date(2026, 5, 1), "a date"),
        ("1.234,5", "is not a length in metres"),
        (True, "is not a length in metres"),
        (-3, "Drop: "),
        ("#REF!", "Drop: "),
    ],
)
def test_what_is_no_number_is_told_with_its_cell(value, words, tmp_path) -> None:
    book = workbook(block())
    book["Dwellings"]["C3"] = value
    text = told(tmp_path, book)
    assert "Dwellings!C3" in text and words in " ".join(text.split())


def test_merged_cells_are_told(tmp_path) -> None:
    book = workbook(block())
    book["Dwellings"].merge_cells("B2:B4")
    text = told(tmp_path, book)
    assert "Dwellings!B2" in text and "merged" in text


def test_a_hundred_thousand_rows_are_refused(tmp_path) -> None:
    book = workbook(block())
    for row in range(100_000):
        book["Dwellings"].append([f"X{row}", "A-G", 1])
    assert "more than 20000 rows" in " ".join(told(tmp_path, book).split())


def test_semicolons_with_a_byte_order_mark_work(tmp_path) -> None:
    folder = write(tmp_path / "survey", block())
    plain = run("design", folder, status=0).stdout
    for file in folder.glob("*.csv"):
        with open(file, newline="", encoding="utf-8") as old:
            rows = list(csv.reader(old))
        if file.stem in ("routes", "dwellings"):
            rows = [[*row[:2], row[2].replace(".", ","), *row[3:]] for row in rows]
        with open(file, "w", newline="", encoding="utf-8-sig") as new:
            csv.writer(new, delimiter=";").writerows(rows)
    assert run("design", folder, status=0).stdout == plain


@pytest.mark.parametrize(
    ("setting", "words"),
    [
        (["Hottest temperature", -20], "must not lie above"),
        (["Largest silenced group", 0], "Site!B"),
        (["Wiring", "rings"], "rings"),
    ],
)
def test_a_contradictory_policy_is_told(setting, words, tmp_path) -> None:
    sheets = block()
    sheets["site"] = [row for row in sheets["site"] if row[0] != setting[0]] + [setting]
    assert words in told(tmp_path, workbook(sheets))


def test_a_policy_that_no_part_keeps_is_blamed_with_its_relaxation(tmp_path) -> None:
    sheets = block()
    sheets["site"].append(["Spare ports", 8])
    text = told(tmp_path, workbook(sheets), status=1)
    assert "without the limit on spare ports: 8 there is one" in text


def test_a_family_out_of_reach_names_the_dwelling(tmp_path) -> None:
    sheets = block()
    sheets["dwellings"].append(["far", "A-1", 900])
    text = told(tmp_path, workbook(sheets), status=1)
    assert "far cannot be fed even with a cable of its own" in text


def test_a_family_that_does_not_exist_is_told(tmp_path) -> None:
    sheets = block()
    sheets["site"][2][1] = "nowhere-12"
    text = told(tmp_path, workbook(sheets))
    assert "nowhere-12" in text and "ostrel-48" in text


def test_the_template_has_lists_to_choose_from(tmp_path) -> None:
    file = tmp_path / "survey.xlsx"
    run("new", "--survey", file, status=0)
    book = openpyxl.load_workbook(file)
    lists = [rule.formula1 for sheet in book for rule in sheet.data_validations.dataValidation]
    assert any("yes" in rule for rule in lists) and any("buried" in rule for rule in lists)
    assert json.dumps(book.sheetnames).count("Instructions") == 1


def test_the_demo_survey_gives_a_design_that_passes_and_its_bytes_repeat(tmp_path) -> None:
    run("new", "--demo", tmp_path / "one", status=0)
    run("new", "--demo", tmp_path / "two", status=0)
    survey = tmp_path / "one" / "survey.xlsx"
    assert survey.read_bytes() == (tmp_path / "two" / "survey.xlsx").read_bytes()
    site = tmp_path / "site.toml"
    done = run("design", survey, "-o", site, "--format", "json", status=0)
    result = json.loads(done.stdout)["families"][0]["design"]
    assert result["lower_bound"] <= result["cost"]
    assert run("check", site).returncode == 0
    # A survey that the site agrees with asks for nothing.
    same = run("design", survey, "--from", site, "--format", "json", status=0)
    assert json.loads(same.stdout)["steps"] == []


def test_catalogues_are_named_as_the_site_file_sees_them(tmp_path) -> None:
    """A catalogue beside the survey, and the site file in another folder: `check` finds it."""
    sheets = corridor_blocks(1, 2, 4)
    sheets["site"].append(["Catalogues", "own.toml"])
    survey = write(tmp_path / "found" / "survey", sheets)
    (survey / "own.toml").write_text("")
    (tmp_path / "made").mkdir()
    site = tmp_path / "made" / "site.toml"
    run("design", survey, "-o", site, status=0)
    assert 'catalogues = ["../found/survey/own.toml"]' in site.read_text()
    run("check", site, status=0)
    beside = survey / "site.toml"
    run("design", survey, "-o", beside, status=0)
    assert 'catalogues = ["own.toml"]' in beside.read_text()
