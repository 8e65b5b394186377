//! One sheet of the elevation: what of the canvas lies on it, drawn and lettered.

use super::card::Trouble;
use super::card_picture;
use super::match_lines::Side;
use super::plan::ElevationPlan;
use super::run_labels::{Label, MARK_MM, Visible, place_labels};
use super::{MOST_ENLARGED, Subject};
use crate::frame::Frame;
use crate::labels::Obstacles;
use crate::language::{Lettering, Phrase, Word};
use crate::palette::Ink;
use crate::scene::{Area, Dash, Group, Layer, Point, Role, Scene, Stroke};
use crate::sheet::{LegendEntry, TitleBlock};
use latchline_finding::Severity;
use latchline_site::model::{Run, RunStop, Site};
use std::collections::BTreeMap;

/// Height of the strip with the names of buildings and cores.
pub(super) const CAPTION_MM: f64 = 12.0;
/// Width of the line of a run.
pub(super) fn wire_width(feeder: bool) -> f64 {
    if feeder { 0.65 } else { 0.35 }
}

/// The conductor of most runs, if it is worth leaving out of their labels.
pub(super) fn usual_conductor(site: &Site, lettering: Lettering) -> Option<String> {
    let mut counts: BTreeMap<String, usize> = BTreeMap::new();
    for run in &site.runs {
        *counts.entry(lettering.conductor(site, run)).or_default() += 1;
    }
    let (most, count) = counts.into_iter().max_by_key(|(_, count)| *count)?;
    (site.runs.len() > 3 && 2 * count >= site.runs.len()).then_some(most)
}

/// How a run is drawn and lettered.
#[derive(Debug, Clone)]
pub(super) struct RunLook {
    pub(super) label: String,
    /// What is left of it where there is less room.
    pub(super) medium: String,
    pub(super) short: String,
    pub(super) feeder: bool,
    pub(super) existing: bool,
    pub(super) ink: Ink,
    pub(super) mark: Option<Severity>,
    pub(super) title: String,
}

impl RunLook {
    /// `usual` is the conductor that is not named on the drawing, if there is one.
    pub(super) fn new(
        site: &Site,
        run: &Run,
        troubles: &BTreeMap<String, Trouble>,
        usual: Option<&str>,
        lettering: Lettering,
    ) -> Self {
        let length = lettering.length(run.length().as_metres());
        let conductor = lettering.conductor(site, run);
        let full = format!("{} · {length} · {conductor}", run.id);
        let mut label =
            if usual == Some(conductor.as_str()) { format!("{} · {length}", run.id) } else { full.clone() };
        let mut title = full;
        let trouble = troubles.get(run.id.as_str());
        let marked = trouble.filter(|trouble| trouble.severity > Severity::Advice);
        if let Some(trouble) = trouble {
            let severity = lettering.word(crate::language::severity_word(trouble.severity));
            title = format!("{title}; {severity}: {}", trouble.words);
        }
        if let Some(trouble) = marked {
            label = format!("{label} · {}", trouble.words);
        }
        let stops: Vec<&str> = run.sections.iter().map(|section| site.stop_id(section.to).as_str()).collect();
        Self {
            short: run.id.to_string(),
            medium: format!("{} · {length}", run.id),
            feeder: run.sections.iter().any(|section| !matches!(section.to, RunStop::Station(_))),
            existing: run.existing.value,
            ink: marked.map_or(Ink::Text, |trouble| card_picture::ink_of(trouble.severity)),
            mark: marked.map(|trouble| trouble.severity),
            title: lettering.say(&Phrase::RunFromTo {
                run: &title,
                from: &site.start_id(run.from).to_string(),
                to: &stops.join(", "),
            }),
            label,
        }
    }

    pub(super) fn stroke(&self) -> Stroke {
        let ink = match self.mark {
            Some(Severity::Error) => Ink::Trouble,
            Some(Severity::Warning) => Ink::Doubt,
            _ => Ink::Wire,
        };
        let dash = if self.existing { Dash::Dashed } else { Dash::Solid };
        Stroke::solid(ink, wire_width(self.feeder)).dashed(dash)
    }
}

/// Place of a sheet in the cut: group of columns, and which one downward.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Page {
    pub(super) across: usize,
    pub(super) down: usize,
}

/// The ways of all nets, with the heights of each group.
pub(super) fn paths(plan: &ElevationPlan) -> Vec<Vec<Vec<Point>>> {
    let of_group = |group| plan.routing.nets.iter().map(|net| plan.path(group, net)).collect();
    plan.groups.iter().map(of_group).collect()
}

/// The sheets that have anything on them, group by group from the top down.
pub(super) fn pages(plan: &ElevationPlan, paths: &[Vec<Vec<Point>>]) -> Vec<Page> {
    let mut pages = Vec::new();
    for (across, group) in plan.groups.iter().enumerate() {
        for (down, rows) in group.down.iter().enumerate() {
            let has_cards = plan
                .arrangement
                .place
                .iter()
                .any(|(row, column)| rows.contains(row) && group.columns.contains(column));
            let area = part_of(plan, Page { across, down });
            let has_lines = || paths[across].iter().any(|path| !clipped(path, &area).is_empty());
            if has_cards || has_lines() {
                pages.push(Page { across, down });
            }
        }
    }
    pages
}

/// The number of each sheet.
pub(super) fn numbers(pages: &[Page]) -> BTreeMap<Page, usize> {
    pages.iter().enumerate().map(|(number, page)| (*page, number + 1)).collect()
}

/// The part of the canvas on a sheet.
pub(super) fn part_of(plan: &ElevationPlan, page: Page) -> Area {
    let group = &plan.groups[page.across];
    let (left, right) = plan.span_x(&group.columns);
    let (top, bottom) = group.span_y(&group.down[page.down]);
    Area::new(left, top, right - left, bottom - top)
}

/// Free strips around the part for flags: left, top, right, bottom.
fn flag_strips(plan: &ElevationPlan, page: Page, flag: f64) -> [f64; 4] {
    let strip = |there: bool| if there { flag } else { 0.0 };
    [
        strip(page.across > 0),
        strip(page.down > 0),
        strip(page.across + 1 < plan.groups.len()),
        strip(page.down + 1 < plan.groups[page.across].down.len()),
    ]
}

fn extent(plan: &ElevationPlan, page: Page, flag: f64) -> (f64, f64) {
    let part = part_of(plan, page);
    let [left, top, right, bottom] = flag_strips(plan, page, flag);
    (part.width + left + right, part.height + top + bottom + CAPTION_MM)
}

/// The factor by which every sheet can be enlarged.
pub(super) fn scale(plan: &ElevationPlan, pages: &[Page], room: (f64, f64), flag: f64) -> f64 {
    pages
        .iter()
        .map(|page| {
            let (width, height) = extent(plan, *page, flag);
            (room.0 / width).min(room.1 / height)
        })
        .fold(MOST_ENLARGED, f64::min)
}

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

/// Everything a sheet is drawn from.
pub(super) struct Canvas<'c> {
    pub(super) subject: &'c Subject<'c>,
    pub(super) plan: &'c ElevationPlan,
    pub(super) paths: &'c [Vec<Vec<Point>>],
    pub(super) numbers: &'c BTreeMap<Page, usize>,
    pub(super) flag: f64,
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
                run.role =
                    Role { kind: "run", element: None, continues: Some(id), title: Some(look.title.clone()) };
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

pub(super) fn moved(point: Point, shift: Point) -> Point {
    (point.0 + shift.0, point.1 + shift.1)
}

/// The straight pieces of a way that lie within an area. Ways are level or upright throughout.
fn clipped(path: &[Point], area: &Area) -> Vec<(Point, Point)> {
    let mut pieces = Vec::new();
    for pair in path.windows(2) {
        let (a, b) = (pair[0], pair[1]);
        let clamp = |p: Point| (p.0.clamp(area.x, area.right()), p.1.clamp(area.y, area.bottom()));
        let level = (a.1 - b.1).abs() < 1e-9;
        let across_within =
            if level { a.1 >= area.y && a.1 <= area.bottom() } else { a.0 >= area.x && a.0 <= area.right() };
        if !across_within {
            continue;
        }
        let (from, to) = (clamp(a), clamp(b));
        if (from.0 - to.0).abs() + (from.1 - to.1).abs() > 1e-6 {
            pieces.push((from, to));
        }
    }
    pieces
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
