//! Buildings on a sheet: floors as bands, their names, outlines and captions.

use super::arrange::FLOOR_TEXT_MM;
use super::canvas::{Canvas, Page};
use crate::labels::Obstacles;
use crate::sheet::{centred, fitted};
use latchline_scene::palette::Ink;
use latchline_scene::{Area, Dash, Group, Layer, Pen, Point, Stroke};

impl Canvas<'_> {
    /// Bands, names of floors, outlines and captions; gives the left and right edge of what is there.
    pub(super) fn buildings(
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
        let below = here.row_top[rows.end] + shift.1 + if goes_on { self.strips(page)[3] } else { 0.0 };
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
                    let slab = Stroke::solid(Ink::Outline, Pen::Thin);
                    bands.line(Layer::Building, (left, floor), (right, floor), slab);
                    obstacles.add(Area::new(left, floor - 0.2, right - left, 0.4));
                    let name = &arrangement.floor_names[&(start, level)];
                    let room = arrangement.columns[start].gutter - 3.0;
                    if !name.is_empty() {
                        let at = (left + 1.8, top + 7.0);
                        let text = fitted(at, name, FLOOR_TEXT_MM, true, room).ink(Ink::Quiet);
                        obstacles.add(text.area());
                        bands.text(Layer::Building, text);
                    }
                }
                row = next;
            }
            if let Some((top, base)) = span {
                let outline = Area::new(left, top, right - left, base - top);
                let dash = if building.is_some() { Dash::Solid } else { Dash::Dashed };
                let stroke = Stroke::solid(Ink::Outline, Pen::Thick).dashed(dash);
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
                let text = centred(((x + end) / 2.0, below + 3.6), core, 3.0, false, end - x - 2.0);
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
        let text = centred(((left + right) / 2.0, below + 8.4), &title, 4.0, true, right - left);
        group.text(Layer::Building, text);
    }
}
