//! The lines of runs on a sheet: where one crosses another it goes over in a bridge.
//!
//! Level lines bridge upright ones. A dot joins, a bridge does not (IEC 61082-1 shows crossings without a dot; the bridge is common
//! practice, no source), so that a copy of a copy can still be read.

use super::run_labels::Visible;
use latchline_scene::{Area, Group, Layer, Point, Shape, Stroke};

/// Radius of a bridge where there is room.
const BRIDGE_MM: f64 = 0.9;
/// Share of the way to the next crossing, or to a corner, that a bridge may take.
const SHARE: f64 = 0.45;

/// A bridge: its middle on the line, and its radius.
pub(super) type Bridge = (Point, f64);

/// The upright lines of a sheet.
pub(super) struct Uprights(Vec<(f64, f64, f64)>);

impl Uprights {
    /// Of these runs.
    pub(super) fn of(visible: &[Visible]) -> Self {
        let pieces = visible.iter().flat_map(|part| &part.pieces);
        let upright = pieces.filter(|(from, to)| !is_level(*from, *to));
        Uprights(upright.map(|(from, to)| (from.0, from.1.min(to.1), from.1.max(to.1))).collect())
    }

    /// The bridges of a line over them, in its direction.
    pub(super) fn bridges(&self, (from, to): (Point, Point)) -> Vec<Bridge> {
        if !is_level(from, to) {
            return Vec::new();
        }
        let (left, right) = (from.0.min(to.0), from.0.max(to.0));
        // A line that ends on this one is a corner of the same run.
        let crosses = |(x, top, bottom): &&(f64, f64, f64)| {
            *x > left + 1e-6 && *x < right - 1e-6 && from.1 > top + 1e-6 && from.1 < bottom - 1e-6
        };
        let mut places: Vec<f64> = self.0.iter().filter(crosses).map(|upright| upright.0).collect();
        places.sort_by(f64::total_cmp);
        places.dedup_by(|a, b| (*a - *b).abs() < 1e-6);
        let mut bridges = Vec::with_capacity(places.len());
        for (number, x) in places.iter().enumerate() {
            // To a corner there is no other bridge to share the way with.
            let before = number.checked_sub(1).map_or(2.0 * (x - left), |before| x - places[before]);
            let after = places.get(number + 1).map_or(2.0 * (right - x), |after| after - x);
            bridges.push(((*x, from.1), BRIDGE_MM.min(SHARE * before.min(after))));
        }
        if to.0 < from.0 {
            bridges.reverse();
        }
        bridges
    }
}

fn is_level(from: Point, to: Point) -> bool {
    (from.1 - to.1).abs() < 1e-6
}

/// The box of a bridge above its line.
pub(super) fn bridge_area(((x, y), radius): Bridge) -> Area {
    Area::new(x - radius, y - radius, 2.0 * radius, radius)
}

/// Draws a way corner by corner, with its bridges.
pub(super) fn draw_way(group: &mut Group, way: &[Point], uprights: &Uprights, stroke: Stroke) {
    let Some(first) = way.first() else { return };
    let mut points = vec![*first];
    for pair in way.windows(2) {
        for bridge in uprights.bridges((pair[0], pair[1])) {
            let ((x, y), radius) = bridge;
            let forward = if pair[1].0 > pair[0].0 { radius } else { -radius };
            points.push((x - forward, y));
            group.path(Layer::Wiring, std::mem::take(&mut points), stroke);
            draw_bridge(group, bridge, stroke);
            points.push((x + forward, y));
        }
        points.push(pair[1]);
    }
    group.path(Layer::Wiring, points, stroke);
}

/// Draws the arc of a bridge.
pub(super) fn draw_bridge(group: &mut Group, (centre, radius): Bridge, stroke: Stroke) {
    let arc = Shape::Arc { centre, radius, from_degrees: 0.0, to_degrees: 180.0 };
    group.shape(Layer::Wiring, arc, Some(stroke), None);
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

#[cfg(test)]
mod tests {
    use super::*;
    use latchline_scene::palette::Ink;
    use latchline_scene::{Node, Pen};

    fn uprights() -> Uprights {
        let pieces = vec![((5.0, 0.0), (5.0, 10.0)), ((6.0, 0.0), (6.0, 10.0)), ((9.0, 5.0), (9.0, 10.0))];
        Uprights::of(&[Visible { run: 0, pieces }])
    }

    #[test]
    fn a_level_line_bridges_what_it_crosses_and_nothing_that_ends_on_it() {
        let bridges = uprights().bridges(((10.0, 5.0), (0.0, 5.0)));
        let places: Vec<f64> = bridges.iter().map(|bridge| bridge.0.0).collect();
        assert_eq!(places, [6.0, 5.0], "in its direction");
        assert!(bridges.iter().all(|bridge| bridge.1 <= 0.45 + 1e-9), "neighbours keep apart");
        assert!(uprights().bridges(((5.5, -1.0), (5.5, 20.0))).is_empty());
    }

    #[test]
    fn a_way_with_bridges_has_no_gap() {
        let mut group = Group::new("run");
        let way = [(0.0, 5.0), (8.0, 5.0), (8.0, 20.0)];
        draw_way(&mut group, &way, &uprights(), Stroke::solid(Ink::Wire, Pen::Middle));
        let mut ends: Vec<(Point, Point)> = Vec::new();
        for node in &group.nodes {
            let Node::Item(item) = node else { panic!() };
            ends.push(match &item.shape {
                Shape::Path { points, .. } => (points[0], points[points.len() - 1]),
                Shape::Arc { centre, radius, .. } => {
                    ((centre.0 - radius, centre.1), (centre.0 + radius, centre.1))
                }
                other => panic!("{other:?}"),
            });
        }
        assert_eq!((ends[0].0, ends[ends.len() - 1].1), (way[0], way[2]));
        for pair in ends.windows(2) {
            assert!((pair[0].1.0 - pair[1].0.0).abs() + (pair[0].1.1 - pair[1].0.1).abs() < 1e-9);
        }
    }
}
