//! The legend: only what occurs on the drawing.

use super::card::CardKind;
use super::card_picture::{gauge, mark, symbol};
use super::run_look::wire_width;
use super::subject::Subject;
use crate::font::shortened;
use crate::language::{Phrase, Word};
use crate::palette::Ink;
use crate::scene::{Dash, Layer, Stroke};
use crate::sheet::{LEGEND_PICTURE_MM, LegendEntry, SheetSize};
use latchline_assess::MarginStep as Step;
use latchline_finding::Severity;

/// Entries of the legend, then the runs of one sheet whose label found no room beside the line.
pub(super) fn entries(subject: &Subject<'_>, notes: &[String], size: SheetSize) -> Vec<LegendEntry> {
    let mut entries = Vec::new();
    let thin_v = subject.site.policy.thin_margin.value.as_volts();
    let lettering = subject.lettering;
    let (thin, ample) = (&lettering.trimmed(thin_v, 2), &lettering.trimmed(Step::ample_v(thin_v), 2));
    for (step, words) in [
        (Step::Ample, lettering.say(&Phrase::MarginOrMore { least: ample })),
        (Step::Fair, lettering.say(&Phrase::MarginBetween { least: thin, most: ample })),
        (Step::Thin, lettering.say(&Phrase::MarginUnder { most: thin })),
        (Step::Below, String::from(lettering.word(Word::BelowLimit))),
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
                text: lettering.word(kind.word()).to_string(),
            });
        }
    }
    for severity in [Severity::Error, Severity::Warning, Severity::Advice] {
        if subject.troubles.values().any(|trouble| trouble.severity == severity) {
            entries.push(LegendEntry {
                picture_width: 3.0,
                picture: Box::new(move |group, (x, y)| mark(group, severity, (x, y + 0.5), 3.0)),
                text: lettering.word(crate::language::severity_word(severity)).to_string(),
            });
        }
    }
    let mut line = |words: Word, width_mm: f64, dash: Dash| {
        entries.push(LegendEntry {
            picture_width: 8.0,
            picture: Box::new(move |group, (x, y)| {
                let stroke = Stroke::solid(Ink::Wire, width_mm).dashed(dash);
                group.line(Layer::Wiring, (x, y + 2.0), (x + 8.0, y + 2.0), stroke);
            }),
            text: lettering.word(words).to_string(),
        });
    };
    for (feeder, existing) in [(false, false), (true, false), (false, true), (true, true)] {
        if subject.looks.iter().any(|look| look.feeder == feeder && look.existing == existing) {
            let words = match (feeder, existing) {
                (false, false) => Word::Run,
                (true, false) => Word::RunToBox,
                (false, true) => Word::RunExisting,
                (true, true) => Word::RunToBoxExisting,
            };
            let dash = if existing { Dash::Dashed } else { Dash::Solid };
            line(words, wire_width(feeder), dash);
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
        note(lettering.word(Word::LowestVoltage));
        note(lettering.word(Word::MarginMeaning));
    }
    if let Some(conductor) = &subject.usual {
        note(&lettering.say(&Phrase::UsualConductor { conductor }));
    }
    note(lettering.word(Word::CrossingLines));
    if !notes.is_empty() {
        note(lettering.word(Word::FurtherRuns));
    }
    notes.iter().for_each(|text| note(text));
    entries
}
