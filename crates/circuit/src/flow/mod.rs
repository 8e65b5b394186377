//! Direct-current flow on a rooted tree of resistances with resistive, constant-current and
//! constant-power loads.
//!
//! # The network
//!
//! Nodes `0..n` in parent-first order (`parent[k] < k`), node 0 the root. An ideal voltage `V0`
//! feeds the root through the source resistance `r_0`; segment `k` joins `parent[k]` to `k` with the
//! loop resistance `r_k >= 0` (zero allowed). Node `k` draws, at the voltage `v`,
//!
//! ```text
//! i_k(v) = P_k / (v - Vd_k) + I_k + g_k v          P, I, g, Vd >= 0
//! ```
//!
//! so a load is a constant power behind a rectifier drop `Vd`, a constant current, a conductance, or
//! a sum of them. A *solution* has `v_k > 0` everywhere and `v_k > Vd_k` wherever `P_k > 0`:
//!
//! ```text
//! v_k = v_parent - r_k f_k,     f_k = i_k(v_k) + sum of f over the children of k       (v_parent of 0 is V0)
//! ```
//!
//! Currents `f` flow away from the root. Where there are solutions one of them is the greatest in
//! every component (shown below); it is the state a bus reaches from above, and the one returned.
//!
//! # Newton by elimination (`newton`)
//!
//! At `u` the load is replaced by its tangent `s v + b`, `s = g - P/(u - Vd)^2` (which may be
//! negative), `b = I + P/(u - Vd) + P u/(u - Vd)^2`. Going from the leaves to the root, the
//! subtree of `k` seen from its parent is again `s' v + b'` with `s' = s/(1 + r s)`,
//! `b' = b/(1 + r s)`; going down, `v_k = (v_parent - r b)/(1 + r s)`. Nothing is divided by `r`. The
//! pivots `1 + r s` are those of the Jacobian `J = G + diag(i')`; all are positive exactly when `J`
//! (a symmetric Z-matrix) is positive definite, that is a nonsingular M-matrix, `J^-1 >= 0`.
//!
//! *Monotone Newton theorem* (Ortega and Rheinboldt, Iterative Solution of Nonlinear Equations in
//! Several Variables, section 13.3; number from memory). Write the equations as `F(v) = 0`,
//! `F(v) = G v + i(v) - b_source`; each component of `F` is convex in `v`. If `J(u)` is a nonsingular
//! M-matrix, then for any solution `v*`: `0 = F(v*) >= F(u) + J(u)(v* - u)`, hence `v* <= u - J(u)^-1
//! F(u)`. One step from any `u` with positive pivots is therefore above every solution, and from `V0` the
//! iterates fall to the greatest one. If at an iterate `u >= v*` a pivot were not positive, or `u` outside
//! the domain, then there is no solution: for a solution `v* <= u`, `J` only grows with `v`. (At the
//! single point where the two solutions meet, `J(v*)` is singular; floating-point numbers cannot tell that
//! point from its neighbours.) In floating-point arithmetic this is used only as the *trigger* for looking
//! for a certificate of non-existence.
//!
//! # Verified enclosure (`enclosure`)
//!
//! Freeze the nonincreasing part `P/(w - Vd) + I` at `w` and solve the linear network that is left
//! (resistances and conductances): `T(w)`. Solutions are the fixed points of `T`. `T` is order
//! preserving, since a higher `w` draws less, and concave in `w`, since `P/(w - Vd)` is convex.
//!
//! 1. *Existence.* If `T(w) >= w`, then `T` maps the box `[w, V0]` into itself and has a fixed point
//!    there (Knaster-Tarski); the greatest solution, the limit of `T^k(V0)`, is `>= T^k(w) >= w`.
//! 2. *Uniqueness above `w`.* If `T(w) > w` strictly in every component, there is only one fixed point
//!    above `w` (the argument of Krasnosel'skii for concave operators). Let `x <= y` be two, `y` the
//!    greatest; `x = T(x) >= T(w) > w`. Let `t` be the largest number in `[0, 1]` with `w + t (y - w) <=
//!    x`. If `t < 1`, concavity gives `x = T(x) >= (1 - t) T(w) + t y > w + t (y - w)` strictly, so `t`
//!    was not the largest. Hence `t = 1`, `y <= x`.
//! 3. *Upper end.* If also `u >= w` and `T(u) <= u`, then `T` maps `[w, u]` into itself, so the fixed
//!    point above `w`, the greatest solution, is in `[w, u]`.
//!
//! Hypotheses: `w > 0` and `w > Vd` where `P > 0`; loads of the form above. Certificate: the two
//! vectors `w`, `u`, and the two sweeps that compare `T(w)` with `w` and `T(u)` with `u`. In both sweeps
//! the *drops* `V0 - T(w)` are built from sums, products and quotients of nonnegative numbers only, so
//! under the standard model of floating-point arithmetic (`fl(a op b) = (a op b)(1 + d)`, `|d| <= 2^-53`,
//! no overflow or underflow; Higham, Accuracy and Stability of Numerical Algorithms, section 2.2) their
//! relative error is at most `gamma_N = N 2^-53/(1 - N 2^-53)`, where `N` counts the roundings on the
//! longest way of a term through both sweeps ([`Tree::rounding_steps`]). The comparison allows for it.
//!
//! The vectors tried are `v -+ h` with a uniform half width `h` (enough whenever every voltage is
//! well above `V0/2`), then `v -+ h t/max t` with `t = J^-1 i`, the change of the voltages when all
//! loads grow together, which is what works close to collapse. There the rounding allowance is magnified
//! by the nearness of the nose; where it would need more than the tolerance, the approximate solution is
//! polished with residuals in double-double arithmetic and the two sweeps are done in it as well
//! (`precise`).
//!
//! # Certificate that there is no solution (`nonexistence`)
//!
//! Let all loads carry a factor `lambda` (power, current and conductance). Choose any `c >= 0` and let `w
//! >= 0` be the voltages that the currents `c`, injected into the network of resistances and conductances
//! `lambda g` with the source short-circuited, produce; let `y_0` be the current that leaves through the
//! source. Multiplying the nodal equations of a solution by `w` and summing (Tellegen),
//!
//! ```text
//! y_0 V0 = sum_k [ c_k v_k + lambda w_k P_k/(v_k - Vd_k) + lambda w_k I_k ]
//!        >= sum_k [ 2 sqrt(lambda c_k w_k P_k) + c_k Vd_k (where P_k > 0) + lambda w_k I_k ]
//! ```
//!
//! by `v > 0` and, with `x = v - Vd > 0`, `c x + a/x >= 2 sqrt(c a)`. If the last line exceeds `y_0 V0`
//! there is no solution, whatever zero-ohm segments there are. Everything is again sums, products,
//! quotients and roots of nonnegative numbers, compared with the same allowance. Written with the
//! conductance matrix `G` this is: `w >= 0`, `c = G w + lambda g w >= 0` and `2 sum sqrt(lambda c w P) +
//! lambda w.I > w.b`. For fixed `w` the left side grows with `lambda`, so the certificate holds for every
//! larger factor as well. At the nose of the curve the null vector of `J` makes it sharp.
//!
//! # Loading margin (`margin`)
//!
//! The largest `lambda` for which there is a solution, enclosed between a factor shown possible by
//! an enclosure and one shown impossible by a certificate, at most a relative 1e-6 apart.

#![allow(
    clippy::neg_cmp_op_on_partial_ord,
    reason = "tests are written so that a value that is not a number fails them"
)]

mod batch;
mod builder;
mod currents;
mod enclosure;
mod loads;
mod margin;
mod monte_carlo;
mod newton;
mod nonexistence;
mod precise;
mod sensitivity;
mod solve;
mod tree;

pub use batch::{BatchTree, FourOutcome, FourWorkspace};
pub use builder::{BuildError, BuiltTree, SegmentEnds};
pub use currents::{Currents, branch_currents};
pub use loads::{LoadError, Loads, Source};
pub use margin::{Margin, loading_margin};
pub use monte_carlo::{LoadElement, LoadKind, MonteCarlo, MonteCarloError, MonteCarloOptions, monte_carlo};
pub use nonexistence::NonexistenceCertificate;
pub use sensitivity::{Sensitivities, sensitivities, transfer_resistances, weighted_sensitivities};
pub use solve::{Enclosure, NoSolution, Options, Outcome, Solved, Undecided, Workspace, solve};
pub use tree::{Tree, TreeError};
