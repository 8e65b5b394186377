//! Bounds on what any admissible set of calls can do to a stage.
//!
//! In the adverse corner every load draws `i(v) = P/(v - Vd) + I`, convex and falling in `v`
//! (resistive loads have been replaced by constant currents above them, see [`crate::phase`]). For
//! one stage write `v = V0 - R i(v)`, with the transfer resistances `R >= 0`.
//!
//! **Hypotheses.** `h` is at or above the voltages of every admissible set; `u` is at or below them.
//! On `[u, h]` the base load of node `n` lies below its chord `b_n + s_n v`, `s_n <= 0`; what a call
//! option adds there is at most `d_n`, its value at whichever end of `[u, h]` is larger, part by part.
//!
//! **Bound.** For a set `S`, `i_S(v) <= b + s v + sum of d`, hence
//! `(1 + R s) v_S >= V0 - R (b + sum of d)`. If all pivots of the elimination with slopes `s` are
//! positive, `(1 + R s)^-1 R >= 0`, so
//!
//! ```text
//! v_S(t) >= v_chord(t) - sum over options c in S of  sum over n of Z(t, n) d_c(n)
//! ```
//!
//! with `Z = (1 + R s)^-1 R`, symmetric, one linear sweep for each target `t`. The right side is
//! *additive over calls*: the worst admissible set is bounded by the largest additive weights, and
//! a branch of the search is pruned when even those cannot beat what is already solved. The same
//! sweep bounds the current through a segment from above.
//!
//! **Certificate for `u`.** Let `F(u)` be the bound above for the worst admissible set, node by node. If
//! `F(u) >= u`, then for every admissible set the map `v -> V0 - R i_S(v)`, started at `V0`, falls but
//! never below `u` (induction: `v >= u` gives `i_S(v) <= b + s v + d` there), so each set has a solution and all are at
//! or above `u`. [`StageBound::new`] iterates until that inequality holds, and reports that it has no bound
//! if it does not come to hold ([`StageBound::certified`]).

use crate::evaluate::{ENCLOSURE_V, Solver};
use crate::layout::Layout;
use crate::phase::Phase;
use crate::relaxed_sum::RelaxedSum;
use crate::stage_calls::StageCalls;

/// How much `F(u)` must exceed `u`, in volts. Roundings are not counted here as they are in the flow; this is
/// a hundred times what two sweeps over a few thousand nodes can lose (some 1e-11 V).
const SLACK_V: f64 = 1e-9;

/// What a call option adds at a node of a stage, directly or through a converter.
#[derive(Debug, Clone, Copy)]
struct OptionTouch {
    /// Position in the list of options.
    option: usize,
    node: usize,
    kind: TouchKind,
    /// Upper bound of the added current in amperes, on `[u, h]`.
    added_a: f64,
}

#[derive(Debug, Clone, Copy)]
enum TouchKind {
    /// A change of load on this stage.
    Direct { power_w: f64, current_a: f64 },
    /// At most this much more power drawn by a converter's input.
    Through { power_w: f64 },
}

/// Bounds for one stage of a phase.
pub struct StageBound {
    /// Upper voltages `h`.
    highest_v: Vec<f64>,
    /// Lower voltages `u`, certified.
    lowest_v: Vec<f64>,
    slope_s: Vec<f64>,
    inverse_pivot: Vec<f64>,
    chord_v: Vec<f64>,
    /// Current of the source with chord loads and no calls.
    chord_source_a: f64,
    aggregate_slope_s: Vec<f64>,
    aggregate_current_a: Vec<f64>,
    touches: Vec<OptionTouch>,
    /// Whether every option adds current wherever it touches, so that more calls are never better.
    pub monotone: bool,
    /// Whether the certificate for `u` was found. Without it the weights only tell a good order.
    pub certified: bool,
    source_voltage_v: f64,
}

/// What a search wants to make as bad as it can.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Functional {
    /// The voltage of a node, downwards.
    Voltage(usize),
    /// The current through the segment that leads to a node, upwards.
    Current(usize),
}

/// The additive bound for one target.
pub struct Weights {
    /// Value of the functional with chord loads and no calls (volts or amperes).
    pub base: f64,
    /// How much each option can worsen it, by position in the list of options; zero for those that do not touch the stage.
    pub weight: Vec<f64>,
}

impl StageBound {
    /// Bounds of a stage for the options in `calls`, those of the stages that draw from it being known (`None` where they are
    /// not). `None` if the state without calls has no operating point.
    pub fn new(
        layout: &Layout,
        phase: &Phase,
        solver: &Solver<'_>,
        bounds: &[Option<StageBound>],
        stage: usize,
        calls: &StageCalls,
    ) -> Option<StageBound> {
        let base = solver.base(stage)?;
        let source_voltage_v = phase.voltage_v[stage]?;
        let nodes = layout.stages[stage].parent.len();
        let mut touches = Vec::new();
        for (option, index) in calls.options.iter().enumerate() {
            for touch in phase.touches[*index].iter().filter(|touch| touch.at.stage == stage) {
                let kind =
                    TouchKind::Direct { power_w: touch.change.power_w, current_a: touch.change.current_a };
                touches.push(OptionTouch { option, node: touch.at.node, kind, added_a: 0.0 });
            }
        }
        let mut through_w = vec![0.0; nodes];
        let mut certified = true;
        for converter in &layout.stages[stage].converters {
            let below = bounds[converter.stage].as_ref()?;
            certified &= below.certified;
            let per_ampere = phase.output_v[converter.stage] / converter.efficiency;
            through_w[converter.node] += per_ampere * below.chord_source_a;
            let weights = below.weights(layout, phase, converter.stage, Functional::Current(0), calls);
            for (option, weight) in weights.weight.iter().enumerate().filter(|(_, weight)| **weight != 0.0) {
                let kind = TouchKind::Through { power_w: per_ampere * weight };
                touches.push(OptionTouch { option, node: converter.node, kind, added_a: 0.0 });
            }
        }
        let mut bound = StageBound {
            highest_v: base.voltage_v.iter().map(|voltage| voltage + ENCLOSURE_V).collect(),
            lowest_v: base.voltage_v.clone(),
            slope_s: vec![0.0; nodes],
            inverse_pivot: vec![0.0; nodes],
            chord_v: vec![0.0; nodes],
            chord_source_a: 0.0,
            aggregate_slope_s: vec![0.0; nodes],
            aggregate_current_a: vec![0.0; nodes],
            touches,
            monotone: true,
            certified: true,
            source_voltage_v,
        };
        if bound.touches.iter().any(|touch| match touch.kind {
            TouchKind::Direct { power_w, current_a } => power_w < 0.0 || current_a < 0.0,
            TouchKind::Through { .. } => false,
        }) {
            bound.monotone = false;
            bound.highest_v.fill(source_voltage_v);
        }
        bound.certified = bound.certify(layout, phase, stage, &through_w, calls) && certified;
        if !bound.certified {
            // Tangents at the state without calls: an order to try sets in, no bound.
            bound.lowest_v.clone_from(&base.voltage_v);
            bound.highest_v.clone_from(&base.voltage_v);
            bound.linearise(layout, phase, stage, &through_w);
        }
        Some(bound)
    }

    /// Looks for `u` with `F(u) >= u`.
    fn certify(
        &mut self,
        layout: &Layout,
        phase: &Phase,
        stage: usize,
        through_w: &[f64],
        calls: &StageCalls,
    ) -> bool {
        const STEPS: usize = 24;
        if self.touches.is_empty() {
            // Nothing can lower the base state but the converters' own bound.
            self.nudge(1e-6);
        }
        let mut refined = false;
        let mut previous_step = f64::INFINITY;
        let mut previous_ratio = 0.0;
        for _ in 0..STEPS {
            if !self.linearise(layout, phase, stage, through_w) {
                return false;
            }
            let worst = self.worst_of_all(layout, phase, stage, calls);
            let pairs = || worst.iter().zip(&self.lowest_v).filter(|(bound, _)| bound.is_finite());
            let certified = pairs().all(|(bound, lowest)| *bound >= *lowest + SLACK_V);
            if certified && refined {
                return true;
            }
            // The iterates converge like a geometric series, slowly near collapse. Its sum is guessed from
            // the ratio of the last two steps, and a little more is taken, so that F(u) >= u comes to hold.
            let step = pairs().map(|(bound, lowest)| lowest - bound).fold(0.0, f64::max);
            let ratio = if previous_step.is_finite() { (step / previous_step).clamp(0.0, 0.95) } else { 0.2 };
            let larger = ratio.max(previous_ratio);
            let beyond = 1.2 * larger / (1.0 - larger) + 0.05;
            (previous_step, previous_ratio) = (step, ratio);
            for (lowest, bound) in self.lowest_v.iter_mut().zip(&worst).filter(|(_, bound)| bound.is_finite())
            {
                // Once certified, F(u) is a better u, and certified too.
                let target = if certified { *bound } else { bound - beyond * (*lowest - bound).max(0.0) };
                *lowest = target - 1e-7;
            }
            refined = certified;
            let in_domain = self
                .lowest_v
                .iter()
                .zip(&phase.base[stage].drop_v)
                .all(|(lowest, drop)| *lowest > *drop + 1e-3 && lowest.is_finite());
            if !in_domain {
                return false;
            }
        }
        false
    }

    fn nudge(&mut self, by_v: f64) {
        for lowest in &mut self.lowest_v {
            *lowest -= by_v;
        }
    }

    /// Chords, elimination and what the options add, for the present `u` and `h`.
    fn linearise(&mut self, layout: &Layout, phase: &Phase, stage: usize, through_w: &[f64]) -> bool {
        let tree = &phase.trees[stage];
        let (parent, resistance) = (tree.parents(), tree.resistances_ohm());
        let source_ohm = layout.stages[stage].resistance_ohm[phase.corner.index()][0];
        let loads = &phase.base[stage];
        let nodes = parent.len();
        self.aggregate_current_a.fill(0.0);
        self.aggregate_slope_s.fill(0.0);
        let mut fine = true;
        for node in (0..nodes).rev() {
            let (low, high, drop) = (self.lowest_v[node], self.highest_v[node], loads.drop_v[node]);
            let power = loads.power_w[node] + through_w[node];
            let at_high = if power == 0.0 { 0.0 } else { power / (high - drop) };
            // Slope of the chord of P/x between two points is -P/(x1 x2).
            let slope = if power == 0.0 { 0.0 } else { -power / ((high - drop) * (low - drop)) };
            let constant = loads.current_a[node] + at_high - slope * high;
            self.slope_s[node] = slope;
            let aggregate = self.aggregate_slope_s[node] + slope;
            let current = self.aggregate_current_a[node] + constant;
            let ohm = if node == 0 { source_ohm } else { resistance[node] };
            let pivot = 1.0 + ohm * aggregate;
            fine &= pivot > 0.0;
            let inverse = 1.0 / pivot;
            self.inverse_pivot[node] = inverse;
            self.aggregate_slope_s[node] = aggregate;
            self.aggregate_current_a[node] = current;
            if node > 0 {
                let up = parent[node] as usize;
                self.aggregate_slope_s[up] += aggregate * inverse;
                self.aggregate_current_a[up] += current * inverse;
            }
        }
        for node in 0..nodes {
            let (above, ohm) = if node == 0 {
                (self.source_voltage_v, source_ohm)
            } else {
                (self.chord_v[parent[node] as usize], resistance[node])
            };
            self.chord_v[node] = (above - ohm * self.aggregate_current_a[node]) * self.inverse_pivot[node];
        }
        self.chord_source_a = (self.aggregate_slope_s[0] * self.source_voltage_v
            + self.aggregate_current_a[0])
            * self.inverse_pivot[0];
        for touch in &mut self.touches {
            let (low, high) = (self.lowest_v[touch.node], self.highest_v[touch.node]);
            let drop = loads.drop_v[touch.node];
            let (power, current) = match touch.kind {
                TouchKind::Direct { power_w, current_a } => (power_w, current_a),
                TouchKind::Through { power_w } => (power_w, 0.0),
            };
            let at = if power >= 0.0 { low } else { high };
            touch.added_a = current + if power == 0.0 { 0.0 } else { power / (at - drop) };
        }
        fine
    }

    /// The bound of every node's voltage for the worst admissible set.
    fn worst_of_all(&self, layout: &Layout, phase: &Phase, stage: usize, calls: &StageCalls) -> Vec<f64> {
        let mut adjoint = vec![0.0; self.chord_v.len()];
        let mut weight = vec![0.0; calls.options.len()];
        let mut relaxed = RelaxedSum::new(phase, calls);
        let busy: Vec<bool> = {
            let loads = &phase.base[stage];
            let mut busy: Vec<bool> = (0..self.chord_v.len())
                .map(|node| loads.power_w[node] != 0.0 || loads.current_a[node] != 0.0)
                .collect();
            for touch in &self.touches {
                busy[touch.node] = true;
            }
            for converter in &layout.stages[stage].converters {
                busy[converter.node] = true;
            }
            busy
        };
        (0..self.chord_v.len())
            .map(|target| {
                if !busy[target] {
                    // Nothing is drawn here, so its lower end is never used.
                    return f64::INFINITY;
                }
                self.adjoint_of_voltage(layout, phase, stage, target, &mut adjoint);
                weight.fill(0.0);
                for touch in &self.touches {
                    weight[touch.option] += adjoint[touch.node] * touch.added_a;
                }
                self.chord_v[target] - relaxed.of(phase.most_calls, &weight)
            })
            .collect()
    }

    /// `Z(target, n)` for every node `n`, in ohms.
    fn adjoint_of_voltage(
        &self,
        layout: &Layout,
        phase: &Phase,
        stage: usize,
        target: usize,
        into: &mut [f64],
    ) {
        let tree = &phase.trees[stage];
        let (parent, resistance) = (tree.parents(), tree.resistances_ohm());
        let source_ohm = layout.stages[stage].resistance_ohm[phase.corner.index()][0];
        // A unit current drawn at the target, carried up its path only.
        into.fill(0.0);
        let mut node = target;
        let mut drawn = 1.0;
        loop {
            into[node] = drawn;
            drawn *= self.inverse_pivot[node];
            if node == 0 {
                break;
            }
            node = parent[node] as usize;
        }
        into[0] *= source_ohm * self.inverse_pivot[0];
        for node in 1..parent.len() {
            let above = into[parent[node] as usize];
            into[node] = (above + resistance[node] * into[node]) * self.inverse_pivot[node];
        }
    }

    /// The additive bound of one target.
    pub fn weights(
        &self,
        layout: &Layout,
        phase: &Phase,
        stage: usize,
        functional: Functional,
        calls: &StageCalls,
    ) -> Weights {
        let mut adjoint = vec![0.0; self.chord_v.len()];
        let base = match functional {
            Functional::Voltage(target) => {
                self.adjoint_of_voltage(layout, phase, stage, target, &mut adjoint);
                self.chord_v[target]
            }
            Functional::Current(target) => {
                self.adjoint_of_current(layout, phase, stage, target, &mut adjoint)
            }
        };
        let mut weight = vec![0.0; calls.options.len()];
        for touch in &self.touches {
            weight[touch.option] += adjoint[touch.node] * touch.added_a;
        }
        Weights { base, weight }
    }

    /// How much the chord current into the segment above `target` grows with a current drawn at each
    /// node; returns that current without calls.
    fn adjoint_of_current(
        &self,
        layout: &Layout,
        phase: &Phase,
        stage: usize,
        target: usize,
        into: &mut [f64],
    ) -> f64 {
        let parent = phase.trees[stage].parents();
        let slope = self.aggregate_slope_s[target] * self.inverse_pivot[target];
        let constant = self.aggregate_current_a[target] * self.inverse_pivot[target];
        let above_v = if target == 0 {
            into.fill(0.0);
            self.source_voltage_v
        } else {
            let above = parent[target] as usize;
            // The current is slope * v(above) + constant; v(above) falls by Z(above, n).
            self.adjoint_of_voltage(layout, phase, stage, above, into);
            for value in into.iter_mut() {
                *value *= -slope;
            }
            self.chord_v[above]
        };
        let end = layout.stages[stage].subtree_end[target] as usize;
        let mut share = vec![0.0; end - target];
        share[0] = self.inverse_pivot[target];
        into[target] += share[0];
        for node in target + 1..end {
            share[node - target] = share[parent[node] as usize - target] * self.inverse_pivot[node];
            into[node] += share[node - target];
        }
        slope * above_v + constant
    }
}
