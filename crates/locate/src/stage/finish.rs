//! What was solved of a stage with a fault, told node by node of its layout.

use super::draft::{Draft, Values};
use super::solved::{Problem, StageSolved};
use crate::plant::Plant;
use latchline_circuit::flow::{Source, Tree};
use latchline_site::catalogue::LimitKind;

impl Draft {
    pub(super) fn finish(
        self,
        plant: &Plant<'_>,
        index: usize,
        tree: Tree,
        source: Source,
        off: &Values,
        hanging: Option<&Values>,
    ) -> StageSolved {
        let nodes = plant.layout.stages[index].parent.len();
        let mut limit: Vec<Option<LimitKind>> = vec![None; self.of.len()];
        for &(node, _, kind) in &self.limited {
            limit[node] = Some(kind);
        }
        for node in 1..limit.len() {
            limit[node] = limit[node].or(limit[self.parent[node] as usize]);
        }
        let is_whole = self.parts.is_empty();
        let mut node_of = vec![0; if is_whole { nodes } else { 0 }];
        for (place, of) in self.of.iter().enumerate() {
            if let Some(of) = of.filter(|_| is_whole) {
                node_of[of] = place;
            }
        }
        // The first node of the problem on the segment that leads to a place.
        let first_of = |place: usize| {
            let mut up = place;
            while up > 0 && self.of[self.parent[up] as usize].is_none() {
                up = self.parent[up] as usize;
            }
            up
        };
        let hanging = hanging.unwrap_or(off);
        let is_any_limited = !self.limited.is_empty();
        let mut solved = StageSolved::dead(nodes);
        for (place, of) in self.of.iter().enumerate() {
            let Some(of) = *of else { continue };
            solved.cut[of] = self.cut[place];
            solved.off[of] = self.off[place];
            solved.limited[of] = limit[place].is_some();
            solved.pulses[of] = limit[place] == Some(LimitKind::Hiccup);
            // A meter shows something between the device being off and its trying to start.
            let (high_v, low_v) = (off.voltage_v[place], hanging.voltage_v[place]);
            let (high_a, low_a) = (hanging.current_a[first_of(place)], off.current_a[first_of(place)]);
            let (middle_v, middle_a) = (0.5 * (high_v + low_v), 0.5 * (high_a + low_a));
            solved.range_v[of] = (high_v - low_v).abs();
            let mut own_v = solved.range_v[of] / 12.0_f64.sqrt();
            let mut own_a = (high_a - low_a).abs() / 12.0_f64.sqrt();
            match limit[place] {
                Some(kind) => {
                    let (share, floor) = roughness(kind);
                    own_v = own_v.hypot(share * middle_v + floor * source.voltage_v);
                    own_a = own_a.hypot(0.3 * middle_a.abs() + 0.1);
                }
                None if is_any_limited => {
                    own_v = own_v.hypot(0.01 * source.voltage_v);
                    own_a = own_a.hypot(0.1 * middle_a.abs() + 0.02);
                }
                None => {}
            }
            if !self.cut[place] {
                solved.voltage_v[of] = middle_v;
                solved.own_v[of] = own_v;
            }
            solved.current_a[of] = middle_a;
            solved.own_a[of] = own_a;
        }
        let any_off = self.off.iter().zip(&self.cut).any(|(off, cut)| *off && !cut);
        solved.is_unsettled = any_off || is_any_limited;
        solved.is_dead = false;
        if is_whole {
            let voltage_v = off.voltage_v.clone();
            let first = node_of.iter().map(|place| first_of(*place)).collect();
            solved.problem =
                Some(Problem { tree, source, loads: self.loads, voltage_v, node: node_of, first });
        }
        solved
    }
}

/// How far what is predicted behind a source at its limit may be wrong: as a share of the voltage there, and of the source's (assumed).
fn roughness(kind: LimitKind) -> (f64, f64) {
    match kind {
        LimitKind::Trip => (0.0, 0.01),
        LimitKind::ConstantCurrent => (0.3, 0.02),
        // The meter shows the pulses' mean, if any.
        LimitKind::Foldback | LimitKind::Hiccup => (0.5, 0.06),
    }
}
