//! What `check`, `fix` and the sheets say.

mod caret;
mod jobs;
mod physics;
mod remedies;
mod sheets;
mod verdicts;

pub use caret::{Mark, role, severity};
pub use jobs::{DangerWord, JobHead, JobWords, SymptomHead};
pub use physics::{BandWords, PowerReturn, ShortCircuit, Tolerance};
pub use remedies::{RemedyWords, UnlessWord, remedy_kind};
pub use sheets::{Label, SheetHead, SheetWords};
pub use verdicts::{Counted, Head, Remark, Tightest, VerdictWords};
