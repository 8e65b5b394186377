//! Blocks of a page that say the same of other things: two blocks of flats that are built alike.

use latchline_assess::Assessment;
use std::collections::BTreeSet;

/// The names on site, to see whether two texts are the same but for them.
pub(super) struct Names(BTreeSet<String>);

impl Names {
    /// All that a page names.
    pub fn of(assessment: &Assessment) -> Self {
        let sources = assessment.sources.iter().map(|source| &source.id);
        let runs = assessment.runs.iter().flat_map(|run| [&run.id, &run.from]);
        let devices = assessment.devices.iter().map(|device| &device.id);
        Names(sources.chain(runs).chain(devices).map(ToString::to_string).collect())
    }

    /// A text with its names left out, its lines run together.
    pub fn without(&self, text: &str) -> String {
        let bare = |word: &str| {
            let inner = word.trim_matches(['(', ')', ',', ';']);
            let inner = if self.0.contains(inner) { inner } else { inner.trim_end_matches(['.', ':']) };
            if !inner.is_empty() && self.0.contains(inner) {
                word.replacen(inner, "#", 1)
            } else {
                word.to_string()
            }
        };
        text.split_whitespace().map(bare).collect::<Vec<_>>().join(" ")
    }
}
