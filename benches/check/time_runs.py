"""Wall and processor time of a command as a whole process: `time_runs.py BINARY RUNS COMMAND SITE...`, COMMAND in words."""

import resource
import statistics
import subprocess
import sys
import time
from pathlib import Path


def once(binary: str, command: list[str], site: str) -> tuple[float, float, str]:
    """Wall time, processor time and the first line of what was said."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    start = time.perf_counter()
    done = subprocess.run([binary, *command, site], capture_output=True, text=True, check=False)
    wall = time.perf_counter() - start
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    processor = after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime
    return wall, processor, done.stdout.splitlines()[0]


def main() -> None:
    binary, runs, command, sites = sys.argv[1], int(sys.argv[2]), sys.argv[3].split(), sys.argv[4:]
    for site in sites:
        results = [once(binary, command, site) for _ in range(runs)]
        wall = statistics.median(result[0] for result in results)
        processor = statistics.median(result[1] for result in results)
        name = f"{' '.join(command)} {Path(site).name}"
        print(f"{name}: {wall * 1e3:.1f} ms, {processor * 1e3:.1f} ms of processor time ({results[0][2]})")


main()
