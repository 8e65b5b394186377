//! What is to be said of a cable that is already in the walls.

use latchline_finding::{Code, ElementId};
use latchline_network::conductor_size::ConductorSize;

/// Whether an existing cable can stay.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum ExistingCable {
    /// Nothing stands against it, and its loop and insulation were measured.
    CanStay,
    /// Nothing stands against it as it is assumed; loop or insulation was not measured.
    CanStayIfMeasured,
    /// Warnings stand against it, no error; these codes.
    Warned(Vec<Code>),
    /// Warnings stand against it, no error, and what was read of it is not what the stated cable and length have: a fault, or another
    /// cable, that is to be found before it is used; these codes.
    ReadsOtherwise(Vec<Code>),
    /// Errors stand against it; the codes of errors and warnings.
    Fails(Vec<Code>),
    /// Something about it or a station of its own could not be judged; these codes.
    NotJudged(Vec<Code>),
}

impl ExistingCable {
    /// The stable word used in JSON.
    pub fn word(&self) -> &'static str {
        match self {
            ExistingCable::CanStay => "can-stay",
            ExistingCable::CanStayIfMeasured => "can-stay-if-measured",
            ExistingCable::Warned(_) => "warned",
            ExistingCable::ReadsOtherwise(_) => "reads-otherwise",
            ExistingCable::Fails(_) => "fails",
            ExistingCable::NotJudged(_) => "not-judged",
        }
    }
}

/// A cable that is already in the walls, with what its verdict rests on.
#[derive(Debug, Clone, PartialEq)]
pub struct ExistingRun {
    /// Whether it can stay.
    pub verdict: ExistingCable,
    /// Findings that stand against it, errors first: indices into [`Assessment::findings`](crate::Assessment::findings).
    pub against: Vec<usize>,
    /// The loop resistance that its stated cable, length and joints would have at the usual temperature, in ohms.
    pub expected_loop_ohm: f64,
    /// The size of a conductor; `None` where the catalogue gives a resistance only.
    pub conductor: Option<ConductorSize>,
    /// The weakest of the signals that pass it; `None` where none was judged.
    pub signal: Option<SignalThrough>,
    /// Where the bus collapses because of other runs: what the verdict rests on instead.
    pub apart: Option<JudgedApart>,
}

/// A run judged as if the runs that its bus collapses on carried their load.
#[derive(Debug, Clone, PartialEq)]
pub struct JudgedApart {
    /// Supplies or boxes whose bus collapses.
    pub sources: Vec<ElementId>,
    /// The runs that it comes of.
    pub causes: Vec<ElementId>,
    /// The device behind the run that is short even so by most; `None` where none is.
    pub short: Option<ShortApart>,
}

/// A device that is short although the runs that its bus collapses on carry their load.
#[derive(Debug, Clone, PartialEq)]
pub struct ShortApart {
    /// Which.
    pub device: ElementId,
    /// Its voltage with every tolerance against it, in volts.
    pub voltage_v: f64,
    /// What it needs, in volts.
    pub limit_v: f64,
}

/// The weakest signal through a run, the one that is nearest to the budget of its band.
#[derive(Debug, Clone, PartialEq)]
pub struct SignalThrough {
    /// What the band carries.
    pub band: String,
    /// Who hears it.
    pub station: ElementId,
    /// Who calls.
    pub caller: ElementId,
    /// Greatest insertion loss in the band, in decibel.
    pub loss_db: f64,
    /// Greatest insertion loss allowed, in decibel.
    pub budget_db: f64,
}
