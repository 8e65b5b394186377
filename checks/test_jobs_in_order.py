"""Every job done by the command that is printed for it, in the order printed, on one file.

Each command works; a job that is said to be done by others has no command; in the end nothing is left of what the jobs claim to clear, and
the finding of each headline is among what its job clears. LATCHLINE names the binary.
"""

import json
import os
import pathlib
import shlex
import subprocess

import pytest

HERE = pathlib.Path(__file__).parent
SITES = [*sorted((HERE / "by_hand").glob("*.toml")), HERE.parent / "crates" / "latchline" / "src" / "demo" / "faulty.toml"]


def run(folder, *args):
    return subprocess.run(
        [os.environ["LATCHLINE"], *args], cwd=folder, capture_output=True, text=True, encoding="utf-8", timeout=300, check=False
    )


def check(folder):
    done = run(folder, "check", "site.toml", "--format", "json")
    return json.loads(done.stdout) if done.stdout else {}


def names(findings):
    return {(one["code"], one.get("element")) for one in findings}


def standing(document):
    return names(one for one in document["findings"] if one["severity"] != "advice" and "accepted" not in one)


@pytest.mark.parametrize("site", SITES, ids=lambda path: path.stem)
def test_jobs_hold_in_the_order_printed(site, tmp_path):
    (tmp_path / "site.toml").write_text(site.read_text(encoding="utf-8"), encoding="utf-8")
    jobs = check(tmp_path).get("jobs", [])
    claimed = set()
    for job in jobs:
        if "change" not in job:
            assert "command" not in job, job
            continue
        assert not job.get("done_by"), job
        clears = names(job["clears"])
        worst = job["causes"][0]["findings"][0]
        assert (worst["code"], worst.get("element")) in clears or job.get("change_in_order"), job
        claimed |= clears
        done = run(tmp_path, *shlex.split(job["command"])[1:])
        assert done.returncode in (0, 1) and "written to" in done.stdout, (job["command"], done.stdout, done.stderr)
    if jobs:
        left = claimed & standing(check(tmp_path))
        assert not left, left
