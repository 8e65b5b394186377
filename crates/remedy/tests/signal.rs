//! Remedies for signals, each on a small site whose fault it is for, with the loss that circuit theory gives before and
//! after beside it.
#![allow(clippy::unwrap_used, reason = "a failure to build the case is a failed test")]

use crate::common::{Judged, judge_with};
use latchline_finding::{Finding, Money, Remedy};
use latchline_remedy::propose;
use latchline_site::edit;

/// A family with a terminator that nobody must fit, and two kinds of pair of 100 ohm: one without loss, one that has 2 ohm
/// a metre.
const CATALOGUE: &str = r#"
[families.mere]
title = "Mere (invented)"
source = "invented"
nominal_voltage = "48 V"
simultaneous_calls = 1
terminator_resistance = "100 ohm"
terminator_capacitance = "1 uF"
signal_bands = [{ name = "data", low = "500 kHz", high = "1.5 MHz", budget = "12 dB", ripple = "4 dB" }]
addresses.indoor = [{ field = "dwelling", first = 1, last = 99, set_by = "keyed", digits = 2, label = "FLAT" }]
addresses.door = [{ field = "entrance", first = 0, last = 9, set_by = "keyed", digits = 1, label = "DOOR" }]

[supplies]
ps = { title = "Supply", source = "invented", family = "mere", voltage = "48 V", voltage_tolerance = "0 %", source_resistance = "0.1 ohm", rated_current = "5 A", limit_kind = "hiccup", feed_choke = "100 H" }

[boxes]
tee = { title = "Branch box", source = "invented", family = "mere", role = "branch-box", kind = "transparent", ports = 4, price = 10 }

[stations]
flat = { title = "Station", source = "invented", family = "mere", kind = "indoor", media = "audio", loop_through = "bridged", converter = false, standby = "1 mA", ringing = "2 mA", talking = "2 mA", load_tolerance = "0 %", least_voltage = "20 V", least_standby_voltage = "20 V", highest_voltage = "60 V", bridging_resistance = "10 Mohm", bridging_capacitance = "1 pF", signal_impedance = "100 ohm", price = 100 }
door = { title = "Door station", source = "invented", family = "mere", kind = "door", media = "audio", loop_through = "bridged", converter = false, standby = "1 mA", ringing = "2 mA", talking = "2 mA", load_tolerance = "0 %", least_voltage = "20 V", least_standby_voltage = "20 V", highest_voltage = "60 V", directory = 9, bridging_resistance = "10 Mohm", bridging_capacitance = "1 pF", signal_impedance = "100 ohm", price = 100 }

[cables]
good = { title = "Pair of 100 ohm and 5 ns/m", source = "invented", gauge = "0.1 ohm/km", resistance_tolerance = "0 %", price = 2, line = { capacitance = "50 nF/km", inductance = "0.5 mH/km", skin_corner = "1000 MHz", loss_tangent = 0.0 } }
bad = { title = "The same with 2 ohm a metre", source = "invented", gauge = "1000 ohm/km", resistance_tolerance = "0 %", price = 1, line = { capacitance = "50 nF/km", inductance = "0.5 mH/km", skin_corner = "1000 MHz", loss_tangent = 0.0 } }
"#;

const HEAD: &str = "[site]\ntitle = \"Case\"\nfamily = \"mere\"\nindoor_station = \"flat\"\ndoor_station = \"door\"\ncable = \"good\"\n\
    [conditions]\nusual_temperature = \"20 °C\"\nhottest_temperature = \"20 °C\"\n[supplies]\nPS = { model = \"ps\" }\n";

fn judge(text: &str) -> Judged {
    judge_with(text, &[CATALOGUE])
}

fn about<'f>(judged: &'f Judged, code: &str) -> Vec<&'f Finding> {
    judged.assessment.findings.iter().filter(|finding| finding.code.as_str() == code).collect()
}

/// The remedy of a kind for the first finding of a code, and the site after it, judged anew: no finding of the code is left
/// about that station, and none has come.
fn mended(text: &str, code: &str, kind: &str) -> (Judged, Judged, Remedy) {
    let before = judge(text);
    let found = about(&before, code);
    let first = *found.first().unwrap_or_else(|| panic!("no {code}: {:#?}", before.assessment.findings));
    let remedies = propose(&before.bench(), first);
    let kinds: Vec<&str> = remedies.iter().map(|remedy| remedy.kind).collect();
    let remedy = remedies
        .iter()
        .find(|remedy| remedy.kind == kind)
        .unwrap_or_else(|| panic!("{kind}: {kinds:?}"))
        .clone();
    let after = judge(&edit::apply(text, &remedy.edit).unwrap());
    assert!(!about(&after, code).iter().any(|found| found.element == first.element));
    let known = crate::common::keys(&before.assessment.findings);
    assert!(
        crate::common::keys(&after.assessment.findings).is_subset(&known),
        "{:#?}",
        after.assessment.findings
    );
    (before, after, remedy)
}

/// Loss of the worst station, and where it is, in decibel and hertz.
fn worst(judged: &Judged) -> (f64, f64) {
    let worst = &judged.assessment.signal[0].worst;
    (worst.loss_db, worst.at_hz)
}

fn near(found: f64, expected: f64, within: f64) {
    assert!((found - expected).abs() < within, "{found}, expected {expected} within {within}");
}

/// An open branch of 50 m at 5 ns/m shorts the pair at a quarter wave, 1 MHz; 5 % shorter it loses least on its way and shorts it best, at
/// 1.0526 MHz. With 100 ohm and 1 uF at its end it is a load of 100 ohm at
/// every frequency, that is 20 log 1.5 = 3.522 dB between 100 ohm and 100 ohm.
#[test]
fn a_long_open_branch_gets_a_terminator() {
    let text = format!(
        "{HEAD}[entrances]\nfront = {{ calls = [\"A-1\", \"A-2\"] }}\n[dwellings]\nA-1 = {{}}\nA-2 = {{}}\nB-1 = {{}}\n[runs]\n\
         R1 = {{ from = \"PS\", to = [\"front\", \"A-1\", \"A-2\"], lengths = [\"0.1 m\", \"0.1 m\", \"0.1 m\"] }}\n\
         R2 = {{ from = \"A-1\", to = \"B-1\", length = \"50 m\" }}\n"
    );
    for code in ["signal-too-weak", "signal-notch"] {
        let (before, after, _) = mended(&text, code, "terminator");
        let (loss_db, at_hz) = worst(&before);
        assert!(loss_db > 40.0);
        near(at_hz, 1e6 / 0.95, 2e3);
        near(worst(&after).0, 20.0 * 1.5_f64.log10(), 0.02);
        let branch = &after.site.runs[1];
        assert!(branch.terminator.as_ref().unwrap().value && branch.terminator_capacitor.value);
    }
}

/// 120 m of 2 ohm a metre between 100 ohm and 100 ohm: matched at high frequencies, R l/2 Z = 1.2 Np = 10.4 dB and a little more for
/// the mismatch that the resistance makes; with 150 m over the budget. The other pair has no loss.
#[test]
fn a_lossy_cable_is_replaced() {
    let text = format!(
        "{HEAD}[entrances]\nfront = {{ calls = [\"everyone\"] }}\n[dwellings]\nA-1 = {{}}\n[runs]\n\
         R0 = {{ from = \"PS\", to = [\"front\"], lengths = [\"0.1 m\"] }}\nR1 = {{ from = \"PS\", to = \"A-1\", length = \"150 m\", cable = \"bad\" }}\n"
    );
    let (before, after, remedy) = mended(&text, "signal-too-weak", "other-cable");
    let neper = 150.0 * 2.0 / 200.0;
    assert!(worst(&before).0 > neper * 8.686 - 0.5, "{:?}", worst(&before));
    near(worst(&after).0, 0.0, 0.02);
    assert_eq!(after.site.runs[1].cable.value, "good");
    // 150 m at 2 less 150 m at 1.
    assert_eq!(remedy.cost, Some(Money::from_units(150.0)));
}

/// A star at a branch box: 50 m to B-1 hang open beside the way to A-1, 60 m with a terminator at the end. Out to B-1 and back on the
/// same way to A-1 is one chain without a branch, on which each station has the terminator beside it: 20 log 1.5 = 3.522 dB.
#[test]
fn a_star_at_a_box_becomes_a_chain() {
    let text = format!(
        "{HEAD}[branch-boxes]\nT1 = {{ model = \"tee\" }}\n[entrances]\nfront = {{ calls = [\"everyone\"] }}\n[dwellings]\nA-1 = {{}}\nB-1 = {{}}\n[runs]\n\
         R0 = {{ from = \"PS\", to = [\"front\", \"T1\"], lengths = [\"0.1 m\", \"0.1 m\"] }}\nR1 = {{ from = \"T1.1\", to = \"A-1\", length = \"60 m\", terminator = true }}\n\
         R2 = {{ from = \"T1.2\", to = \"B-1\", length = \"50 m\" }}\n"
    );
    let (before, after, _) = mended(&text, "signal-too-weak", "branch-looped-in");
    assert!(worst(&before).0 > 40.0);
    near(worst(&after).0, 20.0 * 1.5_f64.log10(), 0.05);
    let run = &after.site.runs[1];
    let lengths: Vec<f64> = run.sections.iter().map(|section| section.length.value.as_metres()).collect();
    assert_eq!((after.site.runs.len(), lengths), (2, vec![50.0, 110.0]));
    assert_eq!(after.site.stop_id(run.sections[0].to).as_str(), "B-1");
}
