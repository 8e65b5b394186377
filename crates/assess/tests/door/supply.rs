//! Battery, charger and cupboard.

use super::case::*;
use latchline_assess::calculation::Quantity;
use latchline_finding::{Argument, Severity};

/// Standby 4.5 W and 0.5 W, 5.0 W over a short cable (0.1 ohm per metre: 24 V x 0.2087 A = 5.009 W):
/// from 12 V at 100 % 0.41742 A. 5 Ah at the end of life at 25 °C: 4 Ah, rated current 0.2 A: 20 (4/(20
/// I))^1.2 hours.
#[test]
fn battery_hours_short() {
    let code = "battery-hours-short";
    let case = |policy: &'static str| Case {
        policy,
        supply: ", ambient = \"45 °C\", coldest_ambient = \"25 °C\"",
        battery: BATTERY,
        ..Case::default()
    };
    let short = found(code, case("standby_hours = 10"));
    // Front at 0.1 ohm, A-1 at 0.2 ohm: i = 4.5/v1 + 0.5/v2.
    let (mut v1, mut v2): (f64, f64) = (24.0, 24.0);
    let mut current = 0.0;
    for _ in 0..50 {
        let beyond = 0.5 / v2;
        current = 4.5 / v1 + beyond;
        v1 = 24.0 - 0.1 * current - 0.04 * current;
        v2 = v1 - 0.14 * beyond;
    }
    let from_battery = 24.0 * current / 12.0;
    let by_hand = 20.0 * (4.0 / (20.0 * from_battery)).powf(1.2);
    let value = short.value.unwrap().value;
    assert!((value - by_hand).abs() < 1e-6 * by_hand, "{value} {by_hand}");
    assert!((by_hand - 8.27).abs() < 0.02, "{by_hand}");
    passes(code, case("standby_hours = 8"));
    passes(code, case(""));
    // Without Peukert exponent nothing is promised.
    let without = BATTERY.replace("peukert_exponent = 1.2, ", "");
    let without = Case { battery: &without, ..case("standby_hours = 8") };
    not_judged(code, without, "ps battery peukert_exponent");
}

/// A hotter cupboard changes no hours; a colder one shortens them by the factor of IEEE 485 at 10 °C, 1.19 (table, from
/// memory), to the power of the exponent: Peukert's law, above the rated current throughout.
#[test]
fn heat_by_the_hottest_and_capacity_by_the_coldest_air() {
    let hours = |supply: &str| {
        let sheet = assessment(Case { supply, battery: BATTERY, ..Case::default() }).supply_sheets.remove(0);
        sheet.battery.unwrap().unwrap().shortest().unwrap().hours
    };
    let warm = hours(", ambient = \"30 °C\", coldest_ambient = \"25 °C\"");
    let hot = hours(", ambient = \"44 °C\", coldest_ambient = \"25 °C\"");
    let cold = hours(", ambient = \"44 °C\", coldest_ambient = \"10 °C\"");
    assert!((warm - hot).abs() < 1e-12);
    assert!((warm / cold - 1.19_f64.powf(1.2)).abs() < 1e-9, "{warm} {cold}");
    // Neither is assumed in silence.
    let policy = "standby_hours = 1";
    let silent = assessment(Case { policy, battery: BATTERY, ..Case::default() });
    for assumed in ["PS ambient", "PS coldest_ambient"] {
        assert!(silent.assumed.iter().any(|value| value == assumed), "{:?}", silent.assumed);
    }
    let supply = ", ambient = \"30 °C\", coldest_ambient = \"10 °C\"";
    let stated = assessment(Case { policy, supply, battery: BATTERY, ..Case::default() });
    assert!(!stated.assumed.iter().any(|value| value.contains("ambient")), "{:?}", stated.assumed);
}

/// Six calls an hour of 90 s: a share of 0.15. While one stands door and flat draw 6 W and 1 W, by iteration as in the standby
/// case; the rest is the closed form.
#[test]
fn calls_shorten_the_hours() {
    let current = |door_w: f64, flat_w: f64| {
        let (mut v1, mut v2, mut current): (f64, f64, f64) = (24.0, 24.0, 0.0);
        for _ in 0..50 {
            let beyond = flat_w / v2;
            current = door_w / v1 + beyond;
            v1 = 24.0 - 0.14 * current;
            v2 = v1 - 0.14 * beyond;
        }
        2.0 * current
    };
    let case = Case {
        policy: "standby_hours = 1\ncalls_per_hour = 6\ncall_duration = \"90 s\"",
        supply: ", ambient = \"30 °C\", coldest_ambient = \"25 °C\"",
        battery: BATTERY,
        ..Case::default()
    };
    let sheet = assessment(case).supply_sheets.remove(0);
    let battery = sheet.battery.unwrap().unwrap();
    let calls = battery.calls.clone().unwrap();
    assert!((calls.share - 0.15).abs() < 1e-12);
    let (standby_a, call_a) = (current(4.5, 0.5), current(6.0, 1.0));
    // The search of calls leaves a thousandth of an ampere open at 24 V, two of them at 12 V.
    assert!((calls.battery_current_a - call_a).abs() < 2.1e-3, "{} {call_a}", calls.battery_current_a);
    let load = battery.shortest().unwrap();
    let mean = 0.85 * standby_a.powf(1.2) + 0.15 * calls.battery_current_a.powf(1.2);
    assert!((load.with_calls_a - mean.powf(1.0 / 1.2)).abs() < 1e-6);
    let by_hand = 20.0 * (4.0 / (20.0 * load.with_calls_a)).powf(1.2);
    assert!((load.hours - by_hand).abs() < 1e-6 * by_hand);
    // As many calls as there are seconds are one call without end.
    let always = Case { policy: "calls_per_hour = 3600\ncall_duration = \"1 s\"", ..case };
    let battery = assessment(always).supply_sheets.remove(0).battery.unwrap().unwrap();
    assert!((battery.calls.as_ref().unwrap().share - 1.0).abs() < 1e-12);
    let unstated = Case { policy: "standby_hours = 1\ncalls_per_hour = 6", ..case };
    assert!(assessment(unstated).assumed.iter().any(|value| value == "policy call_duration"));
}

/// Hours asked for where the supply has no battery.
#[test]
fn battery_missing() {
    let code = "battery-missing";
    let case = |policy: &'static str, battery: &'static str| Case { policy, battery, ..Case::default() };
    let missing = found(code, case("standby_hours = 8", ""));
    assert_eq!(missing.severity, ERROR);
    assert!(missing.value.is_none() && (missing.limit.unwrap().value - 8.0).abs() < 1e-12);
    passes(code, case("standby_hours = 8", BATTERY));
    passes(code, case("standby_hours = 0", ""));
    passes(code, case("", ""));
}

/// At the limit itself: the hours that the finding names are enough.
#[test]
fn battery_hours_at_the_limit() {
    let case = Case {
        policy: "standby_hours = 100",
        supply: ", ambient = \"25 °C\", coldest_ambient = \"25 °C\"",
        battery: BATTERY,
        ..Case::default()
    };
    let hours = found("battery-hours-short", case).value.unwrap().value;
    let policy = format!("standby_hours = {hours:.12}");
    passes("battery-hours-short", Case { policy: &policy, ..case });
    let more = format!("standby_hours = {:.6}", hours * 1.000_01);
    fails("battery-hours-short", Case { policy: &more, ..case }, ERROR, Some((hours, hours * 1.000_01)));
}

/// The battery ends at 20 V on the bus; the door station needs 18 V to talk. 3 ohm and 7 W: (20 +
/// sqrt(400 - 84))/2 = 18.888 V; with 6 ohm (20 + sqrt(400 - 168))/2 = 17.616 V on battery, 22.10 V on
/// mains.
#[test]
fn battery_end_voltage_low() {
    let code = "battery-end-voltage-low";
    let case = |run: &'static str| Case { run, battery: BATTERY, ..Case::default() };
    let low = found(code, case("60 m"));
    assert_eq!(low.severity, WARNING);
    assert!((low.value.unwrap().value - 17.616).abs() < 0.05, "{low:#?}");
    assert_eq!(low.limit.unwrap().value, 18.0);
    passes(code, case("30 m"));
    passes(code, Case { battery: "", ..case("60 m") });
}

/// Four fifths of 5 Ah with a factor 1.2 in 24 h: 0.2 A, which the charger has.
#[test]
fn charger_too_small() {
    let code = "charger-too-small";
    let case = |battery| Case { battery, ..Case::default() };
    passes(code, case(BATTERY));
    let small = BATTERY.replace("0.2 A", "0.19 A");
    fails(code, case(&small), WARNING, Some((0.19, 0.2)));
    let strong = BATTERY.replace("0.2 A", "1 A");
    passes(code, case(&strong));
}

#[test]
fn supply_too_hot() {
    let code = "supply-too-hot";
    let case = |supply| Case { supply, ..Case::default() };
    fails(code, case(", ambient = \"50 °C\""), ERROR, Some((50.0, 45.0)));
    passes(code, case(", ambient = \"45 °C\""));
    passes(code, case(", ambient = \"20 °C\""));
    passes(code, case(""));
}

/// 2 % of 100 W less for each kelvin above 45 °C: 10 W at 90 °C, 4 W at 93 °C. The largest load is one call: 6 W
/// of the door station and 1 W of the indoor one, and less than 0.1 W in the cable.
#[test]
fn a_supply_with_power_in_hand_bears_more_heat() {
    let code = "supply-too-hot";
    let case = |supply| Case {
        supply,
        battery: ", rated_power = \"100 W\", derating_per_kelvin = \"2 %\"",
        ..Case::default()
    };
    // Enough there, it is told of the cupboard only.
    assert_eq!(found(code, case(", ambient = \"90 °C\"")).severity, Severity::Advice);
    let hot = found(code, case(", ambient = \"93 °C\""));
    let figure = |name| match hot.argument(name) {
        Some(Argument::Figure(figure)) => figure.value,
        other => panic!("{other:?}"),
    };
    assert!((figure("derated") - 4.0).abs() < 1e-9);
    assert!(figure("load") > 7.0 && figure("load") < 7.1);
    let sheet = assessment(case(", ambient = \"90 °C\"")).supply_sheets.remove(0);
    let line = sheet.calculation.iter().find(|line| line.quantity == Quantity::PowerWhenHot).unwrap();
    assert!(line.holds() && (line.result.value - 10.0).abs() < 1e-9);
    // Not above the limit there is nothing to derate.
    assert!(
        assessment(case(", ambient = \"45 °C\"")).supply_sheets[0]
            .mains
            .as_ref()
            .unwrap()
            .derated_w
            .is_none()
    );
}

/// A supply of 10 W that gives 8 W of load leaves 2 W for a charger that could take 2.4 W; the load at
/// the battery's end is not added to it.
#[test]
fn load_and_charging_stay_within_the_rating() {
    let case = Case { battery: BATTERY, ..Case::default() };
    let free = assessment(case);
    let mains = free.supply_sheets[0].mains.as_ref().unwrap();
    assert!(!mains.charging_waits && (mains.charging_w - 2.4).abs() < 1e-9);
    let rated_w = mains.output_w + 1.0;
    let rated = format!(", rated_power = \"{rated_w} W\"{BATTERY}");
    let tight = assessment(Case { battery: &rated, ..case });
    let mains = tight.supply_sheets[0].mains.as_ref().unwrap();
    assert!(mains.charging_waits && (mains.charging_w - 1.0).abs() < 1e-9);
    assert!(mains.state != latchline_finding::StateKind::BatteryEnd);
}
