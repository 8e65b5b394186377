//! The pack that goes to site, put together: tables of `handover`, pictures of `drawing`, labels, and their files.
//!
//! No format is written here, and nothing is worked out: this is where what is handed over meets its pictures.
//!
//! * [`put_together`]: everything that a pack shows, for [`files`], for a typesetter or a page;
//! * [`cards`]: job cards, ready to be drawn; [`labels`]: label sheets with QR codes; [`pictures`]: every drawing;
//! * [`contents`]: the list of all files, by which a later run knows what people have changed.
//!
//! Nothing here touches a file: a pack is names and bytes, the same for the same input.

pub mod cards;
pub mod contents;
mod error;
pub mod labels;
pub mod pictures;
mod qr;

pub use contents::{CONTENTS_MARK, CONTENTS_NAME};
pub use error::PackError;

use latchline_handover::language::Word;
use latchline_handover::{
    Audience, Options, Pack, PackFile, PackInput, Part, Stamp, Subject, glossary, tables,
};
use latchline_workbook::{csv, xlsx};

/// Works out tables, drawings and labels.
///
/// # Errors
/// If the code of a label would hold too much.
pub fn put_together<'a>(
    input: &PackInput<'a>,
    options: &'a Options,
    stamp: &'a Stamp,
) -> Result<Pack<'a>, PackError> {
    let subject = Subject::new(input, options, stamp);
    let mut tables = tables::tables(&subject);
    let drawings = pictures::drawings(&subject);
    if options.wants(Part::Glossary) {
        tables.push(glossary::table(&subject, &tables, &drawings));
        tables.sort_by_key(|table| table.part);
    }
    let labels = if options.wants(Part::Labels) { labels::sheets(&subject)? } else { Vec::new() };
    Ok(Pack { subject, tables, drawings, labels })
}

/// The workbook, the tables, the drawings and the labels as files.
///
/// # Errors
/// If the workbook cannot be made.
pub fn files(pack: &Pack<'_>) -> Result<Vec<PackFile>, PackError> {
    let subject = &pack.subject;
    let mut files = Vec::new();
    if !pack.tables.is_empty() {
        files.push(PackFile {
            name: String::from("workbook.xlsx"),
            bytes: xlsx::workbook(subject, &pack.tables)?,
        });
    }
    for table in &pack.tables {
        files.push(PackFile {
            name: format!("tables/{:02}-{}.csv", table.part.number(), table.part),
            bytes: csv::table(subject, table).into_bytes(),
        });
    }
    files.extend(pictures::files(subject, &pack.drawings));
    files.extend(labels::files(&pack.labels));
    Ok(files)
}

/// The list of these files with their hashes: what the pack is, and whether it is whole.
pub fn contents_file(pack: &Pack<'_>, files: &[PackFile]) -> PackFile {
    let subject = &pack.subject;
    let mut head = format!("{}\n", tables::origin_line(subject));
    if let Some(errors) = tables::error_line(subject) {
        head.push_str(&format!("{errors}\n"));
    }
    for caution in tables::cautions(&subject.locale) {
        head.push_str(&format!("{caution}\n"));
    }
    for reader in subject.options.files_for() {
        let words = match reader {
            Audience::Installer => Word::FileForInstaller,
            Audience::Office => Word::FileForOffice,
            Audience::Client => Word::FileForClient,
        };
        head.push_str(&format!("{}\n", subject.locale.word(words)));
    }
    contents::list(&subject.site.title, &head, files)
}
