//! The pack that goes to site: schedules, cut list, commissioning sheets, labels, workbook, drawings.
//!
//! What stands in it comes from the site, its wiring, its assessment, its predicted readings and its cut list
//! ([`PackInput`]); nothing is solved here. It is put once into [`Table`]s with typed cells, and written in every
//! format from there:
//!
//! * [`table`]: tables, rows and cells;
//! * [`tables`]: what each table holds;
//! * [`language`]: every word and sentence, one module per language; [`locale`]: numbers, units, dates;
//! * [`commissioning`]: the two commissioning sheets step by step;
//! * [`job_cards`]: which device and which step is on which card;
//! * [`built`]: what of that is otherwise than planned, as edits of the site file;
//! * [`filled`]: what was written into the workbook of an earlier pack, carried over;
//! * [`contents`]: the list of all files, by which a later run knows what people have changed;
//! * [`write`](mod@write): CSV, XLSX; [`labels`]: label sheets with QR codes; [`pictures`]: drawings.
//!
//! Nothing here touches a file: [`Pack`] gives names and bytes, the same for the same input.

pub mod built;
pub mod commissioning;
pub mod contents;
mod device_code;
mod file;
pub mod filled;
mod glossary;
pub mod job_cards;
pub mod labels;
pub mod language;
pub mod locale;
pub mod options;
pub mod pictures;
mod qr;
pub mod stamp;
mod step;
pub mod subject;
pub mod table;
pub mod tables;
pub mod write;

pub use contents::{CONTENTS_MARK, CONTENTS_NAME};
pub use file::{PackError, PackFile};
pub use options::{Audience, Options, Paper, Part};
pub use pictures::Drawing;
pub use stamp::Stamp;
pub use subject::{PackInput, Subject};
pub use table::{Cell, Choice, Column, Entry, Role, Row, Table};

/// Everything that a pack shows, before it is written in any format.
pub struct Pack<'a> {
    /// What it is made from.
    pub subject: Subject<'a>,
    /// Every table that is wanted, in the order of the pack.
    pub tables: Vec<Table>,
    /// Tables without the names of people: what files for one reader have in place of that of the same part.
    pub unnamed: Vec<Table>,
    /// Every drawing that is wanted, in the order of the pack.
    pub drawings: Vec<Drawing>,
    /// The label sheets, if wanted.
    pub labels: Vec<Drawing>,
}

impl<'a> Pack<'a> {
    /// Works out tables, drawings and labels.
    ///
    /// # Errors
    /// If the code of a label would hold too much.
    pub fn new(input: &PackInput<'a>, options: &'a Options, stamp: &'a Stamp) -> Result<Pack<'a>, PackError> {
        let subject = Subject::new(input, options, stamp);
        let mut tables = tables::tables(&subject);
        let drawings = pictures::drawings(&subject);
        if options.wants(Part::Glossary) {
            tables.push(glossary::table(&subject, &tables, &drawings));
            tables.sort_by_key(|table| table.part);
        }
        let unnamed = match options.wants(Part::Revisions) && !options.with_names {
            true => vec![tables::revisions_table(&subject, false)],
            false => Vec::new(),
        };
        let labels = if options.wants(Part::Labels) { labels::sheets(&subject)? } else { Vec::new() };
        Ok(Pack { subject, tables, unnamed, drawings, labels })
    }

    /// The workbook, the tables, the drawings and the labels as files.
    ///
    /// # Errors
    /// If the workbook cannot be made.
    pub fn files(&self) -> Result<Vec<PackFile>, PackError> {
        let subject = &self.subject;
        let mut files = Vec::new();
        if !self.tables.is_empty() {
            files.push(PackFile {
                name: String::from("workbook.xlsx"),
                bytes: write::xlsx::workbook(subject, &self.tables)?,
            });
        }
        for table in &self.tables {
            files.push(PackFile {
                name: format!("tables/{:02}-{}.csv", table.part.number(), table.part),
                bytes: write::csv::table(subject, table).into_bytes(),
            });
        }
        files.extend(pictures::files(subject, &self.drawings));
        files.extend(labels::files(&self.labels));
        Ok(files)
    }

    /// The list of these files: what the pack is, and whether it is whole.
    pub fn contents(&self, files: &[PackFile]) -> PackFile {
        contents_of(&self.subject, files)
    }
}

/// The list of all files with their hashes: what the pack is, and whether it is whole.
fn contents_of(subject: &Subject<'_>, files: &[PackFile]) -> PackFile {
    let mut head = format!(
        "{}
",
        tables::origin_line(subject)
    );
    if let Some(errors) = tables::error_line(subject) {
        head.push_str(&format!("{errors}\n"));
    }
    for caution in tables::cautions(&subject.locale) {
        head.push_str(&format!("{caution}\n"));
    }
    for reader in subject.options.files_for() {
        let words = match reader {
            Audience::Installer => language::Word::FileForInstaller,
            Audience::Office => language::Word::FileForOffice,
            Audience::Client => language::Word::FileForClient,
        };
        head.push_str(&format!("{}\n", subject.locale.word(words)));
    }
    contents::list(&subject.site.title, &head, files)
}
