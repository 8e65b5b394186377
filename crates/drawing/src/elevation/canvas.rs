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

/// The number of the sheet on which each part is, where these stand one below the other on a sheet.
pub(super) fn numbers(stacks: &[Vec<Page>]) -> BTreeMap<Page, usize> {
    let numbered = |(number, stack): (usize, &Vec<Page>)| {
        stack.iter().map(|page| (*page, number + 1)).collect::<Vec<_>>()
    };
    stacks.iter().enumerate().flat_map(numbered).collect()
}

/// Which parts stand one below the other on a sheet: each on the first that has room at the least scale.
pub(super) fn stacks(
    plan: &ElevationPlan,
    pages: &[Page],
    room: (f64, f64),
    strips: &Strips,
) -> Vec<Vec<Page>> {
    let mut stacks: Vec<(f64, Vec<Page>)> = Vec::new();
    for page in pages {
        let height = size_of(plan, *page, strips).1;
        match stacks.iter_mut().find(|(taken, _)| taken + BETWEEN_PARTS_MM + height <= room.1) {
            Some((taken, stack)) => {
                *taken += BETWEEN_PARTS_MM + height;
                stack.push(*page);
            }
            None => stacks.push((height, vec![*page])),
        }
    }
    stacks.into_iter().map(|(_, stack)| stack).collect()
}

/// Width and height of a part with its strips and captions.
fn size_of(plan: &ElevationPlan, page: Page, strips: &Strips) -> (f64, f64) {
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
pub(super) fn scale(plan: &ElevationPlan, stacks: &[Vec<Page>], room: (f64, f64), strips: &Strips) -> f64 {
    let of_stack = |stack: &Vec<Page>| {
        let sizes = stack.iter().map(|page| size_of(plan, *page, strips));
        let (width, height) = sizes.fold((0.0_f64, -BETWEEN_PARTS_MM), |all, size| {
            (all.0.max(size.0), all.1 + BETWEEN_PARTS_MM + size.1)
        });
        (room.0 / width).min(room.1 / height)
    };
    stacks.iter().map(of_stack).fold(MOST_ENLARGED, f64::min)
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
    pub(super) fn new(used: (f64, f64), below: f64, frame: &Frame, scale: f64) -> Self {
        let content = frame.content;
        let shift = (content.x + content.width / 2.0 - (used.0 + used.1) / 2.0 * scale, content.y + below);
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
