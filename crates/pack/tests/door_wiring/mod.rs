//! Wired by the schedule alone, every lock does what its kind must do: the rows of the table are joined into a circuit, every
//! position of relay, buttons and contacts is set, and it is looked whether the lock has power.
//!
//! What a lock must do is common practice, no source: one that opens without power is fed until it is released by any means; one
//! that stays shut without power is fed only while it is released by the relay or the exit button.

use crate::{Made, resolved, stamp};
use latchline_handover::{Options, Part, Subject, tables};
use latchline_site::catalogue::PowerLoss;
use latchline_site::model::{LockFeed, LockPart, LockRelay, LockUse, Site};
use latchline_wiring::{By, Landing, TerminalSet};
use std::collections::{BTreeMap, BTreeSet};

/// A door for every kind of lock, feed, suppressor and way out of the model.
const SITE: &str = include_str!("../../../drawing/src/wiring/every_lock.toml");

/// One row: the terminal's name, how it is joined, and to what.
struct Row {
    terminal: String,
    cable: String,
    other: String,
    remark: String,
}

fn rows(made: &Made) -> Vec<Row> {
    let (options, stamp) = (Options::default(), stamp());
    let subject = Subject::new(&made.input(), &options, &stamp);
    let tables = tables::tables(&subject);
    let table = tables.iter().find(|table| table.part == Part::Wiring).expect("the part is there");
    let rows = table.body().map(|cells| {
        let word = |index: usize| cells[index].words().to_string();
        let terminal = match (word(1), word(2)) {
            (set, _) if set.is_empty() => word(0),
            (set, pole) if pole.is_empty() => format!("{}:{set}", word(0)),
            (set, pole) => format!("{}:{set} {pole}", word(0)),
        };
        Row { terminal, cable: word(3), other: word(7), remark: word(8) }
    });
    rows.collect()
}

/// What is joined to what.
#[derive(Clone, Default)]
struct Nets(BTreeMap<String, String>);

impl Nets {
    fn root(&self, name: &str) -> String {
        let mut name = name.to_string();
        while let Some(next) = self.0.get(&name).filter(|next| **next != name) {
            name = next.clone();
        }
        name
    }

    fn join(&mut self, one: &str, other: &str) {
        let (one, other) = (self.root(one), self.root(other));
        if one != other {
            self.0.insert(one, other);
        }
    }

    fn are_joined(&self, one: &str, other: &str) -> bool {
        self.root(one) == self.root(other)
    }
}

/// How everything at a door stands.
#[derive(Clone, Copy)]
struct State {
    is_released: bool,
    is_pressed: bool,
    is_broken: bool,
    is_fire: bool,
}

/// Whether a lock has power, or the drive its contact.
fn is_fed(rows: &[Row], nets: &Nets, site: &Site, [entrance, lock]: [usize; 2], state: State) -> bool {
    let entry = &site.entrances[entrance];
    let used = &entry.locks[lock];
    let (door, number) = (entry.id.as_str(), lock + 1);
    let opens = site.lock(used).power_loss.value == PowerLoss::Opens;
    let name = |mark: &str| match lock {
        0 => format!("{door}/{mark}"),
        _ => format!("{door}/{mark}{number}"),
    };
    let mut nets = nets.clone();
    // The contact of the relay that the station commands: its own, or that of a relay on the secure side, which hears it over two wires.
    let relay = |pole: &str| match used.relay() {
        LockRelay::OnSecureSide => format!("{}:contact {pole}", name("relay")),
        LockRelay::InStation | LockRelay::Between => format!("{door}:relay{number} {pole}"),
    };
    if used.relay() == LockRelay::OnSecureSide {
        for pole in [1, 2] {
            let [from, to] =
                [format!("{door}:command{number} {pole}"), format!("{}:command {pole}", name("relay"))];
            assert!(nets.are_joined(&from, &to), "{from} does not reach {to}");
        }
        let own = ["C", "NO", "NC"].map(|pole| format!("{door}:relay{number} {pole}"));
        let lands = |one: &String| rows.iter().any(|row| row.terminal == *one && !row.other.is_empty());
        assert!(!own.iter().any(lands), "{door}: a contact of the station outdoors is wired");
    }
    let mut close = |is_closed: bool, one: String, other: String| {
        if is_closed {
            nets.join(&one, &other);
        }
    };
    close(state.is_released, relay("C"), relay("NO"));
    close(!state.is_released, relay("C"), relay("NC"));
    // The push button that suits the lock: a break contact in a circuit that is closed at rest, else a make contact.
    let breaks = opens && used.feed.value != LockFeed::DryContact;
    let contact = |mark: &str, pole: u8| format!("{}:contact {pole}", name(mark));
    close(state.is_pressed != breaks, contact("exit", 1), contact("exit", 2));
    close(!state.is_broken, contact("release", 1), contact("release", 2));
    close(!state.is_fire, contact("fire", 1), contact("fire", 2));
    if used.feed.value == LockFeed::DryContact {
        return nets.are_joined(&format!("{}:input 1", name("lock")), &format!("{}:input 2", name("lock")));
    }
    let [plus, minus] = feed(site, entrance, used, &name("supply"), number);
    let coil = |mark: &str, poles: [&str; 2]| poles.map(|pole| format!("{}:coil {pole}", name(mark)));
    let has_power = |nets: &Nets, [one, other]: [String; 2]| {
        nets.are_joined(&plus, &one) && nets.are_joined(&minus, &other)
    };
    if used.relay() == LockRelay::Between && has_power(&nets, coil("relay", ["A1", "A2"])) {
        nets.join(&format!("{}:contact C", name("relay")), &format!("{}:contact NO", name("relay")));
    }
    assert!(!nets.are_joined(&plus, &minus), "{door} lock {number}: the feed is shorted");
    let poles = if plus.ends_with('+') { ["+", "−"] } else { ["1", "2"] };
    has_power(&nets, coil("lock", poles))
}

/// Both terminals of what feeds a lock.
fn feed(site: &Site, entrance: usize, used: &LockUse, supply: &str, number: usize) -> [String; 2] {
    let entry = &site.entrances[entrance];
    let door = entry.id.as_str();
    let is_ac = match used.feed.value {
        LockFeed::Station => site.station_model(&site.stations[entry.station]).lock_output_ac.value,
        LockFeed::OwnSupply => used.supply_ac.value,
        _ => false,
    };
    let set = match used.feed.value {
        LockFeed::Station => format!("{door}:lock{number}"),
        LockFeed::Bus => format!("{door}:in"),
        _ => format!("{supply}:out1"),
    };
    (if is_ac { ["1", "2"] } else { ["+", "−"] }).map(|pole| format!("{set} {pole}"))
}

#[test]
fn wired_by_the_schedule_every_lock_does_what_it_must() {
    let made = Made::of(resolved(SITE));
    let site = &made.site;
    let rows = rows(&made);
    let mut nets = Nets::default();
    for row in rows.iter().filter(|row| !row.other.is_empty()) {
        nets.join(&row.terminal, &row.other);
    }
    let mut judged = 0;
    for (entrance, entry) in site.entrances.iter().enumerate() {
        for (lock, used) in entry.locks.iter().enumerate() {
            let opens = site.lock(used).power_loss.value == PowerLoss::Opens;
            let is_drive = used.feed.value == LockFeed::DryContact;
            for bits in 0..16_u8 {
                let bit = |number: u8| bits >> number & 1 == 1;
                let state =
                    State { is_released: bit(0), is_pressed: bit(1), is_broken: bit(2), is_fire: bit(3) };
                let has = |part| entry.has_part(used, part);
                let pressed = state.is_pressed && has(LockPart::ExitButton);
                let let_go = state.is_released
                    || pressed
                    || state.is_broken && has(LockPart::EmergencyRelease)
                    || state.is_fire && has(LockPart::FireContact);
                let wanted = if opens && !is_drive { !let_go } else { state.is_released || pressed };
                let found = is_fed(&rows, &nets, site, [entrance, lock], state);
                assert_eq!(found, wanted, "{} lock {}, state {bits:04b}", entry.id, lock + 1);
                judged += 1;
            }
        }
    }
    assert_eq!(judged, 15 * 16);
}

/// A diode the wrong way round burns the output, or the relay's contact.
#[test]
fn the_bar_of_a_diode_lies_at_plus() {
    let made = Made::of(resolved(SITE));
    for row in rows(&made).iter().filter(|row| row.terminal.contains("/diode")) {
        let pole = row.terminal.chars().last().unwrap_or(' ');
        assert!(row.other.ends_with(&format!("/lock:coil {pole}")), "{} to {}", row.terminal, row.other);
    }
}

/// Every terminal of every item is there, is joined to one that names it back, or says why it stays free. No terminal of a door
/// takes two wires without saying so.
#[test]
fn every_terminal_is_joined_or_says_why_it_stays_free() {
    let made = Made::of(resolved(SITE));
    let rows = rows(&made);
    let joined: BTreeSet<(&str, &str)> =
        rows.iter().map(|row| (row.terminal.as_str(), row.other.as_str())).collect();
    let mut wires: BTreeMap<&str, usize> = BTreeMap::new();
    for row in &rows {
        if row.other.is_empty() {
            assert!(!row.remark.is_empty(), "{} is silent", row.terminal);
            continue;
        }
        let is_named_back = joined.contains(&(row.other.as_str(), row.terminal.as_str()));
        let is_outside = row.other.starts_with("an input outside") || row.other == "main earthing terminal";
        assert!(is_named_back || is_outside, "{} to {}", row.terminal, row.other);
        if row.cable != "its own lead" {
            *wires.entry(&row.terminal).or_default() += 1;
        }
    }
    // Said once for the terminals that belong together, whatever their leg is.
    let set = |terminal: &str| terminal.rsplit_once(' ').map_or(terminal, |(set, _)| set).to_string();
    for row in &rows {
        let is_connector = row.terminal.contains("-joint");
        if wires.get(row.terminal.as_str()).is_some_and(|wires| *wires > 1) && !is_connector {
            let of_set = rows.iter().filter(|other| set(&other.terminal) == set(&row.terminal));
            let said = of_set.filter(|other| other.remark.contains("wires in this terminal")).count();
            assert_eq!(said, 1, "{}", row.terminal);
        }
    }
    // The parts that an earlier schedule left out.
    for part in [
        "strike-safe/exit",
        "strike-safe/release",
        "strike-safe/fire",
        "magnet/supply",
        "magnet-strong/relay",
        "secure/relay",
        "secure/relay2",
        "secure-magnet/relay",
    ] {
        assert!(rows.iter().any(|row| row.terminal.starts_with(&format!("{part}:"))), "{part}");
    }
}

/// A door contact with a cable of its own, a lock and a light with supplies on the mains.
pub(crate) const OWN_MAINS: &str = r#"
[site]
title = "Own mains"
family = "ostrel-48"
indoor_station = "ostrel-v4"
door_station = "ostrel-dv1"
cable = "pair-0.8"
[buildings]
A = { floors = ["G", "1"] }
[supplies]
PS = { model = "ostrel-ps-120", place = "A/G" }
[distributors]
D1 = { model = "ostrel-d4", place = "A/G" }
[entrances]
front = { role = "main", place = "A/G", lock = { model = "strike-12", cable = "flex-1.0", length = "4 m", door_contact = true, cables = [{ to = "door-contact", cable = "pair-0.5", length = "3 m" }] } }
back = { place = "A/G", lock = { model = "strike-12", feed = "own-supply", supply_voltage = "12 V", cable = "flex-1.0", length = "4 m" } }
[dwellings]
A-1 = { place = "A/1" }
[runs]
feed = { from = "PS", to = "D1", cable = "flex-1.5", length = "1 m" }
r1 = { from = "D1.1", to = "front", length = "10 m" }
r2 = { from = "D1.2", to = "back", length = "10 m" }
r3 = { from = "D1.3", to = "A-1", length = "10 m" }
"#;

/// The ends that the cable list, the labels and the step of pulling name are those at which the schedule lands the conductors; an end outside the plan is said to be so, and is no terminal of the station.
#[test]
fn the_ends_of_every_cable_are_where_its_conductors_land() {
    let mut outside = 0;
    for text in [SITE, OWN_MAINS] {
        let made = Made::of(resolved(text));
        let (options, stamp) = (Options::default(), stamp());
        let subject = Subject::new(&made.input(), &options, &stamp);
        for (index, cable) in subject.wiring.cables.iter().enumerate() {
            let lands = |terminal: &latchline_wiring::Terminal| {
                let is_its =
                    |landing: &Landing| matches!(landing.by, By::Conductor { cable, .. } if cable == index);
                subject.wiring.terminals[terminal].iter().any(is_its)
            };
            for end in [cable.from, cable.to] {
                if end.1 == TerminalSet::Outside {
                    outside += 1;
                    assert!(subject.end_words(end).contains("outside"));
                    continue;
                }
                let is_there = |terminal: &&latchline_wiring::Terminal| (terminal.item, terminal.set) == end;
                let landed = subject.wiring.terminals.keys().filter(is_there).any(lands);
                assert!(landed, "{}: {}", cable.designation, subject.end_words(end));
            }
        }
        let tables = tables::tables(&subject);
        let table = |part| tables.iter().find(|table| table.part == part).expect("the part is there");
        let pulled = |cells: &&[latchline_handover::Cell]| cells[2].words().contains("outside this plan");
        let told = table(Part::BeforePower).body().filter(pulled).count();
        // One in either plan, stated in one and not in the other.
        assert_eq!(told, 1);
    }
    assert_eq!(outside, 1);
}

/// Whatever has mains of its own is isolated and proved dead before anybody puts a hand to it, and switched on when its door is tried.
#[test]
fn every_supply_on_the_mains_is_isolated() {
    for (text, expected) in [(SITE, 3), (OWN_MAINS, 2)] {
        let made = Made::of(resolved(text));
        let (options, stamp) = (Options::default(), stamp());
        let subject = Subject::new(&made.input(), &options, &stamp);
        let mains: BTreeSet<String> = subject
            .wiring
            .terminals
            .keys()
            .filter(|terminal| terminal.set == TerminalSet::Mains)
            .map(|terminal| terminal.item.name(&made.site, latchline_finding::Language::English))
            .collect();
        assert!(mains.len() >= expected, "{mains:?}");
        let tables = tables::tables(&subject);
        let told = |part: Part, words: &str| -> BTreeSet<String> {
            let table = tables.iter().find(|table| table.part == part).expect("the part is there");
            let of_it = table.body().filter(|cells| cells[2].words().contains(words));
            of_it.map(|cells| cells[1].words().to_string()).collect()
        };
        assert_eq!(told(Part::BeforePower, "Isolate from the mains"), mains);
        let on = &told(Part::Live, "switches its mains on") | &told(Part::Live, "switch the mains on");
        // A drive has mains that the plan does not wire: its owner isolates it, and puts it back in service.
        let mut drives = BTreeSet::new();
        for entrance in &made.site.entrances {
            for (index, lock) in entrance.locks.iter().enumerate() {
                if lock.feed.value == LockFeed::DryContact {
                    let number =
                        if entrance.locks.len() > 1 { (index + 1).to_string() } else { String::new() };
                    drives.insert(format!("{}/lock{number}", entrance.id));
                }
            }
        }
        assert_eq!(told(Part::BeforePower, "Its owner (or maintainer)"), drives);
        assert_eq!(told(Part::Live, "puts it back in service"), drives);
        assert_eq!(on, mains);
    }
}

/// Every cable of which the plan says what it is has its insulation read before anything hangs on it, at a door as on a run.
#[test]
fn every_stated_cable_at_a_door_has_its_insulation_read() {
    for text in [SITE, OWN_MAINS] {
        let made = Made::of(resolved(text));
        let (options, stamp) = (Options::default(), stamp());
        let subject = Subject::new(&made.input(), &options, &stamp);
        let tables = tables::tables(&subject);
        let table = tables.iter().find(|table| table.part == Part::BeforePower).expect("the part is there");
        let read: BTreeSet<String> = table
            .body()
            .filter(|cells| cells[2].words().starts_with("Insulation between"))
            .map(|cells| cells[1].words().to_string())
            .collect();
        let at_doors = subject
            .wiring
            .cables
            .iter()
            .filter(|cable| matches!(cable.laid.owner, latchline_site::cables::CableOwner::AtDoor(_)));
        for cable in at_doors {
            assert!(read.contains(&cable.designation), "{}", cable.designation);
        }
    }
}
