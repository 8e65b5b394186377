//! A chart of reach: how many stations at what spacing, a curve for each cable.
//!
//! The numbers are the caller's; this only draws them. Curves are told apart by their line type
//! and by a label at their end, never by colour alone.

use crate::chart::{Axes, spread};
use crate::frame::Frame;
use crate::language::{Lettering, Phrase, Word};
use crate::sheet::{SheetSize, TitleBlock, fitted};
use latchline_finding::Locale;
use latchline_scene::palette::Ink;
use latchline_scene::{Area, Dash, Group, Layer, Pen, Point, Scene, Stroke};

/// A curve with its name.
#[derive(Debug, Clone, PartialEq)]
pub struct ReachCurve {
    /// The cable, as it is written at the end of the curve.
    pub name: String,
    /// Points by ascending x; what is not finite is left out.
    pub points: Vec<(f64, f64)>,
}

/// What a reach chart shows.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct ReachChart {
    /// Headline ("Ostrel 48: stations on one port").
    pub title: String,
    /// What holds for all curves ("feeder 20 m, 7 inch video stations, worst state, adverse corner").
    pub subtitle: String,
    /// Quantity and unit along x ("spacing, m").
    pub x_title: String,
    /// Quantity and unit along y ("stations").
    pub y_title: String,
    /// The curves.
    pub curves: Vec<ReachCurve>,
    /// Remarks below the chart, one line each.
    pub notes: Vec<String>,
    /// The revision in the title block.
    pub revision: Option<String>,
    /// The date in the title block.
    pub date: Option<String>,
    /// Language and units of what the sheet says of its own.
    pub locale: Locale,
}

/// Line types in turn: dash and width together tell eight curves apart.
const LOOKS: [(Dash, Pen); 8] = [
    (Dash::Solid, Pen::Heavy),
    (Dash::Dashed, Pen::Thick),
    (Dash::DashDot, Pen::Thick),
    (Dash::Solid, Pen::Thin),
    (Dash::Dotted, Pen::Heavy),
    (Dash::Dashed, Pen::Thin),
    (Dash::DashDot, Pen::Thin),
    (Dash::Dotted, Pen::Middle),
];

/// Draws the chart on one sheet.
pub fn reach_chart(chart: &ReachChart, sheet: SheetSize) -> Scene {
    let lettering = Lettering(chart.locale);
    let block = TitleBlock {
        site: chart.title.clone(),
        subject: String::from(lettering.word(Word::ReachSubject)),
        note: String::from(lettering.word(Word::ForPlanning)),
        kind: Some(Word::KindChart),
        revision: chart.revision.clone(),
        date: chart.date.clone(),
        locale: chart.locale,
        ..TitleBlock::default()
    };
    let frame = Frame::new(sheet, &block, &[]);
    let content = frame.content;
    let mut group = Group::new("chart");
    group
        .text(Layer::Lettering, fitted((content.x, content.y + 6.0), &chart.title, 5.5, true, content.width));
    let subtitle = fitted((content.x, content.y + 11.6), &chart.subtitle, 3.2, false, content.width);
    group.text(Layer::Lettering, subtitle.ink(Ink::Quiet));
    let notes_height = chart.notes.len() as f64 * 4.2;
    let widest =
        chart.curves.iter().map(|curve| latchline_scene::font::text_width_mm(&curve.name, 2.8, false));
    let label_room = widest.fold(12.0, f64::max).min(content.width * 0.35) + 8.0;
    let plot = Area::new(
        content.x + 10.0,
        content.y + 21.0,
        (content.width - 12.0 - label_room).max(20.0),
        (content.height - 33.0 - notes_height).max(20.0),
    );
    let finite = || {
        let points = chart.curves.iter().flat_map(|curve| &curve.points);
        points.copied().filter(|(x, y)| x.is_finite() && y.is_finite())
    };
    let span = |low: f64, value: &dyn Fn((f64, f64)) -> f64| {
        let (low, high) =
            finite().map(value).fold((low, f64::NEG_INFINITY), |(low, high), v| (low.min(v), high.max(v)));
        if high > low { (low, high) } else { (0.0, 1.0) }
    };
    let axes = Axes::new(plot, span(f64::INFINITY, &|point| point.0), span(0.0, &|point| point.1));
    axes.draw(&mut group, &chart.x_title, &chart.y_title, lettering);
    let mut ends: Vec<(Point, usize)> = Vec::new();
    for (number, curve) in chart.curves.iter().enumerate() {
        let points = curve.points.iter().filter(|(x, y)| x.is_finite() && y.is_finite());
        let points: Vec<Point> = points.map(|(x, y)| axes.at(*x, *y)).collect();
        let Some(end) = points.last().copied() else { continue };
        let (dash, pen) = LOOKS[number % LOOKS.len()];
        let mut part = Group::new("curve");
        part.role.title = Some(curve.name.clone());
        if points.len() > 1 {
            part.path(Layer::Curve, points, Stroke::solid(Ink::Wire, pen).dashed(dash));
        } else {
            part.circle(Layer::Curve, end, 0.8, None, Some(Ink::Wire));
        }
        group.group(part);
        ends.push((end, number));
    }
    let wanted: Vec<f64> = ends.iter().map(|(end, _)| end.1).collect();
    let heights = spread(&wanted, 4.0, (plot.y, plot.bottom()));
    for ((end, number), y) in ends.iter().zip(heights) {
        let x = plot.right() + 7.0;
        let (dash, pen) = LOOKS[number % LOOKS.len()];
        let leader = Stroke::solid(Ink::Outline, Pen::Thin);
        group.line(Layer::Curve, *end, (plot.right() + 1.5, y), leader);
        group.line(
            Layer::Curve,
            (plot.right() + 1.5, y),
            (x - 1.0, y),
            Stroke::solid(Ink::Wire, pen).dashed(dash),
        );
        let room = content.right() - x;
        group.text(Layer::Lettering, fitted((x, y + 1.0), &chart.curves[*number].name, 2.8, false, room));
    }
    let absent: Vec<&str> = chart
        .curves
        .iter()
        .enumerate()
        .filter(|(number, _)| !ends.iter().any(|(_, drawn)| drawn == number))
        .map(|(_, curve)| curve.name.as_str())
        .collect();
    let mut lines = chart.notes.clone();
    if !absent.is_empty() {
        lines.push(lettering.say(&Phrase::NoStationAtAll { cables: &absent.join(", ") }));
    }
    for (number, line) in lines.iter().enumerate() {
        let y = plot.bottom() + 13.0 + number as f64 * 4.2;
        group.text(Layer::Lettering, fitted((content.x, y), line, 2.8, false, content.width).ink(Ink::Quiet));
    }
    let description = lettering.say(&Phrase::ReachShows {
        title: &chart.title,
        subtitle: &chart.subtitle,
        curves: chart.curves.len(),
    });
    let mut scene = frame.scene(chart.title.clone(), description);
    scene.root.group(group);
    frame.draw(&mut scene.root, &block, &[], 1, 1);
    scene
}
