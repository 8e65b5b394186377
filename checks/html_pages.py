"""HTML pages against the HTML standard, as the npm package html-validate reads it."""

import json
import pathlib
import subprocess

TOOLS = pathlib.Path(__file__).parent / "browser" / "node_modules" / ".bin"


def assert_valid(folder, pages, **rules):
    """Holds pages, by name, against the standard's rules; `rules` are switched otherwise than usual."""
    usual = {"void-style": "off", "no-trailing-whitespace": "off", "long-title": "off"}
    config = {"extends": ["html-validate:standard"], "rules": usual | rules}
    (folder / ".htmlvalidate.json").write_text(json.dumps(config), encoding="utf-8")
    for name, text in pages.items():
        (folder / f"{name}.html").write_text(text, encoding="utf-8")
    command = [str(TOOLS / "html-validate"), "--config", str(folder / ".htmlvalidate.json"), str(folder / "*.html")]
    done = subprocess.run(command, capture_output=True, text=True, timeout=300)
    assert done.returncode == 0, done.stdout[:4000]
