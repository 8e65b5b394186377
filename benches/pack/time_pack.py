"""Times `latchline pack`, the check of the site included, as a whole process: wall clock and processor time.

LATCHLINE names the binary. Sites that hold are what `latchline design` makes of blocks with risers and corridors; those that
fail are the random sites of the drawing checks, with one supply for up to 125 stations.
"""

from __future__ import annotations

import os
import resource
import subprocess
import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path[:0] = [str(ROOT / "checks"), str(ROOT / "benches" / "design")]

from compare import wide_survey  # noqa: E402
from drawing_sites import random_site  # noqa: E402
from survey_files import design  # noqa: E402

DESIGNED = [(4, 5, 10), (5, 10, 10), (5, 10, 20)]
FAILING = [200, 1000]
ROUNDS = 3


def designed(work: Path, blocks: int, floors: int, flats: int) -> Path:
    survey = wide_survey(work, blocks, floors, flats)
    design(survey, survey / "site.toml")
    return survey / "site.toml"


def timed(site: Path, output: Path, *options: str) -> tuple[float, float, int]:
    """Least wall clock and processor time in seconds, and how many files were written."""
    wall, processor = [], []
    for _ in range(ROUNDS):
        before, started = resource.getrusage(resource.RUSAGE_CHILDREN), time.perf_counter()
        command = [os.environ["LATCHLINE"], "pack", str(site), "-o", str(output), *options]
        done = subprocess.run(command, capture_output=True, text=True)
        assert done.returncode in (0, 1), done.stderr
        wall.append(time.perf_counter() - started)
        after = resource.getrusage(resource.RUSAGE_CHILDREN)
        processor.append(after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime)
    return min(wall), min(processor), sum(1 for path in output.rglob("*") if path.is_file())


def main() -> None:
    with tempfile.TemporaryDirectory() as folder:
        work = Path(folder)
        print("site                          wall s  processor s  of it the check  files", flush=True)
        sites = [(f"designed, {b * f * n} dwellings", lambda b=b, f=f, n=n: designed(work, b, f, n)) for b, f, n in DESIGNED]
        for stations in FAILING:
            def failing(stations=stations) -> Path:
                path = work / f"failing-{stations}.toml"
                path.write_text(random_site(3, stations), encoding="utf-8")
                return path
            sites.append((f"failing, {stations} stations", failing))
        for name, make in sites:
            site = make()
            wall, processor, files = timed(site, work / "pack")
            # A part that costs nothing by itself leaves what reading and checking take.
            _, check, _ = timed(site, work / "little", "--only", "handover")
            print(f"{name:29} {wall:6.2f} {processor:12.2f} {check:16.2f} {files:6}", flush=True)


if __name__ == "__main__":
    main()
