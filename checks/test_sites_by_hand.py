"""Sites worked out by hand against the built binary.

Each site in `by_hand` says at its head what the answer must be and why; `by_hand/expected.json` says the same for
this test. LATCHLINE names the binary.
"""

import json
import os
import pathlib
import subprocess

import pytest

HERE = pathlib.Path(__file__).parent / "by_hand"
EXPECTED = json.loads((HERE / "expected.json").read_text(encoding="utf-8"))


def run(file, args=()):
    return subprocess.run(
        [os.environ["LATCHLINE"], "check", file, *args, "--format", "json"],
        cwd=HERE, capture_output=True, text=True, encoding="utf-8", timeout=60, check=False,
    )


def find(document, path):
    """Follows keys, indices and {"where": {...}}, which takes the first entry of a list that has these values."""
    for step in path:
        if isinstance(step, dict):
            wanted = step["where"]
            fitting = [entry for entry in document if all(entry.get(key) == value for key, value in wanted.items())]
            assert fitting, f"nothing in the list has {wanted}"
            document = fitting[0]
        else:
            document = document[step]
    return document


def same(found, value, tolerance):
    if isinstance(value, (int, float)) and not isinstance(value, bool):
        return isinstance(found, (int, float)) and not isinstance(found, bool) and abs(found - value) <= tolerance
    return found == value


def test_every_site_is_expected():
    assert sorted(path.name for path in HERE.glob("*.toml")) == sorted(entry["file"] for entry in EXPECTED)


@pytest.mark.parametrize("entry", EXPECTED, ids=[entry["file"].removesuffix(".toml") for entry in EXPECTED])
def test_site(entry):
    result = run(entry["file"])
    wrong = []
    if result.returncode != entry["exit"]:
        wrong.append(f"exit status {result.returncode}, expected {entry['exit']}")
    document = json.loads(result.stdout)
    codes = {finding["code"] for finding in document["findings"]}
    wrong += [f"{code} is missing; there are {sorted(codes)}" for code in entry["codes"] if code not in codes]
    wrong += [f"{code} is there" for code in entry["not_codes"] if code in codes]
    for figure in entry["figures"]:
        source = document
        if "args" in figure:
            sheet = run(entry["file"], figure["args"])
            source = json.loads(sheet.stdout)
        try:
            found = find(source, figure["what"])
        except (AssertionError, KeyError, IndexError, TypeError) as error:
            wrong.append(f"{figure['what']}: not there ({error}); expected {figure['value']}")
            continue
        if not same(found, figure["value"], figure["tolerance"]):
            wrong.append(f"{figure['what']}: {found}, by hand {figure['value']} ({figure['by']})")
    assert not wrong, "\n".join(wrong)
