"""The printed pack, read by programs that know nothing of Latchline.

* poppler (`pdftotext`, `pdffonts`, `pdftoppm`): what pages say against the tables, embedded fonts, pictures;
* `qpdf --check` and `pikepdf`: the file is well formed; outline, language, tags;
* PyPI `outloud`: the machine-checkable conditions of PDF/UA-1 (ISO 14289-1, Matterhorn protocol) that it covers;
* PyPI `page-validation`: every rule that it has of PDF/UA-1 and, where a pack has a date, of PDF/A-2a (ISO 19005-2). It says of itself that it
  passes the test files of veraPDF and of the Isartor suite; no stricter free one was found in Debian, PyPI or npm;
* PyPI `pypdfium2`: what each page says;
* `pdfplumber`: what a failing site says large; lettering and lines are measured in `test_pack_lettering.py`;
* `zbarimg`: codes of rendered label pages.
"""

from __future__ import annotations

import contextlib
import csv
import hashlib
import os
import pathlib
import re
import subprocess
import sys
import xml.etree.ElementTree as ElementTree

import page
import pdfplumber
import pikepdf
import pypdfium2
import pytest

from drawing_sites import random_site
from hostile_site import hostile_site

PROGRAM = os.environ["LATCHLINE"]
# Capitals of the embedded sans, as a share of its size (OS/2 table: 1409 of 2048).
CAPITAL = 1409 / 2048
MM = 72 / 25.4

PACKS = {
    "english": ["demo"],
    "german": ["demo", "--language", "de", "--date", "2026-11-02"],
    "letter": ["demo", "--sheet", "letter", "--units", "us"],
    "client": ["demo", "--for", "client"],
    "failing": ["failing"],
}


@pytest.fixture(scope="module", params=PACKS)
def pack(request, tmp_path_factory) -> pathlib.Path:
    site, *options = PACKS[request.param]
    folder = tmp_path_factory.mktemp(request.param)
    if site == "demo":
        subprocess.run([PROGRAM, "new", "--demo", "demo"], cwd=folder, check=True, capture_output=True)
        file = "demo/site.toml"
    else:
        (folder / "site.toml").write_text(random_site(3, 60), encoding="utf-8")
        file = "site.toml"
    done = subprocess.run([PROGRAM, "pack", file, "-o", "pack", *options], cwd=folder, capture_output=True, text=True)
    assert done.returncode == (1 if site == "failing" else 0), done.stderr
    return folder / "pack"


def text_of(pdf: pathlib.Path) -> list[str]:
    """The text of each page."""
    done = subprocess.run(["pdftotext", "-layout", str(pdf), "-"], capture_output=True, text=True, check=True)
    return done.stdout.split("\f")[:-1]


def squeezed(text: str) -> str:
    return re.sub(r"\s+", "", text)


def rows(table: pathlib.Path) -> list[list[str]]:
    text = table.read_text(encoding="utf-8-sig")
    separator = ";" if "Stand" in text.splitlines()[1] else ","
    lines = csv.reader(text.splitlines(keepends=True), delimiter=separator)
    return [row for row in lines if not (len(row) == 1 and row[0].startswith("# "))][1:]


def test_every_cell_of_every_table_is_printed(pack):
    for table in sorted((pack / "tables").glob("*.csv")):
        pdf = pack / "parts" / f"{table.stem}.pdf"
        # In the order of the content, so that the words of a cell stand together.
        done = subprocess.run(["pdftotext", "-raw", str(pdf), "-"], capture_output=True, text=True, check=True)
        printed = squeezed(done.stdout)
        for row in rows(table):
            for cell in row:
                # A sign that keeps spreadsheets from taking text for a formula is not part of it.
                wanted = squeezed(cell.removeprefix("'"))
                assert wanted in printed, (table.name, cell)


def test_the_whole_holds_every_part(pack):
    whole = squeezed("".join(text_of(pack / "pack.pdf")))
    # The client's pack has no schedule of devices.
    for devices in (pack / "tables").glob("*-devices.csv"):
        for row in rows(devices):
            assert squeezed(row[1].removeprefix("'")) in whole
    pages = len(pikepdf.open(pack / "pack.pdf").pages)
    of_parts = sum(len(pikepdf.open(part).pages) for part in (pack / "parts").glob("*.pdf"))
    cover_and_contents = pages - of_parts
    assert 2 <= cover_and_contents <= 6


def test_every_page_says_its_number_revision_and_input(pack):
    contents = (pack / "contents.txt").read_text(encoding="utf-8")
    # The line of origin comes before the hashes of the files.
    digits = re.search(r"\b[0-9a-f]{64}\b", contents)[0]
    for pdf in [pack / "pack.pdf", *(pack / "parts").glob("*.pdf")]:
        with contextlib.closing(pypdfium2.PdfDocument(pdf)) as document:
            count = len(document)
            for number, sheet in enumerate(document, 1):
                # In the order of the content, so that texts that read upward stand together as well.
                said = squeezed(sheet.get_textpage().get_text_range())
                numbers = (f"Page{number}of{count}", f"Seite{number}von{count}")
                assert any(words in said for words in numbers), (pdf.name, number)
                assert digits[:16] in said and digits[:8] in said, (pdf.name, number)


def test_a_failing_site_says_so_on_every_page(pack):
    if "failing" not in str(pack):
        pytest.skip("holds")
    with pdfplumber.open(pack / "pack.pdf") as document:
        for sheet in document.pages:
            large = [char for char in sheet.chars if char["size"] * CAPITAL / MM >= 2.0 and "Bold" in char["fontname"]]
            words = "".join(char["text"] for char in large)
            assert re.search(r"ERRORS\(\d+\)", squeezed(words)), sheet.page_number


def test_files_are_well_formed_and_tagged(pack):
    for pdf in sorted(pack.rglob("*.pdf")):
        subprocess.run(["qpdf", "--check", str(pdf)], check=True, capture_output=True)
        with pikepdf.open(pdf) as document:
            assert bool(document.Root.MarkInfo.Marked) and "/StructTreeRoot" in document.Root
            assert str(document.Root.Lang) in ("en", "de")
            with document.open_outline() as outline:
                assert outline.root, pdf.name
            metadata = document.open_metadata()
            assert metadata.get("pdfuaid:part") == "1"
            assert ("pdfaid:part" in metadata) == ("german" in str(pack)), "archival where there is a date"


def test_contents_lead_to_the_page_that_they_name(pack):
    with pikepdf.open(pack / "pack.pdf") as document:
        numbers = {sheet.obj.objgen: index for index, sheet in enumerate(document.pages, 1)}
        links = [note for sheet in document.pages for note in sheet.get("/Annots", [])]
        targets = [numbers[link.Dest[0].objgen] for link in links]
        words = [str(link.Contents) for link in links]
    text = text_of(pack / "pack.pdf")
    assert len(links) >= len(list((pack / "parts").glob("*.pdf")))
    listed = squeezed("".join(text[1:4]))
    for target, title in zip(targets, words):
        assert f"{squeezed(title)}" in listed and str(target) in listed
    # Each table begins with its title on the page that the contents name.
    for target, title in list(zip(targets, words))[: len(list((pack / "tables").glob("*.csv")))]:
        if "heet" not in title and "latt" not in title:
            found = squeezed(text[target - 1])
            assert squeezed(title) in found or not re.search(r"[a-z]", found), title


def test_fonts_are_embedded_subsets(pack):
    for pdf in pack.rglob("*.pdf"):
        done = subprocess.run(["pdffonts", str(pdf)], capture_output=True, text=True, check=True)
        fonts = [line.split() for line in done.stdout.splitlines()[2:]]
        assert 1 <= len(fonts) <= 2
        for font in fonts:
            assert re.fullmatch(r"[A-Z]{6}\+LiberationSans(-Bold)?", font[0]), font
            assert font[-5:-2] == ["yes", "yes", "yes"], font


def test_machine_checkable_conditions_of_pdf_ua(pack):
    files = [pack / "pack.pdf", *sorted((pack / "parts").glob("*.pdf"))]
    program = pathlib.Path(sys.executable).with_name("outloud")
    done = subprocess.run([program, "--layer", "conformance", *files], capture_output=True, text=True)
    assert done.returncode == 0, done.stdout[-3000:]


def test_every_rule_of_pdf_ua_and_of_pdf_a(pack):
    """The claims of the metadata: PDF/UA-1 always, PDF/A-2a where there is a date."""
    profiles = [page.ValidationProfile.PDF_UA_1]
    if "german" in str(pack):
        profiles.append(page.ValidationProfile.PDF_A_2A)
    for pdf in sorted(pack.rglob("*.pdf")):
        for profile in profiles:
            report = page.validate_pdf(pdf, profile=profile)
            assert report.is_compliant, (pdf.name, profile, [(fault.rule_id, fault.message) for fault in report.failures][:5])


def test_the_validator_sees_what_is_not_so(pack):
    """A pack without a date claims no PDF/A, and is not taken for one."""
    if "english" not in str(pack):
        pytest.skip("one pack tells")
    report = page.validate_pdf(pack / "pack.pdf", profile=page.ValidationProfile.PDF_A_2A)
    assert any("ID-SCHEMA" in fault.rule_id for fault in report.failures)


def test_codes_of_printed_labels_read_back(pack, tmp_path):
    labels = pack / "labels" / "devices.pdf"
    if not labels.exists():
        pytest.skip("no labels for this audience")
    names = sorted(row[1].removeprefix("'") for row in rows(next((pack / "tables").glob("*-devices.csv"))))
    pages = len(pikepdf.open(labels).pages)
    found: list[set[str]] = [set() for _ in range(pages)]
    # At one resolution zbar overlooks some of two dozen codes side by side.
    for resolution in ("200", "300", "400"):
        for number in range(1, pages + 1):
            picture = tmp_path / f"{number}-{resolution}"
            sheet = ["-f", str(number), "-l", str(number)]
            command = ["pdftoppm", "-singlefile", "-png", "-r", resolution, *sheet, str(labels), str(picture)]
            subprocess.run(command, check=True)
            command = ["zbarimg", "--quiet", "--xml", "-Sdisable", "-Sqrcode.enable", f"{picture}.png"]
            done = subprocess.run(command, capture_output=True, text=True, check=True)
            read = ElementTree.fromstring(done.stdout)
            found[number - 1] |= {data.text for data in read.iter() if data.tag.endswith("}data")}
        codes = sorted(code.split("\n")[0] for of_page in found for code in of_page)
        if codes == names:
            break
    assert codes == names


def test_same_input_same_bytes(tmp_path):
    subprocess.run([PROGRAM, "new", "--demo", "demo"], cwd=tmp_path, check=True, capture_output=True)
    hashes = []
    for output in ("one", "two"):
        subprocess.run([PROGRAM, "pack", "demo/site.toml", "-o", output], cwd=tmp_path, check=True, capture_output=True)
        files = sorted((tmp_path / output).rglob("*.pdf"))
        hashes.append([(file.name, hashlib.sha256(file.read_bytes()).hexdigest()) for file in files])
    assert hashes[0] == hashes[1] and len(hashes[0]) > 20


def test_names_in_any_script_are_said_and_stay_in_the_text(tmp_path):
    """What has no glyph is shown as a box and named by its code on the cover; copied text still holds it."""
    hostile_site(tmp_path / "site.toml")
    done = subprocess.run([PROGRAM, "pack", "site.toml", "-o", "pack"], cwd=tmp_path, capture_output=True, text=True)
    assert done.returncode in (0, 1), done.stderr
    text = text_of(tmp_path / "pack" / "pack.pdf")
    assert "U+4E09" in text[0]
    assert "三〇二号室" in squeezed("".join(text))
