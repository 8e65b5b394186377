//! Every 'not judged' followed to the letter: the key that it names, written into the part or the element that it names, gives files that
//! resolve, and what was not judged is. What needs no key of a file is named here one by one.
#![allow(clippy::unwrap_used, reason = "a failure to build the case is a failed test")]

use latchline_assess::{Missing, NotJudged, assess};
use latchline_finding::{Language, Sources};
use latchline_site::resolve;

/// A family with bands for its signals and parts that state no more than they must.
const CATALOGUE: &str = r#"
[families.mere]
title = "Mere"
source = "invented"
nominal_voltage = "24 V"
simultaneous_calls = 1
signal_bands = [{ name = "speech", low = "0.3 kHz", high = "3.4 kHz", budget = "60 dB" }]
addresses.indoor = [{ field = "dwelling", first = 1, last = 99, set_by = "keyed", digits = 2, label = "FLAT" }]
addresses.door = [{ field = "entrance", first = 0, last = 9, set_by = "keyed", digits = 1, label = "DOOR" }]
[supplies.ps]
title = "Supply"
source = "invented"
family = "mere"
voltage = "24 V"
voltage_tolerance = "0 %"
source_resistance = "0.1 ohm"
rated_current = "2 A"
limit_kind = "constant-current"
[boxes.d4]
title = "Distributor"
source = "invented"
family = "mere"
role = "distributor"
kind = "transparent"
ports = 4
[stations.flat]
title = "Flat"
source = "invented"
family = "mere"
kind = "indoor"
media = "audio"
loop_through = "bridged"
standby = "0.5 W"
ringing = "1 W"
talking = "1.5 W"
least_voltage = "18 V"
least_standby_voltage = "15 V"
[stations.door]
title = "Door"
source = "invented"
family = "mere"
kind = "door"
media = "audio"
loop_through = "bridged"
standby = "0.7 W"
ringing = "3 W"
talking = "5 W"
least_voltage = "18 V"
least_standby_voltage = "15 V"
[locks.strike]
title = "Strike"
source = "invented"
kind = "strike"
power_loss = "stays-shut"
feed = "dc"
voltage = "12 V"
current = "0.3 A"
[cables.wire]
title = "Wire"
source = "invented"
gauge = "0.8 mm"
"#;

const SITE: &str = r#"
[site]
title = "Case"
family = "mere"
indoor_station = "flat"
door_station = "door"
cable = "wire"
[supplies]
PS = { model = "ps" }
[distributors]
D1 = { model = "d4" }
[entrances]
front = { role = "main", lock = { model = "strike", feed = "own-supply", cable = "wire", length = "5 m" } }
[dwellings]
A-1 = {}
A-2 = {}
[runs]
feed = { from = "PS", to = "D1", length = "1 m" }
spare = { from = "PS", to = "A-2", length = "4 m" }
door = { from = "D1.1", to = "front", length = "8 m" }
flat = { from = "D1.2", to = "A-1", length = "10 m" }
"#;

/// What somebody finds on a data sheet, by key.
const DATA_SHEET: &[(&str, &str)] = &[
    ("bridging_capacitance", "\"100 pF\""),
    ("bridging_resistance", "\"20 kohm\""),
    ("boot", "\"0.8 W\""),
    ("boot_time", "\"2 s\""),
    ("charge_current", "\"0.5 A\""),
    ("current", "\"0.3 A\""),
    ("directory", "200"),
    ("duty", "\"10 s\""),
    ("efficiency", "\"85 %\""),
    ("feed_choke", "\"500 mH\""),
    ("highest_voltage", "\"30 V\""),
    ("hold_time", "\"5 s\""),
    ("input_capacitance", "\"100 uF\""),
    (
        "line",
        "{ capacitance = \"55 nF/km\", inductance = \"0.63 mH/km\", skin_corner = \"54 kHz\", loss_tangent = 0.02 }",
    ),
    ("lock_output_current", "\"1 A\""),
    ("lock_output_voltage", "\"12 V\""),
    ("outputs", "2"),
    ("rated_power", "\"50 W\""),
    ("relay_current", "\"3 A\""),
    ("signal_capacitance", "\"100 pF\""),
    ("signal_impedance", "\"600 ohm\""),
    ("signal_bridging_resistance", "\"20 kohm\""),
    ("signal_bridging_capacitance", "\"100 pF\""),
    ("signal_bridging", "\"20 kohm\""),
    ("signal_loss", "\"0.5 dB\""),
    ("supply_voltage", "\"12 V\""),
    ("turn_off_voltage", "\"12 V\""),
    ("turn_on_voltage", "\"16 V\""),
    ("turn_on_delay", "\"0.1 s\""),
    ("voltage", "\"12 V\""),
    ("escape_route", "false"),
    ("escape_decided_by", "\"the person who answers for fire safety\""),
    ("escape_decided_on", "\"2026-03-02\""),
];

/// What needs more than a key: codes.
const NO_KEY: &[&str] = &[];

/// Writes a key into the table of a part or an element, wherever that is; false where there is none of that name.
fn write(tables: &mut [toml::Table; 2], part: &str, key: &str, value: &str) -> bool {
    let value: toml::Table = format!("value = {value}").parse().unwrap();
    for file in tables {
        for (_, kind) in file.iter_mut() {
            if let Some(entry) = kind.get_mut(part).and_then(toml::Value::as_table_mut) {
                entry.insert(key.to_string(), value["value"].clone());
                return true;
            }
        }
    }
    false
}

fn judged(tables: &[toml::Table; 2]) -> Vec<NotJudged> {
    let mut sources = Sources::new();
    let catalogue = sources.add("own.toml", toml::to_string(&tables[0]).unwrap());
    let file = sources.add("site.toml", toml::to_string(&tables[1]).unwrap());
    let resolved = resolve(&sources, file, &[catalogue]);
    let site = resolved.site.unwrap_or_else(|| panic!("{:#?}\n{tables:#?}", resolved.findings));
    assess(&site).not_judged
}

#[test]
fn a_key_that_is_asked_for_is_taken_and_is_enough() {
    let mut tables: [toml::Table; 2] = [CATALOGUE.parse().unwrap(), SITE.parse().unwrap()];
    let mut followed = Vec::new();
    // Each hint is followed once; another may then come into view.
    for _ in 0..60 {
        let open = judged(&tables);
        let Some(first) = open.iter().find(|one| !NO_KEY.contains(&one.code.as_str())) else { break };
        let said = first.missing.say(Language::English);
        assert!(!followed.contains(&said), "{said} was written and is still asked for");
        let keys: Vec<(String, &str)> = match &first.missing {
            Missing::Key { part, key } => vec![(part.clone(), *key)],
            Missing::Keys { part, first, second } => vec![(part.clone(), *first), (part.clone(), *second)],
            Missing::EscapeRoute { entrance } => vec![(entrance.clone(), "escape_route")],
            Missing::EscapeDecision { entrance, .. } => {
                ["escape_decided_by", "escape_decided_on"].map(|key| (entrance.clone(), key)).to_vec()
            }
            Missing::LowerTurnOff { part } => vec![(part.clone(), "turn_off_voltage")],
            Missing::LowerTurnOffOrDelay { part } => vec![(part.clone(), "turn_on_delay")],
            _ => panic!("{}: {said} names no key", first.code),
        };
        for (part, key) in keys {
            let value = DATA_SHEET.iter().find(|(known, _)| *known == key);
            let value = value.unwrap_or_else(|| panic!("{}: no value for {part} {key}", first.code)).1;
            assert!(write(&mut tables, &part, key, value), "{}: nothing is called {part}", first.code);
        }
        followed.push(said);
    }
    let left: Vec<String> = judged(&tables)
        .iter()
        .map(|one| format!("{}: {}", one.code, one.missing.say(Language::English)))
        .collect();
    assert!(left.iter().all(|one| NO_KEY.iter().any(|code| one.starts_with(code))), "{left:#?}");
    // Supply, box, stations, cable: as many as this at least.
    assert!(followed.len() >= 8, "{followed:#?}");
}
