//! What meters show with a fault: values, and how each depends on what is uncertain.

use crate::effect::Effect;
use crate::evidence::Taken;
use crate::plant::{Plant, StateLoads};
use crate::quantity::{Legs, Quantity};
use crate::stage::{Fed, Reducible, StageSolved, solve_stage};
use latchline_circuit::flow::{Sensitivities, Workspace};
use latchline_network::readings::ReadingPlace;
use latchline_network::{BusState, NodeRef, StageNode, StageSource};
use std::sync::Arc;

/// One operating state of the drawn site, ready for faults.
pub struct State<'p, 'a> {
    plant: &'p Plant<'a>,
    /// Which state.
    pub state: BusState,
    loads: StateLoads,
    sound: Vec<Arc<StageSolved>>,
    /// Of every stage, where it may be reduced to what a fault changes.
    reducible: Vec<Option<Reducible>>,
}

/// A state with a fault.
pub(crate) struct Faulted<'s, 'p, 'a> {
    state: &'s State<'p, 'a>,
    stages: Vec<Arc<StageSolved>>,
}

impl<'p, 'a> State<'p, 'a> {
    /// Solves the drawn site in a state; `None` where the state cannot occur.
    pub fn new(plant: &'p Plant<'a>, state: &BusState) -> Option<Self> {
        let loads = StateLoads::new(plant, state)?;
        let mut made = State { plant, state: state.clone(), loads, sound: Vec::new(), reducible: Vec::new() };
        made.sound = made.solve(&[], false, &mut Workspace::new());
        let of = |index: usize| {
            let input_a = |stage: usize| made.sound[stage].current_a[0];
            Reducible::new(plant, index, &made.sound[index], &made.converters_w(index, &input_a))
        };
        made.reducible = (0..made.sound.len()).map(of).collect();
        Some(made)
    }

    /// The state with a fault, for its values.
    pub(crate) fn with(&self, effects: &[Effect], workspace: &mut Workspace) -> Faulted<'_, 'p, 'a> {
        Faulted { state: self, stages: self.solve(effects, true, workspace) }
    }

    /// The state with a fault, every stage solved whole: for [`Faulted::row`] as well.
    pub(crate) fn with_derivatives(
        &self,
        effects: &[Effect],
        workspace: &mut Workspace,
    ) -> Faulted<'_, 'p, 'a> {
        Faulted { state: self, stages: self.solve(effects, false, workspace) }
    }

    /// The state without a fault.
    pub(crate) fn as_drawn(&self) -> Faulted<'_, 'p, 'a> {
        Faulted { state: self, stages: self.sound.clone() }
    }

    fn solve(
        &self,
        effects: &[Effect],
        may_reduce: bool,
        workspace: &mut Workspace,
    ) -> Vec<Arc<StageSolved>> {
        let stages = &self.plant.layout.stages;
        let mut has_power = vec![true; stages.len()];
        // A converter without input feeds nothing, which is known only when the stage above is solved: at most one round
        // for each stage that goes out.
        for _ in 0..=stages.len() {
            let solved = self.solve_powered(effects, &has_power, may_reduce, workspace);
            let mut changed = false;
            for (above, stage) in stages.iter().enumerate() {
                for converter in &stage.converters {
                    let input_v = solved[above].voltage_v[converter.node].abs();
                    let is_out = solved[above].is_dead
                        || solved[above].cut[converter.node]
                        || solved[above].off[converter.node]
                        || input_v < self.plant.cut_off_v[above][converter.node];
                    if is_out && has_power[converter.stage] {
                        has_power[converter.stage] = false;
                        changed = true;
                    }
                }
            }
            if !changed {
                return solved;
            }
        }
        self.solve_powered(effects, &has_power, may_reduce, workspace)
    }

    /// What every converter of a stage draws, of the current into the stage that it feeds.
    fn converters_w(&self, index: usize, input_a: &dyn Fn(usize) -> f64) -> Vec<f64> {
        let converters = &self.plant.layout.stages[index].converters;
        let watt = |converter: &latchline_network::layout::Converter| {
            self.loads.output_v[converter.stage] * input_a(converter.stage) / converter.efficiency
        };
        converters.iter().map(watt).collect()
    }

    fn solve_powered(
        &self,
        effects: &[Effect],
        has_power: &[bool],
        may_reduce: bool,
        workspace: &mut Workspace,
    ) -> Vec<Arc<StageSolved>> {
        let stages = &self.plant.layout.stages;
        let mut solved: Vec<Option<Arc<StageSolved>>> = vec![None; stages.len()];
        let mut is_changed = vec![false; stages.len()];
        for index in (0..stages.len()).rev() {
            let below = &stages[index].converters;
            is_changed[index] = !has_power[index]
                || self.sound.is_empty()
                || below.iter().any(|converter| is_changed[converter.stage])
                || effects.iter().any(|effect| effect.touches(index, &self.plant.run_stage));
            if !is_changed[index] {
                solved[index] = Some(Arc::clone(&self.sound[index]));
                continue;
            }
            let input_a = |stage: usize| solved[stage].as_ref().map_or(0.0, |below| below.current_a[0]);
            let fed = Fed {
                index,
                converters_w: &self.converters_w(index, &input_a),
                has_power: has_power[index],
                reducible: self.reducible.get(index).and_then(Option::as_ref).filter(|_| may_reduce),
            };
            solved[index] = Some(Arc::new(solve_stage(self.plant, &self.loads, &fed, effects, workspace)));
        }
        solved.into_iter().flatten().collect()
    }
}

/// A prediction: its value, and its share of every factor.
#[derive(Debug, Clone)]
pub(crate) struct Predicted {
    /// On the scale on which it is compared.
    pub value: f64,
    /// Deviation of its own: an unsettled state, or what is not one of the factors.
    pub own: f64,
    /// How far a voltage moves while devices try to start; `value` is its middle.
    pub range: f64,
}

/// How far the lowest of a moving voltage that a meter holds may lie from the bottom of its range, as a share of the range (assumed).
const HELD: f64 = 0.15;

/// Behind a limit a device that has at least this share of its cut-off voltage starts now and then (assumed).
const NEAR_CUT_OFF: f64 = 0.5;

impl Predicted {
    /// What is read off in this way: of a voltage that moves the middle, something of the range, or the bottom.
    pub fn taken(self, taken: Taken) -> Predicted {
        let spread = self.range / 12.0_f64.sqrt();
        match taken {
            Taken::Settled => self,
            Taken::Displayed => Predicted { own: self.own.hypot(spread), ..self },
            Taken::Least => {
                let rest = (self.own * self.own - spread * spread).max(0.0).sqrt();
                let value = self.value - 0.5 * self.range;
                Predicted { value, own: rest.hypot(HELD * self.range), range: 0.0 }
            }
        }
    }
}

impl Faulted<'_, '_, '_> {
    /// Voltage of a place, 0 where it has no power.
    pub fn voltage(&self, at: NodeRef) -> f64 {
        self.stages[at.stage].voltage_v[at.node]
    }

    /// Whether the device at a place is off, by its cut-off voltage or by a limit.
    pub fn is_off(&self, at: NodeRef) -> bool {
        let stage = &self.stages[at.stage];
        stage.off[at.node] || stage.limited[at.node]
    }

    /// Whether the device at a place is off and tries to start again and again: below its cut-off voltage with others, or behind a limit that lets
    /// it have that much, or power for a moment. Behind a limit that holds the voltage down it is dark.
    pub fn tries_to_start(&self, at: NodeRef) -> bool {
        let stage = &self.stages[at.stage];
        let cut_off_v = self.state.plant.cut_off_v[at.stage][at.node];
        match stage.limited[at.node] {
            true => stage.pulses[at.node] || self.voltage(at).abs() >= NEAR_CUT_OFF * cut_off_v,
            false => stage.off[at.node],
        }
    }

    /// Joins to a code for every stage whether it is as the flow alone has it, unsettled or dead.
    pub fn regime(&self, code: u64) -> u64 {
        let of = |stage: &StageSolved| match (stage.is_dead, stage.is_unsettled) {
            (true, _) => 3,
            (false, true) => 2,
            (false, false) => 1,
        };
        self.stages.iter().fold(code, |code, stage| code.wrapping_mul(31).wrapping_add(of(stage)))
    }

    /// A live reading; `None` where the place has no node.
    pub fn read(&self, quantity: &Quantity) -> Option<Predicted> {
        let plant = self.state.plant;
        match quantity {
            Quantity::Voltage { at, .. } => {
                let at = voltage_node(plant, *at)?;
                let stage = &self.stages[at.stage];
                let range = stage.range_v[at.node];
                Some(Predicted { value: self.voltage(at), own: stage.own_v[at.node], range })
            }
            Quantity::Drop { from, to, legs, .. } => {
                let (from, to) = (voltage_node(plant, *from)?, voltage_node(plant, *to)?);
                let lost = |of: &Self| of.voltage(from) - of.voltage(to);
                let (mut value, mut on_one_leg) = (lost(self), 0.0);
                if *legs == Legs::One {
                    // What is lost beyond the plan may be lost on this leg or on the other.
                    on_one_leg = 0.5 * (value - lost(&self.state.as_drawn())).abs();
                    value *= 0.5;
                }
                let of = |at: NodeRef| self.stages[at.stage].own_v[at.node];
                let own = of(from).max(of(to)).hypot(on_one_leg);
                // A lead on what hangs in the air reads nothing certain.
                let floats = self.stages[to.stage].cut[to.node] != self.stages[from.stage].cut[from.node];
                Some(Predicted { value, own: if floats { own.max(5.0) } else { own }, range: 0.0 })
            }
            Quantity::Current { at, .. } => {
                let at = node(plant, *at)?;
                let stage = &self.stages[at.stage];
                Some(Predicted { value: stage.current_a[at.node], own: stage.own_a[at.node], range: 0.0 })
            }
            _ => None,
        }
    }

    /// How a live reading depends on every factor, one deviation of the factor each.
    pub fn row(&self, quantity: &Quantity) -> Vec<f64> {
        let plant = self.state.plant;
        let mut row = vec![0.0; plant.factors];
        match quantity {
            Quantity::Voltage { at, .. } => {
                if let Some(at) = voltage_node(plant, *at) {
                    self.add_voltage_row(at, 1.0, &mut row);
                }
            }
            Quantity::Drop { from, to, legs, .. } => {
                let share = if *legs == Legs::One { 0.5 } else { 1.0 };
                if let (Some(from), Some(to)) = (voltage_node(plant, *from), voltage_node(plant, *to)) {
                    self.add_voltage_row(from, share, &mut row);
                    self.add_voltage_row(to, -share, &mut row);
                }
            }
            Quantity::Current { at, .. } => {
                if let Some(at) = node(plant, *at) {
                    self.add_current_row(at, 1.0, &mut row);
                }
            }
            _ => {}
        }
        row
    }

    fn add_voltage_row(&self, at: NodeRef, weight: f64, row: &mut [f64]) {
        let stage = &self.stages[at.stage];
        if let Some((found, map)) = stage.voltage_sensitivities(at.node) {
            let sign = if stage.voltage_v[at.node] < 0.0 { -1.0 } else { 1.0 };
            self.add_row(at.stage, &found, map, weight * sign, row);
        }
    }

    fn add_current_row(&self, at: NodeRef, weight: f64, row: &mut [f64]) {
        if let Some((found, map)) = self.stages[at.stage].current_sensitivities(at.node) {
            self.add_row(at.stage, &found, map, weight, row);
        }
    }

    fn add_row(&self, index: usize, found: &Sensitivities, map: &[usize], weight: f64, row: &mut [f64]) {
        let plant = self.state.plant;
        let stage = &self.stages[index];
        let (factor, deviation) = plant.source[index];
        row[factor] += weight * found.per_supply_voltage * stage.source_v() * deviation;
        for (node, place) in map.iter().enumerate() {
            if let Some(parts) = &plant.segments[index][node] {
                let per_ohm = weight * found.per_resistance_v_per_ohm[*place];
                for (factor, deviation) in &parts.copper {
                    row[*factor] += per_ohm * parts.copper_ohm * stage.copper_times(node) * deviation;
                }
                if let Some(factor) = parts.terminal {
                    row[factor] += per_ohm * parts.terminal_ohm;
                }
            }
            if plant.loads[index][node].is_empty() {
                continue;
            }
            let (power, current, conductance) = stage.load(node);
            let per_load = weight
                * (found.per_power_v_per_w[*place] * power
                    + found.per_current_v_per_a[*place] * current
                    + found.per_conductance_v_per_s[*place] * conductance);
            for (factor, deviation) in &plant.loads[index][node] {
                row[*factor] += per_load * deviation;
            }
        }
        for converter in &plant.layout.stages[index].converters {
            let watt_per_a = self.state.loads.output_v[converter.stage] / converter.efficiency;
            let per_w = weight * found.per_power_v_per_w[map[converter.node]];
            if per_w != 0.0 {
                let input = NodeRef { stage: converter.stage, node: 0 };
                self.add_current_row(input, per_w * watt_per_a, row);
            }
        }
    }
}

/// The node of a place at which a voltage is read: of a run the terminals that it starts from.
pub(crate) fn voltage_node(plant: &Plant<'_>, place: ReadingPlace) -> Option<NodeRef> {
    let at = node(plant, place)?;
    match place {
        ReadingPlace::Run(_) => {
            Some(NodeRef { stage: at.stage, node: plant.layout.stage(at).parent[at.node] as usize })
        }
        _ => Some(at),
    }
}

/// A node as a place of a reading.
pub(crate) fn place_of(source: StageSource, node: StageNode) -> ReadingPlace {
    match node {
        StageNode::Source => match source {
            StageSource::Supply(supply) => ReadingPlace::Supply(supply),
            StageSource::Regenerator(index) => ReadingPlace::BoxOutput(index),
        },
        StageNode::BoxInput(index) => ReadingPlace::BoxInput(index),
        StageNode::Port { box_index, port } => ReadingPlace::Port { box_index, port },
        StageNode::BoxLink(index) => ReadingPlace::BoxLink(index),
        StageNode::Station(station) => ReadingPlace::Station(station),
    }
}

/// The node of a place.
pub(crate) fn node(plant: &Plant<'_>, place: ReadingPlace) -> Option<NodeRef> {
    let layout = plant.layout;
    let root =
        |source: StageSource| plant.stage_of.get(&source).map(|stage| NodeRef { stage: *stage, node: 0 });
    let terminal = |wanted: StageNode| plant.node_of.get(&wanted).copied();
    match place {
        ReadingPlace::Supply(index) => root(StageSource::Supply(index)),
        ReadingPlace::BoxOutput(index) => root(StageSource::Regenerator(index)),
        ReadingPlace::BoxInput(index) => layout.box_input.get(index).copied().flatten(),
        ReadingPlace::BoxLink(index) => terminal(StageNode::BoxLink(index)),
        ReadingPlace::Port { box_index, port } => terminal(StageNode::Port { box_index, port }),
        ReadingPlace::Station(index) => layout.station.get(index).copied().flatten(),
        ReadingPlace::Run(index) => layout.run_start.get(index).copied().flatten(),
    }
}
