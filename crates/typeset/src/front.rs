//! The cover and the contents.

use crate::flow::{BODY, BODY_BOLD, FILING_MM, Flow, HEAVY_MM, Running, THIN_MM, Way, page_size};
use crate::font::{Fonts, MM_PER_POINT};
use crate::page::{Child, Element, Kind, Link, Mark, Section};
use crate::text::{Style, wrapped};
use latchline_finding::Language;
use latchline_handover::Paper;
use latchline_words::typeset::Word;
use std::ops::Range;

const SITE: Style = Style { size_mm: 26.0 * MM_PER_POINT, bold: true };
const WHAT: Style = Style { size_mm: 13.0 * MM_PER_POINT, bold: false };
const SMALL_HEAD: Style = Style { size_mm: 11.0 * MM_PER_POINT, bold: true };

/// What the cover says.
pub(crate) struct Cover<'c> {
    /// Title of the site.
    pub(crate) site: &'c str,
    /// What stands in the head and the warning.
    pub(crate) running: Running,
    /// Item and value in turn.
    pub(crate) facts: Vec<(String, String)>,
    /// Heading of the errors of the site, and these.
    pub(crate) errors: (&'c str, Vec<String>),
    /// Heading of the cautions, and these.
    pub(crate) cautions: (&'c str, Vec<&'c str>),
    /// What must be known of this file.
    pub(crate) remarks: Vec<String>,
}

/// The cover.
pub(crate) fn cover<'f>(fonts: &'f Fonts, paper: Paper, language: Language, cover: Cover<'_>) -> Section<'f> {
    let mut flow = Flow::new(fonts, page_size(paper, Way::Portrait), cover.running);
    // Errors take the room above the title, so that the cautions stay on the cover.
    flow.y += if cover.errors.1.is_empty() { 24.0 } else { 4.0 };
    let title = wrapped(fonts, cover.site, SITE, flow.width());
    let blocks = flow.set_lines(title, SITE, 0.0);
    let mut element = Element::new(Kind::Heading(1)).words(cover.site);
    element.children = blocks.into_iter().map(|(page, block)| Child::Block { page, block }).collect();
    flow.push(element);
    flow.y += 2.0;
    flow.paragraph(Word::DoorEntryPack.say(language), WHAT);
    flow.y += if cover.errors.1.is_empty() { 10.0 } else { 4.0 };
    facts(&mut flow, &cover.facts);
    if !cover.errors.1.is_empty() {
        flow.y += 8.0;
        let errors: Vec<&str> = cover.errors.1.iter().map(String::as_str).collect();
        boxed(&mut flow, cover.errors.0, &errors);
    }
    flow.y += 8.0;
    boxed(&mut flow, cover.cautions.0, &cover.cautions.1);
    flow.y += 6.0;
    for remark in &cover.remarks {
        flow.paragraph(remark, BODY);
    }
    flow.finish()
}

/// Item and value in two columns between thin rules.
fn facts(flow: &mut Flow<'_>, facts: &[(String, String)]) {
    const ITEM_MM: f64 = 48.0;
    let mut table = Element::new(Kind::Table);
    let mut body = Element::new(Kind::TableBody);
    for (item, value) in facts {
        let lines = wrapped(flow.fonts, value, BODY, flow.width() - ITEM_MM);
        let height = lines.len() as f64 * BODY.line_mm() + 2.0;
        flow.need(height);
        let (page, y) = (flow.page_number(), flow.y);
        let right = FILING_MM + flow.width();
        let text = |x: f64, line: usize, text: &str, style: Style| Mark::Text {
            at: (x, y + 1.0 + line as f64 * BODY.line_mm() + style.baseline_mm()),
            text: text.to_string(),
            size_mm: style.size_mm,
            bold: style.bold,
            is_white: false,
        };
        let item_block = flow.page().content(vec![text(FILING_MM, 0, item, BODY_BOLD)]);
        let marks =
            lines.iter().enumerate().map(|(index, line)| text(FILING_MM + ITEM_MM, index, line, BODY));
        let value_block = flow.page().content(marks.collect());
        let line = Mark::Line { from: (FILING_MM, y + height), to: (right, y + height), width_mm: THIN_MM };
        flow.page().artifact(vec![line]);
        let mut row = Element::new(Kind::Row);
        row.push(Element::of_block(Kind::RowHeader, page, item_block));
        row.push(Element::of_block(Kind::Cell, page, value_block));
        body.push(row);
        flow.y += height;
    }
    table.push(body);
    flow.push(table);
}

/// Sentences in a frame, under a heading.
fn boxed(flow: &mut Flow<'_>, heading: &str, sentences: &[&str]) {
    const INSET_MM: f64 = 4.0;
    let room = flow.width() - 2.0 * INSET_MM;
    let lines: usize = sentences.iter().map(|words| wrapped(flow.fonts, words, BODY, room - 4.0).len()).sum();
    let height = 2.0 * INSET_MM
        + SMALL_HEAD.line_mm()
        + 1.5
        + lines as f64 * BODY.line_mm()
        + sentences.len() as f64 * 1.0;
    flow.need(height);
    let top = flow.y;
    let width = flow.width();
    let area = (FILING_MM, top, width, height);
    flow.page().artifact(vec![Mark::Rectangle { area, fill: None, outline_mm: Some(HEAVY_MM) }]);
    flow.y += INSET_MM;
    let set = |flow: &mut Flow<'_>, lines: Vec<String>, style: Style, indent: f64| {
        let blocks = flow.set_lines(lines, style, indent);
        blocks.into_iter().map(|(page, block)| Child::Block { page, block }).collect::<Vec<_>>()
    };
    let mut element = Element::new(Kind::Heading(2)).words(heading);
    element.children = set(flow, vec![heading.to_string()], SMALL_HEAD, INSET_MM);
    flow.push(element);
    flow.y += 1.5;
    for words in sentences {
        let y = flow.y;
        let square = (FILING_MM + INSET_MM, y + 1.45, 1.2, 1.2);
        flow.page().artifact(vec![Mark::Rectangle { area: square, fill: Some(0), outline_mm: None }]);
        let lines = wrapped(flow.fonts, words, BODY, room - 4.0);
        let mut element = Element::new(Kind::Paragraph);
        element.children = set(flow, lines, BODY, INSET_MM + 4.0);
        flow.push(element);
        flow.y += 1.0;
    }
    flow.y = top + height;
}

/// An entry of the contents.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Entry {
    /// Its words.
    pub(crate) words: String,
    /// What stands between them and the number of the page: a size of sheet.
    pub(crate) remark: String,
    /// Pages of the document, from 0: the first, and the one behind the last.
    pub(crate) pages: Range<usize>,
}

impl Entry {
    /// The numbers of its pages, as a reader counts them.
    fn numbers(&self) -> String {
        let (first, last) = (self.pages.start + 1, self.pages.end.max(self.pages.start + 1));
        if first == last { first.to_string() } else { format!("{first}–{last}") }
    }
}

/// The contents: each group of entries under its heading.
pub(crate) fn contents<'f>(
    fonts: &'f Fonts,
    paper: Paper,
    running: Running,
    groups: &[(String, Vec<Entry>)],
) -> Section<'f> {
    let mut flow = Flow::new(fonts, page_size(paper, Way::Portrait), running);
    for (index, (heading, entries)) in groups.iter().filter(|(_, entries)| !entries.is_empty()).enumerate() {
        flow.heading(heading, if index == 0 { 1 } else { 2 });
        let mut list = Element::new(Kind::Contents);
        for entry in entries {
            list.push(self::entry(&mut flow, entry));
        }
        flow.push(list);
        flow.y += 3.0;
    }
    flow.finish()
}

fn entry(flow: &mut Flow<'_>, entry: &Entry) -> Element {
    const NUMBER_MM: f64 = 18.0;
    const REMARK_MM: f64 = 26.0;
    const ROW_MM: f64 = 5.4;
    let room = flow.width() - NUMBER_MM - REMARK_MM - 3.0;
    let lines = wrapped(flow.fonts, &entry.words, BODY, room);
    let height = (lines.len() - 1) as f64 * BODY.line_mm() + ROW_MM;
    flow.need(height);
    let (page, y) = (flow.page_number(), flow.y);
    let right = FILING_MM + flow.width();
    let number = entry.numbers();
    let number_width = BODY.width_mm(flow.fonts, &number);
    let text = |x: f64, line: usize, text: &str| Mark::Text {
        at: (x, y + 0.7 + line as f64 * BODY.line_mm() + BODY.baseline_mm()),
        text: text.to_string(),
        size_mm: BODY.size_mm,
        bold: false,
        is_white: false,
    };
    let mut marks: Vec<Mark> =
        lines.iter().enumerate().map(|(index, line)| text(FILING_MM, index, line)).collect();
    if !entry.remark.is_empty() {
        marks.push(text(right - NUMBER_MM - REMARK_MM, 0, &entry.remark));
    }
    marks.push(text(right - number_width, 0, &number));
    let block = flow.page().content(marks);
    let line = Mark::Line { from: (FILING_MM, y + height), to: (right, y + height), width_mm: THIN_MM };
    flow.page().artifact(vec![line]);
    let area = (FILING_MM, y, flow.width(), height);
    let link = flow.page().links.len();
    flow.page().links.push(Link { area, to_page: entry.pages.start, words: entry.words.clone() });
    flow.y += height;
    let mut link_element = Element::of_block(Kind::Link, page, block);
    link_element.children.push(Child::Link { page, link });
    let mut item = Element::new(Kind::ContentsItem);
    item.push(link_element);
    item
}
