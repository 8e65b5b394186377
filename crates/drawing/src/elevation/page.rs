//! One sheet of the elevation: what of the canvas lies on it, drawn and lettered.

use super::canvas::{CAPTION_MM, Canvas, Page, clipped, flag_strips, moved, part_of};
use super::card_picture;
use super::match_lines::Side;
use super::run_labels::{Label, MARK_MM, Visible, place_labels};
use super::subject::Subject;
use crate::frame::Frame;
use crate::labels::Obstacles;
use crate::language::{Phrase, Word};
use crate::scene::{Area, Group, Layer, Point, Role, Scene};
use crate::sheet::{LegendEntry, TitleBlock};
use std::collections::BTreeMap;

/// A sheet as it is drawn, before it is moved into its frame.
pub(super) struct Drawn {
    group: Group,
    size: (f64, f64),
    /// Left and right edge of what is drawn.
    used: (f64, f64),
    devices: usize,
    troubles: Vec<String>,
    /// What the labels that found no room would have said.
    pub(super) notes: Vec<String>,
}

impl Canvas<'_> {
    /// Draws a sheet. `shown` says which runs have been shown on an earlier one.
    pub(super) fn draw(&self, page: &Page, shown: &mut [bool]) -> Drawn {
        let part = part_of(self.plan, *page);
        let [left, top, right, bottom] = flag_strips(self.plan, *page, self.flag);
        let shift = (left - part.x, top - part.y);
        let mut group = Group::new("elevation");
        let mut obstacles = Obstacles::default();
        let mut used = self.buildings(*page, shift, &mut group, &mut obstacles);
        let group_here = &self.plan.groups[page.across];
        let visible = self.visible(*page, &part, shift);
        for piece in visible.iter().flat_map(|part| &part.pieces) {
            used = (used.0.min(piece.0.0.min(piece.1.0)), used.1.max(piece.0.0.max(piece.1.0)));
            obstacles.add(Area::between(piece.0, piece.1).grown(0.4));
        }
        let mut flags = Group::new("match");
        let sides = self.flags(*page, shift, &mut flags);
        let mut devices = Group::new("devices");
        let mut count = 0;
        let mut troubles = Vec::new();
        for (card, place) in self.plan.arrangement.place.iter().enumerate() {
            let here = group_here.down[page.down].contains(&place.0) && group_here.columns.contains(&place.1);
            if !here {
                continue;
            }
            let corner = self.plan.card_corner(group_here, card);
            let corner = (corner.0 + shift.0, corner.1 + shift.1);
            let size = (self.plan.widths[card], self.plan.card_height);
            obstacles.add(Area::new(corner.0, corner.1, size.0, size.1).grown(0.7));
            let subject = &self.subject.cards[card];
            devices.group(card_picture::draw(subject, corner, size, &self.plan.routing.terminals[card]));
            count += 1;
            if let Some(trouble) = &subject.trouble {
                troubles.push(format!("{} {}", subject.element, trouble.words));
            }
        }
        // Labels stay on the drawn part.
        let size = (part.width + left + right, part.height + top + bottom + CAPTION_MM);
        for edge in [
            Area::new(-500.0, -500.0, 500.0 + left, size.1 + 1000.0),
            Area::new(left + part.width, -500.0, 500.0 + right, size.1 + 1000.0),
            Area::new(-500.0, -500.0, size.0 + 1000.0, 500.0 + top),
            Area::new(-500.0, top + part.height, size.0 + 1000.0, 500.0 + bottom),
        ] {
            obstacles.add(edge);
        }
        let (labels, unplaced) = place_labels(&visible, &self.subject.looks, &obstacles);
        let mut by_run: BTreeMap<usize, Label> = labels.into_iter().collect();
        let notes = unplaced.iter().map(|run| self.subject.looks[*run].label.clone()).collect();
        let mut wiring = Group::new("wiring");
        for part in &visible {
            let look = &self.subject.looks[part.run];
            let id = self.subject.site.runs[part.run].id.to_string();
            let mut run = Group::of_element("run", id.clone(), look.title.clone());
            if std::mem::replace(&mut shown[part.run], true) {
                run.role = Role {
                    kind: "run",
                    continues: Some(id),
                    title: Some(look.title.clone()),
                    ..Role::default()
                };
            }
            for path in joined(&part.pieces) {
                run.path(Layer::Wiring, path, look.stroke());
            }
            if let Some(label) = by_run.remove(&part.run) {
                if let (Some(severity), Some(corner)) = (look.mark, label.mark) {
                    card_picture::mark(&mut run, severity, corner, MARK_MM);
                }
                run.text(Layer::Lettering, label.text);
            }
            wiring.group(run);
        }
        group.group(wiring);
        group.group(devices);
        group.group(flags);
        // Flags stand beyond the edges.
        let used = (
            if used.0 <= left + 1.0 || sides.contains(&Side::Left) { 0.0 } else { used.0 },
            if used.1 >= left + part.width - 1.0 || sides.contains(&Side::Right) { size.0 } else { used.1 },
        );
        Drawn { used, group, size, devices: count, troubles, notes }
    }

    /// Pieces of every run on the sheet.
    pub(super) fn visible(&self, page: Page, part: &Area, shift: Point) -> Vec<Visible> {
        let mut by_run: BTreeMap<usize, Vec<(Point, Point)>> = BTreeMap::new();
        for (net, path) in self.plan.routing.nets.iter().zip(&self.paths[page.across]) {
            let pieces = clipped(path, part);
            if !pieces.is_empty() {
                let moved = pieces.into_iter().map(|(a, b)| (moved(a, shift), moved(b, shift)));
                by_run.entry(net.run).or_default().extend(moved);
            }
        }
        by_run.into_iter().map(|(run, pieces)| Visible { run, pieces }).collect()
    }
}

/// Pieces that follow each other, as one way each.
pub(super) fn joined(pieces: &[(Point, Point)]) -> Vec<Vec<Point>> {
    let mut paths: Vec<Vec<Point>> = Vec::new();
    for (from, to) in pieces {
        match paths.last_mut() {
            Some(path) if path.last() == Some(from) => path.push(*to),
            _ => paths.push(vec![*from, *to]),
        }
    }
    paths
}

/// Puts a sheet into its frame.
pub(super) fn finish(
    drawn: Drawn,
    frame: &Frame,
    scale: f64,
    block: &TitleBlock,
    entries: &[LegendEntry],
    (number, of): (usize, usize),
    subject: &Subject<'_>,
) -> Scene {
    let Drawn { mut group, size, used, devices, troubles, .. } = drawn;
    let content = frame.content;
    let shift = (
        content.x + content.width / 2.0 - (used.0 + used.1) / 2.0 * scale,
        content.y + (content.height - size.1 * scale) / 2.0,
    );
    group.transform(scale, shift);
    let lettering = subject.lettering;
    let (site, sheet, all) = (block.site.as_str(), number, subject.cards.len());
    let mut description = lettering.say(&Phrase::ElevationShows { site, sheet, of, devices, all });
    if !troubles.is_empty() {
        let troubles = &troubles.join("; ");
        description = format!("{description} {}", lettering.say(&Phrase::TroubleList { troubles }));
    }
    let what = lettering.word(Word::Elevation);
    let title = lettering.say(&Phrase::SheetTitle { site, what, sheet, of });
    let mut scene = frame.scene(title, description);
    scene.language = block.locale.language;
    scene.root.group(group);
    frame.draw(&mut scene.root, block, entries, number, of);
    scene
}
