//! Figures without physical sense in a catalogue: refused by name with the range that is accepted; and figures at the very ends
//! of those ranges, which are judged or named as missing, and never pass in silence.

use crate::small_site::{STEADY, site};
use latchline_finding::{Argument, Sources};
use latchline_network::signal_tree::survey;
use latchline_network::start_up::{Effort, start_up};
use latchline_network::{Layout, Memory};
use latchline_site::LoadedCatalogues;

/// One band and one part of each kind, with the figures that the cases replace.
const PARTS: &str = r#"
[families.mere]
title = "Mere (invented)"
source = "invented"
nominal_voltage = "48 V"
simultaneous_calls = 1
terminator_resistance = "100 ohm"
terminator_capacitance = "1 uF"
signal_bands = [{ name = "all", low = "10 kHz", high = "100 kHz", budget = "20 dB" }]
addresses.indoor = [{ field = "dwelling", first = 1, last = 99, set_by = "keyed", digits = 2, label = "FLAT" }]
addresses.door = [{ field = "entrance", first = 0, last = 9, set_by = "keyed", digits = 1, label = "DOOR" }]

[supplies]
ps = { title = "Supply", source = "invented", family = "mere", voltage = "48 V", voltage_tolerance = "2 %", source_resistance = "0.1 ohm", rated_current = "5 A", limit_kind = "hiccup", trip_delay = "50 ms", retry_pause = "2 s", feed_choke = "5 mH" }

[stations]
flat = { title = "Station", source = "invented", family = "mere", kind = "indoor", media = "audio", loop_through = "bridged", standby = "1 W", boot = "1 W", boot_time = "0.001 ms", ringing = "2 W", talking = "2 W", least_voltage = "20 V", least_standby_voltage = "20 V", turn_on_voltage = "30 V", turn_off_voltage = "20 V", input_capacitance = "100 uF", bridging_resistance = "10 kohm", bridging_capacitance = "100 pF", signal_impedance = "100 ohm" }
door = { title = "Door station", source = "invented", family = "mere", kind = "door", media = "audio", loop_through = "bridged", standby = "1 W", boot = "1 W", boot_time = "0.001 ms", ringing = "2 W", talking = "2 W", least_voltage = "20 V", least_standby_voltage = "20 V", turn_on_voltage = "30 V", turn_off_voltage = "20 V", input_capacitance = "220 uF", directory = 99, bridging_resistance = "10 kohm", bridging_capacitance = "100 pF", signal_impedance = "100 ohm" }

[cables]
wire = { title = "Wire", source = "invented", gauge = "88 ohm/km", line = { capacitance = "50 nF/km", inductance = "0.6 mH/km", skin_corner = "60 kHz", loss_tangent = 0.01 } }
"#;

/// What is found in the parts after one replacement: code, and the key and what is expected where the finding says so.
fn found(from: &str, to: &str) -> Vec<(String, String, String)> {
    assert!(PARTS.contains(from), "{from}");
    let mut sources = Sources::new();
    let file = sources.add("own.toml", PARTS.replace(from, to));
    let text = |argument: Option<&Argument>| match argument {
        Some(Argument::Text(text)) => text.clone(),
        Some(Argument::Words(words)) => words.name().to_string(),
        _ => String::new(),
    };
    let findings = LoadedCatalogues::new(&sources, &[file]).findings().to_vec();
    findings
        .iter()
        .map(|found| {
            let said = (text(found.argument("key")), text(found.argument("expected")));
            (found.code.as_str().to_string(), said.0, said.1)
        })
        .collect()
}

#[test]
fn senseless_figures_are_refused_by_name() {
    assert_eq!(found("title", "title"), []);
    let cases = [
        // No capacitance at all, of a station, a pair, a terminator.
        ("input_capacitance = \"100 uF\"", "input_capacitance = \"0 uF\"", "input_capacitance", "1 pF"),
        ("capacitance = \"50 nF/km\"", "capacitance = \"0 nF/km\"", "capacitance", "1 nF/km"),
        (
            "bridging_capacitance = \"100 pF\"",
            "bridging_capacitance = \"0 pF\"",
            "bridging_capacitance",
            "1 pF",
        ),
        (
            "terminator_capacitance = \"1 uF\"",
            "terminator_capacitance = \"0 uF\"",
            "terminator_capacitance",
            "1 pF",
        ),
        // Frequencies that are none.
        ("low = \"10 kHz\"", "low = \"0 Hz\"", "low", "1 Hz"),
        ("high = \"100 kHz\"", "high = \"5000 MHz\"", "high", "1000 MHz"),
        ("skin_corner = \"60 kHz\"", "skin_corner = \"0 kHz\"", "skin_corner", "1 Hz"),
        ("low = \"10 kHz\"", "low = \"-10 kHz\"", "low", "1 Hz"),
        // Impedances and times.
        ("signal_impedance = \"100 ohm\"", "signal_impedance = \"0 ohm\"", "signal_impedance", "1 mohm"),
        ("inductance = \"0.6 mH/km\"", "inductance = \"0 mH/km\"", "inductance", "10 uH/km"),
        ("trip_delay = \"50 ms\"", "trip_delay = \"0 ms\"", "trip_delay", "0.001 ms"),
        ("retry_pause = \"2 s\"", "retry_pause = \"0 s\"", "retry_pause", "0.001 ms"),
        ("turn_on_voltage = \"30 V\"", "turn_on_voltage = \"0 V\"", "turn_on_voltage", "0.5 V"),
    ];
    for (from, to, key, limit) in cases {
        let said = found(from, to);
        assert!(
            said.iter().any(|(code, named, expected)| code == "out-of-range"
                && named == key
                && expected.contains(limit)),
            "{to}: {said:?}"
        );
    }
    // The wrong way round.
    for (from, to) in [
        ("low = \"10 kHz\", high = \"100 kHz\"", "low = \"100 kHz\", high = \"10 kHz\""),
        ("turn_off_voltage = \"20 V\"", "turn_off_voltage = \"31 V\""),
    ] {
        let said = found(from, to);
        assert!(
            said.iter().all(|(code, ..)| code == "values-out-of-order") && !said.is_empty(),
            "{to}: {said:?}"
        );
    }
}

/// Each figure at either end of what is accepted: every station is judged with a finite loss, and power return has an outcome.
#[test]
fn figures_at_the_ends_of_their_ranges_are_judged() {
    let ends = [
        ("low = \"10 kHz\"", ["low = \"1 Hz\"", "low = \"100 kHz\""]),
        ("high = \"100 kHz\"", ["high = \"10 kHz\"", "high = \"1000 MHz\""]),
        ("capacitance = \"50 nF/km\"", ["capacitance = \"1 nF/km\"", "capacitance = \"10 uF/km\""]),
        ("inductance = \"0.6 mH/km\"", ["inductance = \"10 uH/km\"", "inductance = \"100 mH/km\""]),
        ("skin_corner = \"60 kHz\"", ["skin_corner = \"1 Hz\"", "skin_corner = \"1000 MHz\""]),
        ("feed_choke = \"5 mH\"", ["feed_choke = \"0 mH\"", "feed_choke = \"100 H\""]),
        (
            "bridging_resistance = \"10 kohm\"",
            ["bridging_resistance = \"1 mohm\"", "bridging_resistance = \"100 Mohm\""],
        ),
        (
            "bridging_capacitance = \"100 pF\"",
            ["bridging_capacitance = \"1 pF\"", "bridging_capacitance = \"1 F\""],
        ),
        (
            "signal_impedance = \"100 ohm\"",
            ["signal_impedance = \"1 mohm\"", "signal_impedance = \"100 Mohm\""],
        ),
        (
            "terminator_resistance = \"100 ohm\"",
            ["terminator_resistance = \"1 mohm\"", "terminator_resistance = \"100 Mohm\""],
        ),
        (
            "terminator_capacitance = \"1 uF\"",
            ["terminator_capacitance = \"1 pF\"", "terminator_capacitance = \"1 F\""],
        ),
        ("input_capacitance = \"100 uF\"", ["input_capacitance = \"1 pF\"", "input_capacitance = \"1 F\""]),
        ("turn_off_voltage = \"20 V\"", ["turn_off_voltage = \"0.5 V\"", "turn_off_voltage = \"29.999 V\""]),
        ("trip_delay = \"50 ms\"", ["trip_delay = \"0.001 ms\"", "trip_delay = \"24 h\""]),
        ("retry_pause = \"2 s\"", ["retry_pause = \"0.001 ms\"", "retry_pause = \"24 h\""]),
        (
            "source_resistance = \"0.1 ohm\"",
            ["source_resistance = \"0 ohm\"", "source_resistance = \"1 kohm\""],
        ),
        ("gauge = \"88 ohm/km\"", ["gauge = \"0.1 ohm/km\"", "gauge = \"1000 ohm/km\""]),
    ];
    let (_, parts) = PARTS.split_once("[supplies]").expect("parts");
    let (_, family) = PARTS.split_once("simultaneous_calls = 1\n").expect("family");
    let (family, _) = family.split_once("addresses").expect("addresses");
    let text = "[supplies]\nPS = { model = \"ps\" }\n[entrances]\nfront = { calls = [\"everyone\"] }\n[dwellings]\nA-1 = {}\nA-2 = {}\n[runs]\n\
                R1 = { from = \"PS\", to = [\"front\", \"A-1\"], lengths = [\"0.01 m\", \"20 km\"], terminator = true, terminator_capacitor = true }\n\
                R2 = { from = \"PS\", to = \"A-2\", length = \"3 m\" }\n";
    for (from, to) in ends {
        for to in to {
            let parts = format!("[supplies]{}", parts.replace(from, to));
            let site = site(&family.replace(from, to), &parts, &format!("{STEADY}{text}"));
            let layout = Layout::new(&site);
            let found = survey(&site, &layout);
            assert_eq!(found.missing, [], "{to}");
            assert_eq!(found.bands[0].stations.len(), 2, "{to}");
            for row in &found.bands[0].stations {
                assert!(!row.loss_db.is_nan() && row.loss_db > -200.0, "{to}: {row:?}");
            }
            let start = start_up(&site, &layout, Effort::Whole, &Memory::default()).expect("it is wanted");
            assert_eq!((start.stages.len(), start.missing.len()), (1, 0), "{to}: {:?}", start.missing);
        }
    }
}
