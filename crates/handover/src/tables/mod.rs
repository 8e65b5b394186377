//! The tables of the pack, one file each.

mod at;
mod battery_steps;
mod before_power;
mod cables;
mod calculations;
mod calls;
mod column;
mod cupboards;
mod cut_list;
mod devices;
mod door_lines;
mod door_words;
mod doors;
mod drops;
mod earths;
mod faults;
mod handover;
mod in_hand;
mod interfaces;
mod label_facts;
mod lines;
mod live;
mod live_doors;
mod parts;
mod revisions;
mod snags;
mod steps;
mod summary;
mod supplies;
mod terminal_remarks;
mod voltages;
mod wiring;

pub use before_power::sheet as before_power_sheet;
pub use cables::piece_names;
pub use column::column;
pub use devices::{address_words, double_words, kind_words, model_name, setting_words};
pub use door_lines::door_lines;
pub use earths::earth_size;
pub use faults::sheet as fault_sheet;
pub use handover::table as handover_table;
pub use interfaces::{Interface, interfaces};
pub use label_facts::{LabelFacts, label_facts, label_foot};
pub use lines::{cautions, error_line, origin_line};
pub use live::sheet as live_sheet;
pub use live::start_name;
pub use snags::{places_of, standing_findings};
pub use steps::{FIRST_LIVE, step_columns, written};
pub use terminal_remarks::Length;
pub use wiring::{item_title, rows_of_item};

use crate::job_cards::order;
use crate::options::Part;
use crate::subject::Subject;
use crate::table::Table;

/// Every table that is wanted, in the order of the pack.
pub fn tables(subject: &Subject<'_>) -> Vec<Table> {
    let mut tables = Vec::new();
    for part in Part::ALL.iter().filter(|part| subject.options.wants(**part)) {
        tables.push(match part {
            Part::Summary => summary::table(subject),
            Part::Revisions => revisions::table(subject),
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
            Part::Faults => faults::table(subject),
            Part::Snags => snags::table(subject),
            Part::Handover => handover::table(subject),
            Part::Interfaces => interfaces::table(subject),
            Part::Cupboards => cupboards::table(subject),
            Part::OrderOfWork => order::table(subject),
            // Made when everything else is there, since it explains the words of all.
            Part::Glossary
            | Part::Overview
            | Part::Elevation
            | Part::Profiles
            | Part::Signal
            | Part::StartUp
            | Part::Cards
            | Part::LockWiring
            | Part::JobCards
            | Part::Labels => {
                continue;
            }
        });
    }
    tables
}
