//! What an assessment says of voltages and currents: owned data.

use crate::assessment::{
    DeviceResult, FirstLimit, Limited, RunSummary, SourceSummary, StateSummary, StateVoltage, WorstCurrent,
    WorstVoltage, least_margin,
};
use crate::rules;
use crate::stage::WithVoltages;
use latchline_finding::{Figure, StateKind, Unit};
use latchline_network::worst::{CurrentState, StateMargin};
use latchline_network::{Device, Growth, Layout, StageSource};
use latchline_site::model::Site;
use std::collections::BTreeMap;

pub(crate) fn device_results(context: &WithVoltages<'_>) -> Vec<DeviceResult> {
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
            let by_state: BTreeMap<StateKind, StateVoltage> = device
                .margins
                .iter()
                .map(|margin| {
                    let StateMargin { voltage_v, limit_v, lowest_v, .. } = *margin;
                    let bus_state = context.bus_state(margin.phase, &margin.set);
                    (bus_state.kind, StateVoltage { bus_state, voltage_v, limit_v, lowest_v })
                })
                .collect();
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

/// Positions of the devices of each stage.
fn on_stages(context: &WithVoltages<'_>) -> Vec<Vec<usize>> {
    let mut on_stage = vec![Vec::new(); context.layout.stages.len()];
    for (index, device) in context.worst.devices.iter().enumerate() {
        on_stage[device.at.stage].push(index);
    }
    on_stage
}

fn worst_current(context: &WithVoltages<'_>, current: &CurrentState, limit_a: Option<f64>) -> WorstCurrent {
    let bus_state = context.bus_state(current.phase, &current.set);
    WorstCurrent { state: bus_state.named(context.site), bus_state, current_a: current.current_a, limit_a }
}

pub(crate) fn source_summaries(
    context: &WithVoltages<'_>,
    growth: &Growth,
    devices: &[DeviceResult],
) -> Vec<SourceSummary> {
    let on_stage = on_stages(context);
    let counted = rules::supply_counts(context);
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
        let count = counted.iter().find(|count| count.stage == index && !count.counts.is_empty());
        let counts = count.map(|count| &count.counts).into_iter().flatten();
        let power = context.worst.largest_power(index, |_| true);
        summaries.push(SourceSummary {
            id: stage.id.clone(),
            source: stage.source,
            model: context.source_model(stage.source).to_string(),
            set_below_v: set_below_v(context.site, stage.source),
            stations: stations_on(context, index),
            count_share: count.map(|count| count.share),
            counts: counts.map(|(model, (count, most))| (model.clone(), *count, *most)).collect(),
            current: worst_current(context, current, limit_a),
            power_w: power.and_then(|power| power.power_w),
            rated_power_w,
            standby_current_a: context.worst.standby_current_a[index],
            power_return_current_a: context.worst.power_return_current_a[index],
            worst_device: least_margin(devices, on_stage[index].iter().copied()),
            loading_margin: growth.loading_margin[index],
            first_limit: growth.first_limit[index].as_ref().map(|limit| first_limit(context, index, limit)),
        });
    }
    summaries
}

fn set_below_v(site: &Site, source: StageSource) -> Option<(f64, f64)> {
    let StageSource::Supply(index) = source else { return None };
    let (set, delivered) = site.set_below_delivered(&site.supplies[index])?;
    Some((set.as_volts(), delivered.as_volts()))
}

fn first_limit(
    context: &WithVoltages<'_>,
    stage: usize,
    found: &latchline_network::worst::FirstLimit,
) -> FirstLimit {
    let source = || context.layout.stages[stage].id.clone();
    let (element, unit) = match found.limited {
        Limited::Voltage(device) => (context.device_id(device).clone(), Unit::Volt),
        Limited::SourceCurrent => (source(), Unit::Ampere),
        Limited::SourcePower => (source(), Unit::Watt),
        Limited::CableCurrent { run } => (context.site.runs[run].id.clone(), Unit::Ampere),
        Limited::PortCurrent { run } => (context.site.start_id(context.site.runs[run].from), Unit::Ampere),
    };
    FirstLimit {
        factor: found.factor,
        limited: found.limited,
        element,
        limit: Figure::new(found.limit, unit),
        state: context.bus_state(found.phase, &found.set).named(context.site),
    }
}

/// Stations on a stage and on all stages that draw from it.
fn stations_on(context: &WithVoltages<'_>, stage: usize) -> usize {
    let stage = &context.layout.stages[stage];
    let own = stage.terminal.iter().filter(|t| matches!(t, latchline_network::StageNode::Station(_)));
    let below: usize = stage.converters.iter().map(|converter| stations_on(context, converter.stage)).sum();
    own.count() + below
}

/// The largest current at the start of every run.
pub(crate) fn run_currents(context: &WithVoltages<'_>) -> Vec<Option<WorstCurrent>> {
    let currents = context.worst.run_current.iter().enumerate();
    currents
        .map(|(run, current)| {
            current.as_ref().map(|current| worst_current(context, current, rules::port_limit(context, run)))
        })
        .collect()
}

pub(crate) fn run_summaries(context: &WithVoltages<'_>, devices: &[DeviceResult]) -> Vec<RunSummary> {
    let site = context.site;
    let on_stage = on_stages(context);
    let mut summaries = Vec::new();
    for (index, run) in site.runs.iter().enumerate() {
        let (Some(at), Some(current)) = (context.layout.run_start[index], &context.worst.run_current[index])
        else {
            continue;
        };
        let stage = &context.layout.stages[at.stage];
        let range = at.node..stage.subtree_end[at.node] as usize;
        let worst = &context.worst.devices;
        let on_run =
            on_stage[at.stage].iter().copied().filter(|device| range.contains(&worst[*device].at.node));
        let worst_device = least_margin(devices, on_run);
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
            existing: None,
        });
    }
    summaries
}

/// At most so many sets of at most so many of some options, the empty one included.
fn sets(options: usize, most: usize) -> f64 {
    let (mut sets, mut choices) = (1.0, 1.0);
    for taken in 1..=most.min(options) {
        choices *= (options + 1 - taken) as f64 / taken as f64;
        sets += choices;
    }
    sets
}

pub(crate) fn state_summaries(context: &WithVoltages<'_>) -> Vec<StateSummary> {
    context
        .worst
        .states
        .iter()
        .map(|state| StateSummary {
            kind: state.kind,
            call_sets: sets(state.options, state.most_calls) * sets(state.releases, state.most_releases),
            solved_sets: state.solved_sets,
            exact: state.complete,
        })
        .collect()
}
