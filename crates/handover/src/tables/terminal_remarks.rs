//! What is said beside a terminal of the wiring schedule: at length on its own sheet, in few words on a card.

use super::earths::how_earthed;
use crate::language::{Sentence, Word};
use crate::subject::Subject;
use latchline_site::cables::CableOwner;
use latchline_site::model::{LockPart, LockRelay, LockUse, RunStop, StationOwner};
use latchline_wiring::colours::is_stated;
use latchline_wiring::lock::lock_wiring;
use latchline_wiring::{By, Item, Landing, Pole, ScreenEnd, Terminal, TerminalSet};

/// What the wiring schedule says at length of a terminal, and what stands beside it on a card, where that has fewer words.
const AT_TERMINALS: [(Word, Word); 16] = [
    (Word::EndOfChain, Word::StripEndOfChain),
    (Word::LockFedElsewhere, Word::StripLockFedElsewhere),
    (Word::NotUsedByLock, Word::StripNotUsedByLock),
    (Word::BreaksNothing, Word::StripBreaksNothing),
    (Word::MainsByElectrician, Word::StripMains),
    (Word::CableNotStated, Word::StripCableNotStated),
    (Word::ExistingColoursOfCode, Word::StripExistingColoursOfCode),
    (Word::ExistingColours, Word::StripExistingColours),
    (Word::ToMainEarth, Word::StripToMainEarth),
    (Word::ToMainEarthAsStated, Word::StripToMainEarthAsStated),
    (Word::CommandOfRelay, Word::StripCommandOfRelay),
    (Word::ContactLeftFree, Word::StripContactLeftFree),
    (Word::CoilNeedsSuppressor, Word::StripCoilNeedsSuppressor),
    (Word::ScreenEarthed, Word::StripScreenEarthed),
    (Word::ScreenInsulated, Word::StripScreenInsulated),
    (Word::ScreenJoinedOn, Word::StripScreenJoinedOn),
];

/// How much is said of a terminal.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Length {
    /// All of it.
    Whole,
    /// As much as a card has room for.
    Brief,
}

impl Length {
    fn of(self, whole: Word) -> Word {
        let brief = AT_TERMINALS.iter().find(|(word, _)| *word == whole && self == Length::Brief);
        brief.map_or(whole, |(_, brief)| *brief)
    }
}

/// What is said of a cable's screen at one of its ends.
pub(super) fn of_screen(subject: &Subject<'_>, end: ScreenEnd, length: Length) -> String {
    let word = match end {
        ScreenEnd::Earthed => Word::ScreenEarthed,
        ScreenEnd::JoinedOn => Word::ScreenJoinedOn,
        ScreenEnd::Insulated => Word::ScreenInsulated,
    };
    subject.locale.word(length.of(word)).to_string()
}

/// Whether a cable is in the walls already and the catalogue states the colours that its kind has.
pub(super) fn code_of_existing(subject: &Subject<'_>, cable: usize) -> bool {
    let laid = &subject.wiring.cables[cable].laid;
    laid.is_existing && is_stated(&subject.site.catalogue.cables[&laid.cable])
}

/// What is said beside a terminal and one of what lands on it.
pub(super) fn of_landing(
    subject: &Subject<'_>,
    (terminal, landing): (Terminal, &Landing),
    all: &[Landing],
    length: Length,
) -> String {
    let locale = &subject.locale;
    let word = |word: Word| locale.word(length.of(word)).to_string();
    let mut remarks = Vec::new();
    if let By::EarthConductor = landing.by {
        remarks.push(word(how_earthed(subject, terminal.item)));
    }
    remarks.extend(of_relay(subject, terminal).map(word));
    if let By::Unstated { .. } = landing.by {
        remarks.push(word(Word::CableNotStated));
    }
    if let By::Conductor { cable, .. } = landing.by {
        let found = match code_of_existing(subject, cable) {
            true => Word::ExistingColoursOfCode,
            false => Word::ExistingColours,
        };
        let cable = &subject.wiring.cables[cable];
        if cable.laid.is_existing {
            remarks.push(word(found));
        }
        if let (CableOwner::Section { run, section }, Item::Station(station)) =
            (cable.laid.owner, terminal.item)
        {
            let run = &subject.site.runs[run];
            let is_last = section + 1 == run.sections.len();
            let ends_here = run.sections[section].to == RunStop::Station(station);
            if is_last && ends_here && run.terminator.as_ref().is_some_and(|terminator| terminator.value) {
                remarks.push(word(Word::TerminatorHere));
            }
        }
    }
    if landing.by == By::OwnLead && all.first() == Some(landing) {
        remarks.extend(why_battery(subject, terminal));
    }
    let wires = all.iter().filter(|landing| landing.by != By::OwnLead).count();
    // Of several wires it is said once, at the first of the set.
    let mut set = subject.wiring.of_item(terminal.item).filter(|(one, _)| one.set == terminal.set);
    let is_first = set.next().is_some_and(|(one, _)| one == terminal) && all.first() == Some(landing);
    if wires > 1 && is_first && terminal.set != TerminalSet::Ways {
        // A supply's output may be stated to take several runs.
        let is_stated = match terminal.item {
            Item::Supply(supply) => {
                let model = subject.site.supply_model(&subject.site.supplies[supply]);
                model.runs_per_output.value as usize >= wires
            }
            _ => false,
        };
        let wires = &wires.to_string();
        remarks.push(locale.say(&match is_stated {
            true => Sentence::SeveralAsStated { wires },
            false => Sentence::SeveralInOneTerminal { wires },
        }));
    }
    remarks.join("; ")
}

/// What is to be minded at the coil of a relay in between, and where a relay on the secure side takes its command.
fn of_relay(subject: &Subject<'_>, terminal: Terminal) -> Option<Word> {
    match (terminal.item, terminal.set, terminal.pole) {
        (_, TerminalSet::RelayCommand(_) | TerminalSet::Command, Pole::One) => Some(Word::CommandOfRelay),
        (Item::Part { entrance, lock, .. }, TerminalSet::Coil, Pole::CoilOne) => {
            let entry = &subject.site.entrances[entrance];
            let is_ac = lock_wiring(subject.site, entry, &entry.locks[lock]).is_ac;
            (!is_ac).then_some(Word::CoilNeedsSuppressor)
        }
        _ => None,
    }
}

/// What else is to be minded at a battery's terminals at its supply.
fn why_battery(subject: &Subject<'_>, terminal: Terminal) -> Option<String> {
    let (Item::Supply(supply), TerminalSet::Battery) = (terminal.item, terminal.set) else { return None };
    parallel_batteries(subject, supply)
}

/// Why nothing lands on a terminal.
pub(super) fn why_free(subject: &Subject<'_>, terminal: Terminal, length: Length) -> String {
    let locale = &subject.locale;
    let locks = match terminal.item {
        Item::Station(station) => match subject.site.stations[station].owner {
            StationOwner::Entrance(entrance) => subject.site.entrances[entrance].locks.as_slice(),
            _ => &[],
        },
        _ => &[],
    };
    let lock = |number: u32| locks.get(number as usize - 1);
    let word = match (terminal.item, terminal.set) {
        (Item::Station(_), TerminalSet::Out) => Word::EndOfChain,
        (Item::Station(_) | Item::Box(_), TerminalSet::In | TerminalSet::Input) => Word::NothingLeadsHere,
        (_, TerminalSet::LockOutput(number)) if lock(number).is_some() => Word::LockFedElsewhere,
        (_, TerminalSet::Relay(number)) => match lock(number).map(LockUse::relay) {
            Some(LockRelay::OnSecureSide) => Word::ContactLeftFree,
            Some(LockRelay::InStation | LockRelay::Between) => Word::NotUsedByLock,
            None => Word::Free,
        },
        (Item::Part { part: LockPart::Relay, .. }, TerminalSet::Contact) => Word::NotUsedByLock,
        (Item::Part { .. }, TerminalSet::Contact) => Word::BreaksNothing,
        (_, TerminalSet::Mains) => Word::MainsByElectrician,
        (_, TerminalSet::Modules | TerminalSet::ModuleOut) => Word::NoFurtherModule,
        (_, TerminalSet::Port(port)) => return locale.say(&Sentence::FreePort { port: &port.to_string() }),
        _ => Word::Free,
    };
    locale.word(length.of(word)).to_string()
}

/// What is said of several batteries at a supply; `None` of one.
pub(super) fn parallel_batteries(subject: &Subject<'_>, supply: usize) -> Option<String> {
    let (site, locale) = (subject.site, &subject.locale);
    let supply = &site.supplies[supply];
    let battery = site.supply_model(supply).battery.as_ref()?;
    let count = supply.batteries.value as usize;
    let voltage = format!("{} V", locale.trimmed(battery.voltage.value.as_volts(), 2));
    (count > 1).then(|| locale.say(&Sentence::BatteriesInParallel { count, voltage: &voltage }))
}
