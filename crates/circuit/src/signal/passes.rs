//! What the passes over the tree at the frequencies of one block share.

use super::branch::LineBlock;
use super::elements::TeeNetwork;
use super::lanes::{LANES, Phasors};
use super::tree::SignalTree;

/// Which vector instructions may be used. All give the same bits.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub enum InstructionSet {
    /// Those that every processor of the architecture has.
    Base,
    /// Up to AVX2.
    Avx2,
    /// Up to AVX-512, if the processor has it.
    #[default]
    Avx512,
}

/// Scratch of the passes, one entry per node unless said otherwise.
#[derive(Debug, Default)]
pub(super) struct Passes {
    /// The most that may be used of what the processor has.
    pub widest: InstructionSet,
    /// Admittance at the node, looking away from the source, the node's own elements included.
    pub admittance_s: Vec<Phasors>,
    /// What the branch to the node adds to its parent's admittance; of branches on the way to the source it says nothing.
    pub added_s: Vec<Phasors>,
    /// Voltage over that of the neighbour nearer the source after the pass up; voltage over the source's
    /// open-circuit voltage, without its decay, after the pass down.
    pub voltage: Vec<Phasors>,
    /// What `voltage` is to be decayed by, neper.
    pub attenuation_np: Vec<[f64; LANES]>,
    /// Admittance between the conductors of every node as a source put there would find it, the driving source's
    /// own impedance included; filled only where it is asked for.
    pub driving_s: Vec<Phasors>,
    /// Whether to fill it; the source must then be at the root.
    pub wants_driving: bool,
    /// Constants of each line.
    pub(super) lines: Vec<LineBlock>,
    /// Whether the node is on the way from the root to the source's node.
    pub(super) on_path: Vec<bool>,
}

/// What stands at the entry of the branch to a node, at each frequency.
pub(super) fn tees(
    tree: &SignalTree,
    node: usize,
    frequencies_hz: &[f64; LANES],
) -> Option<[TeeNetwork; LANES]> {
    let entry = tree.branches()[node - 1].entry.as_ref()?;
    if entry.is_flat() {
        return Some([entry.at(frequencies_hz[0]); LANES]);
    }
    Some(std::array::from_fn(|i| entry.at(frequencies_hz[i])))
}
