"""Designs the sites on which an edit is timed, into the folder named.

LATCHLINE names the binary. The blocks are those of the design bench: 200 dwellings over four of them; 1,000 over five whose supplies share
one signal network, which is the worst case; and 1,000 in five blocks that share nothing, one block being designed and written five times
under other names.
"""

from __future__ import annotations

import re
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path[:0] = [str(ROOT / "checks"), str(ROOT / "benches" / "design")]

from compare import wide_survey  # noqa: E402
from survey_files import design  # noqa: E402


def designed(work: Path, blocks: int, floors: int, flats: int) -> Path:
    survey = wide_survey(work, blocks, floors, flats)
    design(survey, survey / "site.toml")
    return survey / "site.toml"


def five_times(one: Path, folder: Path) -> None:
    """The site of a block A as blocks A to E, each with everything of its own."""
    head, *sections = re.split(r"^(?=\[)", one.read_text(), flags=re.MULTILINE)
    text = head
    for section in sections:
        header, body = section.split("\n", 1)
        if header in ("[site]", "[conditions]", "[policy]"):
            text += section
            continue
        for number, block in enumerate("ABCDE"):
            copy = re.sub(r"\bA\b(?=[-/ \"])|(?<=front-)A\b", block, body)
            copied = re.sub(r"(?<=front-)A\b", block, header)
            text += copy if number and copied == header else f"{copied}\n{copy}"
    folder.mkdir(exist_ok=True)
    (folder / "site.toml").write_text(text)
    (folder / "wide.toml").write_text((one.parent / "wide.toml").read_text())


work = Path(sys.argv[1])
designed(work, 4, 5, 10)
designed(work, 5, 10, 20)
five_times(designed(work, 1, 10, 20), work / "five-apart")
