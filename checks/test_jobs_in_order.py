"""Every job done by the command that is printed for it, in the order printed, on one file.

Each command works; a job that is said to be done by others has no command; in the end nothing is left of what the jobs claim to clear, and
the finding of each headline is among what its job clears. LATCHLINE names the binary.
"""

import json
import math
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
    claimed, gone = set(), set()
    for job in jobs:
        if "change" not in job:
            assert "command" not in job, job
            continue
        assert not job.get("done_by"), job
        clears = names(job["clears"])
        worst = job["causes"][0]["findings"][0]
        # Where a job before it has done away with the worst, what is left of it is cleared.
        assert (worst["code"], worst.get("element")) in clears | gone, job
        claimed |= clears
        done = run(tmp_path, *shlex.split(job["command"])[1:])
        assert done.returncode in (0, 1) and "written to" in done.stdout, (job["command"], done.stdout, done.stderr)
        # What the job says that it clears is gone with it; what it lessens it says as well.
        lessened = names(job["change"].get("brings", []))
        left = (clears - lessened) & standing(check(tmp_path))
        assert not left, (job["command"], left)
        gone |= clears
    if jobs:
        left = claimed & standing(check(tmp_path))
        assert not left, left


def changed(folder, job):
    """What the command that is printed for a job makes of the file, and what it said."""
    done = run(folder, *shlex.split(job["command"])[1:])
    assert done.returncode in (0, 1) and "written to" in done.stdout, (job["command"], done.stdout, done.stderr)
    return done.stdout


def words(text):
    return " ".join(text.split())


@pytest.mark.parametrize("site", SITES, ids=lambda path: path.stem)
def test_one_change_has_one_figure_everywhere(site, tmp_path):
    """Minutes and dwellings of a job in `check`, of its change in `fix`, and of the two files in `compare`; rounded up as all of them round."""
    (tmp_path / "site.toml").write_text(site.read_text(encoding="utf-8"), encoding="utf-8")
    for job in check(tmp_path).get("jobs", []):
        if "change" not in job:
            continue
        before = (tmp_path / "site.toml").read_text(encoding="utf-8")
        (tmp_path / "old.toml").write_text(before, encoding="utf-8")
        said = words(changed(tmp_path, job))
        compared = json.loads(run(tmp_path, "compare", "old.toml", "site.toml", "--format", "json").stdout)
        cost = job["change"].get("cost")
        if cost is not None:
            assert abs(compared["material"] - cost) < 0.005, (job["command"], compared["material"], cost)
        minutes = job["change"].get("labour_minutes")
        if minutes is not None:
            assert abs(compared["labour_minutes"] - minutes) < 1e-6, (job["message"], compared["labour_minutes"], minutes)
            if minutes >= 0.5:
                assert f"; {math.ceil(minutes)} min of work" in said, said
        if "enters" in job:
            assert sorted(job["enters"]) == sorted(compared["enters"]), job["message"]
            count = len(job["enters"])
            wanted = {0: "no dwelling to enter", 1: "1 dwelling to enter"}.get(count, f"{count} dwellings to enter")
            assert wanted in said, said


def test_the_faulty_demo_is_clean_once_its_jobs_are_done(tmp_path):
    """All jobs in the order printed leave a site that holds, or findings of which the page said that no change mends them, or that one brings them.
    No supply is bought twice."""
    (tmp_path / "site.toml").write_text(SITES[-1].read_text(encoding="utf-8"), encoding="utf-8")
    document = check(tmp_path)
    bought, unmended, told = [], set(), set()
    for job in document["jobs"]:
        if "change" in job:
            paths = [change["path"] for change in job["change"]["changes"]]
            bought += [path[1] for path in paths if path[0] == "supplies" and path[2:] == ["model"]]
            told |= {(one["code"], one.get("element")) for one in job["change"].get("brings", [])}
            changed(tmp_path, job)
        elif not job.get("done_by"):
            unmended |= {(one["code"], one.get("element")) for cause in job["causes"] for one in cause["findings"]}
    assert len(bought) == len(set(bought)), bought
    after = check(tmp_path)
    assert standing(after) <= unmended | told, standing(after) - unmended - told
    assert ("battery-missing", "A-PS") not in standing(after)
    assert "battery-hours-short" not in {code for code, _ in standing(after)}
