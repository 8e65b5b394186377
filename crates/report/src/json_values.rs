//! Parts that several documents of JSON have in common.

use latchline_finding::OperatingState;
use schemars::JsonSchema;
use serde::Serialize;

/// One call of an operating state.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct CallDocument {
    /// Station that calls or is viewed.
    from: String,
    /// Indoor station.
    to: String,
    /// "ringing", "talking", "releasing" or "viewing".
    moment: &'static str,
}

/// A number that JSON can hold.
pub(crate) fn finite(value: f64) -> Option<f64> {
    // Minus zero would print as "-0.0".
    value.is_finite().then_some(if value == 0.0 { 0.0 } else { value })
}

/// The calls that stand in a state.
pub(crate) fn calls(state: &OperatingState) -> Vec<CallDocument> {
    state
        .calls
        .iter()
        .map(|call| CallDocument {
            from: call.from.to_string(),
            to: call.to.to_string(),
            moment: call.moment.name(),
        })
        .collect()
}
