//! From the arrangement to places in millimetres, and the cut into sheets.

use super::arrange::{Arrangement, Cells, arrange};
use super::card_picture::BESIDE_MM;
use super::cut::{BUILDING_GAP_MM, Cut, Grouping, cut_columns, cut_rows, flags_beside};
use super::flags::flags_mm;
use super::route::{
    AlongX, CardTerminal, LANE_MM, Net, Routing, Way, along_x, riser_lane_x, riser_width, route, terminal_x,
};
use super::subject::Subject;
use latchline_scene::Point;
use std::ops::Range;

/// Free height above the cards of a row.
const ABOVE_CARDS_MM: f64 = 1.8;
/// From the cards to the first lane: a line of lettering and a little air.
const TO_FIRST_LANE_MM: f64 = 4.2;
const BELOW_LANES_MM: f64 = 1.8;
/// From a card to the designation of a run below it, and from there to the first lane.
pub(super) const TAG_GAP_MM: f64 = 1.1;
/// Height of a floor on which nothing stands.
const EMPTY_FLOOR_MM: f64 = 10.0;

/// Everything in its place, and the cuts.
#[derive(Debug, Clone)]
pub(super) struct ElevationPlan {
    pub(super) arrangement: Arrangement,
    pub(super) routing: Routing,
    pub(super) x: AlongX,
    pub(super) widths: Vec<f64>,
    /// Height that each card needs.
    heights: Vec<f64>,
    /// What stands side by side on a sheet.
    pub(super) groups: Vec<ColumnGroup>,
}

/// Columns that stand side by side on a sheet, with the heights of the rows there. Other groups
/// may have other heights: a run that crosses to them does so at a match line.
#[derive(Debug, Clone)]
pub(super) struct ColumnGroup {
    pub(super) columns: Range<usize>,
    /// Top of each row, and the bottom of the last; rows in which nothing is have no height.
    pub(super) row_top: Vec<f64>,
    /// Height of the cards of each row.
    card_height: Vec<f64>,
    /// First lane of each row.
    first_lane: Vec<f64>,
    /// Height of each row.
    heights: Vec<f64>,
    /// The room that flags need below each row, were there a cut.
    flags_below: Vec<f64>,
    /// Rows of each sheet downward.
    pub(super) down: Vec<Range<usize>>,
}

impl ElevationPlan {
    /// Arranges, routes and cuts evenly for sheets with this much room, with rows of cards no wider than what each column has in `most_widths`.
    pub(super) fn new(
        subject: &Subject<'_>,
        cells: &Cells,
        most_widths: &[f64],
        room: (f64, f64),
        grouping: Grouping,
    ) -> Self {
        let widths = &subject.widths;
        let arrangement = arrange(cells, widths, most_widths);
        let routing = route(&arrangement, subject.nets.clone(), widths);
        let risers: Vec<f64> = routing.riser_lanes.iter().map(|lanes| riser_width(*lanes)).collect();
        let flags = flags_beside(subject, &arrangement, &routing);
        let across = cut_columns(&arrangement, (&risers, &flags), room.0, grouping);
        let (mut gutters, mut gaps) = (Vec::new(), Vec::new());
        for (number, column) in arrangement.columns.iter().enumerate() {
            let first = across.iter().any(|group| group.start == number);
            let before = number.checked_sub(1).map(|before| &arrangement.columns[before]);
            let same =
                before.is_some_and(|before| before.building.is_some() && before.building == column.building);
            gutters.push(if first || !same { column.gutter } else { 2.0 });
            gaps.push(if first || same { 0.0 } else { BUILDING_GAP_MM });
        }
        let x = along_x(&arrangement, widths, &risers, &gutters, &gaps);
        let (widths, heights) = (widths.clone(), subject.heights.clone());
        let mut plan = Self { arrangement, routing, x, widths, heights, groups: Vec::new() };
        let group = |columns| plan.column_group(subject, columns);
        plan.groups = across.into_iter().map(group).collect();
        plan.cut(room.1, Cut::Even);
        plan
    }

    /// Cuts the rows anew, for sheets of this height.
    pub(super) fn cut(&mut self, room: f64, cut: Cut) {
        for group in &mut self.groups {
            group.down = cut_rows(&self.arrangement, (&group.heights, &group.flags_below), room, cut);
        }
    }

    fn column_group(&self, subject: &Subject<'_>, columns: Range<usize>) -> ColumnGroup {
        let (left, right) = self.span_x(&columns);
        let rows = &self.arrangement.rows;
        let mut lanes = vec![0; rows.len()];
        for net in &self.routing.nets {
            for (row, lane, from, to) in self.level_pieces(net) {
                if from.min(to) < right && from.max(to) > left {
                    lanes[row] = lanes[row].max(lane + 1);
                }
            }
        }
        // Where a run begins, its designation stands upright beside its line before the first lane.
        let mut to_first_lane = vec![TO_FIRST_LANE_MM; rows.len()];
        for net in self.routing.nets.iter().filter(|net| net.is_first) {
            let (row, column) = self.arrangement.place[net.from.0];
            if columns.contains(&column) {
                to_first_lane[row] = to_first_lane[row].max(subject.tags[net.run] + 2.0 * TAG_GAP_MM);
            }
        }
        let mut group = ColumnGroup {
            columns: columns.clone(),
            row_top: vec![0.0],
            card_height: Vec::new(),
            first_lane: Vec::new(),
            heights: Vec::with_capacity(rows.len()),
            flags_below: self.flags_below(subject, &columns),
            down: Vec::new(),
        };
        for (number, row) in rows.iter().enumerate() {
            let has_cards = columns.clone().any(|column| row.cards.contains_key(&column));
            let is_floor = row.first_of_level
                && columns.clone().any(|column| {
                    let (lowest, highest) = self.arrangement.columns[column].levels;
                    (lowest..=highest).contains(&row.level)
                });
            let here = row.cards.iter().filter(|(column, _)| columns.contains(column));
            let wanted = here.flat_map(|(_, cards)| cards).map(|card| self.heights[*card]);
            let card_height = wanted.fold(0.0, f64::max);
            group.card_height.push(card_height);
            let strip = if has_cards {
                ABOVE_CARDS_MM + card_height
            } else if is_floor {
                EMPTY_FLOOR_MM
            } else {
                0.0
            };
            let channel = match lanes[number] {
                0 if strip > 0.0 => ABOVE_CARDS_MM,
                0 => 0.0,
                lanes => to_first_lane[number] + (lanes - 1) as f64 * LANE_MM + BELOW_LANES_MM,
            };
            let top = group.row_top[number];
            group.first_lane.push(top + strip + to_first_lane[number]);
            group.row_top.push(top + strip + channel);
            group.heights.push(strip + channel);
        }
        group
    }

    /// The room that flags need below each row, were there a cut.
    fn flags_below(&self, subject: &Subject<'_>, columns: &Range<usize>) -> Vec<f64> {
        let mut crossing = vec![Vec::new(); self.arrangement.rows.len()];
        for net in &self.routing.nets {
            if let Way::Riser { column, from, to, .. } = net.way
                && columns.contains(&column)
            {
                crossing[from.0.min(to.0)..from.0.max(to.0)].iter_mut().for_each(|list| list.push(net));
            }
        }
        crossing.iter().map(|nets| flags_mm(subject, nets)).collect()
    }

    /// Left and right edge of a group of columns.
    pub(super) fn span_x(&self, columns: &Range<usize>) -> (f64, f64) {
        let last = columns.end - 1;
        (self.x.column[columns.start], self.x.column[last] + self.x.column_width[last])
    }

    /// Left upper corner of a card, in the group where it stands.
    pub(super) fn card_corner(&self, group: &ColumnGroup, card: usize) -> Point {
        let (row, _) = self.arrangement.place[card];
        (self.x.card[card], group.row_top[row] + ABOVE_CARDS_MM)
    }

    /// Width and height of a card, in the group where it stands.
    pub(super) fn card_size(&self, group: &ColumnGroup, card: usize) -> (f64, f64) {
        let (row, _) = self.arrangement.place[card];
        (self.widths[card], group.card_height[row])
    }

    /// The lower edge of the cards beside a card. Other groups have other heights.
    fn card_bottom(&self, group: &ColumnGroup, card: usize) -> f64 {
        self.card_corner(group, card).1 + self.card_size(group, card).1
    }

    pub(super) fn riser_x(&self, column: usize, lane: usize) -> f64 {
        self.x.riser[column] + riser_lane_x(lane, self.routing.riser_lanes[column])
    }

    fn terminal_x(&self, (card, terminal): (usize, CardTerminal)) -> f64 {
        self.x.card[card] + terminal_x(&self.routing.terminals[card], terminal, self.widths[card])
    }

    /// Where the line of a net leaves the card at its near end, below it.
    pub(super) fn leaves(&self, group: &ColumnGroup, net: &Net) -> Point {
        (self.terminal_x(net.from), self.card_bottom(group, net.from.0))
    }

    /// The pieces of a net that lie in channels: row, lane, from x, to x.
    pub(super) fn level_pieces(&self, net: &Net) -> Vec<(usize, usize, f64, f64)> {
        let (a, b) = (self.terminal_x(net.from), self.terminal_x(net.to));
        match net.way {
            Way::Beside(_) => Vec::new(),
            Way::Row { row, lane } => vec![(row, lane, a, b)],
            Way::Riser { column, lane, from, to } => {
                let x = self.riser_x(column, lane);
                vec![(from.0, from.1, a, x), (to.0, to.1, x, b)]
            }
        }
    }

    /// The way of a net, corner by corner, with the heights of a group.
    pub(super) fn path(&self, group: &ColumnGroup, net: &Net) -> Vec<Point> {
        let lane_y = |row: usize, lane: usize| group.lane_y(row, lane);
        let terminal = |end: (usize, CardTerminal)| (self.terminal_x(end), self.card_bottom(group, end.0));
        match net.way {
            Way::Beside(from_left) => {
                let (left, right) = if from_left { (net.from.0, net.to.0) } else { (net.to.0, net.from.0) };
                let (a, b) = (self.card_corner(group, left), self.card_corner(group, right));
                let y = self.card_bottom(group, left) - BESIDE_MM;
                let mut points = vec![(a.0 + self.widths[left], y), (b.0, y)];
                if !from_left {
                    points.reverse();
                }
                points
            }
            Way::Row { row, lane } => {
                let (a, b) = (terminal(net.from), terminal(net.to));
                let y = lane_y(row, lane);
                vec![a, (a.0, y), (b.0, y), b]
            }
            Way::Riser { column, lane, from, to } => {
                let (a, b) = (terminal(net.from), terminal(net.to));
                let x = self.riser_x(column, lane);
                let (near, far) = (lane_y(from.0, from.1), lane_y(to.0, to.1));
                vec![a, (a.0, near), (x, near), (x, far), (b.0, far), b]
            }
        }
    }
}

impl ColumnGroup {
    pub(super) fn lane_y(&self, row: usize, lane: usize) -> f64 {
        self.first_lane[row] + lane as f64 * LANE_MM
    }

    /// Top and bottom of some rows.
    pub(super) fn span_y(&self, rows: &Range<usize>) -> (f64, f64) {
        (self.row_top[rows.start], self.row_top[rows.end])
    }

    /// The sheet downward on which a row is.
    pub(super) fn down_of(&self, row: usize) -> Option<usize> {
        self.down.iter().position(|rows| rows.contains(&row))
    }
}
