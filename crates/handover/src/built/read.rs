//! The as-built columns, sheet by sheet.

use super::difference::Built;
use super::{cables, devices};
use crate::language::Word;
use crate::options::Part;
use crate::subject::Subject;
use crate::table::{Cell, Role, Table};
use latchline_finding::EditStep;

/// Of tables into which a workbook was carried. `has` says whether the site file has something at a path.
pub fn read(subject: &Subject<'_>, tables: &[Table], has: &dyn Fn(&[EditStep]) -> bool) -> Built {
    let mut built = Built::default();
    for table in tables {
        let written = |title: Word| {
            let title = subject.locale.word(title);
            table.columns.iter().position(|column| column.title == title)
        };
        match table.part {
            Part::Cables => {
                let columns = [Word::Cable, Word::LengthLaid, Word::TypeLaid].map(written);
                if let [Some(cable), Some(length), Some(kind)] = columns {
                    cables::add(subject, table, [cable, length, kind], has, &mut built);
                }
            }
            Part::Devices => {
                let columns = [Word::Designation, Word::AddressSet, Word::PlaceFitted].map(written);
                if let [Some(device), Some(address), Some(place)] = columns {
                    devices::add(subject, table, [device, address, place], &mut built);
                }
                let noted = [Word::Serial, Word::Version].map(written);
                built.noted += noted.into_iter().flatten().map(|column| filled(table, column)).sum::<usize>();
            }
            Part::Wiring => {
                let noted = [Word::PairUsed, Word::ColourUsed, Word::Colour, Word::CableType].map(written);
                built.noted += noted.into_iter().flatten().map(|column| filled(table, column)).sum::<usize>();
            }
            Part::BeforePower | Part::Live | Part::Voltages => {
                built.readings += table.column_of(Role::Reading).map_or(0, |column| filled(table, column));
            }
            _ => {}
        }
    }
    built
}

fn filled(table: &Table, column: usize) -> usize {
    table.body().filter(|cells| matches!(cells[column], Cell::Written { .. })).count()
}
