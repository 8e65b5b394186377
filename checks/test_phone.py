"""The page for the site in a browser at phone size, network off: a day's work on two phones, and what comes back.

The oracles are Debian's Chromium, axe-core (rules of WCAG 2.2 A and AA), the HTML validator html-validate, and the program's own
`addresses --found`, which is another implementation of the comparison with the system's list than the page's.
"""

import json
import os
import pathlib
import re
import subprocess

import pytest
from html_pages import assert_valid

BROWSER = pathlib.Path(__file__).parent / "browser"
PROGRAM = os.environ["LATCHLINE"]


def latchline(*arguments, status=0):
    done = subprocess.run([PROGRAM, *map(str, arguments)], capture_output=True, text=True, timeout=300)
    assert done.returncode == status, (done.returncode, done.stdout[-2000:], done.stderr[-2000:])
    return done


@pytest.fixture(scope="module")
def day(tmp_path_factory):
    folder = tmp_path_factory.mktemp("day")
    latchline("new", "--demo", folder / "demo")
    site = folder / "demo" / "site.toml"
    latchline("phone", site, "-o", folder / "house.html")
    latchline("phone", site, "-o", folder / "haus.html", "--language", "de")
    page = (folder / "house.html").read_text(encoding="utf-8")
    plan = json.loads(page.split('id="plan">')[1].split("</script>")[0])
    # All of run A-R2 is silent, one station answers with exchanged rotary switches, one answers twice.
    silent = {plan["devices"][index]["id"] for run in plan["runs"] if run["id"] == "A-R2" for index in run["stops"]}
    stations = [one for one in plan["devices"] if one["numbers"]]
    lines = []
    for one in stations:
        numbers = list(one["numbers"])
        if one["id"] in silent:
            continue
        if one["id"] == "B-25":
            numbers[1] = numbers[1] // 10 + numbers[1] % 10 * 10
        lines.append(f"{one['class']} {'/'.join(map(str, numbers))}")
    lines.append(lines[-1])
    (folder / "found.txt").write_text("\n".join(lines), encoding="utf-8")
    bad = {"format": "latchline-readings", "version": 1, "site": plan["site"], "events": [{"id": "1"}]}
    text = json.dumps(bad)
    for name, content in {
        "half": text[:60], "kind": '{"readings": []}', "site": json.dumps(bad | {"site": "Mill Lane"}), "entry": text,
    }.items():
        (folder / f"bad-{name}.json").write_text(content, encoding="utf-8")
    server = subprocess.Popen(
        [PROGRAM, "serve", "--port", "0", "--no-browser"], stdout=subprocess.PIPE, text=True
    )
    try:
        home = re.search(r"http://\S+/", server.stdout.readline()).group()
        # The demo is served under a name of its own; its page is at that site's address.
        first = subprocess.run(["curl", "-s", "-L", "-o", "/dev/null", "-w", "%{url_effective}", home], capture_output=True, text=True, timeout=60).stdout
        asked = {
            "file": str(folder / "house.html"), "german": str(folder / "haus.html"), "address": f"{first.rstrip('/')}/phone",
            "list": {"text": "\n".join(lines)}, "folder": str(folder), "program": PROGRAM, "site": str(site),
            "pictures": os.environ.get("PHONE_PICTURES"),
        }
        done = subprocess.run(
            ["node", str(BROWSER / "phone.mjs")], input=json.dumps(asked), capture_output=True, text=True, timeout=1500
        )
        assert done.returncode == 0, done.stderr[-4000:]
        yield {"folder": folder, "site": site, "plan": plan, "found": json.loads(done.stdout), "silent": silent, "served": first}
    finally:
        server.terminate()
        server.wait(timeout=10)


def test_scripts_run_without_mistake_and_ask_for_nothing(day):
    assert day["found"]["errors"] == []


def test_the_day(day):
    assert len(day["found"]["steps"]) > 20
    assert [step for step in day["found"]["steps"] if not step["holds"]] == []


def test_no_violation_of_wcag(day):
    assert day["found"]["violations"] == []


def test_targets_are_large(day):
    """48 CSS pixels: common practice for touch; WCAG 2.2 asks for 24 (AA) and 44 (AAA)."""
    assert day["found"]["small"] == []


def test_the_list_agrees_with_the_command(day):
    done = latchline("addresses", day["site"], "--found", day["folder"] / "found.txt", "--format", "json", status=1)
    wanted = json.loads(done.stdout)
    said = day["found"]["list"]
    assert f"{len(wanted['present'])} of {len(wanted['present']) + len(wanted['missing'])} answered" in said
    assert set(wanted["missing"]) == day["silent"] | {"B-25"}
    assert "All of run A-R2" in said and "Probably B-25:" in said and "exchanged" in said
    [unexpected] = wanted["unexpected"]
    assert unexpected["explanations"][0]["station"] == "B-25"
    [duplicate] = wanted["duplicated"]
    assert f"answered {duplicate['times']} times" in said


def test_what_comes_back(day):
    """Sixty readings were acknowledged on two phones; each is there, the conflict shows both, and locate takes the rest."""
    folder, found = day["folder"], day["found"]
    assert found["acknowledged"] == {"kim": 30, "robin": 30}
    done = latchline(
        "readings", day["site"], *found["files"], found["files"][0], "-o", folder / "back.toml", "--merged", folder / "all.json",
        "--format", "json", status=1,
    )
    answer = json.loads(done.stdout)
    by = lambda name: {one["step"] for one in answer["readings"] if one["entry"]["by"] == name}
    events = json.loads((folder / "all.json").read_text(encoding="utf-8"))["events"]
    readings = [one for one in events if one["kind"] == "reading"]
    # Thirty and thirty, the slip and the low one of Kim; the server's demo and the file's are the same plan only if their texts are.
    assert len(readings) == 62
    assert len({one["id"] for one in events}) == len(events)
    for device in {one["device"] for one in events}:
        numbers = sorted(one["sequence"] for one in events if one["device"] == device)
        assert numbers == list(range(1, len(numbers) + 1))
    assert [one["entry"]["place"] for one in answer["readings"] if one["judged"] == "low"]
    [conflict] = answer["conflicts"]
    assert {entry["by"] for entry in conflict["entries"]} == {"Kim", "Robin"}
    assert len(by("Kim")) >= 22 and len(by("Robin")) >= 20
    assert len(answer["snags"]) == len(answer["not_entered"]) == len(answer["exchanges"]) == 1
    latchline("locate", day["site"], folder / "back.toml", "--format", "short")


def test_html_is_valid(day, tmp_path):
    pages = {name: (day["folder"] / f"{name}.html").read_text(encoding="utf-8") for name in ["house", "haus"]}
    assert_valid(tmp_path, pages, **{"require-sri": "off"})
