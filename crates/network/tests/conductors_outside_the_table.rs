//! Cross-sections that the tables of IEC 60228 do not have: the tolerance of their small end is assumed, and told.

use latchline_finding::{Provenance, Sources};
use latchline_network::resistance::conductor_ohm_per_m;
use latchline_site::LoadedCatalogues;
use latchline_site::catalogue::Cable;

fn cable(keys: &str) -> Cable {
    let text = format!("[cables.one]\ntitle = \"One\"\nsource = \"test\"\n{keys}\n");
    let mut sources = Sources::new();
    let file = sources.add("own.toml", text);
    let loaded = LoadedCatalogues::new(&sources, &[file]);
    assert_eq!(loaded.findings(), []);
    loaded.catalogue().cables["one"].clone()
}

fn most_ohm_per_km(cable: &Cable) -> f64 {
    1e3 * conductor_ohm_per_m(cable, 20.0) * (1.0 + cable.resistance_tolerance.value.as_fraction())
}

fn is_told(cable: &Cable) -> bool {
    cable.head.assumed.iter().any(|assumed| assumed.key == "resistance_tolerance")
}

/// Alarm cable, 7 wires of 0.2 mm: 0.22 mm² of annealed copper have 1000/58/0.22 = 78.37 ohm/km. IEC 60228 allows 39.0 ohm/km at
/// 0.5 mm² flexible where the metal has 34.48: 13.1 % more, so 88.64 ohm/km. An alarm maker's cable table prints 85 ohm/km (w).
#[test]
fn alarm_cable_has_the_tolerance_of_the_small_end() {
    let alarm = cable("gauge = \"0.22 mm²\"\nclass = 5");
    assert!((most_ohm_per_km(&alarm) - 88.636).abs() < 1e-3, "{}", most_ohm_per_km(&alarm));
    assert!(most_ohm_per_km(&alarm) > 85.0 && most_ohm_per_km(&alarm) < 1.1 * 85.0);
    assert!(is_told(&alarm));
    assert_eq!(alarm.resistance_tolerance.provenance, Provenance::Assumed);
}

/// The assumed excess is that of the table itself at 0.5 mm², in every column: both together give the table's own figure there.
#[test]
fn the_excess_is_that_of_the_table() {
    for (class, coated, ohm_per_km) in
        [(1, false, 36.0), (2, false, 36.0), (2, true, 36.7), (5, false, 39.0), (5, true, 40.1)]
    {
        let of = |area: &str| {
            most_ohm_per_km(&cable(&format!("gauge = \"{area} mm²\"\nclass = {class}\ncoated = {coated}")))
        };
        assert!((of("0.5") - ohm_per_km).abs() < 1e-9);
        // A fifth more metal has a fifth less resistance.
        for area in ["0.14", "0.22", "0.34", "0.6"] {
            let by_area = ohm_per_km * 0.5 / area.parse::<f64>().expect("a number");
            assert!((of(area) - by_area).abs() < 1e-9 * by_area, "{area} {class}");
        }
    }
}

/// 16 mm² is in the table: 1.15 ohm/km, flexible 1.21 (IEC 60228:2004, from memory), nothing assumed.
#[test]
fn sixteen_is_in_the_table() {
    for (class, ohm_per_km) in [(1, 1.15), (2, 1.15), (5, 1.21)] {
        let thick = cable(&format!("gauge = \"16 mm²\"\nclass = {class}"));
        assert!((most_ohm_per_km(&thick) - ohm_per_km).abs() < 1e-12 && !is_told(&thick));
    }
}

/// The maker's figure takes the place of the assumption; clad aluminium has no table at all.
#[test]
fn a_stated_tolerance_is_not_assumed() {
    let stated = cable("gauge = \"0.22 mm²\"\nclass = 5\nresistance_tolerance = \"9 %\"");
    assert!(!is_told(&stated) && (stated.resistance_tolerance.value.as_fraction() - 0.09).abs() < 1e-12);
    assert!(is_told(&cable("gauge = \"0.5 mm²\"\nclass = 5\nmaterial = \"clad-aluminium-15\"")));
    assert!(!is_told(&cable("gauge = \"0.5 mm²\"\nclass = 5")));
}

/// Signalling cable: a maker's data sheets to VDE 0815 and VDE 0816 print loops of at most 130 ohm/km at 0.6 mm and 73.2 ohm/km at 0.8 mm, and at
/// most 100 nF/km behind PVC (w). The built-in cables are no better than that, and not a hundredth worse.
#[test]
fn signalling_cable_is_no_better_than_its_standard() {
    let mut sources = Sources::new();
    let (name, text) = latchline_site::builtin_catalogue();
    let file = sources.add(name, text);
    let loaded = LoadedCatalogues::new(&sources, &[file]);
    for (name, loop_ohm_per_km) in [("signal-0.6", 130.0), ("signal-0.8", 73.2)] {
        let cable = &loaded.catalogue().cables[name];
        let most = 2.0 * most_ohm_per_km(cable);
        assert!((loop_ohm_per_km..1.01 * loop_ohm_per_km).contains(&most), "{name}: {most}");
        let line = cable.line.as_ref().expect("line constants");
        let capacitance = line.capacitance.value.as_farads_per_metre() * 1e12;
        assert!((capacitance - 100.0).abs() < 1e-6, "{name}: {capacitance} nF/km");
    }
}
