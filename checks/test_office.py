"""The office page in a browser: journeys by mouse, finger and keyboard, accessibility, HTML and the types of its scripts.

The oracles are Debian's Chromium, axe-core (rules of WCAG 2.2 A and AA), the HTML validator html-validate, and the TypeScript compiler.
"""

import json
import os
import pathlib
import re
import subprocess

import pytest

BROWSER = pathlib.Path(__file__).parent / "browser"
TOOLS = BROWSER / "node_modules" / ".bin"


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
    rules = {"extends": ["html-validate:standard"], "rules": {"void-style": "off", "no-trailing-whitespace": "off", "long-title": "off"}}
    (tmp_path / ".htmlvalidate.json").write_text(json.dumps(rules), encoding="utf-8")
    for name, text in found["html"].items():
        if "-desktop-light-" in name:
            (tmp_path / f"{name}.html").write_text(text, encoding="utf-8")
    command = [str(TOOLS / "html-validate"), "--config", str(tmp_path / ".htmlvalidate.json"), str(tmp_path / "*.html")]
    done = subprocess.run(command, capture_output=True, text=True, timeout=300)
    assert done.returncode == 0, done.stdout[:4000]


def test_types_of_scripts():
    command = [str(TOOLS / "tsc"), "-p", str(BROWSER / "tsconfig.json")]
    done = subprocess.run(command, capture_output=True, text=True, timeout=120)
    assert done.returncode == 0, done.stdout
