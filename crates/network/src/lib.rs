//! From a site to its electrical layout and its operating states.
//!
//! * [`layout`]: the galvanic trees ([`layout::Stage`]) as flat arrays in parent-first order, with
//!   resistances for three corners of the tolerances;
//! * [`demand`]: what each device draws, by what it is doing;
//! * [`calls`]: who may call whom at once;
//! * [`phase`]: one operating state as a flow problem;
//! * [`evaluate`]: solving one set of calls through all stages;
//! * [`collapse`]: how much of its load a bus that collapses could carry;
//! * `growth`: how much more load every stage bears until its first limit (`first_limit`), which one that is, and until it collapses;
//! * [`stage_calls`]: the calls that matter to one stage;
//! * [`bound`]: certified bounds on what any admissible set can do;
//! * [`search`]: the worst set by bound, prune and solve;
//! * [`memory`]: what is known of parts that are the same, and whether it is still [`Wanted`];
//! * [`stage_key`]: what solving a stage depends on, as the beginning of a key;
//! * [`states`]: the worst state of every device and the largest current of every source and run;
//! * [`source_power`]: the largest power at the terminals of every source;
//! * [`signal_tree`]: what signals reach every station that can be called;
//! * [`start_up`]: what happens when power returns;
//! * [`short_circuit`]: what a short at every place does;
//! * [`tolerance`]: how likely the worst device falls below its limit;
//! * [`readings`]: what meters should read at every terminal, run and port;
//! * [`conductor_size`](mod@conductor_size): sizes of conductors in both systems.
//!
//! Nothing here knows of files, and no verdict is given here.

pub mod bound;
mod bus_state;
pub mod calls;
pub mod collapse;
pub mod conductor_size;
mod corner;
pub mod demand;
mod drawn;
mod effort;
pub mod evaluate;
mod first_limit;
mod growth;
pub mod layout;
mod margin;
pub mod memory;
mod nominal;
mod nominal_figures;
pub mod phase;
pub mod readings;
mod relaxed_sum;
pub mod resistance;
pub mod search;
pub mod short_circuit;
pub mod signal_tree;
pub mod source_power;
pub mod stage_calls;
pub mod stage_key;
mod stage_search;
pub mod start_up;
pub mod state_space;
pub mod states;
pub mod tolerance;
mod wanted;
pub mod witness;
pub mod worst;

pub use bus_state::{BusState, StandingCall};
pub use corner::Corner;
pub use growth::Growth;
pub use layout::{Layout, NodeRef, Segment, Stage, StageNode, StageSource};
pub use margin::margin_v;
pub use memory::{Fingerprint, Memory, WorkDone};
pub use phase::{HighestVoltages, Phase};
pub use search::SearchOptions;
pub use state_space::StateSpace;
pub use states::{worst_states, worst_states_with};
pub use wanted::{GivenUp, Wanted};
pub use worst::{Device, DeviceStates, WorstStates};
