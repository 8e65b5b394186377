"""SARIF output against the OASIS schema.

Source: SARIF 2.1.0 (OASIS standard), sarif-schema-2.1.0.json, as the pydantic models that the package
pydantic-sarif generates from it. The models refuse unknown keys, wrong types and values outside the
schema's enumerations.
"""

import functools
import json
import os
import subprocess

import pydantic
import pytest
from pydantic_sarif import model

LATCHLINE = os.environ["LATCHLINE"]

LOG = next(
    item
    for name, item in vars(model).items()
    if isinstance(item, type)
    and issubclass(item, pydantic.BaseModel)
    and {"version", "runs"} <= set(getattr(item, "model_fields", {}))
)


@functools.cache
def sarif(folder, name):
    run = subprocess.run(
        [LATCHLINE, "check", name, "--format", "sarif"], cwd=folder, capture_output=True, check=False
    )
    assert run.returncode in (0, 1, 2), run.stderr.decode()
    return run.returncode, run.stdout


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    folder = tmp_path_factory.mktemp("sarif")
    subprocess.run([LATCHLINE, "new", "--demo", "."], cwd=folder, check=True, capture_output=True)
    (folder / "unusable.toml").write_text("[site]\nfamily = 3\nümlaut = \n")
    return folder


@pytest.mark.parametrize(("name", "status"), [("site.toml", 0), ("faulty.toml", 1), ("unusable.toml", 2)])
def test_logs_follow_the_schema(folder, name, status):
    code, text = sarif(folder, name)
    assert code == status
    LOG.model_validate_json(text)
    results = json.loads(text)["runs"][0]["results"]
    assert bool(results) or status == 0
    for result in results:
        for location in result.get("locations", []):
            physical = location.get("physicalLocation")
            if physical:
                assert not physical["artifactLocation"]["uri"].startswith(("/", "file:"))
                region = physical["region"]
                assert region["startLine"] >= 1 and region["startColumn"] >= 1


def test_the_models_tell_a_wrong_log(folder):
    log = json.loads(sarif(folder, "faulty.toml")[1])
    log["runs"][0]["results"][0]["levle"] = "error"
    with pytest.raises(pydantic.ValidationError):
        LOG.model_validate(log)
    log = json.loads(sarif(folder, "faulty.toml")[1])
    log["runs"][0]["results"][0]["level"] = "advice"
    with pytest.raises(pydantic.ValidationError):
        LOG.model_validate(log)


def test_fingerprints_stay_when_lines_move(folder):
    moved = folder / "moved.toml"
    moved.write_text("# one\n# two\n" + (folder / "faulty.toml").read_text())
    fingerprints = [
        [result["partialFingerprints"] for result in json.loads(sarif(folder, name)[1])["runs"][0]["results"]]
        for name in ("faulty.toml", "moved.toml")
    ]
    assert fingerprints[0] == fingerprints[1]
    assert len({json.dumps(one, sort_keys=True) for one in fingerprints[0]}) == len(fingerprints[0])
