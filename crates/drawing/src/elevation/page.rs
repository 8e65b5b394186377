//! One sheet of the elevation: what of the canvas lies on it, drawn and lettered.

use super::arrange::FLOOR_TEXT_MM;
use super::card::Trouble;
use super::card_picture;
use super::plan::Plan;
use super::run_labels::{LABEL_MM, Label, MARK_MM, Visible, place_labels};
use super::{MOST_ENLARGED, Subject};
use crate::figure::{conductor, metres};
use crate::font::text_width_mm;
use crate::labels::Obstacles;
use crate::palette::Ink;
use crate::scene::{Anchor, Area, Dash, Group, Layer, Point, Role, Scene, Stroke, Text};
use crate::sheet::{Frame, LegendEntry, TitleBlock, centred, fitted};
use latchline_finding::Severity;
use latchline_site::model::{Run, RunStop, Site};
use std::collections::BTreeMap;

/// Height of the strip with the names of buildings and cores.
pub(super) const CAPTION_MM: f64 = 12.0;
/// How far a line goes beyond a match line.
const BEYOND_MM: f64 = 2.0;

/// Width of the line of a run.
pub(super) fn wire_width(feeder: bool) -> f64 {
    if feeder { 0.65 } else { 0.35 }
}

/// The conductor of most runs, if it is worth leaving out of their labels.
pub(super) fn usual_conductor(site: &Site) -> Option<String> {
    let mut counts: BTreeMap<String, usize> = BTreeMap::new();
    for run in &site.runs {
        *counts.entry(conductor(site, run)).or_default() += 1;
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
    title: String,
}

impl RunLook {
    /// `usual` is the conductor that is not named on the drawing, if there is one.
    pub(super) fn new(
        site: &Site,
        run: &Run,
        troubles: &BTreeMap<String, Trouble>,
        usual: Option<&str>,
    ) -> Self {
        let length = metres(run.sections.iter().map(|section| section.length.value.as_metres()).sum());
        let conductor = conductor(site, run);
        let full = format!("{} · {length} · {conductor}", run.id);
        let mut label =
            if usual == Some(conductor.as_str()) { format!("{} · {length}", run.id) } else { full.clone() };
        let mut title = full;
        let trouble = troubles.get(run.id.as_str());
        let marked = trouble.filter(|trouble| trouble.severity > Severity::Advice);
        if let Some(trouble) = trouble {
            title = format!("{title}; {}: {}", trouble.severity.word(), trouble.words);
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
            title: format!("run {title}, from {} to {}", site.start_id(run.from), stops.join(", ")),
            label,
        }
    }

    fn stroke(&self) -> Stroke {
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
    across: usize,
    down: usize,
}

/// The ways of all nets, with the heights of each group.
pub(super) fn paths(plan: &Plan) -> Vec<Vec<Vec<Point>>> {
    let of_group = |group| plan.routing.nets.iter().map(|net| plan.path(group, net)).collect();
    plan.groups.iter().map(of_group).collect()
}

/// The sheets that have anything on them, group by group from the top down.
pub(super) fn pages(plan: &Plan, paths: &[Vec<Vec<Point>>]) -> Vec<Page> {
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
fn part_of(plan: &Plan, page: Page) -> Area {
    let group = &plan.groups[page.across];
    let (left, right) = plan.span_x(&group.columns);
    let (top, bottom) = group.span_y(&group.down[page.down]);
    Area::new(left, top, right - left, bottom - top)
}

/// Free strips around the part for flags: left, top, right, bottom.
fn flag_strips(plan: &Plan, page: Page, flag: f64) -> [f64; 4] {
    let strip = |there: bool| if there { flag } else { 0.0 };
    [
        strip(page.across > 0),
        strip(page.down > 0),
        strip(page.across + 1 < plan.groups.len()),
        strip(page.down + 1 < plan.groups[page.across].down.len()),
    ]
}

fn extent(plan: &Plan, page: Page, flag: f64) -> (f64, f64) {
    let part = part_of(plan, page);
    let [left, top, right, bottom] = flag_strips(plan, page, flag);
    (part.width + left + right, part.height + top + bottom + CAPTION_MM)
}

/// The factor by which every sheet can be enlarged.
pub(super) fn scale(plan: &Plan, pages: &[Page], room: (f64, f64), flag: f64) -> f64 {
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
    pub(super) plan: &'c Plan,
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
    fn visible(&self, page: Page, part: &Area, shift: Point) -> Vec<Visible> {
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

    /// Bands, names of floors, outlines and captions; gives the left and right edge of what is there.
    fn buildings(
        &self,
        page: Page,
        shift: Point,
        group: &mut Group,
        obstacles: &mut Obstacles,
    ) -> (f64, f64) {
        let plan = self.plan;
        let arrangement = &plan.arrangement;
        let here = &plan.groups[page.across];
        let (rows, columns) = (&here.down[page.down], &here.columns);
        let mut bands = Group::new("buildings");
        let goes_on = page.down + 1 < here.down.len();
        // Flags of lines that go on below stand between the building and its caption.
        let below = here.row_top[rows.end] + shift.1 + if goes_on { self.flag } else { 0.0 };
        let mut used = (f64::INFINITY, f64::NEG_INFINITY);
        let mut start = columns.start;
        while start < columns.end {
            let building = arrangement.columns[start].building;
            let mut end = start + 1;
            while end < columns.end && building.is_some() && arrangement.columns[end].building == building {
                end += 1;
            }
            let (left, right) = plan.span_x(&(start..end));
            let (left, right) = (left + shift.0, right + shift.0);
            let (lowest, highest) = (start..end)
                .map(|column| arrangement.columns[column].levels)
                .fold((i32::MAX, i32::MIN), |(low, high), (l, h)| (low.min(l), high.max(h)));
            let mut span: Option<(f64, f64)> = None;
            let mut row = rows.start;
            while row < rows.end {
                let level = arrangement.rows[row].level;
                let mut next = row + 1;
                while next < rows.end && arrangement.rows[next].level == level {
                    next += 1;
                }
                let (top, floor) = (here.row_top[row] + shift.1, here.row_top[next] + shift.1);
                if (lowest..=highest).contains(&level) && floor > top {
                    span = Some((span.map_or(top, |(known, _)| known), floor));
                    let band = Area::new(left, top, right - left, floor - top);
                    let fill = if level.rem_euclid(2) == 0 { Ink::Band } else { Ink::Paper };
                    bands.rectangle(Layer::Building, band, 0.0, None, Some(fill));
                    let slab = Stroke::solid(Ink::Outline, 0.25);
                    bands.line(Layer::Building, (left, floor), (right, floor), slab);
                    obstacles.add(Area::new(left, floor - 0.2, right - left, 0.4));
                    let name = &arrangement.floor_names[&(start, level)];
                    let room = arrangement.columns[start].gutter - 3.0;
                    if !name.is_empty() {
                        let at = (left + 1.8, top + 7.0);
                        let text = fitted(at, name, FLOOR_TEXT_MM, 2.4, true, room).ink(Ink::Quiet);
                        obstacles.add(text.area());
                        bands.text(Layer::Building, text);
                    }
                }
                row = next;
            }
            if let Some((top, base)) = span {
                let outline = Area::new(left, top, right - left, base - top);
                let dash = if building.is_some() { Dash::Solid } else { Dash::Dashed };
                let stroke = Stroke::solid(Ink::Outline, 0.5).dashed(dash);
                bands.rectangle(Layer::Building, outline, 0.0, Some(stroke), None);
                for x in [left, right] {
                    obstacles.add(Area::new(x - 0.3, top, 0.6, base - top));
                }
                used = (used.0.min(left), used.1.max(right));
                self.captions(start..end, (left, right), below, shift, &mut bands);
            }
            start = end;
        }
        group.group(bands);
        used
    }

    /// Names of cores and of the building, below it.
    fn captions(
        &self,
        columns: std::ops::Range<usize>,
        (left, right): (f64, f64),
        below: f64,
        shift: Point,
        group: &mut Group,
    ) {
        let plan = self.plan;
        let first = &plan.arrangement.columns[columns.start];
        for column in columns.clone() {
            let core = &plan.arrangement.columns[column].core;
            if !core.is_empty() {
                let x = plan.x.riser[column] + shift.0;
                let end = plan.x.column[column] + plan.x.column_width[column] + shift.0;
                let text = centred(((x + end) / 2.0, below + 4.0), core, 3.0, false, end - x - 2.0);
                group.text(Layer::Building, text.ink(Ink::Quiet));
            }
        }
        let title = match first.building {
            Some(building) => {
                let building = &self.subject.site.buildings[building];
                if building.title == building.id.as_str() {
                    building.title.clone()
                } else {
                    format!("{} · {}", building.id, building.title)
                }
            }
            None => first.title.to_string(),
        };
        let text = centred(((left + right) / 2.0, below + 9.2), &title, 4.0, true, right - left);
        group.text(Layer::Building, text);
    }

    /// Match lines and, where a run crosses one, its designation and the sheet where it goes on; gives
    /// the sides that have one.
    fn flags(&self, page: Page, shift: Point, group: &mut Group) -> Vec<Side> {
        let part = part_of(self.plan, page);
        let mut sides = Vec::new();
        for side in [Side::Left, Side::Top, Side::Right, Side::Bottom] {
            let mut crossings = self.crossings(page, side, &part);
            crossings.sort_by(|a, b| a.at.partial_cmp(&b.at).unwrap_or(std::cmp::Ordering::Equal));
            if crossings.is_empty() && !self.is_torn(page, side) {
                continue;
            }
            sides.push(side);
            let (a, b) = self.match_line(side, page, &part);
            let line = Stroke::solid(Ink::Outline, 0.35).dashed(Dash::DashDot);
            group.line(Layer::Frame, moved(a, shift), moved(b, shift), line);
            let mut free = Obstacles::default();
            let size = LABEL_MM.min(crowding(&crossings, side) / 1.2);
            for crossing in &crossings {
                let at = moved(crossing.at, shift);
                let out = side.beyond(at, BEYOND_MM);
                group.line(Layer::Wiring, at, out, self.subject.looks[crossing.run].stroke());
                let words = format!("{} → {}", self.subject.site.runs[crossing.run].id, crossing.sheet);
                let text = side.flag(out, &words, size, self.flag - BEYOND_MM - 1.0);
                free.add(text.area());
                free.add(Area::between(at, out).grown(0.3));
                group.text(Layer::Lettering, text);
            }
            let beyond = Page { down: page.down.wrapping_add_signed(side.step()), ..page };
            let mut sheets: Vec<usize> = crossings.iter().map(|crossing| crossing.sheet).collect();
            if !side.is_upright() {
                sheets.extend(self.numbers.get(&beyond));
            }
            sheets.sort_unstable();
            sheets.dedup();
            self.match_word(side, (moved(a, shift), moved(b, shift)), &sheets, &free, group);
        }
        sides
    }

    /// Where runs leave a sheet on this side.
    fn crossings(&self, page: Page, side: Side, part: &Area) -> Vec<Crossing> {
        let plan = self.plan;
        let here = &plan.groups[page.across];
        let mut crossings = Vec::new();
        if side.is_upright() {
            let Some(beyond) = page.across.checked_add_signed(side.step()) else { return crossings };
            let Some(group) = plan.groups.get(beyond) else { return crossings };
            let edge = if side == Side::Left { part.x } else { part.right() };
            for net in &plan.routing.nets {
                for (row, lane, from, to) in plan.level_pieces(net) {
                    let crosses = (from - edge) * (to - edge) < 0.0 && here.down[page.down].contains(&row);
                    let down = group.down_of(row);
                    let sheet = down.and_then(|down| self.numbers.get(&Page { across: beyond, down }));
                    if let (true, Some(sheet)) = (crosses, sheet) {
                        crossings.push(Crossing {
                            run: net.run,
                            at: (edge, here.lane_y(row, lane)),
                            sheet: *sheet,
                        });
                    }
                }
            }
            return crossings;
        }
        let Some(down) = page.down.checked_add_signed(side.step()) else { return crossings };
        let Some(sheet) = self.numbers.get(&Page { down, ..page }) else { return crossings };
        let edge = if side == Side::Top { part.y } else { part.bottom() };
        for (net, path) in plan.routing.nets.iter().zip(&self.paths[page.across]) {
            for pair in path.windows(2) {
                let upright = (pair[0].0 - pair[1].0).abs() < 1e-9;
                let within = pair[0].0 >= part.x && pair[0].0 <= part.right();
                if upright && within && (pair[0].1 - edge) * (pair[1].1 - edge) < 0.0 {
                    crossings.push(Crossing { run: net.run, at: (pair[0].0, edge), sheet: *sheet });
                }
            }
        }
        crossings
    }

    /// Whether a building goes on beyond this side.
    fn is_torn(&self, page: Page, side: Side) -> bool {
        let groups = &self.plan.groups;
        if !side.is_upright() {
            let beyond = page.down.checked_add_signed(side.step());
            return beyond.is_some_and(|down| self.numbers.contains_key(&Page { down, ..page }));
        }
        let columns = &self.plan.arrangement.columns;
        let here = &groups[page.across].columns;
        let (a, b) = if side == Side::Left {
            (here.start.checked_sub(1), Some(here.start))
        } else {
            (Some(here.end - 1), Some(here.end).filter(|end| *end < columns.len()))
        };
        a.zip(b)
            .is_some_and(|(a, b)| columns[a].building.is_some() && columns[a].building == columns[b].building)
    }

    /// The match line on a side: as far as there are buildings or crossing lines.
    fn match_line(&self, side: Side, page: Page, part: &Area) -> (Point, Point) {
        let (a, b) = side.edge(part);
        if side.is_upright() {
            return (a, b);
        }
        let plan = self.plan;
        let here = &plan.groups[page.across];
        let levels = here.down[page.down].clone().map(|row| plan.arrangement.rows[row].level);
        let (low, high) =
            levels.fold((i32::MAX, i32::MIN), |(low, high), level| (low.min(level), high.max(level)));
        let mut span = (f64::INFINITY, f64::NEG_INFINITY);
        for column in here.columns.clone() {
            let (lowest, highest) = plan.arrangement.columns[column].levels;
            if lowest <= high && highest >= low {
                let left = plan.x.column[column];
                span = (span.0.min(left), span.1.max(left + plan.x.column_width[column]));
            }
        }
        if span.0 < span.1 { ((span.0, a.1), (span.1, b.1)) } else { (a, b) }
    }

    /// "match line, sheet n" where no flag stands.
    fn match_word(
        &self,
        side: Side,
        (a, b): (Point, Point),
        sheets: &[usize],
        free: &Obstacles,
        group: &mut Group,
    ) {
        let numbers: Vec<String> = sheets.iter().map(usize::to_string).collect();
        let words = match sheets.len() {
            0 => String::from("match line"),
            1 => format!("match line, sheet {}", numbers[0]),
            _ => format!("match line, sheets {}", numbers.join(", ")),
        };
        let width = text_width_mm(&words, LABEL_MM, false);
        let steps = 200;
        for step in 0..=steps {
            let share = f64::from(step) / f64::from(steps);
            let text = match side {
                Side::Top | Side::Bottom => {
                    let x = a.0 + (b.0 - a.0 - width) * share;
                    let y = if side == Side::Top { a.1 - 1.2 } else { a.1 + 3.2 };
                    Text::new((x, y), words.clone(), LABEL_MM)
                }
                Side::Left | Side::Right => {
                    let y = a.1 + width + (b.1 - a.1 - width) * share;
                    let x = if side == Side::Left { a.0 - 1.2 } else { a.0 + 3.2 };
                    Text::new((x, y), words.clone(), LABEL_MM).upward()
                }
            };
            if free.is_free(&text.area().grown(0.3)) {
                group.text(Layer::Frame, text.ink(Ink::Quiet));
                return;
            }
        }
    }
}

/// Least distance of two crossings along a side, not more than a lane.
fn crowding(crossings: &[Crossing], side: Side) -> f64 {
    let mut along: Vec<f64> = crossings
        .iter()
        .map(|crossing| if side.is_upright() { crossing.at.1 } else { crossing.at.0 })
        .collect();
    along.sort_by(f64::total_cmp);
    along.windows(2).map(|pair| pair[1] - pair[0]).fold(3.6, f64::min)
}

/// A run that leaves a sheet.
struct Crossing {
    run: usize,
    at: Point,
    /// Where it goes on.
    sheet: usize,
}

/// A side of a sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Side {
    Left,
    Top,
    Right,
    Bottom,
}

impl Side {
    fn is_upright(self) -> bool {
        matches!(self, Side::Left | Side::Right)
    }

    fn edge(self, part: &Area) -> (Point, Point) {
        let (x, y) = ((part.x, part.right()), (part.y, part.bottom()));
        match self {
            Side::Left => ((x.0, y.0), (x.0, y.1)),
            Side::Right => ((x.1, y.0), (x.1, y.1)),
            Side::Top => ((x.0, y.0), (x.1, y.0)),
            Side::Bottom => ((x.0, y.1), (x.1, y.1)),
        }
    }

    /// Towards which neighbour: across or down.
    fn step(self) -> isize {
        if matches!(self, Side::Left | Side::Top) { -1 } else { 1 }
    }

    fn beyond(self, point: Point, by: f64) -> Point {
        match self {
            Side::Left => (point.0 - by, point.1),
            Side::Right => (point.0 + by, point.1),
            Side::Top => (point.0, point.1 - by),
            Side::Bottom => (point.0, point.1 + by),
        }
    }

    fn flag(self, out: Point, words: &str, size: f64, room: f64) -> Text {
        let drop = size * 0.35;
        let text = match self {
            Side::Left => {
                fitted((out.0 - 0.8, out.1 + drop), words, size, size * 0.7, true, room).anchored(Anchor::End)
            }
            Side::Right => fitted((out.0 + 0.8, out.1 + drop), words, size, size * 0.7, true, room),
            Side::Top => fitted((out.0 + drop, out.1 - 0.8), words, size, size * 0.7, true, room).upward(),
            Side::Bottom => fitted((out.0 + drop, out.1 + 0.8), words, size, size * 0.7, true, room)
                .upward()
                .anchored(Anchor::End),
        };
        text.bold()
    }
}

fn moved(point: Point, shift: Point) -> Point {
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
fn joined(pieces: &[(Point, Point)]) -> Vec<Vec<Point>> {
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
    let mut description = format!(
        "Elevation of {}, sheet {number} of {of}: {devices} of {} devices and their runs.",
        block.site,
        subject.cards.len()
    );
    if !troubles.is_empty() {
        description.push_str(&format!(" Trouble: {}.", troubles.join("; ")));
    }
    let title = format!("{}: elevation, sheet {number} of {of}", block.site);
    let mut scene = frame.scene(title, description);
    scene.root.group(group);
    frame.draw(&mut scene.root, block, entries, number, of);
    scene
}
