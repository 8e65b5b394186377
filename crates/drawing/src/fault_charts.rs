//! Charts of what readings say of a fault: the voltage along the ways concerned, planned and read, and how the probabilities moved.
//!
//! The numbers are the caller's; this only draws them.

use crate::chart::{Axes, CHART_TEXT_MM, spread};
use crate::language::{Lettering, Word};
use crate::panels::panel_sheets;
use crate::sheet::{LegendEntry, SheetOptions, fitted};
use latchline_assess::Assessment;
use latchline_finding::Units;
use latchline_scene::font::text_width_mm;
use latchline_scene::palette::Ink;
use latchline_scene::{Anchor, Area, Dash, Group, Layer, Pen, Point, Scene, Stroke, Text};
use latchline_site::model::Site;

/// A chart of a way is not made lower than this while a sheet has room for fewer; that of the probabilities takes a sheet.
const LEAST_COURSE_MM: f64 = 56.0;
const SHARES_MM: f64 = 150.0;
/// Least span of an axis of voltages, so that what hardly falls looks so.
const LEAST_SPAN_V: f64 = 1.0;
/// Between two names of places.
const NAME_MM: f64 = 2.9;
/// From the plot to the names of its places.
const LEADER_MM: f64 = 3.0;
/// Most room for the names of places.
const MOST_NAME_MM: f64 = 24.0;
/// Sizes of a cause that differ by less are not drawn apart.
const LEAST_APART_V: f64 = 0.02;
const NOTE_MM: f64 = 4.2;
/// Looks of the lines of the probabilities, the likeliest first; what has none of its own is thin.
const LOOKS: [(Dash, Pen); 6] = [
    (Dash::Solid, Pen::Heavy),
    (Dash::Dashed, Pen::Thick),
    (Dash::DashDot, Pen::Thick),
    (Dash::Solid, Pen::Thin),
    (Dash::Dashed, Pen::Thin),
    (Dash::DashDot, Pen::Thin),
];

/// The voltage along a way.
#[derive(Debug, Clone, PartialEq)]
pub struct CourseChart {
    /// Which way, in which state.
    pub title: String,
    /// With which cause.
    pub subtitle: String,
    /// Places from the source on.
    pub points: Vec<CoursePoint>,
}

/// A place on a way.
#[derive(Debug, Clone, PartialEq)]
pub struct CoursePoint {
    /// Its designation.
    pub name: String,
    /// Metres of cable from the source.
    pub distance_m: f64,
    /// Least and most as planned.
    pub planned_v: Option<(f64, f64)>,
    /// Least, likeliest and most with the cause.
    pub with_cause_v: Option<[f64; 3]>,
    /// What was read, with least and most that it may have been.
    pub read_v: Vec<(f64, [f64; 2])>,
}

/// How the probabilities moved.
#[derive(Debug, Clone, PartialEq)]
pub struct ShareChart {
    /// What became known at each step; the first is what is so before anything is known.
    pub steps: Vec<String>,
    /// What is likely, the likeliest of the last step first.
    pub lines: Vec<ShareLine>,
}

/// The probability of one place.
#[derive(Debug, Clone, PartialEq)]
pub struct ShareLine {
    /// Which, with its probability in the end.
    pub name: String,
    /// From 0 to 1, for each step.
    pub shares: Vec<f64>,
}

/// The voltage along each way, planned, with the cause and as it was read.
pub fn course_sheets(
    site: &Site,
    assessment: &Assessment,
    charts: &[CourseChart],
    options: &SheetOptions,
) -> Vec<Scene> {
    let lettering = options.lettering();
    let draw = |chart: usize, area: Area| draw_course(&charts[chart], area, lettering);
    let words = (Word::CoursesSubject, Word::NoCourse);
    let legend = course_legend(lettering);
    panel_sheets(site, assessment, options, (charts.len(), LEAST_COURSE_MM), words, &legend, &draw)
}

/// How the probabilities moved, step by step.
pub fn share_sheets(
    site: &Site,
    assessment: &Assessment,
    chart: &ShareChart,
    options: &SheetOptions,
) -> Vec<Scene> {
    let lettering = options.lettering();
    let draw = |_: usize, area: Area| draw_shares(chart, area, lettering);
    let charts = usize::from(!chart.steps.is_empty());
    panel_sheets(
        site,
        assessment,
        options,
        (charts, SHARES_MM),
        (Word::SharesSubject, Word::NoShares),
        &[],
        &draw,
    )
}

fn planned_line() -> Stroke {
    Stroke::solid(Ink::Outline, Pen::Thin)
}

fn cause_line(pen: Pen) -> Stroke {
    Stroke::solid(Ink::Trouble, pen).dashed(Dash::Dashed)
}

fn course_legend(lettering: Lettering) -> Vec<LegendEntry> {
    vec![
        LegendEntry {
            picture_width: 8.0,
            picture: Box::new(|group, (x, y)| {
                let band = Area::new(x, y + 0.6, 8.0, 2.8);
                group.rectangle(Layer::Curve, band, 0.0, Some(planned_line()), Some(Ink::Grid));
            }),
            text: String::from(lettering.word(Word::CausePlanned)),
        },
        LegendEntry {
            picture_width: 8.0,
            picture: Box::new(|group, (x, y)| {
                group.line(Layer::Curve, (x, y + 2.0), (x + 8.0, y + 2.0), cause_line(Pen::Thick));
            }),
            text: String::from(lettering.word(Word::CauseVoltage)),
        },
        LegendEntry {
            picture_width: 4.0,
            picture: Box::new(|group, (x, y)| read_mark(group, (x + 2.0, y + 2.0), (y + 0.4, y + 3.6))),
            text: String::from(lettering.word(Word::ReadVoltage)),
        },
    ]
}

/// What was read: a ring with the meter's error upright through it.
fn read_mark(group: &mut Group, (x, y): Point, (top, bottom): (f64, f64)) {
    let line = Stroke::solid(Ink::Text, Pen::Middle);
    group.line(Layer::Curve, (x, top), (x, bottom), line);
    for end in [top, bottom] {
        group.line(Layer::Curve, (x - 0.9, end), (x + 0.9, end), line);
    }
    group.circle(Layer::Curve, (x, y), 1.1, Some(Stroke::solid(Ink::Text, Pen::Thick)), Some(Ink::Paper));
}

/// Least and most of all voltages of a chart.
fn span_v(chart: &CourseChart) -> (f64, f64) {
    let of_point = |point: &CoursePoint| {
        let planned = point.planned_v.into_iter().flat_map(|(least, most)| [least, most]);
        let cause = point.with_cause_v.into_iter().flatten();
        let read = point.read_v.iter().flat_map(|(_, error)| *error);
        planned.chain(cause).chain(read).collect::<Vec<f64>>()
    };
    let values = chart.points.iter().flat_map(of_point).filter(|value| value.is_finite());
    let (low, high) = values
        .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), value| (low.min(value), high.max(value)));
    if low > high { (0.0, LEAST_SPAN_V) } else { (low.min(high - LEAST_SPAN_V).max(0.0), high) }
}

fn draw_course(chart: &CourseChart, area: Area, lettering: Lettering) -> Group {
    let mut group = Group::new("course");
    group.role.title = Some(format!("{}: {}", chart.title, chart.subtitle));
    group.text(Layer::Lettering, fitted((area.x, area.y + 4.6), &chart.title, 4.2, true, area.width));
    group.text(Layer::Lettering, fitted((area.x, area.y + 9.4), &chart.subtitle, 3.0, false, area.width));
    let widest =
        chart.points.iter().map(|point| text_width_mm(&point.name, CHART_TEXT_MM, false)).fold(0.0, f64::max);
    let head = 12.0 + widest.min(MOST_NAME_MM) + LEADER_MM + 2.0;
    let plot =
        Area::new(area.x + 10.0, area.y + head, area.width - 16.0, (area.height - head - 9.5).max(15.0));
    let distance = |point: &CoursePoint| lettering.scaled_length(point.distance_m).0;
    let farthest = chart.points.iter().map(distance).fold(1.0, f64::max);
    let axes = Axes::new(plot, (0.0, farthest), span_v(chart));
    let at = |point: &CoursePoint, value_v: f64| axes.at(distance(point), value_v);
    // What is planned lies below all else, the grid on it.
    for way in unbroken(&chart.points, |point| point.planned_v) {
        let most: Vec<Point> = way.iter().map(|(point, (_, most))| at(point, *most)).collect();
        let least: Vec<Point> = way.iter().map(|(point, (least, _))| at(point, *least)).collect();
        let round: Vec<Point> = most.iter().copied().chain(least.iter().rev().copied()).collect();
        group.polygon(Layer::Curve, round, Ink::Grid);
        for line in [most, least] {
            group.path(Layer::Curve, line, planned_line());
        }
    }
    let x_title = lettering.word(match lettering.0.units {
        Units::Metric => Word::MetresFromSource,
        Units::Us => Word::FeetFromSource,
    });
    axes.draw(&mut group, x_title, "V", lettering);
    names(&mut group, chart, &axes, widest.min(MOST_NAME_MM), &distance);
    for way in unbroken(&chart.points, |point| point.with_cause_v) {
        let line = |size: usize| -> Vec<Point> {
            way.iter().map(|(point, voltages)| at(point, voltages[size])).collect()
        };
        group.path(Layer::Curve, line(1), cause_line(Pen::Thick));
        for size in [0, 2] {
            if way.iter().any(|(_, voltages)| (voltages[size] - voltages[1]).abs() > LEAST_APART_V) {
                group.path(Layer::Curve, line(size), cause_line(Pen::Thin));
            }
        }
    }
    for point in &chart.points {
        for (value_v, [least_v, most_v]) in &point.read_v {
            let (x, y) = at(point, *value_v);
            read_mark(&mut group, (x, y), (at(point, *most_v).1, at(point, *least_v).1));
            let words = format!("{} V", lettering.trimmed(*value_v, 2));
            let is_left = x > plot.right() - 14.0;
            let (x, anchor) = if is_left { (x - 2.0, Anchor::End) } else { (x + 2.0, Anchor::Start) };
            let text = Text::new((x, y - 1.2), words, CHART_TEXT_MM).anchored(anchor).bold();
            group.text(Layer::Lettering, text);
        }
    }
    group
}

/// Stretches of a way over which something is known.
fn unbroken<T>(
    points: &[CoursePoint],
    known: impl Fn(&CoursePoint) -> Option<T>,
) -> Vec<Vec<(&CoursePoint, T)>> {
    let mut stretches: Vec<Vec<(&CoursePoint, T)>> = Vec::new();
    let mut goes_on = false;
    for point in points {
        let value = known(point);
        if let Some(value) = value {
            match stretches.last_mut().filter(|_| goes_on) {
                Some(stretch) => stretch.push((point, value)),
                None => stretches.push(vec![(point, value)]),
            }
            goes_on = true;
        } else {
            goes_on = false;
        }
    }
    stretches.retain(|stretch| stretch.len() > 1);
    stretches
}

/// The places above the plot, upright, each with a thin line through it.
fn names(
    group: &mut Group,
    chart: &CourseChart,
    axes: &Axes,
    room: f64,
    distance: &dyn Fn(&CoursePoint) -> f64,
) {
    let plot = axes.area;
    let wanted: Vec<f64> =
        chart.points.iter().map(|point| axes.at(distance(point), 0.0).0 + NAME_MM * 0.35).collect();
    let places = spread(&wanted, NAME_MM, (plot.x, plot.right() + 4.0));
    for (point, x) in chart.points.iter().zip(places) {
        let (at, _) = axes.at(distance(point), 0.0);
        let thin = Stroke::solid(Ink::Grid, Pen::Thin);
        group.line(Layer::Axis, (at, plot.y), (at, plot.bottom()), thin);
        let lead = Stroke::solid(Ink::Outline, Pen::Thin);
        let end = plot.y - LEADER_MM;
        group.path(Layer::Axis, vec![(at, plot.y), (at, plot.y - 0.6), (x - NAME_MM * 0.3, end)], lead);
        let text = fitted((x, end - 0.6), &point.name, CHART_TEXT_MM, false, room);
        group.text(Layer::Lettering, text.upward());
    }
}

fn draw_shares(chart: &ShareChart, area: Area, lettering: Lettering) -> Group {
    let mut group = Group::new("shares");
    let title = lettering.word(Word::SharesSubject);
    group.role.title = Some(String::from(title));
    group.text(Layer::Lettering, fitted((area.x, area.y + 4.6), title, 4.2, true, area.width));
    let across = if chart.steps.len() > 6 { 2 } else { 1 };
    let rows = chart.steps.len().div_ceil(across);
    let widest =
        chart.lines.iter().map(|line| text_width_mm(&line.name, CHART_TEXT_MM, false)).fold(10.0, f64::max);
    let label_room = (widest + 22.0).min(area.width * 0.42);
    let plot = Area::new(
        area.x + 10.0,
        area.y + 14.0,
        area.width - 11.0 - label_room,
        (area.height - 14.0 - 11.0 - rows as f64 * NOTE_MM).max(30.0),
    );
    let axes = Axes::of_steps(plot, chart.steps.len(), (0.0, 100.0));
    axes.draw(&mut group, lettering.word(Word::StepAxis), lettering.word(Word::ProbabilityAxis), lettering);
    let mut ends: Vec<(Point, Stroke, String)> = Vec::new();
    for (number, line) in chart.lines.iter().enumerate() {
        let points: Vec<Point> =
            line.shares.iter().enumerate().map(|(step, share)| axes.at(step as f64, 100.0 * share)).collect();
        let Some(end) = points.last().copied() else { continue };
        let (dash, pen) = LOOKS.get(number).copied().unwrap_or((Dash::Dashed, Pen::Thin));
        let stroke = Stroke::solid(Ink::Wire, pen).dashed(dash);
        let mut part = Group::new("share");
        part.role.title = Some(line.name.clone());
        for at in &points {
            part.circle(Layer::Curve, *at, 0.7, None, Some(Ink::Wire));
        }
        if points.len() > 1 {
            part.path(Layer::Curve, points, stroke);
        }
        group.group(part);
        ends.push((end, stroke, line.name.clone()));
    }
    let wanted: Vec<f64> = ends.iter().map(|(end, ..)| end.1).collect();
    let heights = spread(&wanted, 4.0, (plot.y, plot.bottom()));
    for ((end, stroke, words), y) in ends.iter().zip(heights) {
        let x = plot.right() + 9.0;
        group.line(Layer::Axis, *end, (plot.right() + 2.5, y), Stroke::solid(Ink::Outline, Pen::Thin));
        group.line(Layer::Curve, (plot.right() + 2.5, y), (x - 1.0, y), *stroke);
        group.text(Layer::Lettering, fitted((x, y + 0.9), words, CHART_TEXT_MM, false, area.right() - x));
    }
    let width = area.width / across as f64;
    for (number, step) in chart.steps.iter().enumerate() {
        let x = area.x + (number / rows) as f64 * width;
        let y = plot.bottom() + 12.5 + (number % rows) as f64 * NOTE_MM;
        let words = format!("{number}  {step}");
        group.text(Layer::Lettering, fitted((x, y), &words, CHART_TEXT_MM, false, width - 4.0));
    }
    group
}
