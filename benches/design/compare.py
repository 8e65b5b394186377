"""Times `latchline design` from 10 to 2,000 dwellings, and HiGHS on the same costs and limits where it can do it.

LATCHLINE names the binary. The blocks are those of the checks: a riser, a corridor to both sides of every landing. Blocks of
more than 99 flats need a wider address field than the built-in family has, so the catalogue is copied with three switches for
the flat.
"""

from __future__ import annotations

import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT / "checks"))

from survey_files import corridor_blocks, design, run, write  # noqa: E402
from test_design_highs import Block  # noqa: E402

SIZES = [(1, 2, 5), (1, 5, 10), (2, 5, 10), (4, 5, 10), (5, 10, 10), (5, 10, 20), (10, 10, 20)]
# Between the blocks; the checks have 35 m.
BETWEEN_M = 10
HIGHS = [(2, 4, 2), (4, 4, 3), (4, 6, 4), (5, 8, 3), (6, 9, 6)]


def wide_catalogue() -> str:
    text = (ROOT / "crates/site/src/builtin/ostrel-48.toml").read_text()
    field = '{ field = "dwelling", first = 1, last = 99, set_by = "rotary", switches = 2, label = "FLAT tens units" }'
    wide = '{ field = "dwelling", first = 1, last = 999, set_by = "rotary", switches = 3, label = "FLAT hundreds tens units" }'
    assert field in text
    text = text.replace(field, wide).replace("ostrel", "wide")
    # The feed chokes of more than about eight supplies on one bus short its signal, and their links use up its budget: parts for
    # so large a site have larger ones.
    text = text.replace('feed_choke = "4.7 mH"', 'feed_choke = "100 mH"')
    return text.replace('budget = "30 dB"', 'budget = "90 dB"').replace('budget = "50 dB"', 'budget = "120 dB"').replace(', ripple = "6 dB"', "")


def wide_survey(work: Path, blocks: int, floors: int, flats: int) -> Path:
    """The survey of such blocks, with that catalogue beside it."""
    sheets = corridor_blocks(blocks, floors, flats)
    settings = {row[0]: row for row in sheets["site"]}
    settings["Family"][1] = "wide-48"
    sheets["site"].append(["Catalogues", "wide.toml"])
    sheets["routes"] = [row if row[3] != "buried" else [*row[:2], BETWEEN_M, row[3]] for row in sheets["routes"]]
    survey = write(work / f"{blocks}-{floors}-{flats}", sheets)
    (survey / "wide.toml").write_text(wide_catalogue())
    return survey


def main() -> None:
    with tempfile.TemporaryDirectory() as folder:
        work = Path(folder)
        print("dwellings  seconds       cost      bound   gap %  plans assessed")
        for blocks, floors, flats in SIZES:
            survey = wide_survey(work, blocks, floors, flats)
            site = survey / "site.toml"
            seconds = []
            for _ in range(3):
                started = time.perf_counter()
                result = design(survey, site)
                seconds.append(time.perf_counter() - started)
            assert run("check", site).returncode == 0
            print(
                f"{blocks * floors * flats:9} {min(seconds):8.2f} {result['cost']:10.2f} {result['lower_bound']:10.2f}"
                f" {100 * result['gap']:7.3f} {result['plans_assessed']:15}",
                flush=True,
            )
        print("\ndwellings   latchline s   HiGHS s   cost over HiGHS's optimum %")
        for floors, flats, group in HIGHS:
            block = Block(floors, flats, group)
            survey = write(work / f"block-{floors}-{flats}", block.sheets())
            started = time.perf_counter()
            result = design(survey, survey / "site.toml")
            own = time.perf_counter() - started
            optimum, seconds = block.optimum()
            over = 100 * (result["cost"] / optimum - 1)
            print(f"{floors * flats:9} {own:13.2f} {seconds:9.2f} {over:10.3f}", flush=True)


if __name__ == "__main__":
    main()
