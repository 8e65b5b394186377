//! Lock circuits, relays, times and suppression.

use super::case::*;
use latchline_assess::door::times::LockTimes;
use latchline_finding::Argument;
use latchline_site::model::RelayContact;
use latchline_wiring::lock::WiringElement;

/// 12 V, coil cold: 0.55 A. 30 m: 3 ohm, 1.65 V: 10.35 V of 10.8 V. With 20 m 10.9 V.
#[test]
fn lock_voltage_too_low() {
    let code = "lock-voltage-too-low";
    let long = lock("model = \"strike\", cable = \"wire\", length = \"30 m\", joints = 0");
    fails(code, long, ERROR, Some((10.35, 10.8)));
    // A coil at 0 °C has 20 x 0.00393 less resistance than at 20 °C and draws 0.55 A / 0.9214 = 0.5969 A; one in the heat is taken at 20 °C.
    let cold = Case { coldest: "0 °C", ..long };
    fails(code, cold, ERROR, Some((12.0 - 0.55 / 0.9214 * 3.0, 10.8)));
    passes(code, lock("model = \"strike\", cable = \"wire\", length = \"20 m\", joints = 0"));
    // At the limit: a motor's inrush of 1.5 A over 0.8 ohm is 1.2 V.
    let own = "feed = \"own-supply\", supply_voltage = \"12 V\", supply_tolerance = \"0 %\"";
    let at = format!("model = \"motor\", {own}, cable = \"wire\", length = \"8 m\", joints = 0");
    passes(code, lock(&at));
    let beyond = at.replace("8 m", "8.1 m");
    fails(code, lock(&beyond), ERROR, Some((12.0 - 1.5 * 0.81, 10.8)));
    // Two joints of 10 mohm in each of two conductors: 0.04 ohm more.
    let joints = lock("model = \"strike\", cable = \"wire\", length = \"30 m\", joints = 2");
    fails(code, joints, ERROR, Some((12.0 - 0.55 * 3.04, 10.8)));
    // Two pairs in parallel, each with its joints, are half of both: 1.52 ohm.
    let pairs = lock("model = \"strike\", cable = \"wire\", length = \"30 m\", joints = 2, pairs = 2");
    passes(code, pairs);
    let circuit = assessment(pairs).doors.remove(0).locks.remove(0).circuit.unwrap();
    assert!((circuit.least_v - (12.0 - 0.55 * 1.52)).abs() < 1e-9, "{}", circuit.least_v);
    not_judged(code, lock("model = \"strike\", cable = \"wire\""), "front lock length");
    not_judged(code, lock("model = \"strike\", length = \"3 m\""), "front lock cable");
    passes(code, lock("model = \"gate\", feed = \"dry-contact\""));
}

/// On the bus: the station's lowest voltage in any state, with the lock's own 0.2 A in it. Without the
/// model's `releasing_extra` the bus was solved without the lock, and nothing is judged.
#[test]
fn lock_on_the_bus() {
    let keys = "model = \"strike-24\", feed = \"bus\", cable = \"wire\", length = \"10 m\", joints = 0";
    let with = Case { door: ", releasing_extra = \"200 mA\"", run: "30 m", ..lock(keys) };
    let sheet = assessment(with).doors.remove(0).locks.remove(0);
    let circuit = sheet.circuit.unwrap();
    // Front stands behind 3 ohm of cable and 0.04 ohm of terminals. Releasing: 6 W and 0.2 A there, 1 W
    // behind it (over 0.14 ohm, negligible): v = 24 - 3.04 (7/v + 0.2), that is v^2 - 23.392 v + 21.28 =
    // 0.
    let by_hand = (23.392 + (23.392_f64 * 23.392 - 4.0 * 21.28).sqrt()) / 2.0;
    assert!((circuit.feed.low_v - by_hand).abs() < 0.01, "{} {by_hand}", circuit.feed.low_v);
    assert!((circuit.least_v - (circuit.feed.low_v - 0.22)).abs() < 1e-9);
    passes("lock-voltage-too-low", with);
    not_judged("lock-voltage-too-low", lock(keys), "door releasing_extra");
}

/// 13.2 V is 12 V and 10 %. Over 2 m of wire, 0.2 ohm, a strike of 0.5 A draws at least 0.45 A through a winding at 105 °C, which has 85 x 0.00393
/// more resistance than at 20 °C: 0.45 / 1.33405 = 0.33732 A at 12 V. So it gets V / (1 + 0.2 x 0.33732 / 12) = V / 1.005622.
#[test]
fn lock_voltage_too_high() {
    let code = "lock-voltage-too-high";
    let own = |volts: &str| {
        format!(
            "model = \"strike\", feed = \"own-supply\", supply_voltage = \"{volts}\", supply_tolerance = \"0 %\", cable = \"wire\", length = \"2 m\""
        )
    };
    let reached = |volts: f64| volts / (1.0 + 0.2 * (0.45 / (1.0 + 85.0 * 0.00393)) / 12.0);
    fails(code, lock(&own("13.8 V")), ERROR, Some((reached(13.8), 13.2)));
    passes(code, lock(&own("12 V")));
    passes(code, lock(&own("13.2 V")));
    // 13.2 V x 1.005622 = 13.2742 V.
    passes(code, lock(&own("13.274 V")));
    fails(code, lock(&own("13.275 V")), ERROR, Some((reached(13.275), 13.2)));
    // A cold cable has less resistance: at 0 °C 0.2 x (1 - 20 x 0.00393) = 0.18428 ohm, a factor of 1.005180.
    fails(code, Case { coldest: "0 °C", ..lock(&own("13.274 V")) }, ERROR, Some((13.274 / 1.005180, 13.2)));
    // Without a cable, and for a motor, which has electronics of its own, the feed's own voltage holds.
    let bare = own("13.201 V").replace(", cable = \"wire\", length = \"2 m\"", "");
    fails(code, lock(&bare), ERROR, Some((13.201, 13.2)));
    let motor = own("13.201 V").replace("\"strike\"", "\"motor\"");
    fails(code, lock(&motor), ERROR, Some((13.201, 13.2)));
}

#[test]
fn lock_feed_missing() {
    let code = "lock-feed-missing";
    let bare = Case { site: "door_station = \"bare\"", ..lock("model = \"strike\"") };
    fails(code, bare, ERROR, None);
    fails(code, lock("model = \"strike\", feed = \"own-supply\""), ERROR, None);
    fails(code, lock("model = \"strike\", feed = \"dry-contact\""), ERROR, None);
    passes(code, lock("model = \"strike\", cable = \"wire\", length = \"2 m\""));
    passes(code, lock("model = \"gate\""));
}

#[test]
fn lock_outputs_exceeded() {
    let code = "lock-outputs-exceeded";
    let gate = "{ model = \"gate\" }";
    let two = format!("locks = [{gate}, {gate}]");
    let three = format!("locks = [{gate}, {gate}, {gate}]");
    passes(code, Case { entrance: &two, ..Case::default() });
    fails(code, Case { entrance: &three, ..Case::default() }, ERROR, Some((3.0, 2.0)));
    passes(code, lock("model = \"gate\""));
}

/// The output gives 0.6 A.
#[test]
fn lock_output_overloaded() {
    let code = "lock-output-overloaded";
    fails(code, lock("model = \"motor\""), ERROR, Some((1.5, 0.6)));
    passes(code, lock("model = \"strike\""));
    // At the limit, and a milliampere beyond.
    passes(code, lock("model = \"six\""));
    fails(code, lock("model = \"six-one\""), ERROR, Some((0.601, 0.6)));
    passes(code, lock("model = \"six-one\", feed = \"own-supply\", supply_voltage = \"12 V\""));
}

/// The relay carries 1 A, the motor starts with 1.5 A.
#[test]
fn relay_overloaded() {
    let code = "relay-overloaded";
    let own = "feed = \"own-supply\", supply_voltage = \"12 V\"";
    fails(code, lock(&format!("model = \"motor\", {own}")), ERROR, Some((1.5, 1.0)));
    passes(code, lock(&format!("model = \"strike\", {own}")));
    passes(code, lock(&format!("model = \"ten\", {own}")));
    passes(code, lock("model = \"motor\""));
    let keys = format!("model = \"strike\", {own}");
    let bare = Case { site: "door_station = \"bare\"", ..lock(&keys) };
    not_judged(code, bare, "bare relay_current");
    // A relay in between takes the current; at its rating and a milliampere beyond.
    let between = |rating: &str| format!("model = \"motor\", {own}, relay_between = \"{rating}\"");
    passes(code, lock(&between("1.5 A")));
    fails(code, lock(&between("1.499 A")), ERROR, Some((1.5, 1.499)));
    passes(code, Case { site: "door_station = \"bare\"", ..lock(&between("5 A")) });
}

/// The make contact of a relay in between carries the lock. Its coil releases a lock that stays shut without
/// power when it is energised, one that opens without when it drops out: so it is held through the station's
/// break contact.
#[test]
fn a_relay_in_between_lets_go_when_its_coil_is_lost() {
    let own = "feed = \"own-supply\", supply_voltage = \"12 V\", relay_between = \"5 A\"";
    let wiring = |model: &str| {
        let keys = format!("model = \"{model}\", {own}");
        assessment(lock(&keys)).doors.remove(0).locks.remove(0).wiring
    };
    let [shut, safe] = [wiring("strike"), wiring("magnet")];
    assert_eq!(shut.series[1], WiringElement::RelayBetween);
    assert_eq!(shut.coil_contact, Some(RelayContact::NormallyOpen));
    assert_eq!(safe.series[1], WiringElement::RelayBetween);
    assert_eq!(safe.coil_contact, Some(RelayContact::NormallyClosed));
}

#[test]
fn lock_current_kind() {
    let code = "lock-current-kind";
    fails(code, lock("model = \"strike-ac\""), ERROR, None);
    let own = |model: &str, ac: bool| {
        format!("model = \"{model}\", feed = \"own-supply\", supply_voltage = \"12 V\", supply_ac = {ac}")
    };
    fails(code, lock(&own("strike", true)), ERROR, None);
    passes(code, lock(&own("strike", false)));
    passes(code, lock(&own("strike-ac", true)));
    passes(code, Case { door: ", lock_output_ac = true", ..lock("model = \"strike-ac\"") });
}

#[test]
fn lock_contact_wiring() {
    let code = "lock-contact-wiring";
    fails(code, lock("model = \"magnet\", contact = \"normally-open\""), ERROR, None);
    fails(code, lock("model = \"strike\", contact = \"normally-closed\""), ERROR, None);
    passes(code, lock("model = \"magnet\", contact = \"normally-closed\""));
    passes(code, lock("model = \"strike\", contact = \"normally-open\""));
    // Without the key the wiring is the right one.
    passes(code, lock("model = \"magnet\""));
    passes(code, lock("model = \"gate\", contact = \"normally-closed\""));
}

/// The strike bears 30 s.
#[test]
fn lock_duty_exceeded() {
    let code = "lock-duty-exceeded";
    fails(code, lock("model = \"strike\", hold_time = \"31 s\""), ERROR, Some((31.0, 30.0)));
    passes(code, lock("model = \"strike\", hold_time = \"30 s\""));
    passes(code, lock("model = \"strike\", hold_time = \"5 s\""));
    // The station's own 40 s win over the plan's 5 s.
    let station =
        Case { door: ", release_time = \"40 s\"", ..lock("model = \"strike\", hold_time = \"5 s\"") };
    fails(code, station, ERROR, Some((40.0, 30.0)));
    // And its 4 s over the plan's 31 s.
    passes(
        code,
        Case { door: ", release_time = \"4 s\"", ..lock("model = \"strike\", hold_time = \"31 s\"") },
    );
    let shut = found(code, lock("model = \"safe-short\", hold_time = \"1 s\""));
    assert_eq!((shut.value, shut.limit.map(|limit| limit.value)), (None, Some(60.0)));
    passes(code, lock("model = \"safe\""));
}

#[test]
fn hold_time_overridden() {
    let code = "hold-time-overridden";
    let own = ", release_time = \"3 s\"";
    let differs = Case { door: own, ..lock("model = \"strike\", hold_time = \"8 s\"") };
    fails(code, differs, ADVICE, Some((3.0, 8.0)));
    passes(code, Case { door: own, ..lock("model = \"strike\", hold_time = \"3 s\"") });
    passes(code, Case { door: own, ..lock("model = \"strike\"") });
    passes(code, lock("model = \"strike\", hold_time = \"8 s\""));
}

/// L/R = 0.24 H / 24 ohm = 10 ms; a diode of 0.7 V: 10 ms ln((0.5 + 0.7/24)/(0.1 + 0.7/24)) = 14.102 ms.
#[test]
fn suppression_missing() {
    let code = "suppression-missing";
    let own = "model = \"strike\", feed = \"own-supply\", supply_voltage = \"12 V\"";
    let missing = found(code, lock(own));
    assert_eq!(missing.severity, ADVICE);
    let Some(Argument::Figure(delay)) = missing.argument("diode_delay") else { panic!("{missing:#?}") };
    let by_hand = 0.010 * ((0.5 + 0.7 / 24.0) / (0.1 + 0.7 / 24.0_f64)).ln();
    assert!((delay.value - by_hand).abs() < 1e-9 && (by_hand - 0.014_102).abs() < 1e-6);
    fails(code, lock(&format!("{own}, suppression = \"none\"")), ADVICE, None);
    passes(code, lock(&format!("{own}, suppression = \"diode\"")));
    passes(code, lock("model = \"strike\""));
    passes(code, lock("model = \"gate\""));
}

#[test]
fn suppression_unsuitable() {
    let code = "suppression-unsuitable";
    let own = "model = \"strike-ac\", feed = \"own-supply\", supply_voltage = \"12 V\", supply_ac = true";
    fails(code, lock(&format!("{own}, suppression = \"diode\"")), ERROR, None);
    passes(code, lock(&format!("{own}, suppression = \"varistor\"")));
    passes(code, lock("model = \"strike\", suppression = \"diode\""));
}

/// The sheet says what the rules judge.
#[test]
fn sheets_carry_the_figures_of_the_rules() {
    let keys = "model = \"magnet\", cable = \"wire\", length = \"10 m\", joints = 0, exit_button = true, emergency_release = true, suppression = \"diode\"";
    let case = Case {
        entrance: "escape_route = true\nfire_interlock = true",
        policy: "standby_hours = 1",
        battery: BATTERY,
        ..lock(keys)
    };
    let assessment = assessment(case);
    let door = &assessment.doors[0];
    let sheet = &door.locks[0];
    let circuit = sheet.circuit.as_ref().unwrap();
    // 12 V - 0.55 A x 1 ohm; nominal 12 V - 0.5 A x 1 ohm.
    assert!((circuit.least_v - 11.45).abs() < 1e-12 && (circuit.nominal_v - 11.5).abs() < 1e-12);
    assert_eq!(sheet.calculation.len(), 5);
    assert!(sheet.calculation.iter().all(|line| line.holds() && !line.inputs.is_empty()));
    assert_eq!(
        sheet.wiring.series,
        [
            WiringElement::FeedOut,
            WiringElement::RelayNormallyClosed,
            WiringElement::ExitButtonNormallyClosed,
            WiringElement::EmergencyRelease,
            WiringElement::FireInterlock,
            WiringElement::Lock,
            WiringElement::FeedReturn,
        ]
    );
    let Some(LockTimes { hold, duty_s, .. }) = sheet.times else { panic!("{sheet:#?}") };
    assert_eq!((hold.time_s, duty_s), (5.0, f64::INFINITY));
    let supply = &assessment.supply_sheets[0];
    let battery = supply.battery.as_ref().unwrap().as_ref().unwrap();
    assert!(battery.shortest().unwrap().hours >= 1.0);
    // Heat of the largest load and of charging at 80 %: a quarter of the output.
    let mains = supply.mains.as_ref().unwrap();
    let output_w = mains.output_w + 0.2 * 12.0;
    assert!((mains.heat_w.unwrap() - 0.25 * output_w).abs() < 1e-9);
    assert!((mains.mains_current_a.unwrap() - output_w / (0.8 * 0.6 * 230.0)).abs() < 1e-9);
}

/// Standby load of the only supply with this lock, in watts.
fn standby_w(keys: &str, door: &str) -> f64 {
    let assessment = assessment(Case { battery: BATTERY, door, ..lock(keys) });
    let Some(Ok(battery)) = &assessment.supply_sheets[0].battery else { panic!("no battery") };
    battery.loads[0].bus_power_w
}

/// 4.5 W of the door station, 0.5 W of the indoor one, and up to 0.1 W in 2 m of cable; a magnet takes
/// 12 V x 0.5 A = 6 W more as long as the door is shut, a strike that stays shut without power nothing.
#[test]
fn a_lock_that_is_always_energised_is_in_the_standby_load() {
    let close = |watts: f64, expected: f64| {
        assert!(watts >= expected && watts < expected + 0.2, "{watts} W, expected {expected} W");
    };
    close(standby_w("model = \"strike\"", ""), 5.0);
    close(standby_w("model = \"magnet\"", ""), 11.0);
    // What the door station states for an energised lock stands before the lock's own rating.
    close(standby_w("model = \"magnet\"", ", releasing_extra = \"7 W\""), 12.0);
    close(standby_w("model = \"strike\"", ", releasing_extra = \"7 W\""), 5.0);
    let own = "model = \"magnet\", feed = \"own-supply\", supply_voltage = \"12 V\"";
    close(standby_w(own, ", releasing_extra = \"7 W\""), 5.0);
}
