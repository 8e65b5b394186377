//! Ways out, heights and countries.

use super::case::*;
use latchline_assess::Verdict;
use latchline_finding::{Argument, Language};

#[test]
fn escape_fail_secure() {
    let code = "escape-fail-secure";
    let route = "escape_route = true";
    fails(code, escape(route, "model = \"strike\""), ERROR, None);
    fails(code, escape(route, "model = \"strike\", mechanical_escape = false"), ERROR, None);
    passes(code, escape(route, "model = \"strike\", mechanical_escape = true"));
    passes(code, escape(route, "model = \"safe\""));
    passes(code, escape("escape_route = false", "model = \"strike\""));
}

#[test]
fn escape_depends_on_bus() {
    let code = "escape-depends-on-bus";
    let route = "escape_route = true";
    fails(code, escape(route, "model = \"safe\""), ERROR, None);
    fails(code, escape(route, "model = \"safe\", exit_button = true"), ERROR, None);
    passes(code, escape(route, "model = \"safe\", emergency_release = true"));
    passes(code, escape(route, "model = \"safe\", mechanical_escape = true"));
    passes(code, escape(route, "model = \"safe\", feed = \"own-supply\", supply_voltage = \"12 V\""));
    passes(code, escape("", "model = \"safe\""));
}

#[test]
fn fire_interlock_missing() {
    let code = "fire-interlock-missing";
    fails(code, escape("escape_route = true", "model = \"magnet\""), ERROR, None);
    // A handle does not move a magnet.
    fails(code, escape("escape_route = true", "model = \"magnet\", mechanical_escape = true"), ERROR, None);
    fails(code, escape("escape_route = true", "model = \"safe\""), ERROR, None);
    fails(code, escape("", "model = \"magnet\""), WARNING, None);
    passes(code, escape("fire_interlock = true\nescape_route = true", "model = \"magnet\""));
    passes(code, escape("escape_route = true", "model = \"safe\", mechanical_escape = true"));
    passes(code, escape("", "model = \"safe\""));
}

#[test]
fn fire_interlock_without_effect() {
    let code = "fire-interlock-without-effect";
    fails(code, escape("fire_interlock = true", "model = \"strike\""), WARNING, None);
    passes(code, escape("fire_interlock = true", "model = \"safe\""));
    // One lock that opens is enough.
    let both = "fire_interlock = true\nlocks = [{ model = \"strike\" }, { model = \"magnet\" }]";
    passes(code, escape(both, ""));
    passes(code, escape("", "model = \"strike\""));
}

#[test]
fn relay_on_unsecure_side() {
    let code = "relay-on-unsecure-side";
    fails(code, lock("model = \"strike\", relay_on_secure_side = false"), WARNING, None);
    passes(code, lock("model = \"strike\", relay_on_secure_side = true"));
    passes(code, lock("model = \"strike\""));
}

#[test]
fn exit_button_missing() {
    let code = "exit-button-missing";
    fails(code, lock("model = \"magnet\""), WARNING, None);
    fails(code, lock("model = \"magnet\", mechanical_escape = true"), WARNING, None);
    fails(code, lock("model = \"safe\""), WARNING, None);
    passes(code, lock("model = \"magnet\", exit_button = true"));
    passes(code, lock("model = \"safe\", mechanical_escape = true"));
    passes(code, lock("model = \"strike\""));
}

/// NFPA 101 7.2.1.6.1: 15 s, 30 s where the authority approves. EN 13637: 15 s and 180 s (from memory,
/// not yet confirmed).
#[test]
fn delayed_egress_too_long() {
    let code = "delayed-egress-too-long";
    let case = |country: &'static str, keys: &'static str| Case { site: country, ..lock(keys) };
    let (states, britain) = ("country = \"US\"", "country = \"GB\"");
    passes(code, case(states, "model = \"magnet\", delayed_egress = \"15 s\""));
    fails(code, case(states, "model = \"magnet\", delayed_egress = \"16 s\""), WARNING, Some((16.0, 15.0)));
    fails(code, case(states, "model = \"magnet\", delayed_egress = \"30 s\""), WARNING, Some((30.0, 15.0)));
    fails(code, case(states, "model = \"magnet\", delayed_egress = \"31 s\""), ERROR, Some((31.0, 30.0)));
    fails(
        code,
        case(britain, "model = \"magnet\", delayed_egress = \"180 s\""),
        WARNING,
        Some((180.0, 15.0)),
    );
    fails(code, case(britain, "model = \"magnet\", delayed_egress = \"181 s\""), ERROR, Some((181.0, 180.0)));
    fails(code, case("", "model = \"magnet\", delayed_egress = \"1 s\""), WARNING, None);
    passes(code, lock("model = \"magnet\""));
}

#[test]
fn escape_advice() {
    let code = "escape-advice";
    let case = Case { site: "country = \"GB\"", ..escape("escape_route = true", "model = \"safe\"") };
    let advice = found(code, case);
    assert_eq!(advice.severity, ADVICE);
    let Some(Argument::ManyWords(sources)) = advice.argument("sources") else { panic!("{advice:#?}") };
    assert!(
        sources.iter().any(|source| source.name() == "EN 179")
            && sources.iter().any(|source| source.name() == "EN 1125")
    );
    passes(code, escape("", "model = \"safe\""));
    passes(code, escape("escape_route = true", ""));
}

/// 2010 ADA Standards 308.2.1: 48 in, 1.22 m; 308.2.1 also: 15 in, 0.38 m. DM 236/1989: 1.10 to 1.30 m.
#[test]
fn control_height() {
    let code = "control-height";
    let case = |site: &'static str, entrance: &'static str| Case { site, entrance, ..Case::default() };
    let states = "country = \"US\"";
    fails(code, case(states, "control_height = \"1.45 m\""), ADVICE, Some((1.45, 1.22)));
    passes(code, case(states, "control_height = \"1.22 m\""));
    passes(code, case(states, "control_height = \"48 in\""));
    fails(code, case(states, "control_height = \"1.23 m\""), ADVICE, Some((1.23, 1.22)));
    fails(code, case(states, "control_height = \"0.37 m\""), ADVICE, Some((0.37, 0.38)));
    passes(code, case("country = \"IT\"", "control_height = \"1.2 m\""));
    fails(code, case("country = \"IT\"", "control_height = \"1.0 m\""), ADVICE, Some((1.0, 1.1)));
    passes(code, case(states, ""));
}

#[test]
fn country_without_rules() {
    let code = "country-without-rules";
    let case = |site| Case { site, ..Case::default() };
    let by_name = found(code, case("country = \"England\""));
    assert_eq!(by_name.severity, ADVICE);
    fails(code, case("country = \"UK\""), ADVICE, None);
    // Heights alone, rules alone, and no country at all.
    for known in ["country = \"AU\"", "country = \"BE\"", "country = \"GB\"", "country = \"US\"", ""] {
        passes(code, case(known));
    }
}

/// Whether people escape is asked for and never defaulted: not judged until it is stated, and then with who decided it and when.
#[test]
fn escape_decision_missing() {
    let code = "escape-decision-missing";
    let strike =
        "model = \"strike\", feed = \"own-supply\", supply_voltage = \"12 V\", mechanical_escape = true";
    let said = "front escape_route = true (people escape through it) or false (they do not), as whoever answers for fire safety \
                decided, with escape_decided_by and escape_decided_on";
    not_judged(code, lock(strike), said);
    for stated in ["escape_route = true", "escape_route = false"] {
        fails(code, escape(stated, strike), ADVICE, None);
        let half = format!("{stated}\nescape_decided_by = \"fire risk assessor\"");
        fails(code, escape(&half, strike), ADVICE, None);
        // A decision that nobody stands for is none: not judged, with the keys to write.
        for (text, keys) in
            [(stated, "front escape_decided_by, escape_decided_on"), (&half, "front escape_decided_on")]
        {
            let found = assessment(escape(text, strike));
            let open = found.not_judged.iter().find(|one| one.code == code);
            let said = open.map(|one| one.missing.say(Language::English));
            let said = said.unwrap_or_else(|| panic!("{text} is judged"));
            assert!(said.starts_with(&format!("{keys}, of whoever")), "{said}");
            assert_eq!(found.verdict, Verdict::NotJudged, "{text}");
        }
        let whole = format!("{half}\nescape_decided_on = 2026-03-02");
        passes(code, escape(&whole, strike));
        let sheet = assessment(escape(&whole, strike)).doors.remove(0);
        assert_eq!(sheet.escape_route, Some(stated.ends_with("true")));
        assert_eq!(sheet.escape_decided_by.as_deref(), Some("fire risk assessor"));
        assert_eq!(sheet.escape_decided_on.as_deref(), Some("2026-03-02"));
    }
    // A gate drive outside the buildings, and a door without a lock, keep nobody in.
    let gate = "model = \"gate\", feed = \"dry-contact\"";
    passes(code, escape("outdoors = true", gate));
    // One on a floor of a building shuts a door.
    not_judged(code, lock(gate), said);
    passes(code, lock(""));
}
