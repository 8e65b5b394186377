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
use crate::sheet::{LegendEntry, SheetOptions, SheetSize, TitleBlock, verdict_note};
use canvas::{Canvas, Page, Strips};
use latchline_assess::Assessment;
use latchline_scene::{Layer, Scene, Text};
use latchline_site::model::Site;
use legend::OnSheet;
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
    small.unwrap_or_else(|| draw(&subject, larger(&subject, &block), &block, site))
}

/// A3 on its side, or upright where that takes fewer sheets: a tall building of few flats a floor does.
fn larger(subject: &Subject<'_>, block: &TitleBlock) -> SheetSize {
    let sheets = |size: SheetSize| {
        let frame = Frame::new(size, block, &legend::entries(subject, &OnSheet::all(subject), size));
        let best = best_plan(subject, (frame.content.width, frame.content.height));
        best.map_or((true, 0), |best| (best.scale < LEGIBLE, best.stacks.len()))
    };
    match sheets(SheetSize::A3_UPRIGHT) < sheets(SheetSize::A3) {
        true => SheetSize::A3_UPRIGHT,
        false => SheetSize::A3,
    }
}

/// The least scale: drawn smaller, lettering falls below the least height of ISO 3098.
const LEGIBLE: f64 = 1.0 - 1e-6;

/// An arrangement with its cut into sheets.
struct Best {
    plan: ElevationPlan,
    scale: f64,
    /// The parts on each sheet, from the top down.
    stacks: Vec<Vec<Page>>,
    strips: Strips,
}

/// Most cards of the usual width that are tried side by side.
const MOST_ABREAST: usize = 24;

/// The arrangement with the fewest sheets, and among those the largest picture.
fn best_plan(subject: &Subject<'_>, room: (f64, f64)) -> Option<Best> {
    let cells = arrange::cells(subject.site, &subject.cards, subject.lettering);
    let widest = subject.widths.iter().copied().fold(1.0, f64::max);
    let mut sorted = subject.widths.clone();
    sorted.sort_by(f64::total_cmp);
    let usual = sorted.get(sorted.len() / 2).copied().unwrap_or(widest);
    let mut best: Option<Best> = None;
    for count in 1..=MOST_ABREAST {
        let most = count as f64 * (usual + arrange::CARD_GAP_MM);
        if count > 1 && most > room.0.max(3.0 * widest) {
            break;
        }
        let plan = ElevationPlan::new(subject, &cells, most, (room.0, room.1 - canvas::CAPTION_MM));
        let paths = canvas::paths(&plan);
        let pages = canvas::pages(&plan, &paths);
        let each: Vec<Vec<Page>> = pages.iter().map(|page| vec![*page]).collect();
        let numbers = canvas::numbers(&each);
        let strips = Canvas::new(subject, &plan, &paths, &numbers).needed_strips();
        let stacked = canvas::stacks(&plan, &pages, room, &strips);
        let stacks = if stacked.len() < each.len() { stacked } else { each };
        let scale = canvas::scale(&plan, &stacks, room, &strips);
        let is_better = best
            .as_ref()
            .is_none_or(|known| rank(scale, stacks.len()) > rank(known.scale, known.stacks.len()));
        if is_better {
            best = Some(Best { plan, scale, stacks, strips });
        }
    }
    best
}

/// What is better: legible first, then few sheets, then large.
fn rank(scale: f64, sheets: usize) -> (bool, std::cmp::Reverse<usize>, i64) {
    (scale >= LEGIBLE, std::cmp::Reverse(sheets), (scale * 1000.0) as i64)
}

/// How often the legend may grow before the picture shrinks instead.
const MOST_PASSES: usize = 5;

fn draw(subject: &Subject<'_>, size: SheetSize, block: &TitleBlock, site: &Site) -> Vec<Scene> {
    let mut frame = Frame::new(size, block, &legend::entries(subject, &OnSheet::all(subject), size));
    for pass in 1.. {
        let room = (frame.content.width, frame.content.height);
        let Some(Best { plan, mut scale, stacks, strips }) = best_plan(subject, room) else { break };
        let paths = canvas::paths(&plan);
        let numbers = canvas::numbers(&stacks);
        let mut canvas = Canvas { strips, ..Canvas::new(subject, &plan, &paths, &numbers) };
        let all = |canvas: &Canvas<'_>| -> Vec<Vec<page::Drawn>> {
            let mut shown = vec![false; site.runs.len()];
            let mut sheet =
                |stack: &Vec<Page>| stack.iter().map(|page| canvas.draw(page, &mut shown)).collect();
            stacks.iter().map(&mut sheet).collect()
        };
        let mut drawn = all(&canvas);
        // What found no room beside its line is written into the legend, which may need more height.
        let legends: Vec<Vec<LegendEntry>> =
            drawn.iter().map(|parts| legend::entries(subject, &OnSheet::of(parts), size)).collect();
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
            scale = canvas::scale(&plan, &stacks, room, &canvas.strips);
        }
        // Where each part lies in its frame is known now: flags name the zone in which a run goes on.
        if numbers.len() > 1 {
            for (stack, parts) in stacks.iter().zip(&drawn) {
                canvas.zones.extend(stack.iter().copied().zip(page::placed(parts, &frame, scale)));
            }
            drawn = all(&canvas);
        }
        return drawn
            .into_iter()
            .zip(&legends)
            .enumerate()
            .map(|(number, (parts, entries))| {
                page::finish(parts, &frame, scale, block, entries, (number + 1, stacks.len()), subject)
            })
            .collect();
    }
    let nothing = subject.lettering.word(Word::NothingStands);
    let title = format!("{}: {}", block.site, subject.lettering.word(Word::Elevation));
    let mut scene = frame.scene(title, String::from(nothing));
    scene.language = block.locale.language;
    let at = (frame.content.x, frame.content.y + 6.0);
    scene.root.text(Layer::Lettering, Text::new(at, nothing, 3.2));
    let entries = legend::entries(subject, &OnSheet::all(subject), size);
    frame.draw(&mut scene.root, block, &entries, 1, 1);
    vec![scene]
}

fn draw_if_single(
    subject: &Subject<'_>,
    size: SheetSize,
    block: &TitleBlock,
    site: &Site,
) -> Option<Vec<Scene>> {
    let entries = legend::entries(subject, &OnSheet::all(subject), size);
    let frame = Frame::new(size, block, &entries);
    let room = (frame.content.width, frame.content.height);
    let best = best_plan(subject, room)?;
    if best.stacks.len() > 1 || best.scale < 1.0 {
        return None;
    }
    let scenes = draw(subject, size, block, site);
    (scenes.len() == 1).then_some(scenes)
}
