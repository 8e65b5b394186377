//! Text that flows over pages: head, foot, headings, paragraphs. Tables come on top of it.

use crate::font::{Fonts, MM_PER_POINT};
use crate::page::{Bookmark, Child, Element, Kind, Mark, Page, Section};
use crate::text::{Style, wrapped};
use latchline_handover::Paper;
use latchline_scene::font::shortened;

/// Body text: 9 points.
pub(crate) const BODY: Style = Style { size_mm: 9.0 * MM_PER_POINT, bold: false };
/// The same in bold.
pub(crate) const BODY_BOLD: Style = Style { bold: true, ..BODY };
/// Head and foot of a page: 8 points.
pub(crate) const EDGE: Style = Style { size_mm: 8.0 * MM_PER_POINT, bold: false };
/// Title of a part: 16 points.
const TITLE: Style = Style { size_mm: 16.0 * MM_PER_POINT, bold: true };
/// What a site with errors says on each page: 12 points.
const WARNING: Style = Style { size_mm: 12.0 * MM_PER_POINT, bold: true };

/// Thin, middle, thick and heavy lines (ISO 128).
pub(crate) const THIN_MM: f64 = 0.25;
pub(crate) const MIDDLE_MM: f64 = 0.35;
pub(crate) const THICK_MM: f64 = 0.5;
pub(crate) const HEAVY_MM: f64 = 0.7;

/// Left margin, for filing (ISO 5457), and the other three.
pub(crate) const FILING_MM: f64 = 20.0;
pub(crate) const MARGIN_MM: f64 = 10.0;
/// Baseline of the head, and the rule below it, from the top of the page.
const HEAD_BASELINE_MM: f64 = 13.2;
const HEAD_RULE_MM: f64 = 15.0;
/// Where the text begins.
const TOP_MM: f64 = 19.0;
/// Rule above the foot and its baseline, from the lower edge.
pub(crate) const FOOT_RULE_MM: f64 = 13.6;
pub(crate) const FOOT_BASELINE_MM: f64 = 10.0;
/// Room between the text and the rule above the foot.
const ABOVE_FOOT_MM: f64 = 2.4;

/// How a page lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Way {
    /// Upright.
    Portrait,
    /// On its side.
    Landscape,
}

/// Width and height of a page in millimetres.
pub(crate) fn page_size(paper: Paper, way: Way) -> (f64, f64) {
    let (short, long) = match paper {
        Paper::A4 => (210.0, 297.0),
        Paper::Letter => (215.9, 279.4),
    };
    match way {
        Way::Portrait => (short, long),
        Way::Landscape => (long, short),
    }
}

/// Room for text across a page of this width.
pub(crate) fn text_width(page_width: f64) -> f64 {
    page_width - FILING_MM - MARGIN_MM
}

/// What stands on every page of a section.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Running {
    /// On the left of the head: the site.
    pub(crate) site: String,
    /// On the right of it: the part.
    pub(crate) part: String,
    /// The same from the second page on.
    pub(crate) part_continued: String,
    /// What a site with errors says.
    pub(crate) warning: Option<String>,
}

/// A section that is being filled.
pub(crate) struct Flow<'f> {
    pub(crate) fonts: &'f Fonts,
    running: Running,
    size: (f64, f64),
    pages: Vec<Page<'f>>,
    /// Where the next thing goes, from the top of the page.
    pub(crate) y: f64,
    tree: Element,
    bookmarks: Vec<Bookmark>,
}

impl<'f> Flow<'f> {
    /// An empty section with its first page.
    pub(crate) fn new(fonts: &'f Fonts, size: (f64, f64), running: Running) -> Flow<'f> {
        let tree = Element::new(Kind::Section);
        let mut flow = Flow { fonts, running, size, pages: Vec::new(), y: 0.0, tree, bookmarks: Vec::new() };
        flow.next_page();
        flow
    }

    /// Room for text across the page.
    pub(crate) fn width(&self) -> f64 {
        text_width(self.size.0)
    }

    /// Where the text of a page ends.
    fn bottom(&self) -> f64 {
        self.size.1 - FOOT_RULE_MM - ABOVE_FOOT_MM
    }

    /// What is left of the page.
    pub(crate) fn room(&self) -> f64 {
        self.bottom() - self.y
    }

    /// Room of a fresh page.
    pub(crate) fn full_room(&self) -> f64 {
        self.bottom() - TOP_MM - self.warning_height()
    }

    /// Number of the page that is being filled, from 0.
    pub(crate) fn page_number(&self) -> usize {
        self.pages.len() - 1
    }

    /// The page that is being filled.
    pub(crate) fn page(&mut self) -> &mut Page<'f> {
        let last = self.pages.len() - 1;
        &mut self.pages[last]
    }

    /// Adds an element to the tree.
    pub(crate) fn push(&mut self, element: Element) {
        self.tree.push(element);
    }

    /// Adds a bookmark to where the next thing goes.
    pub(crate) fn bookmark(&mut self, title: &str) {
        let page = self.page_number();
        self.bookmarks.push(Bookmark { title: title.to_string(), page, y: self.y });
    }

    fn warning_lines(&self) -> Vec<String> {
        let room = self.width() - 6.0;
        self.running.warning.iter().flat_map(|words| wrapped(self.fonts, words, WARNING, room)).collect()
    }

    fn warning_height(&self) -> f64 {
        match self.warning_lines().len() {
            0 => 0.0,
            lines => lines as f64 * WARNING.line_mm() + 3.0 + 3.0,
        }
    }

    /// Begins another page.
    pub(crate) fn next_page(&mut self) {
        let is_first = self.pages.is_empty();
        let mut page = Page::new(self.size);
        let (left, right) = (FILING_MM, self.size.0 - MARGIN_MM);
        let words = if is_first { &self.running.part } else { &self.running.part_continued };
        let words = shortened(words, EDGE.size_mm, false, self.width() * 0.6);
        let words_width = EDGE.width_mm(self.fonts, &words);
        let site = shortened(&self.running.site, EDGE.size_mm, true, self.width() - words_width - 6.0);
        let text = |x, text, bold| Mark::Text {
            at: (x, HEAD_BASELINE_MM),
            text,
            size_mm: EDGE.size_mm,
            bold,
            is_white: false,
        };
        page.artifact(vec![
            text(left, site, true),
            text(right - words_width, words, false),
            Mark::Line { from: (left, HEAD_RULE_MM), to: (right, HEAD_RULE_MM), width_mm: MIDDLE_MM },
        ]);
        self.y = TOP_MM;
        let lines = self.warning_lines();
        if !lines.is_empty() {
            let height = lines.len() as f64 * WARNING.line_mm() + 3.0;
            page.artifact(vec![Mark::Rectangle {
                area: (left, self.y, right - left, height),
                fill: Some(0),
                outline_mm: None,
            }]);
            let marks = lines.into_iter().enumerate().map(|(index, line)| Mark::Text {
                at: (left + 3.0, self.y + 1.5 + index as f64 * WARNING.line_mm() + WARNING.baseline_mm()),
                text: line,
                size_mm: WARNING.size_mm,
                bold: true,
                is_white: true,
            });
            let marks = marks.collect();
            if is_first {
                let block = page.content(marks);
                self.tree.push(Element::of_block(Kind::Paragraph, 0, block));
            } else {
                page.artifact(marks);
            }
            self.y += height + 3.0;
        }
        self.pages.push(page);
    }

    /// Begins another page unless so much is left.
    pub(crate) fn need(&mut self, height: f64) {
        if self.room() < height && self.room() < self.full_room() - 1e-6 {
            self.next_page();
        }
    }

    /// The title of the section, or a heading within it.
    pub(crate) fn heading(&mut self, words: &str, level: u16) {
        let style = if level == 1 { TITLE } else { Style { size_mm: 11.0 * MM_PER_POINT, bold: true } };
        if level > 1 {
            self.y += 2.5;
        }
        self.need(style.line_mm() + 14.0);
        let lines = self.lines(words, style, 0.0);
        let blocks = self.set_lines(lines, style, 0.0);
        let mut element = Element::new(Kind::Heading(level)).words(words);
        element.children = blocks.into_iter().map(|(page, block)| Child::Block { page, block }).collect();
        self.push(element);
        self.y += if level == 1 { 2.5 } else { 1.0 };
    }

    /// A paragraph.
    pub(crate) fn paragraph(&mut self, words: &str, style: Style) {
        let lines = self.lines(words, style, 0.0);
        let blocks = self.set_lines(lines, style, 0.0);
        let mut element = Element::new(Kind::Paragraph);
        element.children = blocks.into_iter().map(|(page, block)| Child::Block { page, block }).collect();
        self.push(element);
        self.y += 1.2;
    }

    /// The lines of a text across the page, `indent` from its left.
    pub(crate) fn lines(&self, words: &str, style: Style, indent: f64) -> Vec<String> {
        // Longer lines than these are hard to follow with the eye.
        let room = (self.width() - indent).min(style.size_mm * 62.0);
        wrapped(self.fonts, words, style, room)
    }

    /// Sets lines, on as many pages as they need; gives the blocks with their pages.
    pub(crate) fn set_lines(&mut self, lines: Vec<String>, style: Style, indent: f64) -> Vec<(usize, usize)> {
        let mut blocks = Vec::new();
        let mut marks = Vec::new();
        for line in lines {
            if self.room() < style.line_mm() && self.room() < self.full_room() - 1e-6 {
                if !marks.is_empty() {
                    let block = self.page().content(std::mem::take(&mut marks));
                    blocks.push((self.page_number(), block));
                }
                self.next_page();
            }
            marks.push(Mark::Text {
                at: (FILING_MM + indent, self.y + style.baseline_mm()),
                text: line,
                size_mm: style.size_mm,
                bold: style.bold,
                is_white: false,
            });
            self.y += style.line_mm();
        }
        if !marks.is_empty() {
            let block = self.page().content(marks);
            blocks.push((self.page_number(), block));
        }
        blocks
    }

    /// The section.
    pub(crate) fn finish(self) -> Section<'f> {
        let title = self.running.part;
        Section::new(self.fonts, title, self.pages, self.tree, self.bookmarks)
    }
}
