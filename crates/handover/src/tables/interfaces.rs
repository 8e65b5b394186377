//! Interfaces to systems of other trades: fire alarm, gate drive, lift. Who owns each, which contact it is, what it does when it trips and
//! when its wire is cut, how both are tried, how all is put back, and who signed.

use super::column::column;
use super::door_words::{current_remark, current_words};
use crate::language::{Sentence, Word};
use crate::locale::Rounding;
use crate::options::Part;
use crate::subject::Subject;
use crate::table::{Cell, Role, Table};
use latchline_assess::door::LockSheet;
use latchline_finding::{Sourced, Unit};
use latchline_site::catalogue::LockKind;
use latchline_site::model::{AlarmKind, LockFeed, LockPart, RelayContact};
use latchline_wiring::lock::{WiringElement, lock_wiring};
use latchline_wiring::{By, Item, TerminalSet};

/// An interface to a system of another trade.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Interface {
    /// A contact of the fire alarm in a lock's circuit.
    FireContact {
        /// Index into `Site::entrances`.
        entrance: usize,
        /// Index into its locks.
        lock: usize,
    },
    /// A contact of the fire alarm at an alarm input of the door station.
    FireInput {
        /// Index into `Site::entrances`.
        entrance: usize,
        /// Index into its alarm inputs.
        input: usize,
    },
    /// A gate drive or a lift that takes a contact of the door station.
    Drive {
        /// Index into `Site::entrances`.
        entrance: usize,
        /// Index into its locks.
        lock: usize,
    },
}

impl Interface {
    /// What has the terminals at which it is met.
    pub fn item(self) -> Item {
        match self {
            Interface::FireContact { entrance, lock } => {
                Item::Part { entrance, lock, part: LockPart::FireContact }
            }
            Interface::FireInput { entrance, input } => Item::AlarmContact { entrance, input },
            Interface::Drive { entrance, lock } => Item::Lock { entrance, lock },
        }
    }

    /// The door: index into `Site::entrances`.
    pub fn entrance(self) -> usize {
        match self {
            Interface::FireContact { entrance, .. }
            | Interface::FireInput { entrance, .. }
            | Interface::Drive { entrance, .. } => entrance,
        }
    }

    /// Whether it is a contact of the fire alarm that lies in no circuit: it could release nothing, so nothing is joined to it.
    pub fn stays_free(self, subject: &Subject<'_>) -> bool {
        let Interface::FireContact { entrance, lock } = self else { return false };
        let door = &subject.site.entrances[entrance];
        !lock_wiring(subject.site, door, &door.locks[lock]).series.contains(&WiringElement::FireInterlock)
    }

    /// Whether it is a lift.
    pub fn is_lift(self, subject: &Subject<'_>) -> bool {
        let Interface::Drive { entrance, lock } = self else { return false };
        subject.site.lock(&subject.site.entrances[entrance].locks[lock]).kind.value == LockKind::Lift
    }
}

/// Every interface of a site, door by door.
pub fn interfaces(subject: &Subject<'_>) -> Vec<Interface> {
    let mut list = Vec::new();
    for (entrance, door) in subject.site.entrances.iter().enumerate() {
        for (lock, used) in door.locks.iter().enumerate() {
            if used.feed.value == LockFeed::DryContact {
                list.push(Interface::Drive { entrance, lock });
            } else if door.has_part(used, LockPart::FireContact) {
                list.push(Interface::FireContact { entrance, lock });
            }
        }
        let inputs = door.alarm_inputs.iter().enumerate();
        let of_fire = inputs.filter(|(_, input)| input.kind.value == AlarmKind::Fire);
        list.extend(of_fire.map(|(input, _)| Interface::FireInput { entrance, input }));
    }
    list
}

/// Builds it.
pub fn table(subject: &Subject<'_>) -> Table {
    let locale = &subject.locale;
    let columns = vec![
        column(locale, Word::InterfaceColumn, 16).with_role(Role::Names).said_above(),
        column(locale, Word::Item, 34).with_role(Role::Names),
        column(locale, Word::Value, 40),
        column(locale, Word::Remark, 50),
        column(locale, Word::Done, 8),
    ];
    let mut table = Table::new(Part::Interfaces, locale.word(Word::InterfacesTitle), columns);
    table.note(locale.word(Word::InterfacesNote));
    table.note(locale.word(Word::CautionDrive));
    let all = interfaces(subject);
    if all.is_empty() {
        table.row(vec![Cell::Empty, locale.cell(Word::NoInterfaces)]);
    }
    for interface in all {
        one(subject, interface, &mut table);
    }
    table
}

/// What is known of an interface.
struct Facts<'s> {
    /// What it is called.
    title: Word,
    owner: Option<&'s Sourced<String>>,
    their_terminals: Option<&'s Sourced<String>>,
    /// Which contact it is.
    contact: Word,
    /// What that contact carries, and what is said of it.
    carries: (Cell, String),
    when_tripped: String,
    when_cut: &'static str,
}

fn one(subject: &Subject<'_>, interface: Interface, table: &mut Table) {
    let (site, locale) = (subject.site, &subject.locale);
    let name = subject.name(interface.item());
    let facts = facts(subject, interface);
    let door = site.entrances[interface.entrance()].id.as_str();
    table.heading(format!("{name}  {} ({} {door})", locale.word(facts.title), locale.word(Word::Door)));
    let mut add = |item: Word, value: Cell, remark: &str, done: Cell| {
        table.row(vec![Cell::text(&name), locale.cell(item), value, Cell::text(remark), done]);
    };
    if interface.stays_free(subject) {
        let why = locale.word(Word::FireContactStaysFree);
        add(Word::ContactOfInterface, Cell::text(locale.word(Word::BreaksNothing)), why, Cell::Empty);
        return;
    }
    let stated = |value: Option<&Sourced<String>>, missing: Word| match value {
        Some(stated) => (Cell::text(&stated.value), ""),
        None => (Cell::WriteIn, locale.word(missing)),
    };
    let (owner, remark) = stated(facts.owner, Word::OwnerMissing);
    add(Word::InterfaceOwner, owner, remark, Cell::Empty);
    let (terminals, remark) = stated(facts.their_terminals, Word::TheirTerminalsMissing);
    add(Word::TheirTerminals, terminals, remark, Cell::Empty);
    let (terminals, cables) = ours(subject, interface.item());
    add(Word::OurTerminals, Cell::text(terminals), &cables, Cell::Empty);
    add(Word::ContactOfInterface, locale.cell(facts.contact), "", Cell::Empty);
    let (carries, remark) = facts.carries;
    add(Word::ContactCarries, carries, &remark, Cell::Empty);
    add(Word::WhenTripped, Cell::text(facts.when_tripped), "", Cell::Empty);
    add(Word::WhenCut, Cell::text(facts.when_cut), "", Cell::Empty);
    add(Word::TestTrip, Cell::WriteIn, locale.word(Word::TestTripHow), Cell::Passed);
    add(Word::TestCut, Cell::WriteIn, locale.word(Word::TestCutHow), Cell::Passed);
    add(Word::Restore, Cell::WriteIn, locale.word(Word::RestoreHow), Cell::Tick);
    for word in [Word::SignedInterfaceOwner, Word::SignedInstaller] {
        add(word, Cell::WriteIn, locale.word(Word::DateWord), Cell::WriteIn);
    }
}

/// Our terminals at which it is joined, and by which cables.
fn ours(subject: &Subject<'_>, item: Item) -> (String, String) {
    let (mut terminals, mut cables): (Vec<String>, Vec<String>) = (Vec::new(), Vec::new());
    for (terminal, landings) in subject.wiring.of_item(item) {
        for landing in landings.iter().filter(|landing| landing.by != By::OwnLead) {
            let cable = match landing.by {
                By::Conductor { cable, .. } => subject.wiring.cables[cable].designation.clone(),
                By::Unstated { cable } => format!(
                    "{}: {}",
                    subject.wiring.unstated[cable].designation,
                    subject.locale.word(Word::CableNotStated)
                ),
                _ => String::new(),
            };
            if !cable.is_empty() && !cables.contains(&cable) {
                cables.push(cable);
            }
            let other = landing.other.map(|other| other.name(subject.site, subject.locale.language));
            let joined = match other {
                Some(other) if terminal.set != TerminalSet::Ways => {
                    format!("{} – {other}", terminal.name(subject.site, subject.locale.language))
                }
                _ => continue,
            };
            terminals.push(joined);
        }
    }
    if terminals.is_empty() {
        return (subject.locale.word(Word::BreaksNothing).to_string(), String::new());
    }
    (terminals.join("; "), cables.join(", "))
}

fn facts<'s>(subject: &Subject<'s>, interface: Interface) -> Facts<'s> {
    let (site, locale) = (subject.site, &subject.locale);
    let door = &site.entrances[interface.entrance()];
    let sheet = subject.assessment.doors.iter().find(|sheet| sheet.index == interface.entrance());
    let [fire_owner, fire_terminals] =
        [&door.fire_alarm_owner, &door.fire_alarm_terminals].map(Option::as_ref);
    match interface {
        Interface::FireContact { lock, .. } => {
            let lock = sheet.and_then(|sheet| sheet.locks.get(lock));
            Facts {
                title: Word::FireContactClosed,
                owner: fire_owner,
                their_terminals: fire_terminals,
                contact: Word::DryNormallyClosed,
                carries: lock.map_or((Cell::WriteIn, String::new()), |lock| of_circuit(subject, lock)),
                when_tripped: locale.word(Word::TripReleases).to_string(),
                when_cut: locale.word(Word::CutReleases),
            }
        }
        Interface::FireInput { input, .. } => {
            let input = &door.alarm_inputs[input];
            let is_closed = input.contact.value == RelayContact::NormallyClosed;
            let when_cut = match (input.end_of_line_resistor.value, is_closed) {
                (true, _) => Word::CutIsTold,
                (false, true) => Word::CutReleasesByStation,
                (false, false) => Word::CutUnnoticed,
            };
            let station = site.station_model(&site.stations[door.station]);
            let carries = match &station.alarm_input_current {
                Some(current) => {
                    let value = locale.in_words(current.value.as_amps(), Unit::Ampere);
                    (Cell::text(value), locale.word(Word::CurrentOfInput).to_string())
                }
                None => (Cell::WriteIn, locale.word(Word::CarriesMissing).to_string()),
            };
            Facts {
                title: Word::FireAlarm,
                owner: fire_owner,
                their_terminals: fire_terminals,
                contact: if is_closed { Word::DryNormallyClosed } else { Word::DryNormallyOpen },
                carries,
                when_tripped: locale.word(Word::TripReleasesByStation).to_string(),
                when_cut: locale.word(when_cut),
            }
        }
        Interface::Drive { lock, .. } => {
            let used = &door.locks[lock];
            let is_lift = interface.is_lift(subject);
            let hold = sheet.and_then(|sheet| sheet.locks.get(lock)?.times.as_ref());
            let hold_s = hold.map_or(used.hold_time.value.as_seconds(), |times| times.hold.time_s);
            let time = &locale.in_words(hold_s, Unit::Second);
            let says = match is_lift {
                true => Sentence::TripCallsLift { time },
                false => Sentence::TripOpensGate { time },
            };
            Facts {
                title: if is_lift { Word::LiftController } else { Word::GateDrive },
                owner: used.owner.as_ref(),
                their_terminals: used.owner_terminals.as_ref(),
                contact: Word::DryOfStation,
                carries: of_drive(subject, interface.entrance(), lock),
                when_tripped: locale.say(&says),
                when_cut: locale.word(if is_lift { Word::CutLeavesLift } else { Word::CutLeavesGateShut }),
            }
        }
    }
}

/// What a contact in a lock's circuit carries.
fn of_circuit(subject: &Subject<'_>, lock: &LockSheet) -> (Cell, String) {
    let locale = &subject.locale;
    match &lock.circuit {
        Ok(circuit) => {
            let current = current_words(locale, circuit);
            // What the owner's contact must bear is rounded up, as everywhere.
            let highest = locale.quantity_with(circuit.feed.high_v, Unit::Volt, 2, Rounding::Up);
            let voltage = locale.cell_text(&highest, None);
            let remark = format!("{}; {}", locale.word(Word::CurrentOfLock), current_remark(locale, circuit));
            (Cell::text(format!("{current}, {voltage}")), remark)
        }
        Err(_) => (Cell::WriteIn, locale.word(Word::CarriesNotJudged).to_string()),
    }
}

/// What a drive or lift puts on the contact, and what that is made for.
fn of_drive(subject: &Subject<'_>, entrance: usize, lock: usize) -> (Cell, String) {
    let (site, locale) = (subject.site, &subject.locale);
    let door = &site.entrances[entrance];
    let used = &door.locks[lock];
    let voltage =
        used.contact_voltage.as_ref().map(|stated| locale.in_words(stated.value.as_volts(), Unit::Volt));
    let current =
        used.contact_current.as_ref().map(|stated| locale.in_words(stated.value.as_amps(), Unit::Ampere));
    let missing = voltage.is_none() || current.is_none();
    let stated: Vec<String> = [current, voltage].into_iter().flatten().collect();
    let mut remarks = Vec::new();
    if missing {
        remarks.push(locale.word(Word::CarriesMissing).to_string());
    }
    let station = site.station_model(&site.stations[door.station]);
    remarks.push(match &station.relay_current {
        Some(rating) => {
            let current = locale.in_words(rating.value.as_amps(), Unit::Ampere);
            locale.say(&Sentence::ContactMadeFor { current: &current })
        }
        None => locale.word(Word::ContactRatingMissing).to_string(),
    });
    let value = if stated.is_empty() { Cell::WriteIn } else { Cell::text(stated.join(", ")) };
    (value, remarks.join("; "))
}
