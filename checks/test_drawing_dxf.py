"""DXF drawings read by ezdxf: audit, layers, extents, text; and SVG drawings by a second renderer."""

import collections
import csv
import os
import pathlib
import re
import subprocess
import xml.etree.ElementTree as ET

import ezdxf
import ezdxf.bbox
import pytest
import resvg_py
from ezdxf.lldxf.encoding import decode_dxf_unicode
import netlists
from drawing_sites import random_site


def draw(folder, site, form, *options):
    path = folder / "site.toml"
    path.write_text(site, encoding="utf-8")
    out = folder / form
    command = [os.environ["LATCHLINE"], "draw", str(path), "-o", str(out), "--format", form, *options]
    done = subprocess.run(command, capture_output=True, text=True, timeout=300)
    assert done.returncode == 0, done.stderr
    return done.stdout.split("\n")[:-1]


def sheet_of(document):
    """The one layout in paper space."""
    (name,) = [name for name in document.layout_names() if name != "Model"]
    return document.paperspace(name)


def every_entity(document):
    """What lies in model space, on paper, in blocks, and the attributes of blocks."""
    for layout in [document.modelspace(), sheet_of(document), *(block for block in document.blocks if not block.name.startswith("*"))]:
        for entity in layout:
            yield entity
            if entity.dxftype() == "INSERT":
                yield from entity.attribs


def seen(space):
    """What is seen but lettering: an attribute that is not shown (an address) lies on no sheet."""
    for entity in space:
        if entity.dxftype() == "INSERT":
            yield from (part for part in entity.virtual_entities() if part.dxftype() != "TEXT")
            yield from (attribute for attribute in entity.attribs if not attribute.is_invisible)
        elif entity.dxftype() != "TEXT":
            yield entity


@pytest.mark.parametrize("seed, stations", [(1, 12), (2, 64), (3, 200)])
def test_audit_is_clean_and_extents_are_those_of_the_sheet(tmp_path, seed, stations):
    site = random_site(seed, stations)
    svg_files = draw(tmp_path, site, "svg", "--sheet", "a3")
    files = draw(tmp_path, site, "dxf", "--sheet", "a3")
    assert len(files) == len(svg_files)
    for name, svg_name in zip(files, svg_files):
        document = ezdxf.readfile(name)
        assert document.dxfversion == "AC1024"  # release 2010
        auditor = document.audit()
        assert not auditor.has_errors and not auditor.has_fixes, (auditor.errors, auditor.fixes)
        space, paper = document.modelspace(), sheet_of(document)
        # ISO 216: A3 is 297 mm x 420 mm.
        assert tuple(document.header["$EXTMIN"])[:2] == (0, 0)
        assert tuple(document.header["$EXTMAX"])[:2] == (420, 297)
        lines = [entity for entity in paper if entity.dxftype() not in ("TEXT", "VIEWPORT")]
        box = ezdxf.bbox.extents(lines, fast=True)
        assert box.extmin.x == pytest.approx(0, abs=0.01) and box.extmin.y == pytest.approx(0, abs=0.01)
        assert box.extmax.x == pytest.approx(420, abs=0.01) and box.extmax.y == pytest.approx(297, abs=0.01)
        box = ezdxf.bbox.extents(seen(space), fast=True)
        assert 0 < box.extmin.x < box.extmax.x < 420 and 0 < box.extmin.y < box.extmax.y < 297
        # The same lettering, character for character, as in the SVG of the same sheet, decoded by
        # ezdxf and by an XML reader.
        svg_texts = [element.text for element in ET.parse(svg_name).iter("{http://www.w3.org/2000/svg}text")]
        inserts = [*space.query("INSERT"), *paper.query("INSERT")]
        shown = [attribute for insert in inserts for attribute in insert.attribs if not attribute.is_invisible]
        # Fields that people fill in are empty, and no lettering in the SVG.
        shown = [attribute for attribute in shown if attribute.plain_text()]
        lettering = [*space.query("TEXT"), *paper.query("TEXT"), *document.blocks["TITLE_BLOCK"].query("TEXT"), *shown]
        assert sorted(decode_dxf_unicode(text.plain_text()) for text in lettering) == sorted(svg_texts)
        known = {layer.dxf.name for layer in document.layers}
        assert {entity.dxf.layer for entity in every_entity(document)} <= known


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


@pytest.mark.parametrize("form", ["svg", "dxf"])
def test_same_input_same_bytes(tmp_path, form):
    site = random_site(6, 64)
    first = [open(name, "rb").read() for name in draw(tmp_path, site, form)]
    second = [open(name, "rb").read() for name in draw(tmp_path, site, form)]
    assert first == second


def test_layers_carry_colour_width_and_line_type(tmp_path):
    """Every entity is BYLAYER; every layer has a colour, a width of ISO 128-2 and a line type; units are millimetres."""
    seen = {}
    for what in ("elevation", "profiles", "wiring", "switches"):
        for name in draw(tmp_path, random_site(7, 64), "dxf", "--what", what):
            document = ezdxf.readfile(name)
            assert document.header["$INSUNITS"] == 4 and document.header["$MEASUREMENT"] == 1
            assert document.header["$LTSCALE"] == 1 and document.header["$PSLTSCALE"] == 1
            for entity in every_entity(document):
                # 256 and -1 are BYLAYER.
                assert entity.dxf.get("color", 256) == 256 and entity.dxf.get("lineweight", -1) == -1, entity
                assert entity.dxf.get("linetype", "BYLAYER").upper() == "BYLAYER", entity
            for layer in document.layers:
                if layer.dxf.name in ("0", "Defpoints", "VIEWPORT"):
                    continue
                look = (layer.color, layer.dxf.lineweight, layer.dxf.linetype)
                assert layer.dxf.lineweight in (25, 35, 50, 70) and layer.dxf.linetype in document.linetypes
                # A name means the same in every file.
                assert seen.setdefault(layer.dxf.name, look) == look
    assert len({colour for colour, _, _ in seen.values()}) > 3 and len({width for _, width, _ in seen.values()}) > 2


def test_each_layer_that_is_switched_off_changes_the_picture(tmp_path):
    from ezdxf.addons.drawing import Frontend, RenderContext
    from ezdxf.addons.drawing.recorder import Recorder

    def picture(document, layout):
        recorder = Recorder()
        Frontend(RenderContext(document), recorder).draw_layout(layout)
        return len(recorder.player().records)

    (name,) = draw(tmp_path, random_site(1, 12), "dxf", "--sheet", "a3")
    document = ezdxf.readfile(name)
    layouts = [document.modelspace(), sheet_of(document)]
    whole = [picture(document, layout) for layout in layouts]
    # Layer 0 is in every file; that of the viewport carries its edge, which is not printed.
    layers = [layer for layer in document.layers if layer.dxf.name not in ("0", "Defpoints", "VIEWPORT")]
    assert len(layers) > 10
    for layer in layers:
        layer.off()
        assert [picture(document, layout) for layout in layouts] != whole, layer.dxf.name
        layer.on()
    assert [picture(document, layout) for layout in layouts] == whole


def schedule(folder):
    """The device schedule of the same site: designation to model and address."""
    command = [os.environ["LATCHLINE"], "pack", str(folder / "site.toml"), "-o", str(folder / "pack"), "--only", "devices"]
    assert subprocess.run(command, capture_output=True, timeout=300).returncode in (0, 1)
    (path,) = (folder / "pack" / "tables").glob("*-devices.csv")
    with open(path, encoding="utf-8-sig", newline="") as file:
        rows = [row for row in csv.reader(file) if not row[0].startswith("# ")]
    columns = [rows[0].index(title) for title in ("Designation", "Model", "Address")]
    return {row[columns[0]].removeprefix("'"): tuple(row[column] for column in columns[1:]) for row in rows[1:]}


@pytest.mark.parametrize("seed, stations", [(4, 12), (8, 120)])
def test_attributes_of_blocks_are_those_of_the_device_schedule(tmp_path, seed, stations):
    site = random_site(seed, stations)
    found, blocks = {}, set()
    for name in draw(tmp_path, site, "dxf"):
        document = ezdxf.readfile(name)
        for insert in document.modelspace().query("INSERT"):
            read = {attribute.dxf.tag: decode_dxf_unicode(attribute.plain_text()) for attribute in insert.attribs}
            assert set(read) == {"DESIGNATION", "MODEL", "ADDRESS"}
            tags = [attdef.dxf.tag for attdef in document.blocks[insert.dxf.name].attdefs()]
            assert tags == ["DESIGNATION", "MODEL", "ADDRESS"] and insert.dxf.name in document.blocks
            assert read["DESIGNATION"] not in found
            found[read["DESIGNATION"]] = (read["MODEL"], read["ADDRESS"])
            blocks.add(insert.dxf.name)
    assert found == schedule(tmp_path) and len(found) >= stations
    assert {"SUPPLY", "DISTRIBUTOR", "DOOR_STATION", "VIDEO_STATION"} <= blocks


def test_the_layout_shows_the_model_at_one_to_one_below_its_title_block(tmp_path):
    for name in draw(tmp_path, random_site(2, 64), "dxf", "--sheet", "a3"):
        document = ezdxf.readfile(name)
        paper = sheet_of(document)
        (viewport,) = [view for view in paper.query("VIEWPORT") if view.dxf.id != 1]
        assert viewport.get_scale() == pytest.approx(1) and (viewport.dxf.width, viewport.dxf.height) == (420, 297)
        # One to one, and the same point in the middle of both: a point lies on paper where it lies in the model.
        assert tuple(viewport.dxf.center)[:2] == tuple(viewport.dxf.view_center_point)[:2] == (210, 148.5)
        assert (paper.dxf_layout.dxf.paper_width, paper.dxf_layout.dxf.paper_height) == (420, 297)
        (block,) = paper.query("INSERT")
        assert block.dxf.name == "TITLE_BLOCK"
        # Labels of ISO 7200 that only the title block has, and what it says, which an office fills in and reads out.
        words = {text.plain_text() for text in document.blocks["TITLE_BLOCK"].query("TEXT")}
        assert {"Revision", "Sheet"} <= words, words
        said = {attribute.dxf.tag: attribute for attribute in block.attribs}
        assert set(said) >= {"OWNER", "DRAWN_BY", "APPROVED_BY", "DOCUMENT_KIND", "NUMBER", "REVISION", "DATE", "SHEET", "TITLE"}
        assert said["TITLE"].plain_text() == "Invented site 2" and re.fullmatch(r"\d+ of \d+", said["SHEET"].plain_text())
        assert not any(attribute.is_invisible for attribute in said.values())
        assert not {"Revision", "Sheet"} & {text.plain_text() for text in document.modelspace().query("TEXT")}


def test_parts_of_locks_are_blocks_with_attributes(tmp_path):
    """Each lock, button and what is fitted across a lock is placed as a block, as often as the site file has it."""
    file = pathlib.Path(__file__).parent.parent / "crates/drawing/src/wiring/every_lock.toml"
    command = [os.environ["LATCHLINE"], "pack", str(file), "-o", str(tmp_path / "pack"), "--only", "lock-wiring"]
    assert subprocess.run(command, capture_output=True, timeout=300).returncode in (0, 1)
    found = collections.Counter()
    for name in sorted((tmp_path / "pack/drawings").glob("lock-wiring-*.dxf")):
        document = ezdxf.readfile(name)
        assert not document.audit().errors
        for insert in document.modelspace().query("INSERT"):
            read = {attribute.dxf.tag: attribute.plain_text() for attribute in insert.attribs}
            assert set(read) == {"DESIGNATION", "TERMINAL"} and read["DESIGNATION"], insert.dxf.name
            assert len(document.blocks[insert.dxf.name]) > 2
            found[insert.dxf.name] += 1
    site = netlists.SiteFile(file)
    fed = [(lock, site.feed(lock)) for _, _, lock, _ in site.locks()]
    wired = [lock for lock, feed in fed if feed != "dry-contact"]
    assert found["LOCK"] == len(wired) > 3
    assert found["BUTTON_MAKE"] + found["BUTTON_BREAK"] == sum(lock.get("exit_button") is True for lock, _ in fed) > 3
    assert found["RELAY_BETWEEN"] == sum("relay_between" in lock for lock in wired) > 0
    for part in ("diode", "clamp", "varistor"):
        assert found[part.upper()] == sum(lock.get("suppression") == part for lock in wired) > 0, part
