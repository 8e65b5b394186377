//! The elevation of a site: floors as bands, cores as risers, every device in its place and every
//! run as it goes.
//!
//! * `card`: what is written on each device, from the assessment;
//! * `arrange`: which card stands where;
//! * `route`: how each section goes;
//! * `plan`: places in millimetres, with `cut` into sheets;
//! * `fit`: which arrangement takes the fewest sheets;
//! * `page`: one sheet, with `buildings` and `match_lines`;
//! * `screen`: the same picture alive on a page;
//! * `ways`: lines with their bridges;
//! * `run_labels`: where the designations of runs find room;
//! * `suspects`: where to look for a fault, marked.

mod arrange;
mod buildings;
mod canvas;
mod card;
mod card_picture;
mod cut;
mod fit;
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
mod suspect;
mod suspects;
mod ways;

use crate::frame::Frame;
use crate::language::Word;
use crate::sheet::{LegendEntry, SheetOptions, SheetSize, TitleBlock, verdict_note};
use canvas::{Canvas, Sheet};
use fit::{Best, LEGIBLE, best_plan, may_be_single};
use latchline_assess::Assessment;
use latchline_scene::{Layer, Node, Scene, Text};
use latchline_site::model::Site;
use legend::OnSheet;
pub use screen::{Printed, ScreenElevation, Step, printed, screen_elevation, structure};
use subject::{Subject, subject};
pub use suspect::{Suspect, SuspectPlace};

/// Draws the elevation of a site, one scene for each sheet.
///
/// Every supply, box and station is in exactly one group with its designation as `element`, over
/// all sheets; every run too, with further parts on other sheets as `continues`.
pub fn elevation(site: &Site, assessment: &Assessment, options: &SheetOptions) -> Vec<Scene> {
    of_subject(&subject(site, assessment, options), assessment, options)
}

/// The same with places marked where a fault may be found: the sheets that show any of them, or the first where none does.
pub fn elevation_with_suspects(
    site: &Site,
    assessment: &Assessment,
    suspects: &[Suspect],
    options: &SheetOptions,
) -> Vec<Scene> {
    let plain = subject(site, assessment, options);
    let marked = Subject { suspects: suspects.to_vec(), ..plain };
    let mut scenes = of_subject(&marked, assessment, options);
    let is_marked = |scene: &Scene| {
        let mut found = false;
        scene.root.visit(&mut |node| {
            found |= matches!(node, Node::Group(group) if group.role.kind == "suspects");
        });
        found
    };
    if scenes.iter().any(is_marked) {
        scenes.retain(is_marked);
    } else {
        scenes.truncate(1);
    }
    scenes
}

fn of_subject(subject: &Subject<'_>, assessment: &Assessment, options: &SheetOptions) -> Vec<Scene> {
    let (site, lettering) = (subject.site, options.lettering());
    let title = lettering.word(match subject.suspects.is_empty() {
        true => Word::ElevationSubject,
        false => Word::SuspectsSubject,
    });
    let block = TitleBlock::of_site(site, title, verdict_note(assessment, lettering), options)
        .of_kind(Word::KindInstallation);
    if let Some(size) = options.sheet {
        return draw(subject, (size, None), &block, site);
    }
    let small = draw_if_single(subject, SheetSize::A4, &block, site);
    small.unwrap_or_else(|| draw(subject, larger(subject, &block), &block, site))
}

/// A3 on its side, or upright where that takes fewer sheets: a tall building of few flats a floor does. With the arrangement on it.
fn larger(subject: &Subject<'_>, block: &TitleBlock) -> (SheetSize, Option<Best>) {
    let best = |size: SheetSize| {
        let frame = Frame::new(size, block, &legend::entries(subject, &OnSheet::all(subject), size));
        best_plan(subject, (frame.content.width, frame.content.height))
    };
    let (level, upright) = (best(SheetSize::A3), best(SheetSize::A3_UPRIGHT));
    let sheets = |best: &Option<Best>| {
        best.as_ref().map_or((true, 0), |best| (best.scale < LEGIBLE, best.sheets.len()))
    };
    match sheets(&upright) < sheets(&level) {
        true => (SheetSize::A3_UPRIGHT, upright),
        false => (SheetSize::A3, level),
    }
}

/// How often the legend may grow before the picture shrinks instead.
const MOST_PASSES: usize = 5;

/// Draws on sheets of this size; what is known of the best arrangement on them with the largest legend is not looked for again.
fn draw(
    subject: &Subject<'_>,
    (size, mut known): (SheetSize, Option<Best>),
    block: &TitleBlock,
    site: &Site,
) -> Vec<Scene> {
    let mut frame = Frame::new(size, block, &legend::entries(subject, &OnSheet::all(subject), size));
    for pass in 1.. {
        let room = (frame.content.width, frame.content.height);
        let best = known.take().or_else(|| best_plan(subject, room));
        let Some(Best { plan, mut scale, sheets, strips }) = best else { break };
        let paths = canvas::paths(&plan);
        let numbers = canvas::numbers(&sheets);
        let mut canvas = Canvas { strips, ..Canvas::new(subject, &plan, &paths, &numbers) };
        let all = |canvas: &Canvas<'_>| -> Vec<Vec<page::Drawn>> {
            let mut shown = vec![false; site.runs.len()];
            let mut drawn =
                |sheet: &Sheet| sheet.parts().map(|page| canvas.draw(&page, &mut shown)).collect();
            sheets.iter().map(&mut drawn).collect()
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
            scale = canvas::scale(&plan, &sheets, room, &canvas.strips);
        }
        // Where each part lies in its frame is known now: flags name the zone in which a run goes on.
        if numbers.len() > 1 {
            for (sheet, parts) in sheets.iter().zip(&drawn) {
                canvas.zones.extend(sheet.parts().zip(page::placed(parts, sheet, &frame, scale)));
            }
            drawn = all(&canvas);
        }
        return drawn
            .into_iter()
            .zip(sheets.iter().zip(&legends))
            .enumerate()
            .map(|(number, (parts, (sheet, entries)))| {
                let of = (number + 1, sheets.len());
                page::finish(parts, sheet, (&frame, scale), block, entries, of, subject)
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
    if !may_be_single(subject, room) {
        return None;
    }
    let best = best_plan(subject, room)?;
    if best.sheets.len() > 1 || best.scale < 1.0 {
        return None;
    }
    let scenes = draw(subject, (size, Some(best)), block, site);
    (scenes.len() == 1).then_some(scenes)
}
