//! One operating state as a flow problem: base loads, admissible calls, voltages.

use crate::calls::{CallKind, CallOption, call_options, release_options, releases_at_once};
use crate::corner::Corner;
use crate::demand::{Activity, Demand, box_demand};
use crate::drawn::{Drawn, alike, is_released_on_fire, released};
use crate::layout::{Layout, NodeRef, Stage, StageNode, StageSource};
use latchline_circuit::flow::{Loads, Tree};
use latchline_finding::{CallMoment, StateKind};
use latchline_site::model::Site;
use std::sync::{Arc, OnceLock};

/// The loads of a stage, node by node.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct StageLoads {
    /// Constant power in watts, drawn behind `drop_v`.
    pub power_w: Vec<f64>,
    /// Constant current in amperes.
    pub current_a: Vec<f64>,
    /// Conductance in siemens.
    pub conductance_s: Vec<f64>,
    /// Rectifier drop in volts.
    pub drop_v: Vec<f64>,
}

impl StageLoads {
    fn zeros(nodes: usize) -> Self {
        let zeros = vec![0.0; nodes];
        StageLoads {
            power_w: zeros.clone(),
            current_a: zeros.clone(),
            conductance_s: zeros.clone(),
            drop_v: zeros,
        }
    }

    /// Whether nothing is drawn at a node.
    pub(crate) fn is_idle(&self, node: usize) -> bool {
        self.power_w[node] == 0.0 && self.current_a[node] == 0.0 && self.conductance_s[node] == 0.0
    }

    /// As the flow takes them.
    pub fn as_loads(&self) -> Loads<'_> {
        Loads {
            power_w: &self.power_w,
            current_a: &self.current_a,
            conductance_s: &self.conductance_s,
            drop_v: &self.drop_v,
        }
    }

    /// The demand at a node.
    pub fn demand(&self, node: usize) -> Demand {
        Demand {
            power_w: self.power_w[node],
            current_a: self.current_a[node],
            conductance_s: self.conductance_s[node],
        }
    }

    /// Adds to the demand at a node.
    pub fn add(&mut self, node: usize, demand: Demand) {
        self.power_w[node] += demand.power_w;
        self.current_a[node] += demand.current_a;
        self.conductance_s[node] += demand.conductance_s;
    }
}

/// What one call option adds at one node.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Touch {
    /// Where.
    pub at: NodeRef,
    /// The change against the base load; parts may be negative.
    pub change: Demand,
}

/// An operating state in one corner, ready to be solved.
#[derive(Debug, Clone)]
pub struct Phase {
    /// Which state.
    pub kind: StateKind,
    /// Which corner.
    pub corner: Corner,
    /// Activity of every station without any call.
    pub base_activity: Vec<Activity>,
    /// Base loads of every stage, without converters.
    pub base: Vec<StageLoads>,
    /// Open-circuit voltage of every stage; `None` where the stage is without power in this state.
    pub voltage_v: Vec<Option<f64>>,
    /// Voltage at which a stage's output power is reckoned for the stage above.
    pub output_v: Vec<f64>,
    /// The shape and resistances of every stage in this corner.
    pub trees: Arc<Vec<Tree>>,
    /// Calls that may stand.
    pub options: Arc<Vec<CallOption>>,
    /// What each option adds, by option.
    pub touches: Arc<Vec<Vec<Touch>>>,
    /// How many calls may stand at once.
    pub most_calls: usize,
    /// How many of the options that are releases outside of calls may stand at once.
    pub most_releases: usize,
    /// Whether any load on a stage is a constant current, or bounded by one, by stage.
    pub has_current: Vec<bool>,
    /// Whether some load's current rises with voltage, so that results are bounds.
    pub is_bound: bool,
}

/// Resistive loads in the adverse corner: each is replaced by the constant current that it draws at
/// the highest voltage it can have, which is an upper bound of its current. `None`: kept as they are.
pub type HighestVoltages = Vec<Vec<f64>>;

impl Phase {
    /// Builds a state; `None` where it cannot occur on the site. `highest` holds the highest voltage of every
    /// node ([`StateSpace::highest_v`](crate::StateSpace::highest_v)), used to bound resistive loads in the
    /// adverse corner; elsewhere it is not read.
    pub fn new(
        site: &Site,
        layout: &Layout,
        kind: StateKind,
        corner: Corner,
        highest: Option<&HighestVoltages>,
    ) -> Option<Phase> {
        Phase::with(site, layout, kind, corner, highest, &SharedParts::default())
    }

    /// The same, with what it has in common with other states of the site.
    pub(crate) fn with(
        site: &Site,
        layout: &Layout,
        kind: StateKind,
        corner: Corner,
        highest: Option<&HighestVoltages>,
        shared: &SharedParts,
    ) -> Option<Phase> {
        let (base_activity, options, most_calls) = activities(site, kind, shared)?;
        let has_releases = options.iter().any(CallOption::is_release);
        let most_releases = if has_releases { releases_at_once(site).0 } else { 0 };
        let drops = shared.drops.get_or_init(|| drops(site, layout));
        let bounding = corner != Corner::Nominal;
        let mut is_bound = false;
        let mut bounded = |demand: Demand, at: NodeRef| -> Demand {
            if !bounding || demand.conductance_s == 0.0 {
                return demand;
            }
            is_bound = true;
            let highest_v = match (corner, highest) {
                (Corner::Adverse, Some(highest)) => highest[at.stage][at.node],
                _ => 0.0,
            };
            let by_resistance = demand.conductance_s * highest_v;
            Demand { current_a: demand.current_a + by_resistance, conductance_s: 0.0, ..demand }
        };
        let mut base: Vec<StageLoads> =
            layout.stages.iter().map(|stage| StageLoads::zeros(stage.parent.len())).collect();
        for (loads, drop) in base.iter_mut().zip(drops) {
            loads.drop_v.clone_from(drop);
        }
        let mut drawn = Drawn::new(site, kind, corner, shared.alike.get_or_init(|| alike(site)));
        for (index, at) in layout.station.iter().enumerate() {
            let Some(at) = *at else { continue };
            let mut demand = drawn.by(index, base_activity[index]);
            if kind == StateKind::FireRelease {
                demand = demand.plus(drawn.on_fire(index));
            }
            base[at.stage].add(at.node, bounded(demand, at));
        }
        for (index, at) in layout.box_input.iter().enumerate() {
            let Some(at) = *at else { continue };
            let own = box_demand(site.box_model(&site.boxes[index]), corner);
            base[at.stage].add(at.node, bounded(own, at));
        }
        let mut touch = |index: usize, busy: Demand, base: Demand| {
            let at = layout.station[index]?;
            Some(Touch { at, change: bounded(busy, at).minus(bounded(base, at)) })
        };
        let touches: Vec<Vec<Touch>> = options
            .iter()
            .map(|option| {
                if option.is_release() {
                    let more = released(site, option.caller, corner);
                    return touch(option.caller, more, Demand::default()).into_iter().collect();
                }
                let of_call = option.busy.iter().filter_map(|&(index, activity)| {
                    let busy = drawn.by(index, activity);
                    touch(index, busy, drawn.by(index, base_activity[index]))
                });
                of_call.collect()
            })
            .collect();
        let has_current = has_current(&base, &touches);
        let (voltage_v, output_v) = voltages(site, layout, kind, corner, &has_current);
        // Low-end current with high-end voltage is above both ends: a bound, not a corner.
        is_bound |= voltage_v.iter().zip(&output_v).zip(&layout.stages).any(|((own, output), stage)| {
            matches!(stage.source, StageSource::Regenerator(_)) && own.is_some_and(|own| own != *output)
        });
        if voltage_v.iter().all(Option::is_none) {
            return None;
        }
        let trees = Arc::clone(shared.trees[corner.index()].get_or_init(|| Arc::new(trees(layout, corner))));
        Some(Phase {
            kind,
            corner,
            base_activity,
            base,
            voltage_v,
            output_v,
            trees,
            options,
            touches: Arc::new(touches),
            most_calls,
            most_releases,
            has_current,
            is_bound,
        })
    }

    /// Whether no more calls and releases stand in a set than may at once.
    pub fn admits(&self, set: &[usize]) -> bool {
        let releases = set.iter().filter(|option| self.options[**option].is_release()).count();
        releases <= self.most_releases && set.len() - releases <= self.most_calls
    }
}

/// What the states of a site have in common, each part made when it is first needed.
#[derive(Debug, Clone, Default)]
pub(crate) struct SharedParts {
    calls: OnceLock<Arc<Vec<CallOption>>>,
    views: OnceLock<Arc<Vec<CallOption>>>,
    /// Trees by corner.
    trees: [OnceLock<Arc<Vec<Tree>>>; 3],
    drops: OnceLock<Vec<Vec<f64>>>,
    /// Which stations draw alike.
    alike: OnceLock<Vec<usize>>,
}

impl SharedParts {
    /// With those calls alone that may stand in a state and are wanted.
    pub fn with_calls(site: &Site, kind: StateKind, wanted: impl Fn(&CallOption) -> bool) -> Self {
        let shared = SharedParts::default();
        let (place, kind) = match kind {
            StateKind::Call | StateKind::BatteryEnd => (&shared.calls, CallKind::Calls),
            StateKind::SelfView => (&shared.views, CallKind::Views),
            _ => return shared,
        };
        let options = options_of(site, kind).into_iter().filter(wanted).collect();
        place.get_or_init(|| Arc::new(options));
        shared
    }

    fn options(&self, site: &Site, kind: CallKind) -> Arc<Vec<CallOption>> {
        let place = match kind {
            CallKind::Calls => &self.calls,
            CallKind::Views => &self.views,
        };
        Arc::clone(place.get_or_init(|| Arc::new(options_of(site, kind))))
    }
}

/// Calls, and the doors released outside of them where there are any calls.
fn options_of(site: &Site, kind: CallKind) -> Vec<CallOption> {
    let mut options = call_options(site, kind);
    if !options.is_empty() {
        options.extend(release_options(site));
    }
    options
}

fn trees(layout: &Layout, corner: Corner) -> Vec<Tree> {
    let tree = |stage: &Stage| {
        let resistance = stage.resistance_ohm[corner.index()].clone();
        Tree::new(stage.parent.clone(), resistance).expect("a stage is laid out parent-first")
    };
    layout.stages.iter().map(tree).collect()
}

/// Base activities, call options and number of simultaneous calls; `None` where the state cannot
/// occur on this site.
fn activities(
    site: &Site,
    kind: StateKind,
    shared: &SharedParts,
) -> Option<(Vec<Activity>, Arc<Vec<CallOption>>, usize)> {
    let family = site.family();
    let all = |activity| vec![activity; site.stations.len()];
    match kind {
        StateKind::StandbyDay | StateKind::StandbyNight | StateKind::LightLoad => {
            Some((all(Activity::Standby), Arc::default(), 0))
        }
        StateKind::Call | StateKind::BatteryEnd => {
            let options = shared.options(site, CallKind::Calls);
            let calls = family.simultaneous_calls.value as usize;
            (!options.is_empty()).then_some((all(Activity::Standby), options, calls))
        }
        StateKind::SelfView => {
            let options = shared.options(site, CallKind::Views);
            let views = family.simultaneous_views.value as usize;
            (!options.is_empty() && views > 0).then_some((all(Activity::Standby), options, views))
        }
        StateKind::AllCall => {
            if !family.all_call.value || site.management.is_empty() {
                return None;
            }
            let mut base = all(Activity::Standby);
            for dwelling in &site.dwellings {
                for &station in &dwelling.stations {
                    base[station] = Activity::Ringing;
                }
            }
            let mut options: Vec<CallOption> = site
                .management
                .iter()
                .map(|management| CallOption {
                    caller: management.station,
                    answering: management.station,
                    moment: CallMoment::Ringing,
                    parties: [0, 0],
                    busy: vec![(management.station, Activity::Ringing)],
                })
                .collect();
            options.extend(release_options(site));
            Some((base, Arc::new(options), 1))
        }
        StateKind::PowerReturn => Some((all(Activity::Booting), Arc::default(), 0)),
        StateKind::FireRelease => {
            let any = site.entrances.iter().any(|entrance| is_released_on_fire(site, entrance));
            any.then_some((all(Activity::Standby), Arc::default(), 0))
        }
    }
}

/// Rectifier drop at every node.
fn drops(site: &Site, layout: &Layout) -> Vec<Vec<f64>> {
    let drop_at = |terminal: &StageNode| {
        let drop = match *terminal {
            StageNode::Station(index) => &site.station_model(&site.stations[index]).rectifier_drop,
            StageNode::BoxInput(index) => &site.box_model(&site.boxes[index]).rectifier_drop,
            _ => return 0.0,
        };
        drop.as_ref().map_or(0.0, |drop| drop.value.as_volts())
    };
    layout.stages.iter().map(|stage| stage.terminal.iter().map(drop_at).collect()).collect()
}

/// Whether any load on a stage is a constant current, in any set of calls.
fn has_current(base: &[StageLoads], touches: &[Vec<Touch>]) -> Vec<bool> {
    let mut has_current: Vec<bool> =
        base.iter().map(|loads| loads.current_a.iter().any(|current| *current != 0.0)).collect();
    for touch in touches.iter().flatten() {
        has_current[touch.at.stage] |= touch.change.current_a != 0.0;
    }
    has_current
}

/// Source voltage of every stage, and the voltage at which its output power is reckoned.
///
/// The power that a converter draws is its source voltage times its current. Constant-power
/// loads draw more current at a lower voltage and the losses grow, so with them alone the low end is the adverse one; constant
/// currents draw more power at the high end, so where there are any the current of the low end is taken
/// together with the voltage of the high end, which bounds both.
fn voltages(
    site: &Site,
    layout: &Layout,
    kind: StateKind,
    corner: Corner,
    has_current: &[bool],
) -> (Vec<Option<f64>>, Vec<f64>) {
    let mut voltage: Vec<Option<f64>> = Vec::with_capacity(layout.stages.len());
    let mut output = Vec::with_capacity(layout.stages.len());
    let mut powered_by: Vec<Option<usize>> = vec![None; layout.stages.len()];
    for (index, stage) in layout.stages.iter().enumerate() {
        for converter in &stage.converters {
            powered_by[converter.stage] = Some(index);
        }
        let mut own = Some(stage.voltage_v[corner.index()]);
        if kind == StateKind::BatteryEnd {
            own = match stage.source {
                StageSource::Supply(supply) => {
                    let battery = site.supply_model(&site.supplies[supply]).battery.as_ref();
                    battery.map(|battery| battery.end_bus_voltage.value.as_volts())
                }
                StageSource::Regenerator(_) => powered_by[index].and_then(|above| voltage[above]).and(own),
            };
        }
        let highest = stage.voltage_v[Corner::Light.index()];
        let reckoned =
            if corner == Corner::Adverse && has_current[index] { highest } else { own.unwrap_or(0.0) };
        voltage.push(own);
        output.push(reckoned);
    }
    (voltage, output)
}
