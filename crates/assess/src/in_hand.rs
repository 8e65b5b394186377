//! How many more stations the end of a run could carry.
//!
//! Asked of the state in which the run's own worst device is worst, and of the state of its largest
//! current: stations of the last one's model are added in standby at its terminals until a device
//! of the same tree falls below its limit, a port or supply exceeds its current, or a datasheet count is reached.
//! An added station is not itself called, so this is an estimate; adding it to the site and
//! checking again is the proof.

use crate::rule::Context;
use crate::rules::{port_limit, supply_counts};
use latchline_network::demand::{Activity, station_demand};
use latchline_network::evaluate::{SetOutcome, Solver};
use latchline_network::{Corner, NodeRef, Terminal};
use latchline_site::model::{RunStop, StationOwner};

/// Answers for all runs of a site.
pub(crate) struct InHand<'a> {
    context: &'a Context<'a>,
    /// One solver a phase, made when first asked for.
    solvers: Vec<Option<Solver<'a>>>,
}

impl<'a> InHand<'a> {
    /// For all runs of a site.
    pub fn new(context: &'a Context<'a>) -> Self {
        InHand { context, solvers: (0..context.space.phases.len()).map(|_| None).collect() }
    }

    /// Further stations at the end of one run; `None` where it ends in a box or at a door.
    pub fn stations(&mut self, run: usize) -> Option<usize> {
        let context = self.context;
        let site = context.site;
        let RunStop::Station(last) = site.runs[run].sections.last()?.to else { return None };
        if !matches!(site.stations[last].owner, StationOwner::Dwelling { .. }) {
            return None;
        }
        let start = context.layout.run_start[run]?;
        let end = context.layout.run_end[run]?;
        let most = self.counts(run, last)?;
        let mut states = Vec::new();
        let stage = &context.layout.stages[start.stage];
        let range = start.node..stage.subtree_end[start.node] as usize;
        let worst_device = context
            .worst
            .devices
            .iter()
            .filter(|device| device.at.stage == start.stage && range.contains(&device.at.node))
            .min_by(|a, b| a.worst().margin_v().total_cmp(&b.worst().margin_v()))?;
        states.push((worst_device.worst().phase, worst_device.worst().set.clone()));
        if let Some(current) = &context.worst.run_current[run] {
            states.push((current.phase, current.set.clone()));
        }
        let (mut low, mut high) = (0, most);
        while low < high {
            let middle = (low + high).div_ceil(2);
            if states.iter().all(|(phase, set)| self.holds(run, start, end, last, middle, *phase, set)) {
                low = middle;
            } else {
                high = middle - 1;
            }
        }
        Some(low)
    }

    /// As many as the datasheet counts allow.
    fn counts(&self, run: usize, last: usize) -> Option<usize> {
        let site = self.context.site;
        let family = site.family();
        let on_port = self.context.topology.stations_beyond[run].len();
        let mut most = 99;
        if let Some(limit) = &family.stations_per_port {
            most = most.min((limit.value as usize).saturating_sub(on_port));
        }
        let start = self.context.layout.run_start[run]?;
        let per_supply = site.station_model(&site.stations[last]).most_per_supply.as_ref();
        let count = supply_counts(self.context).into_iter().find(|count| count.stage == start.stage);
        if let (Some(limit), Some(count)) = (per_supply, count) {
            let room = (1.0 - count.share).max(0.0) * f64::from(limit.value);
            most = most.min((room + 1e-9) as usize);
        }
        Some(most)
    }

    #[expect(clippy::too_many_arguments, reason = "one question, asked in one place")]
    fn holds(
        &mut self,
        run: usize,
        start: NodeRef,
        end: NodeRef,
        last: usize,
        added: usize,
        phase_index: usize,
        set: &[usize],
    ) -> bool {
        let context = self.context;
        let site = context.site;
        let phase = &context.space.phases[phase_index];
        let solver = self.solvers[phase_index].get_or_insert_with(|| Solver::new(context.layout, phase));
        let activity = phase.base_activity[last];
        let one = station_demand(site, &site.stations[last], activity, true, Corner::Adverse);
        if solver.solve_set_with(end, one.times(added as f64), set) != SetOutcome::Solved {
            return false;
        }
        if let Some(limit_a) = port_limit(context, run)
            && solver.segment_current_a(start.stage, start.node) > limit_a
        {
            return false;
        }
        let stage = &context.layout.stages[start.stage];
        if let latchline_network::StageSource::Supply(supply) = stage.source {
            let rated = site.supply_model(&site.supplies[supply]).rated_current.value.as_amps();
            if solver.segment_current_a(start.stage, 0) > rated {
                return false;
            }
        }
        let voltage = &solver.solution(start.stage).voltage_v;
        stage.terminal.iter().zip(voltage).all(|(terminal, voltage)| {
            let limit = match *terminal {
                Terminal::Station(station) => {
                    let model = site.station_model(&site.stations[station]);
                    let busy = set.iter().any(|option| {
                        phase.options[*option]
                            .busy
                            .iter()
                            .any(|(index, activity)| *index == station && *activity != Activity::Standby)
                    });
                    if busy || phase.base_activity[station].is_in_use() {
                        model.least_voltage.value.as_volts()
                    } else {
                        model.least_standby_voltage.value.as_volts()
                    }
                }
                Terminal::BoxInput(index) => {
                    let least = site.box_model(&site.boxes[index]).least_voltage.as_ref();
                    least.map_or(0.0, |least| least.value.as_volts())
                }
                _ => return true,
            };
            *voltage >= limit
        })
    }
}
