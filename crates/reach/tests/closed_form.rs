//! Reach of equal constant currents against the closed form: the last of `n` stations on a chain with
//! the loop resistance `r` from each to the next has lost `I r n (n + 1) / 2` (sum of an arithmetic series).

use latchline_finding::Sources;
use latchline_reach::{BareSite, Question, ReachLimit, largest_chain};
use latchline_site::LoadedCatalogues;

const CATALOGUE: &str = r#"
[families.plain]
title = "Plain"
source = "made for this test"
nominal_voltage = "24 V"
simultaneous_calls = 1
[families.plain.addresses]
indoor = [{ field = "dwelling", first = 1, last = 99, set_by = "keyed", digits = 2, label = "N" }]
door = [{ field = "entrance", first = 1, last = 9, set_by = "keyed", digits = 1, label = "D" }]
[supplies.supply]
title = "Supply"
source = "made for this test"
family = "plain"
voltage = "24 V"
voltage_tolerance = "0 %"
source_resistance = "0 ohm"
rated_current = "20 A"
limit_kind = "constant-current"
[boxes.box]
title = "Box"
source = "made for this test"
family = "plain"
role = "distributor"
kind = "transparent"
ports = 2
[stations.flat]
title = "Flat"
source = "made for this test"
family = "plain"
kind = "indoor"
media = "audio"
loop_through = "bridged"
converter = false
standby = "20 mA"
ringing = "20 mA"
talking = "20 mA"
load_tolerance = "0 %"
least_voltage = "18 V"
least_standby_voltage = "18 V"
[stations.door]
title = "Door"
source = "made for this test"
family = "plain"
kind = "door"
media = "audio"
loop_through = "end"
converter = false
standby = "0.001 mA"
ringing = "0.001 mA"
talking = "0.001 mA"
load_tolerance = "0 %"
least_voltage = "1 V"
least_standby_voltage = "1 V"
[cables."flex-1.5"]
title = "Feeder"
source = "made for this test"
gauge = "1 ohm/km"
resistance_tolerance = "0 %"
[cables."flex-1.0"]
title = "Feeder"
source = "made for this test"
gauge = "1 ohm/km"
resistance_tolerance = "0 %"
[cables.wire]
title = "Wire"
source = "made for this test"
gauge = "88 ohm/km"
resistance_tolerance = "0 %"
"#;

#[test]
fn equal_currents_reach_as_far_as_the_arithmetic_series_says() {
    let mut sources = Sources::new();
    let catalogue = sources.add("catalogue", CATALOGUE);
    let part = |name: &str| name.to_string();
    let question = Question {
        family: part("plain"),
        station: part("flat"),
        door: part("door"),
        supply: part("supply"),
        distributor: part("box"),
        lock: None,
    };
    let bare = BareSite::new(&sources, &LoadedCatalogues::new(&sources, &[catalogue]), &question, "wire", 1)
        .unwrap_or_else(|error| {
            panic!("{error}: {:#?}", error.findings);
        });
    // Two conductors of 88 ohm/km at 20 °C, at 40 °C (copper, 0.00393 /K), 5 % longer, and four terminals
    // of 10 mohm a section.
    let loop_ohm = |ohm_per_km: f64, length_m: f64| {
        2.0 * ohm_per_km / 1e3 * (1.0 + 0.00393 * 20.0) * 1.05 * length_m + 0.04
    };
    // All of it also flows through the feed between supply and box.
    let head_ohm = loop_ohm(1.0, latchline_reach::FEED_M);
    for spacing_m in [4.0, 6.5, 9.0, 14.0, 33.0] {
        let section_ohm = loop_ohm(88.0, spacing_m);
        let drop = |stations: usize| {
            let series = (stations * (stations + 1)) as f64 / 2.0;
            0.020 * (section_ohm * series + head_ohm * stations as f64)
        };
        let expected = (1..=40).take_while(|stations| drop(*stations) <= 6.0 - 0.001).last().unwrap_or(0);
        let cell = largest_chain(&bare, spacing_m, spacing_m);
        assert_eq!(cell.stations, expected, "{spacing_m} m: {cell:?}, drop {}", drop(expected));
        assert_eq!(cell.limit, if expected == 40 { ReachLimit::None } else { ReachLimit::Voltage });
        let margin = cell.margin_v.unwrap_or(f64::NAN);
        assert!(
            (margin - (6.0 - drop(expected))).abs() < 0.002,
            "{margin} V against {}",
            6.0 - drop(expected)
        );
    }
}
