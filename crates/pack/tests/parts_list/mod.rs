//! The parts list, the bill that offers and remedies count by, and the difference of two versions hold the same counts.

use crate::{Made, resolved, stamp};
use latchline_finding::{Language, Locale, Units};
use latchline_handover::{Cell, Options, Part, Subject, Table, tables};
use latchline_site::bill::{Bill, BillKind};
use latchline_site::changes::Changes;
use latchline_site::model::Site;
use std::collections::BTreeMap;

/// A house; at the marks stands what the tests count.
fn site(supply: &str, lock: &str, entrance: &str, run: &str) -> Site {
    resolved(&format!(
        "[site]\ntitle = \"Counted\"\nfamily = \"ostrel-48\"\nindoor_station = \"ostrel-v4\"\ndoor_station = \"ostrel-dv1\"\ncable = \"pair-0.8\"\n\
         [buildings]\nA = {{ floors = [\"G\", \"1\"] }}\n[supplies]\nPS = {{ model = \"ostrel-ps-120b\", place = \"A/G\"{supply} }}\n\
         [distributors]\nD = {{ model = \"ostrel-d4\", place = \"A/G\" }}\n\
         [entrances]\nE = {{ role = \"main\", place = \"A/G\", lock = {{ model = \"strike-12\"{lock} }}{entrance} }}\n\
         [dwellings]\nA-1 = {{ place = \"A/1\" }}\nA-2 = {{ place = \"A/1\" }}\n\
         [runs]\nfeed = {{ from = \"PS\", to = \"D\", cable = \"flex-1.5\", length = \"1 m\" }}\n\
         door = {{ from = \"D.1\", to = \"E\", length = \"9 m\" }}\nflats = {{ from = \"D.2\", to = [\"A-1\", \"A-2\"], lengths = [\"6 m\", \"4 m\"]{run} }}\n"
    ))
}

fn plain() -> Site {
    site("", ", cable = \"flex-1.0\", length = \"4 m\"", "", "")
}

/// Three batteries; a lock on a supply of its own with a diode, a button and a door contact; a light on a supply of its own; tamper and fire
/// contacts, one with a resistor; a protector at the door and one in the run; three pairs of a cable of two.
fn counted() -> Site {
    site(
        ", batteries = 3",
        ", cable = \"flex-1.0\", length = \"4 m\", feed = \"own-supply\", supply_voltage = \"12 V\", suppression = \"diode\", exit_button = true, door_contact = true",
        ", surge_protection = \"1 ohm\", lights = [{ model = \"porch-12\", feed = \"own-supply\" }], \
         alarm_inputs = [{ kind = \"tamper\", end_of_line_resistor = true }, { kind = \"fire\" }]",
        ", pairs = 3, surge_protection = \"1 ohm\"",
    )
}

/// Needed, by title, as the parts list says it.
fn listed(site: Site, language: Language) -> BTreeMap<String, f64> {
    let made = Made::of(site);
    let options = Options { locale: Locale { language, units: Units::Metric }, ..Options::default() };
    let stamp = stamp();
    let subject = Subject::new(&made.input(), &options, &stamp);
    let tables = tables::tables(&subject);
    let table: &Table = tables.iter().find(|table| table.part == Part::Parts).expect("a parts list");
    let number = |cell: &Cell| match cell {
        Cell::Count(count) => *count as f64,
        Cell::Quantity { value, .. } => *value,
        _ => f64::NAN,
    };
    table.body().map(|cells| (cells[2].words().to_string(), number(&cells[3]))).collect()
}

#[test]
fn what_the_site_file_counts_is_counted_once_for_all() {
    // By hand, beyond the plain house. The fire alarm brings its own contact.
    let expected = BTreeMap::from([
        ("Battery 17 Ah, 24 V, in parallel with that of ostrel-ps-120b", 2.0),
        ("Surge protector, 1 ohm in the loop", 2.0),
        ("Supply of a lock's own", 1.0),
        ("Supply of a light's own", 1.0),
        ("Diode, cathode to plus", 1.0),
        ("Exit button", 1.0),
        ("Door contact", 1.0),
        ("Alarm contact", 1.0),
        ("resistor at the end of the line", 1.0),
    ]);
    let (before, after) = (plain(), counted());
    let small: BTreeMap<String, f64> = Bill::of(&after)
        .lines
        .iter()
        .filter(|line| line.kind == BillKind::Small)
        .map(|line| (line.name.clone(), line.quantity))
        .collect();
    let by_hand: BTreeMap<String, f64> =
        expected.iter().map(|(name, count)| (name.to_string(), *count)).collect();
    assert_eq!(small, by_hand);
    // Three pairs want two cables of two pairs: 10 m and 10 m, where there were 10 m.
    let changes = Changes::between(&before, &after);
    let quantity =
        |name: &str| changes.quantities.iter().find(|one| one.name == name).map(|one| one.quantity);
    assert_eq!(quantity("pair-0.8"), Some(10.0));
    let (english, german) = (listed(counted(), Language::English), listed(counted(), Language::German));
    let without = listed(plain(), Language::English);
    for (name, count) in &expected {
        assert_eq!(quantity(name), Some(*count), "{name} of compare");
        assert_eq!(english.get(*name), Some(count), "{name} in {english:?}");
        assert_eq!(without.get(*name), None);
    }
    assert_eq!(
        german.get("Batterie 17 Ah, 24 V, parallel zu der von ostrel-ps-120b"),
        Some(&2.0),
        "{german:?}"
    );
}
