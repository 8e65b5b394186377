//! The handover record.

use super::column::column;
use crate::language::{Sentence, Word};
use crate::options::Part;
use crate::subject::Subject;
use crate::table::{Cell, Role, Table};

/// Builds it.
pub fn table(subject: &Subject<'_>) -> Table {
    let locale = &subject.locale;
    let columns = vec![
        column(locale, Word::Line, 6),
        column(locale, Word::Item, 70).with_role(Role::Names),
        column(locale, Word::Value, 34),
        column(locale, Word::Done, 8),
    ];
    let mut table = Table::new(Part::Handover, locale.word(Word::HandoverTitle), columns);
    table.note(locale.word(Word::HandoverNote));
    let mut number = 0;
    let mut add = |table: &mut Table, item: String, value: Cell, done: Cell| {
        number += 1;
        table.row(vec![Cell::count(number), Cell::text(item), value, done]);
    };
    let line = |word: Word| locale.word(word).to_string();
    table.heading(locale.word(Word::HandoverSystem));
    add(&mut table, line(Word::Site), Cell::text(&subject.site.title), Cell::Empty);
    add(&mut table, line(Word::Revision), Cell::text(&subject.stamp.revision), Cell::Empty);
    add(&mut table, line(Word::Verdict), Cell::text(locale.verdict(subject)), Cell::Empty);
    add(&mut table, line(Word::InstallerName), Cell::WriteIn, Cell::Empty);
    add(&mut table, line(Word::OwnerName), Cell::WriteIn, Cell::Empty);
    table.heading(locale.word(Word::HandoverInstruments));
    for word in [
        Word::VoltageTesterInstrument,
        Word::MeterInstrument,
        Word::InsulationInstrument,
        Word::OtherInstrument,
    ] {
        add(&mut table, line(word), Cell::WriteIn, Cell::Empty);
    }
    table.heading(locale.word(Word::HandoverTested));
    for word in [
        Word::TestedReadings,
        Word::TestedStations,
        Word::TestedDoors,
        Word::TestedEscape,
        Word::TestedFire,
        Word::TestedBattery,
        Word::SnagsClosed,
    ] {
        add(&mut table, line(word), Cell::Empty, Cell::Tick);
    }
    table.heading(locale.word(Word::HandoverGiven));
    for word in [
        Word::GivenPack,
        Word::GivenAsBuilt,
        Word::GivenManuals,
        Word::GivenCredentials,
        Word::GivenKeys,
        Word::GivenInstruction,
        Word::GivenPrivacy,
        Word::GivenSpares,
    ] {
        add(&mut table, line(word), Cell::Empty, Cell::Tick);
    }
    for (index, entrance) in subject.site.entrances.iter().enumerate() {
        if index == 0 {
            table.heading(locale.word(Word::HandoverDoors));
        }
        let door = entrance.id.as_str();
        let item = locale.say(&match entrance.is_released_on_fire() {
            true => Sentence::DoorAgreed { door },
            false => Sentence::DoorAgreedWithoutFire { door },
        });
        add(&mut table, item, Cell::WriteIn, Cell::Tick);
    }
    table.heading(locale.word(Word::HandoverSigned));
    for word in [Word::SignedInstaller, Word::SignedOwner] {
        add(&mut table, line(word), Cell::WriteIn, Cell::Empty);
        add(&mut table, line(Word::DateWord), Cell::WriteIn, Cell::Empty);
    }
    table
}
