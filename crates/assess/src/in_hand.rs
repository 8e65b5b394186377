//! How many more stations the end of a run could carry.
//!
//! Asked of the state in which the run's own worst device is worst, and of the state of its largest
//! current: stations of the last one's model are added in standby at its terminals until a device
//! of the same tree falls below its limit, a port or supply exceeds its current, or a datasheet count is reached.
//! An added station is not itself called, so this is an estimate; adding it to the site and
//! checking again is the proof.

use crate::rules::{port_limit, supply_counts};
use crate::stage::WithVoltages;
use latchline_network::demand::{Activity, Demand, station_demand};
use latchline_network::evaluate::{SetOutcome, Solver};
use latchline_network::stage_key::{add_set, of_stage};
use latchline_network::{Corner, Fingerprint, NodeRef, StageSource, Terminal};
use latchline_site::model::{RunStop, StationOwner};
use std::collections::BTreeMap;

/// Answers for all runs of a site.
pub(crate) struct InHand<'a> {
    context: &'a WithVoltages<'a>,
    /// Shares of the supplies' datasheet counts, by stage.
    shares: BTreeMap<usize, f64>,
    /// By phase and stage: the beginning of keys.
    keys: BTreeMap<(usize, usize), Fingerprint>,
    /// By phase and stage, made when first asked for.
    solvers: BTreeMap<(usize, usize), Solver<'a>>,
}

/// One run whose end is asked for more stations.
struct Question<'a> {
    start: NodeRef,
    end: NodeRef,
    /// As many as the datasheet counts allow.
    most: usize,
    /// Limit of the port, in amperes.
    port_limit_a: Option<f64>,
    /// Rated current of the supply, in amperes.
    rated_a: Option<f64>,
    states: Vec<AskedState<'a>>,
}

/// A state in which they must be carried.
struct AskedState<'a> {
    phase: usize,
    set: &'a [usize],
    /// What one further station draws.
    one: Demand,
    /// Least voltage of each node of the stage; minus infinity where there is nothing.
    least_v: Vec<f64>,
}

impl<'a> InHand<'a> {
    /// For all runs of a site.
    pub fn new(context: &'a WithVoltages<'a>) -> Self {
        let shares = supply_counts(context).into_iter().map(|count| (count.stage, count.share)).collect();
        InHand { context, shares, keys: BTreeMap::new(), solvers: BTreeMap::new() }
    }

    /// Further stations at the end of one run, whose device with the least margin is given by its position; `None` where the run ends in a
    /// box or at a door.
    pub fn stations(&mut self, run: usize, worst_device: Option<usize>) -> Option<usize> {
        let context = self.context;
        let question = self.question(run, worst_device?)?;
        let stage = question.start.stage;
        let mut key = Fingerprint::new();
        key.count(question.start.node).count(question.end.node).count(question.most);
        key.optional(question.port_limit_a).optional(question.rated_a);
        for state in &question.states {
            let phase = &context.space.phases[state.phase];
            let begin = self.keys.entry((state.phase, stage));
            key.key(begin.or_insert_with(|| of_stage(context.layout, phase, stage)).finish());
            add_set(&mut key, context.layout, phase, stage, state.set);
            key.numbers(&[state.one.power_w, state.one.current_a, state.one.conductance_s]);
            key.numbers(&state.least_v);
        }
        context.memory.in_hand(key.finish(), || {
            let (mut low, mut high) = (0, question.most);
            while low < high {
                let middle = (low + high).div_ceil(2);
                if question.states.iter().all(|state| self.holds(&question, state, middle)) {
                    low = middle;
                } else {
                    high = middle - 1;
                }
            }
            Some(low)
        })
    }

    fn question(&self, run: usize, worst_device: usize) -> Option<Question<'a>> {
        let context = self.context;
        let site = context.site;
        let RunStop::Station(last) = site.runs[run].sections.last()?.to else { return None };
        if !matches!(site.stations[last].owner, StationOwner::Dwelling { .. }) {
            return None;
        }
        let start = context.layout.run_start[run]?;
        let end = context.layout.run_end[run]?;
        let worst = context.worst.devices[worst_device].worst();
        let mut states = vec![self.asked(start.stage, last, worst.phase, &worst.set)];
        if let Some(current) = &context.worst.run_current[run] {
            states.push(self.asked(start.stage, last, current.phase, &current.set));
        }
        let rated_a = match context.layout.stages[start.stage].source {
            StageSource::Supply(supply) => {
                Some(site.supply_model(&site.supplies[supply]).rated_current.value.as_amps())
            }
            StageSource::Regenerator(_) => None,
        };
        let most = self.counts(run, last, start.stage);
        Some(Question { start, end, most, port_limit_a: port_limit(context, run), rated_a, states })
    }

    fn asked(&self, stage: usize, last: usize, phase: usize, set: &'a [usize]) -> AskedState<'a> {
        let context = self.context;
        let site = context.site;
        let state = &context.space.phases[phase];
        let activity = state.base_activity[last];
        let one = station_demand(site, &site.stations[last], activity, true, Corner::Adverse);
        let is_busy = |station: usize| {
            set.iter().any(|option| {
                let busy = &state.options[*option].busy;
                busy.iter().any(|(index, activity)| *index == station && *activity != Activity::Standby)
            })
        };
        let least_v = |terminal: &Terminal| match *terminal {
            Terminal::Station(station) => {
                let model = site.station_model(&site.stations[station]);
                if is_busy(station) || state.base_activity[station].is_in_use() {
                    model.least_voltage.value.as_volts()
                } else {
                    model.least_standby_voltage.value.as_volts()
                }
            }
            Terminal::BoxInput(index) => {
                let least = site.box_model(&site.boxes[index]).least_voltage.as_ref();
                least.map_or(0.0, |least| least.value.as_volts())
            }
            _ => f64::NEG_INFINITY,
        };
        let least_v = context.layout.stages[stage].terminal.iter().map(least_v).collect();
        AskedState { phase, set, one, least_v }
    }

    /// As many as the datasheet counts allow.
    fn counts(&self, run: usize, last: usize, stage: usize) -> usize {
        let site = self.context.site;
        let family = site.family();
        let on_port = self.context.topology.stations_beyond[run].len();
        let mut most = 99;
        if let Some(limit) = &family.stations_per_port {
            most = most.min((limit.value as usize).saturating_sub(on_port));
        }
        let per_supply = site.station_model(&site.stations[last]).most_per_supply.as_ref();
        if let (Some(limit), Some(share)) = (per_supply, self.shares.get(&stage)) {
            let room = (1.0 - share).max(0.0) * f64::from(limit.value);
            most = most.min((room + 1e-9) as usize);
        }
        most
    }

    fn holds(&mut self, question: &Question<'_>, state: &AskedState<'_>, added: usize) -> bool {
        let context = self.context;
        let (start, stage) = (question.start, question.start.stage);
        let solver = self
            .solvers
            .entry((state.phase, stage))
            .or_insert_with(|| Solver::of_stage(context.layout, &context.space.phases[state.phase], stage));
        let extra = state.one.times(added as f64);
        if solver.solve_set_with(question.end, extra, state.set) != SetOutcome::Solved {
            return false;
        }
        let is_above = |node: usize, limit_a: Option<f64>| {
            limit_a.is_some_and(|limit_a| solver.segment_current_a(stage, node) > limit_a)
        };
        if is_above(start.node, question.port_limit_a) || is_above(0, question.rated_a) {
            return false;
        }
        let voltage_v = &solver.solution(stage).voltage_v;
        voltage_v.iter().zip(&state.least_v).all(|(voltage_v, least_v)| voltage_v >= least_v)
    }
}
