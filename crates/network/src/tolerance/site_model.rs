//! The site as a model of its tolerances.

use super::engine::{Distribution, SampleError, clopper_pearson, sample};
use crate::corner::Corner;
use crate::evaluate::{SetOutcome, Solver};
use crate::layout::{Layout, Segment, Stage, StageNode, StageSource};
use crate::phase::{Phase, StageLoads};
use crate::resistance::{MEASUREMENT_TOLERANCE, conductor_ohm_per_m};
use crate::state_space::StateSpace;
use crate::wanted::Wanted;
use crate::worst::{Device, DeviceStates, WorstStates};
use latchline_circuit::flow::{Options, Outcome, Source, Tree, Workspace, solve};
use latchline_finding::{Language, StateKind};
use latchline_site::catalogue::{BoxModel, StationModel};
use latchline_site::model::Site;
use latchline_words::tolerance::ToleranceFactor;
use std::collections::BTreeMap;
use std::fmt;

/// How many samples, from which seed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ToleranceOptions {
    /// Number of samples, at least 1.
    pub samples: usize,
    /// Seed: the same seed gives the same result on any number of threads.
    pub seed: u64,
}

/// Why there is no result.
#[derive(Debug, Clone, PartialEq)]
pub enum ToleranceError {
    /// The number of samples cannot be run.
    Sample(SampleError),
}

impl fmt::Display for ToleranceError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Sample(error) => error.fmt(f),
        }
    }
}

impl std::error::Error for ToleranceError {}

impl From<SampleError> for ToleranceError {
    fn from(error: SampleError) -> Self {
        Self::Sample(error)
    }
}

/// What part of the spread a factor makes.
#[derive(Debug, Clone, PartialEq)]
pub struct FactorShare {
    /// What varies: "supply voltage", "temperature", "drum of pair-0.8", "batch of ostrel-v4", "length of A-R1",
    /// "loads one by one", "measured loops".
    pub factor: ToleranceFactor,
    /// Share of the variance, 0 to about 1.
    pub share: f64,
}

/// The device with the least margin of a stage under sampled tolerances.
#[derive(Debug, Clone, PartialEq)]
pub struct StageTolerance {
    /// Index into [`Layout::stages`].
    pub stage: usize,
    /// The device.
    pub device: Device,
    /// Index into the phases of the state space: its worst state.
    pub phase: usize,
    /// The calls that stand.
    pub set: Vec<usize>,
    /// Its limit in that state, in volts.
    pub limit_v: f64,
    /// Samples.
    pub samples: usize,
    /// Samples in which it is below its limit or has no operating point.
    pub below: usize,
    /// Interval of Clopper and Pearson of the probability, at `CONFIDENCE`.
    pub interval: (f64, f64),
    /// Mean voltage, in volts; `None` if no sample had an operating point.
    pub mean_v: Option<f64>,
    /// Standard deviation, in volts.
    pub deviation_v: Option<f64>,
    /// Voltage that 1 % of the samples lie below; `None` where these have no operating point.
    pub one_percent_v: Option<f64>,
    /// What makes the spread, the largest share first.
    pub shares: Vec<FactorShare>,
}

/// Level of the intervals.
pub const CONFIDENCE: f64 = 0.95;

/// Samples the worst device of every stage. When it is no longer wanted, what is left is not solved and the result is without meaning.
///
/// # Errors
/// [`ToleranceError`] for a number of samples that cannot be run.
pub fn tolerance(
    site: &Site,
    layout: &Layout,
    space: &StateSpace,
    worst: &WorstStates,
    options: ToleranceOptions,
    wanted: &Wanted,
) -> Result<Vec<StageTolerance>, ToleranceError> {
    let mut list = Vec::new();
    for stage in 0..layout.stages.len() {
        let device = worst
            .devices
            .iter()
            .filter(|device| device.at.stage == stage)
            .min_by(|a, b| a.worst().margin_v().total_cmp(&b.worst().margin_v()));
        let Some(device) = device else { continue };
        if wanted.check().is_err() {
            break;
        }
        if let Some(result) = sample_stage(site, layout, space, stage, device, options, wanted)? {
            list.push(result);
        }
    }
    Ok(list)
}

/// The factors of a stage: what is drawn, and what it is called.
#[derive(Default)]
struct Factors {
    inputs: Vec<Distribution>,
    /// Which name each input counts under.
    name: Vec<usize>,
    names: Vec<ToleranceFactor>,
    by_name: BTreeMap<ToleranceFactor, usize>,
}

impl Factors {
    /// An input of its own, counted together with others of the same name.
    fn own(&mut self, name: ToleranceFactor, distribution: Distribution) -> usize {
        let next = self.names.len();
        let place = *self.by_name.entry(name.clone()).or_insert(next);
        if place == next {
            self.names.push(name);
        }
        self.inputs.push(distribution);
        self.name.push(place);
        self.inputs.len() - 1
    }

    /// An input that all of the same name share.
    fn common(&mut self, name: ToleranceFactor, distribution: Distribution) -> usize {
        match self.by_name.get(&name) {
            Some(place) => {
                let position = self.name.iter().position(|other| other == place);
                position.unwrap_or(0)
            }
            None => self.own(name, distribution),
        }
    }
}

fn within(half_width: f64) -> Distribution {
    Distribution::Rectangular { low: 1.0 - half_width, high: 1.0 + half_width }
}

/// How the resistance of a segment varies.
enum Resistance {
    /// Not at all.
    Fixed(f64),
    /// `(copper f(T) length) times drum plus the rest`.
    Cable { copper_ohm: f64, rest_ohm: f64, coefficient_per_k: f64, drum: Option<usize>, length: usize },
}

fn sample_stage(
    site: &Site,
    layout: &Layout,
    space: &StateSpace,
    stage: usize,
    device: &DeviceStates,
    options: ToleranceOptions,
    wanted: &Wanted,
) -> Result<Option<StageTolerance>, ToleranceError> {
    let margin = device.worst();
    let kind = space.phases[margin.phase].kind;
    let Some(nominal) = Phase::new(site, layout, kind, Corner::Nominal, None) else { return Ok(None) };
    let Some(voltage_v) = nominal.voltage_v[stage] else { return Ok(None) };
    let laid = &layout.stages[stage];
    let mut factors = Factors::default();
    let source_tolerance = if kind == StateKind::BatteryEnd && matches!(laid.source, StageSource::Supply(_)) {
        // The end voltage is where the battery is cut off, not a setting.
        0.0
    } else {
        source_tolerance(site, laid)
    };
    let source_factor = factors.common(ToleranceFactor::SourceVoltage, within(source_tolerance));
    let conditions = &site.conditions;
    let usual_c = conditions.usual_temperature.value.as_celsius();
    let temperature = factors.common(
        ToleranceFactor::Temperature,
        Distribution::Rectangular {
            low: conditions.coldest_temperature.value.as_celsius().min(usual_c),
            high: conditions.hottest_temperature.value.as_celsius().max(usual_c),
        },
    );
    let resistances: Vec<Resistance> =
        (0..laid.parent.len()).map(|node| resistance(site, laid, node, &mut factors)).collect();
    let batches = load_factors(site, laid, &mut factors);
    let loads = nominal_loads(layout, &nominal, stage, &margin.set);
    let parent = laid.parent.clone();
    let target = device.at.node;
    let work = || {
        let resistance_ohm = laid.resistance_ohm[Corner::Nominal.index()].clone();
        let tree = Tree::new(parent.clone(), resistance_ohm).expect("a stage is laid out parent-first");
        Work { tree, loads: loads.clone(), resistance_ohm: vec![0.0; parent.len()], flow: Workspace::new() }
    };
    let sampled = sample(
        &factors.inputs,
        options.samples,
        options.seed ^ stage as u64,
        work,
        |drawn, work: &mut Work| {
            wanted.check().ok()?;
            let rise_k = drawn[temperature] - usual_c;
            for (ohm, how) in work.resistance_ohm.iter_mut().zip(&resistances) {
                *ohm = match how {
                    Resistance::Fixed(ohm) => *ohm,
                    Resistance::Cable { copper_ohm, rest_ohm, coefficient_per_k, drum, length } => {
                        let by_drum = drum.map_or(1.0, |drum| drawn[drum]);
                        copper_ohm * (1.0 + coefficient_per_k * rise_k) * by_drum * drawn[*length] + rest_ohm
                    }
                };
            }
            work.tree.replace_resistances(&work.resistance_ohm).ok()?;
            for (node, batch) in batches.iter().enumerate() {
                // Batch and own deviation add, so that both at their ends make the whole tolerance.
                let factor = batch.map_or(1.0, |(batch, own)| drawn[batch] + drawn[own] - 1.0);
                work.loads.power_w[node] = loads.power_w[node] * factor;
                work.loads.current_a[node] = loads.current_a[node] * factor;
                work.loads.conductance_s[node] = loads.conductance_s[node] * factor;
            }
            let source = Source {
                voltage_v: voltage_v * drawn[source_factor],
                resistance_ohm: work.resistance_ohm[0],
            };
            let options = Options { tolerance_v: 1e-6, ..Options::default() };
            match solve(&work.tree, &source, &work.loads.as_loads(), &mut work.flow, &options) {
                Ok(Outcome::Solved(_)) => Some(work.flow.voltages_v()[target]),
                _ => None,
            }
        },
    )?;
    let low = sampled.sorted.partition_point(|voltage| *voltage < margin.limit_v);
    let below = low + sampled.without;
    let in_words = |share: &FactorShare| share.factor.say(Language::English);
    let mut shares: Vec<FactorShare> =
        factors.names.iter().map(|name| FactorShare { factor: name.clone(), share: 0.0 }).collect();
    for (place, squared) in factors.name.iter().zip(&sampled.squared_correlation) {
        shares[*place].share += squared - 1.0 / options.samples as f64;
    }
    for share in &mut shares {
        share.share = share.share.max(0.0);
    }
    shares.sort_by(|a, b| b.share.total_cmp(&a.share).then_with(|| in_words(a).cmp(&in_words(b))));
    Ok(Some(StageTolerance {
        stage,
        device: device.device,
        phase: margin.phase,
        set: margin.set.clone(),
        limit_v: margin.limit_v,
        samples: options.samples,
        below,
        interval: clopper_pearson(below, options.samples, CONFIDENCE),
        mean_v: sampled.mean(),
        deviation_v: sampled.deviation(),
        one_percent_v: sampled.quantile(0.01),
        shares,
    }))
}

/// One thread's scratch.
struct Work {
    tree: Tree,
    loads: StageLoads,
    resistance_ohm: Vec<f64>,
    flow: Workspace,
}

fn source_tolerance(site: &Site, stage: &Stage) -> f64 {
    match stage.source {
        StageSource::Supply(index) => {
            site.supply_model(&site.supplies[index]).voltage_tolerance.value.as_fraction()
        }
        StageSource::Regenerator(index) => {
            let model: &BoxModel = site.box_model(&site.boxes[index]);
            model.output_tolerance.as_ref().map_or(0.0, |tolerance| tolerance.value.as_fraction())
        }
    }
}

/// Splits a segment into what varies with temperature, drum and length, and the rest.
fn resistance(site: &Site, stage: &Stage, node: usize, factors: &mut Factors) -> Resistance {
    let nominal_ohm = stage.resistance_ohm[Corner::Nominal.index()][node];
    let Segment::Cable { run, section } = stage.segment[node] else { return Resistance::Fixed(nominal_ohm) };
    let wired = &site.runs[run];
    let cable = site.cable(wired);
    let conditions = &site.conditions;
    let usual_c = conditions.usual_temperature.value.as_celsius();
    let usual_ohm_per_m = conductor_ohm_per_m(cable, usual_c);
    // The law of resistance is linear in temperature, so two points give it.
    let coefficient_per_k = (conductor_ohm_per_m(cable, usual_c + 10.0) / usual_ohm_per_m - 1.0) / 10.0;
    if wired.measured.loop_resistance.is_some() {
        let length = factors.own(ToleranceFactor::MeasuredLoops, within(MEASUREMENT_TOLERANCE));
        let copper_ohm = nominal_ohm;
        return Resistance::Cable { copper_ohm, rest_ohm: 0.0, coefficient_per_k, drum: None, length };
    }
    let pairs = wired.pairs_in_parallel();
    let length_m = wired.sections[section].length.value.as_metres();
    let copper_ohm = (2.0 * usual_ohm_per_m * length_m / pairs).min(nominal_ohm);
    let drum_half_width = cable.resistance_tolerance.value.as_fraction();
    let drum =
        factors.common(ToleranceFactor::Drum { cable: cable.head.name.clone() }, within(drum_half_width));
    // The sections of a run were paced together.
    let length = factors.common(
        ToleranceFactor::Length { run: wired.id.to_string() },
        within(conditions.length_tolerance.value.as_fraction()),
    );
    let rest_ohm = nominal_ohm - copper_ohm;
    Resistance::Cable { copper_ohm, rest_ohm, coefficient_per_k, drum: Some(drum), length }
}

/// Batch and own factor of the load at every node.
fn load_factors(site: &Site, stage: &Stage, factors: &mut Factors) -> Vec<Option<(usize, usize)>> {
    stage
        .terminal
        .iter()
        .map(|terminal| {
            let StageNode::Station(station) = *terminal else { return None };
            let model: &StationModel = site.station_model(&site.stations[station]);
            let half = 0.5 * model.load_tolerance.value.as_fraction();
            let batch =
                factors.common(ToleranceFactor::Batch { model: model.head.name.clone() }, within(half));
            Some((batch, factors.own(ToleranceFactor::LoadsOneByOne, within(half))))
        })
        .collect()
}

/// Nominal loads of a stage with a set of calls, the stages below at their nominal power.
fn nominal_loads(layout: &Layout, phase: &Phase, stage: usize, set: &[usize]) -> StageLoads {
    let mut loads = phase.base[stage].clone();
    for touch in set.iter().flat_map(|option| &phase.touches[*option]) {
        if touch.at.stage == stage {
            loads.add(touch.at.node, touch.change);
        }
    }
    if !layout.stages[stage].converters.is_empty() {
        let mut solver = Solver::new(layout, phase);
        if solver.solve_set(stage, set) == SetOutcome::Solved {
            for converter in &layout.stages[stage].converters {
                let below = solver.solution(converter.stage);
                loads.power_w[converter.node] +=
                    phase.output_v[converter.stage] * below.source_current_a / converter.efficiency;
            }
        }
    }
    loads
}
