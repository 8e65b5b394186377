//! Voltages at every node over frequency, from a source at any node.

use super::block::{gains_db as lanes_of_gains_db, solve};
use super::complex::Complex;
use super::elements::Shunt;
use super::lanes::{LANES, Phasors, gain_db};
use super::passes::{InstructionSet, Passes};
use super::tree::{SignalTree, TreeError};
use super::value::{ValueError, check_frequency_hz, not_negative, positive};

/// What drives the pair: an ideal voltage behind a resistance, at any node. Elements at that node stay
/// in parallel with it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Source {
    /// The node.
    pub node: usize,
    /// Impedance in ohm, real, 0 or more.
    pub impedance_ohm: f64,
}

/// Scratch of the solver, kept between calls so that they need not allocate.
#[derive(Debug, Default)]
pub struct Workspace {
    passes: Passes,
}

impl Workspace {
    /// One that leaves wider instructions aside, to compare or to time them.
    pub fn limited_to(widest: InstructionSet) -> Self {
        let mut workspace = Workspace::default();
        workspace.passes.widest = widest;
        workspace
    }
}

/// The solution at up to sixteen frequencies, as [`sweep`] hands it out.
#[derive(Debug)]
pub struct Block<'a> {
    /// Position of the first frequency in the list given.
    pub first: usize,
    /// How many frequencies, from there.
    pub count: usize,
    voltage: &'a [Phasors],
    attenuation_np: &'a [[f64; LANES]],
    /// Empty unless asked for.
    driving_s: &'a [Phasors],
    widest: InstructionSet,
}

impl Block<'_> {
    /// Voltage at `node` over the source's open-circuit voltage, at frequency `first + i`, as a number to be
    /// multiplied by `exp(-attenuation)` and that attenuation in neper.
    pub fn voltage(&self, node: usize, i: usize) -> (Complex, f64) {
        let phasors = &self.voltage[node];
        (Complex::new(phasors.re[i], phasors.im[i]), self.attenuation_np[node][i])
    }

    /// Driving-point admittance of `node` in siemens at frequency `first + i`; zero unless the sweep is one
    /// [`sweep_with_driving_points`].
    pub fn driving_point_s(&self, node: usize, i: usize) -> Complex {
        self.driving_s.get(node).map_or(Complex::default(), |one| Complex::new(one.re[i], one.im[i]))
    }

    /// Voltage gain in decibel at `node`, at frequency `first + i`.
    pub fn gain_db(&self, node: usize, i: usize) -> f64 {
        let (voltage, attenuation_np) = self.voltage(node, i);
        gain_db(voltage.re, voltage.im, attenuation_np)
    }

    /// Voltage gains in decibel at `node`, at frequencies `first` to `first + count - 1`, into the first
    /// `count` places of `gains_db`; as many as fit. Quicker than one by one.
    pub fn gains_db(&self, node: usize, gains_db: &mut [f64]) {
        let lanes = lanes_of_gains_db(self.widest, &self.voltage[node], &self.attenuation_np[node]);
        for (gain_db, lane) in gains_db.iter_mut().zip(lanes.into_iter().take(self.count)) {
            *gain_db = lane;
        }
    }

    /// As [`Block::gains_db`], with a load of the node exchanged: its admittance changes by `change_s` at each frequency. Only on
    /// a sweep [`sweep_with_driving_points`].
    pub fn gains_exchanged_db(
        &self,
        node: usize,
        change_s: impl Fn(usize) -> Complex,
        gains_db: &mut [f64; LANES],
    ) {
        // Thevenin, see the head of the module `driving`.
        let mut ratio = Phasors::ONE;
        for i in 0..self.count {
            let total = self.driving_point_s(node, i);
            let exchanged = total / (total + change_s(i));
            (ratio.re[i], ratio.im[i]) = (exchanged.re, exchanged.im);
        }
        let exchanged_db = lanes_of_gains_db(self.widest, &ratio, &[0.0; LANES]);
        *gains_db = lanes_of_gains_db(self.widest, &self.voltage[node], &self.attenuation_np[node]);
        for (gain_db, exchanged_db) in gains_db.iter_mut().zip(exchanged_db) {
            *gain_db += exchanged_db;
        }
    }
}

/// Solves the tree at every frequency and hands each block of frequencies to `visit`.
///
/// Time and memory are linear in nodes; memory does not depend on how many frequencies there are.
pub fn sweep(
    tree: &SignalTree,
    source: Source,
    frequencies_hz: &[f64],
    workspace: &mut Workspace,
    visit: impl FnMut(&Block<'_>),
) -> Result<(), TreeError> {
    workspace.passes.wants_driving = false;
    sweep_as_asked(tree, source, frequencies_hz, workspace, visit)
}

/// As [`sweep`] with the source at the root, and with the driving-point admittance of every node:
/// what is between its conductors as seen by a source put there, `impedance_ohm` of the root included. With it the
/// gain at a node follows for any other load there: `V' = V Y / (Y + change of the load)`.
///
/// # Errors
/// As [`sweep`]; `impedance_ohm` must be above 0.
pub fn sweep_with_driving_points(
    tree: &SignalTree,
    impedance_ohm: f64,
    frequencies_hz: &[f64],
    workspace: &mut Workspace,
    visit: impl FnMut(&Block<'_>),
) -> Result<(), TreeError> {
    positive("impedance_ohm", impedance_ohm).map_err(|error| TreeError::Value { node: 0, error })?;
    workspace.passes.wants_driving = true;
    sweep_as_asked(tree, Source { node: 0, impedance_ohm }, frequencies_hz, workspace, visit)
}

fn sweep_as_asked(
    tree: &SignalTree,
    source: Source,
    frequencies_hz: &[f64],
    workspace: &mut Workspace,
    mut visit: impl FnMut(&Block<'_>),
) -> Result<(), TreeError> {
    let at_source = |error: ValueError| TreeError::Value { node: source.node, error };
    not_negative("impedance_ohm", source.impedance_ohm).map_err(at_source)?;
    let path = tree.path_from_root(source.node)?;
    for &frequency_hz in frequencies_hz {
        check_frequency_hz(frequency_hz).map_err(at_source)?;
    }
    for (index, chunk) in frequencies_hz.chunks(LANES).enumerate() {
        let last = chunk[chunk.len() - 1];
        let block = std::array::from_fn(|i| chunk.get(i).copied().unwrap_or(last));
        solve(tree, &path, source.impedance_ohm, &block, &mut workspace.passes);
        visit(&Block {
            first: index * LANES,
            count: chunk.len(),
            voltage: &workspace.passes.voltage,
            attenuation_np: &workspace.passes.attenuation_np,
            widest: workspace.passes.widest,
            driving_s: if workspace.passes.wants_driving { &workspace.passes.driving_s } else { &[] },
        });
    }
    Ok(())
}

/// Voltage at every node and frequency.
#[derive(Clone, Debug)]
pub struct Response {
    frequencies_hz: Vec<f64>,
    source: Source,
    nodes: usize,
    /// Block of frequencies by block, each with all nodes.
    voltage: Vec<Phasors>,
    attenuation_np: Vec<[f64; LANES]>,
}

/// The response at every node to `source`, at every frequency.
pub fn respond(
    tree: &SignalTree,
    source: Source,
    frequencies_hz: &[f64],
    workspace: &mut Workspace,
) -> Result<Response, TreeError> {
    let size = tree.node_count() * frequencies_hz.len().div_ceil(LANES);
    let mut response = Response {
        frequencies_hz: frequencies_hz.to_vec(),
        source,
        nodes: tree.node_count(),
        voltage: Vec::with_capacity(size),
        attenuation_np: Vec::with_capacity(size),
    };
    sweep(tree, source, frequencies_hz, workspace, |block| {
        response.voltage.extend_from_slice(block.voltage);
        response.attenuation_np.extend_from_slice(block.attenuation_np);
    })?;
    Ok(response)
}

impl Response {
    /// The frequencies in hertz, as given.
    pub fn frequencies_hz(&self) -> &[f64] {
        &self.frequencies_hz
    }

    /// The source.
    pub fn source(&self) -> Source {
        self.source
    }

    /// Voltage at `node` over the source's open-circuit voltage, at the frequency number `k`. Underflows to
    /// zero below about -6400 dB, where [`Response::gain_db`] still holds.
    pub fn voltage(&self, node: usize, k: usize) -> Complex {
        let (voltage, attenuation_np) = self.scaled(node, k);
        voltage * libm::exp(-attenuation_np)
    }

    /// Voltage gain in decibel at `node` over the source's open-circuit voltage.
    pub fn gain_db(&self, node: usize, k: usize) -> f64 {
        let (voltage, attenuation_np) = self.scaled(node, k);
        gain_db(voltage.re, voltage.im, attenuation_np)
    }

    /// Phase in degrees of the voltage at `node` against the source's open-circuit voltage, above -180, at
    /// most 180.
    pub fn phase_deg(&self, node: usize, k: usize) -> f64 {
        self.scaled(node, k).0.angle_rad().to_degrees()
    }

    /// Voltage to be multiplied by `exp(-attenuation)`, and that attenuation in neper.
    fn scaled(&self, node: usize, k: usize) -> (Complex, f64) {
        let (block, i) = (k / LANES, k % LANES);
        let at = block * self.nodes + node;
        let phasors = &self.voltage[at];
        (Complex::new(phasors.re[i], phasors.im[i]), self.attenuation_np[at][i])
    }
}

/// Voltage in decibel that `loads` in parallel would have, wired straight to a source of
/// `source_impedance_ohm`, over its open-circuit voltage. The gain of a node less this is its insertion gain.
/// Feed chokes among the loads are left out: they belong to the wiring, not to the receiver.
pub fn straight_gain_db<'a>(
    loads: impl IntoIterator<Item = &'a Shunt>,
    source_impedance_ohm: f64,
    frequency_hz: f64,
) -> f64 {
    let admittance = loads
        .into_iter()
        .filter(|shunt| matches!(shunt, Shunt::Load { .. }))
        .fold(Complex::default(), |sum, shunt| sum + shunt.admittance_s(frequency_hz));
    let divider = Complex::ONE + admittance * source_impedance_ohm;
    -10.0 * libm::log10(divider.re * divider.re + divider.im * divider.im)
}
