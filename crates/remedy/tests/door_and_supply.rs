//! Faults at the door and in the cupboard: each has remedies of the kinds named here, and every remedy,
//! applied to the text and judged again from scratch, takes its finding away and brings none.

mod common;

use common::{judge, keys};
use latchline_finding::Severity;
use latchline_remedy::{mend, propose};
use latchline_site::edit;

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
    let judged = judge(text);
    let assessment = &judged.assessment;
    let bench = judged.bench();
    let found = assessment.findings.iter().find(|finding| finding.code.as_str() == code);
    let found = found.unwrap_or_else(|| panic!("no {code}: {:?}", keys(&assessment.findings)));
    let remedies = propose(&bench, found);
    let before = keys(&assessment.findings);
    let wanted = keys(std::slice::from_ref(found));
    for remedy in &remedies {
        let after = keys(&judge(&edit::apply(text, &remedy.edit).expect("applies")).assessment.findings);
        assert!(after.is_subset(&before), "{remedy:?} brings {:?}", after.difference(&before));
        assert!(after.is_disjoint(&wanted), "{remedy:?} leaves {wanted:?}");
    }
    if !remedies.is_empty() {
        let mended = mend(&judged.sources, judged.file, &judged.catalogues, &judged.site, Severity::Advice);
        assert!(keys(&mended.assessment.findings).is_disjoint(&wanted), "{:?}", mended.steps);
    }
    remedies.into_iter().map(|remedy| remedy.kind).collect()
}

fn has(code: &str, text: &str, expected: &[&str]) {
    let found = kinds(code, text);
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
    has("lock-voltage-too-high", &site(&lock(&high), "", "", ""), &["lock-supply-of-its-own"]);
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
fn batteries_chargers_and_cupboards() {
    let strike = lock(STRIKE);
    let short = site(&strike, "", "", "standby_hours = 60");
    has("battery-hours-short", &short, &["more-batteries"]);
    let many = site(&strike, "", "model = \"ostrel-ps-120b\", batteries = 4", "");
    has("charger-too-small", &many, &["fewer-batteries"]);
}
