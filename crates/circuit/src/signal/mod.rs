//! Signal on the pair: frequency response of a rooted tree of lossy uniform lines.
//!
//! # Mathematics
//!
//! A uniform line has, per metre, a series impedance `z = R + jwL` and a shunt admittance
//! `y = G + jwC`. The telegrapher's equations `dV/dx = -z I`, `dI/dx = -y V` give, over a length `d`,
//! the chain matrix
//!
//! ```text
//! | V1 |   |   cosh(gd)      Z0 sinh(gd) | | V2 |       g  = sqrt(z y)     propagation constant, Re g >= 0
//! | I1 | = | sinh(gd) / Z0     cosh(gd)  | | I2 |       Z0 = sqrt(z / y)   characteristic impedance
//! ```
//!
//! With an admittance `Y` at the far end, and everything divided by `exp(gd)/2` so that nothing grows:
//!
//! ```text
//! P = 1 + exp(-2gd)      M = 1 - exp(-2gd)      D = P + Z0 Y M
//! Yin = (Y P + M / Z0) / D                      V2 / V1 = 2 exp(-gd) / D
//! ```
//!
//! Two passes per frequency, each linear in the number of nodes: *up*, from the leaves to the source,
//! gathers the input admittance of every subtree; *down*, from the source to the leaves, multiplies the
//! voltage ratios. A source at a node other than the root only turns round the branches on the way from
//! the root to that node (all two-ports here are reciprocal), so every source costs the same two passes.
//!
//! # Numerical care
//!
//! With `gd = a + jb`, `a >= 0`, and `h = expm1(-a)`:
//!
//! ```text
//! Re M = -h(2 + h) + 2 exp(-2a) sin^2 b        Re P = -h(2 + h) + 2 exp(-2a) cos^2 b
//! Im M =  exp(-2a) sin 2b                      Im P = -exp(-2a) sin 2b
//! ```
//!
//! The real parts are sums of terms that are not negative, so neither a very short line (`M` near 0) nor
//! a lossless quarter wave (`P` near 0) loses figures. The decay `exp(-a)` is not multiplied into the
//! voltages but summed as an attenuation in neper, and a voltage that becomes very small or large is
//! rescaled by a power of two whose logarithm goes into the same sum: a gain of -100 000 dB is a number
//! like any other.
//!
//! # What is claimed
//!
//! For uniform segments, linear elements and the given laws of R, L, G and C over frequency, the tree is
//! solved without approximation other than rounding (the chain matrix is the closed-form solution of the
//! telegrapher's equations). Nothing is claimed about how well those laws describe a cable; see
//! [`catalogue`] for where each comes from. [`band`] says what is and is not found between grid points.
//!
//! Results are bit for bit the same on every machine with IEEE 754 arithmetic: exponential, sine, cosine and
//! logarithm are polynomials of our own over plain additions and multiplications, never fused; everything else that
//! is not a basic operation comes from `libm`.

pub mod band;
mod block;
mod branch;
pub mod catalogue;
mod choke;
mod complex;
mod driving;
mod elements;
pub mod fit;
mod grid;
mod lanes;
mod line;
mod order;
mod passes;
mod response;
mod samples;
mod tree;
mod value;

pub use choke::low_corner_hz;
pub use complex::Complex;
pub use elements::{Entry, LossPoint, Shunt};
pub use lanes::LANES;
pub use line::{CableModel, DB_PER_NEPER, Line, LineLaw, PerMetre, PlainLine};
pub use order::{OrderError, Ordered, order_from};
pub use passes::InstructionSet;
pub use response::{
    Block, Response, Source, Workspace, respond, straight_gain_db, sweep, sweep_with_driving_points,
};
pub use tree::{Branch, SignalTree, TreeError};
pub use value::{GREATEST_FREQUENCY_HZ, LEAST_FREQUENCY_HZ, ValueError, check_frequency_hz};
