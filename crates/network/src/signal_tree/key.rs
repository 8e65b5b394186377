//! What one caller's signal in one band depends on, as a key.

use super::SignalNetwork;
use crate::memory::{Fingerprint, Key};
use latchline_circuit::signal::{CableModel, Entry, Line, LineLaw, LossPoint, PlainLine, Shunt};
use latchline_site::catalogue::{Media, SignalBand};
use latchline_site::model::Site;
use std::collections::BTreeMap;

/// The separate networks of a site, each as the beginning of a key, its nodes counted from 0.
pub(super) struct ComponentKeys {
    /// Number of each node within its own network.
    local: Vec<usize>,
    keys: BTreeMap<usize, Fingerprint>,
}

impl ComponentKeys {
    pub fn new(network: &SignalNetwork) -> Self {
        let mut nodes: BTreeMap<usize, usize> = BTreeMap::new();
        let mut local = Vec::with_capacity(network.component.len());
        for component in &network.component {
            let count = nodes.entry(*component).or_default();
            local.push(*count);
            *count += 1;
        }
        let mut keys: BTreeMap<usize, Fingerprint> = nodes
            .into_iter()
            .map(|(component, count)| {
                let mut key = Fingerprint::new();
                key.count(count);
                (component, key)
            })
            .collect();
        let lines: Vec<Key> = network.lines.iter().map(of_line).collect();
        for edge in &network.edges {
            let Some(key) = keys.get_mut(&network.component[edge.ends.0]) else { continue };
            key.count(local[edge.ends.0]).count(local[edge.ends.1]).number(edge.length_m);
            key.key(lines[edge.line]);
            add_entry(key, edge.entry.as_ref());
        }
        for (node, shunt) in &network.fixed {
            let Some(key) = keys.get_mut(&network.component[*node]) else { continue };
            key.count(local[*node]);
            add_shunt(key, shunt);
        }
        for (node, shunt) in network.station.iter().zip(&network.bridging) {
            if let (Some(node), Some(shunt)) = (*node, shunt)
                && let Some(key) = keys.get_mut(&network.component[node])
            {
                key.count(local[node]);
                add_shunt(key, shunt);
            }
        }
        ComponentKeys { local, keys }
    }

    /// The key of a call in a band; `None` for a caller on no network.
    pub fn of_call(
        &self,
        site: &Site,
        network: &SignalNetwork,
        caller: usize,
        targets: &[usize],
        band: &SignalBand,
    ) -> Option<Key> {
        let mut key = self.keys.get(&network.component[network.station[caller]?])?.clone();
        let SignalBand { low, high, budget, share, video_only, .. } = band;
        key.number(low.value.as_hertz()).number(high.value.as_hertz());
        key.number(budget.value.as_decibels()).number(share.value.as_fraction());
        key.count(usize::from(*video_only));
        key.count(targets.len());
        for &station in std::iter::once(&caller).chain(targets) {
            let model = site.station_model(&site.stations[station]);
            key.count(network.station[station].map_or(usize::MAX, |node| self.local[node]));
            key.count(usize::from(model.media.value == Media::Video));
            key.optional(model.signal_impedance.as_ref().map(|one| one.value.as_ohms()));
        }
        Some(key.finish())
    }
}

fn of_line(line: &Line) -> Key {
    let mut key = Fingerprint::new();
    key.number(line.resistance_factor()).count(line.pairs() as usize);
    match *line.law() {
        LineLaw::Plain(PlainLine {
            r_ohm_per_m,
            l_h_per_m,
            c_f_per_m,
            g_s_per_m,
            skin_corner_hz,
            loss_tangent,
        }) => {
            key.count(0).numbers(&[r_ohm_per_m, l_h_per_m, c_f_per_m, g_s_per_m, loss_tangent]);
            key.optional(skin_corner_hz);
        }
        LineLaw::Model(CableModel {
            r0_ohm_per_km,
            a,
            l0_h_per_km,
            l_infinite_h_per_km,
            b,
            fm_hz,
            c_infinite_f_per_km,
            c0_f_per_km,
            ce,
            g0_s_per_km,
            ge,
        }) => {
            key.count(1).numbers(&[r0_ohm_per_km, a, l0_h_per_km, l_infinite_h_per_km, b, fm_hz]);
            key.numbers(&[c_infinite_f_per_km, c0_f_per_km, ce, g0_s_per_km, ge]);
        }
    }
    key.finish()
}

fn add_entry(key: &mut Fingerprint, entry: Option<&Entry>) {
    match entry {
        None => {
            key.count(0);
        }
        Some(Entry::Series { resistance_ohm, inductance_h }) => {
            key.count(1).number(*resistance_ohm).number(*inductance_h);
        }
        Some(Entry::SurgeProtector { series_resistance_ohm, shunt_capacitance_f }) => {
            key.count(2).number(*series_resistance_ohm).number(*shunt_capacitance_f);
        }
        Some(Entry::Loss { reference_ohm, table }) => {
            key.count(3).number(*reference_ohm).count(table.len());
            for LossPoint { frequency_hz, loss_db } in table {
                key.number(*frequency_hz).number(*loss_db);
            }
        }
    }
}

fn add_shunt(key: &mut Fingerprint, shunt: &Shunt) {
    match *shunt {
        Shunt::Load { resistance_ohm, series_capacitance_f, parallel_capacitance_f } => {
            key.count(0).number(resistance_ohm).optional(series_capacitance_f).number(parallel_capacitance_f);
        }
        Shunt::FeedChoke { inductance_h, winding_resistance_ohm } => {
            key.count(1).number(inductance_h).number(winding_resistance_ohm);
        }
    }
}
