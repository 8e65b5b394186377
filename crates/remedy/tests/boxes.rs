//! Boxes: nearer by, and in front of those that are there.
#![allow(clippy::unwrap_used, reason = "a failure to build the case is a failed test")]

use crate::common::{judge_with, keys};
use latchline_remedy::propose;
use latchline_site::{builtin_catalogue, edit};

/// The kinds of remedy of the first finding of a code, each applied and judged again: its finding is gone.
fn kinds(text: &str, code: &str, more: &str) -> Vec<&'static str> {
    let catalogues = [builtin_catalogue().1, more];
    let judged = judge_with(text, &catalogues);
    let found = judged.assessment.findings.iter().find(|one| one.code.as_str() == code).unwrap();
    let remedies = propose(&judged.bench(), found);
    for remedy in &remedies {
        let after = judge_with(&edit::apply(text, &remedy.edit).unwrap(), &catalogues);
        assert!(
            keys(&after.assessment.findings).is_disjoint(&keys(std::slice::from_ref(found))),
            "{remedy:?}"
        );
    }
    remedies.into_iter().map(|remedy| remedy.kind).collect()
}

/// Seventeen stations on a port that takes sixteen. A thick cable of which nobody states the line constants is the cheapest for the way to a
/// further distributor, but the signal over it cannot be judged: the next one can.
#[test]
fn a_cable_that_cannot_be_judged_does_not_stand_in_the_way_of_the_next() {
    let bare = "[cables]\nbare = { title = \"Bare twin\", source = \"invented\", gauge = \"2.5 mm²\", class = 1, price = 0.01 }\n";
    let text = include_str!("../../../checks/by_hand/seventeen-on-a-port.toml");
    for more in ["", bare] {
        let kinds = kinds(text, "too-many-stations-on-port", more);
        assert!(kinds.contains(&"another-distributor"), "{kinds:?} with {more:?}");
    }
}

const REGENERATING: &str = r#"
[boxes.ostrel-r4]
title = "Regenerating distributor (invented)"
source = "invented"
family = "ostrel-48"
role = "distributor"
kind = "regenerated"
ports = 4
consumption = "0.8 W"
load_tolerance = "10 %"
least_voltage = "24 V"
highest_voltage = "60 V"
port_resistance = "0.2 ohm"
port_current_limit = "1 A"
port_limit_kind = "constant-current"
turn_on_voltage = "23 V"
turn_off_voltage = "18 V"
input_capacitance = "330 uF"
output_voltage = "48 V"
output_tolerance = "1 %"
output_resistance = "0.3 ohm"
output_power = "40 W"
efficiency = "90 %"
signal_loss = "1 dB"
feed_choke = "2.2 mH"
price = 129
labour_minutes = 30
"#;

/// At the end of 60 m of thin riser the distributor passes on what is left of the voltage, and its stations are short. A box that gives the
/// power anew in front of it gives them 48 V again; where the family has none, it is not proposed.
#[test]
fn a_regenerating_box_goes_in_front_of_a_distributor() {
    let text = "[site]\ntitle = \"Far\"\nfamily = \"ostrel-48\"\nindoor_station = \"ostrel-v7\"\ndoor_station = \"ostrel-dv1\"\ncable = \"pair-0.8\"\n\
        [buildings]\nA = { floors = [\"G\", \"1\"] }\n[supplies]\nPS = { model = \"ostrel-ps-120\", place = \"A/G\" }\n\
        [distributors]\nD1 = { model = \"ostrel-d4\", place = \"A/1\" }\n[entrances]\nfront = { role = \"main\", place = \"A/G\" }\n\
        [dwellings]\nA-1 = { place = \"A/1\" }\nA-2 = { place = \"A/1\" }\nA-3 = { place = \"A/1\" }\n\
        [runs]\nriser = { from = \"PS\", to = \"D1\", cable = \"pair-0.5\", length = \"60 m\", existing = true }\n\
        flats = { from = \"D1.1\", to = [\"A-1\", \"A-2\", \"A-3\"], first = \"30 m\", spacing = \"8 m\", cable = \"pair-0.5\" }\n\
        door = { from = \"D1.2\", to = \"front\", length = \"9 m\" }\n";
    let with = |more: &str| {
        let catalogues = [builtin_catalogue().1, more];
        let judged = judge_with(text, &catalogues);
        let found =
            judged.assessment.findings.iter().find(|one| one.code.as_str() == "voltage-too-low").unwrap();
        let bench = judged.bench();
        // The cheapest four are shown; this asks for it alone.
        let tried: Vec<_> = latchline_remedy::tried(&bench, found);
        tried.into_iter().find(|one| one.kind == "regenerating-box-in-front").map(|one| {
            let after = judge_with(&edit::apply(text, &one.edit).unwrap(), &catalogues);
            keys(&after.assessment.findings).is_disjoint(&keys(std::slice::from_ref(found)))
        })
    };
    assert_eq!(with(""), None);
    assert_eq!(with(REGENERATING), Some(true));
}
