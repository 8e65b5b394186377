//! What could not be judged.

use latchline_finding::{Code, ElementId};
use latchline_words::missing::Missing;

/// Something that could not be judged.
#[derive(Debug, Clone, PartialEq)]
pub struct NotJudged {
    /// The code of the rule that could not be applied.
    pub code: Code,
    /// The elements concerned.
    pub elements: Vec<ElementId>,
    /// What is missing, nearly always a part and its key ("ostrel-v7 highest_voltage").
    pub missing: Missing,
}
