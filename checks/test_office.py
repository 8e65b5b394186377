"""The office page in a browser: journeys by mouse, finger and keyboard, accessibility and HTML.

The oracles are Debian's Chromium, axe-core (rules of WCAG 2.2 A and AA) and the HTML validator html-validate.
"""

import json
import os
import pathlib
import re
import subprocess

import pytest
from html_pages import assert_valid

BROWSER = pathlib.Path(__file__).parent / "browser"


@pytest.fixture(scope="module")
def found(tmp_path_factory):
    command = [os.environ["LATCHLINE"], "serve", "--port", "0", "--no-browser"]
    server = subprocess.Popen(command, stdout=subprocess.PIPE, text=True)
    try:
        line = server.stdout.readline()
        address = re.search(r"http://\S+/", line).group()
        asked = json.dumps({"address": address, "pictures": os.environ.get("OFFICE_PICTURES")})
        done = subprocess.run(
            ["node", str(BROWSER / "office.mjs")], input=asked, capture_output=True, text=True, timeout=1500
        )
        assert done.returncode == 0, done.stderr
        yield json.loads(done.stdout)
    finally:
        server.terminate()
        server.wait(timeout=10)


def test_scripts_run_without_mistake_and_ask_nothing_elsewhere(found):
    assert found["errors"] == []


def test_journeys(found):
    assert len(found["journeys"]) > 20
    assert [step for step in found["journeys"] if not step["holds"]] == []


def test_no_violation_of_wcag(found):
    assert found["violations"] == []


def test_html_is_valid(found, tmp_path):
    assert_valid(tmp_path, {name: text for name, text in found["html"].items() if "-desktop-light-" in name})
