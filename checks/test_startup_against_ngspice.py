"""Start-up in time against ngspice: one system that comes up, one stuck, two that cycle.

Source of the expected figures: ngspice's transient analysis of the same circuit (see
startup_spice.py). The sizes are common practice, no source. Times are held to 1 %, voltages at rest
to 0.1 %.
"""

from __future__ import annotations

import os
import pathlib
import subprocess

import numpy as np
import pytest
from startup_spice import Case, Device, ngspice, ours

ROOT = pathlib.Path(__file__).resolve().parent.parent
STEP_S = 5e-5


@pytest.fixture(scope="module")
def program() -> pathlib.Path:
    """The example program, built as the workspace builds it."""
    subprocess.run(
        ["cargo", "build", "--release", "-p", "latchline-circuit", "--example", "startup_case"],
        cwd=ROOT,
        check=True,
    )
    target = pathlib.Path(os.environ.get("CARGO_TARGET_DIR", ROOT / "target"))
    return target / "release" / "examples" / "startup_case"


def stations(count: int, **changes) -> list[Device]:
    base = dict(
        capacitance_f=220e-6, drop_v=1.4, on_v=34.0, off_v=20.0, delay_s=0.05, boot_w=6.0,
        boot_s=0.3, run_w=3.0,
    )
    return [Device(node=1 + k, **(base | changes)) for k in range(count)]


def test_a_chain_that_comes_up(program, tmp_path):
    case = Case(
        voltage_v=48.0, source_ohm=0.1, output_f=22e-6, limit=("constant", 1.2),
        nodes=[(0, 2.0), (1, 1.5), (2, 1.5), (1, 4.0), (4, 2.0)],
        devices=stations(5), end_s=1.2,
    )
    case.devices[2].capacitance_f = 470e-6
    case.devices[4].delay_s = 0.2
    waves = ngspice(case, tmp_path, STEP_S)
    found = ours(program, case.as_text())
    assert found.outcome[0] == "operating-point"
    last_up_s = 0.0
    for i, d in enumerate(case.devices):
        timer = waves.columns[f"v(t{i})"]
        assert timer[-1] > d.delay_s + d.boot_s, "it is up in ngspice too"
        starts = waves.rises(f"v(t{i})", d.delay_s)
        ups = waves.rises(f"v(t{i})", d.delay_s + d.boot_s)
        assert len(starts) == len(ups) == 1
        status, first_start, first_up = found.devices[i][:3]
        assert status == "up"
        assert float(first_start) == pytest.approx(starts[0], rel=0.01)
        assert float(first_up) == pytest.approx(ups[0], rel=0.01)
        last_up_s = max(last_up_s, ups[0])
        assert float(found.devices[i][5]) == pytest.approx(waves.columns[f"v(c{i})"][-1], rel=1e-3)
    assert float(found.outcome[1]) == pytest.approx(last_up_s, rel=0.01)
    for k in range(len(case.nodes) + 1):
        assert found.node_v[k] == pytest.approx(waves.columns[f"v(b{k})"][-1], rel=1e-3)


def test_a_foldback_supply_that_is_stuck(program, tmp_path):
    # 0.3 A + 0.03 A/V against a heater of 0.045 S at the far end: they meet below the threshold.
    case = Case(
        voltage_v=48.0, source_ohm=0.1, output_f=220e-6, limit=("foldback", 1.5, 40.0, 0.3),
        nodes=[(0, 1.0), (1, 1.0), (2, 1.0)], devices=stations(3, on_v=40.0),
        loads=[(3, 0.045)], end_s=2.0,
    )
    waves = ngspice(case, tmp_path, STEP_S)
    found = ours(program, case.as_text())
    # Stuck in ngspice: no timer ever ran, and nothing moves in the last tenth.
    for i in range(3):
        assert waves.columns[f"v(t{i})"].max() < 1e-3
    late = waves.time_s > 0.9 * case.end_s
    assert np.ptp(waves.columns["v(b0)"][late]) < 1e-3
    assert found.outcome[:2] == ["brown-out", "[Supply]"]
    assert all(d[0] == "never" for d in found.devices)
    for k in range(4):
        assert found.node_v[k] == pytest.approx(waves.columns[f"v(b{k})"][-1], rel=1e-3)


def test_a_supply_that_hiccups_because_boot_overloads_it(program, tmp_path):
    case = Case(
        voltage_v=48.0, source_ohm=0.1, output_f=22e-6, limit=("hiccup", 0.8, 0.07, 0.4),
        nodes=[(0, 1.0), (1, 1.0), (2, 1.0), (3, 1.0)],
        devices=stations(4, boot_w=12.0), end_s=5.0,
    )
    waves = ngspice(case, tmp_path, STEP_S)
    found = ours(program, case.as_text())
    trips = waves.rises("v(off)", 0.5)
    assert len(trips) >= 5
    periods = np.diff(trips)
    assert found.outcome[0] == "hiccups"
    assert found.outcome[2] == "Supply"
    assert np.ptp(periods[-3:]) < 0.002 * periods[-1], "ngspice is periodic too"
    assert float(found.outcome[1]) == pytest.approx(periods[-1], rel=0.01)
    assert found.trips_s[0] == pytest.approx(trips[0], rel=0.01)
    assert all(d[0] == "cycles" for d in found.devices)
    for i, d in enumerate(case.devices):
        starts = waves.rises(f"v(t{i})", d.delay_s)
        assert float(found.devices[i][1]) == pytest.approx(starts[0], rel=0.01)


def test_a_converter_that_cycles_on_a_constant_current_supply(program, tmp_path):
    case = Case(
        voltage_v=48.0, source_ohm=0.1, output_f=22e-6, limit=("constant", 0.3),
        nodes=[(0, 2.0)], devices=stations(1, boot_w=20.0, delay_s=0.03), end_s=3.0,
    )
    waves = ngspice(case, tmp_path, STEP_S)
    found = ours(program, case.as_text())
    starts = waves.rises("v(t0)", case.devices[0].delay_s)
    periods = np.diff(starts)
    assert len(periods) >= 5
    assert found.outcome[0] == "hiccups"
    assert found.outcome[2] == "Converter(0)"
    assert float(found.outcome[1]) == pytest.approx(periods[2:].mean(), rel=0.01)
    assert found.devices[0][0] == "cycles"
