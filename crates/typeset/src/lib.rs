//! The pack as it is handed over: PDF of the whole and of each part.
//!
//! Everything comes as values from a [`Pack`]: its tables, its drawings and what stands over all of them. Sections
//! are laid out once and written twice, into the whole and into a file of their own:
//!
//! * `font`, `text`: the embedded sans, widths, lines; `page`: pages as they are laid out, and what is on them;
//! * `flow`: head, foot, headings, paragraphs; `columns`, `table`: tables over many pages; `front`: cover and contents;
//! * `paint`: marks and drawings onto a page; `emit`: pages, tags, links and bookmarks into a file;
//! * `pdf`: the file format. The few sentences of its own are rows of `latchline_words::typeset`.
//!
//! Files are made after PDF/UA-1 (ISO 14289-1), those with a date after PDF/A-2a (ISO 19005-2) too. Nothing in them
//! depends on clock or machine: the same pack gives the same bytes.

mod cell;
mod columns;
mod emit;
mod error;
mod flow;
mod font;
mod front;
mod page;
mod paint;
mod pdf;
mod sections;
mod table;
mod text;

use emit::About;
pub use error::TypesetError;
use font::Fonts;
use latchline_handover::tables::{cautions, error_line, origin_line};
use latchline_handover::{Audience, Pack, PackFile, Part};
use sections::PartSection;

/// Name of the file with the whole pack.
pub const WHOLE_NAME: &str = "pack.pdf";

/// The whole pack as one PDF, then each part as one, then one for each reader. Labels, which want stock of their own, are in
/// none of these but their own. The client's is set from a pack of its own where there is one: its tables hold less.
///
/// # Errors
/// If a file cannot be made, which is a mistake in Latchline.
pub fn pdfs(pack: &Pack<'_>, client: Option<&Pack<'_>>) -> Result<Vec<PackFile>, TypesetError> {
    let fonts = Fonts::new()?;
    let parts = sections::parts(&fonts, pack);
    let mut files = Vec::with_capacity(parts.len() + 1);
    let every: Vec<&PartSection<'_>> = parts.iter().collect();
    let bound = |pack: &Pack<'_>, audience, parts: &[&PartSection<'_>]| {
        let front = sections::front(&fonts, pack, audience, parts);
        let all: Vec<_> = front.iter().chain(parts.iter().map(|part| &part.section)).collect();
        emit::write(&fonts, &about(pack, &front[0].title), &all)
    };
    let audience = pack.subject.options.audience;
    files.push(PackFile { name: String::from(WHOLE_NAME), bytes: bound(pack, audience, &every)? });
    for part in &parts {
        let bytes = emit::write(&fonts, &about(pack, &part.section.title), &[&part.section])?;
        files.push(PackFile { name: part.file_name(), bytes });
    }
    for labels in pack.labels.iter().filter(|labels| !labels.sheets.is_empty()) {
        let section = sections::labels(&fonts, &pack.subject, labels);
        let bytes = emit::write(&fonts, &about(pack, &section.title), &[&section])?;
        files.push(PackFile { name: sections::label_file(labels), bytes });
    }
    for reader in pack.subject.options.files_for() {
        let (of_pack, own) = match client {
            Some(client) if reader == Audience::Client => (client, sections::parts(&fonts, client)),
            _ => (pack, Vec::new()),
        };
        let made: Vec<&PartSection<'_>> = if own.is_empty() { every.clone() } else { own.iter().collect() };
        let find = |part: &Part| made.iter().copied().find(|section| section.part == *part);
        let of_reader: Vec<&PartSection<'_>> =
            of_pack.subject.options.parts_of_file(reader).iter().filter_map(find).collect();
        let bytes = bound(of_pack, reader, &of_reader)?;
        files.push(PackFile { name: String::from(reader.file_name()), bytes });
    }
    Ok(files)
}

/// What a file with this title says of itself.
fn about(pack: &Pack<'_>, title: &str) -> About {
    let subject = &pack.subject;
    let mut description = vec![origin_line(subject)];
    description.extend(error_line(subject));
    description.extend(cautions(&subject.locale).into_iter().map(String::from));
    About {
        title: format!("{}: {title}", sections::site_title(subject)),
        description: description.join(" "),
        language: subject.locale.language,
        date: subject.stamp.date.clone(),
        foot: sections::foot(subject),
    }
}
