//! Charts of what the bus does besides carrying current: what reaches the weakest station in each band of
//! signals, and how the voltage comes up when power returns.
//!
//! The numbers are the assessment's; this only draws them.

use crate::chart::{Axes, spread};
use crate::language::{Lettering, Phrase, Word};
use crate::panels::panel_sheets;
use crate::sheet::{SheetOptions, fitted};
use latchline_assess::Assessment;
use latchline_assess::physics_summary::{PowerReturnOutcome, SignalSummary, StartUpSummary};
use latchline_finding::Sourced;
use latchline_finding::quantity::Voltage;
use latchline_scene::font::LEAST_MM;
use latchline_scene::palette::Ink;
use latchline_scene::{Area, Dash, Group, Layer, Pen, Point, Scene, Stroke};
use latchline_site::model::Site;
use latchline_words::figures::{self, start_s, start_time};

/// A panel is not made lower than this while a sheet has room for fewer.
const LEAST_PANEL_MM: f64 = 74.0;
/// Room above a plot: title, subtitle, title of the axis.
const HEAD_MM: f64 = 18.0;
/// Room below a plot for its marks and the title of the axis.
const FOOT_MM: f64 = 9.5;
const NOTE_MM: f64 = 4.2;
const LABEL_MM: f64 = LEAST_MM;
/// Line types of the first and second curve.
const LOOKS: [(Dash, Pen); 2] = [(Dash::Solid, Pen::Thick), (Dash::Dashed, Pen::Thick)];

/// One chart.
struct Panel {
    title: String,
    subtitle: String,
    x_title: String,
    y_title: Word,
    curves: Vec<(String, Vec<(f64, f64)>)>,
    /// Horizontal lines with their names.
    limits: Vec<(String, f64)>,
    /// A point to look at.
    mark: Option<(f64, f64)>,
    /// Whether something is wrong here.
    fails: bool,
    notes: Vec<String>,
}

/// Insertion loss at the weakest station over frequency, a panel for each band of the site's family.
pub fn signal_sheets(site: &Site, assessment: &Assessment, options: &SheetOptions) -> Vec<Scene> {
    let lettering = options.lettering();
    let panels: Vec<Panel> =
        assessment.signal.iter().map(|band| signal_panel(site, band, lettering)).collect();
    sheets(site, assessment, options, &panels, (Word::SignalSubject, Word::NoSignal))
}

/// Bus voltage over time when power returns, a panel for each supply and regenerating box.
pub fn start_up_sheets(site: &Site, assessment: &Assessment, options: &SheetOptions) -> Vec<Scene> {
    let lettering = options.lettering();
    let panels: Vec<Panel> =
        assessment.start_up.iter().map(|start| start_up_panel(site, start, lettering)).collect();
    sheets(site, assessment, options, &panels, (Word::StartUpSubject, Word::NoPowerReturn))
}

fn signal_panel(site: &Site, band: &SignalSummary, lettering: Lettering) -> Panel {
    let (unit, per_unit) = if band.high_hz >= 1e6 { ("MHz", 1e6) } else { ("kHz", 1e3) };
    let points: Vec<(f64, f64)> =
        band.frequency_hz.iter().zip(&band.insertion_loss_db).map(|(hz, db)| (hz / per_unit, *db)).collect();
    let worst = &band.worst;
    let fails = worst.loss_db > band.budget_db;
    let share = site.family().signal_bands.iter().find(|one| one.name == band.band);
    let share = share.map_or(1.0, |one| one.share.value.as_fraction());
    let share = (share < 1.0).then(|| lettering.trimmed(share * 100.0, 0));
    let up = |loss_db| figures::decibels(loss_db, lettering.0.language);
    let frequency = |hertz: f64| lettering.trimmed(hertz / per_unit, 3);
    let budget = &lettering.trimmed(band.budget_db, 1);
    let mut notes: Vec<String> = band
        .callers
        .iter()
        .map(|caller| {
            lettering.say(&Phrase::WeakestFrom {
                caller: caller.caller.as_str(),
                station: caller.station.as_str(),
                loss: &up(caller.loss_db),
                at: &frequency(caller.at_hz),
                unit,
            })
        })
        .collect();
    notes.truncate(MOST_NOTES);
    if !band.complete {
        notes.push(String::from(lettering.word(Word::NotEveryDip)));
    }
    let hears = Phrase::Hears { station: worst.station.as_str(), caller: worst.caller.as_str() };
    Panel {
        title: lettering.say(&Phrase::Band {
            band: lettering.band(&band.band),
            low: &frequency(band.low_hz),
            high: &frequency(band.high_hz),
            unit,
        }),
        subtitle: lettering.say(&Phrase::Weakest {
            station: worst.station.as_str(),
            caller: worst.caller.as_str(),
            loss: &up(worst.loss_db),
            share: share.as_deref(),
            at: &frequency(worst.at_hz),
            unit,
            lengths: worst.lengths.term().say(lettering.0.language),
            budget,
            outcome: lettering.word(if fails { Word::TooWeak } else { Word::Holds }),
        }),
        x_title: lettering.say(&Phrase::Frequency { unit }),
        y_title: Word::Loss,
        mark: Some((worst.at_hz / per_unit, worst.loss_db)),
        curves: vec![(lettering.say(&hears), points)],
        limits: vec![(lettering.say(&Phrase::Budget { budget, share: share.as_deref() }), band.budget_db)],
        fails,
        notes,
    }
}

/// Most callers that are listed below a chart.
const MOST_NOTES: usize = 4;

fn start_up_panel(site: &Site, start: &StartUpSummary, lettering: Lettering) -> Panel {
    let (devices, down) = (start.devices, start.not_running.len());
    let told = match start.outcome {
        PowerReturnOutcome::Runs
            if start.dropouts == 0 && start.time_s.is_some_and(|time_s| start_s(time_s) == 0.0) =>
        {
            lettering.say(&Phrase::UpAtOnce { devices })
        }
        PowerReturnOutcome::Runs => lettering.say(&Phrase::AllUp {
            devices,
            after: start.time_s.map(|time| start_time(time, lettering.0.language)).as_deref(),
            last: start.last.as_ref().map(|last| last.as_str()),
            dropouts: (start.dropouts > 0).then_some(start.dropouts),
        }),
        PowerReturnOutcome::NotJudged => lettering.say(&Phrase::StartNotJudged { devices }),
        PowerReturnOutcome::Hiccups => {
            let period = start.period_s.map(|period| lettering.trimmed(period, 2));
            lettering.say(&Phrase::Hiccups { period: period.as_deref(), down, devices })
        }
        PowerReturnOutcome::BrownOut => lettering.say(&Phrase::BrownOut { down, devices }),
        PowerReturnOutcome::Undecided => String::from(lettering.word(Word::Undecided)),
    };
    let curves: Vec<(String, Vec<(f64, f64)>)> = start
        .curves
        .iter()
        .map(|curve| {
            let points = curve.time_s.iter().zip(&curve.voltage_v).map(|(s, v)| (*s, *v));
            (curve.element.to_string(), points.collect())
        })
        .collect();
    // What the farther of the two places needs, at its terminals.
    let model = start.curves.last().and_then(|curve| {
        let station = site.stations.iter().find(|station| station.id == curve.element)?;
        Some(site.station_model(station))
    });
    let limits = model.map_or_else(Vec::new, |model| {
        let level = |value: &Option<Sourced<Voltage>>, on: bool| {
            let volts = value.as_ref()?.value.as_volts();
            let voltage = &lettering.trimmed(volts, 1);
            let phrase = if on { Phrase::TurnsOn { voltage } } else { Phrase::TurnsOff { voltage } };
            Some((lettering.say(&phrase), volts))
        };
        let levels = [level(&model.turn_on_voltage, true), level(&model.turn_off_voltage, false)];
        levels.into_iter().flatten().collect()
    });
    let limit = start.limit_a.map(|limit| lettering.trimmed(limit, 2));
    let boot = start.boot_current_a.is_finite().then(|| {
        lettering.say(&Phrase::BootCurrent {
            current: &lettering.rounded_up(start.boot_current_a),
            source: limit.is_some().then_some(start.source.as_str()),
            limit: limit.as_deref(),
        })
    });
    let notes = boot.into_iter().collect();
    Panel {
        title: lettering.say(&Phrase::PowerReturns { source: start.source.as_str() }),
        subtitle: told,
        x_title: String::from(lettering.word(Word::Time)),
        y_title: Word::Voltage,
        curves,
        limits,
        mark: None,
        fails: start.outcome != PowerReturnOutcome::Runs,
        notes,
    }
}

fn sheets(
    site: &Site,
    assessment: &Assessment,
    options: &SheetOptions,
    panels: &[Panel],
    words: (Word, Word),
) -> Vec<Scene> {
    let draw_panel = |panel: usize, area: Area| draw(&panels[panel], area, options.lettering());
    panel_sheets(site, assessment, options, (panels.len(), LEAST_PANEL_MM), words, &[], &draw_panel)
}

/// A name at the right of the plot and the height that it wants.
struct Label<'p> {
    words: &'p str,
    from: Point,
    stroke: Option<Stroke>,
}

fn draw(panel: &Panel, area: Area, lettering: Lettering) -> Group {
    let mut group = Group::new("chart");
    group.role.title = Some(format!("{}: {}", panel.title, panel.subtitle));
    group.text(Layer::Lettering, fitted((area.x, area.y + 4.6), &panel.title, 4.2, true, area.width));
    let subtitle = fitted((area.x, area.y + 9.4), &panel.subtitle, 3.0, panel.fails, area.width);
    group.text(Layer::Lettering, subtitle);
    let names = panel.curves.iter().map(|(name, _)| name).chain(panel.limits.iter().map(|(name, _)| name));
    let widest =
        names.map(|name| latchline_scene::font::text_width_mm(name, LABEL_MM, false)).fold(10.0, f64::max);
    let label_room = widest.min(area.width * 0.3) + 9.0;
    let plot = Area::new(
        area.x + 10.0,
        area.y + HEAD_MM,
        (area.width - 11.0 - label_room).max(20.0),
        (area.height - HEAD_MM - FOOT_MM - panel.notes.len() as f64 * NOTE_MM).max(15.0),
    );
    let points = || panel.curves.iter().flat_map(|(_, points)| points.iter().copied());
    let finite = || points().filter(|(x, y)| x.is_finite() && y.is_finite());
    let (low, high) =
        finite().fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), (x, _)| (low.min(x), high.max(x)));
    let top =
        finite().map(|point| point.1).chain(panel.limits.iter().map(|limit| limit.1)).fold(1.0, f64::max);
    let span = if high > low { (low, high) } else { (0.0, 1.0) };
    let axes = Axes::new(plot, span, (0.0, top));
    axes.draw(&mut group, &panel.x_title, lettering.word(panel.y_title), lettering);
    let mut labels: Vec<Label<'_>> = Vec::new();
    for (name, value) in &panel.limits {
        let (_, y) = axes.at(span.0, *value);
        let stroke = Stroke::solid(Ink::Trouble, Pen::Middle).dashed(Dash::Dashed);
        group.line(Layer::Curve, (plot.x, y), (plot.right(), y), stroke);
        labels.push(Label { words: name, from: (plot.right(), y), stroke: None });
    }
    for (number, (name, points)) in panel.curves.iter().enumerate() {
        let points: Vec<Point> = points
            .iter()
            .filter(|(x, y)| x.is_finite() && y.is_finite())
            .map(|(x, y)| axes.at(*x, *y))
            .collect();
        let Some(end) = points.last().copied() else { continue };
        let (dash, pen) = LOOKS[number % LOOKS.len()];
        let stroke = Stroke::solid(Ink::Wire, pen).dashed(dash);
        let mut part = Group::new("curve");
        part.role.title = Some(name.clone());
        if points.len() > 1 {
            part.path(Layer::Curve, points, stroke);
        }
        group.group(part);
        labels.push(Label { words: name, from: end, stroke: Some(stroke) });
    }
    if let Some((x, y)) = panel.mark {
        group.circle(Layer::Trouble, axes.at(x, y), 1.1, None, Some(Ink::Trouble));
    }
    let wanted: Vec<f64> = labels.iter().map(|label| label.from.1).collect();
    let heights = spread(&wanted, 4.0, (plot.y, plot.bottom()));
    for (label, y) in labels.iter().zip(heights) {
        let x = plot.right() + 8.0;
        group.line(Layer::Curve, label.from, (plot.right() + 2.0, y), Stroke::solid(Ink::Outline, Pen::Thin));
        let stroke = label.stroke.unwrap_or(Stroke::solid(Ink::Trouble, Pen::Middle).dashed(Dash::Dashed));
        group.line(Layer::Curve, (plot.right() + 2.0, y), (x - 1.0, y), stroke);
        let room = area.right() - x;
        group.text(Layer::Lettering, fitted((x, y + 0.9), label.words, LABEL_MM, false, room));
    }
    for (number, note) in panel.notes.iter().enumerate() {
        let y = plot.bottom() + FOOT_MM + 2.0 + number as f64 * NOTE_MM;
        let text = fitted((area.x, y), note, LEAST_MM, false, area.width);
        group.text(Layer::Lettering, text.ink(Ink::Quiet));
    }
    group
}
