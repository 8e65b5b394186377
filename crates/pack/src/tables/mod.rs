//! The tables of the pack, one file each.

mod before_power;
mod cables;
mod calculations;
mod calls;
mod cut_list;
mod devices;
mod doors;
mod drops;
mod handover;
mod in_hand;
mod label_facts;
mod live;
mod parts;
mod snags;
mod steps;
mod summary;
mod supplies;
mod voltages;
mod wiring;

pub use before_power::sheet as before_power_sheet;
pub use devices::{address_words, kind_words, model_name, setting_words};
pub use handover::table as handover_table;
pub use label_facts::{LabelFacts, label_facts, label_foot};
pub use live::sheet as live_sheet;
pub use snags::standing_findings;
pub use wiring::{item_title, rows_of_item};

use crate::language::{Sentence, Word};
use crate::locale::Locale;
use crate::options::Part;
use crate::subject::Subject;
use crate::table::{Column, Table};

/// Every table that is wanted, in the order of the pack.
pub fn tables(subject: &Subject<'_>) -> Vec<Table> {
    let mut tables = Vec::new();
    for part in Part::ALL.iter().filter(|part| subject.options.wants(**part)) {
        tables.push(match part {
            Part::Summary => summary::table(subject),
            Part::InHand => in_hand::table(subject),
            Part::Calculations => calculations::table(subject),
            Part::Wiring => wiring::table(subject),
            Part::Devices => devices::table(subject),
            Part::Cables => cables::table(subject),
            Part::CutList => cut_list::table(subject),
            Part::Parts => parts::table(subject),
            Part::Calls => calls::table(subject),
            Part::Names => calls::names(subject),
            Part::Doors => doors::table(subject),
            Part::Supplies => supplies::table(subject),
            Part::Voltages => voltages::table(subject),
            Part::BeforePower => before_power::table(subject),
            Part::Live => live::table(subject),
            Part::Snags => snags::table(subject),
            Part::Handover => handover::table(subject),
            Part::Elevation
            | Part::Profiles
            | Part::Signal
            | Part::StartUp
            | Part::Cards
            | Part::LockWiring
            | Part::Labels => {
                continue;
            }
        });
    }
    tables
}

/// The cautions that every file carries.
pub fn cautions(locale: &Locale) -> Vec<&'static str> {
    [
        Word::CautionIsolate,
        Word::CautionMains,
        Word::CautionApart,
        Word::CautionEscape,
        Word::CautionCodes,
        Word::CautionNoCertificate,
    ]
    .into_iter()
    .map(|word| locale.word(word))
    .collect()
}

/// The line that says which site, revision and input a file is made from.
pub fn origin_line(subject: &Subject<'_>) -> String {
    let site = if subject.site.title.is_empty() { "–" } else { &subject.site.title };
    let (revision, hash) = (&subject.stamp.revision, &subject.stamp.input_sha256);
    match &subject.stamp.date {
        Some(date) => {
            let date = subject.locale.date(date);
            subject.locale.say(&Sentence::Origin { site, revision, date: &date, hash })
        }
        None => subject.locale.say(&Sentence::OriginUndated { site, revision, hash }),
    }
}

/// What stands on every sheet of a site with errors.
pub fn error_line(subject: &Subject<'_>) -> Option<String> {
    let errors = subject.errors();
    (errors > 0).then(|| subject.locale.say(&Sentence::SiteHasErrors { count: &errors.to_string() }))
}

/// A column without a unit of its own.
fn column(locale: &Locale, title: Word, width: u8) -> Column {
    Column { title: locale.word(title).to_string(), unit: None, width, is_summed: false }
}

/// A column of quantities of one unit.
fn measured(locale: &Locale, title: Word, unit: latchline_finding::Unit, width: u8) -> Column {
    Column { unit: Some(locale.symbol(unit)), ..column(locale, title, width) }
}
