//! The rules of counts, topology, scope, cables, terminators, resilience and safety, each on small sites in
//! which the expected findings stand beside the lines that cause them.
//!
//! A case is a site file under `rules/`. Its first line names the codes it is about:
//!
//! ```toml
//! # codes: run-too-long
//! R1 = { from = "D1.1", to = "A-1", length = "100.1 m" } #~ run-too-long error R1 100.1 100
//! ```
//!
//! `#~ CODE SEVERITY ELEMENT VALUE LIMIT [NAME=ARGUMENT]...` expects a finding whose origin is on this
//! line; `-` stands for nothing, `any` for a figure that is not worked out by hand. `#~ not judged CODE ELEMENTS: MISSING` expects something that could not be
//! judged. Nothing else of the case's codes may be found. What follows `#---- family` is added to the
//! family "mere" of `rules/catalogue.toml`, what follows `#---- catalogue` to that catalogue.
//!
//! Expected figures are worked out by hand from the site beside them: counts and sums of lengths, and
//! Joule's law. Values of standards are named in the cases that use them.

#![allow(clippy::unwrap_used, reason = "a failure to build the case is a failed test")]

use latchline_assess::assess;
use latchline_assess::context::Ground;
use latchline_assess::rule::Judgement;
use latchline_assess::rules;
use latchline_finding::{Argument, Figure, Finding, Language, Sources};
use latchline_site::resolve;
use std::collections::BTreeSet;

macro_rules! cases {
    ($($name:ident)*) => {
        const CASES: &[(&str, &str)] =
            &[$((stringify!($name), include_str!(concat!("rules/", stringify!($name), ".toml")))),*];

        mod case {
            $(#[test]
            fn $name() {
                super::run(stringify!($name));
            })*
        }
    };
}

cases! {
    acceptance_without_match
    mixed_families bus_of_another_family mixed_families_without_the_sites_own
    call_across_buses dwelling_without_entrance no_entrance no_station entrance_calls_nobody entrance_without_lock
    directory_too_small call_buttons_too_few too_many_stations_on_port run_too_long total_length_exceeded cascade_too_deep
    too_many_door_stations door_stations_at_the_limit too_many_stations_in_dwelling no_limits_stated
    more_pairs_than_cable chain_not_allowed chain_allowed branch_not_allowed branch_allowed end_station_looped
    terminator_missing terminator_misplaced terminator_without_capacitor terminator_power_at_the_limit
    terminator_of_unknown_make terminator_of_unknown_resistance terminator_not_needed terminator_allowed
    accessory_current_exceeded accessory_chain_too_long
    cable_unsuitable beside_mains outdoor_run_without_surge_protection clad_aluminium
    measured_loop_differs measured_capacitance_differs insulation_too_low existing_run_not_measured
    silenced_group silenced_group_without_policy chain_through_dwellings chain_through_dwellings_allowed
    signal_too_weak signal_within_budget signal_notch signal_notch_of_a_loaded_branch signal_notch_within signal_ripple signal_ripple_within line_constants_missing
    voltage_too_low_by_its_bound supply_shorts_signal supply_behind_its_choke start_up_fails start_up_hiccups start_up_dip start_up_not_judged start_up_without_hysteresis start_up_dropouts start_up_without_thresholds start_up_boot_unknown
    short_circuit_not_detected short_circuit_not_cleared short_circuit_darkens trip_below_legitimate_current
    supply_outputs_exceeded supply_set_too_low section_very_short section_shorter_than_climb no_spare_ports spare_ports_not_asked_for box_without_runs supply_without_load link_not_wired bus_voltage_wet bus_voltage_above_selv
}

/// Codes of this file's rules; every one has a case in which it is found, and one more line that it passes.
const CODES: &[&str] = &[
    "acceptance-without-match",
    "accessory-chain-too-long",
    "accessory-current-exceeded",
    "beside-mains",
    "box-without-runs",
    "branch-not-allowed",
    "bus-of-another-family",
    "bus-voltage-above-selv",
    "bus-voltage-wet",
    "cable-unsuitable",
    "call-across-buses",
    "call-buttons-too-few",
    "cascade-too-deep",
    "chain-not-allowed",
    "chain-through-dwellings",
    "clad-aluminium",
    "directory-too-small",
    "dwelling-without-entrance",
    "end-station-looped",
    "entrance-calls-nobody",
    "entrance-without-lock",
    "existing-run-not-measured",
    "insulation-too-low",
    "link-not-wired",
    "measured-capacitance-differs",
    "measured-loop-differs",
    "mixed-families",
    "more-pairs-than-cable",
    "no-entrance",
    "no-spare-ports",
    "no-station",
    "outdoor-run-without-surge-protection",
    "run-too-long",
    "section-shorter-than-climb",
    "section-very-short",
    "short-circuit-darkens",
    "short-circuit-not-cleared",
    "short-circuit-not-detected",
    "signal-notch",
    "signal-ripple",
    "signal-too-weak",
    "silenced-group",
    "start-up-dip",
    "start-up-dropouts",
    "start-up-fails",
    "start-up-hiccups",
    "supply-outputs-exceeded",
    "supply-set-too-low",
    "supply-shorts-signal",
    "supply-without-load",
    "terminator-doubled",
    "terminator-misplaced",
    "terminator-missing",
    "terminator-not-needed",
    "terminator-without-capacitor",
    "too-many-door-stations",
    "too-many-stations-in-dwelling",
    "too-many-stations-on-port",
    "total-length-exceeded",
    "trip-below-legitimate-current",
];

/// One `#~` remark.
#[derive(Debug)]
struct Expected {
    line: usize,
    code: String,
    severity: String,
    element: String,
    value: Option<f64>,
    limit: Option<f64>,
    arguments: Vec<(String, String)>,
}

/// A case taken apart.
struct Case {
    codes: BTreeSet<String>,
    site: String,
    catalogue: String,
    expected: Vec<Expected>,
    not_judged: BTreeSet<String>,
}

fn number(text: &str) -> Option<f64> {
    // A figure that is not worked out by hand: only that there is one.
    if text == "any" {
        return Some(f64::NAN);
    }
    (text != "-").then(|| text.parse().unwrap_or_else(|_| panic!("not a number: {text}")))
}

impl Case {
    fn named(name: &str) -> Self {
        let (_, text) = CASES.iter().find(|(known, _)| *known == name).unwrap();
        let (text, parts) = text.split_once("#---- catalogue\n").unwrap_or((text, ""));
        let (site, family) = text.split_once("#---- family\n").unwrap_or((text, ""));
        let common = include_str!("rules/catalogue.toml");
        let catalogue = common.replace("#---- family goes here\n", family) + "\n" + parts;
        let codes =
            site.lines().next().unwrap().strip_prefix("# codes: ").expect("the first line names the codes");
        let mut case = Case {
            codes: codes.split(' ').map(str::to_string).collect(),
            site: site.to_string(),
            catalogue,
            expected: Vec::new(),
            not_judged: BTreeSet::new(),
        };
        for (index, line) in site.lines().enumerate() {
            for remark in line.split("#~").skip(1) {
                case.remark(index + 1, remark.trim());
            }
        }
        case
    }

    fn remark(&mut self, line: usize, remark: &str) {
        if let Some(rest) = remark.strip_prefix("not judged ") {
            self.not_judged.insert(rest.to_string());
            return;
        }
        let words: Vec<&str> = remark.split(' ').collect();
        let [code, severity, element, value, limit, arguments @ ..] = words.as_slice() else {
            panic!("line {line}: {remark}")
        };
        assert!(self.codes.contains(*code), "line {line}: {code} is not in the first line");
        let arguments = arguments.iter().map(|argument| {
            let (name, text) = argument.split_once('=').unwrap();
            (name.to_string(), text.to_string())
        });
        self.expected.push(Expected {
            line,
            code: (*code).to_string(),
            severity: (*severity).to_string(),
            element: (*element).to_string(),
            value: number(value),
            limit: number(limit),
            arguments: arguments.collect(),
        });
    }
}

/// Hand-worked figures are given to five digits.
fn agrees(found: Option<Figure>, expected: Option<f64>) -> bool {
    match (found, expected) {
        (None, None) => true,
        (Some(found), Some(expected)) if expected.is_nan() => found.value.is_finite(),
        (Some(found), Some(expected)) => (found.value - expected).abs() <= 5e-5 * expected.abs().max(1e-3),
        _ => false,
    }
}

fn in_words(argument: Option<&Argument>) -> String {
    match argument {
        None => "-".to_string(),
        Some(Argument::Text(text)) => text.replace(' ', "_"),
        Some(Argument::Texts(texts)) => texts.join(","),
        Some(Argument::Words(words)) => words.name().replace(' ', "_"),
        Some(Argument::ManyWords(words)) => {
            words.iter().map(|words| words.name()).collect::<Vec<_>>().join(",")
        }
        Some(Argument::Element(element)) => element.to_string(),
        Some(Argument::Elements(elements)) => {
            elements.iter().map(|element| element.as_str()).collect::<Vec<_>>().join(",")
        }
        Some(Argument::Figure(figure)) => format!("{}", (figure.value * 1e4).round() / 1e4),
    }
}

fn matches(found: &Finding, line: usize, expected: &Expected) -> bool {
    let element = found.element.as_ref().map_or("-", |element| element.as_str());
    found.code.as_str() == expected.code
        && line == expected.line
        && found.severity.word() == expected.severity
        && element == expected.element
        && agrees(found.value, expected.value)
        && agrees(found.limit, expected.limit)
        && expected.arguments.iter().all(|(name, text)| in_words(found.argument(name)) == *text)
}

fn run(name: &str) {
    let case = Case::named(name);
    let mut sources = Sources::new();
    let catalogue = sources.add("catalogue.toml", case.catalogue.as_str());
    let site_file = sources.add("site.toml", case.site.as_str());
    let resolved = resolve(&sources, site_file, &[catalogue]);
    let site = resolved.site.unwrap_or_else(|| panic!("{:#?}", resolved.findings));
    let assessment = assess(&site);
    let mut missing: Vec<&Expected> = case.expected.iter().collect();
    for found in assessment.findings.iter().filter(|found| case.codes.contains(found.code.as_str())) {
        let line = match found.origin.span() {
            Some(span) => {
                assert_eq!(span.file, site_file, "a finding points at the user's own file: {found:#?}");
                sources.line_and_column(span.file, span.start as usize).0
            }
            None => 0,
        };
        let position = missing.iter().position(|expected| matches(found, line, expected));
        match position {
            Some(position) => {
                missing.remove(position);
            }
            None => panic!("on line {line}, not expected: {found:#?}"),
        }
        for related in &found.related {
            let span = related.origin.span().expect("related places are in files");
            assert!(span.end > span.start);
        }
    }
    assert!(missing.is_empty(), "not found: {missing:#?}");
    let not_judged: BTreeSet<String> = assessment
        .not_judged
        .iter()
        .filter(|entry| case.codes.contains(entry.code.as_str()))
        .map(|entry| {
            let elements: Vec<&str> = entry.elements.iter().map(|element| element.as_str()).collect();
            format!("{} {}: {}", entry.code, elements.join(","), entry.missing.say(Language::English))
        })
        .collect();
    assert_eq!(not_judged, case.not_judged);
}

#[test]
fn every_rule_is_found_somewhere_and_has_a_page() {
    let mut found = BTreeSet::new();
    for (name, _) in CASES {
        found.extend(Case::named(name).expected.into_iter().map(|expected| expected.code));
    }
    for code in CODES {
        assert!(found.contains(*code), "no case in which {code} is found");
        let page = latchline_words::codes::of(code).unwrap().page(Language::English);
        let headings: Vec<&str> = page.lines().filter(|line| line.starts_with("# ")).collect();
        let wanted = ["# What it checks", "# Why it matters", "# Example", "# What to do"];
        assert_eq!(headings, wanted, "{code}");
    }
}

#[test]
fn codes_are_unique() {
    let all: Vec<&str> = latchline_assess::codes().map(|doc| doc.code.as_str()).collect();
    let unique: BTreeSet<&str> = all.iter().copied().collect();
    assert_eq!(all.len(), unique.len());
}

/// Findings about addresses are made where the devices are numbered; the adapter passes them on as they are.
#[test]
fn findings_about_addresses_are_passed_on() {
    let text =
        include_str!("rules/more_pairs_than_cable.toml").replace("A-1 = {}", "A-1 = { number = 1000 }");
    let mut sources = Sources::new();
    let catalogue = sources.add("catalogue.toml", include_str!("rules/catalogue.toml"));
    let site_file = sources.add("site.toml", text.as_str());
    let site = resolve(&sources, site_file, &[catalogue]).site.unwrap();
    let ground = Ground::new(&site);
    let mut report = Judgement::default();
    rules::addresses::report(&ground.context(&site), &mut report);
    // Flats are numbered from 1 to 999 in this family.
    let codes: Vec<&str> = report.findings.iter().map(|found| found.code.as_str()).collect();
    assert_eq!(codes, ["address-out-of-range"]);
}
