//! One sheet of the elevation: what of the canvas lies on it, drawn and lettered.

use super::canvas::{
    BESIDE_PARTS_MM, BETWEEN_PARTS_MM, CAPTION_MM, Canvas, Page, Placed, Sheet, clipped, moved, part_of,
};
use super::card_picture;
use super::match_lines::Side;
use super::plan::TAG_GAP_MM;
use super::run_labels::{LABEL_MM, OFF_LINE_MM};
use super::run_labels::{Label, MARK_MM, Visible, place_labels};
use super::subject::Subject;
use super::ways::{Uprights, bridge_area, draw_way, joined};
use crate::frame::Frame;
use crate::labels::Obstacles;
use crate::language::{Phrase, Word};
use crate::sheet::{LegendEntry, TitleBlock};
use latchline_scene::font::DESCENT_EM;
use latchline_scene::{Area, Group, Layer, Point, Role, Scene, Text};
use std::collections::BTreeMap;

/// A sheet as it is drawn, before it is moved into its frame.
pub(super) struct Drawn {
    group: Group,
    size: (f64, f64),
    /// Left and right edge of what is drawn.
    used: (f64, f64),
    /// Indices of the cards, and the runs that are shown.
    pub(super) cards: Vec<usize>,
    pub(super) runs: Vec<usize>,
    troubles: Vec<String>,
    /// Whether lines cross.
    pub(super) has_bridges: bool,
    /// What the labels that found no room would have said.
    pub(super) notes: Vec<String>,
}

/// Where the parts of a sheet lie in its frame: its shelves one below the other, the parts of each side by side on one ground, all of them in its
/// middle.
pub(super) fn placed(parts: &[Drawn], sheet: &Sheet, frame: &Frame, scale: f64) -> Vec<Placed> {
    let mut left_over = parts;
    let mut shelves: Vec<&[Drawn]> = Vec::with_capacity(sheet.shelves.len());
    for shelf in &sheet.shelves {
        let (here, rest) = left_over.split_at(shelf.len().min(left_over.len()));
        shelves.push(here);
        left_over = rest;
    }
    let height = |shelf: &[Drawn]| shelf.iter().map(|part| part.size.1).fold(0.0, f64::max);
    let gaps = BETWEEN_PARTS_MM * shelves.len().saturating_sub(1) as f64;
    let all = shelves.iter().map(|shelf| height(shelf)).sum::<f64>() + gaps;
    let mut below = (frame.content.height - all * scale) / 2.0;
    let mut places = Vec::with_capacity(parts.len());
    for shelf in shelves {
        if let [part] = shelf {
            places.push(Placed::in_the_middle(part.used, below, frame, scale));
        } else {
            let gaps = BESIDE_PARTS_MM * shelf.len().saturating_sub(1) as f64;
            let width = shelf.iter().map(|part| part.size.0).sum::<f64>() + gaps;
            let mut right = (frame.content.width - width * scale) / 2.0;
            for part in shelf {
                let ground = below + (height(shelf) - part.size.1) * scale;
                places.push(Placed::at((right, ground), frame, scale));
                right += (part.size.0 + BESIDE_PARTS_MM) * scale;
            }
        }
        below += (height(shelf) + BETWEEN_PARTS_MM) * scale;
    }
    places
}

impl Canvas<'_> {
    /// Draws a sheet. `shown` says which runs have been shown on an earlier one.
    pub(super) fn draw(&self, page: &Page, shown: &mut [bool]) -> Drawn {
        let part = part_of(self.plan, *page);
        let [left, top, right, bottom] = self.strips(*page);
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
        let uprights = Uprights::of(&visible);
        let bridges = visible.iter().flat_map(|part| &part.pieces).flat_map(|piece| uprights.bridges(*piece));
        let mut has_bridges = false;
        for bridge in bridges {
            has_bridges = true;
            obstacles.add(bridge_area(bridge).grown(0.3));
        }
        let mut tags = self.tags(*page, shift);
        for tag in tags.values().flatten() {
            obstacles.add(tag.area().grown(0.2));
        }
        let mut flags = Group::new("match");
        let sides = self.flags(*page, shift, &mut flags, &mut obstacles);
        let mut devices = Group::new("devices");
        let mut cards = Vec::new();
        let mut areas = Vec::new();
        let mut troubles = Vec::new();
        for (card, place) in self.plan.arrangement.place.iter().enumerate() {
            let here = group_here.down[page.down].contains(&place.0) && group_here.columns.contains(&place.1);
            if !here {
                continue;
            }
            let corner = self.plan.card_corner(group_here, card);
            let corner = (corner.0 + shift.0, corner.1 + shift.1);
            let size = self.plan.card_size(group_here, card);
            obstacles.add(Area::new(corner.0, corner.1, size.0, size.1).grown(0.7));
            let subject = &self.subject.cards[card];
            devices.group(card_picture::draw(
                subject,
                corner,
                size,
                &self.plan.routing.terminals[card],
                &self.plan.routing.ends[card],
            ));
            cards.push(card);
            areas.push((card, Area::new(corner.0, corner.1, size.0, size.1)));
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
        let marks = self.suspects(*page, (&part, shift), &areas, &mut obstacles);
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
                draw_way(&mut run, &path, &uprights, look.stroke());
            }
            for tag in tags.remove(&part.run).into_iter().flatten() {
                run.text(Layer::Lettering, tag);
            }
            if let Some(label) = by_run.remove(&part.run) {
                if let (Some(severity), Some(corner)) = (look.mark, label.mark) {
                    card_picture::mark(&mut run, severity, corner, MARK_MM);
                }
                run.text(Layer::Lettering, label.text);
            }
            wiring.group(run);
        }
        let (bands, marks) = marks.map(|marks| (marks.bands, marks.tags)).unzip();
        for part in bands.into_iter().chain([wiring, devices, flags]).chain(marks) {
            group.group(part);
        }
        // Flags stand beyond the edges.
        let used = (
            if used.0 <= left + 1.0 || sides.contains(&Side::Left) { 0.0 } else { used.0 },
            if used.1 >= left + part.width - 1.0 || sides.contains(&Side::Right) { size.0 } else { used.1 },
        );
        let runs = visible.iter().map(|part| part.run).collect();
        Drawn { used, group, size, cards, runs, troubles, has_bridges, notes }
    }

    /// The designation of each run that begins on the sheet, upright at the left of its line.
    fn tags(&self, page: Page, shift: Point) -> BTreeMap<usize, Vec<Text>> {
        let here = &self.plan.groups[page.across];
        let mut tags: BTreeMap<usize, Vec<Text>> = BTreeMap::new();
        for net in self.plan.routing.nets.iter().filter(|net| net.is_first) {
            let (row, column) = self.plan.arrangement.place[net.from.0];
            if !here.columns.contains(&column) || !here.down[page.down].contains(&row) {
                continue;
            }
            let look = &self.subject.looks[net.run];
            let (x, y) = moved(self.plan.leaves(here, net), shift);
            let end = y + TAG_GAP_MM + self.subject.tags[net.run];
            let at = (x - OFF_LINE_MM - DESCENT_EM * LABEL_MM, end);
            let tag = Text::new(at, look.short.clone(), LABEL_MM).ink(look.ink).upward();
            tags.entry(net.run).or_default().push(tag);
        }
        tags
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

/// Puts the parts of a sheet into its frame.
pub(super) fn finish(
    parts: Vec<Drawn>,
    sheet: &Sheet,
    (frame, scale): (&Frame, f64),
    block: &TitleBlock,
    entries: &[LegendEntry],
    (number, of): (usize, usize),
    subject: &Subject<'_>,
) -> Scene {
    let places = placed(&parts, sheet, frame, scale);
    let lettering = subject.lettering;
    let (site, all) = (block.site.as_str(), subject.cards.len());
    let devices = parts.iter().map(|part| part.cards.len()).sum();
    let mut description = lettering.say(&Phrase::ElevationShows { site, sheet: number, of, devices, all });
    let troubles: Vec<&str> = parts.iter().flat_map(|part| &part.troubles).map(String::as_str).collect();
    if !troubles.is_empty() {
        let troubles = &troubles.join("; ");
        description = format!("{description} {}", lettering.say(&Phrase::TroubleList { troubles }));
    }
    let what = lettering.word(Word::Elevation);
    let title = lettering.say(&Phrase::SheetTitle { site, what, sheet: number, of });
    let mut scene = frame.scene(title, description);
    scene.language = block.locale.language;
    for (part, place) in parts.into_iter().zip(places) {
        let mut group = part.group;
        group.transform(scale, place.shift);
        scene.root.group(group);
    }
    frame.draw(&mut scene.root, block, entries, number, of);
    scene
}
