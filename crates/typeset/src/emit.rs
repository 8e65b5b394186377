//! Laid-out sections into the bytes of one file: pages with their foot, tags, links, bookmarks.

use crate::error::TypesetError;
use crate::flow::{EDGE, FILING_MM, FOOT_BASELINE_MM, FOOT_RULE_MM, MARGIN_MM, THIN_MM};
use crate::font::{Fonts, MM_PER_POINT, NAMES, Used};
use crate::page::{Child, Element, Kind, Link, Mark, Page, Section};
use crate::paint::Painter;
use crate::pdf::content::Colour;
use crate::pdf::file::{File, Reference, number, string};
use crate::pdf::structure::{Kid, Structure, Tag};
use crate::pdf::{font, metadata, profile};
use latchline_finding::Language;
use latchline_handover::stamp::sha256;
use latchline_scene::font::shortened;
use latchline_words::typeset::Sentence;
use std::fmt::Write as _;

/// What a file says of itself.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct About {
    /// Title.
    pub(crate) title: String,
    /// Where it is from, with the cautions.
    pub(crate) description: String,
    /// Language of the texts.
    pub(crate) language: Language,
    /// Date (YYYY-MM-DD), if one is shown.
    pub(crate) date: Option<String>,
    /// Revision, input, errors: on the left of each foot.
    pub(crate) foot: String,
}

/// Names of what was drawn on a page.
struct Drawn {
    /// By block: its number among the marked content of the page.
    blocks: Vec<Option<usize>>,
    scene: Option<usize>,
    /// Number of its first link among those of the file.
    first_link: usize,
}

/// Writes a file of these sections.
///
/// # Errors
/// If the embedded font cannot be cut, which is a mistake in this crate.
pub(crate) fn write(
    fonts: &Fonts,
    about: &About,
    sections: &[&Section<'_>],
) -> Result<Vec<u8>, TypesetError> {
    let mut file = File::new();
    let all: Vec<&Page<'_>> = sections.iter().flat_map(|section| &section.pages).collect();
    let catalogue = file.reserve();
    let tree = file.reserve();
    let pages: Vec<Reference> = all.iter().map(|_| file.reserve()).collect();
    let font_objects = [file.reserve(), file.reserve()];
    let links: Vec<Reference> = all.iter().flat_map(|page| &page.links).map(|_| file.reserve()).collect();
    let resources =
        file.add(&format!("<</Font<</F1 {} /F2 {}>>/ProcSet[/PDF/Text]>>", font_objects[0], font_objects[1]));

    let mut used = Used::default();
    let mut drawn = Vec::with_capacity(all.len());
    let mut marked = Vec::with_capacity(all.len());
    let mut next_link = 0;
    for (index, page) in all.iter().enumerate() {
        let (content, mut names, count) = draw_page(fonts, &mut used, about, page, (index + 1, all.len()));
        names.first_link = next_link;
        let stream = file.reserve();
        file.stream(stream, "", content.as_bytes());
        let mut body = format!(
            "<</Type/Page/Parent {tree}/MediaBox[0 0 {} {}]/Resources {resources}/Contents {stream}\
             /StructParents {index}/Tabs/S",
            points(page.size.0),
            points(page.size.1)
        );
        if !page.links.is_empty() {
            let own: Vec<String> =
                links[next_link..next_link + page.links.len()].iter().map(Reference::to_string).collect();
            let _ = write!(body, "/Annots[{}]", own.join(" "));
            for (place, link) in page.links.iter().enumerate() {
                let key = all.len() + next_link + place;
                file.put(links[next_link + place], &annotation(link, page, (&pages, &all), key));
            }
            next_link += page.links.len();
        }
        file.put(pages[index], &(body + ">>"));
        drawn.push(names);
        marked.push(count);
    }
    let list: Vec<String> = pages.iter().map(Reference::to_string).collect();
    file.put(tree, &format!("<</Type/Pages/Count {}/Kids[{}]>>", pages.len(), list.join(" ")));

    for bold in [false, true] {
        let place = usize::from(bold);
        // A weight that nothing is set in still needs a glyph to be a font.
        if used[place].is_empty() {
            fonts.set(" ", bold, &mut used);
        }
        font::embed(&mut file, font_objects[place], fonts.font(bold), NAMES[place], bold, &used[place])
            .ok_or(TypesetError::Font)?;
    }

    let mut structure = Structure::new(&mut file, pages.clone(), &marked, links);
    let document = file.reserve();
    let mut kids = Vec::with_capacity(sections.len());
    let mut before = 0;
    for section in sections {
        kids.push(Kid::Element(tags(&mut file, &mut structure, document, &section.tree, (&drawn, before))));
        before += section.pages.len();
    }
    structure.element(&mut file, document, None, &Tag::new("Document"), &kids);
    let root = structure.finish(&mut file, document);
    let outline = outline(&mut file, sections, &pages, &all);
    let language = match about.language {
        Language::English => "en",
        Language::German => "de",
    };
    let id = identity(file.written(), about);
    let packet = metadata::packet(&metadata::Facts {
        title: &about.title,
        description: &about.description,
        language,
        date: about.date.as_deref(),
        id: &id,
    });
    let metadata = file.reserve();
    file.plain_stream(metadata, "/Type/Metadata/Subtype/XML", packet.as_bytes());
    let profile = file.reserve();
    file.stream(profile, "/N 3", &profile::srgb());
    file.put(
        catalogue,
        &format!(
            "<</Type/Catalog/Pages {tree}/Lang({language})/MarkInfo<</Marked true>>/StructTreeRoot {root}\
             /ViewerPreferences<</DisplayDocTitle true>>/PageMode/UseOutlines/Outlines {outline}/Metadata {metadata}\
             /OutputIntents[<</Type/OutputIntent/S/GTS_PDFA1/OutputConditionIdentifier(sRGB IEC61966-2.1)\
             /Info(sRGB IEC61966-2.1)/DestOutputProfile {profile}>>]>>"
        ),
    );
    let dates = about.date.as_ref().map_or_else(String::new, |date| {
        let digits = date.replace('-', "");
        format!("/CreationDate(D:{digits}000000Z)/ModDate(D:{digits}000000Z)")
    });
    let (title, creator) = (string(&about.title), metadata::CREATOR);
    let information = file.add(&format!("<</Title{title}/Creator({creator}){dates}>>"));
    Ok(file.finish(catalogue, information, &id))
}

/// 16 bytes that name the content: of a hash of the pages and of what the file says of itself.
fn identity(written: &[u8], about: &About) -> [u8; 16] {
    let date = about.date.as_deref().unwrap_or_default();
    let all = [sha256(written), about.title.clone(), about.description.clone(), date.to_string()].join("\n");
    let digits = sha256(all.as_bytes());
    let mut id = [0; 16];
    for (byte, two) in id.iter_mut().zip(digits.as_bytes().chunks(2)) {
        *byte = std::str::from_utf8(two).ok().and_then(|two| u8::from_str_radix(two, 16).ok()).unwrap_or(0);
    }
    id
}

fn points(mm: f64) -> String {
    number(mm / MM_PER_POINT, 3)
}

fn draw_page(
    fonts: &Fonts,
    used: &mut Used,
    about: &About,
    page: &Page<'_>,
    number: (usize, usize),
) -> (String, Drawn, usize) {
    let mut painter = Painter::new(page.size.1, fonts, used);
    let mut drawn = Drawn { blocks: Vec::with_capacity(page.blocks.len()), scene: None, first_link: 0 };
    if let Some(scene) = page.scene {
        drawn.scene = Some(painter.content.begin_marked());
        painter.scene(scene);
        painter.content.end();
    }
    for block in &page.blocks {
        let name = if block.marks.is_empty() {
            None
        } else if block.is_content {
            Some(painter.content.begin_marked())
        } else {
            painter.content.begin_artifact(false);
            None
        };
        if !block.marks.is_empty() {
            painter.marks(&block.marks);
            painter.content.end();
        }
        drawn.blocks.push(name);
    }
    if !page.is_stock {
        foot(&mut painter, fonts, about, page, number);
    }
    let (content, marked) = painter.content.finish();
    (content, drawn, marked)
}

/// A link to the top of another page.
fn annotation(
    link: &Link,
    page: &Page<'_>,
    (pages, all): (&[Reference], &[&Page<'_>]),
    key: usize,
) -> String {
    let (x, y, width, height) = link.area;
    let bottom = page.size.1 - y - height;
    format!(
        "<</Type/Annot/Subtype/Link/Rect[{} {} {} {}]/Border[0 0 0]/F 4/StructParent {key}/Contents{}\
         /Dest[{} /XYZ 0 {} 0]>>",
        points(x),
        points(bottom),
        points(x + width),
        points(bottom + height),
        string(&link.words),
        pages[link.to_page],
        points(all[link.to_page].size.1)
    )
}

/// The foot of a page of text; on a drawing, which has its own title block, a line up its filing margin.
fn foot(
    painter: &mut Painter<'_>,
    fonts: &Fonts,
    about: &About,
    page: &Page<'_>,
    (number, of): (usize, usize),
) {
    let words = Sentence::PageOf { page: number, of }.say(about.language);
    painter.content.begin_artifact(true);
    if page.scene.is_some() {
        let text = format!("{} · {words}", about.foot);
        let at = (FILING_MM / 2.0 - 2.0, page.size.1 - MARGIN_MM - 5.0);
        painter.text(at, &text, (EDGE.size_mm, false), true, Colour::BLACK);
    } else {
        let (left, right) = (FILING_MM, page.size.0 - MARGIN_MM);
        let y = page.size.1 - FOOT_BASELINE_MM;
        let words_width = EDGE.width_mm(fonts, &words);
        let room = right - left - words_width - 5.0;
        let text =
            |x, text| Mark::Text { at: (x, y), text, size_mm: EDGE.size_mm, bold: false, is_white: false };
        let rule = page.size.1 - FOOT_RULE_MM;
        painter.marks(&[
            Mark::Line { from: (left, rule), to: (right, rule), width_mm: THIN_MM },
            text(left, shortened(&about.foot, EDGE.size_mm, false, room)),
            text(right - words_width, words),
        ]);
    }
    painter.content.end();
}

/// Writes an element with all below it.
fn tags(
    file: &mut File,
    structure: &mut Structure,
    parent: Reference,
    element: &Element,
    (drawn, before): (&[Drawn], usize),
) -> Reference {
    let reference = file.reserve();
    let words = element.words.as_deref();
    let tag = match element.kind {
        Kind::Section => Tag::new("Sect"),
        Kind::Heading(1) => Tag { title: words, ..Tag::new("H1") },
        Kind::Heading(_) => Tag { title: words, ..Tag::new("H2") },
        Kind::Paragraph => Tag::new("P"),
        Kind::Table => Tag::new("Table"),
        Kind::TableHead => Tag::new("THead"),
        Kind::TableBody => Tag::new("TBody"),
        Kind::Row => Tag::new("TR"),
        Kind::ColumnHeader => Tag { entries: "/A<</O/Table/Scope/Column>>", ..Tag::new("TH") },
        Kind::RowHeader => Tag { entries: "/A<</O/Table/Scope/Row>>", ..Tag::new("TH") },
        Kind::GroupHeader(columns) => Tag { columns: Some(columns), ..Tag::new("TH") },
        Kind::Cell => Tag::new("TD"),
        Kind::Figure => Tag { description: words, ..Tag::new("Figure") },
        Kind::Contents => Tag::new("TOC"),
        Kind::ContentsItem => Tag::new("TOCI"),
        Kind::Link => Tag::new("Link"),
    };
    let mut kids = Vec::with_capacity(element.children.len());
    for child in &element.children {
        match child {
            Child::Element(element) => {
                kids.push(Kid::Element(tags(file, structure, reference, element, (drawn, before))));
            }
            Child::Block { page, block } => {
                let page = before + page;
                kids.extend(drawn[page].blocks[*block].map(|number| Kid::Content(page, number)));
            }
            Child::Scene { page } => {
                let page = before + page;
                kids.extend(drawn[page].scene.map(|number| Kid::Content(page, number)));
            }
            Child::Link { page, link } => {
                let page = before + page;
                kids.push(Kid::Annotation(page, drawn[page].first_link + link));
            }
        }
    }
    structure.element(file, reference, Some(parent), &tag, &kids);
    reference
}

/// Writes the bookmarks: a closed entry for each section, with those within it; gives their root.
fn outline(file: &mut File, sections: &[&Section<'_>], pages: &[Reference], all: &[&Page<'_>]) -> Reference {
    let root = file.reserve();
    let entries: Vec<Reference> = sections.iter().map(|_| file.reserve()).collect();
    let target = |page: usize, y: f64| format!("[{} /XYZ 0 {} 0]", pages[page], points(all[page].size.1 - y));
    let beside = |list: &[Reference], at: usize| {
        let mut text = String::new();
        if at > 0 {
            let _ = write!(text, "/Prev {}", list[at - 1]);
        }
        if let Some(next) = list.get(at + 1) {
            let _ = write!(text, "/Next {next}");
        }
        text
    };
    let mut before = 0;
    for (at, section) in sections.iter().enumerate() {
        let within: Vec<Reference> = section.bookmarks.iter().map(|_| file.reserve()).collect();
        for (place, bookmark) in section.bookmarks.iter().enumerate() {
            let body = format!(
                "<</Title{}/Parent {}/Dest{}{}>>",
                string(&bookmark.title),
                entries[at],
                target(before + bookmark.page, (bookmark.y - 2.0).max(0.0)),
                beside(&within, place)
            );
            file.put(within[place], &body);
        }
        let mut body = format!(
            "<</Title{}/Parent {root}/Dest{}{}",
            string(&section.title),
            target(before, 0.0),
            beside(&entries, at)
        );
        if let (Some(first), Some(last)) = (within.first(), within.last()) {
            // A negative count: closed at first.
            let _ = write!(body, "/First {first}/Last {last}/Count -{}", within.len());
        }
        file.put(entries[at], &(body + ">>"));
        before += section.pages.len();
    }
    if let (Some(first), Some(last)) = (entries.first(), entries.last()) {
        let count = entries.len();
        file.put(root, &format!("<</Type/Outlines/First {first}/Last {last}/Count {count}>>"));
    } else {
        file.put(root, "<</Type/Outlines>>");
    }
    root
}
