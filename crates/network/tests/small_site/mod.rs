//! Small sites written out in the tests, of parts with round figures.
#![allow(dead_code, reason = "each test file uses its own share of these")]

use latchline_finding::Sources;
use latchline_site::model::Site;

/// Addresses are needed by every family and of no account here.
const FAMILY: &str = r#"
[families.mere]
title = "Mere (invented)"
source = "invented"
nominal_voltage = "48 V"
simultaneous_calls = 1
addresses.indoor = [{ field = "dwelling", first = 1, last = 99, set_by = "keyed", digits = 2, label = "FLAT" }]
addresses.door = [{ field = "entrance", first = 0, last = 9, set_by = "keyed", digits = 1, label = "DOOR" }]
addresses.management = [{ field = "management", first = 1, last = 9, set_by = "keyed", digits = 1, label = "DESK" }]
"#;

/// The conditions of most cases: nothing varies, joints have no resistance.
pub const STEADY: &str = r#"
[conditions]
usual_temperature = "20 °C"
hottest_temperature = "20 °C"
coldest_temperature = "20 °C"
length_tolerance = "0 %"
joint_resistance = "0 ohm"
"#;

/// A site of the family "mere", whose keys beside addresses are `family`, with the parts of `catalogue`. Dwellings
/// without a station of their own have `flat`, entrances `door`, desks `desk`; runs without a cable `wire`.
pub fn site(family: &str, catalogue: &str, rest: &str) -> Site {
    with_calls(1, family, catalogue, rest)
}

/// The same with so many calls at once.
pub fn with_calls(calls: usize, family: &str, catalogue: &str, rest: &str) -> Site {
    let common = FAMILY.replace("simultaneous_calls = 1", &format!("simultaneous_calls = {calls}"));
    let catalogue = format!("{common}{family}\n{catalogue}");
    let text = format!(
        "[site]\ntitle = \"Case\"\nfamily = \"mere\"\nindoor_station = \"flat\"\ndoor_station = \"door\"\n\
         management_station = \"desk\"\ncable = \"wire\"\n{rest}"
    );
    let mut sources = Sources::new();
    let catalogue = sources.add("catalogue.toml", catalogue);
    let file = sources.add("site.toml", text);
    let resolved = latchline_site::resolve(&sources, file, &[catalogue]);
    resolved.site.unwrap_or_else(|| {
        let said = resolved.findings.iter().map(|found| format!("{} {:?}", found.code, found.arguments));
        panic!("{:#?}", said.collect::<Vec<_>>())
    })
}

/// Index of a station by its designation.
pub fn station(site: &Site, id: &str) -> usize {
    let found = site.stations.iter().position(|station| station.id.as_str() == id);
    found.unwrap_or_else(|| panic!("no station {id}"))
}

/// Index of a run by its designation.
pub fn run(site: &Site, id: &str) -> usize {
    site.runs.iter().position(|run| run.id.as_str() == id).unwrap_or_else(|| panic!("no run {id}"))
}

/// Whether two figures agree to so many parts of a whole.
#[track_caller]
pub fn near(found: f64, expected: f64, relative: f64) {
    assert!(
        (found - expected).abs() <= relative * expected.abs(),
        "{found}, expected {expected} within {relative} of it"
    );
}
