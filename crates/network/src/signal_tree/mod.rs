//! Signals on the pair: a site as trees of lossy lines, and what reaches every station.
//!
//! # From the site to the network
//!
//! The network has a node for every node of every stage of the [`Layout`](crate::Layout), and follows the signal where direct
//! current does not go, and not where only direct current goes:
//!
//! * a section of a run is a uniform line, its pairs in parallel, with the resistance of its cable (or the measured loop
//!   resistance); all cables at once are taken as stated, at their longest and at their shortest ([`CableLengths`]), a network each;
//! * a transparent or port-limited box joins its input and ports, each port behind the box's `signal_loss`;
//! * a regenerating box does the same, and each of its ports is fed through the box's feed choke;
//! * an isolating box joins its link and ports; its input only feeds power, through a choke at each port;
//! * a supply is a short for signals behind its feed choke ([`Shunt::FeedChoke`]);
//! * a station that is not in the call bridges the pair with its resistance and capacitance; one that is in it has
//!   its `signal_impedance` instead;
//! * a terminator is a resistance, with its series capacitor where it has one; a surge protector a resistance in
//!   the loop (its capacitance is not in the site file and is left out).
//!
//! # What is claimed
//!
//! The lines are solved without approximation other than rounding ([`latchline_circuit::signal`]), at the
//! frequencies that are looked at. [`survey`] says which these are and what may hide between them. What is told is the worst
//! of the three sets of lengths that are tried; with one cable long and another short at the same time it may be worse still.
//!
//! What the catalogue does not give is never guessed: whatever hangs on the same pair is then not judged, and
//! [`MissingValue`] says which key of which part is needed.

mod build;
mod key;
mod lengths;
mod line;
pub(crate) mod survey;

pub use lengths::CableLengths;
pub use line::{PairConstants, pair_constants};
pub use survey::{
    BandSurvey, FeedCorner, Notch, SignalResponse, SignalSurvey, StationRipple, StationSignal,
    WeakestOfCaller, losses_from_caller, survey, survey_at, survey_with,
};

use latchline_circuit::signal::{Entry, Line, Shunt};
use latchline_finding::ElementId;
use latchline_words::missing::Missing;

/// What is needed for which judgement.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum MissingKind {
    /// Line constants of a cable.
    Line,
    /// Signal values of a station, box or terminator.
    Part,
    /// The feed choke of a supply or box.
    Choke,
    /// The wiring of the signal link closes a loop, which is not a tree.
    Loop,
}

/// A value without which signals cannot be judged.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct MissingValue {
    /// What kind of value.
    pub kind: MissingKind,
    /// The run, station, box or supply that needs it.
    pub element: ElementId,
    /// The part and key that is missing ("clad-0.5 line").
    pub missing: Missing,
    /// Which of the separate networks of the site it belongs to.
    component: usize,
}

/// An edge of the network: a line, or a joint with a two-port in it.
#[derive(Debug, Clone, PartialEq)]
struct SignalEdge {
    ends: (usize, usize),
    line: usize,
    length_m: f64,
    entry: Option<Entry>,
}

/// A supply's or box's feed.
#[derive(Debug, Clone, PartialEq)]
struct Feed {
    node: usize,
    inductance_h: f64,
    element: ElementId,
}

/// The site as lines, two-ports and elements across the pair. Undirected: a call orders it from its caller.
#[derive(Debug, Clone, PartialEq)]
pub struct SignalNetwork {
    lines: Vec<Line>,
    edges: Vec<SignalEdge>,
    /// Elements that stay as they are, by node.
    fixed: Vec<(usize, Shunt)>,
    /// Node of each station.
    station: Vec<Option<usize>>,
    /// Load of each station while it is not in the call.
    bridging: Vec<Option<Shunt>>,
    feeds: Vec<Feed>,
    /// Which separate network each node belongs to.
    component: Vec<usize>,
    missing: Vec<MissingValue>,
}
