//! The canvas, and how it is cut into sheets.

use super::plan::ElevationPlan;
use super::subject::Subject;
use crate::frame::Frame;
use latchline_scene::{Area, Point};
use std::collections::BTreeMap;

/// A drawing is enlarged to fill its sheet up to this factor.
pub(super) const MOST_ENLARGED: f64 = 1.45;
/// Height of the strip with the names of buildings and cores.
pub(super) const CAPTION_MM: f64 = 10.0;
/// Between parts that stand one below the other on a sheet.
pub(super) const BETWEEN_PARTS_MM: f64 = 4.0;
/// Between parts that stand side by side on a sheet.
pub(super) const BESIDE_PARTS_MM: f64 = 8.0;

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

/// What stands on a sheet: shelves one below the other, with the parts of each side by side.
#[derive(Debug, Clone, PartialEq, Default)]
pub(super) struct Sheet {
    pub(super) shelves: Vec<Vec<Page>>,
}

impl Sheet {
    /// Each part, shelf by shelf.
    pub(super) fn parts(&self) -> impl Iterator<Item = Page> {
        self.shelves.iter().flatten().copied()
    }

    /// Width and height of all that stands on it.
    fn size(&self, size_of: &impl Fn(Page) -> (f64, f64)) -> (f64, f64) {
        let of_shelf = |shelf: &Vec<Page>| {
            let sizes = shelf.iter().map(|page| size_of(*page));
            sizes.fold((-BESIDE_PARTS_MM, 0.0_f64), |all, size| {
                (all.0 + BESIDE_PARTS_MM + size.0, all.1.max(size.1))
            })
        };
        self.shelves.iter().map(of_shelf).fold((0.0_f64, -BETWEEN_PARTS_MM), |all, shelf| {
            (all.0.max(shelf.0), all.1 + BETWEEN_PARTS_MM + shelf.1)
        })
    }

    /// The same sheet with one part more, if there is room: on a shelf, else below the last.
    fn with(&self, page: Page, room: (f64, f64), size_of: &impl Fn(Page) -> (f64, f64)) -> Option<Sheet> {
        (0..=self.shelves.len()).find_map(|shelf| {
            let mut sheet = self.clone();
            match sheet.shelves.get_mut(shelf) {
                Some(parts) => parts.push(page),
                None => sheet.shelves.push(vec![page]),
            }
            let size = sheet.size(size_of);
            (size.0 <= room.0 && size.1 <= room.1).then_some(sheet)
        })
    }
}

/// The number of the sheet on which each part is.
pub(super) fn numbers(sheets: &[Sheet]) -> BTreeMap<Page, usize> {
    let numbered =
        |(number, sheet): (usize, &Sheet)| sheet.parts().map(|page| (page, number + 1)).collect::<Vec<_>>();
    sheets.iter().enumerate().flat_map(numbered).collect()
}

/// Each part on a sheet of its own.
pub(super) fn one_each(pages: &[Page]) -> Vec<Sheet> {
    pages.iter().map(|page| Sheet { shelves: vec![vec![*page]] }).collect()
}

/// Which parts share a sheet at the least scale: each stands on the first sheet that has room, in their order or from the highest down,
/// whichever takes fewer sheets. (First fit; from the highest down it is the shelf packing of Coffman, Garey, Johnson and Tarjan,
/// "Performance bounds for level-oriented two-dimensional packing algorithms", 1980; from memory. No claim is made of how near to
/// the fewest it comes.)
pub(super) fn sheets(plan: &ElevationPlan, pages: &[Page], room: (f64, f64), strips: &Strips) -> Vec<Sheet> {
    let size_of = |page: Page| size_of(plan, page, strips);
    let filled = |order: &[Page]| {
        let mut sheets: Vec<Sheet> = Vec::new();
        for page in order {
            let first = sheets
                .iter()
                .enumerate()
                .find_map(|(number, sheet)| sheet.with(*page, room, &size_of).map(|with| (number, with)));
            match first {
                Some((number, with)) => sheets[number] = with,
                None => sheets.push(Sheet { shelves: vec![vec![*page]] }),
            }
        }
        sheets
    };
    let in_order = filled(pages);
    let mut highest_first = pages.to_vec();
    highest_first.sort_by(|a, b| size_of(*b).1.total_cmp(&size_of(*a).1));
    let mut by_height = filled(&highest_first);
    if in_order.len() <= by_height.len() {
        return in_order;
    }
    // Whoever reads goes from part to part in their order.
    for sheet in &mut by_height {
        sheet.shelves.iter_mut().for_each(|shelf| shelf.sort());
        sheet.shelves.sort();
    }
    by_height.sort_by(|a, b| a.shelves.cmp(&b.shelves));
    by_height
}

/// Width and height of a part with its strips and captions.
pub(super) fn size_of(plan: &ElevationPlan, page: Page, strips: &Strips) -> (f64, f64) {
    let part = part_of(plan, page);
    let [left, top, right, bottom] = strips.get(&page).copied().unwrap_or_default();
    (part.width + left + right, part.height + top + bottom + CAPTION_MM)
}

/// The part of the canvas on a sheet.
pub(super) fn part_of(plan: &ElevationPlan, page: Page) -> Area {
    let group = &plan.groups[page.across];
    let (left, right) = plan.span_x(&group.columns);
    let (top, bottom) = group.span_y(&group.down[page.down]);
    Area::new(left, top, right - left, bottom - top)
}

/// Free strips around each sheet for what is said of its match lines: left, top, right, bottom.
pub(super) type Strips = BTreeMap<Page, [f64; 4]>;

/// The factor by which every sheet can be enlarged.
pub(super) fn scale(plan: &ElevationPlan, sheets: &[Sheet], room: (f64, f64), strips: &Strips) -> f64 {
    let of_sheet = |sheet: &Sheet| {
        let (width, height) = sheet.size(&|page| size_of(plan, page, strips));
        (room.0 / width).min(room.1 / height)
    };
    sheets.iter().map(of_sheet).fold(MOST_ENLARGED, f64::min)
}

/// Where a sheet lies in its frame.
#[derive(Debug, Clone, Copy)]
pub(super) struct Placed {
    frame: Frame,
    scale: f64,
    pub(super) shift: Point,
}

impl Placed {
    /// A part with this left and right edge of what is drawn, in the middle of the width of its frame and this far below its top.
    pub(super) fn in_the_middle(used: (f64, f64), below: f64, frame: &Frame, scale: f64) -> Self {
        let content = frame.content;
        let shift = (content.x + content.width / 2.0 - (used.0 + used.1) / 2.0 * scale, content.y + below);
        Placed { frame: *frame, scale, shift }
    }

    /// A part this far from the left and below the top of its frame.
    pub(super) fn at((right, below): Point, frame: &Frame, scale: f64) -> Self {
        let shift = (frame.content.x + right, frame.content.y + below);
        Placed { frame: *frame, scale, shift }
    }

    /// The zone of a point of the sheet as it is drawn, where the frame has zones.
    pub(super) fn zone(&self, point: Point) -> Option<String> {
        self.frame.zone((point.0 * self.scale + self.shift.0, point.1 * self.scale + self.shift.1))
    }
}

/// Everything a sheet is drawn from.
pub(super) struct Canvas<'c> {
    pub(super) subject: &'c Subject<'c>,
    pub(super) plan: &'c ElevationPlan,
    pub(super) paths: &'c [Vec<Vec<Point>>],
    pub(super) numbers: &'c BTreeMap<Page, usize>,
    pub(super) strips: Strips,
    /// Where each sheet lies in its frame, once that is known.
    pub(super) zones: BTreeMap<Page, Placed>,
}

impl<'c> Canvas<'c> {
    /// A canvas without strips for flags, before it is known where its sheets lie.
    pub(super) fn new(
        subject: &'c Subject<'c>,
        plan: &'c ElevationPlan,
        paths: &'c [Vec<Vec<Point>>],
        numbers: &'c BTreeMap<Page, usize>,
    ) -> Self {
        Self { subject, plan, paths, numbers, strips: Strips::new(), zones: BTreeMap::new() }
    }

    /// Free strips around a sheet: left, top, right, bottom.
    pub(super) fn strips(&self, page: Page) -> [f64; 4] {
        self.strips.get(&page).copied().unwrap_or_default()
    }
}

pub(super) fn moved(point: Point, shift: Point) -> Point {
    (point.0 + shift.0, point.1 + shift.1)
}

/// The straight pieces of a way that lie within an area. Ways are level or upright throughout.
pub(super) fn clipped(path: &[Point], area: &Area) -> Vec<(Point, Point)> {
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
