//! TrueType fonts: which glyph stands for which character, and a subset that goes into a file.
//!
//! Tables after the OpenType specification (ISO/IEC 14496-22). A subset keeps the numbers of the glyphs and leaves
//! out the outlines of those that are not used, so nothing else has to be renumbered.

use super::file::{File, Reference, hexadecimal, number};
use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;

/// A font file, taken apart.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct TrueType {
    data: &'static [u8],
    tables: BTreeMap<[u8; 4], (usize, usize)>,
    /// Units of an em.
    pub(crate) units_per_em: u16,
    glyphs: u16,
    long_metrics: u16,
    has_long_offsets: bool,
}

/// Tables that a viewer needs to draw glyphs by their number.
const KEPT: [&[u8; 4]; 9] = [b"cvt ", b"fpgm", b"glyf", b"head", b"hhea", b"hmtx", b"loca", b"maxp", b"prep"];

impl TrueType {
    /// Reads the table directory.
    pub(crate) fn new(data: &'static [u8]) -> Option<TrueType> {
        let count = usize::from(u16_at(data, 4)?);
        let mut tables = BTreeMap::new();
        for index in 0..count {
            let row = data.get(12 + 16 * index..28 + 16 * index)?;
            let tag = [row[0], row[1], row[2], row[3]];
            let (start, length) = (u32_at(row, 8)? as usize, u32_at(row, 12)? as usize);
            data.get(start..start.checked_add(length)?)?;
            tables.insert(tag, (start, length));
        }
        let mut font =
            TrueType { data, tables, units_per_em: 0, glyphs: 0, long_metrics: 0, has_long_offsets: false };
        font.units_per_em = u16_at(font.table(b"head")?, 18)?;
        font.has_long_offsets = u16_at(font.table(b"head")?, 50)? == 1;
        font.glyphs = u16_at(font.table(b"maxp")?, 4)?;
        font.long_metrics = u16_at(font.table(b"hhea")?, 34)?;
        Some(font)
    }

    fn table(&self, tag: &[u8; 4]) -> Option<&'static [u8]> {
        let (start, length) = *self.tables.get(tag)?;
        self.data.get(start..start + length)
    }

    /// Every character of the basic plane with its glyph (`cmap`, format 4).
    pub(crate) fn characters(&self) -> Option<Vec<(u16, u16)>> {
        let cmap = self.table(b"cmap")?;
        let count = usize::from(u16_at(cmap, 2)?);
        let map = (0..count).find_map(|index| {
            let row = 4 + 8 * index;
            let is_unicode = matches!((u16_at(cmap, row)?, u16_at(cmap, row + 2)?), (3, 1) | (0, 0..=4));
            let map = cmap.get(u32_at(cmap, row + 4)? as usize..)?;
            (is_unicode && u16_at(map, 0)? == 4).then_some(map)
        })?;
        let segments = usize::from(u16_at(map, 6)?) / 2;
        let mut found = Vec::new();
        for segment in 0..segments {
            let end = u16_at(map, 14 + 2 * segment)?;
            let starts = 16 + 2 * segments;
            let start = u16_at(map, starts + 2 * segment)?;
            let delta = u16_at(map, starts + 2 * segments + 2 * segment)?;
            let offset_at = starts + 4 * segments + 2 * segment;
            let offset = usize::from(u16_at(map, offset_at)?);
            for code in start..=end.min(0xfffe) {
                let glyph = if offset == 0 {
                    code.wrapping_add(delta)
                } else {
                    match u16_at(map, offset_at + offset + 2 * usize::from(code - start))? {
                        0 => 0,
                        glyph => glyph.wrapping_add(delta),
                    }
                };
                if glyph != 0 && glyph < self.glyphs {
                    found.push((code, glyph));
                }
            }
        }
        Some(found)
    }

    /// How far a glyph moves on, in units of the em.
    pub(crate) fn advance(&self, glyph: u16) -> Option<u16> {
        let last = self.long_metrics.checked_sub(1)?;
        u16_at(self.table(b"hmtx")?, 4 * usize::from(glyph.min(last)))
    }

    /// Where the outline of a glyph is within `glyf`.
    fn outline(&self, glyph: u16) -> Option<&'static [u8]> {
        let loca = self.table(b"loca")?;
        let offset = |index: usize| {
            if self.has_long_offsets {
                u32_at(loca, 4 * index).map(|offset| offset as usize)
            } else {
                u16_at(loca, 2 * index).map(|half| 2 * usize::from(half))
            }
        };
        let index = usize::from(glyph);
        self.table(b"glyf")?.get(offset(index)?..offset(index + 1)?)
    }

    /// The glyphs with all that they are composed of.
    fn with_components(&self, used: &BTreeSet<u16>) -> Option<BTreeSet<u16>> {
        let mut all = BTreeSet::from([0]);
        let mut open: Vec<u16> = used.iter().copied().collect();
        while let Some(glyph) = open.pop() {
            if !all.insert(glyph) {
                continue;
            }
            let outline = self.outline(glyph)?;
            // A negative number of contours: composed of others.
            if outline.len() < 10 || u16_at(outline, 0)? < 0x8000 {
                continue;
            }
            let mut at = 10;
            loop {
                let (flags, component) = (u16_at(outline, at)?, u16_at(outline, at + 2)?);
                open.push(component);
                at += 4 + if flags & 0x0001 != 0 { 4 } else { 2 };
                at += match flags {
                    _ if flags & 0x0008 != 0 => 2,
                    _ if flags & 0x0040 != 0 => 4,
                    _ if flags & 0x0080 != 0 => 8,
                    _ => 0,
                };
                if flags & 0x0020 == 0 {
                    break;
                }
            }
        }
        Some(all)
    }

    /// A font file with the outlines of these glyphs alone.
    pub(crate) fn subset(&self, used: &BTreeSet<u16>) -> Option<Vec<u8>> {
        let kept = self.with_components(used)?;
        let (mut glyf, mut loca) = (Vec::new(), Vec::new());
        for glyph in 0..self.glyphs {
            loca.extend_from_slice(&(glyf.len() as u32).to_be_bytes());
            if kept.contains(&glyph) {
                glyf.extend_from_slice(self.outline(glyph)?);
                glyf.resize(glyf.len().next_multiple_of(4), 0);
            }
        }
        loca.extend_from_slice(&(glyf.len() as u32).to_be_bytes());
        let mut head = self.table(b"head")?.to_vec();
        head[8..12].fill(0);
        head[50..52].copy_from_slice(&1_u16.to_be_bytes());
        let mut tables: Vec<([u8; 4], Vec<u8>)> = Vec::new();
        for tag in KEPT {
            let bytes = match tag {
                b"glyf" => std::mem::take(&mut glyf),
                b"loca" => std::mem::take(&mut loca),
                b"head" => std::mem::take(&mut head),
                tag => match self.table(tag) {
                    Some(bytes) => bytes.to_vec(),
                    None => continue,
                },
            };
            tables.push((*tag, bytes));
        }
        Some(assembled(&tables))
    }
}

/// A font file of these tables, which are in the order of their tags.
fn assembled(tables: &[([u8; 4], Vec<u8>)]) -> Vec<u8> {
    let count = tables.len() as u16;
    let power = 15 - count.leading_zeros() as u16;
    let range = 16 << power;
    let mut file = Vec::new();
    for value in [1, 0, count, range, power, 16 * count - range] {
        file.extend_from_slice(&value.to_be_bytes());
    }
    let mut start = 12 + 16 * tables.len();
    let mut head_at = 0;
    for (tag, bytes) in tables {
        if tag == b"head" {
            head_at = start;
        }
        file.extend_from_slice(tag);
        for value in [checksum(bytes), start as u32, bytes.len() as u32] {
            file.extend_from_slice(&value.to_be_bytes());
        }
        start += bytes.len().next_multiple_of(4);
    }
    for (_, bytes) in tables {
        file.extend_from_slice(bytes);
        file.resize(file.len().next_multiple_of(4), 0);
    }
    let adjustment = 0xb1b0_afba_u32.wrapping_sub(checksum(&file));
    file[head_at + 8..head_at + 12].copy_from_slice(&adjustment.to_be_bytes());
    file
}

/// Sum of the words of a table.
fn checksum(bytes: &[u8]) -> u32 {
    bytes.chunks(4).fold(0, |sum, chunk| {
        let mut word = [0; 4];
        word[..chunk.len()].copy_from_slice(chunk);
        sum.wrapping_add(u32::from_be_bytes(word))
    })
}

fn u16_at(bytes: &[u8], at: usize) -> Option<u16> {
    Some(u16::from_be_bytes(bytes.get(at..at + 2)?.try_into().ok()?))
}

fn u32_at(bytes: &[u8], at: usize) -> Option<u32> {
    Some(u32::from_be_bytes(bytes.get(at..at + 4)?.try_into().ok()?))
}

fn i16_at(bytes: &[u8], at: usize) -> Option<i16> {
    Some(u16_at(bytes, at)? as i16)
}

/// Writes a subset as a font that is shown by the numbers of its glyphs; `used` says which character each stands for.
pub(crate) fn embed(
    file: &mut File,
    reference: Reference,
    font: &TrueType,
    name: &str,
    is_bold: bool,
    used: &BTreeMap<u16, char>,
) -> Option<()> {
    let glyphs: BTreeSet<u16> = used.keys().copied().collect();
    let subset = font.subset(&glyphs)?;
    let per_mille = |units: i32| number(f64::from(units) * 1000.0 / f64::from(font.units_per_em), 2);
    let name = format!("{}+{name}", label(&glyphs));
    let data = file.reserve();
    file.stream(data, &format!("/Length1 {}", subset.len()), &subset);
    let (head, hhea) = (font.table(b"head")?, font.table(b"hhea")?);
    let edge = |at| i16_at(head, at).map(|units| per_mille(i32::from(units)));
    let ascent = per_mille(i32::from(i16_at(hhea, 4)?));
    let descent = per_mille(i32::from(i16_at(hhea, 6)?));
    let capital = per_mille((latchline_scene::font::CAPITAL_EM * f64::from(font.units_per_em)) as i32);
    // The thickness of upright stems is only a hint; nothing here states it, so usual values.
    let stem = if is_bold { 140 } else { 80 };
    let descriptor = file.add(&format!(
        "<</Type/FontDescriptor/FontName/{name}/Flags 32/FontBBox[{} {} {} {}]/ItalicAngle 0/Ascent {ascent}\
         /Descent {descent}/CapHeight {capital}/StemV {stem}/FontFile2 {data}>>",
        edge(36)?,
        edge(38)?,
        edge(40)?,
        edge(42)?
    ));
    let mut widths = String::new();
    for glyph in &glyphs {
        let _ = write!(widths, "{glyph}[{}]", per_mille(i32::from(font.advance(*glyph)?)));
    }
    let descendant = file.add(&format!(
        "<</Type/Font/Subtype/CIDFontType2/BaseFont/{name}/CIDSystemInfo<</Registry(Adobe)/Ordering(Identity)\
         /Supplement 0>>/FontDescriptor {descriptor}/DW 1000/W[{widths}]/CIDToGIDMap/Identity>>"
    ));
    let characters = file.reserve();
    file.stream(characters, "", to_unicode(used).as_bytes());
    file.put(
        reference,
        &format!(
            "<</Type/Font/Subtype/Type0/BaseFont/{name}/Encoding/Identity-H/DescendantFonts[{descendant}]\
             /ToUnicode {characters}>>"
        ),
    );
    Some(())
}

/// Six letters that differ for subsets that differ (9.6.4), from a hash of their glyphs (FNV-1a, 64 bits).
fn label(glyphs: &BTreeSet<u16>) -> String {
    let mut hash = 0xcbf2_9ce4_8422_2325_u64;
    for byte in glyphs.iter().flat_map(|glyph| glyph.to_be_bytes()) {
        hash = (hash ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3);
    }
    (0..6).map(|place| char::from(b'A' + (hash >> (8 * place)) as u8 % 26)).collect()
}

/// The map from glyphs to characters (9.10.3).
fn to_unicode(used: &BTreeMap<u16, char>) -> String {
    let mut map = String::from(
        "/CIDInit/ProcSet findresource begin\n12 dict begin\nbegincmap\n/CIDSystemInfo<</Registry(Adobe)\
         /Ordering(UCS)/Supplement 0>>def\n/CMapName/Adobe-Identity-UCS def\n/CMapType 2 def\n\
         1 begincodespacerange\n<0000> <ffff>\nendcodespacerange\n",
    );
    let rows: Vec<(&u16, &char)> = used.iter().collect();
    for rows in rows.chunks(100) {
        let _ = writeln!(map, "{} beginbfchar", rows.len());
        for (glyph, sign) in rows {
            let mut units = [0; 2];
            let bytes: Vec<u8> =
                sign.encode_utf16(&mut units).iter().flat_map(|unit| unit.to_be_bytes()).collect();
            let _ = writeln!(map, "<{glyph:04x}> <{}>", hexadecimal(&bytes));
        }
        map.push_str("endbfchar\n");
    }
    map.push_str("endcmap\nCMapName currentdict/CMap defineresource pop\nend\nend\n");
    map
}
