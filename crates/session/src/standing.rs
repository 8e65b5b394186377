//! What is known of the verdict on a revision.

use latchline_assess::{Stage, Verdict, VerdictSoFar};

/// What is known of the verdict, from reading the files and from the rules.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Standing {
    /// The files cannot be used as they are; the findings of reading say why.
    Unusable,
    /// Every stage is in.
    Known(Verdict),
    /// An error stands, so it fails whatever comes; these stages are not in.
    FailsAlready(Vec<Stage>),
    /// These stages are not in, so nothing can be said yet.
    Pending(Vec<Stage>),
}

impl From<VerdictSoFar> for Standing {
    fn from(verdict: VerdictSoFar) -> Self {
        match verdict {
            VerdictSoFar::Known(verdict) => Standing::Known(verdict),
            VerdictSoFar::FailsAlready(stages) => Standing::FailsAlready(stages),
            VerdictSoFar::Pending(stages) => Standing::Pending(stages),
        }
    }
}

impl Standing {
    /// Stages that are not in.
    pub fn pending(&self) -> &[Stage] {
        match self {
            Standing::Unusable | Standing::Known(_) => &[],
            Standing::FailsAlready(stages) | Standing::Pending(stages) => stages,
        }
    }

    /// Whether it holds, on whatever data; never while a stage is missing.
    pub fn holds(&self) -> bool {
        matches!(self, Standing::Known(Verdict::Holds | Verdict::HoldsOnAssumedData))
    }
}
