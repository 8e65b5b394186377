//! Faults at the door and in the cupboard: each has remedies of the kinds named here, and every remedy,
//! applied to the text and judged again from scratch, takes its finding away and brings none.

#![allow(clippy::unwrap_used, reason = "a failure to build the case is a failed test")]

use crate::common::{judge_with, keys};
use latchline_finding::{EditStep, MainsLost, Remedy, Severity, WithoutMains};
use latchline_remedy::propose;
use latchline_site::{builtin_catalogue, edit};

/// A door with this lock and these keys, on a supply with these keys.
fn site(lock: &str, entrance: &str, supply: &str, policy: &str) -> String {
    let supply = if supply.is_empty() { "model = \"ostrel-ps-120b\"" } else { supply };
    format!(
        "[site]\ntitle = \"Door\"\nfamily = \"ostrel-48\"\ncountry = \"GB\"\nindoor_station = \"ostrel-v7\"\n\
         door_station = \"ostrel-dv1\"\n[policy]\n{policy}\n[buildings]\nA = {{ floors = [\"G\", \"1\"] }}\n\
         [supplies]\nPS = {{ {supply}, place = \"A/G\" }}\n\
         [distributors]\nD1 = {{ model = \"ostrel-d4\", place = \"A/G\" }}\n\
         [entrances.front]\nrole = \"main\"\nplace = \"A/G\"\ncalls = [\"A\"]\n{entrance}\n{lock}\n\
         [dwellings]\nA-1 = {{ place = \"A/G\" }}\nA-2 = {{ place = \"A/1\" }}\n\
         [runs]\nR0 = {{ from = \"PS\", to = \"D1\", cable = \"flex-1.5\", length = \"1 m\" }}\n\
         R1 = {{ from = \"D1.1\", to = \"front\", cable = \"pair-0.8\", length = \"10 m\" }}\n\
         R2 = {{ from = \"D1.2\", to = [\"A-1\", \"A-2\"], cable = \"pair-0.8\", lengths = [\"9 m\", \"7 m\"] }}\n"
    )
}

/// The kinds of remedy of the only finding of a code, each verified; and that mending leaves none of it.
fn kinds(code: &str, text: &str) -> Vec<&'static str> {
    kinds_with(code, text, &[builtin_catalogue().1])
}

/// The same with these catalogues.
fn kinds_with(code: &str, text: &str, catalogues: &[&str]) -> Vec<&'static str> {
    let judged = judge_with(text, catalogues);
    let assessment = &judged.assessment;
    let bench = judged.bench();
    let found = assessment.findings.iter().find(|finding| finding.code.as_str() == code);
    let found = found.unwrap_or_else(|| panic!("no {code}: {:?}", keys(&assessment.findings)));
    let remedies = propose(&bench, found);
    let before = keys(&assessment.findings);
    let wanted = keys(std::slice::from_ref(found));
    for remedy in &remedies {
        let changed = edit::apply(text, &remedy.edit).expect("applies");
        let after = keys(&judge_with(&changed, catalogues).assessment.findings);
        assert!(after.is_subset(&before), "{remedy:?} brings {:?}", after.difference(&before));
        // What is left of it as something less is told.
        let lesser = remedy.brings.iter().any(|one| one.code == found.code && one.severity < found.severity);
        assert!(after.is_disjoint(&wanted) || lesser, "{remedy:?} leaves {wanted:?}");
    }
    if !remedies.is_empty() {
        let mut session = judged.session();
        let mended = session.mend(Severity::Advice).expect("nobody else edits");
        let after = session.view();
        let left = &after.assessment().expect("nobody else edits").expect("resolves").findings;
        let left: Vec<_> = left.iter().filter(|one| one.severity >= found.severity).cloned().collect();
        assert!(keys(&left).is_disjoint(&wanted), "{:?}", mended.steps);
    }
    remedies.into_iter().map(|remedy| remedy.kind).collect()
}

fn has(code: &str, text: &str, expected: &[&str]) {
    lacks_none(code, &kinds(code, text), expected);
}

/// The same with the modules of [`MODULES`] beside the built-in catalogue.
fn has_with(code: &str, text: &str, expected: &[&str]) {
    lacks_none(code, &kinds_with(code, text, &[builtin_catalogue().1, MODULES]), expected);
}

fn lacks_none(code: &str, found: &[&str], expected: &[&str]) {
    for kind in expected {
        assert!(found.contains(kind), "{code}: {found:?} lacks {kind}");
    }
}

const STRIKE: &str = "model = \"strike-12\", feed = \"station\", cable = \"flex-1.0\", length = \"4 m\", suppression = \"diode\", mechanical_escape = true, exit_button = true";

fn lock(keys: &str) -> String {
    format!("lock = {{ {keys} }}")
}

#[test]
fn too_little_voltage_at_a_lock() {
    let thin = STRIKE.replace("flex-1.0", "pair-0.5").replace("4 m", "28 m");
    has("lock-voltage-too-low", &site(&lock(&thin), "", "", ""), &["thicker-lock-cable"]);
    // The second of two locks, written as a list: the first stays as it is.
    let two = format!("locks = [{{ {STRIKE} }}, {{ {thin} }}]");
    let text = site(&two, "", "", "");
    has("lock-voltage-too-low", &text, &["thicker-lock-cable"]);
    let spare = STRIKE.replace("flex-1.0", "pair-0.8").replace("4 m", "36 m");
    has("lock-voltage-too-low", &site(&lock(&spare), "", "", ""), &["two-pairs-to-the-lock"]);
}

/// Of a door outdoors no cable is proposed that is made for indoors. By hand, for the 36 m here: a pair of outdoor-0.8 in copper of 0.5 mm² has
/// 36.0 ohm/km (IEC 60228, class 1, from memory), so that one of its pairs drops more than flex-0.75 (26.0 ohm/km, class 5) and two less.
#[test]
fn a_lock_outdoors_gets_no_cable_for_indoors() {
    let far = STRIKE.replace("flex-1.0", "flex-0.75").replace("4 m", "36 m");
    let outdoors = site(&lock(&far), "outdoors = true", "", "");
    let judged = judge_with(&outdoors, &[builtin_catalogue().1]);
    let low = judged.assessment.findings.iter().find(|one| one.code.as_str() == "lock-voltage-too-low");
    let remedies = propose(&judged.bench(), low.unwrap());
    let cables: Vec<String> = remedies
        .iter()
        .flat_map(|remedy| &remedy.edit.changes)
        .filter(|(path, _)| path.last() == Some(&EditStep::from("cable")))
        .map(|(_, change)| format!("{change:?}"))
        .collect();
    assert!(!cables.is_empty() && cables.iter().all(|cable| cable.contains("outdoor-0.8")), "{cables:?}");
    assert!(remedies.iter().any(|remedy| remedy.kind == "two-pairs-to-the-lock"), "{remedies:?}");
    let indoors = site(&lock(&far), "", "", "");
    has("lock-voltage-too-low", &indoors, &["thicker-lock-cable"]);
}

#[test]
fn wrong_lock_feed_or_wiring() {
    let ac = STRIKE.replace("strike-12", "strike-12-ac");
    has("lock-current-kind", &site(&lock(&ac), "", "", ""), &["other-lock", "lock-supply-of-its-own"]);
    let contact = format!("{STRIKE}, contact = \"normally-closed\"");
    has("lock-contact-wiring", &site(&lock(&contact), "", "", ""), &["contact-as-the-lock-needs"]);
    let motor = STRIKE.replace("strike-12", "motor-12");
    has("lock-output-overloaded", &site(&lock(&motor), "", "", ""), &["lock-supply-of-its-own"]);
    let high = STRIKE.replace("\"station\"", "\"own-supply\", supply_voltage = \"24 V\"");
    has("lock-voltage-too-high", &site(&lock(&high), "", "", ""), &["other-lock-supply"]);
    let none = STRIKE.replace("\"station\"", "\"own-supply\"");
    has(
        "lock-feed-missing",
        &site(&lock(&none), "", "", ""),
        &["lock-from-the-door-station", "lock-supply-of-its-own"],
    );
    let three = format!("locks = [{{ {STRIKE} }}, {{ {STRIKE} }}]");
    let audio = site(&three, "station = \"ostrel-da1\"", "", "");
    has("lock-outputs-exceeded", &audio, &["other-door-station"]);
}

#[test]
fn times_and_suppression() {
    // The audio door station has no release time of its own, so that the plan's acts.
    let long = format!("{STRIKE}, hold_time = \"90 s\"");
    has(
        "lock-duty-exceeded",
        &site(&lock(&long), "station = \"ostrel-da1\"", "", ""),
        &["shorter-hold-time"],
    );
    has("hold-time-overridden", &site(&lock(&long), "", "", ""), &["hold-time-as-set"]);
    let bare = STRIKE
        .replace("\"station\"", "\"own-supply\", supply_voltage = \"12 V\"")
        .replace("\"diode\"", "\"none\"");
    has(
        "suppression-missing",
        &site(&lock(&bare), "", "", ""),
        &["diode-across-the-coil", "clamp-across-the-coil"],
    );
    let ac = STRIKE
        .replace("strike-12", "strike-12-ac")
        .replace("\"station\"", "\"own-supply\", supply_voltage = \"12 V\", supply_ac = true");
    has("suppression-unsuitable", &site(&lock(&ac), "", "", ""), &["varistor-across-the-coil"]);
}

#[test]
fn ways_out() {
    let shut = STRIKE.replace("mechanical_escape = true", "emergency_release = true");
    let escape = "escape_route = true\nfire_interlock = true";
    has("escape-fail-secure", &site(&lock(&shut), escape, "", ""), &["fail-safe-lock"]);
    let magnet = "model = \"magnet-12\", feed = \"own-supply\", supply_voltage = \"12 V\", supply_tolerance = \"5 %\", cable = \"flex-1.0\", length = \"4 m\", suppression = \"diode\"";
    has("exit-button-missing", &site(&lock(magnet), "", "", ""), &["exit-button"]);
    let safe = "model = \"strike-12-safe\", feed = \"station\", cable = \"flex-1.0\", length = \"4 m\", exit_button = true, suppression = \"diode\"";
    has("escape-depends-on-bus", &site(&lock(safe), escape, "", ""), &["emergency-release"]);
    let delayed = format!("{STRIKE}, delayed_egress = \"40 s\"");
    has("delayed-egress-too-long", &site(&lock(&delayed), "", "", ""), &["shorter-delay"]);
    let outside = format!("{STRIKE}, relay_on_secure_side = false");
    has("relay-on-unsecure-side", &site(&lock(&outside), "", "", ""), &["relay-inside"]);
    // Whether the fire alarm can reach the lock is not for a program to say.
    let held = safe.replace("exit_button", "emergency_release = true, exit_button");
    let alone = site(&lock(&held), "escape_route = true", "", "");
    assert!(kinds("fire-interlock-missing", &alone).is_empty());
}

#[test]
fn relays() {
    // The panel's relay carries 1 A, the motor starts with 1.6 A.
    let motor = "model = \"motor-12\", feed = \"own-supply\", supply_voltage = \"12 V\", supply_tolerance = \"5 %\", cable = \"flex-1.0\", length = \"2 m\", suppression = \"diode\", mechanical_escape = true, exit_button = true";
    has("relay-overloaded", &mossop(&lock(motor)), &["relay-in-between"]);
}

/// A door panel of the family that has neither a heater nor inputs nor an output for lights.
fn mossop(entrance: &str) -> String {
    format!(
        "[site]\ntitle = \"Door\"\nfamily = \"mossop-24\"\nindoor_station = \"mossop-t1\"\ndoor_station = \"mossop-p1\"\n\
         [buildings]\nA = {{ floors = [\"G\"] }}\n[supplies]\nPS = {{ model = \"mossop-ps-24\", place = \"A/G\" }}\n\
         [entrances.front]\nrole = \"main\"\nplace = \"A/G\"\n{entrance}\n\
         [dwellings]\nA-1 = {{ place = \"A/G\" }}\n\
         [runs]\nR1 = {{ from = \"PS\", to = [\"front\", \"A-1\"], cable = \"pair-0.8\", lengths = [\"5 m\", \"7 m\"] }}\n"
    )
}

#[test]
fn lights_and_alarm_inputs() {
    let with = |keys: &str| site(&lock(STRIKE), keys, "", "");
    let bus = with("lights = [{ model = \"porch-12\", feed = \"bus\" }]");
    has(
        "light-feed-unsuitable",
        &bus,
        &["lights-from-the-door-station", "other-light", "light-supply-of-its-own"],
    );
    let two = with("lights = [{ model = \"porch-12\" }, { model = \"porch-12\" }]");
    has("light-output-overloaded", &two, &["light-supply-of-its-own"]);
    let none = with("station = \"ostrel-da1\"\nlights = [{ model = \"porch-12\" }]");
    has("light-feed-missing", &none, &["light-supply-of-its-own", "other-door-station"]);
    let heater = with("station = \"ostrel-da1\"\nheater = true");
    has("heater-missing", &heater, &["other-door-station"]);
    let input = "kind = \"tamper\", tells = [\"A-1\"], cable = \"pair-0.5\", length = \"3 m\"";
    let inputs = with(&format!("station = \"ostrel-da1\"\nalarm_inputs = [{{ {input} }}, {{ {input} }}]"));
    has("alarm-inputs-exceeded", &inputs, &["other-door-station"]);
    let long = input.replace("3 m", "600 m");
    has("alarm-loop-too-long", &with(&format!("alarm_inputs = [{{ {long} }}]")), &["thicker-alarm-cable"]);
    let open = with(&format!("alarm_inputs = [{{ {input}, contact = \"normally-open\" }}]"));
    has("alarm-cable-not-watched", &open, &["normally-closed-contact", "end-of-line-resistor"]);
    let unheard = format!(
        "alarm_inputs = [{{ {} }}]\n[management]\ndesk = {{ model = \"ostrel-m1\", place = \"A/G\" }}\n",
        input.replace("tells = [\"A-1\"], ", "")
    );
    let unheard = site(&unheard, &lock(STRIKE), "", "")
        + "R3 = { from = \"D1.3\", to = \"desk\", cable = \"pair-0.8\", length = \"9 m\" }\n";
    has("alarm-tells-nobody", &unheard, &["management-station-told"]);
    // Whether the fire alarm can reach the lock is not for a program to say.
    let fire = with("alarm_inputs = [{ kind = \"fire\", cable = \"pair-0.5\", length = \"3 m\" }]");
    assert!(kinds("fire-release-through-station", &fire).is_empty());
}

/// Invented modules: a keypad for less current, and buttons in fours and twelves; a door station that can call one
/// dwelling without them.
const MODULES: &str = "[stations]\n\
    door-one = { title = \"D\", source = \"invented\", family = \"ostrel-48\", kind = \"door\", media = \"video\", loop_through = \"end\", standby = \"2 W\", ringing = \"5 W\", talking = \"6 W\", releasing_extra = \"7 W\", least_voltage = \"36 V\", least_standby_voltage = \"34 V\", lock_output_voltage = \"12.6 V\", lock_output_current = \"0.6 A\", accessory_current = \"0.3 A\", directory = 1, price = 900 }\n[accessories]\n\
    keypad-lean = { title = \"K\", source = \"invented\", family = \"ostrel-48\", kind = \"keypad\", current = \"5 mA\", price = 90 }\n\
    keypad-bright = { title = \"K\", source = \"invented\", family = \"ostrel-48\", kind = \"keypad\", current = \"200 mA\", price = 50 }\n\
    buttons-12 = { title = \"B\", source = \"invented\", family = \"ostrel-48\", kind = \"buttons\", current = \"15 mA\", buttons = 12, price = 60 }\n\
    buttons-4 = { title = \"B\", source = \"invented\", family = \"ostrel-48\", kind = \"buttons\", current = \"10 mA\", buttons = 4, price = 20 }\n";

#[test]
fn modules_in_their_chain() {
    let with = |keys: &str| site(&lock(STRIKE), keys, "", "");
    // 200 mA and 200 mA on 300 mA.
    let bright = with("accessories = [\"keypad-bright\", \"keypad-bright\"]");
    has_with("accessory-current-exceeded", &bright, &["lighter-modules"]);
    // Five modules, where the station takes four; sixteen buttons fit on two of twelve.
    let long =
        with("accessories = [\"ostrel-keypad\", \"buttons-4\", \"buttons-4\", \"buttons-4\", \"buttons-4\"]");
    has_with("accessory-chain-too-long", &long, &["larger-button-modules"]);
    // The audio door station takes two, the video one four.
    let three =
        with("station = \"ostrel-da1\"\naccessories = [\"buttons-4\", \"ostrel-keypad\", \"ostrel-keypad\"]");
    has_with("accessory-chain-too-long", &three, &["other-door-station"]);
    // Two dwellings, one of which it can call.
    let small = with("station = \"door-one\"");
    has_with("directory-too-small", &small, &["more-button-modules", "other-door-station"]);
}

#[test]
fn hot_cupboards_and_the_end_of_the_battery() {
    let strike = lock(STRIKE);
    // 60 W lose 2.5 % for every kelvin above 40 °C: 28.5 W at 61 °C; twice as much from a supply of 120 W.
    let hot = site(&strike, "heater = true", "model = \"ostrel-ps-60\", ambient = \"61 °C\"", "");
    has("supply-too-hot", &hot, &["other-supply"]);
    // 45 V at the battery's end, 36 V needed by the door station: a run that passes on 48 V only.
    let thin = site(&strike, "heater = true", "", "").replace(
        "to = \"front\", cable = \"pair-0.8\", length = \"10 m\"",
        "to = \"front\", cable = \"pair-0.5\", length = \"60 m\"",
    );
    has("battery-end-voltage-low", &thin, &["thicker-conductor"]);
}

#[test]
fn batteries_chargers_and_cupboards() {
    let strike = lock(STRIKE);
    let short = site(&strike, "", "", "standby_hours = 60");
    has("battery-hours-short", &short, &["more-batteries"]);
    let many = site(&strike, "", "model = \"ostrel-ps-120b\", batteries = 4", "");
    has("charger-too-small", &many, &["fewer-batteries"]);
    // Six, of which two are the most that 1.5 A put four fifths back into within a day: 0.8 x 34 Ah x 1.2 / 24 h = 1.36 A.
    let six = site(&strike, "", "model = \"ostrel-ps-120b\", batteries = 6", "");
    has("charger-too-small", &six, &["fewer-batteries"]);
    let fewer = remedy_of("charger-too-small", &six, "fewer-batteries");
    assert!(edit::apply(&six, &fewer.edit).unwrap().contains("batteries = 2"), "{fewer:?}");
    // Nothing is bought for fewer; more of them are in no price list.
    let is_nothing = |cost: String| cost.chars().all(|digit| "0.".contains(digit));
    assert!(fewer.cost.is_some_and(|cost| is_nothing(cost.to_string())), "{fewer:?}");
    assert_eq!(remedy_of("battery-hours-short", &short, "more-batteries").cost, None);
}

/// The remedy of a kind of the only finding of a code.
fn remedy_of(code: &str, text: &str, kind: &str) -> Remedy {
    remedy_with(code, text, kind, &[builtin_catalogue().1])
}

/// The same with these catalogues.
fn remedy_with(code: &str, text: &str, kind: &str, catalogues: &[&str]) -> Remedy {
    let judged = judge_with(text, catalogues);
    let bench = judged.bench();
    let found = judged.assessment.findings.iter().find(|finding| finding.code.as_str() == code).unwrap();
    propose(&bench, found).into_iter().find(|remedy| remedy.kind == kind).unwrap()
}

/// A lock on a supply of its own that may be too low for it: 12 V less an assumed 10 % and what the cable takes, where 10.8 V are needed. What is
/// offered changes the door; 5 % written to the supply that is there would make the assumption vanish, and nothing else.
#[test]
fn no_remedy_only_writes_down_what_is_assumed() {
    let low =
        STRIKE.replace("\"station\"", "\"own-supply\", supply_voltage = \"12 V\"").replace("4 m", "10 m");
    let text = site(&lock(&low), "", "", "");
    let judged = judge_with(&text, &[builtin_catalogue().1]);
    let bench = judged.bench();
    let findings = &judged.assessment.findings;
    let found = findings.iter().find(|finding| finding.code.as_str() == "lock-voltage-too-low").unwrap();
    let remedies = propose(&bench, found);
    for remedy in remedies {
        let changed = edit::apply(&text, &remedy.edit).unwrap();
        let is_another = !changed.contains("supply_voltage = \"12 V\"");
        assert!(is_another || !changed.contains("supply_tolerance"), "{remedy:?}");
    }
}

/// A holding magnet of 0.9 A, more than the station's lock output gives.
const STRONG: &str = r#"
[locks.magnet-strong]
title = "Strong magnet"
source = "invented"
kind = "magnet"
power_loss = "opens"
feed = "dc"
voltage = "12 V"
undervoltage_tolerance = "10 %"
overvoltage_tolerance = "15 %"
current = "0.9 A"
"#;

/// What the mains do to a door: fed by the station, its lock lasts as long as the battery; on a supply of its own, of which nothing more is
/// stated, a magnet lets go and a motor cannot be released.
#[test]
fn a_lock_on_a_supply_of_its_own_says_what_happens_with_the_mains_lost() {
    let lost = |keys: &str, kind: &str| {
        let text = site(&lock(keys), "", "", "");
        remedy_with("lock-output-overloaded", &text, kind, &[builtin_catalogue().1, STRONG]).mains_lost
    };
    let front = |what| vec![MainsLost { what, elements: vec!["front".into()] }];
    let magnet = STRIKE.replace("strike-12", "magnet-strong");
    assert_eq!(lost(&magnet, "lock-supply-of-its-own"), front(WithoutMains::LockOpensUnlessBattery));
    // Another magnet on the same output changes nothing of it.
    assert_eq!(lost(&magnet, "other-lock"), []);
    let motor = STRIKE.replace("strike-12", "motor-12");
    assert_eq!(lost(&motor, "lock-supply-of-its-own"), front(WithoutMains::LockStaysShutUnlessBattery));
    // A lock that stays shut made one that opens: at once where the supply has no battery, and not while it has one.
    let shut = STRIKE.replace("mechanical_escape = true", "emergency_release = true");
    let escape = "escape_route = true\nfire_interlock = true";
    let safe = |supply: &str| {
        remedy_of("escape-fail-secure", &site(&lock(&shut), escape, supply, ""), "fail-safe-lock").mains_lost
    };
    assert_eq!(safe("model = \"ostrel-ps-60\""), front(WithoutMains::LockOpens));
    assert_eq!(safe("model = \"ostrel-ps-120b\""), []);
}

/// A light that leaves the bus and its battery.
#[test]
fn a_light_on_a_supply_of_its_own_says_what_happens_with_the_mains_lost() {
    let text = site(&lock(STRIKE), "lights = [{ model = \"porch-12\", feed = \"bus\" }]", "", "");
    let own = remedy_of("light-feed-unsuitable", &text, "light-supply-of-its-own");
    let expected =
        MainsLost { what: WithoutMains::LightGoesOutUnlessBattery, elements: vec!["front".into()] };
    assert_eq!(own.mains_lost, [expected]);
    let other = remedy_of("light-feed-unsuitable", &text, "other-light");
    assert_eq!(other.mains_lost, []);
}
