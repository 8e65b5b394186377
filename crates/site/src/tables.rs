//! Whole tables of keys, held against their readers.

use crate::catalogue::CATALOGUE_FILE;
use crate::keys::{Bears, Bounds, Kind, TableSpec, Without, read_number_and_unit, read_quantity};
use crate::model::SITE_FILE;
use crate::parse::asked;
use crate::{builtin_catalogue, resolve};
use latchline_finding::{Language, Sources};
use latchline_words::key_names::name_of;
use std::collections::BTreeSet;

fn every_table(spec: &'static TableSpec, seen: &mut Vec<&'static TableSpec>) {
    if seen.iter().any(|known| std::ptr::eq(*known, spec)) {
        return;
    }
    seen.push(spec);
    for inner in spec.keys.iter().filter_map(|key| key.kind.table()) {
        every_table(inner, seen);
    }
}

#[test]
fn keys_are_unique_documented_and_their_bounds_say_what_they_are() {
    let mut tables = Vec::new();
    every_table(&SITE_FILE, &mut tables);
    every_table(&CATALOGUE_FILE, &mut tables);
    assert!(tables.len() > 15);
    for table in tables {
        let names: BTreeSet<_> = table.keys.iter().map(|key| key.name).collect();
        assert_eq!(names.len(), table.keys.len(), "duplicate key in {:?}", table.name);
        for key in table.keys {
            assert!(key.doc.len() > 10, "{:?}.{} has no doc", table.name, key.name);
            if let Kind::Quantity(bounds) = key.kind {
                for text in [bounds.low_text, bounds.high_text, bounds.example] {
                    read_quantity(text, bounds).unwrap_or_else(|error| panic!("{text}: {error}"));
                }
                for (text, value) in [(bounds.low_text, bounds.low), (bounds.high_text, bounds.high)] {
                    let wide = Bounds { low: value, high: value, ..*bounds };
                    assert!(read_quantity(text, &wide).is_ok(), "{text} is not {value}");
                    assert!(read_number_and_unit(text).is_ok());
                }
            }
        }
    }
}

#[test]
fn every_key_that_a_verdict_can_rest_on_has_a_name_for_paper() {
    let mut tables = Vec::new();
    every_table(&CATALOGUE_FILE, &mut tables);
    let of_parts = tables.into_iter().filter(|table| table.keys.iter().any(|key| key.name == "assumed"));
    let mut nameless = Vec::new();
    let conditions = SITE_FILE.keys.iter().find(|key| key.name == "conditions");
    for table in of_parts.chain(conditions.and_then(|key| key.kind.table())) {
        let judged = table.keys.iter().filter(|key| key.bears != Bears::OnNothing);
        nameless.extend(judged.map(|key| key.name).filter(|key| name_of(key, Language::German).is_none()));
    }
    assert_eq!(nameless, Vec::<&str>::new(), "a row of latchline_words::key_names each");
}

/// A site in which every table is written that the built-in catalogue does not hold, and every way of reading one is taken.
const SITE: &str = r#"
[site]
title = "Every table"
family = "ostrel-48"
indoor_station = "ostrel-v4"
door_station = "ostrel-dv1"
management_station = "ostrel-m1"
cable = "measured-line"
[conditions]
[policy]
[buildings]
A = { floors = ["G"], cores = ["N"] }
[supplies]
PS = { model = "ostrel-ps-120b", place = "A/G" }
[distributors]
D1 = { model = "ostrel-d4", place = "A/G" }
[entrances.front]
lock = { model = "strike-12", cable = "flex-1.0", length = "2 m", exit_button = true, cables = [{ to = "exit-button", cable = "pair-0.5", length = "2 m" }] }
lights = [{ model = "names-12" }]
alarm_inputs = [{ kind = "tamper", cable = "pair-0.5", length = "2 m" }]
[management.lodge]
[dwellings]
A-1 = { place = "A/G", extensions = ["ostrel-v4"] }
"A-2..A-3" = { place = "A/G", per_floor = 2 }
[runs]
feed = { from = "PS", to = "D1", length = "2 m", measured = { loop = "1 ohm" } }
door = { from = "D1.1", to = ["front", "lodge"], lengths = ["5 m", "5 m"] }
flats = { from = "D1.3", to = ["A-2", "A-3"], first = "5 m", spacing = "2 m" }
flat = { from = "D1.2", to = ["A-1", "A-1:2"], first = "5 m", spacing = "2 m" }
[cables.measured-line]
title = "Pair by its losses"
source = "data sheet"
gauge = "0.5 mm²"
class = 1
line = { capacitance = "50 nF/km", inductance = "0.6 mH/km", losses = [{ frequency = "1 MHz", loss = "2 dB" }, { frequency = "4 MHz", loss = "4 dB" }, { frequency = "9 MHz", loss = "6 dB" }] }
[[revision]]
mark = "A"
date = 2026-11-02
change = "first issue"
[[accept]]
code = "thin-margin"
reason = "seen"
date = 2026-11-02
"#;

/// Readers made from rows do so by construction; those written by hand, and the hooks that rows name, are held here.
#[test]
fn every_key_of_every_table_is_asked_for_by_its_reader() {
    let mut sources = Sources::new();
    let (name, text) = builtin_catalogue();
    let catalogue = sources.add(name, text);
    let site = sources.add("site.toml", SITE);
    let rates = "currency = \"GBP\"\n[rates]\nEUR = { worth = 0.86, date = 2026-11-02 }\n";
    let rates = sources.add("rates.toml", rates);
    let resolved = resolve(&sources, site, &[catalogue, rates]);
    assert!(resolved.site.is_some(), "{:#?}", resolved.findings);
    let asked = asked::keys();
    let mut tables = Vec::new();
    every_table(&SITE_FILE, &mut tables);
    every_table(&CATALOGUE_FILE, &mut tables);
    for table in tables {
        let nothing = BTreeSet::new();
        let asked = asked.get(&table.name).unwrap_or(&nothing);
        for key in table.keys {
            assert!(asked.contains(key.name), "nothing reads {} of {:?}", key.name, table.name);
        }
        for key in asked {
            assert!(table.keys.iter().any(|row| row.name == key), "{:?} has no {key}", table.name);
        }
    }
}

/// What the page says of a key that is left out is what its row does.
#[test]
fn what_a_row_takes_for_want_of_a_value_is_on_its_page() {
    let mut tables = Vec::new();
    every_table(&SITE_FILE, &mut tables);
    every_table(&CATALOGUE_FILE, &mut tables);
    let mut assumed = 0;
    for key in tables.iter().flat_map(|table| table.keys) {
        let says_assumed = key.doc.contains("assumed.");
        let is_assumed = key.without == Without::Assumed;
        assert!(is_assumed || !says_assumed, "{}: {}", key.name, key.doc);
        assert!(!is_assumed || key.doc.contains("Without it"), "{}: {}", key.name, key.doc);
        assumed += usize::from(is_assumed);
    }
    assert!(assumed > 10, "{assumed} rows");
}
