//! The elevation alive on a page: the same picture as on paper, in one piece, with every part that figures change in a group of its own.
//!
//! Room is kept for what may be found later, and no width depends on a figure: as long as the wiring stays what it is, a page patches texts and
//! classes and nothing moves.

use super::canvas::{self, CAPTION_MM, Canvas, Page, moved, numbers, part_of, paths};
use super::card::{self, Card, CardKind, Trouble};
use super::card_picture;
use super::cut::Grouping;
use super::plan::ElevationPlan;
use super::route::{self, CardEnd, CardTerminal};
use super::run_labels::place_labels;
use super::run_look::{RunLook, usual_conductor};
use super::subject::Subject;
use super::ways::joined;
use crate::labels::Obstacles;
use crate::language::{Lettering, Phrase, Word};
use crate::sheet::fitted;
use crate::symbols;
use latchline_assess::VoltageResults;
use latchline_finding::{Finding, Locale, Severity};
use latchline_scene::font::{LEAST_MM, text_width_mm};
use latchline_scene::palette::{Ink, Palette};
use latchline_scene::svg;
use latchline_scene::{Anchor, Area, Group, Layer, Pen, Point, Scene, Stroke, Text};
use latchline_site::model::Site;
use std::collections::BTreeMap;
use std::hash::{Hash, Hasher};
use std::mem::discriminant;

pub use latchline_assess::MarginStep as Step;

/// Height of a card: four lines of lettering and the ports.
const CARD_MM: f64 = 22.0;
const LEAST_WIDTH_MM: f64 = 27.0;
const MOST_WIDTH_MM: f64 = 42.0;
const SMALL_MM: f64 = LEAST_MM;
/// Runs beyond which designations are set where they first fit rather than where they fit best.
const MOST_LABELS: usize = 160;

/// What figures and findings change on the picture, in the order of the cards: supplies, boxes, stations; then of the runs.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Printed {
    /// The designation.
    pub element: String,
    /// Voltage or current.
    pub figure: String,
    /// Margin to the limit.
    pub margin: String,
    /// Step of the voltage scale.
    pub step: Option<Step>,
    /// What leads there; of a run its label.
    pub run: String,
    /// The gravest standing finding.
    pub severity: Option<Severity>,
    /// That finding in a few words.
    pub trouble: String,
    /// Everything in one sentence.
    pub title: String,
}

/// The picture.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ScreenElevation {
    /// SVG to be put into a page, with a size in millimetres of the drawing.
    pub svg: String,
    /// Width in millimetres of the drawing.
    pub width_mm: u32,
    /// Height in millimetres of the drawing.
    pub height_mm: u32,
    /// The same number as long as nothing but texts and classes changes.
    pub structure: u64,
}

fn judged(
    results: &VoltageResults,
) -> (&[latchline_assess::DeviceResult], &[latchline_assess::SourceSummary]) {
    (&results.devices, &results.sources)
}

/// What stands on the picture.
pub fn printed(site: &Site, results: &VoltageResults, findings: &[Finding], locale: Locale) -> Vec<Printed> {
    let lettering = Lettering(locale);
    let troubles = card::troubles(site, findings, lettering);
    let cards = card::cards(site, judged(results), &troubles, lettering);
    let usual = usual_conductor(site, lettering);
    let mut rows: Vec<Printed> = cards.into_iter().map(of_card).collect();
    let nothing = BTreeMap::new();
    for run in &site.runs {
        let trouble = troubles.get(run.id.as_str());
        let plain = RunLook::new(site, run, &nothing, usual.as_deref(), lettering);
        let whole = RunLook::new(site, run, &troubles, usual.as_deref(), lettering);
        rows.push(Printed {
            element: run.id.to_string(),
            figure: String::new(),
            margin: String::new(),
            step: None,
            run: plain.label,
            severity: trouble.map(|trouble| trouble.severity),
            trouble: trouble.map(|trouble| trouble.words.clone()).unwrap_or_default(),
            title: whole.title,
        });
    }
    rows
}

fn of_card(card: Card) -> Printed {
    Printed {
        severity: card.trouble.as_ref().map(|trouble| trouble.severity),
        trouble: card.trouble.map(|trouble| trouble.words).unwrap_or_default(),
        element: card.element,
        figure: card.figure,
        margin: card.margin,
        step: card.step,
        run: card.run,
        title: card.title,
    }
}

/// A number that stays the same as long as the picture changes in texts and classes only.
pub fn structure(site: &Site, locale: Locale) -> u64 {
    let mut hasher = std::hash::DefaultHasher::new();
    let place =
        |place: &latchline_site::model::Place| (place.building, place.core, place.floor, place.outdoors);
    for building in &site.buildings {
        let floors: Vec<&str> = building.floors.iter().map(|floor| floor.value.as_str()).collect();
        (building.id.as_str(), building.title.as_str(), floors, building.cores.len()).hash(&mut hasher);
    }
    for supply in &site.supplies {
        (supply.id.as_str(), place(&supply.place)).hash(&mut hasher);
    }
    for entry in &site.boxes {
        let role = discriminant(&site.box_model(entry).role.value);
        (entry.id.as_str(), place(&entry.place), role).hash(&mut hasher);
    }
    for station in &site.stations {
        let model = site.station_model(station);
        let looks = (discriminant(&model.kind.value), discriminant(&model.media.value));
        (station.id.as_str(), place(site.station_place(station)), looks).hash(&mut hasher);
    }
    for run in &site.runs {
        let stops: Vec<&str> = run.sections.iter().map(|section| site.stop_id(section.to).as_str()).collect();
        (run.id.as_str(), site.start_id(run.from).as_str(), stops, run.existing.value).hash(&mut hasher);
    }
    (discriminant(&locale.language), discriminant(&locale.units)).hash(&mut hasher);
    // 53 bits: a page's script reads numbers as doubles.
    hasher.finish() >> 11
}

/// Draws the elevation in one piece, rows no wider than this in millimetres of the drawing.
pub fn screen_elevation(
    site: &Site,
    results: &VoltageResults,
    findings: &[Finding],
    locale: Locale,
    across_mm: f64,
) -> ScreenElevation {
    let lettering = Lettering(locale);
    let troubles = card::troubles(site, findings, lettering);
    let nothing: BTreeMap<String, Trouble> = BTreeMap::new();
    let cards = card::cards(site, judged(results), &troubles, lettering);
    let nets = route::nets(site, lettering.0.language);
    let terminals = route::terminals(&nets, cards.len());
    let widths: Vec<f64> = cards
        .iter()
        .zip(&terminals)
        .zip(route::pitches(&nets, cards.len()))
        .map(|((card, terminals), pitch)| width(card, terminals, pitch))
        .collect();
    let heights = vec![CARD_MM; cards.len()];
    let usual = usual_conductor(site, lettering);
    // On a page the designation of a run is read by pointing at it.
    let tags = vec![0.0; site.runs.len()];
    let looks =
        site.runs.iter().map(|run| RunLook::new(site, run, &nothing, usual.as_deref(), lettering)).collect();
    let subject = Subject {
        site,
        cards,
        widths,
        heights,
        nets,
        tags,
        looks,
        usual,
        troubles,
        suspects: Vec::new(),
        lettering,
    };
    let cells = super::arrange::cells(site, &subject.cards, lettering);
    let endless = (1e6, 1e6);
    let most_widths = vec![across_mm; cells.column_count()];
    let plan = ElevationPlan::new(&subject, &cells, &most_widths, endless, Grouping::Filled);
    let paths = paths(&plan);
    let pages = canvas::pages(&plan, &paths);
    let numbers = numbers(&canvas::one_each(&pages));
    let canvas = Canvas::new(&subject, &plan, &paths, &numbers);
    let (root, width_mm, height_mm) = match pages.first() {
        Some(page) => picture(&canvas, *page),
        None => (Group::new("elevation"), 60.0, 12.0),
    };
    let name = if site.title.is_empty() { lettering.word(Word::UntitledSite) } else { &site.title };
    let devices = subject.cards.len();
    let scene = Scene {
        width_mm,
        height_mm,
        title: format!("{name}: {}", lettering.word(Word::Elevation)),
        description: lettering.say(&Phrase::ElevationShows {
            site: name,
            sheet: 1,
            of: 1,
            devices,
            all: devices,
        }),
        language: locale.language,
        root,
    };
    ScreenElevation {
        svg: without_lengths(&svg::svg(&scene, Palette::Light)),
        width_mm: width_mm.ceil() as u32,
        height_mm: height_mm.ceil() as u32,
        structure: structure(site, locale),
    }
}

/// Texts change on a page: none may be squeezed to the width that it was drawn with.
fn without_lengths(svg: &str) -> String {
    let mut out = String::with_capacity(svg.len());
    let mut rest = svg;
    while let Some((before, after)) = rest.split_once(" textLength=\"") {
        out.push_str(before);
        rest = after.split_once(" lengthAdjust=\"spacingAndGlyphs\"").map_or("", |(_, rest)| rest);
    }
    out.push_str(rest);
    out
}

fn width(card: &Card, terminals: &[CardTerminal], pitch: f64) -> f64 {
    let spread = (terminals.len() + 1) as f64 * pitch;
    let name = text_width_mm(&card.element, 3.4, true) + 12.0;
    let least = if card.kind == CardKind::Supply { 34.0 } else { LEAST_WIDTH_MM };
    name.clamp(least, MOST_WIDTH_MM).max(spread)
}

/// The picture with its size.
fn picture(canvas: &Canvas<'_>, page: Page) -> (Group, f64, f64) {
    const EDGE_MM: f64 = 1.0;
    let part = part_of(canvas.plan, page);
    let shift = (EDGE_MM - part.x, EDGE_MM - part.y);
    let mut group = Group::new("elevation");
    let mut obstacles = Obstacles::default();
    canvas.buildings(page, shift, &mut group, &mut obstacles);
    let here = &canvas.plan.groups[page.across];
    let visible = canvas.visible(page, &part, shift);
    for piece in visible.iter().flat_map(|part| &part.pieces) {
        obstacles.add(Area::between(piece.0, piece.1).grown(0.4));
    }
    let mut devices = Group::new("devices");
    for card in 0..canvas.subject.cards.len() {
        let corner = moved(canvas.plan.card_corner(here, card), shift);
        let size = canvas.plan.card_size(here, card);
        obstacles.add(Area::new(corner.0, corner.1, size.0, size.1).grown(0.7));
        devices.group(device(
            &canvas.subject.cards[card],
            corner,
            size,
            (&canvas.plan.routing.terminals[card], &canvas.plan.routing.ends[card]),
        ));
    }
    let labels = if visible.len() > MOST_LABELS {
        Vec::new()
    } else {
        place_labels(&visible, &canvas.subject.looks, &obstacles).0
    };
    let mut by_run: BTreeMap<usize, Text> =
        labels.into_iter().map(|(run, label)| (run, label.text)).collect();
    let mut wiring = Group::new("wiring");
    for part in &visible {
        let look = &canvas.subject.looks[part.run];
        let run = &canvas.subject.site.runs[part.run];
        let trouble = canvas.subject.troubles.get(run.id.as_str()).map(|trouble| trouble.severity);
        let mut drawn = Group::of_element(run_kind(trouble), run.id.to_string(), look.title.clone());
        let ways = joined(&part.pieces);
        // A broad line that is not seen, for fingers and mice.
        let mut catch = Group::new("catch");
        for way in &ways {
            catch.path(Layer::Wiring, way.clone(), Stroke::solid(Ink::Wire, Pen::Catch));
        }
        drawn.group(catch);
        for way in ways {
            drawn.path(Layer::Wiring, way, look.stroke());
        }
        if let Some(text) = by_run.remove(&part.run) {
            let mut label = Group::new("run-label");
            label.text(Layer::Lettering, text);
            drawn.group(label);
        }
        wiring.group(drawn);
    }
    group.group(wiring);
    group.group(devices);
    (group, part.width + 2.0 * EDGE_MM, part.height + CAPTION_MM + 2.0 * EDGE_MM)
}

/// Class of a run's group.
fn run_kind(severity: Option<Severity>) -> &'static str {
    match severity {
        None => "run",
        Some(Severity::Error) => "run is-error",
        Some(Severity::Warning) => "run is-warning",
        Some(Severity::Advice) => "run is-advice",
    }
}

/// Class of a card's group.
fn device_kind(severity: Option<Severity>) -> &'static str {
    match severity {
        None => "device",
        Some(Severity::Error) => "device is-error",
        Some(Severity::Warning) => "device is-warning",
        Some(Severity::Advice) => "device is-advice",
    }
}

/// Class of a margin bar.
fn gauge_kind(step: Option<Step>) -> &'static str {
    match step {
        None => "gauge",
        Some(Step::Below) => "gauge step-below",
        Some(Step::Thin) => "gauge step-thin",
        Some(Step::Fair) => "gauge step-fair",
        Some(Step::Ample) => "gauge step-ample",
    }
}

/// A card: every part that a figure or finding changes is there from the start, in a group of its own.
fn device(
    card: &Card,
    (x, y): Point,
    (width, height): (f64, f64),
    (terminals, ends): (&[CardTerminal], &[CardEnd]),
) -> Group {
    let severity = card.trouble.as_ref().map(|trouble| trouble.severity);
    let mut group = Group::of_element(device_kind(severity), card.element.clone(), card.title.clone());
    let mut outline = Group::new("card");
    let line = Stroke::solid(Ink::Outline, Pen::Thin);
    outline.rectangle(Layer::Device, Area::new(x, y, width, height), 0.8, Some(line), Some(Ink::Inside));
    group.group(outline);
    let has_gauge = card.kind != CardKind::Supply;
    if has_gauge {
        let mut gauge = Group::new(gauge_kind(card.step));
        let (cell, gap) = (3.2, 0.45);
        for number in 0..4 {
            let top = y + 1.4 + f64::from(3 - number) * (cell + gap);
            let area = Area::new(x + 1.3, top, 1.9, cell);
            gauge.rectangle(
                Layer::Scale,
                area,
                0.0,
                Some(Stroke::solid(Ink::Outline, Pen::Thin)),
                Some(Ink::Inside),
            );
        }
        group.group(gauge);
    }
    let left = x + if has_gauge { 4.6 } else { 2.0 };
    let right = x + width - 1.4;
    card_picture::symbol(&mut group, card.kind, (right - symbols::SYMBOL_MM, y + 1.3));
    let room = right - symbols::SYMBOL_MM - 1.0 - left;
    group.text(Layer::Lettering, fitted((left, y + 4.4), &card.element, 3.4, true, room));
    let mut part = |kind, text: Text| {
        let mut part = Group::new(kind);
        // An empty text would not be drawn, and could not be filled later.
        let text = if text.text.is_empty() { Text { text: String::from("\u{2060}"), ..text } } else { text };
        part.text(Layer::Lettering, text);
        group.group(part);
    };
    part("figure", Text::new((left, y + 8.7), card.figure.clone(), 3.0));
    if has_gauge {
        part(
            "margin",
            Text::new((right, y + 8.7), card.margin.clone(), SMALL_MM).anchored(Anchor::End).ink(Ink::Quiet),
        );
    }
    part("fed", Text::new((left, y + 12.4), card.run.clone(), SMALL_MM).ink(Ink::Quiet));
    let trouble = card.trouble.as_ref().map(|trouble| trouble.words.clone()).unwrap_or_default();
    part("trouble", Text::new((left, y + 16.2), trouble, SMALL_MM).bold());
    card_picture::draw_ends(&mut group, (x, y), (width, height), terminals, ends);
    group
}
