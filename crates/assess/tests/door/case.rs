//! The common case and what is asked of it.

use latchline_assess::{Assessment, Verdict, assess};
use latchline_finding::{Finding, Language, Severity, Sources};
use latchline_site::resolve;

/// What differs from the common case.
#[derive(Default, Clone, Copy)]
pub struct Case<'a> {
    /// Keys of the `[site]` table.
    pub site: &'a str,
    /// Keys of the `[policy]` table.
    pub policy: &'a str,
    /// Keys of the supply.
    pub supply: &'a str,
    /// Keys of the entrance.
    pub entrance: &'a str,
    /// Keys of its lock; none without.
    pub lock: &'a str,
    /// Keys of the supply's model.
    pub battery: &'a str,
    /// Keys of the door station's model.
    pub door: &'a str,
    /// Length of the first run section.
    pub run: &'a str,
    /// Coldest temperature; 20 °C without.
    pub coldest: &'a str,
}

pub fn assessment(case: Case<'_>) -> Assessment {
    let lock = if case.lock.is_empty() { String::new() } else { format!("lock = {{ {} }}", case.lock) };
    let coldest = if case.coldest.is_empty() { "20 °C" } else { case.coldest };
    let run = if case.run.is_empty() { "1 m" } else { case.run };
    let text = format!(
        "[site]\ntitle = \"T\"\nfamily = \"mere\"\nindoor_station = \"s\"\ncable = \"wire\"\n{}\n\
         {}\n[conditions]\nhottest_temperature = \"20 °C\"\ncoldest_temperature = \"{coldest}\"\nlength_tolerance = \"0 %\"\n\
         joint_resistance = \"10 mohm\"\n[policy]\n{}\n[buildings]\nA = {{ title = \"A\", floors = [\"G\"] }}\n\
         [supplies]\nPS = {{ model = \"ps\", place = \"A/G\"{} }}\n\
         [entrances.front]\nrole = \"main\"\nplace = \"A/G\"\ncalls = [\"everyone\"]\n{}\n{lock}\n\
         [dwellings]\nA-1 = {{ place = \"A/G\" }}\n\
         [runs]\nR1 = {{ from = \"PS\", to = [\"front\", \"A-1\"], lengths = [\"{run}\", \"1 m\"] }}\n",
        case.site,
        if case.site.contains("door_station") { "" } else { "door_station = \"door\"" },
        case.policy,
        case.supply,
        case.entrance,
    );
    let catalogue =
        include_str!("catalogue.toml").replace("$battery", case.battery).replace("$door", case.door);
    let mut sources = Sources::new();
    let catalogue = sources.add("catalogue.toml", catalogue);
    let file = sources.add("site.toml", text);
    let resolved = resolve(&sources, file, &[catalogue]);
    let Some(site) = resolved.site else { panic!("{:#?}", resolved.findings) };
    let assessment = assess(&site);
    for found in &assessment.findings {
        if let Some(span) = found.origin.span() {
            assert_eq!(span.file, file, "a finding points at the user's own file: {found:#?}");
        }
    }
    assessment
}

/// The only finding of a code.
pub fn found(code: &str, case: Case<'_>) -> Finding {
    let assessment = assessment(case);
    let mut matching: Vec<Finding> =
        assessment.findings.into_iter().filter(|finding| finding.code.as_str() == code).collect();
    assert_eq!(matching.len(), 1, "{code}: {matching:#?}");
    matching.remove(0)
}

/// That a code is found with these figures.
pub fn fails(code: &str, case: Case<'_>, severity: Severity, figures: Option<(f64, f64)>) {
    let found = found(code, case);
    assert_eq!(found.severity, severity, "{found:#?}");
    if let Some((value, limit)) = figures {
        let close = |figure: Option<latchline_finding::Figure>, expected: f64| {
            figure.is_some_and(|figure| (figure.value - expected).abs() <= 1e-6 * expected.abs().max(1.0))
        };
        assert!(close(found.value, value), "value {:?}, expected {value}", found.value);
        assert!(close(found.limit, limit), "limit {:?}, expected {limit}", found.limit);
    }
}

/// That a code is not found, and judged.
pub fn passes(code: &str, case: Case<'_>) {
    let assessment = assessment(case);
    let matching: Vec<_> =
        assessment.findings.iter().filter(|finding| finding.code.as_str() == code).collect();
    assert!(matching.is_empty(), "{matching:#?}");
    assert!(assessment.not_judged.iter().all(|entry| entry.code != code), "{:?}", assessment.not_judged);
}

/// That a code is not judged for want of this.
pub fn not_judged(code: &str, case: Case<'_>, missing: &str) {
    let assessment = assessment(case);
    let entry = assessment
        .not_judged
        .iter()
        .find(|entry| entry.code == code && entry.missing.say(Language::English) == missing);
    assert!(entry.is_some(), "{:?}", assessment.not_judged);
    assert!(!matches!(assessment.verdict, Verdict::Holds | Verdict::HoldsOnAssumedData));
}

pub fn lock(keys: &str) -> Case<'_> {
    Case { lock: keys, ..Case::default() }
}

pub fn escape<'a>(entrance: &'a str, keys: &'a str) -> Case<'a> {
    Case { entrance, lock: keys, ..Case::default() }
}

pub fn entrance(keys: &str) -> Case<'_> {
    Case { entrance: keys, ..Case::default() }
}

pub const ERROR: Severity = Severity::Error;

pub const WARNING: Severity = Severity::Warning;

pub const ADVICE: Severity = Severity::Advice;

pub const BATTERY: &str = ", battery = { capacity = \"5 Ah\", rated_hours = 20, peukert_exponent = 1.2, voltage = \"12 V\", end_bus_voltage = \"20 V\", efficiency = \"100 %\", charge_current = \"0.2 A\" }";
