"""Start-up of 500 stations: our simulation against ngspice in the same run.

Usage: compare.py PROGRAM, with the built example `startup_case`. Prints processor times, deviations and
their ratio. How equal accuracy is established: the reference is our own run at a 500 times finer
tolerance *and* ngspice at a four times finer step, which must agree with each other to 0.5 % in
the start times and final capacitor voltages of the stations looked at; then each program is timed at a setting with which it
is within 1 % of both. ngspice gets that longest step, of those tried, with which it is fastest.
"""

from __future__ import annotations

import pathlib
import random
import resource
import subprocess
import sys
import tempfile

import numpy as np

ROOT = pathlib.Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT / "checks"))

from startup_spice import Case, Device, Waves, ours  # noqa: E402

LOOKED_AT = list(range(0, 500, 25)) + [499]
STEPS_S = [5e-2, 1e-2, 4e-3, 2e-3]
REPEATS = 11


def case() -> Case:
    """50 chains of 10 stations, started in ten groups, parts spread by 5 %."""
    draw = random.Random(500)
    spread = lambda x: x * (1 + draw.uniform(-0.05, 0.05))  # noqa: E731
    nodes, devices = [], []
    for k in range(1, 501):
        nodes.append((0 if k % 10 == 1 else k - 1, spread(0.4)))
        devices.append(
            Device(
                node=k, capacitance_f=spread(draw.choice([47e-6, 100e-6, 220e-6])), drop_v=1.4,
                on_v=30.0, off_v=20.0, delay_s=spread(0.1 + 0.2 * (k % 10)), boot_w=1.5,
                boot_s=spread(0.5), run_w=0.8,
            )
        )
    return Case(
        voltage_v=48.0, source_ohm=0.1, output_f=100e-6, limit=("constant", 20.0),
        nodes=nodes, devices=devices, end_s=3.0,
    )


def cpu_s(command: list[str], text: str | None = None) -> float:
    """Processor time of a whole process, s: the machine is shared, wall time is not comparable."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    subprocess.run(command, input=text, capture_output=True, text=True, check=False)
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def spice(system: Case, step_s: float) -> tuple[float, np.ndarray]:
    """Processor time in s; start times and final capacitor voltages of the stations looked at."""
    vectors = [f"v({what}{i})" for i in LOOKED_AT for what in "tc"]
    with tempfile.TemporaryDirectory() as folder:
        output = pathlib.Path(folder) / "waves.txt"
        netlist = pathlib.Path(folder) / "case.cir"
        netlist.write_text(system.as_netlist(str(output), step_s, vectors))
        took_s = cpu_s(["ngspice", "-b", str(netlist)])
        nothing = np.full((2, len(LOOKED_AT)), np.nan)
        if not output.exists():
            return took_s, nothing
        table = np.loadtxt(output, skiprows=1)
        if table[-1, 0] < 0.999 * system.end_s:
            print(f"  ngspice stopped at {table[-1, 0]:.3f} s")
            return took_s, nothing
    waves = Waves(table[:, 0], {name: table[:, 1 + j] for j, name in enumerate(vectors)})
    starts = [waves.rises(f"v(t{i})", system.devices[i].delay_s) for i in LOOKED_AT]
    first = [t[0] if len(t) else np.nan for t in starts]
    return took_s, np.array([first, [waves.columns[f"v(c{i})"][-1] for i in LOOKED_AT]])


def own(program: pathlib.Path, text: str) -> np.ndarray:
    found = ours(program, text)
    assert found.outcome[0] == "operating-point", found.outcome
    return np.array([[float(found.devices[i][column]) for i in LOOKED_AT] for column in (1, 5)])


def deviation(times: np.ndarray, reference: np.ndarray) -> float:
    return float(np.max(np.abs(times / reference - 1)))


def main() -> None:
    program = pathlib.Path(sys.argv[1])
    system = case()
    fine = own(program, system.as_text("tolerance 1e-5\n"))
    default = own(program, system.as_text())
    print(f"ours, default tolerance: {deviation(default, fine):.2e} from our fine run")
    tried = []
    for step_s in STEPS_S:
        took_s, times = spice(system, step_s)
        off = deviation(times, fine)
        print(f"ngspice, step at most {step_s:g} s: {took_s:.2f} s, {off:.2e} from our fine run")
        if off <= 0.01:
            tried.append((took_s, step_s))
    assert tried, "no ngspice setting is accurate enough"
    step_s = min(tried)[1]
    took_s, finer = spice(system, step_s / 4)
    off = deviation(finer, fine)
    print(f"ngspice, reference step {step_s / 4:g} s: {took_s:.2f} s, {off:.2e} from ours")
    assert off <= 0.005, "the references disagree"
    whole, spices = [], []
    text = system.as_text()
    for round_number in range(REPEATS):
        whole.append(cpu_s([str(program)], text))
        if round_number % 5 == 0:
            spices.append(spice(system, step_s)[0])
    took_s, spice_s = float(np.median(whole)), float(np.median(spices))
    print(f"ours:    {1e3 * took_s:.1f} ms (median of {len(whole)}, whole process)")
    print(
        f"ngspice: {1e3 * spice_s:.0f} ms (median of {len(spices)}, whole process, "
        f"step at most {step_s:g} s)"
    )
    print(f"ratio: {spice_s / took_s:.0f}")
    ten = Case(**{**system.__dict__, "end_s": 10.0}).as_text()
    print(f"ours, ten seconds: {1e3 * cpu_s([str(program)], ten):.1f} ms (stops when at rest)")


main()
