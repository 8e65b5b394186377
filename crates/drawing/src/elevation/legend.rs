//! The legend: only what occurs on the drawing.

use super::card::{Card, CardKind};
use super::card_picture::{gauge, mark, symbol};
use super::page::Drawn;
use super::run_labels::Visible;
use super::run_look::{RunLine, RunLook};
use super::subject::Subject;
use super::suspects;
use super::ways::{Uprights, draw_way};
use crate::language::{Phrase, Word};
use crate::sheet::{LEGEND_PICTURE_MM, LegendEntry, SheetSize};
use latchline_assess::MarginStep as Step;
use latchline_finding::Severity;
use latchline_scene::font::{LEAST_MM, shortened};
use latchline_scene::palette::Ink;
use latchline_scene::{Dash, Layer, Pen, Stroke};
use latchline_site::catalogue::Environment;
use std::collections::BTreeSet;

/// What is on a sheet that its legend may have to explain.
pub(super) struct OnSheet {
    /// Indices of the cards.
    cards: Vec<usize>,
    /// Indices of the runs.
    runs: Vec<usize>,
    /// Whether lines cross.
    has_bridges: bool,
    /// The runs whose label found no room beside the line.
    notes: Vec<String>,
}

impl OnSheet {
    /// Everything, before it is cut into sheets.
    pub(super) fn all(subject: &Subject<'_>) -> Self {
        let (cards, runs) = ((0..subject.cards.len()).collect(), (0..subject.looks.len()).collect());
        OnSheet { cards, runs, has_bridges: false, notes: Vec::new() }
    }

    /// What the parts of a sheet show.
    pub(super) fn of(parts: &[Drawn]) -> Self {
        OnSheet {
            cards: parts.iter().flat_map(|part| part.cards.iter().copied()).collect(),
            runs: parts.iter().flat_map(|part| part.runs.iter().copied()).collect(),
            has_bridges: parts.iter().any(|part| part.has_bridges),
            notes: parts.iter().flat_map(|part| part.notes.iter().cloned()).collect(),
        }
    }
}

/// Entries of the legend of a sheet, then its runs whose label found no room beside the line.
pub(super) fn entries(subject: &Subject<'_>, shown: &OnSheet, size: SheetSize) -> Vec<LegendEntry> {
    let mut entries = suspects::entries(&subject.suspects, size);
    let cards: Vec<&Card> = shown.cards.iter().map(|card| &subject.cards[*card]).collect();
    let looks: Vec<&RunLook> = shown.runs.iter().map(|run| &subject.looks[*run]).collect();
    let thin_v = subject.site.policy.thin_margin.value.as_volts();
    let lettering = subject.lettering;
    let (thin, ample) = (&lettering.trimmed(thin_v, 2), &lettering.trimmed(Step::ample_v(thin_v), 2));
    for (step, words) in [
        (Step::Ample, lettering.say(&Phrase::MarginOrMore { least: ample })),
        (Step::Fair, lettering.say(&Phrase::MarginBetween { least: thin, most: ample })),
        (Step::Thin, lettering.say(&Phrase::MarginUnder { most: thin })),
        (Step::Below, String::from(lettering.word(Word::BelowLimit))),
    ] {
        if cards.iter().any(|card| card.step == Some(step)) {
            entries.push(LegendEntry {
                picture_width: 2.0,
                picture: Box::new(move |group, (x, y)| gauge(group, (x, y), LEGEND_PICTURE_MM, step)),
                text: words,
            });
        }
    }
    for kind in CardKind::ALL {
        if cards.iter().any(|card| card.kind == kind) {
            entries.push(LegendEntry {
                picture_width: 4.0,
                picture: Box::new(move |group, corner| symbol(group, kind, corner)),
                text: lettering.word(kind.word()).to_string(),
            });
        }
    }
    for severity in [Severity::Error, Severity::Warning, Severity::Advice] {
        let of_cards =
            cards.iter().any(|card| card.trouble.as_ref().is_some_and(|it| it.severity == severity));
        if of_cards || looks.iter().any(|look| look.mark == Some(severity)) {
            entries.push(LegendEntry {
                picture_width: 3.0,
                picture: Box::new(move |group, (x, y)| mark(group, severity, (x, y + 0.5), 3.0)),
                text: lettering.word(crate::language::severity_word(severity)).to_string(),
            });
        }
    }
    // What each pen says, then what each type of line says: only those that occur.
    let lines: BTreeSet<RunLine> = looks.iter().map(|look| look.line).collect();
    let mut line = |words: Word, pen: Pen, dash: Dash| {
        entries.push(LegendEntry {
            picture_width: 10.0,
            picture: Box::new(move |group, (x, y)| {
                let stroke = Stroke::solid(Ink::Wire, pen).dashed(dash);
                group.line(Layer::Wiring, (x, y + 2.0), (x + 10.0, y + 2.0), stroke);
            }),
            text: lettering.word(words).to_string(),
        });
    };
    let pens: BTreeSet<(bool, bool)> = lines.iter().map(|line| (line.is_existing, line.is_feeder)).collect();
    for (is_existing, is_feeder) in pens {
        let words = match (is_feeder, is_existing) {
            (false, false) => Word::Run,
            (true, false) => Word::RunToBox,
            (false, true) => Word::RunExisting,
            (true, true) => Word::RunToBoxExisting,
        };
        line(words, RunLine { environment: Environment::Indoors, is_existing, is_feeder }.pen(), Dash::Solid);
    }
    let environments: BTreeSet<Environment> = lines.iter().map(|line| line.environment).collect();
    if environments.iter().any(|environment| *environment != Environment::Indoors) {
        for environment in environments {
            let words = match environment {
                Environment::Indoors => Word::WayIndoors,
                Environment::Outdoors => Word::WayOutdoors,
                Environment::Buried => Word::WayBuried,
            };
            let of_it = RunLine { environment, is_existing: false, is_feeder: false };
            line(words, Pen::Middle, of_it.dash());
        }
    }
    if shown.has_bridges {
        entries.push(LegendEntry {
            picture_width: 6.0,
            picture: Box::new(|group, (x, y)| {
                let stroke = Stroke::solid(Ink::Wire, Pen::Middle);
                let upright = [((x + 3.0, y), (x + 3.0, y + 4.0))];
                let uprights = Uprights::of(&[Visible { run: 0, pieces: upright.to_vec() }]);
                group.line(Layer::Wiring, upright[0].0, upright[0].1, stroke);
                draw_way(group, &[(x, y + 2.4), (x + 6.0, y + 2.4)], &uprights, stroke);
            }),
            text: lettering.word(Word::CrossingLines).to_string(),
        });
    }
    let mut note = |text: &str| {
        entries.push(LegendEntry {
            picture_width: 0.0,
            picture: Box::new(|_, _| ()),
            text: shortened(text, LEAST_MM, false, size.width_mm - 24.0),
        });
    };
    if cards.iter().any(|card| card.step.is_some()) {
        note(lettering.word(Word::LowestVoltage));
        note(lettering.word(Word::MarginMeaning));
    }
    if let Some(conductor) = &subject.usual {
        note(&lettering.say(&Phrase::UsualConductor { conductor }));
    }
    if !shown.notes.is_empty() {
        note(lettering.word(Word::FurtherRuns));
    }
    shown.notes.iter().for_each(|text| note(text));
    entries
}
