//! The legend: only what occurs on the drawing.

use super::Subject;
use super::card::{CardKind, Step};
use super::card_picture::{gauge, mark, symbol};
use crate::figure::trimmed;
use crate::font::shortened;
use crate::palette::Ink;
use crate::scene::{Dash, Layer, Stroke};
use crate::sheet::{LEGEND_PICTURE_MM, LegendEntry, SheetSize};
use latchline_finding::Severity;

/// Entries of the legend, then the runs of one sheet whose label found no room beside the line.
pub(super) fn entries(subject: &Subject<'_>, notes: &[String], size: SheetSize) -> Vec<LegendEntry> {
    let mut entries = Vec::new();
    let thin_v = subject.site.policy.thin_margin.value.as_volts();
    let (thin, ample) = (trimmed(thin_v, 2), trimmed(3.0 * thin_v, 2));
    for (step, words) in [
        (Step::Ample, format!("margin {ample} V or more")),
        (Step::Fair, format!("{thin} to {ample} V")),
        (Step::Thin, format!("under {thin} V")),
        (Step::Below, String::from("below the limit")),
    ] {
        if subject.cards.iter().any(|card| card.step == Some(step)) {
            entries.push(LegendEntry {
                picture_width: 2.0,
                picture: Box::new(move |group, (x, y)| gauge(group, (x, y), LEGEND_PICTURE_MM, step)),
                text: words,
            });
        }
    }
    for kind in CardKind::ALL {
        if subject.cards.iter().any(|card| card.kind == kind) {
            entries.push(LegendEntry {
                picture_width: 4.0,
                picture: Box::new(move |group, corner| symbol(group, kind, corner)),
                text: kind.word().to_string(),
            });
        }
    }
    for severity in [Severity::Error, Severity::Warning, Severity::Advice] {
        if subject.troubles.values().any(|trouble| trouble.severity == severity) {
            entries.push(LegendEntry {
                picture_width: 3.0,
                picture: Box::new(move |group, (x, y)| mark(group, severity, (x, y + 0.5), 3.0)),
                text: severity.word().to_string(),
            });
        }
    }
    let mut line = |words: &str, width_mm: f64, dash: Dash| {
        entries.push(LegendEntry {
            picture_width: 8.0,
            picture: Box::new(move |group, (x, y)| {
                let stroke = Stroke::solid(Ink::Wire, width_mm).dashed(dash);
                group.line(Layer::Wiring, (x, y + 2.0), (x + 8.0, y + 2.0), stroke);
            }),
            text: words.to_string(),
        });
    };
    for (feeder, existing) in [(false, false), (true, false), (false, true), (true, true)] {
        if subject.looks.iter().any(|look| look.feeder == feeder && look.existing == existing) {
            let words = match (feeder, existing) {
                (false, false) => "run",
                (true, false) => "run to a box",
                (false, true) => "run, cable already in place",
                (true, true) => "run to a box, cable already in place",
            };
            let dash = if existing { Dash::Dashed } else { Dash::Solid };
            line(words, super::page::wire_width(feeder), dash);
        }
    }
    let mut note = |text: &str| {
        entries.push(LegendEntry {
            picture_width: 0.0,
            picture: Box::new(|_, _| ()),
            text: shortened(text, 2.5, false, size.width_mm - 24.0),
        });
    };
    if subject.cards.iter().any(|card| card.step.is_some()) {
        note("V: lowest, in the worst state");
        note("+ V: margin to its limit");
    }
    if let Some(usual) = &subject.usual {
        note(&format!("conductor {usual} where none is named"));
    }
    note("lines that cross are not joined");
    if !notes.is_empty() {
        note("further runs:");
    }
    notes.iter().for_each(|text| note(text));
    entries
}
