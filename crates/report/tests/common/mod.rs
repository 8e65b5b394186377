//! A hand-made assessment with one of everything, for the snapshots of every format.

use latchline_assess::Missing;
use latchline_assess::{
    Assessment, BusState, Device, DeviceResult, FirstLimit, Limited, NotJudged, RunSummary, SourceSummary,
    StageSource, StandingCall, StateSummary, StateVoltage, Verdict, WorstCurrent, WorstVoltage,
};
use latchline_finding::{
    Acceptance, CallMoment, CallRef, Code, CodeDoc, DataGrade, Edit, Figure, FileId, Finding, Money,
    OperatingState, Origin, Remedy, Rounded, Severity, Sources, Span, StateKind, Unit,
};
use latchline_site::addresses::AddressPlan;
use latchline_site::model::RunStart;
use std::collections::BTreeMap;

/// The site file that the findings point into.
pub const TEXT: &str = r#"[site]
title = "Quillmere Yard"
family = "ostrel-48"

[runs]
A-R1 = { from = "A-D1.1", to = ["A-001", "A-002", "A-003"], cable = "pair-0.8", spacing = "7 m" }
A-R2 = { from = "A-D1.2", to = ["A-101", "A-102"], cable = "pair-0.5", spacing = "31 m" }
"#;

/// Manual pages of the codes that are used here.
pub const DOCS: &[&CodeDoc] = &[
    &CodeDoc { code: Code("voltage-too-low"), severity: Severity::Error, others: &[] },
    &CodeDoc { code: Code("thin-margin"), severity: Severity::Warning, others: &[] },
];

/// The store with the site file.
pub fn sources() -> Sources {
    let mut sources = Sources::new();
    sources.add("jobs/site.toml", TEXT);
    sources
}

/// The span of the n-th occurrence of a text in the site file.
pub fn at(needle: &str) -> Span {
    let start = TEXT.find(needle).expect("the needle is in the text");
    Span::new(FileId(0), start..start + needle.len())
}

fn two_calls() -> OperatingState {
    let call = |from: &str, to: &str, moment| CallRef { from: from.into(), to: to.into(), moment };
    OperatingState {
        kind: StateKind::Call,
        calls: vec![
            call("front-A", "A-102", CallMoment::Releasing),
            call("gate", "A-101", CallMoment::Ringing),
        ],
    }
}

/// Stations as a site would number them.
const STATIONS: [&str; 7] = ["A-001", "A-002", "A-003", "A-101", "A-102", "front-A", "gate"];
/// Runs as a site would number them.
const RUNS: [&str; 3] = ["A-feed", "A-R1", "A-R2"];

fn index_of(names: &[&str], name: &str) -> Option<usize> {
    names.iter().position(|known| *known == name)
}

/// A state by index.
fn by_index(state: &OperatingState) -> BusState {
    let station = |id: &str| index_of(&STATIONS, id).expect("a station");
    let calls = state.calls.iter().map(|call| StandingCall {
        caller: station(call.from.as_str()),
        answering: station(call.to.as_str()),
        moment: call.moment,
    });
    BusState { kind: state.kind, calls: calls.collect() }
}

fn device(id: &str, run: &str, adverse_v: Option<f64>, state: OperatingState) -> DeviceResult {
    DeviceResult {
        id: id.into(),
        device: index_of(&STATIONS, id).map_or(Device::Box(0), Device::Station),
        model: "ostrel-v7".into(),
        source: "A-PS".into(),
        fed_from: StageSource::Supply(0),
        run: Some(run.into()),
        run_index: index_of(&RUNS, run),
        worst: WorstVoltage {
            bus_state: by_index(&state),
            state,
            adverse_v,
            nominal_v: adverse_v.map(|voltage| voltage + 1.25),
            limit_v: 36.0,
            is_bound: id == "A-003",
        },
        highest_v: 49.4,
        highest_limit_v: Some(56.0),
        by_state: BTreeMap::from([
            state_voltage(StateKind::StandbyDay, Some(46.87)),
            state_voltage(StateKind::PowerReturn, if id == "A-102" { None } else { Some(40.5) }),
        ]),
        distance_m: 62.0,
        loop_resistance_ohm: 10.9,
    }
}

fn state_voltage(kind: StateKind, voltage_v: Option<f64>) -> (StateKind, StateVoltage) {
    (kind, StateVoltage { bus_state: kind.into(), voltage_v, limit_v: 36.0, lowest_v: voltage_v })
}

fn current(current_a: Option<f64>, limit_a: Option<f64>) -> WorstCurrent {
    WorstCurrent { state: two_calls(), bus_state: by_index(&two_calls()), current_a, limit_a }
}

fn low(id: &str, value: f64, place: &str) -> Finding {
    Finding::new(Code("voltage-too-low"), Severity::Error, at(place)).about(id).in_state(two_calls()).figures(
        value,
        36.0,
        Unit::Volt,
    )
}

/// A site that fails.
pub fn failing() -> Assessment {
    let mut worst = low("A-102", 31.1049, "\"pair-0.5\"")
        .also_at("station", at("\"A-102\""))
        .graded(DataGrade::Assumed(vec!["pair-0.5 resistance_tolerance".into()]));
    worst.remedies.push(Remedy {
        kind: "thicker-conductor",
        edit: Edit::set(&["runs", "A-R2", "cable"], "\"pair-0.8\""),
        value_after: Some(Rounded::down(Figure::new(41.2, Unit::Volt))),
        cost: Some(Money::from_units(18.6)),
        ..Remedy::default()
    });
    let mut accepted = Finding::new(Code("silenced-group"), Severity::Warning, at("A-R1"))
        .about("A-R1")
        .with("dwellings", 3);
    accepted.accepted =
        Some(Acceptance { reason: "tenant refuses a second riser".into(), date: "2026-11-02".into() });
    let run = |id: &str, (from, start): (&str, RunStart), cable: &str, worst| RunSummary {
        id: id.into(),
        run: index_of(&RUNS, id).expect("a run"),
        from: from.into(),
        start,
        source: "A-PS".into(),
        fed_from: StageSource::Supply(0),
        cable: cable.into(),
        stations: 3,
        length_m: 21.0,
        current: current(Some(0.4121), Some(0.5)),
        worst_device: worst,
        existing: None,
    };
    Assessment {
        title: "Quillmere Yard".into(),
        verdict: Verdict::Fails,
        assumed: Vec::new(),
        sources: vec![SourceSummary {
            id: "A-PS".into(),
            source: StageSource::Supply(0),
            model: "ostrel-ps-120".into(),
            set_below_v: None,
            stations: 5,
            count_share: Some(5.0 / 54.0),
            counts: vec![("ostrel-v7".into(), 5, 54)],
            current: current(Some(0.912), Some(2.5)),
            power_w: Some(43.71),
            rated_power_w: Some(120.0),
            standby_current_a: Some(0.1034),
            power_return_current_a: Some(0.874),
            worst_device: Some(2),
            loading_margin: Some(2.349),
            first_limit: Some(FirstLimit {
                factor: 1.0739,
                limited: Limited::SourceCurrent,
                element: "A-PS".into(),
                limit: Figure::new(2.5, Unit::Ampere),
                state: two_calls(),
            }),
        }],
        runs: vec![
            run("A-feed", ("A-PS", RunStart::Supply(0)), "flex-1.5", Some(2)),
            run("A-R1", ("A-D1.1", RunStart::Port { box_index: 0, port: 1 }), "pair-0.8", Some(0)),
            run("A-R2", ("A-D1.2", RunStart::Port { box_index: 0, port: 2 }), "2 × pair-0.5", Some(2)),
        ],
        devices: vec![
            device("A-003", "A-R1", Some(44.019), two_calls()),
            device("A-101", "A-R2", Some(33.1), two_calls()),
            device("A-102", "A-R2", Some(31.1049), two_calls()),
            device("A-D1", "A-feed", Some(46.0), StateKind::PowerReturn.into()),
        ],
        addresses: AddressPlan {
            stations: Vec::new(),
            buildings: Vec::new(),
            dwellings: Vec::new(),
            entrances: Vec::new(),
            management: Vec::new(),
            chosen: Vec::new(),
            findings: Vec::new(),
        },
        read: Vec::new(),
        findings: vec![
            worst,
            low("A-101", 33.1, "\"pair-0.5\""),
            Finding::new(Code("thin-margin"), Severity::Warning, Origin::None).about("A-003").figures(
                0.4,
                1.0,
                Unit::Volt,
            ),
            accepted,
        ],
        remedies_not_sought: 0,
        releases_at_once: None,
        not_judged: vec![NotJudged {
            code: Code("voltage-too-high"),
            elements: vec!["A-101".into(), "A-102".into()],
            missing: Missing::key("ostrel-v7", "highest_voltage"),
        }],
        states: vec![
            StateSummary { kind: StateKind::StandbyDay, call_sets: 1.0, solved_sets: 1, exact: true },
            StateSummary { kind: StateKind::Call, call_sets: 3481.0, solved_sets: 12, exact: false },
        ],
        doors: Vec::new(),
        signal: Vec::new(),
        start_up: Vec::new(),
        short_circuit: Vec::new(),
        tolerance: Vec::new(),
        supply_sheets: Vec::new(),
    }
}

/// A site that holds on assumed data.
pub fn holding() -> Assessment {
    let mut assessment = failing();
    assessment.verdict = Verdict::HoldsOnAssumedData;
    assessment.assumed = vec!["ostrel-v7 boot_power".into()];
    assessment.findings.clear();
    assessment.not_judged.clear();
    assessment.states.truncate(1);
    assessment.devices[1].worst.adverse_v = Some(37.629);
    assessment.devices[2].worst.adverse_v = Some(36.999_99);
    assessment
}

/// A site without operating point.
pub fn collapsed() -> Assessment {
    let mut assessment = failing();
    assessment.devices[2].worst.adverse_v = None;
    assessment.devices[2].worst.nominal_v = None;
    assessment.sources[0].current.current_a = None;
    assessment.sources[0].power_w = None;
    assessment.sources[0].loading_margin = None;
    assessment.sources[0].first_limit = None;
    assessment.runs[2].current.current_a = None;
    assessment.findings.truncate(1);
    assessment.findings[0].value = Some(Figure::new(f64::NEG_INFINITY, Unit::Volt));
    assessment.findings[0].remedies.clear();
    assessment
}
