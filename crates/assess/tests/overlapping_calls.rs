//! More than an hour of calls in an hour, in a family with two at once: by the closed form on the currents of one and of two calls.
#![allow(clippy::unwrap_used, reason = "a failure to build the case is a failed test")]

use latchline_assess::assess;
use latchline_assess::supply::BatteryFigures;
use latchline_finding::Sources;
use latchline_site::{builtin_catalogue, resolve};

const HOUSE: &str = r#"
[site]
title = "House of three doors"
family = "ostrel-48"
indoor_station = "ostrel-v4"
door_station = "ostrel-dv1"
cable = "pair-0.8"
[policy]
calls_per_hour = CALLS
call_duration = "60 s"
[buildings]
A = { floors = ["G", "1"] }
[supplies]
PS = { model = "ostrel-ps-120b", place = "A/G", ambient = "30 °C", coldest_ambient = "20 °C" }
[distributors]
D1 = { model = "ostrel-d8t", place = "A/G" }
[entrances]
front = { role = "main", place = "A/G" }
back = { place = "A/G" }
side = { place = "A/G" }
[dwellings]
"A-1..A-4" = { place = "A/G", per_floor = 2 }
[runs]
feed = { from = "PS", to = "D1", length = "2 m", cable = "flex-1.5" }
r1 = { from = "D1.1", to = "front", length = "10 m" }
r2 = { from = "D1.2", to = "back", length = "20 m" }
r3 = { from = "D1.3", to = "side", length = "30 m" }
flats = { from = "D1.4", to = "A-1..A-4", first = "5 m", spacing = "4 m" }
"#;

fn battery(calls_per_hour: u32) -> BatteryFigures {
    let mut sources = Sources::new();
    let (name, catalogue) = builtin_catalogue();
    let catalogue = sources.add(name, catalogue);
    let site = sources.add("site.toml", HOUSE.replace("CALLS", &calls_per_hour.to_string()));
    let site = resolve(&sources, site, &[catalogue]).site.unwrap();
    assess(&site).supply_sheets.remove(0).battery.unwrap().unwrap()
}

#[test]
fn calls_that_overlap_shorten_the_hours_further() {
    let [sixty, ninety, both] = [60, 90, 120].map(battery);
    let of = |battery: &BatteryFigures| battery.calls.clone().unwrap();
    let (one_a, two_a) = (of(&sixty).battery_current_a, of(&both).battery_current_a);
    assert!(two_a > 1.05 * one_a, "{one_a} {two_a}");
    assert_eq!([&sixty, &ninety, &both].map(|battery| of(battery).always), [0, 1, 1]);
    assert!((of(&ninety).share - 0.5).abs() < 1e-12 && (of(&both).share - 1.0).abs() < 1e-12);
    let k = sixty.peukert_exponent;
    let mixed_a = (0.5 * one_a.powf(k) + 0.5 * two_a.powf(k)).powf(1.0 / k);
    for (battery, current_a) in [(&sixty, one_a), (&ninety, mixed_a), (&both, two_a)] {
        let by_law = battery.rated_hours * (battery.effective_ah / (current_a * battery.rated_hours)).powf(k);
        let by_hand = by_law.min(battery.effective_ah / current_a);
        let hours = battery.shortest().unwrap().hours;
        assert!((hours / by_hand - 1.0).abs() < 1e-9, "{hours} {by_hand}");
    }
}
