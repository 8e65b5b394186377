//! The elevation of a site: floors as bands, cores as risers, every device in its place and every
//! run as it goes.
//!
//! * `card`: what is written on each device, from the assessment;
//! * `arrange`: which card stands where;
//! * `route`: how each section goes;
//! * `plan`: places in millimetres and the cut into sheets;
//! * `page`: one sheet, with `buildings` and `match_lines`;
//! * `screen`: the same picture alive on a page;
//! * `ways`: lines with their bridges;
//! * `run_labels`: where the designations of runs find room.

mod arrange;
mod buildings;
mod canvas;
mod card;
mod card_picture;
mod flags;
mod legend;
mod match_lines;
mod page;
mod plan;
mod route;
mod run_labels;
mod run_look;
mod screen;
mod subject;
mod ways;

use crate::frame::Frame;
use crate::language::Word;
use crate::scene::{Layer, Scene, Text};
use crate::sheet::{LegendEntry, SheetOptions, SheetSize, TitleBlock, verdict_note};
use canvas::{Canvas, Page, Strips};
use latchline_assess::Assessment;
use latchline_site::model::Site;
use plan::ElevationPlan;
pub use screen::{Printed, ScreenElevation, Step, printed, screen_elevation, structure};
use subject::{Subject, subject};

/// Draws the elevation of a site, one scene for each sheet.
///
/// Every supply, box and station is in exactly one group with its designation as `element`, over
/// all sheets; every run too, with further parts on other sheets as `continues`.
pub fn elevation(site: &Site, assessment: &Assessment, options: &SheetOptions) -> Vec<Scene> {
    let lettering = options.lettering();
    let subject = subject(site, assessment, lettering);
    let title = lettering.word(Word::ElevationSubject);
    let block = TitleBlock::of_site(site, title, verdict_note(assessment, lettering), options);
    if let Some(size) = options.sheet {
        return draw(&subject, size, &block, site);
    }
    let small = draw_if_single(&subject, SheetSize::A4, &block, site);
    small.unwrap_or_else(|| draw(&subject, SheetSize::A3, &block, site))
}

/// An arrangement with its cut into sheets.
struct Best {
    plan: ElevationPlan,
    scale: f64,
    pages: Vec<Page>,
    strips: Strips,
}

/// The arrangement with the fewest sheets, and among those the largest picture.
fn best_plan(subject: &Subject<'_>, room: (f64, f64)) -> Option<Best> {
    let cells = arrange::cells(subject.site, &subject.cards, subject.lettering);
    let widest = subject.widths.iter().copied().fold(1.0, f64::max);
    let mut best: Option<Best> = None;
    for count in 1..=24usize {
        let most = count as f64 * (widest + arrange::CARD_GAP_MM);
        if count > 1 && most > room.0.max(3.0 * widest) {
            break;
        }
        let plan = ElevationPlan::new(subject, &cells, most, (room.0, room.1 - canvas::CAPTION_MM));
        let paths = canvas::paths(&plan);
        let pages = canvas::pages(&plan, &paths);
        let numbers = canvas::numbers(&pages);
        let strips = Canvas::new(subject, &plan, &paths, &numbers).needed_strips();
        let scale = canvas::scale(&plan, &pages, room, &strips);
        let is_better =
            best.as_ref().is_none_or(|known| rank(scale, pages.len()) > rank(known.scale, known.pages.len()));
        if is_better {
            best = Some(Best { plan, scale, pages, strips });
        }
    }
    best
}

/// What is better: legible first (smaller than drawn, lettering falls below the least height of
/// ISO 3098), then few sheets, then large.
fn rank(scale: f64, sheets: usize) -> (bool, std::cmp::Reverse<usize>, i64) {
    const LEGIBLE: f64 = 1.0 - 1e-6;
    (scale >= LEGIBLE, std::cmp::Reverse(sheets), (scale * 1000.0) as i64)
}

/// How often the legend may grow before the picture shrinks instead.
const MOST_PASSES: usize = 5;

fn draw(subject: &Subject<'_>, size: SheetSize, block: &TitleBlock, site: &Site) -> Vec<Scene> {
    let mut frame = Frame::new(size, block, &legend::entries(subject, &[], false, size));
    for pass in 1.. {
        let room = (frame.content.width, frame.content.height);
        let Some(Best { plan, mut scale, pages, strips }) = best_plan(subject, room) else { break };
        let paths = canvas::paths(&plan);
        let numbers = canvas::numbers(&pages);
        let mut canvas = Canvas { strips, ..Canvas::new(subject, &plan, &paths, &numbers) };
        let all = |canvas: &Canvas<'_>| -> Vec<page::Drawn> {
            let mut shown = vec![false; site.runs.len()];
            pages.iter().map(|page| canvas.draw(page, &mut shown)).collect()
        };
        let mut drawn = all(&canvas);
        // What found no room beside its line is written into the legend, which may need more height.
        let legends: Vec<Vec<LegendEntry>> =
            drawn.iter().map(|part| legend::entries(subject, &part.notes, part.has_bridges, size)).collect();
        let needed = legends.iter().map(|entries| Frame::new(size, block, entries));
        let Some(tightest) = needed.min_by(|a, b| a.content.height.total_cmp(&b.content.height)) else {
            break;
        };
        if tightest.content.height < frame.content.height {
            frame = tightest;
            if pass < MOST_PASSES {
                continue;
            }
            let room = (frame.content.width, frame.content.height);
            scale = canvas::scale(&plan, &pages, room, &canvas.strips);
        }
        // Where each sheet lies in its frame is known now: flags name the zone in which a run goes on.
        if pages.len() > 1 {
            let placed = |(page, part): (&Page, &page::Drawn)| (*page, part.placed(&frame, scale));
            canvas.zones = pages.iter().zip(&drawn).map(placed).collect();
            drawn = all(&canvas);
        }
        return drawn
            .into_iter()
            .zip(&legends)
            .enumerate()
            .map(|(number, (part, entries))| {
                page::finish(part, &frame, scale, block, entries, (number + 1, pages.len()), subject)
            })
            .collect();
    }
    let nothing = subject.lettering.word(Word::NothingStands);
    let title = format!("{}: {}", block.site, subject.lettering.word(Word::Elevation));
    let mut scene = frame.scene(title, String::from(nothing));
    scene.language = block.locale.language;
    let at = (frame.content.x, frame.content.y + 6.0);
    scene.root.text(Layer::Lettering, Text::new(at, nothing, 3.2));
    let entries = legend::entries(subject, &[], false, size);
    frame.draw(&mut scene.root, block, &entries, 1, 1);
    vec![scene]
}

fn draw_if_single(
    subject: &Subject<'_>,
    size: SheetSize,
    block: &TitleBlock,
    site: &Site,
) -> Option<Vec<Scene>> {
    let entries = legend::entries(subject, &[], false, size);
    let frame = Frame::new(size, block, &entries);
    let room = (frame.content.width, frame.content.height);
    let best = best_plan(subject, room)?;
    if best.pages.len() > 1 || best.scale < 1.0 {
        return None;
    }
    let scenes = draw(subject, size, block, site);
    (scenes.len() == 1).then_some(scenes)
}
