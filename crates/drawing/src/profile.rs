//! Voltage against distance along each run: small multiples, supply by supply.
//!
//! Every device is drawn in its own worst state: its adverse voltage, the nominal voltage in the
//! same state, and the limit that holds there, all as the assessment gives them.

mod rows;

use crate::chart::{Axes, CHART_TEXT_MM};
use crate::frame::Frame;
use crate::labels::{Candidate, Obstacles, place};
use crate::language::{Lettering, Phrase, Word};
use crate::sheet::{LegendEntry, SheetOptions, SheetSize, TitleBlock, fitted, verdict_note};
use crate::symbols;
use latchline_assess::{Assessment, DeviceResult};
use latchline_finding::Units;
use latchline_scene::font::{LEAST_MM, text_width_mm};
use latchline_scene::palette::Ink;
use latchline_scene::{Anchor, Area, Dash, Group, Layer, Pen, Point, Scene, Stroke, Text};
use latchline_site::model::{RunStart, RunStop, Site};
use rows::{Laid, lay_out};
use std::collections::{BTreeMap, BTreeSet};

/// So many of the small sheets lie beside one another on a table; what takes more is drawn on large ones.
const MOST_SMALL_SHEETS: usize = 2;
/// Least span of an axis of voltages, so that what hardly falls looks so.
const LEAST_SPAN_V: f64 = 1.0;
/// A limit that would make the axis more than this many times as long is told at its lower end.
const LIMIT_WITHIN: f64 = 1.6;
/// Most names in one panel; runs with more stops are cut.
const MOST_STOPS: usize = 16;

/// One panel: runs that belong together.
struct Panel<'p> {
    source: String,
    title: String,
    /// Each way from its start: the devices in order.
    ways: Vec<Vec<&'p DeviceResult>>,
}

/// Spans of the axes of a panel: the same distance in all panels of a source, the voltages that its own curves have.
#[derive(Clone, Copy)]
struct Spans {
    /// In the reader's unit of length.
    distance: f64,
    voltage_v: (f64, f64),
}

impl Spans {
    /// Whether a limit lies below what is shown.
    fn is_below(&self, limit_v: f64) -> bool {
        limit_v < self.voltage_v.0 - 1e-9
    }
}

/// Draws the profiles of all runs, one scene for each sheet.
pub fn profiles(site: &Site, assessment: &Assessment, options: &SheetOptions) -> Vec<Scene> {
    let lettering = options.lettering();
    let panels = panels(site, assessment, lettering);
    let subject = lettering.word(Word::ProfilesSubject);
    let block = TitleBlock::of_site(site, subject, verdict_note(assessment, lettering), options)
        .of_kind(Word::KindChart);
    let entries = legend(lettering);
    let sources: Vec<&str> = panels.iter().map(|panel| panel.source.as_str()).collect();
    let on = |size: SheetSize| {
        let frame = Frame::new(size, &block, &entries);
        let laid = lay_out(&sources, frame.content);
        (frame, laid)
    };
    let (frame, laid) = match options.sheet {
        Some(size) => on(size),
        None => {
            let small = on(SheetSize::A4_UPRIGHT);
            if small.1.len() > MOST_SMALL_SHEETS { on(SheetSize::A3) } else { small }
        }
    };
    let draw_sheet = |laid: &Vec<Laid>| {
        let mut sheet = Group::new("profiles");
        for laid in laid {
            match laid {
                Laid::Heading(panel, y) => {
                    let words = lettering.say(&Phrase::FromSource { source: sources[*panel] });
                    let at = (frame.content.x, y + 5.0);
                    sheet.text(Layer::Lettering, fitted(at, &words, 4.2, true, frame.content.width));
                }
                Laid::Panel(panel, area) => {
                    let panel = &panels[*panel];
                    let spans = spans(assessment, panel, lettering);
                    sheet.group(draw_panel(panel, spans, *area, lettering));
                }
            }
        }
        sheet
    };
    let mut sheets: Vec<Group> = laid.iter().map(draw_sheet).collect();
    if panels.is_empty() {
        let text = Text::new((frame.content.x, frame.content.y + 6.0), lettering.word(Word::NoProfile), 3.2);
        sheets.iter_mut().take(1).for_each(|sheet| sheet.text(Layer::Lettering, text.clone()));
    }
    let description = lettering.say(&Phrase::ProfilesShow { groups: panels.len() });
    frame.sheets(sheets, &block, &entries, lettering.word(Word::Profiles), &description)
}

fn panels<'p>(site: &Site, assessment: &'p Assessment, lettering: Lettering) -> Vec<Panel<'p>> {
    let results: BTreeMap<&str, &DeviceResult> =
        assessment.devices.iter().map(|device| (device.id.as_str(), device)).collect();
    let mut panels: Vec<Panel<'p>> = Vec::new();
    // Runs with one stop from the same box share a panel, up to so many names.
    let mut shared: BTreeMap<(String, String), usize> = BTreeMap::new();
    for run in &site.runs {
        let start = match run.from {
            RunStart::Port { box_index, .. } => site.boxes[box_index].id.to_string(),
            other => site.start_id(other).to_string(),
        };
        let stops: Vec<&DeviceResult> = run
            .sections
            .iter()
            .filter_map(|section| results.get(site.stop_id(section.to).as_str()).copied())
            .collect();
        let Some(first) = stops.first() else { continue };
        let source = first.source.to_string();
        // The device at the start, if it is on the same source, is where the curve begins.
        let begin = results.get(start.as_str()).copied().filter(|device| device.source.as_str() == source);
        if stops.len() == 1 {
            // A box fed by its source alone is where the panels of its own runs begin.
            if begin.is_none() && !matches!(run.sections[0].to, RunStop::Station(_)) {
                continue;
            }
            let way: Vec<&DeviceResult> = begin.into_iter().chain(stops).collect();
            let key = (source.clone(), start.clone());
            let open = shared.get(&key).copied().filter(|panel| panels[*panel].ways.len() < MOST_STOPS);
            match open {
                Some(panel) => panels[panel].ways.push(way),
                None => {
                    shared.insert(key, panels.len());
                    panels.push(Panel {
                        source,
                        title: lettering.say(&Phrase::SingleStops { from: &start }),
                        ways: vec![way],
                    });
                }
            }
            continue;
        }
        let length = lettering.length(run.length().as_metres());
        let conductor = lettering.conductor(site, run);
        let from = lettering.say(&Phrase::StartsAt { from: &site.start_id(run.from).to_string() });
        let title = format!("{} · {length} · {conductor} · {from}", run.id);
        let mut before = begin;
        for (part, chunk) in stops.chunks(MOST_STOPS).enumerate() {
            let way: Vec<&DeviceResult> = before.into_iter().chain(chunk.iter().copied()).collect();
            before = chunk.last().copied();
            let title = match part {
                0 => title.clone(),
                _ => lettering.say(&Phrase::TitleContinued { title: &title }),
            };
            panels.push(Panel { source: source.clone(), title, ways: vec![way] });
        }
    }
    let order: BTreeMap<&str, usize> =
        assessment.sources.iter().enumerate().map(|(number, source)| (source.id.as_str(), number)).collect();
    panels.sort_by_key(|panel| order.get(panel.source.as_str()).copied().unwrap_or(usize::MAX));
    panels
}

fn spans(assessment: &Assessment, panel: &Panel<'_>, lettering: Lettering) -> Spans {
    let of_source = assessment.devices.iter().filter(|device| device.source.as_str() == panel.source);
    let distances = of_source.map(|device| lettering.scaled_length(device.distance_m).0);
    let distance = distances.fold(1.0, f64::max);
    let within = |(low, high): (f64, f64), value: f64| (low.min(value), high.max(value));
    let shown = panel.ways.iter().flatten();
    let values = shown.clone().flat_map(|device| [device.worst.adverse_v, device.worst.nominal_v]);
    let values = values.flatten().filter(|value| value.is_finite());
    let (mut low, mut high) = values.fold((f64::INFINITY, f64::NEG_INFINITY), within);
    if low > high {
        (low, high) = (0.0, LEAST_SPAN_V);
    }
    low = low.min(high - LEAST_SPAN_V);
    let limits = shown.map(|device| device.worst.limit_v).filter(|limit| limit.is_finite());
    let near = limits.filter(|limit| *limit >= high - LIMIT_WITHIN * (high - low));
    let voltage_v = near.fold((low, high), within);
    Spans { distance, voltage_v }
}

fn draw_panel(panel: &Panel<'_>, spans: Spans, area: Area, lettering: Lettering) -> Group {
    let distance = |device: &DeviceResult| lettering.scaled_length(device.distance_m).0;
    let mut group = Group::new("profile");
    group.role.title = Some(panel.title.clone());
    let title = fitted((area.x, area.y + 3.6), &panel.title, 3.0, true, area.width);
    group.text(Layer::Lettering, title);
    let plot = Area::new(area.x + 10.0, area.y + 9.0, area.width - 12.0, area.height - 18.0);
    let axes = Axes::new(plot, (0.0, spans.distance), spans.voltage_v);
    let x_title = lettering.word(match lettering.0.units {
        Units::Metric => Word::MetresFromSource,
        Units::Us => Word::FeetFromSource,
    });
    axes.draw(&mut group, x_title, "V", lettering);
    let mut obstacles = Obstacles::default();
    let mut line = |group: &mut Group, points: Vec<Point>, stroke: Stroke| {
        for pair in points.windows(2) {
            for step in 0..24 {
                let at = |share: f64| {
                    (pair[0].0 + (pair[1].0 - pair[0].0) * share, pair[0].1 + (pair[1].1 - pair[0].1) * share)
                };
                obstacles.add(
                    Area::between(at(f64::from(step) / 24.0), at(f64::from(step + 1) / 24.0)).grown(0.3),
                );
            }
        }
        if points.len() > 1 {
            group.path(Layer::Curve, points, stroke);
        }
    };
    let limit_stroke = Stroke::solid(Ink::Trouble, Pen::Middle).dashed(Dash::Dashed);
    let mut limits: BTreeMap<i64, (f64, f64, f64)> = BTreeMap::new();
    for way in &panel.ways {
        let curve = |value: &dyn Fn(&DeviceResult) -> Option<f64>| -> Vec<Point> {
            way.iter().filter_map(|device| Some(axes.at(distance(device), value(device)?))).collect()
        };
        line(
            &mut group,
            curve(&|device| device.worst.nominal_v),
            Stroke::solid(Ink::Quiet, Pen::Thin).dashed(Dash::Dotted),
        );
        line(&mut group, curve(&|device| device.worst.adverse_v), Stroke::solid(Ink::Wire, Pen::Thick));
        for device in way.iter().filter(|device| !spans.is_below(device.worst.limit_v)) {
            let (x, y) = axes.at(distance(device), device.worst.limit_v);
            let known = limits.entry((device.worst.limit_v * 100.0).round() as i64).or_insert((x, x, y));
            *known = (known.0.min(x), known.1.max(x), y);
        }
    }
    for (from, to, y) in limits.values() {
        line(
            &mut group,
            vec![((from - 3.0).max(plot.x), *y), ((to + 3.0).min(plot.right()), *y)],
            limit_stroke,
        );
    }
    below_the_axis(&mut group, panel, spans, plot, lettering);
    for y in axes.grid() {
        obstacles.add(Area::new(plot.x, y - 0.15, plot.width, 0.3));
    }
    let mut seen: Vec<&str> = Vec::new();
    let mut marks: Vec<(Point, &DeviceResult)> = Vec::new();
    for device in panel.ways.iter().flatten() {
        if !seen.contains(&device.id.as_str()) {
            seen.push(device.id.as_str());
            let voltage = device.worst.adverse_v.unwrap_or(f64::NEG_INFINITY);
            marks.push((axes.at(distance(device), voltage.max(-1e9)), device));
        }
    }
    for ((x, y), device) in &marks {
        if device.worst.margin_v() < 0.0 {
            symbols::error_mark(&mut group, (x - 1.3, y - 1.5), 2.6);
        } else {
            group.circle(
                Layer::Curve,
                (*x, *y),
                0.8,
                Some(Stroke::solid(Ink::Wire, Pen::Thin)),
                Some(Ink::Paper),
            );
        }
        obstacles.add(Area::new(x - 1.3, y - 1.3, 2.6, 2.6));
    }
    label(&mut group, &marks, &limits, &mut obstacles, (area, plot), lettering);
    group
}

/// The limits that lie further down than the axis goes, in a line of their own below it.
fn below_the_axis(group: &mut Group, panel: &Panel<'_>, spans: Spans, plot: Area, lettering: Lettering) {
    let limits = panel.ways.iter().flatten().map(|device| device.worst.limit_v);
    let below: BTreeSet<i64> =
        limits.filter(|limit| spans.is_below(*limit)).map(|limit| (limit * 100.0).round() as i64).collect();
    if below.is_empty() {
        return;
    }
    let each = below.iter().map(|limit| lettering.trimmed(*limit as f64 / 100.0, 2)).collect::<Vec<_>>();
    let words = format!("↓ {}", lettering.say(&Phrase::LimitVolts { limit: &each.join(", ") }));
    let at = (plot.x, plot.bottom() + 7.8);
    let room = plot.width / 2.0;
    group.text(Layer::Lettering, fitted(at, &words, CHART_TEXT_MM, false, room).ink(Ink::Trouble));
}

/// The line that joins a mark to its label: from the edge of the mark to the edge of the box.
fn leader((x, y): Point, label: &Area) -> (Point, Point) {
    const MARK_MM: f64 = 0.9;
    let above = label.y < y;
    let end = if above { label.bottom() } else { label.y };
    ((x, if above { y - MARK_MM } else { y + MARK_MM }), (x.clamp(label.x, label.right()), end))
}

/// Names the devices and the limits.
fn label(
    group: &mut Group,
    marks: &[(Point, &DeviceResult)],
    limits: &BTreeMap<i64, (f64, f64, f64)>,
    obstacles: &mut Obstacles,
    (area, plot): (Area, Area),
    lettering: Lettering,
) {
    // The figures of the axes and what lies outside the panel stay free.
    for edge in [
        Area::new(plot.x - 200.0, plot.y - 200.0, 199.0, 500.0),
        Area::new(area.right(), plot.y - 200.0, 200.0, 500.0),
        Area::new(plot.x - 200.0, plot.bottom() - 0.1, 600.0, 100.0),
        Area::new(plot.x - 200.0, area.y - 100.0, 600.0, 104.4),
        Area::new(plot.x - 9.0, plot.y - 5.4, 9.0, 5.0),
    ] {
        obstacles.add(edge);
    }
    let mut texts: Vec<(String, Point, Ink)> = Vec::new();
    for (at, device) in marks {
        let figure = device.worst.adverse_v.map_or_else(
            || String::from(lettering.word(Word::NoVoltage)),
            |voltage| lettering.rounded_down(voltage),
        );
        let ink = if device.worst.margin_v() < 0.0 { Ink::Trouble } else { Ink::Text };
        texts.push((format!("{} {figure}", device.id), *at, ink));
    }
    for (limit, (from, to, y)) in limits {
        let limit = &lettering.trimmed(*limit as f64 / 100.0, 2);
        let words = lettering.say(&Phrase::LimitVolts { limit });
        texts.push((words, ((from + to) / 2.0, *y), Ink::Trouble));
    }
    let mut choices: Vec<Vec<(Candidate, Text)>> = Vec::new();
    for (words, (x, y), ink) in &texts {
        let mut found = Vec::new();
        // The eight positions around a point, in the order of preference of Christensen, Marks and
        // Shieber, then the same further off, joined by a leader.
        for (ring, distance) in [1.6, 4.6, 7.8, 11.0, 14.2].into_iter().enumerate() {
            for (rank, (right, up)) in [
                (1.0, 1.0),
                (-1.0, 1.0),
                (-1.0, -1.0),
                (1.0, -1.0),
                (0.0, 1.0),
                (0.0, -1.0),
                (1.0, 0.0),
                (-1.0, 0.0),
            ]
            .into_iter()
            .enumerate()
            {
                let anchor = match right as i64 {
                    1 => Anchor::Start,
                    0 => Anchor::Middle,
                    _ => Anchor::End,
                };
                let side = if ring > 0 { 1.0 } else { distance };
                let drop = if up > 0.0 { 0.0 } else { CHART_TEXT_MM * 0.7 }
                    - if up == 0.0 { CHART_TEXT_MM * 0.35 } else { 0.0 };
                let at = (x + right * side, y - up * distance + drop);
                let text = Text::new(at, words.clone(), CHART_TEXT_MM).anchored(anchor).ink(*ink);
                if obstacles.is_free(&text.area()) {
                    let cost = ring as f64 * 4.0 + rank as f64 * 0.3;
                    let leader = (ring > 0).then(|| {
                        let (from, to) = leader((*x, *y), &text.area());
                        Area::between(from, to).grown(0.2)
                    });
                    found.push((Candidate { area: text.area().grown(0.15), leader, cost }, text));
                }
            }
        }
        choices.push(found);
    }
    let boxes: Vec<Vec<Candidate>> =
        choices.iter().map(|list| list.iter().map(|(candidate, _)| *candidate).collect()).collect();
    let mut unnamed = Vec::new();
    for (((words, (x, y), _), list), chosen) in texts.iter().zip(&choices).zip(place(&boxes, 20)) {
        let Some(number) = chosen else {
            unnamed.push(words.as_str());
            continue;
        };
        let (candidate, text) = &list[number];
        if candidate.leader.is_some() {
            let (from, to) = leader((*x, *y), &text.area());
            group.line(Layer::Axis, from, to, Stroke::solid(Ink::Outline, Pen::Thin));
        }
        group.text(Layer::Lettering, text.clone());
    }
    if !unnamed.is_empty() {
        let words = not_named(&unnamed, area.width - 30.0, lettering);
        let text = Text::new((area.x, area.bottom() + 2.3), words, LEAST_MM);
        group.text(Layer::Lettering, text.ink(Ink::Quiet));
    }
}

/// As many names as there is room for, whole, and how many more there are: the table of voltages has them all.
fn not_named(names: &[&str], room_mm: f64, lettering: Lettering) -> String {
    let said = |count: usize| {
        let more = Some(names.len() - count).filter(|more| *more > 0);
        lettering.say(&Phrase::NotNamed { names: &names[..count].join(", "), more })
    };
    let fits = |count: &usize| text_width_mm(&said(*count), LEAST_MM, false) <= room_mm;
    said((1..=names.len()).rev().find(fits).unwrap_or(0))
}

fn legend(lettering: Lettering) -> Vec<LegendEntry> {
    let line = |words: Word, stroke: Stroke| LegendEntry {
        picture_width: 8.0,
        picture: Box::new(move |group, (x, y)| {
            group.line(Layer::Curve, (x, y + 2.0), (x + 8.0, y + 2.0), stroke);
        }),
        text: lettering.word(words).to_string(),
    };
    vec![
        line(Word::AdverseCurve, Stroke::solid(Ink::Wire, Pen::Thick)),
        line(Word::NominalCurve, Stroke::solid(Ink::Quiet, Pen::Thin).dashed(Dash::Dotted)),
        line(Word::LimitLine, Stroke::solid(Ink::Trouble, Pen::Middle).dashed(Dash::Dashed)),
        LegendEntry {
            picture_width: 3.0,
            picture: Box::new(|group, (x, y)| symbols::error_mark(group, (x, y + 0.5), 3.0)),
            text: lettering.word(Word::BelowLimit).to_string(),
        },
    ]
}
