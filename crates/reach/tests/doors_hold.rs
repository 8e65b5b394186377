//! The lock that is held while a call stands, against sums made by hand of the catalogue's figures.

#![allow(clippy::unwrap_used, reason = "a failure to build the case is a failed test")]

use latchline_finding::Sources;
use latchline_reach::telephone::{OneRun, mix_on, stations_on};
use latchline_reach::{Question, default_question, doors_at, lock_at, usual_lock};
use latchline_site::catalogue::LoadValue;
use latchline_site::{LoadedCatalogues, builtin_catalogue};

fn builtin() -> (Sources, LoadedCatalogues) {
    let mut sources = Sources::new();
    let (name, text) = builtin_catalogue();
    let file = sources.add(name, text);
    let loaded = LoadedCatalogues::new(&sources, &[file]);
    (sources, loaded)
}

/// The strike of 0.5 A is what outputs of 12.6 V and 0.6 A, and of 12 V and 0.5 A, can feed; the motor lock starts with 1.6 A, the magnets
/// open without power, the gate drive takes a dry contact.
#[test]
fn the_usual_lock_is_the_strike_that_the_door_feeds() {
    let (_, loaded) = builtin();
    let catalogue = loaded.catalogue();
    for door in ["ostrel-dv1", "ostrel-da1", "larkfen-dv2", "mossop-p1"] {
        assert_eq!(usual_lock(catalogue, door).unwrap().model, "strike-12", "{door}");
    }
    let watts = match usual_lock(catalogue, "ostrel-dv1").unwrap().draws {
        Some(LoadValue::Power(power)) => power.as_watts(),
        other => panic!("{other:?}"),
    };
    assert!((watts - 7.0).abs() < 1e-9, "{watts}");
    assert_eq!(lock_at(catalogue, "ostrel-dv1", "gate-contact"), None);
    assert_eq!(lock_at(catalogue, "ostrel-dv1", "no-such-lock"), None);
}

/// Six ostrel-v7 on an ostrel-ps-60, two calls at once. Behind the rectifiers, with 10 %: two doors that talk at night 2 x 9 W, two stations
/// that talk 2 x 7.3 W, four at rest 4 x 1.3 W: 41.58 W, which at 46.1 V less 1.4 V draw 0.930 A; the distributor 1.32 W, 0.029 A: 0.959 A. With
/// locks the doors take 2 x 7 W more: 56.98 W at 45.9 V less 1.4 V, 1.281 A, and 0.029 A: 1.310 A, of 1.25 A that it is rated for.
#[test]
fn two_held_locks_are_what_overloads_a_small_supply() {
    let (sources, loaded) = builtin();
    let usual = default_question(loaded.catalogue(), "ostrel-48").unwrap();
    let question = Question { supply: "ostrel-ps-60".into(), ..usual };
    let models = [(String::from("ostrel-v7"), 6)];
    let held = mix_on(&sources, &loaded, &question, &models, 2).unwrap();
    let without = Question { lock: None, ..question };
    let without = mix_on(&sources, &loaded, &without, &models, 2).unwrap();
    assert_eq!(held.limit.unwrap().as_str(), "supply-overloaded");
    assert_eq!(without.limit, None);
    let (held_a, without_a) = (held.current_a.unwrap(), without.current_a.unwrap());
    assert!((without_a - 0.959).abs() < 0.005, "{without_a}");
    assert!((held_a - 1.310).abs() < 0.005, "{held_a}");
}

/// A door of mossop-24 that talks at night and holds its lock: (220 + 300 + 60) mA x 1.1 = 638 mA. A port of mossop-f4 gives 350 mA, so the
/// door hangs at the supply; without the lock 280 mA x 1.1 = 308 mA, which a port gives. The ports of ostrel-d4 give 0.9 A.
#[test]
fn a_door_that_no_port_can_feed_hangs_at_the_supply() {
    let (sources, loaded) = builtin();
    let catalogue = loaded.catalogue();
    let question = default_question(catalogue, "mossop-24").unwrap();
    let at = doors_at(catalogue, &question, 1);
    assert!(at.by_branch_box && at.on_supply == 1 && at.on_ports == 0, "{at:?}");
    let without = Question { lock: None, ..question.clone() };
    let at = doors_at(catalogue, &without, 1);
    assert!(!at.by_branch_box && at.on_ports == 1, "{at:?}");
    let ostrel = default_question(catalogue, "ostrel-48").unwrap();
    assert!(!doors_at(catalogue, &ostrel, 2).by_branch_box);
    let run = OneRun { question, supply_is_stated: false, cable: "pair-0.8".into(), total_m: 60.0, calls: 1 };
    for carried in stations_on(&sources, &loaded, &run).unwrap() {
        assert!(carried.stations > 0, "{carried:?}");
    }
}
