//! Axes, curves and their direct labels, shared by profiles and the reach chart.

use crate::language::Lettering;
use crate::ticks::{decimals, ticks};
use latchline_scene::font::LEAST_MM;
use latchline_scene::palette::Ink;
use latchline_scene::{Anchor, Area, Group, Layer, Pen, Point, Stroke, Text};

/// Size of the lettering of charts.
pub(crate) const CHART_TEXT_MM: f64 = LEAST_MM;

/// The plotting area of a chart with its two axes.
#[derive(Debug, Clone)]
pub(crate) struct Axes {
    /// Where curves go.
    pub(crate) area: Area,
    x: (f64, f64),
    y: (f64, f64),
    x_ticks: Vec<f64>,
    y_ticks: Vec<f64>,
}

impl Axes {
    /// Axes over these spans, widened to round marks.
    pub(crate) fn new(area: Area, x: (f64, f64), y: (f64, f64)) -> Self {
        let x_ticks = ticks(x.0, x.1, (area.width / 22.0) as usize);
        Self::with_marks(area, x, x_ticks, y)
    }

    /// Axes whose upright lines stand for steps, numbered from 0.
    pub(crate) fn of_steps(area: Area, steps: usize, y: (f64, f64)) -> Self {
        let last = steps.saturating_sub(1).max(1);
        // A number every few steps where there are many.
        let every = last.div_ceil(((area.width / 8.0) as usize).max(1));
        let marks = (0..=last).step_by(every).map(|step| step as f64).collect();
        Self::with_marks(area, (0.0, last as f64), marks, y)
    }

    fn with_marks(area: Area, x: (f64, f64), x_ticks: Vec<f64>, y: (f64, f64)) -> Self {
        let y_ticks = ticks(y.0, y.1, (area.height / 11.0) as usize);
        let widened = |(low, high): (f64, f64), marks: &[f64]| {
            let low = marks.iter().copied().fold(low, f64::min);
            let high = marks.iter().copied().fold(high, f64::max);
            if high > low { (low, high) } else { (low - 1.0, high + 1.0) }
        };
        let (x, y) = (widened(x, &x_ticks), widened(y, &y_ticks));
        Self { area, x, y, x_ticks, y_ticks }
    }

    /// Where a value lies on the sheet, held within the plotting area.
    pub(crate) fn at(&self, x: f64, y: f64) -> Point {
        let share = |value: f64, (low, high): (f64, f64)| ((value - low) / (high - low)).clamp(0.0, 1.0);
        (
            self.area.x + share(x, self.x) * self.area.width,
            self.area.bottom() - share(y, self.y) * self.area.height,
        )
    }

    /// The heights of the grid lines.
    pub(crate) fn grid(&self) -> impl Iterator<Item = f64> + '_ {
        self.y_ticks.iter().map(|value| self.at(self.x.0, *value).1)
    }

    /// Draws grid, axis and marks; units stand at the end of each axis.
    pub(crate) fn draw(&self, group: &mut Group, x_title: &str, y_title: &str, lettering: Lettering) {
        let area = self.area;
        let grid = Stroke::solid(Ink::Grid, Pen::Thin);
        let axis = Stroke::solid(Ink::Outline, Pen::Thin);
        let places = decimals(&self.y_ticks);
        for value in &self.y_ticks {
            let (_, y) = self.at(self.x.0, *value);
            group.line(Layer::Axis, (area.x, y), (area.right(), y), grid);
            let text = Text::new(
                (area.x - 1.4, y + CHART_TEXT_MM * 0.35),
                lettering.0.decimals(format!("{value:.places$}")),
                CHART_TEXT_MM,
            );
            group.text(Layer::Axis, text.anchored(Anchor::End).ink(Ink::Quiet));
        }
        for value in &self.x_ticks {
            let (x, _) = self.at(*value, self.y.0);
            group.line(Layer::Axis, (x, area.bottom()), (x, area.bottom() + 1.2), axis);
            let text = Text::new(
                (x, area.bottom() + 4.2),
                lettering.trimmed(*value, decimals(&self.x_ticks)),
                CHART_TEXT_MM,
            );
            group.text(Layer::Axis, text.anchored(Anchor::Middle).ink(Ink::Quiet));
        }
        group.line(Layer::Axis, (area.x, area.bottom()), (area.right(), area.bottom()), axis);
        let title = Text::new((area.right(), area.bottom() + 7.8), x_title, CHART_TEXT_MM);
        group.text(Layer::Axis, title.anchored(Anchor::End).ink(Ink::Quiet));
        let title = Text::new((area.x - 8.0, area.y - 2.4), y_title, CHART_TEXT_MM);
        group.text(Layer::Axis, title.ink(Ink::Quiet));
    }
}

/// Heights for labels that want to stand at these heights but must keep this distance and stay
/// within the span: the nearest in the least-squares sense, by pooling neighbours that would
/// otherwise overlap (pool-adjacent-violators, Ayer et al. 1955). The order is kept.
pub(crate) fn spread(wanted: &[f64], distance: f64, span: (f64, f64)) -> Vec<f64> {
    let mut order: Vec<usize> = (0..wanted.len()).collect();
    order.sort_by(|a, b| wanted[*a].total_cmp(&wanted[*b]).then(a.cmp(b)));
    // Shifted so that equal means touching: then heights must only not fall.
    let mut pools: Vec<(f64, usize)> = Vec::new();
    for (place, label) in order.iter().enumerate() {
        pools.push((wanted[*label] - place as f64 * distance, 1));
        while let [.., (a, m), (b, n)] = pools[..]
            && a > b
        {
            pools.pop();
            pools.pop();
            pools.push(((a * m as f64 + b * n as f64) / (m + n) as f64, m + n));
        }
    }
    let last = span.1 - span.0 - (wanted.len().saturating_sub(1)) as f64 * distance;
    let mut heights = vec![0.0; wanted.len()];
    let shifted = pools.iter().flat_map(|(height, count)| std::iter::repeat_n(*height, *count));
    for ((place, label), height) in order.iter().enumerate().zip(shifted) {
        heights[*label] = height.clamp(span.0, span.0 + last.max(0.0)) + place as f64 * distance;
    }
    heights
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn labels_keep_their_distance_and_move_no_more_than_they_must() {
        // By hand: 10 and 11 want to be 4 apart, so they go half a step each way: 8.5 and 12.5.
        assert_eq!(spread(&[11.0, 10.0, 30.0], 4.0, (0.0, 50.0)), [12.5, 8.5, 30.0]);
        let crowded = spread(&[49.0, 50.0, 50.0], 4.0, (0.0, 50.0));
        assert!(crowded.windows(2).all(|pair| (pair[0] - pair[1]).abs() >= 4.0 - 1e-9));
        assert!(crowded.iter().all(|height| *height <= 50.0 + 1e-9));
    }
}
