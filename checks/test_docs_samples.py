"""The sample pages of the documents are what the pack holds.

A page of a PDF is rendered by PDFium and held against the published picture. `LATCHLINE_UPDATE_DOCS=1` writes them anew.
"""

from __future__ import annotations

import os
import pathlib
import subprocess

import pypdfium2
import pytest
from PIL import Image, ImageChops

PICTURES = pathlib.Path(__file__).parent.parent / "docs" / "pictures"
# Name of the picture, which PDF of the pack, which page, in which language, and dots to an inch: small enough for the repository, large
# enough to be read. The letters of cards are larger.
SAMPLES = [
    ("sample-card", "job-cards", 3, "en", 76),
    ("sample-card-de", "job-cards", 3, "de", 74),
    ("sample-wiring", "wiring", 1, "en", 110),
    ("sample-devices", "devices", 1, "en", 110),
    ("sample-elevation", "elevation", 1, "en", 110),
]
MOST_BYTES = 150_000


@pytest.fixture(scope="module")
def packs(tmp_path_factory) -> pathlib.Path:
    folder = tmp_path_factory.mktemp("samples")
    program = os.environ["LATCHLINE"]
    subprocess.run([program, "new", "--demo", "demo"], cwd=folder, check=True, capture_output=True)
    for language in ("en", "de"):
        command = [program, "pack", "demo/site.toml", "-o", language, "--language", language]
        subprocess.run(command, cwd=folder, check=True, capture_output=True)
    return folder


def rendered(path: pathlib.Path, page: int, dots_per_inch: int) -> Image.Image:
    document = pypdfium2.PdfDocument(path)
    return document[page - 1].render(scale=dots_per_inch / 72).to_pil().convert("RGB")


@pytest.mark.parametrize("name, part, page, language, dots_per_inch", SAMPLES)
def test_samples_are_pages_of_the_pack(packs, name, part, page, language, dots_per_inch):
    (path,) = (packs / language / "parts").glob(f"[0-9][0-9]-{part}.pdf")
    drawn = rendered(path, page, dots_per_inch)
    published = PICTURES / f"{name}.png"
    if os.environ.get("LATCHLINE_UPDATE_DOCS"):
        drawn.quantize(96, dither=Image.Dither.NONE).save(published, optimize=True)
    assert published.stat().st_size < MOST_BYTES
    shown = Image.open(published).convert("RGB")
    assert shown.size == drawn.size
    # 96 colours stand for all; a letter that is moved or missing differs by far more.
    difference = ImageChops.difference(shown, drawn).convert("L").point(lambda grey: 255 * (grey > 96))
    changed = difference.histogram()[255]
    assert changed < 40, f"docs/pictures/{name}.png is old: set LATCHLINE_UPDATE_DOCS and run again ({changed} dots)"


def test_every_sample_is_shown_in_a_document():
    docs = "".join(path.read_text(encoding="utf-8") for path in PICTURES.parent.glob("*.md"))
    assert all(f"pictures/{name}.png" in docs for name, *_ in SAMPLES)
