"""The types of every script of the pages, and of what drives them, by the TypeScript compiler."""

import subprocess

from html_pages import TOOLS


def test_types_of_scripts():
    command = [str(TOOLS / "tsc"), "-p", str(TOOLS.parents[1] / "tsconfig.json")]
    done = subprocess.run(command, capture_output=True, text=True, timeout=120)
    assert done.returncode == 0, done.stdout
