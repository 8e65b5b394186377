//! Start-up in the time domain: does the system reach its operating point, and when?
//!
//! # Model
//!
//! A rooted tree of two-wire segments; node 0 is the supply's output, segment `k` joins node `k`
//! to its parent with loop resistance `r_k >= 0`. Voltages are between the two conductors. There
//! is no inductance: ringing of the feed is outside the model.
//!
//! - **Supply**: open-circuit voltage `V0(t)` (with an optional soft-start ramp) behind `R_s`, and
//!   a limiter. It never sinks current. `i = min(max((V0 - v)/R_s, 0), limit(v))`. Constant
//!   current: `limit = I`. Foldback: `limit = I_short + (I_max - I_short) min(v/V_knee, 1)`.
//!   Hiccup: `limit = I`, and when the limiter has been active without a break for the trip time
//!   the supply is off for the off time, then starts again (with its ramp).
//! - **Port** (a limiter in one segment): `i = min((v_parent - v_k)/r_k, I)`, or a trip that
//!   passes whatever flows and opens when the current has exceeded `I` for the trip time.
//! - **Device**: a capacitor `C > 0` behind a bridge of drop `V_d`; the bridge conducts when
//!   `v - V_d` reaches the capacitor voltage `u` and never conducts backwards, so the capacitor
//!   holds its own device and not the bus. An inrush limiter, where given, caps the bridge current
//!   until the converter starts, and is bypassed from then on. The converter takes `P/u` from the
//!   capacitor, and only from its start (threshold `V_on` held for the delay) until `u` falls to
//!   `V_off > 0`: boot power for the boot time, then running power.
//! - **Bus loads**: `g v`, and constant current `I min(v/V_s, 1)` with `V_s` = 1 V
//!   ([`SATURATION_VOLTAGE_V`]), so that no current flows at no voltage. Bus capacitors.
//! - **Leakage** of 1 nS at every node ([`LEAKAGE_S`]) defines the voltage of a bus that nothing
//!   feeds.
//!
//! # Why this is an ordinary differential equation
//!
//! With constant-power loads on a resistive bus the nodal equations can lose their solution. Here
//! every converter draws from its own capacitor, whose voltage is a state. Given the states, what
//! remains on the bus (resistances, bridges, limiters, bus loads) is a sum of currents that do not
//! fall with voltage, plus the leakage: the nodal map is the gradient of a strictly convex function
//! (the co-content), so the bus voltages exist and are unique. Foldback is the exception (its
//! current rises with voltage), therefore a foldback supply must have an output capacitor, which
//! makes its voltage a state too. Loss of the static operating point then shows as what it is in
//! the building: capacitors running down, converters dropping out, limiters holding.
//!
//! # Integration
//!
//! Singly diagonally implicit Runge-Kutta of two stages and order 2 with `gamma = 1 - 1/sqrt 2`:
//! L-stable and stiffly accurate (Alexander, SIAM J. Numer. Anal. 14, 1977, from memory). It needs
//! no derivative at the start of a step, which is not defined where capacitors meet without
//! resistance, so it restarts cleanly after a switching; stiff accuracy makes the bridge and
//! limiter conditions hold at the end of every step. In a stage each capacitor is the load
//! `i = a (u - h) + load(u)`, `a = C/(gamma h)`, and the stage equations are solved by Newton with
//! elimination from the leaves to the root, `s' = s/(1 + r s)`, `b' = b/(1 + r s)`: linear in the
//! number of nodes, no division by `r`. The step is kept below `gamma h <= 0.2 C u^2/P` for every
//! running converter (and below `0.5 C/m` for a foldback of slope `m`): then each stage load rises
//! with voltage and the stage equations too are the gradient of a strictly convex function. If full
//! Newton steps do not settle, a line search on that function is used.
//!
//! The local error is estimated from the second difference of the slopes at the start, the inner
//! stage and the end, scaled to be asymptotically right for linear problems
//! (`0.0404 h^3 y'''`), and kept at or below [`Options::tolerance_v`] in every capacitor voltage.
//! This controls the error per step, not the global error.
//!
//! # Events
//!
//! Everything that makes a current *jump* is located: converter start and stop, supply and port
//! trips and returns, a limiter becoming active where a trip timer depends on it, the end of the
//! ramp. Timers are stepped onto exactly; threshold crossings are found by repeated steps to
//! within [`EVENT_TOLERANCE_V`]. A threshold that only arms a timer is interpolated in the step.
//! Bridges and limiters make a current *bend*, not jump; they are solved for in every stage and
//! need no location of their own, the error estimate shortens the step around them.
//!
//! # What the outcome means
//!
//! The run stops early when nothing moves any more (at the present rates no capacitor would change
//! by 1 mV before the end time, and no timer runs), or when the complete state repeats at three
//! successive trips or dropouts. Both are numerical observations, not proofs.

mod conditions;
mod cycle;
mod discrete;
mod error;
mod integrator;
mod options;
mod outcome;
mod renumber;
mod run;
mod stage;
mod stagger;
mod system;
mod validate;
mod waveform;

pub use conditions::{BootCondition, StartCondition, boot_condition, boots_together_fit, start_conditions};
pub use error::StartupError;
pub use options::Options;
pub use outcome::{DeviceResult, DeviceStatus, Energy, HiccupCause, Limiter, Outcome, StartUp, StopReason};
pub use run::{simulate, simulate_while};
pub use stagger::{Search, SearchError, smallest_stagger};
pub use system::{BusCapacitor, BusDevice, BusLoad, Converter, Port, PortLimit, Supply, SupplyLimit, System};
pub use waveform::Waveform;

/// Voltage below which a constant-current bus load falls off linearly to nothing, V.
pub const SATURATION_VOLTAGE_V: f64 = 1.0;
/// Leakage conductance at every node, S.
pub const LEAKAGE_S: f64 = 1e-9;
/// A source or limited-segment resistance below this is taken as this, ohm: the terminals alone
/// have more.
pub const SMALLEST_LIMITER_RESISTANCE_OHM: f64 = 1e-4;
/// How closely a threshold crossing is located, V.
pub const EVENT_TOLERANCE_V: f64 = 1e-5;
/// Smallest difference of start and stop threshold of a converter without delay, V.
pub const SMALLEST_HYSTERESIS_V: f64 = 1e-3;
