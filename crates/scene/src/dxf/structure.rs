//! What a file is besides its entities: header, tables, blocks, layout and dictionaries.

use super::entities::{Definition, Drawing, MODEL_RECORD, PAPER_RECORD};
use super::layers::{Layers, line_type};
use super::pairs::Pairs;
use super::texts::encoded;
use crate::{Dash, Scene};

/// Handles of tables, of what stands in them, and of dictionaries; those of entities are counted from above.
mod handle {
    pub(super) const VPORTS: u32 = 0x1;
    pub(super) const LINE_TYPES: u32 = 0x2;
    pub(super) const LAYERS: u32 = 0x3;
    pub(super) const STYLES: u32 = 0x4;
    pub(super) const VIEWS: u32 = 0x5;
    pub(super) const UCS: u32 = 0x6;
    pub(super) const APPLICATIONS: u32 = 0x7;
    pub(super) const DIMENSION_STYLES: u32 = 0x8;
    pub(super) const BLOCK_RECORDS: u32 = 0x9;
    pub(super) const ROOT: u32 = 0xA;
    pub(super) const GROUPS: u32 = 0xB;
    pub(super) const LAYOUTS: u32 = 0xC;
    pub(super) const PLOT_SETTINGS: u32 = 0xD;
    pub(super) const PLOT_STYLES: u32 = 0xE;
    pub(super) const PLOT_STYLE: u32 = 0xF;
    pub(super) const MODEL_LAYOUT: u32 = 0x10;
    pub(super) const PAPER_LAYOUT: u32 = 0x11;
    pub(super) const MODEL_BEGIN: u32 = 0x12;
    pub(super) const MODEL_END: u32 = 0x13;
    pub(super) const PAPER_BEGIN: u32 = 0x14;
    pub(super) const PAPER_END: u32 = 0x15;
    pub(super) const STANDARD_STYLE: u32 = 0x16;
}

/// The layer of the edge of the viewport, which is not printed.
const VIEWPORT_LAYER: &str = "VIEWPORT";

/// The whole file.
pub(super) fn file(scene: &Scene, mut drawing: Drawing) -> String {
    let size = (scene.width_mm, scene.height_mm);
    let whole = viewport(&mut drawing, size, 1);
    viewport(&mut drawing, size, 2);
    let entities = std::mem::take(&mut drawing.out).text;
    let mut tables = Pairs::default();
    write_tables(&mut tables, &mut drawing, size);
    let mut out = Pairs { text: String::with_capacity(entities.len() + 32 * 1024) };
    // A comment: by it a later run knows its own.
    out.pair(999, "latchline");
    header(&mut out, size, drawing.handle_seed());
    section(&mut out, "CLASSES", "");
    section(&mut out, "TABLES", &tables.text);
    let mut blocks = Pairs::default();
    write_blocks(&mut blocks, &drawing);
    section(&mut out, "BLOCKS", &blocks.text);
    section(&mut out, "ENTITIES", &entities);
    let mut objects = Pairs::default();
    write_objects(&mut objects, scene, size, whole);
    section(&mut out, "OBJECTS", &objects.text);
    out.pair(0, "EOF");
    out.text
}

fn section(out: &mut Pairs, name: &str, content: &str) {
    out.pairs(&[(0, "SECTION"), (2, name)]);
    out.text.push_str(content);
    out.pair(0, "ENDSEC");
}

fn header(out: &mut Pairs, (width, height): (f64, f64), seed: u32) {
    out.pairs(&[(0, "SECTION"), (2, "HEADER")]);
    out.pairs(&[(9, "$ACADVER"), (1, "AC1024"), (9, "$DWGCODEPAGE"), (3, "ANSI_1252")]);
    out.pair(9, "$HANDSEED");
    out.handle(5, seed);
    // 4 is the millimetre; metric patterns; patterns as long in the model as on paper.
    for (name, code, value) in [
        ("$INSUNITS", 70, "4"),
        ("$MEASUREMENT", 70, "1"),
        ("$LUNITS", 70, "2"),
        ("$LTSCALE", 40, "1.0"),
        ("$CELTSCALE", 40, "1.0"),
        ("$PSLTSCALE", 70, "1"),
        ("$LWDISPLAY", 290, "1"),
        ("$TILEMODE", 70, "0"),
        ("$CLAYER", 8, "0"),
    ] {
        out.pair(9, name);
        out.pair(code, value);
    }
    // Of the model, and of paper.
    for prefix in ["$", "$P"] {
        for (name, x, y) in [("EXTMIN", 0.0, 0.0), ("EXTMAX", width, height)] {
            out.pair(9, &format!("{prefix}{name}"));
            out.point(10, x, y);
        }
        for (name, x, y) in [("LIMMIN", 0.0, 0.0), ("LIMMAX", width, height)] {
            out.pair(9, &format!("{prefix}{name}"));
            out.flat(10, x, y);
        }
    }
    out.pair(0, "ENDSEC");
}

fn table(out: &mut Pairs, name: &str, handle: u32, count: usize, extra: &[(u16, &str)], rows: &str) {
    out.pairs(&[(0, "TABLE"), (2, name)]);
    out.handle(5, handle);
    out.pairs(&[(330, "0"), (100, "AcDbSymbolTable")]);
    out.whole(70, count as i64);
    out.pairs(extra);
    out.text.push_str(rows);
    out.pair(0, "ENDTAB");
}

/// Begins a record of a table; styles of dimensions have their handle under 105.
fn record(out: &mut Pairs, kind: &str, handle: u32, table: u32, class: &str, name: &str) {
    out.pair(0, kind);
    out.handle(if kind == "DIMSTYLE" { 105 } else { 5 }, handle);
    out.handle(330, table);
    out.pairs(&[(100, "AcDbSymbolTableRecord"), (100, class), (2, name)]);
}

fn write_tables(out: &mut Pairs, drawing: &mut Drawing, (width, height): (f64, f64)) {
    let mut rows = Pairs::default();
    record(&mut rows, "VPORT", drawing.new_handle(), handle::VPORTS, "AcDbViewportTableRecord", "*Active");
    rows.pair(70, "0");
    for (code, x, y) in [
        (10, 0.0, 0.0),
        (11, 1.0, 1.0),
        (12, width / 2.0, height / 2.0),
        (13, 0.0, 0.0),
        (14, 10.0, 10.0),
        (15, 10.0, 10.0),
    ] {
        rows.flat(code, x, y);
    }
    // Seen from above.
    rows.flat(16, 0.0, 0.0);
    rows.number(36, 1.0);
    rows.point(17, 0.0, 0.0);
    rows.number(40, height);
    rows.number(41, width / height);
    rows.number(42, 50.0);
    rows.pairs(&[(71, "0"), (72, "1000"), (73, "1"), (74, "3"), (75, "0"), (76, "0"), (77, "0"), (78, "0")]);
    table(out, "VPORT", handle::VPORTS, 1, &[], &rows.text);

    line_types(out, drawing);
    let layers = drawing.layers.clone();
    write_layers(out, drawing, &layers);

    let mut rows = Pairs::default();
    for (name, font, handle) in
        [("Standard", "arial.ttf", handle::STANDARD_STYLE), ("BOLD", "arialbd.ttf", drawing.new_handle())]
    {
        record(&mut rows, "STYLE", handle, handle::STYLES, "AcDbTextStyleTableRecord", name);
        rows.pair(70, "0");
        rows.number(40, 0.0);
        rows.number(41, 1.0);
        rows.number(50, 0.0);
        rows.pair(71, "0");
        rows.number(42, 2.5);
        rows.pairs(&[(3, font), (4, "")]);
    }
    table(out, "STYLE", handle::STYLES, 2, &[], &rows.text);
    table(out, "VIEW", handle::VIEWS, 0, &[], "");
    table(out, "UCS", handle::UCS, 0, &[], "");
    let mut rows = Pairs::default();
    let application = drawing.new_handle();
    record(&mut rows, "APPID", application, handle::APPLICATIONS, "AcDbRegAppTableRecord", "ACAD");
    rows.pair(70, "0");
    table(out, "APPID", handle::APPLICATIONS, 1, &[], &rows.text);
    let mut rows = Pairs::default();
    let style = drawing.new_handle();
    record(&mut rows, "DIMSTYLE", style, handle::DIMENSION_STYLES, "AcDbDimStyleTableRecord", "Standard");
    rows.pair(70, "0");
    rows.handle(340, handle::STANDARD_STYLE);
    let class = [(100, "AcDbDimStyleTable")];
    table(out, "DIMSTYLE", handle::DIMENSION_STYLES, 1, &class, &rows.text);

    let mut rows = Pairs::default();
    let layouts = [
        ("*Model_Space", MODEL_RECORD, handle::MODEL_LAYOUT),
        ("*Paper_Space", PAPER_RECORD, handle::PAPER_LAYOUT),
    ];
    let devices = drawing.blocks.iter().map(|(name, block)| (*name, block.record, 0));
    let mut count = 0;
    for (name, handle, layout) in layouts.into_iter().chain(devices) {
        record(&mut rows, "BLOCK_RECORD", handle, handle::BLOCK_RECORDS, "AcDbBlockTableRecord", name);
        rows.handle(340, layout);
        // Units of the block: 4 is the millimetre.
        rows.pairs(&[(70, "4"), (280, "1"), (281, "0")]);
        count += 1;
    }
    table(out, "BLOCK_RECORD", handle::BLOCK_RECORDS, count, &[], &rows.text);
}

fn line_types(out: &mut Pairs, drawing: &mut Drawing) {
    let mut rows = Pairs::default();
    let drawn = [Dash::Solid, Dash::Dashed, Dash::Dotted, Dash::DashDot];
    let drawn = drawn.map(|dash| (line_type(dash), dash.lengths_mm()));
    let types = [("ByBlock", &[][..]), ("ByLayer", &[][..])].into_iter().chain(drawn);
    let mut count = 0;
    for (name, pattern) in types {
        let handle = drawing.new_handle();
        record(&mut rows, "LTYPE", handle, handle::LINE_TYPES, "AcDbLinetypeTableRecord", name);
        rows.pairs(&[(70, "0"), (3, ""), (72, "65")]);
        rows.whole(73, pattern.len() as i64);
        rows.number(40, pattern.iter().sum());
        for (index, length) in pattern.iter().enumerate() {
            // Lines and gaps in turn; a gap is negative.
            rows.number(49, if index % 2 == 0 { *length } else { -length });
            rows.pair(74, "0");
        }
        count += 1;
    }
    table(out, "LTYPE", handle::LINE_TYPES, count, &[], &rows.text);
}

fn write_layers(out: &mut Pairs, drawing: &mut Drawing, layers: &Layers) {
    let mut rows = Pairs::default();
    let mut row = |name: &str, colour: u8, line_type: &str, pen: i64, is_printed: bool| {
        let handle = drawing.new_handle();
        record(&mut rows, "LAYER", handle, handle::LAYERS, "AcDbLayerTableRecord", name);
        rows.pair(70, "0");
        rows.whole(62, i64::from(colour));
        rows.pair(6, line_type);
        if !is_printed {
            rows.pair(290, "0");
        }
        rows.whole(370, pen);
        rows.handle(390, handle::PLOT_STYLE);
    };
    // -3: the width that the program takes without one.
    row("0", 7, "Continuous", -3, true);
    row(VIEWPORT_LAYER, 8, "Continuous", 0, false);
    for (name, look) in layers {
        row(name, look.colour, look.line_type, i64::from(look.pen.hundredths()), true);
    }
    table(out, "LAYER", handle::LAYERS, layers.len() + 2, &[], &rows.text);
}

fn write_blocks(out: &mut Pairs, drawing: &Drawing) {
    let model = (handle::MODEL_BEGIN, handle::MODEL_END, MODEL_RECORD);
    let paper = (handle::PAPER_BEGIN, handle::PAPER_END, PAPER_RECORD);
    block(out, "*Model_Space", model, "0", "");
    block(out, "*Paper_Space", paper, "0", "");
    for (name, Definition { record, begin, end, entities }) in &drawing.blocks {
        // 2: it has attributes.
        block(out, name, (*begin, *end, *record), "2", entities);
    }
}

fn block(out: &mut Pairs, name: &str, (begin, end, record): (u32, u32, u32), flags: &str, entities: &str) {
    block_edge(out, "BLOCK", (begin, record), "AcDbBlockBegin");
    out.pairs(&[(2, name), (70, flags)]);
    out.point(10, 0.0, 0.0);
    out.pairs(&[(3, name), (1, "")]);
    out.text.push_str(entities);
    block_edge(out, "ENDBLK", (end, record), "AcDbBlockEnd");
}

/// Begins the first or the last entity of a block.
fn block_edge(out: &mut Pairs, kind: &str, (handle, record): (u32, u32), class: &str) {
    out.pair(0, kind);
    out.handle(5, handle);
    out.handle(330, record);
    out.pair(100, "AcDbEntity");
    if record == PAPER_RECORD {
        out.pair(67, "1");
    }
    out.pairs(&[(8, "0"), (100, class)]);
}

/// A viewport on the layout: the first shows the layout itself, the second the model at 1 : 1 over the whole sheet.
fn viewport(drawing: &mut Drawing, (width, height): (f64, f64), id: i64) -> u32 {
    let handle = drawing.entity("VIEWPORT", VIEWPORT_LAYER, "AcDbViewport");
    let out = &mut drawing.out;
    out.point(10, width / 2.0, height / 2.0);
    out.number(40, width);
    out.number(41, height);
    out.whole(68, id);
    out.whole(69, id);
    out.flat(12, width / 2.0, height / 2.0);
    out.flat(13, 0.0, 0.0);
    out.flat(14, 10.0, 10.0);
    out.flat(15, 10.0, 10.0);
    out.flat(16, 0.0, 0.0);
    out.number(36, 1.0);
    out.point(17, 0.0, 0.0);
    out.number(42, 50.0);
    out.number(43, 0.0);
    out.number(44, 0.0);
    // The height of what is seen is that of the viewport: 1 : 1.
    out.number(45, height);
    out.number(50, 0.0);
    out.number(51, 0.0);
    out.pair(72, "1000");
    // The scale is locked (16384).
    out.pair(90, if id == 1 { "0" } else { "16384" });
    out.pairs(&[(1, ""), (281, "0"), (71, "0"), (74, "0")]);
    out.point(110, 0.0, 0.0);
    out.point(111, 1.0, 0.0);
    out.point(112, 0.0, 1.0);
    out.pair(79, "0");
    out.number(146, 0.0);
    handle
}

fn dictionary(out: &mut Pairs, handle: u32, owner: u32, entries: &[(&str, u32)]) {
    out.pair(0, "DICTIONARY");
    out.handle(5, handle);
    out.handle(330, owner);
    out.pairs(&[(100, "AcDbDictionary"), (281, "1")]);
    for (name, entry) in entries {
        out.pair(3, name);
        out.handle(350, *entry);
    }
}

fn write_objects(out: &mut Pairs, scene: &Scene, size: (f64, f64), viewport: u32) {
    // What names of layouts must not hold; they are shorter than 32 characters in old programs.
    let title: String =
        scene.title.chars().filter(|sign| !"<>/\\\":;?*|,=`".contains(*sign)).take(31).collect();
    let title = encoded(title.trim());
    let is_usable = !title.is_empty() && !title.eq_ignore_ascii_case("model");
    let name = if is_usable { title.as_str() } else { "Layout1" };
    dictionary(
        out,
        handle::ROOT,
        0,
        &[
            ("ACAD_GROUP", handle::GROUPS),
            ("ACAD_LAYOUT", handle::LAYOUTS),
            ("ACAD_PLOTSETTINGS", handle::PLOT_SETTINGS),
            ("ACAD_PLOTSTYLENAME", handle::PLOT_STYLES),
        ],
    );
    dictionary(out, handle::GROUPS, handle::ROOT, &[]);
    let layouts = [("Model", handle::MODEL_LAYOUT), (name, handle::PAPER_LAYOUT)];
    dictionary(out, handle::LAYOUTS, handle::ROOT, &layouts);
    dictionary(out, handle::PLOT_SETTINGS, handle::ROOT, &[]);
    out.pair(0, "ACDBDICTIONARYWDFLT");
    out.handle(5, handle::PLOT_STYLES);
    out.handle(330, handle::ROOT);
    out.pairs(&[(100, "AcDbDictionary"), (281, "1"), (3, "Normal")]);
    out.handle(350, handle::PLOT_STYLE);
    out.pair(100, "AcDbDictionaryWithDefault");
    out.handle(340, handle::PLOT_STYLE);
    out.pair(0, "ACDBPLACEHOLDER");
    out.handle(5, handle::PLOT_STYLE);
    out.handle(330, handle::PLOT_STYLES);
    layout(out, "Model", handle::MODEL_LAYOUT, size, None);
    layout(out, name, handle::PAPER_LAYOUT, size, Some(viewport));
}

/// A layout with its plot settings; one of paper has its first viewport.
fn layout(out: &mut Pairs, name: &str, handle: u32, (width, height): (f64, f64), viewport: Option<u32>) {
    out.pair(0, "LAYOUT");
    out.handle(5, handle);
    out.handle(330, handle::LAYOUTS);
    out.pairs(&[(100, "AcDbPlotSettings"), (1, ""), (4, ""), (6, "")]);
    for code in 40..=43 {
        out.number(code, 0.0);
    }
    out.number(44, width);
    out.number(45, height);
    for code in [46, 47, 48, 49, 140, 141] {
        out.number(code, 0.0);
    }
    out.number(142, 1.0);
    out.number(143, 1.0);
    // Line widths are printed (128), what is drawn last on paper (512), plot styles (32), and for the model its own bit
    // (1024); millimetres; the layout as a whole at 1 : 1.
    out.pair(70, if viewport.is_some() { "672" } else { "1696" });
    out.pairs(&[(72, "1"), (73, "0"), (74, "5"), (7, ""), (75, "16"), (76, "0"), (77, "2"), (78, "300")]);
    out.number(147, 1.0);
    out.number(148, 0.0);
    out.number(149, 0.0);
    out.pairs(&[(100, "AcDbLayout"), (1, name), (70, "1")]);
    out.whole(71, i64::from(viewport.is_some()));
    out.flat(10, 0.0, 0.0);
    out.flat(11, width, height);
    out.point(12, 0.0, 0.0);
    out.point(14, 0.0, 0.0);
    out.point(15, width, height);
    out.number(146, 0.0);
    out.point(13, 0.0, 0.0);
    out.point(16, 1.0, 0.0);
    out.point(17, 0.0, 1.0);
    out.pair(76, "0");
    match viewport {
        None => out.handle(330, MODEL_RECORD),
        Some(viewport) => {
            out.handle(330, PAPER_RECORD);
            out.handle(331, viewport);
        }
    }
}
