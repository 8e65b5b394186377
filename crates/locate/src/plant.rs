//! The site as it is drawn, laid out for asking "what if", with everything about it that is uncertain.

use latchline_finding::{CallMoment, StateKind};
use latchline_network::calls::{CallKind, call_options};
use latchline_network::phase::{Phase, StageLoads};
use latchline_network::resistance::{MEASUREMENT_TOLERANCE, conductor_ohm_per_m};
use latchline_network::{BusState, Corner, Layout, NodeRef, Segment, StageNode, StageSource};
use latchline_site::model::{Site, StationOwner};
use std::collections::{BTreeMap, BTreeSet};

/// Standard deviation of terminals and joints, as a share of what they are reckoned with (assumed).
const TERMINAL_DEVIATION: f64 = 0.5;
/// Standard deviation of the capacitance of a metre of cable, as a share (assumed; catalogues give none).
const CAPACITANCE_DEVIATION: f64 = 0.03;

/// How the resistance of a segment depends on what is uncertain.
#[derive(Debug, Clone)]
pub(crate) struct SegmentParts {
    /// The conductors' part in ohms.
    pub copper_ohm: f64,
    /// Terminals and joints in ohms.
    pub terminal_ohm: f64,
    /// Index of the factor and its relative standard deviation, each acting on `copper_ohm`.
    pub copper: Vec<(usize, f64)>,
    /// Factor of the terminals, acting on `terminal_ohm`.
    pub terminal: Option<usize>,
}

/// How the load at a node depends on what is uncertain: factor and relative standard deviation.
pub(crate) type LoadParts = Vec<(usize, f64)>;

/// The site with its uncertainties. Every factor is normal with deviation 1; what it acts on carries the size.
#[derive(Clone)]
pub struct Plant<'a> {
    /// The site.
    pub site: &'a Site,
    /// Its trees.
    pub layout: &'a Layout,
    /// The node at the far end of every section of every run.
    pub section: Vec<Vec<Option<NodeRef>>>,
    pub(crate) run_stage: Vec<Option<usize>>,
    /// The node of every place where something is connected: of a place that stands in several trees, that of the first.
    pub(crate) node_of: BTreeMap<StageNode, NodeRef>,
    /// The tree that a supply or regenerating box feeds.
    pub(crate) stage_of: BTreeMap<StageSource, usize>,
    pub(crate) segments: Vec<Vec<Option<SegmentParts>>>,
    pub(crate) loads: Vec<Vec<LoadParts>>,
    /// Factor of the voltage of every stage and its relative deviation.
    pub(crate) source: Vec<(usize, f64)>,
    /// Factors of the capacitance of every run.
    pub(crate) capacitance: Vec<Vec<(usize, f64)>>,
    /// Voltage below which the device at a node stops drawing.
    pub(crate) cut_off_v: Vec<Vec<f64>>,
    /// Stations that each station rings: those that a door calls.
    pub(crate) rings: Vec<Vec<usize>>,
    /// How many factors there are.
    pub factors: usize,
    /// The value of every factor, for a site that is not as drawn; empty for 0.
    pub(crate) drawn: Vec<f64>,
}

#[derive(Default)]
struct Names {
    by_name: BTreeMap<String, usize>,
    count: usize,
}

impl Names {
    fn of(&mut self, name: String) -> usize {
        let next = self.count;
        let found = *self.by_name.entry(name).or_insert(next);
        self.count = self.count.max(found + 1);
        found
    }
}

/// Standard deviation of what is known to lie within plus or minus `half`: a rectangular distribution
/// (JCGM 100, 4.3.7, number from memory).
fn rectangular(half: f64) -> f64 {
    half / 3.0_f64.sqrt()
}

impl<'a> Plant<'a> {
    /// What is asked of a site, for who has not laid it out.
    pub fn of_site<T>(site: &Site, ask: impl FnOnce(&Plant<'_>) -> T) -> T {
        let layout = Layout::new(site);
        ask(&Plant::new(site, &layout))
    }

    /// Lays out the uncertainties of a site.
    pub fn new(site: &'a Site, layout: &'a Layout) -> Self {
        let mut names = Names::default();
        let mut section: Vec<Vec<Option<NodeRef>>> =
            site.runs.iter().map(|run| vec![None; run.sections.len()]).collect();
        let mut run_stage = vec![None; site.runs.len()];
        let (mut node_of, mut stage_of) = (BTreeMap::new(), BTreeMap::new());
        for (stage, laid) in layout.stages.iter().enumerate() {
            stage_of.entry(laid.source).or_insert(stage);
            for (node, terminal) in laid.terminal.iter().enumerate() {
                node_of.entry(*terminal).or_insert(NodeRef { stage, node });
            }
            for (node, segment) in laid.segment.iter().enumerate() {
                if let Segment::Cable { run, section: place } = *segment {
                    section[run][place] = Some(NodeRef { stage, node });
                    run_stage[run] = Some(stage);
                }
            }
        }
        let segments = layout
            .stages
            .iter()
            .map(|stage| {
                let of = |node: usize| match stage.segment[node] {
                    Segment::Cable { run, section } => {
                        let nominal = stage.resistance_ohm[Corner::Nominal.index()][node];
                        Some(segment_parts(site, &mut names, run, section, nominal))
                    }
                    _ => None,
                };
                (0..stage.parent.len()).map(of).collect()
            })
            .collect();
        let loads = layout
            .stages
            .iter()
            .map(|stage| {
                stage.terminal.iter().map(|terminal| load_parts(site, &mut names, terminal)).collect()
            })
            .collect();
        let source = layout
            .stages
            .iter()
            .enumerate()
            .map(|(index, stage)| {
                let half = match stage.source {
                    StageSource::Supply(supply) => {
                        site.supply_model(&site.supplies[supply]).voltage_tolerance.value.as_fraction()
                    }
                    StageSource::Regenerator(found) => site
                        .box_model(&site.boxes[found])
                        .output_tolerance
                        .as_ref()
                        .map_or(0.0, |tolerance| tolerance.value.as_fraction()),
                };
                (names.of(format!("source {index}")), rectangular(half))
            })
            .collect();
        let capacitance = site
            .runs
            .iter()
            .enumerate()
            .map(|(index, run)| {
                if run.measured.capacitance.is_some() {
                    let name = format!("measured capacitance {index}");
                    return vec![(names.of(name), rectangular(MEASUREMENT_TOLERANCE))];
                }
                let length = rectangular(site.conditions.length_tolerance.value.as_fraction());
                vec![
                    (names.of(format!("length {index}")), length),
                    (names.of(format!("capacitance {}", run.cable.value)), CAPACITANCE_DEVIATION),
                ]
            })
            .collect();
        let cut_off_v = layout
            .stages
            .iter()
            .map(|stage| stage.terminal.iter().map(|terminal| cut_off(site, terminal)).collect())
            .collect();
        Plant {
            site,
            layout,
            section,
            run_stage,
            node_of,
            stage_of,
            segments,
            loads,
            source,
            capacitance,
            cut_off_v,
            rings: rings(site),
            factors: names.count,
            drawn: Vec::new(),
        }
    }

    /// The site as it might have been built: every factor within its tolerance, by random numbers.
    pub fn built(&self, random: &mut impl FnMut() -> f64) -> Plant<'a> {
        // Uniform, with deviation 1: what the tolerances say, not what the inference takes them for.
        let drawn = (0..self.factors).map(|_| (2.0 * random() - 1.0) * 3.0_f64.sqrt()).collect();
        Plant { drawn, ..self.clone() }
    }

    /// One and the sum of these factors with their deviations.
    pub(crate) fn times(&self, factors: &[(usize, f64)]) -> f64 {
        if self.drawn.is_empty() {
            return 1.0;
        }
        factors.iter().map(|(factor, deviation)| 1.0 + self.drawn[*factor] * deviation).product()
    }

    /// What a segment has beyond its nominal resistance.
    pub(crate) fn beyond_nominal_ohm(&self, parts: &SegmentParts) -> f64 {
        if self.drawn.is_empty() {
            return 0.0;
        }
        let terminals =
            parts.terminal.map_or(0.0, |factor| self.drawn[factor].max(-1.8) * parts.terminal_ohm);
        (self.times(&parts.copper) - 1.0) * parts.copper_ohm + terminals
    }

    /// The state in which the first caller that can call a station does so; `caller` names another.
    pub fn call(&self, station: usize, moment: CallMoment, caller: Option<usize>) -> Option<BusState> {
        let phase = Phase::new(self.site, self.layout, StateKind::Call, Corner::Nominal, None)?;
        let main = match self.site.stations[station].owner {
            StationOwner::Dwelling { dwelling, .. } => self.site.dwellings[dwelling].stations[0],
            _ => station,
        };
        // Talking without a release is left out where the same call with release draws more.
        let fits = |wanted: CallMoment| {
            phase.options.iter().position(|option| {
                let answers = if wanted == CallMoment::Ringing { main } else { station };
                (option.answering == answers || option.caller == station)
                    && option.moment == wanted
                    && caller.is_none_or(|caller| option.caller == caller)
            })
        };
        let found = fits(moment).or_else(|| match moment {
            CallMoment::Talking => fits(CallMoment::Releasing),
            CallMoment::Releasing => fits(CallMoment::Talking),
            _ => None,
        })?;
        Some(BusState::of(&phase, &[found]))
    }

    /// The state in which all these calls stand at once; `None` where two of them need the same party, or the site does not let so many stand.
    pub fn at_once(&self, calls: &[BusState]) -> Option<BusState> {
        let phase = Phase::new(self.site, self.layout, StateKind::Call, Corner::Nominal, None)?;
        let mut set: Vec<usize> = Vec::with_capacity(calls.len());
        for state in calls {
            set.extend(state.set_in(&phase)?);
        }
        let fits = set.iter().enumerate().all(|(index, option)| {
            set[..index].iter().all(|other| phase.options[*option].is_compatible(&phase.options[*other]))
        });
        if !fits || !phase.admits(&set) {
            return None;
        }
        set.sort_unstable();
        Some(BusState::of(&phase, &set))
    }
}

/// Stations that each station rings.
fn rings(site: &Site) -> Vec<Vec<usize>> {
    let mut rings = vec![BTreeSet::new(); site.stations.len()];
    for call in call_options(site, CallKind::Calls) {
        let rung = call.busy.iter().map(|(station, _)| *station).filter(|station| *station != call.caller);
        rings[call.caller].extend(rung);
    }
    rings.into_iter().map(|rung| rung.into_iter().collect()).collect()
}

fn segment_parts(
    site: &Site,
    names: &mut Names,
    run: usize,
    section: usize,
    nominal_ohm: f64,
) -> SegmentParts {
    let wired = &site.runs[run];
    let cable = site.cable(wired);
    let conditions = &site.conditions;
    let usual_c = conditions.usual_temperature.value.as_celsius();
    let usual = conductor_ohm_per_m(cable, usual_c);
    let per_kelvin = (conductor_ohm_per_m(cable, usual_c + 10.0) / usual - 1.0) / 10.0;
    let span_k =
        conditions.hottest_temperature.value.as_celsius() - conditions.coldest_temperature.value.as_celsius();
    let temperature = (names.of(String::from("temperature")), per_kelvin * rectangular(0.5 * span_k.abs()));
    if wired.measured.loop_resistance.is_some() {
        let measured = (names.of(format!("measured loop {run}")), rectangular(MEASUREMENT_TOLERANCE));
        return SegmentParts {
            copper_ohm: nominal_ohm,
            terminal_ohm: 0.0,
            copper: vec![temperature, measured],
            terminal: None,
        };
    }
    let pairs = wired.pairs_in_parallel();
    let length_m = wired.sections[section].length.value.as_metres();
    let copper_ohm = (2.0 * usual * length_m / pairs).min(nominal_ohm);
    let terminal_ohm = wired.terminals_ohm(conditions.joint_resistance.value).min(nominal_ohm - copper_ohm);
    let drum = rectangular(cable.resistance_tolerance.value.as_fraction());
    let length = rectangular(conditions.length_tolerance.value.as_fraction());
    SegmentParts {
        copper_ohm,
        terminal_ohm: TERMINAL_DEVIATION * terminal_ohm.max(0.0),
        copper: vec![
            temperature,
            (names.of(format!("drum {}", wired.cable.value)), drum),
            (names.of(format!("length {run}")), length),
        ],
        terminal: Some(names.of(format!("terminals {run} {section}"))),
    }
}

fn load_parts(site: &Site, names: &mut Names, terminal: &StageNode) -> LoadParts {
    let StageNode::Station(station) = *terminal else { return Vec::new() };
    let found = &site.stations[station];
    // Half of the tolerance is common to a model, half each station's own, as for the sampled tolerances.
    let half = 0.5 * site.station_model(found).load_tolerance.value.as_fraction();
    vec![
        (names.of(format!("batch {}", found.model.value)), rectangular(half)),
        (names.of(format!("station {station}")), rectangular(half)),
    ]
}

/// A datasheet without cut-off: a device that has lost this share of its least standby voltage is taken to be off (assumed).
const CUT_OFF_SHARE: f64 = 0.8;

fn cut_off(site: &Site, terminal: &StageNode) -> f64 {
    match *terminal {
        StageNode::Station(station) => {
            let model = site.station_model(&site.stations[station]);
            model
                .turn_off_voltage
                .as_ref()
                .map_or(CUT_OFF_SHARE * model.least_standby_voltage.value.as_volts(), |value| {
                    value.value.as_volts()
                })
        }
        StageNode::BoxInput(found) => {
            let model = site.box_model(&site.boxes[found]);
            let least = model.least_voltage.as_ref().map_or(0.0, |value| value.value.as_volts());
            model.turn_off_voltage.as_ref().map_or(CUT_OFF_SHARE * least, |value| value.value.as_volts())
        }
        _ => 0.0,
    }
}

/// One operating state with nominal values.
pub(crate) struct StateLoads {
    /// Loads of every stage, without converters.
    pub loads: Vec<StageLoads>,
    /// Voltage of every stage.
    pub voltage_v: Vec<Option<f64>>,
    /// Voltage at which a stage's output is reckoned for the stage above.
    pub output_v: Vec<f64>,
}

impl StateLoads {
    /// `None` where the state cannot occur on the site.
    pub fn new(plant: &Plant<'_>, state: &BusState) -> Option<Self> {
        let phase = Phase::new(plant.site, plant.layout, state.kind, Corner::Nominal, None)?;
        let set = state.set_in(&phase)?;
        let mut loads = phase.base.clone();
        for touch in set.iter().flat_map(|option| &phase.touches[*option]) {
            loads[touch.at.stage].add(touch.at.node, touch.change);
        }
        // A change against the base may leave a rounding error below zero.
        for stage in &mut loads {
            for list in [&mut stage.power_w, &mut stage.current_a, &mut stage.conductance_s] {
                list.iter_mut().for_each(|value| *value = value.max(0.0));
            }
        }
        Some(StateLoads { loads, voltage_v: phase.voltage_v, output_v: phase.output_v })
    }
}
