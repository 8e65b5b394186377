//! The voltage along one run.

use latchline_assess::VoltageResults;
use latchline_finding::Locale;
use latchline_site::model::{RunStop, Site};
use latchline_words::figures;
use latchline_words::office::Label;
use maud::{Markup, html};

/// A point of the plot: name, distance in metres, worst voltage, limit.
struct Point<'a> {
    name: &'a str,
    at_m: f64,
    volts: f64,
    limit_v: f64,
}

/// Worst voltage of every station along a run, each against its own limit.
pub(crate) fn profile(site: &Site, results: &VoltageResults, run: usize, locale: Locale) -> Markup {
    let run = &site.runs[run];
    let mut points: Vec<Point<'_>> = Vec::new();
    let mut at_m = 0.0;
    for section in &run.sections {
        at_m += section.length.value.as_metres();
        let RunStop::Station(station) = section.to else { continue };
        let name = site.stations[station].id.as_str();
        let found = results.devices.iter().find(|device| device.id.as_str() == name);
        if let Some((device, volts)) = found.and_then(|device| Some((device, device.worst.adverse_v?))) {
            points.push(Point { name, at_m, volts, limit_v: device.worst.limit_v });
        }
    }
    if points.len() < 2 {
        return html! {};
    }
    let low =
        points.iter().map(|point| point.limit_v.min(point.volts)).fold(f64::INFINITY, f64::min).floor() - 1.0;
    let high = points.iter().map(|point| point.volts).fold(low + 1.0, f64::max).ceil() + 0.5;
    let (width, height, left, top) = (300.0, 130.0, 34.0, 16.0);
    let x = |metres: f64| left + metres / at_m.max(0.1) * (width - left - 34.0);
    let y = |volts: f64| top + (high - volts) / (high - low) * (height - top - 24.0);
    let line = |value: fn(&Point<'_>) -> f64| -> String {
        points
            .iter()
            .map(|point| format!("{:.1},{:.1}", x(point.at_m), y(value(point))))
            .collect::<Vec<_>>()
            .join(" ")
    };
    let number = |value: f64| figures::decimals(figures::rounded_down(value, 1), locale.language);
    let title = format!("{} {}", Label::Along.say(locale.language), run.id);
    let last = &points[points.len() - 1];
    html! {
        h3 { (title) }
        svg.profile viewBox={ "0 0 " (width) " " (height) } role="group" aria-label=(title) {
            @for volts in [low.ceil(), high.floor()] {
                line.grid x1=(left) x2=(width - 4.0) y1=(format!("{:.1}", y(volts))) y2=(format!("{:.1}", y(volts))) {}
                text x=(left - 6.0) y=(format!("{:.1}", y(volts) + 4.0)) text-anchor="end" { (volts) " V" }
            }
            polyline.limit points=(line(|point| point.limit_v)) {}
            polyline.curve points=(line(|point| point.volts)) {}
            @for point in &points {
                g tabindex="0" role="img" aria-label={ (point.name) ": " (number(point.volts)) " V, " (Label::Limit.say(locale.language)) " " (number(point.limit_v)) " V" } {
                    title { (point.name) ": " (number(point.volts)) " V" }
                    circle.below[point.volts < point.limit_v] cx=(format!("{:.1}", x(point.at_m))) cy=(format!("{:.1}", y(point.volts))) r="3.5" {}
                }
            }
            text.end x=(format!("{:.1}", x(last.at_m) + 6.0)) y=(format!("{:.1}", y(last.volts) + 4.0)) { (number(last.volts)) }
            text.quiet x=(format!("{:.1}", x(points[0].at_m))) y=(height - 6.0) text-anchor="middle" { (points[0].name) }
            text.quiet x=(format!("{:.1}", x(last.at_m))) y=(height - 6.0) text-anchor="middle" { (last.name) }
        }
    }
}
