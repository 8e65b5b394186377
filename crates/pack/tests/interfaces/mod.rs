//! The sheet of interfaces to others' systems: one for each, nothing blank where the plan has a figure, what it lacks called missing.

use crate::{Made, resolved, stamp};
use latchline_finding::{Language, Locale, Units};
use latchline_handover::tables::interfaces;
use latchline_handover::{Audience, Cell, Options, Part, Row, Subject, Table, tables};

/// A front door with a magnet that the fire alarm releases and a lift behind it, a rear door whose station takes the fire alarm, and a gate.
pub(crate) const SITE: &str = r#"
[site]
title = "Interfaces"
family = "ostrel-48"
indoor_station = "ostrel-v4"
door_station = "ostrel-dv1"
cable = "pair-0.8"

[buildings]
A = { floors = ["G"] }

[supplies]
PS = { model = "ostrel-ps-120", place = "A/G" }

[distributors]
D = { model = "ostrel-d8t", place = "A/G" }

[entrances]
front = { role = "main", place = "A/G", fire_interlock = true, fire_alarm_owner = "fire alarm firm", fire_alarm_terminals = "X4:3, 4", locks = [{ model = "magnet-24", feed = "own-supply", supply_voltage = "24 V", cable = "flex-1.0", length = "4 m", exit_button = true, emergency_release = true }, { model = "lift-contact", owner = "lift firm", owner_terminals = "J7:1, 2", contact_voltage = "24 V", contact_current = "0.02 A", hold_time = "3 s" }] }
rear = { place = "A/G", alarm_inputs = [{ kind = "fire", contact = "normally-open" }], lock = { model = "strike-12", cable = "flex-1.0", length = "4 m" } }
gate = { place = "outdoors", lock = { model = "gate-contact" } }

[dwellings]
F1 = { place = "A/G" }

[runs]
feed = { from = "PS", to = "D", cable = "flex-1.5", length = "1 m" }
a = { from = "D.1", to = "front", length = "8 m" }
b = { from = "D.2", to = "rear", length = "8 m" }
c = { from = "D.3", to = "gate", cable = "outdoor-0.8", length = "20 m", environment = "buried", surge_protection = "1 ohm" }
d = { from = "D.4", to = "F1", length = "8 m" }
"#;

fn with<T>(language: Language, look: impl FnOnce(&Subject<'_>, &[Table]) -> T) -> T {
    let made = Made::of(resolved(SITE));
    let options = Options { locale: Locale { language, units: Units::Metric }, ..Options::default() };
    let stamp = stamp();
    let subject = Subject::new(&made.input(), &options, &stamp);
    look(&subject, &tables::tables(&subject))
}

fn of(tables: &[Table], part: Part) -> &Table {
    tables.iter().find(|table| table.part == part).expect("the part is there")
}

#[test]
fn every_interface_has_a_sheet_of_its_own() {
    with(Language::English, |subject, tables| {
        let names: Vec<String> =
            interfaces(subject).into_iter().map(|one| subject.name(one.item())).collect();
        assert_eq!(names, ["front/fire", "front/lock2", "rear/alarm1", "gate/lock"]);
        let table = of(tables, Part::Interfaces);
        let headings = table.rows.iter().filter(|row| matches!(row, Row::Heading(_))).count();
        assert_eq!(headings, names.len());
        let row = |name: &str, item: &str| -> &[Cell] {
            let mut rows = table.body();
            let found = rows.find(|cells| cells[0].words() == name && cells[1].words() == item);
            found.unwrap_or_else(|| panic!("{name}: no {item}"))
        };
        let value = |name: &str, item: &str| row(name, item)[2].words().to_string();
        // What the plan states.
        assert_eq!(value("front/fire", "Owner of the other system"), "fire alarm firm");
        assert_eq!(value("front/lock2", "Owner of the other system"), "lift firm");
        assert_eq!(value("front/lock2", "Terminals of the other system"), "J7:1, 2");
        assert_eq!(value("front/lock2", "It carries"), "0.020 A, 24.00 V");
        assert!(value("front/lock2", "When it trips").starts_with("the contact closes for 3"));
        // What it does not state is room to write, and called missing.
        for name in ["rear/alarm1", "gate/lock"] {
            let owner = row(name, "Owner of the other system");
            assert_eq!(owner[2], Cell::WriteIn);
            assert!(owner[3].words().starts_with("missing in the plan"));
        }
        // By hand, from the circuits: the contact of a lock that opens without power lies in its circuit, so a cut wire releases.
        assert!(value("front/fire", "When a wire is cut").starts_with("the lock is released"));
        // A contact that rests open and has no resistor: a cut wire passes unnoticed.
        assert!(value("rear/alarm1", "When a wire is cut").contains("nobody notices"));
        assert!(value("gate/lock", "When a wire is cut").contains("the gate stays as it is"));
        // The current of the lock stands on the door sheet too.
        let doors = of(tables, Part::Doors);
        let current = doors.body().find(|cells| {
            cells[0].words() == "front" && cells[1].words() == "Lock 1" && cells[2].words() == "Current"
        });
        let current = subject.locale.cell_text(&current.expect("a current")[3], None);
        assert!(value("front/fire", "It carries").starts_with(&current), "{current}");
        // Each is tried both ways, put back and signed by two.
        for name in &names {
            for item in ["Tried: tripped", "Tried: one wire opened"] {
                assert_eq!(row(name, item)[4], Cell::Passed);
            }
            assert_eq!(row(name, "Put back")[4], Cell::Tick);
            for item in ["Signature of the owner of the other system", "Signature of the installer"] {
                assert_eq!([&row(name, item)[2], &row(name, item)[4]], [&Cell::WriteIn, &Cell::WriteIn]);
            }
        }
    });
}

/// Our terminals are those of the wiring schedule, joined to what it joins them to.
#[test]
fn its_terminals_are_those_of_the_wiring_schedule() {
    with(Language::English, |_, tables| {
        let wiring = of(tables, Part::Wiring);
        let table = of(tables, Part::Interfaces);
        for cells in table.body().filter(|cells| cells[1].words().starts_with("Our terminals")) {
            let name = cells[0].words();
            let rows = wiring.body().filter(|row| row[0].words() == name && !row[7].words().is_empty());
            for row in rows {
                let joined = format!("{name}:{} {} – {}", row[1].words(), row[2].words(), row[7].words());
                assert!(cells[2].words().contains(&joined), "{joined} in {}", cells[2].words());
            }
        }
    });
}

/// Opening a wire of each is a step with power on, at its own place.
#[test]
fn opening_a_wire_is_a_step_of_commissioning() {
    with(Language::English, |subject, tables| {
        let live = of(tables, Part::Live);
        let steps: Vec<&str> = live
            .body()
            .filter(|cells| cells[2].words().contains("open one wire of the interface"))
            .map(|cells| cells[1].words())
            .collect();
        let names: Vec<String> =
            interfaces(subject).into_iter().map(|one| subject.name(one.item())).collect();
        assert_eq!(steps, names);
    });
}

#[test]
fn installer_and_office_get_it_the_client_does_not() {
    let options = Options::default();
    for (reader, gets) in [(Audience::Installer, true), (Audience::Office, true), (Audience::Client, false)] {
        assert_eq!(options.parts_of_file(reader).contains(&Part::Interfaces), gets, "{reader:?}");
    }
    with(Language::German, |_, tables| {
        let table = of(tables, Part::Interfaces);
        assert_eq!(table.title, "Schnittstellen zu fremden Anlagen");
        assert!(table.body().any(|cells| cells[3].words().starts_with("fehlt im Plan")));
    });
}
