//! What the sections of a pack are: a part each, with cover and contents before them.

use crate::flow::Running;
use crate::font::Fonts;
use crate::front::{self, Cover, Entry};
use crate::page::{Bookmark, Child, Element, Kind, Page, Section};
use crate::table;
use latchline_finding::{Language, Severity};
use latchline_handover::language::Word;
use latchline_handover::tables::{cautions, error_line, places_of};
use latchline_handover::{Audience, Drawing, Pack, Part, Subject, Table};
use latchline_words::codes::title_of;
use latchline_words::template::all_names;
use latchline_words::typeset::{Sentence, Word as Own};
use std::collections::BTreeSet;

/// A part of the pack, laid out.
pub(crate) struct PartSection<'a> {
    pub(crate) part: Part,
    pub(crate) section: Section<'a>,
    /// Size of each sheet of a drawing.
    sizes: Vec<String>,
}

impl PartSection<'_> {
    /// Name of its own file.
    pub(crate) fn file_name(&self) -> String {
        format!("parts/{:02}-{}.pdf", self.part.number(), self.part)
    }
}

/// The title of the site, or a dash.
pub(crate) fn site_title<'a>(subject: &Subject<'a>) -> &'a str {
    if subject.site.title.is_empty() { "–" } else { &subject.site.title }
}

/// Revision and input, on each page.
pub(crate) fn foot(subject: &Subject<'_>) -> String {
    let locale = &subject.locale;
    let stamp = subject.stamp;
    let hash = stamp.short_input();
    let mut foot = format!("{} {}", locale.word(Word::Revision), stamp.revision);
    if let Some(date) = &stamp.date {
        foot.push_str(&format!(" · {}", locale.date(date)));
    }
    foot + &format!(" · {} {hash}…", locale.word(Word::InputHash))
}

/// What stands on every page of a part.
fn running(subject: &Subject<'_>, title: &str) -> Running {
    let language = subject.locale.language;
    Running {
        site: site_title(subject).to_string(),
        part: title.to_string(),
        part_continued: Sentence::Continued { what: title }.say(language),
        warning: error_line(subject),
    }
}

/// Every part, in the order of the pack.
pub(crate) fn parts<'a>(fonts: &'a Fonts, pack: &'a Pack<'_>) -> Vec<PartSection<'a>> {
    let subject = &pack.subject;
    let mut parts: Vec<PartSection<'a>> =
        pack.tables.iter().map(|table| table_section(fonts, subject, table)).collect();
    for drawing in pack.drawings.iter().filter(|drawing| !drawing.sheets.is_empty()) {
        parts.push(drawing_section(fonts, subject, drawing));
    }
    parts.sort_by_key(|part| part.part);
    parts
}

/// A table: the sentences that must be known, and its rows.
fn table_section<'a>(fonts: &'a Fonts, subject: &Subject<'_>, table: &'a Table) -> PartSection<'a> {
    let mut notes: Vec<&str> = table.notes.iter().map(String::as_str).collect();
    let locale = &subject.locale;
    let short = [locale.word(Word::CautionIsolate), locale.word(Word::CautionNoCertificate)];
    notes.extend(short.into_iter().filter(|caution| !table.notes.iter().any(|note| note == caution)));
    let running = running(subject, &table.title);
    let section = table::section(fonts, table, &notes, subject.options.paper, running, locale);
    PartSection { part: table.part, section, sizes: Vec::new() }
}

/// Name of the file with these labels.
pub(crate) fn label_file(labels: &Drawing) -> String {
    format!("labels/{}.pdf", labels.name)
}

/// Sheets of labels.
pub(crate) fn labels<'a>(fonts: &'a Fonts, subject: &Subject<'_>, labels: &'a Drawing) -> Section<'a> {
    let mut section = drawing_section(fonts, subject, labels).section;
    section.pages.iter_mut().for_each(|page| page.is_stock = true);
    section
}

/// The title of a part that is a drawing.
fn drawing_title(part: Part) -> Own {
    match part {
        Part::Overview => Own::Overview,
        Part::Profiles => Own::Profiles,
        Part::Signal => Own::Signal,
        Part::StartUp => Own::StartUp,
        Part::Cards => Own::SwitchSettings,
        Part::LockWiring => Own::LockWiring,
        Part::JobCards => Own::JobCards,
        Part::Labels => Own::Labels,
        _ => Own::Elevation,
    }
}

/// A drawing: a page for each sheet.
fn drawing_section<'a>(fonts: &'a Fonts, subject: &Subject<'_>, drawing: &'a Drawing) -> PartSection<'a> {
    let language = subject.locale.language;
    let title = drawing_title(drawing.part).say(language);
    let of = drawing.sheets.len();
    let mut tree = Element::new(Kind::Section);
    let (mut pages, mut bookmarks, mut sizes) = (Vec::new(), Vec::new(), Vec::new());
    for (page, scene) in drawing.sheets.iter().enumerate() {
        let mut figure = Element::new(Kind::Figure).words(&format!("{}. {}", scene.title, scene.description));
        figure.children.push(Child::Scene { page });
        tree.push(figure);
        let sheet = match drawing.part {
            // Cards are looked up by their place.
            Part::JobCards => scene.title.clone(),
            _ => Sentence::SheetOf { drawing: title, sheet: page + 1, of }.say(language),
        };
        bookmarks.push(Bookmark { title: sheet, page, y: 0.0 });
        sizes.push(size_name(scene.width_mm, scene.height_mm));
        pages.push(Page { scene: Some(scene), ..Page::new((scene.width_mm, scene.height_mm)) });
    }
    let section = Section::new(fonts, title.to_string(), pages, tree, bookmarks);
    PartSection { part: drawing.part, section, sizes }
}

/// The name of a size of sheet, or its edges in millimetres.
fn size_name(width: f64, height: f64) -> String {
    let (short, long) = (width.min(height), width.max(height));
    let named =
        [("A4", 210.0, 297.0), ("A3", 297.0, 420.0), ("Letter", 215.9, 279.4), ("Tabloid", 279.4, 431.8)];
    let found = named.iter().find(|(_, a, b)| (a - short).abs() < 0.2 && (b - long).abs() < 0.2);
    found.map_or_else(|| format!("{width:.0} × {height:.0} mm"), |(name, ..)| (*name).to_string())
}

/// Cover and contents.
pub(crate) fn front<'a>(
    fonts: &'a Fonts,
    pack: &Pack<'_>,
    audience: Audience,
    parts: &[&PartSection<'_>],
) -> Vec<Section<'a>> {
    let subject = &pack.subject;
    let language = subject.locale.language;
    let pages_of_parts: usize = parts.iter().map(|part| part.section.pages.len()).sum();
    let make = |before: usize| {
        let running = running(subject, Own::Contents.say(language));
        front::contents(fonts, subject.options.paper, running, &entries(language, parts, before))
    };
    // The number of its pages does not depend on the numbers in it.
    let pages_of_contents = make(0).pages.len();
    let mut missing: BTreeSet<char> =
        parts.iter().flat_map(|part| part.section.missing.iter().copied()).collect();
    missing.extend(site_title(subject).chars().filter(|sign| !fonts.has(*sign)));
    let make_cover = |pages_of_cover: usize| {
        let pages = pages_of_cover + pages_of_contents + pages_of_parts;
        front::cover(fonts, subject.options.paper, language, cover(pack, audience, pages, &missing))
    };
    let pages_of_cover = make_cover(1).pages.len();
    vec![make_cover(pages_of_cover), make(pages_of_cover + pages_of_contents)]
}

fn cover<'c>(pack: &'c Pack<'_>, audience: Audience, pages: usize, missing: &BTreeSet<char>) -> Cover<'c> {
    let subject = &pack.subject;
    let language = subject.locale.language;
    let locale = subject.locale;
    let stamp = subject.stamp;
    let date = stamp
        .date
        .as_ref()
        .map_or_else(|| locale.word(Word::NotStated).to_string(), |date| locale.date(date));
    let audience = match audience {
        Audience::Installer => Own::ForInstaller,
        Audience::Office => Own::ForOffice,
        Audience::Client => Own::ForClient,
    };
    let fact = |word: Word, value: String| (locale.word(word).to_string(), value);
    let facts = vec![
        fact(Word::Verdict, locale.verdict(subject).to_string()),
        fact(Word::Revision, revision(subject)),
        fact(Word::DateWord, date),
        fact(Word::InputHash, stamp.input_sha256.clone()),
        (Own::MadeFor.say(language).to_string(), audience.say(language).to_string()),
        (Own::Pages.say(language).to_string(), pages.to_string()),
    ];
    let mut remarks = Vec::new();
    let labels: Vec<String> =
        pack.labels.iter().filter(|labels| !labels.sheets.is_empty()).map(label_file).collect();
    if !labels.is_empty() {
        remarks.push(Sentence::LabelsApart { files: &labels.join(", ") }.say(language));
    }
    if !missing.is_empty() {
        remarks.push(Sentence::NoGlyph { codes: &codes(missing) }.say(language));
    }
    if stamp.date.is_none() {
        remarks.push(Own::NotArchival.say(language).to_string());
    }
    Cover {
        site: site_title(subject),
        running: running(subject, locale.word(Word::ContentsTitle)),
        facts,
        errors: (Own::Errors.say(language), errors_by_kind(subject)),
        cautions: (locale.word(Word::Cautions), cautions(&locale)),
        remarks,
    }
}

/// The revision that every sheet says, with what changed in it where the site file states it.
fn revision(subject: &Subject<'_>) -> String {
    let (locale, shown) = (&subject.locale, &subject.stamp.revision);
    let stated = subject.site.revisions.last().filter(|last| last.mark.value.trim() == shown.as_str());
    stated
        .map_or(shown.clone(), |last| format!("{shown} ({}): {}", locale.date(&last.date.value), last.change))
}

/// Most places of one kind of error that the cover names; of more it says how many, and where all of them stand.
const MOST_PLACES: usize = 40;

/// The errors of the site: each kind once, with its places; of two devices with one number both.
fn errors_by_kind(subject: &Subject<'_>) -> Vec<String> {
    let language = subject.locale.language;
    let mut kinds: Vec<(String, Vec<&str>)> = Vec::new();
    for finding in subject.findings.iter().filter(|finding| finding.severity == Severity::Error) {
        let title = title_of(finding.code.as_str(), language);
        let place = places_of(finding);
        match kinds.iter_mut().find(|(known, _)| *known == title) {
            Some((_, places)) => places.extend(place),
            None => kinds.push((title, place)),
        }
    }
    for (_, places) in &mut kinds {
        let mut seen = BTreeSet::new();
        places.retain(|place| seen.insert(*place));
    }
    let say = |(what, places): &(String, Vec<&str>)| match places.len() {
        count if count > MOST_PLACES => Sentence::ErrorOfMany { what, places: count }.say(language),
        _ => Sentence::ErrorOf { what, places: &all_names(places, language) }.say(language),
    };
    kinds.iter().map(say).collect()
}

/// Characters by their codes.
fn codes(signs: &BTreeSet<char>) -> String {
    const MOST: usize = 24;
    let mut codes: Vec<String> =
        signs.iter().take(MOST).map(|sign| format!("U+{:04X}", u32::from(*sign))).collect();
    if signs.len() > MOST {
        codes.push(format!("… ({})", signs.len()));
    }
    codes.join(", ")
}

/// A drawing in the register: sheets of one size that belong together are one entry.
fn register(language: Language, part: &PartSection<'_>, before: usize) -> Vec<Entry> {
    let titles: Vec<&str> = part.section.bookmarks.iter().map(|bookmark| bookmark.title.as_str()).collect();
    let sheets: Vec<usize> = (0..part.sizes.len()).collect();
    let belong = |one: &usize, next: &usize| {
        part.sizes[*one] == part.sizes[*next]
            && (part.part != Part::JobCards || titles[*one] == titles[*next])
    };
    let entry = |sheets: &[usize]| {
        let (first, of) = (sheets[0], sheets.len());
        let words = match part.part {
            Part::JobCards => titles[first].to_string(),
            _ if of == part.sizes.len() => {
                Sentence::Sheets { drawing: &part.section.title, of }.say(language)
            }
            _ => titles[first].to_string(),
        };
        let pages = before + first..before + first + of;
        Entry { words, remark: part.sizes[first].clone(), pages }
    };
    sheets.chunk_by(belong).map(entry).collect()
}

/// What the contents list, with `before` pages before the first part.
fn entries(language: Language, parts: &[&PartSection<'_>], before: usize) -> [(String, Vec<Entry>); 2] {
    let (mut contents, mut drawings) = (Vec::new(), Vec::new());
    let mut page = before;
    for part in parts {
        let pages = page..page + part.section.pages.len();
        page = pages.end;
        contents.push(Entry {
            words: part.section.title.clone(),
            remark: String::new(),
            pages: pages.clone(),
        });
        drawings.extend(register(language, part, pages.start));
    }
    [
        (Own::Contents.say(language).to_string(), contents),
        (Own::DrawingRegister.say(language).to_string(), drawings),
    ]
}
