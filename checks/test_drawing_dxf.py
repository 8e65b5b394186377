"""DXF drawings read by ezdxf: audit, layers, extents, text; and SVG drawings by a second renderer."""

import os
import re
import subprocess
import xml.etree.ElementTree as ET

import ezdxf
import ezdxf.bbox
import pytest
import resvg_py
from ezdxf.lldxf.encoding import decode_dxf_unicode
from drawing_sites import random_site


def draw(folder, site, form, *options):
    path = folder / "site.toml"
    path.write_text(site, encoding="utf-8")
    out = folder / form
    command = [os.environ["LATCHLINE"], "draw", str(path), "-o", str(out), "--format", form, *options]
    done = subprocess.run(command, capture_output=True, text=True, timeout=300)
    assert done.returncode == 0, done.stderr
    return done.stdout.split("\n")[:-1]


@pytest.mark.parametrize("seed, stations", [(1, 12), (2, 64), (3, 200)])
def test_audit_is_clean_and_extents_are_those_of_the_sheet(tmp_path, seed, stations):
    site = random_site(seed, stations)
    svg_files = draw(tmp_path, site, "svg", "--sheet", "a3")
    files = draw(tmp_path, site, "dxf", "--sheet", "a3")
    assert len(files) == len(svg_files)
    for name, svg_name in zip(files, svg_files):
        document = ezdxf.readfile(name)
        assert document.dxfversion == "AC1009"  # release 12
        auditor = document.audit()
        assert not auditor.has_errors and not auditor.has_fixes, (auditor.errors, auditor.fixes)
        space = document.modelspace()
        # ISO 216: A3 is 297 mm x 420 mm.
        assert tuple(document.header["$EXTMIN"])[:2] == (0, 0)
        assert tuple(document.header["$EXTMAX"])[:2] == (420, 297)
        lines = [entity for entity in space if entity.dxftype() != "TEXT"]
        box = ezdxf.bbox.extents(lines, fast=True)
        assert box.extmin.x == pytest.approx(0, abs=0.01) and box.extmin.y == pytest.approx(0, abs=0.01)
        assert box.extmax.x == pytest.approx(420, abs=0.01) and box.extmax.y == pytest.approx(297, abs=0.01)
        # The same lettering, character for character, as in the SVG of the same sheet, decoded by
        # ezdxf and by an XML reader.
        svg_texts = [element.text for element in ET.parse(svg_name).iter("{http://www.w3.org/2000/svg}text")]
        cad_texts = [decode_dxf_unicode(text.plain_text()) for text in space.query("TEXT")]
        assert sorted(cad_texts) == sorted(svg_texts)
        known = {layer.dxf.name for layer in document.layers}
        assert {entity.dxf.layer for entity in space} <= known


def test_a_second_renderer_draws_every_sheet(tmp_path):
    for what in ("elevation", "profiles", "switches", "signal", "start-up"):
        for name in draw(tmp_path, random_site(5, 40), "svg", "--what", what, "--sheet", "a4"):
            text = open(name, encoding="utf-8").read()
            png = bytes(resvg_py.svg_to_bytes(svg_string=text, width=1190, dpi=96))
            assert png[:8] == b"\x89PNG\r\n\x1a\n"
            # IHDR: width and height, big-endian. A4 on its side is 297 mm x 210 mm.
            width, height = (int.from_bytes(png[at : at + 4], "big") for at in (16, 20))
            assert width == 1190 and height == pytest.approx(1190 * 210 / 297, abs=1)
            # A blank sheet of this size takes about 3 kB.
            assert len(png) > 15_000
            assert not re.search(r"NaN|inf", text)


def test_same_input_same_bytes(tmp_path):
    site = random_site(6, 64)
    first = [open(name, "rb").read() for name in draw(tmp_path, site, "svg")]
    second = [open(name, "rb").read() for name in draw(tmp_path, site, "svg")]
    assert first == second
