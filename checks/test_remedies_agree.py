"""`check` and `fix` offer the same remedies, and nothing is at no cost but what buys nothing."""

import json
import os
import pathlib
import re
import subprocess

import pytest

HERE = pathlib.Path(__file__).parent / "by_hand"
# Sites on which something is wrong that a change mends, of each family and of many kinds of fault.
SITES = [
    "villa", "block", "supply-too-small", "battery-too-short", "fifteen-volts-on-a-strike", "motor-lock-on-output", "lock-too-far",
    "fail-secure-on-escape-route", "cupboard-too-hot", "nine-on-a-larkfen-port", "terminator-left-off", "small-house-alarm-cable",
]  # fmt: skip
# Kinds of change that need nothing new: settings, clamps moved, cores that are there already.
BUY_NOTHING = {
    "acceptance-removed", "another-output", "another-port", "changed-order", "contact-as-the-lock-needs", "doubled-pair", "doubled-pairs-all-the-way", "fewer-batteries",
    "fewer-pairs", "hold-time-as-set", "lower-supply-voltage", "number-by-the-tool", "other-number", "ports-exchanged", "secondary-entrance", "shorter-delay",
    "shorter-hold-time", "supply-as-delivered", "terminator-removed", "two-pairs-to-the-lock", "wider-scope", "lock-from-the-door-station",
    "lights-from-the-door-station", "management-station-told", "normally-closed-contact", "branch-looped-in", "loop-measured", "staggered-start", "terminator", "terminator-set",
}  # fmt: skip


def run(*args):
    done = subprocess.run(
        [os.environ["LATCHLINE"], *args], cwd=HERE, capture_output=True, text=True, encoding="utf-8", timeout=300, check=False
    )
    return done.stdout


def check(site):
    return json.loads(run("check", f"{site}.toml", "--format", "json"))


def offered(document):
    """Every finding that is to be mended, in order, with the words of its remedies."""
    wanted = [one for one in document["findings"] if one["severity"] != "advice" and "accepted" not in one]
    return [(one["message"], [remedy["message"] for remedy in one["remedies"]]) for one in wanted]


def listed(text):
    """The same from the list of `fix`: "F1  error: message", then "change 1: remedy" or that there is none, with what can be done by hand."""
    found = []
    none = False
    for line in text.splitlines():
        if match := re.match(r"F\d+\s+(?:error|warning): (.*)", line):
            found.append((match[1], []))
            none = False
        elif match := re.match(r"\s+change \d+: (.*)", line):
            found[-1][1].append(match[1])
            none = False
        elif found and re.match(r"    (job J\d+ of check mends it|first )", line):
            # A note beside the remedies, with what follows of it.
            none = True
        elif line.strip().startswith("no change or pair"):
            none = True
        elif found and line.startswith("   ") and not none:
            message, remedies = found[-1]
            if remedies:
                remedies[-1] += " " + line.strip()
            else:
                found[-1] = (f"{message} {line.strip()}", remedies)
        elif found and not line.startswith("   "):
            break
    return found


@pytest.mark.parametrize("site", SITES)
def test_check_and_fix_offer_the_same(site):
    document = check(site)
    from_check, from_fix = offered(document), listed(run("fix", f"{site}.toml"))
    assert from_check and sorted(from_check) == sorted(from_fix)
    # What a job does is among the remedies of the findings, but where the jobs before it leave another; the same at several doors is made
    # of that of each.
    known = [change for finding in document["findings"] for remedy in finding["remedies"] for change in remedy["changes"]]
    for job in document.get("jobs", []):
        if "change" in job and not job.get("change_in_order"):
            assert all(change in known for change in job["change"]["changes"]), job["message"]


@pytest.mark.parametrize("site", [*SITES, "port-overloaded-at-boot", "two-towers-one-bad"])
def test_what_a_job_mends_is_no_finding_without_a_change(site):
    """A finding that goes with a job of `check` has a change of its own in the list of `fix`, or is told which job mends it."""
    document = check(site)
    blocks = re.split(r"\n(?=F\d+\s)", run("fix", f"{site}.toml"))
    told = {}
    for block in blocks:
        words = " ".join(block.split())
        for finding in document["findings"]:
            if finding["message"] in words.split(" change 1:")[0].split(" job J")[0]:
                told.setdefault((finding["code"], finding.get("element")), []).append(words)
    seen = 0
    for job in document.get("jobs", []):
        if "change" not in job:
            continue
        for cleared in job["clears"]:
            for words in told.get((cleared["code"], cleared.get("element")), []):
                assert "change 1:" in words or "of check mends it" in words, (job["message"], words)
                seen += 1
    assert seen or not any("change" in job for job in document.get("jobs", [])), "no job clears a finding that is told"


def check_or_nothing(site):
    text = run("check", f"{site}.toml", "--format", "json")
    return json.loads(text)["findings"] if text else []


@pytest.mark.parametrize("site", sorted(path.stem for path in HERE.glob("*.toml")))
def test_no_cost_only_where_nothing_is_bought(site):
    for remedy in (one for finding in check_or_nothing(site) for one in finding["remedies"]):
        kind, cost, message = remedy["kind"], remedy.get("cost"), remedy["message"]
        if cost == 0:
            # A part for the price of the one that it replaces is bought all the same.
            assert ("nothing to buy" in message) == (kind in BUY_NOTHING), remedy
            assert kind in BUY_NOTHING or "parts at the price of the old ones" in message, remedy
        if kind in ("more-batteries", "exit-button", "surge-protection", "lock-supply-of-its-own"):
            # In no price list: said so, and no figure.
            assert cost is None and "price not known" in message, remedy
