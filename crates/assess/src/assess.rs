//! From a site to its assessment.

use crate::acceptance;
use crate::assessment::{
    Assessment, DeviceResult, RunSummary, SourceSummary, StateSummary, Verdict, WorstCurrent, WorstVoltage,
};
use crate::door::{DoorSheet, door_sheets};
use crate::grade::assumed_values;
use crate::in_hand::InHand;
use crate::not_judged::NotJudged;
use crate::physics::{self, Lazy, Physics, worked_out};
use crate::physics_summary::{short_circuit_summaries, signal_summaries, start_up_summaries};
use crate::rule::{Context, Report};
use crate::rules;
use crate::supply::{SupplySheet, supply_sheets};
use latchline_finding::{Finding, Severity};
use latchline_network::short_circuit::short_circuits;
use latchline_network::signal_tree::{SignalNetwork, survey_with};
use latchline_network::start_up::{Effort, start_up};
use latchline_network::states::{CurrentState, worst_states_with};
use latchline_network::{Device, Layout, Memory, SearchOptions, StageSource, StateSpace};
use latchline_site::model::Site;
use std::collections::{BTreeMap, BTreeSet};

/// Judges a resolved site by every rule.
pub fn assess(site: &Site) -> Assessment {
    assess_with(site, &Memory::default())
}

/// As [`assess`], with what is remembered of other versions of the site.
pub fn assess_with(site: &Site, memory: &Memory) -> Assessment {
    judge(site, Effort::WithMending, memory)
}

/// As [`assess_with`], without looking for what would let a supply start that does not.
pub fn assess_without_mending(site: &Site, memory: &Memory) -> Assessment {
    judge(site, Effort::Whole, memory)
}

fn judge(site: &Site, effort: Effort, memory: &Memory) -> Assessment {
    let layout = Layout::new(site);
    let space = StateSpace::new(site, &layout);
    let (worst, physics) = worked_out(site, &layout, &space, effort, memory);
    let worst = Lazy::ready(worst);
    let context = Context::new(site, &layout, &space, &worst, &physics);
    let mut report = Report::default();
    for rule in rules::ALL {
        (rule.check)(&rule.doc, &context, &mut report);
    }
    rules::addresses::report(&context, &mut report);
    assessment(&context, report)
}

/// Judges a change that is only tried: gives up at the first finding that is not `allowed`. Nothing is worked out before a rule looks
/// at it, and the rules that take longest come last. Does not look for what would let a supply start, and calls a start-up
/// hiccuping that a longer simulation might see come to rest ([`Effort::Hurried`]).
pub fn assess_trial(site: &Site, memory: &Memory, allowed: &dyn Fn(&Finding) -> bool) -> Option<Assessment> {
    let layout = Layout::new(site);
    let space = StateSpace::new(site, &layout);
    let worst = || worst_states_with(site, &layout, &space, &SearchOptions::default(), memory);
    let worst = Lazy::new(&worst);
    let signal = || survey_with(site, &SignalNetwork::new(site, &layout), memory);
    let start_up = || start_up(site, &layout, Effort::Hurried, memory);
    let short_circuits = || short_circuits(site, &layout, &space);
    let nuisance = || physics::nuisance(site, &layout, &worst);
    let physics = Physics {
        signal: Lazy::new(&signal),
        start_up: Lazy::new(&start_up),
        short_circuits: Lazy::new(&short_circuits),
        nuisance: Lazy::new(&nuisance),
    };
    let context = Context::new(site, &layout, &space, &worst, &physics);
    // Findings are listed in the order of the rules, whatever the order of looking.
    let mut by_rule: Vec<(usize, Report)> = Vec::with_capacity(rules::ALL.len());
    // Each finding is shown, though one is enough: whoever asks may remember them.
    let is_allowed = |report: &Report| report.findings.iter().fold(true, |all, one| allowed(one) & all);
    for index in rules::quickest_first() {
        let rule = rules::ALL[index];
        let mut report = Report::default();
        (rule.check)(&rule.doc, &context, &mut report);
        if !is_allowed(&report) {
            return None;
        }
        by_rule.push((index, report));
    }
    by_rule.sort_by_key(|(index, _)| *index);
    let mut report = Report::default();
    for (_, one) in by_rule {
        report.findings.extend(one.findings);
        report.not_judged.extend(one.not_judged);
    }
    rules::addresses::report(&context, &mut report);
    let assessment = assessment(&context, report);
    assessment.findings.iter().fold(true, |all, one| allowed(one) & all).then_some(assessment)
}

/// Everything beside the rules' findings.
fn assessment(context: &Context<'_>, report: Report) -> Assessment {
    let Context { site, layout, physics, .. } = *context;
    let Report { mut findings, not_judged } = report;
    acceptance::apply(site, &mut findings);
    sort(&mut findings);
    let devices = device_results(context);
    let sources = source_summaries(context, &devices);
    let runs = run_summaries(context, &devices);
    let states = state_summaries(context);
    let doors = door_sheets(context);
    let supply_sheets = supply_sheets(context);
    let also =
        doors.iter().flat_map(DoorSheet::assumed).chain(supply_sheets.iter().flat_map(SupplySheet::assumed));
    let also = also.chain(physics::assumed_values(site, physics));
    let signal = signal_summaries(context);
    let start_up = start_up_summaries(context);
    let short_circuit = short_circuit_summaries(context);
    let assumed: BTreeSet<String> = assumed_values(site, layout, None).into_iter().chain(also).collect();
    let verdict = verdict(&findings, &not_judged, assumed.is_empty());
    Assessment {
        title: site.title.clone(),
        verdict,
        assumed: assumed.into_iter().collect(),
        sources,
        runs,
        devices,
        addresses: context.addresses.clone(),
        findings,
        remedies_not_sought: 0,
        not_judged,
        states,
        doors,
        supply_sheets,
        signal,
        start_up,
        short_circuit,
        tolerance: Vec::new(),
    }
}

fn verdict(findings: &[Finding], not_judged: &[NotJudged], all_known: bool) -> Verdict {
    let mut errors = findings.iter().filter(|finding| finding.severity == Severity::Error).peekable();
    if errors.peek().is_some() {
        let all_accepted = errors.all(|finding| finding.accepted.is_some());
        return if all_accepted { Verdict::FailsAsAccepted } else { Verdict::Fails };
    }
    match (not_judged.is_empty(), all_known) {
        (false, _) => Verdict::NotJudged,
        (true, false) => Verdict::HoldsOnAssumedData,
        (true, true) => Verdict::Holds,
    }
}

/// Worst first, then in the order of rules and of the site, which is the order they come in.
fn sort(findings: &mut [Finding]) {
    findings.sort_by_key(|finding| (finding.accepted.is_some(), std::cmp::Reverse(finding.severity)));
}

fn device_results(context: &Context<'_>) -> Vec<DeviceResult> {
    context
        .worst
        .devices
        .iter()
        .map(|device| {
            let stage = &context.layout.stages[device.at.stage];
            let worst = device.worst();
            let run = context.run_to(device.at);
            let bus_state = context.bus_state(worst.phase, &worst.set);
            let highest_limit = match device.device {
                Device::Station(index) => {
                    &context.site.station_model(&context.site.stations[index]).highest_voltage
                }
                Device::Box(index) => &context.site.box_model(&context.site.boxes[index]).highest_voltage,
            };
            let mut by_state = BTreeMap::new();
            for margin in &device.margins {
                by_state.insert(context.space.phases[margin.phase].kind, margin.voltage_v);
            }
            DeviceResult {
                id: context.device_id(device.device).clone(),
                device: device.device,
                model: context.device_model(device.device).to_string(),
                source: stage.id.clone(),
                fed_from: stage.source,
                run: run.map(|run| context.site.runs[run].id.clone()),
                run_index: run,
                worst: WorstVoltage {
                    state: bus_state.named(context.site),
                    bus_state,
                    adverse_v: worst.voltage_v,
                    nominal_v: device.nominal_v,
                    limit_v: worst.limit_v,
                    is_bound: context.space.phases[worst.phase].is_bound,
                },
                highest_v: context.space.highest_v[device.at.stage][device.at.node],
                highest_limit_v: highest_limit.as_ref().map(|limit| limit.value.as_volts()),
                by_state,
                distance_m: stage.distance_m[device.at.node],
                loop_resistance_ohm: path_resistance(context.layout, device.at),
            }
        })
        .collect()
}

/// Nominal loop resistance from the source's ideal voltage to a node.
fn path_resistance(layout: &Layout, at: latchline_network::NodeRef) -> f64 {
    let stage = &layout.stages[at.stage];
    let mut node = at.node;
    let mut total = 0.0;
    loop {
        total += stage.resistance_ohm[0][node];
        if node == 0 {
            return total;
        }
        node = stage.parent[node] as usize;
    }
}

/// The device with the least margin among those that match.
fn least_margin(devices: &[DeviceResult], matches: impl Fn(usize) -> bool) -> Option<usize> {
    (0..devices.len())
        .filter(|index| matches(*index))
        .min_by(|a, b| devices[*a].worst.margin_v().total_cmp(&devices[*b].worst.margin_v()))
}

fn worst_current(context: &Context<'_>, current: &CurrentState, limit_a: Option<f64>) -> WorstCurrent {
    let bus_state = context.bus_state(current.phase, &current.set);
    WorstCurrent { state: bus_state.named(context.site), bus_state, current_a: current.current_a, limit_a }
}

fn source_summaries(context: &Context<'_>, devices: &[DeviceResult]) -> Vec<SourceSummary> {
    let mut summaries = Vec::new();
    for (index, stage) in context.layout.stages.iter().enumerate() {
        let Some(current) = &context.worst.source_current[index] else { continue };
        let (limit_a, rated_power_w) = match stage.source {
            StageSource::Supply(supply) => {
                let model = context.site.supply_model(&context.site.supplies[supply]);
                let power = model.rated_power.as_ref().map(|power| power.value.as_watts());
                (Some(model.rated_current.value.as_amps()), power)
            }
            StageSource::Regenerator(index) => {
                let model = context.site.box_model(&context.site.boxes[index]);
                (None, model.output_power.as_ref().map(|power| power.value.as_watts()))
            }
        };
        let voltage_v = context.space.phases[current.phase].voltage_v[index];
        let worst = &context.worst.devices;
        summaries.push(SourceSummary {
            id: stage.id.clone(),
            source: stage.source,
            model: context.source_model(stage.source).to_string(),
            stations: stations_on(context, index),
            current: worst_current(context, current, limit_a),
            power_w: current.current_a.zip(voltage_v).map(|(current, voltage)| current * voltage),
            rated_power_w,
            standby_current_a: context.worst.standby_current_a[index],
            worst_device: least_margin(devices, |device| worst[device].at.stage == index),
            loading_margin: context.worst.loading_margin[index],
        });
    }
    summaries
}

/// Stations on a stage and on all stages that draw from it.
fn stations_on(context: &Context<'_>, stage: usize) -> usize {
    let stage = &context.layout.stages[stage];
    let own = stage.terminal.iter().filter(|t| matches!(t, latchline_network::Terminal::Station(_)));
    let below: usize = stage.converters.iter().map(|converter| stations_on(context, converter.stage)).sum();
    own.count() + below
}

fn run_summaries(context: &Context<'_>, devices: &[DeviceResult]) -> Vec<RunSummary> {
    let site = context.site;
    let mut in_hand = InHand::new(context);
    let mut summaries = Vec::new();
    for (index, run) in site.runs.iter().enumerate() {
        let (Some(at), Some(current)) = (context.layout.run_start[index], &context.worst.run_current[index])
        else {
            continue;
        };
        let stage = &context.layout.stages[at.stage];
        let range = at.node..stage.subtree_end[at.node] as usize;
        let worst = &context.worst.devices;
        let worst_device = least_margin(devices, |device| {
            worst[device].at.stage == at.stage && range.contains(&worst[device].at.node)
        });
        let pairs = run.pairs.value;
        let cable =
            if pairs > 1 { format!("{pairs} x {}", run.cable.value) } else { run.cable.value.clone() };
        summaries.push(RunSummary {
            id: run.id.clone(),
            run: index,
            from: site.start_id(run.from),
            start: run.from,
            source: stage.id.clone(),
            fed_from: stage.source,
            cable,
            stations: context.topology.stations_beyond[index].len(),
            length_m: run.length().as_metres(),
            current: worst_current(context, current, rules::port_limit(context, index)),
            worst_device,
            stations_in_hand: in_hand.stations(index),
        });
    }
    summaries
}

fn state_summaries(context: &Context<'_>) -> Vec<StateSummary> {
    context
        .worst
        .states
        .iter()
        .map(|state| {
            // The empty set, and at most so many choices of one to `most_calls` options.
            let mut call_sets = 1.0;
            let mut choices = 1.0;
            for calls in 1..=state.most_calls.min(state.options) {
                choices *= (state.options + 1 - calls) as f64 / calls as f64;
                call_sets += choices;
            }
            StateSummary {
                kind: state.kind,
                call_sets,
                solved_sets: state.solved_sets,
                exact: state.complete,
            }
        })
        .collect()
}
