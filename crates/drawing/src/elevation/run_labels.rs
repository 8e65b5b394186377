//! Where the designation of each run finds room beside its line.

use super::run_look::RunLook;
use crate::labels::{Candidate, Obstacles, place};
use latchline_scene::font::{ASCENT_EM, DESCENT_EM, LEAST_MM, text_width_mm};
use latchline_scene::{Area, Point, Text};

/// Size of the lettering.
pub(super) const LABEL_MM: f64 = LEAST_MM;
/// Distance of the box of a label from its line.
pub(super) const OFF_LINE_MM: f64 = 0.65;
/// How far labels are moved along a line from one candidate to the next.
const STEP_MM: f64 = 4.0;
/// Most candidates of one label: the conflict graph stays small.
const MOST_CANDIDATES: usize = 40;
/// Seed of the annealing: fixed, so that the same site gives the same drawing.
const SEED: u64 = 20;

/// The visible pieces of a run on one sheet.
pub(super) struct Visible {
    pub(super) run: usize,
    /// Straight pieces, in the order of the run.
    pub(super) pieces: Vec<(Point, Point)>,
}

/// A label with its mark of trouble.
#[derive(Debug, Clone)]
pub(super) struct Label {
    pub(super) text: Text,
    /// Left upper corner of the mark, where there is one.
    pub(super) mark: Option<Point>,
}

/// Edge of a mark of trouble.
pub(super) const MARK_MM: f64 = 2.4;

/// The labels that found room, and the runs that found none or only for their bare designation.
pub(super) fn place_labels(
    visible: &[Visible],
    looks: &[RunLook],
    obstacles: &Obstacles,
) -> (Vec<(usize, Label)>, Vec<usize>) {
    let mut choices: Vec<Vec<(Candidate, Label)>> = Vec::with_capacity(visible.len());
    for part in visible {
        let look = &looks[part.run];
        let mut found = Vec::new();
        for (rank, words) in [&look.label, &look.medium, &look.short].into_iter().enumerate() {
            // Few places for the whole label: shorter ones join in, at a price.
            if rank == 0 || found.len() < 8 {
                candidates(part, words, look, rank as f64 * 8.0, obstacles, &mut found);
            }
        }
        found.sort_by(|a, b| a.0.cost.total_cmp(&b.0.cost));
        found.truncate(MOST_CANDIDATES);
        choices.push(found);
    }
    let boxes: Vec<Vec<Candidate>> =
        choices.iter().map(|list| list.iter().map(|(candidate, _)| *candidate).collect()).collect();
    let mut placed = Vec::new();
    let mut unplaced = Vec::new();
    for ((part, list), chosen) in visible.iter().zip(&choices).zip(place(&boxes, SEED)) {
        match chosen {
            Some(number) => {
                let label = list[number].1.clone();
                if label.text.text != looks[part.run].label {
                    unplaced.push(part.run);
                }
                placed.push((part.run, label));
            }
            None => unplaced.push(part.run),
        }
    }
    (placed, unplaced)
}

fn candidates(
    part: &Visible,
    words: &str,
    look: &RunLook,
    penalty: f64,
    obstacles: &Obstacles,
    found: &mut Vec<(Candidate, Label)>,
) {
    let lead = if look.mark.is_some() { MARK_MM + 0.7 } else { 0.0 };
    let width = text_width_mm(words, LABEL_MM, false) + lead;
    let height = (ASCENT_EM + DESCENT_EM) * LABEL_MM;
    let text = Text::new((0.0, 0.0), words, LABEL_MM).ink(look.ink);
    for (number, (from, to)) in part.pieces.iter().enumerate() {
        let level = (from.1 - to.1).abs() < 1e-6;
        let base = penalty + (number as f64).min(12.0) * 0.4 + if level { 0.0 } else { 1.5 };
        let (start, end) = if level { ordered(from.0, to.0) } else { ordered(from.1, to.1) };
        if end - start < 1.5 {
            continue;
        }
        // The label may reach beyond a short piece, but must lie along most of it.
        let overhang = (width - (end - start)).max(0.0);
        let (first, last) = (start - overhang, end - width + overhang);
        let steps = (((last - first) / STEP_MM).ceil().max(1.0) as usize).min(60);
        for step in 0..=steps {
            let along = first + (last - first) * step as f64 / steps as f64;
            // Near the middle is better than at an end; hanging over is worse.
            let middle = ((along + width / 2.0) - (start + end) / 2.0).abs() / (end - start).max(1.0);
            let over = (start - along).max(0.0) + (along + width - end).max(0.0);
            let cost = base + middle + over * 0.15;
            let near = if level { from.1 } else { from.0 } - OFF_LINE_MM;
            let baseline = near - DESCENT_EM * LABEL_MM;
            let (area, at, mark) = if level {
                let area = Area::new(along, near - height, width, height);
                (area, (along + lead, baseline), (along, baseline - MARK_MM * 0.85))
            } else {
                let area = Area::new(near - height, along, height, width);
                let bottom = along + width;
                (area, (baseline, bottom - lead), (baseline - MARK_MM * 0.85, bottom - MARK_MM))
            };
            if obstacles.is_free(&area.grown(0.1)) {
                let text = Text { at, upward: !level, ..text.clone() };
                let mark = look.mark.map(|_| mark);
                found.push((Candidate { area: area.grown(0.25), leader: None, cost }, Label { text, mark }));
            }
        }
    }
}

fn ordered(a: f64, b: f64) -> (f64, f64) {
    (a.min(b), a.max(b))
}
