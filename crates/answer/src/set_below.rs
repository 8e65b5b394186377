//! Whether the supply of a place is set below what it delivers as it comes.

use latchline_assess::Assessment;
use latchline_finding::{ElementId, Figure, Language, Unit};
use latchline_words::locate::AsDrawn;

/// Where the supply at the head of a bus, or of the buses before it, is set below what it delivers: to what, and what it delivers.
pub(crate) fn set_below(assessment: &Assessment, source: &ElementId, language: Language) -> Option<String> {
    let mut source = source;
    // Behind a box that makes a bus of its own, the supply of that box.
    while let Some(of_box) = assessment.devices.iter().find(|one| one.id == *source) {
        source = &of_box.source;
    }
    let of_source = assessment.sources.iter().find(|one| one.id == *source)?;
    let (set_v, delivered_v) = of_source.set_below_v?;
    let supply = &latchline_finding::shown::prose(source.as_str());
    let volts = |voltage_v: f64| Figure::new(voltage_v, Unit::Volt);
    let words = AsDrawn::SetBelow { supply, set: volts(set_v), delivered: volts(delivered_v) };
    Some(words.say(language))
}
