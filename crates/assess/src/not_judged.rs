//! What could not be judged.

use latchline_finding::{Code, ElementId};

/// Something that could not be judged.
#[derive(Debug, Clone, PartialEq)]
pub struct NotJudged {
    /// The code of the rule that could not be applied.
    pub code: Code,
    /// The elements concerned.
    pub elements: Vec<ElementId>,
    /// The part and key that is missing ("ostrel-v7 highest_voltage").
    pub missing: String,
}
