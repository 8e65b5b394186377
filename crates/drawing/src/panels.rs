//! Charts below one another on sheets.

use crate::frame::Frame;
use crate::language::{Phrase, Word};
use crate::sheet::{LegendEntry, SheetOptions, SheetSize, TitleBlock, fitted, verdict_note};
use latchline_assess::Assessment;
use latchline_scene::{Area, Group, Layer, Scene};
use latchline_site::model::Site;

const GAP_MM: f64 = 6.0;

/// So many charts, each at least so high, on as many sheets as they take, with this legend; the words are the subject of the drawing, and what is said where there is no
/// chart.
pub(crate) fn panel_sheets(
    site: &Site,
    assessment: &Assessment,
    options: &SheetOptions,
    (charts, least_mm): (usize, f64),
    (subject, nothing): (Word, Word),
    entries: &[LegendEntry],
    draw: &dyn Fn(usize, Area) -> Group,
) -> Vec<Scene> {
    let lettering = options.lettering();
    let (subject, nothing) = (lettering.word(subject), lettering.word(nothing));
    let block = TitleBlock::of_site(site, subject, verdict_note(assessment, lettering), options)
        .of_kind(Word::KindChart);
    let frame = Frame::new(options.sheet.unwrap_or(SheetSize::A4), &block, entries);
    let content = frame.content;
    let rows = ((content.height + GAP_MM) / (least_mm + GAP_MM)).floor().max(1.0);
    let height = (content.height + GAP_MM) / rows - GAP_MM;
    let all: Vec<usize> = (0..charts).collect();
    let of_sheet = |charts: &[usize]| {
        let mut group = Group::new("charts");
        for (row, chart) in charts.iter().enumerate() {
            let y = content.y + row as f64 * (height + GAP_MM);
            group.group(draw(*chart, Area::new(content.x, y, content.width, height)));
        }
        group
    };
    let mut groups: Vec<Group> = all.chunks(rows as usize).map(of_sheet).collect();
    if groups.is_empty() {
        let mut group = Group::new("charts");
        group
            .text(Layer::Lettering, fitted((content.x, content.y + 6.0), nothing, 3.2, false, content.width));
        groups.push(group);
    }
    frame.sheets(groups, &block, entries, subject, &lettering.say(&Phrase::ChartsShow { charts }))
}
