"""Nothing of a German pack is English but the user's own words, those of the catalogue, and designations.

The oracle is the frequency of words: hardly an English sentence does without one of the commonest function
words of English (the first hundred of the Brown corpus, Kucera and Francis 1967, from memory; those that are
German words too are left out).
"""

from __future__ import annotations

import csv
import os
import pathlib
import re
import subprocess

import pytest
from drawing_sites import random_site

FUNCTION_WORDS = set(
    "the of and that is for it as with on be at by this had are but from have they which or one you were all her she"
    " there would their we been has when who no if out its than into more any only other new some could time these two"
    " may then do first".split()
) - {"am", "as", "her", "all", "do", "no", "or", "on", "out", "new", "time", "one", "some", "if", "may"}
# Titles of publications are said as they are printed.
PUBLICATIONS = {"Approved Document M volume 1 (England), M4(2) and M4(3)"}
SVG_TEXT = re.compile(r"<(?:text|title|desc|metadata)\b[^>]*>([^<]*)<")


def own_words(site: str) -> set[str]:
    """Words of the site file and of the texts of every part in the built-in catalogues."""
    builtin = pathlib.Path(__file__).parent.parent / "crates" / "site" / "src" / "builtin"
    texts = [site, *(path.read_text(encoding="utf-8") for path in sorted(builtin.glob("*.toml")))]
    return {text for whole in texts for text in re.findall(r'"([^"]+)"', whole)}


def english_left(text: str, own: set[str]) -> list[str]:
    # A line of a title that is set in several lines: a card's column is narrower than many a model.
    if " " in text and any(f" {text} " in f" {known} " for known in own):
        return []
    for known in sorted(own, key=len, reverse=True):
        if " " in known:
            text = text.replace(known, "")
    return [word for word in re.findall(r"(?<!\w)[A-Za-zÄÖÜäöüß]+(?!\w)", text) if word in FUNCTION_WORDS]


def said(folder: pathlib.Path):
    """Every text of a pack with the name of its file."""
    for path in sorted(folder.rglob("*")):
        if path.suffix == ".csv":
            with open(path, encoding="utf-8-sig", newline="") as file:
                yield from ((path.name, cell) for row in csv.reader(file, delimiter=";") for cell in row)
        elif path.suffix == ".svg":
            yield from ((path.name, text) for text in SVG_TEXT.findall(path.read_text(encoding="utf-8")))
        elif path.suffix == ".txt":
            yield from ((path.name, line) for line in path.read_text(encoding="utf-8").splitlines()[1:])


@pytest.mark.parametrize("which", ["site.toml", "faulty.toml", "random"])
def test_no_english_is_left(tmp_path, which):
    def run(*arguments):
        return subprocess.run(
            [os.environ["LATCHLINE"], *arguments], cwd=tmp_path, capture_output=True, text=True, timeout=300
        )

    run("new", "--demo", "demo")
    path = tmp_path / "demo" / which
    if which == "random":
        path.write_text(random_site(11, 60), encoding="utf-8")
    done = run("pack", str(path), "-o", "pack", "--language", "de")
    assert done.returncode in (0, 1), done.stderr
    own = own_words(path.read_text(encoding="utf-8")) | PUBLICATIONS
    texts = list(said(tmp_path / "pack"))
    assert len(texts) > 2000
    left = [(name, text, words) for name, text in texts if (words := english_left(text, own))]
    assert left == []


def test_the_check_itself_sees_english():
    assert english_left("Wait for the boot", set()) == ["for", "the"]
    assert english_left("Strang A-1 anschließen; Strom an A-D1:1", set()) == []
    assert english_left("Gate drive with dry-contact input", {"Gate drive with dry-contact input"}) == []
    assert english_left("with dry-contact", {"Gate drive with dry-contact input"}) == []
    assert english_left("with", {"Gate drive with dry-contact input"}) == ["with"]
