//! Who calls whom, and the name lists of panels and directories.

use super::column::column;
use crate::language::Word;
use crate::options::Part;
use crate::subject::Subject;
use crate::table::{Cell, Table};
use crate::tables::devices::address_words;
use latchline_site::model::{Scope, Site};
use latchline_wiring::Item;

/// Every dwelling and management station once: who can call it, and which doors it opens.
pub fn table(subject: &Subject<'_>) -> Table {
    let locale = &subject.locale;
    let site = subject.site;
    let columns = vec![
        column(locale, Word::Called, 16),
        column(locale, Word::What, 20),
        column(locale, Word::Place, 16),
        column(locale, Word::Stations, 9),
        column(locale, Word::CalledFrom, 44),
        column(locale, Word::OpensLocks, 44),
    ];
    let mut table = Table::new(Part::Calls, locale.word(Word::CallsTitle), columns);
    table.note(locale.word(Word::OpensMeaning));
    let names = |list: Vec<String>| {
        if list.is_empty() { locale.cell(Word::Nobody) } else { Cell::text(list.join(", ")) }
    };
    for (index, dwelling) in site.dwellings.iter().enumerate() {
        let reaches = |scope: &Scope| scope.dwellings.contains(&index);
        table.row(vec![
            Cell::text(dwelling.id.as_str()),
            locale.cell(Word::Dwelling),
            Cell::text(subject.place_in_words(&dwelling.place)),
            Cell::count(dwelling.stations.len()),
            names(callers(site, reaches)),
            names(locks(subject, reaches)),
        ]);
    }
    for (index, management) in site.management.iter().enumerate() {
        let reaches = |scope: &Scope| scope.management.contains(&index);
        table.row(vec![
            Cell::text(management.id.as_str()),
            locale.cell(Word::ManagementStation),
            Cell::text(subject.place_in_words(&management.place)),
            Cell::count(1),
            names(callers(site, reaches)),
            names(locks(subject, reaches)),
        ]);
    }
    table
}

fn callers(site: &Site, reaches: impl Fn(&Scope) -> bool) -> Vec<String> {
    let doors =
        site.entrances.iter().filter(|entrance| reaches(&entrance.calls)).map(|entrance| &entrance.id);
    let desks = site
        .management
        .iter()
        .filter(|management| reaches(&management.calls))
        .map(|management| &management.id);
    doors.chain(desks).map(ToString::to_string).collect()
}

fn locks(subject: &Subject<'_>, reaches: impl Fn(&Scope) -> bool) -> Vec<String> {
    let mut names = Vec::new();
    let entrances = subject.site.entrances.iter().enumerate();
    for (index, entrance) in entrances.filter(|(_, entry)| reaches(&entry.calls)) {
        let locks = 0..entrance.locks.len();
        names.extend(locks.map(|lock| subject.name(Item::Lock { entrance: index, lock })));
    }
    names
}

/// For every entrance and management station the list that goes on its panel or into its directory.
pub fn names(subject: &Subject<'_>) -> Table {
    let locale = &subject.locale;
    let site = subject.site;
    let columns = vec![
        column(locale, Word::Panel, 16).said_above(),
        column(locale, Word::Line, 6),
        column(locale, Word::NameOnPanel, 28),
        column(locale, Word::Called, 16),
        column(locale, Word::Address, 30),
        column(locale, Word::NewName, 24),
    ];
    let mut table = Table::new(Part::Names, locale.word(Word::NamesTitle), columns);
    table.note(locale.word(Word::NamesPrivacy));
    let with_names = subject.options.with_names;
    if !with_names && site.dwellings.iter().any(|dwelling| dwelling.label.is_some()) {
        table.note(locale.word(Word::PeopleLeftOut));
    }
    let panels = site
        .entrances
        .iter()
        .map(|entrance| (entrance.id.as_str(), &entrance.calls))
        .chain(site.management.iter().map(|management| (management.id.as_str(), &management.calls)));
    for (panel, scope) in panels {
        table.heading(panel);
        let dwellings = scope.dwellings.iter().map(|index| {
            let dwelling = &site.dwellings[*index];
            let name = match dwelling.label.as_deref() {
                Some(_) if !with_names => locale.word(Word::NameLeftOut),
                Some(label) => label,
                None => dwelling.id.as_str(),
            };
            (dwelling.id.as_str(), name, dwelling.stations.first().copied())
        });
        let desks = scope.management.iter().map(|index| {
            let management = &site.management[*index];
            (management.id.as_str(), management.id.as_str(), Some(management.station))
        });
        for (line, (id, name, station)) in dwellings.chain(desks).enumerate() {
            let address = station.map(|station| address_words(subject, Item::Station(station)).0);
            table.row(vec![
                Cell::text(panel),
                Cell::count(line + 1),
                Cell::text(name),
                Cell::text(id),
                Cell::text(address.unwrap_or_default()),
                Cell::WriteIn,
            ]);
        }
    }
    table
}
