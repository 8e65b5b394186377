"""Lettering and lines of every page of five packs, measured by PDFium (PyPI `pypdfium2`).

ISO 3098-1 (nominal sizes 1.8 and 2.5 mm, heights of capitals) and ISO 128-2 (line widths 0.25, 0.35, 0.5, 0.7 mm), both from
memory.
"""

from __future__ import annotations

import os
import pathlib
import subprocess

import pytest

import printed_pages
from printed_pages import PrintedPage, PrintedText

PROGRAM = os.environ["LATCHLINE"]
HERE = pathlib.Path(__file__).parent
PENS = {0.25, 0.35, 0.5, 0.7}
PACKS = {
    "english": ("demo/site.toml", []),
    "german": ("demo/site.toml", ["--language", "de", "--date", "2026-11-30"]),
    "faulty": ("demo/faulty.toml", []),
    "letter-and-tabloid": ("demo/site.toml", ["--sheet", "letter", "--units", "us"]),
    "by-hand": (str(HERE / "by_hand/villa-two-gates.toml"), []),
}
# What is read on a ladder.
LADDER = ("job-cards", "lock-wiring", "-cards")


@pytest.fixture(scope="module", params=PACKS)
def read(request, tmp_path_factory) -> dict[str, list[PrintedPage]]:
    """The pages of each part of a pack, by its name; labels by theirs."""
    site, options = PACKS[request.param]
    folder = tmp_path_factory.mktemp(request.param)
    subprocess.run([PROGRAM, "new", "--demo", "demo"], cwd=folder, check=True, capture_output=True)
    done = subprocess.run([PROGRAM, "pack", site, "-o", "pack", *options], cwd=folder, capture_output=True, text=True)
    assert done.returncode in (0, 1), done.stderr
    files = [*(folder / "pack/parts").glob("*.pdf"), *(folder / "pack/labels").glob("*.pdf")]
    name = lambda file: f"labels-{file.stem}" if file.parent.name == "labels" else file.stem
    parts = {name(file): printed_pages.pages(file) for file in sorted(files)}
    parts["whole"] = printed_pages.pages(folder / "pack/pack.pdf")
    return parts


def every_page(read):
    return ((part, page) for part, found in read.items() for page in found)


def test_capitals_are_tall_enough(read):
    small = {
        (part, page.number, text.words, round(text.capital_mm, 2))
        for part, page in every_page(read)
        for text in page.texts
        if text.capital_mm < 1.8
    }
    assert not small, sorted(small)[:20]


def test_capitals_are_taller_where_one_stands_on_a_ladder(read):
    """Head, foot and edge of a sheet are read at a table; all that stands in a frame of its own is not."""
    small = set()
    for part, page in every_page(read):
        if not any(name in part for name in LADDER):
            continue
        for text in page.texts:
            frame = printed_pages.innermost(page.frames, text.box)
            is_block = frame is not None and frame[2] - frame[0] < 0.97 * (page.size[0] - 30)
            if is_block and not is_title_block(page, text) and text.capital_mm < 2.5:
                small.add((part, page.number, text.words, round(text.capital_mm, 2)))
    assert not small, sorted(small)[:20]


def test_labels_of_devices_are_found_from_a_ladder(read):
    """The designation of each; what a device is, and its place, may be smaller."""
    for page in read["labels-devices"]:
        large = [text for text in page.texts if text.capital_mm >= 2.5]
        # A label has six to eight lines.
        assert len(large) >= len(page.texts) / 8, page.number


def is_title_block(page: PrintedPage, text: PrintedText) -> bool:
    """In the title block, or between the lines of the frame."""
    left, bottom, right, top = text.box
    return (left > page.size[0] - 10 - 180.5 and top < 40.5) or bottom < 10 or top > page.size[1] - 10 or right > page.size[0] - 10


def test_no_text_lies_over_another(read):
    found = {(part, page.number, *pair) for part, page in every_page(read) for pair in printed_pages.overlaps(page.texts)}
    assert not found, sorted(found)[:20]


def test_no_text_leaves_its_frame(read):
    found = {(part, page.number, words) for part, page in every_page(read) for words in printed_pages.leaving(page)}
    assert not found, sorted(found)[:20]


def test_lines_have_the_four_widths(read):
    found = {(part, page.number, pen) for part, page in every_page(read) for pen in page.pens if min(abs(pen - known) for known in PENS) > 0.002}
    assert not found, sorted(found)[:20]


def test_the_check_itself_sees_faults():
    page = PrintedPage(
        1,
        (100.0, 100.0),
        [
            PrintedText("one", (10, 10, 20, 12), 1.8),
            PrintedText("two", (19, 11, 25, 13), 1.8),
            PrintedText("out", (38, 50, 44, 52), 1.8),
        ],
        {0.25},
        [(30, 40, 42, 60)],
    )
    assert printed_pages.overlaps(page.texts) == [("one", "two")]
    assert printed_pages.leaving(page) == ["out"]
