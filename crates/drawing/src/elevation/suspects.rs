//! Where to look: places marked on the elevation with the probability that the fault is found there.
//!
//! A length of cable has a broad pale band under its line, a device a heavy outline; both have a dark tag with the number of the place in the
//! list and its probability. The tag is read in black alone and without the band.

use super::canvas::{Canvas, Page, clipped, moved};
use super::card::CardIndex;
use super::run_labels::LABEL_MM;
use super::suspect::{Suspect, SuspectPlace};
use super::ways::joined;
use crate::labels::Obstacles;
use crate::sheet::{LegendEntry, SheetSize};
use latchline_scene::font::{ASCENT_EM, DESCENT_EM, LEAST_MM, shortened, text_width_mm};
use latchline_scene::palette::Ink;
use latchline_scene::{Anchor, Area, Dash, Group, Layer, Pen, Point, Stroke, Text};
use latchline_site::model::{RunStart, Site};

/// Around the lettering of a tag.
const PAD_MM: f64 = 0.9;
/// What of the width of a sheet no entry of the legend can have.
const LEGEND_MARGIN_MM: f64 = 40.0;
/// Between a line and the tag beside it: near it, else so far that a leader joins them.
const OFF_MM: [f64; 3] = [1.6, 5.0, 8.6];
/// Where along a length of cable its tag may stand: in the middle, else nearer to an end.
const ALONG: [f64; 7] = [0.5, 0.38, 0.62, 0.26, 0.74, 0.14, 0.86];

/// Entries of the legend for all of them, so that a list stands beside every picture.
pub(super) fn entries(suspects: &[Suspect], size: SheetSize) -> Vec<LegendEntry> {
    let entry = |(number, suspect): (usize, &Suspect)| {
        let words = suspect.tag(number + 1);
        let room = size.width_mm - LEGEND_MARGIN_MM - width(&words);
        LegendEntry {
            picture_width: width(&words),
            picture: Box::new(move |group: &mut Group, (x, y): Point| {
                let area = Area::new(x, y, width(&words), height());
                tag(group, area, &words);
            }),
            text: shortened(&suspect.words, LEAST_MM, false, room),
        }
    };
    suspects.iter().enumerate().map(entry).collect()
}

fn width(words: &str) -> f64 {
    text_width_mm(words, LABEL_MM, true) + 2.0 * PAD_MM
}

fn height() -> f64 {
    (ASCENT_EM + DESCENT_EM) * LABEL_MM + 2.0 * PAD_MM - 0.8
}

fn tag(group: &mut Group, area: Area, words: &str) {
    group.rectangle(Layer::Trouble, area, 0.6, None, Some(Ink::Text));
    let baseline = area.bottom() - PAD_MM + 0.4 - DESCENT_EM * LABEL_MM;
    let text = Text::new((area.x + area.width / 2.0, baseline), words, LEAST_MM).anchored(Anchor::Middle);
    group.text(Layer::Trouble, text.bold().ink(Ink::Paper));
}

impl SuspectPlace {
    /// The card that is marked.
    fn card(self, site: &Site) -> Option<usize> {
        let index = CardIndex::new(site);
        match self {
            SuspectPlace::Station(station) => Some(index.station(station)),
            SuspectPlace::Door(door) => Some(index.station(site.entrances[door].station)),
            SuspectPlace::Box(entry) => Some(index.distribution_box(entry)),
            SuspectPlace::Supply(supply) => Some(index.start(RunStart::Supply(supply))),
            SuspectPlace::Section { .. } | SuspectPlace::Run(_) | SuspectPlace::Nowhere => None,
        }
    }
}

/// Around the card of a device that is marked.
const OUTLINE_MM: f64 = 1.0;

/// The marks of a sheet: bands lie under everything, tags on it.
pub(super) struct Marks {
    pub(super) bands: Group,
    pub(super) tags: Group,
}

impl Canvas<'_> {
    /// The marks of what is on a sheet, whose cards stand there; their tags keep clear of everything where they can.
    pub(super) fn suspects(
        &self,
        page: Page,
        (part, shift): (&Area, Point),
        cards: &[(usize, Area)],
        obstacles: &mut Obstacles,
    ) -> Option<Marks> {
        let mut marks = Marks { bands: Group::new("suspects"), tags: Group::new("suspects") };
        let mut is_any = false;
        for (number, suspect) in (1..).zip(&self.subject.suspects) {
            let words = suspect.tag(number);
            let size = (width(&words), height());
            let mut choices: Vec<Choice> = Vec::new();
            let marked = suspect.place.card(self.subject.site);
            if let Some((_, card)) = cards.iter().find(|(card, _)| Some(*card) == marked) {
                let around = card.grown(OUTLINE_MM);
                let line = Stroke::solid(Ink::Text, Pen::Heavy).dashed(Dash::Dashed);
                marks.bands.rectangle(Layer::Trouble, around, 1.6, Some(line), None);
                choices.extend(around_card(&around, size));
            }
            for pieces in self.pieces(page, part, shift, suspect.place) {
                for way in joined(&pieces) {
                    let band = Stroke::solid(Ink::ScaleThin, Pen::Broad);
                    marks.bands.path(Layer::Trouble, way, band);
                }
                choices.extend(beside_line(&pieces, size));
            }
            let Some(first) = choices.first().copied() else { continue };
            is_any = true;
            let (area, from) = choices.into_iter().find(|(area, _)| obstacles.is_free(area)).unwrap_or(first);
            obstacles.add(area.grown(0.3));
            let mut group = Group::new("suspect");
            group.role.title = Some(format!("{words}: {}", suspect.words));
            from.into_iter().for_each(|from| leader(&mut group, from, &area));
            tag(&mut group, area, &words);
            marks.tags.group(group);
        }
        is_any.then_some(marks)
    }

    /// The straight pieces on a sheet of every length of cable that is marked.
    fn pieces(&self, page: Page, part: &Area, shift: Point, place: SuspectPlace) -> Vec<Vec<(Point, Point)>> {
        let (run, only) = match place {
            SuspectPlace::Section { run, section } => (run, Some(section)),
            SuspectPlace::Run(run) => (run, None),
            _ => return Vec::new(),
        };
        let nets = self.plan.routing.nets.iter().zip(&self.paths[page.across]);
        let of_run = nets.filter(|(net, _)| net.run == run).enumerate();
        let wanted = of_run.filter(|(section, _)| only.is_none_or(|only| only == *section));
        let on_sheet = |(_, (_, path)): (usize, (_, &Vec<Point>))| -> Vec<(Point, Point)> {
            clipped(path, part).into_iter().map(|(a, b)| (moved(a, shift), moved(b, shift))).collect()
        };
        wanted.map(on_sheet).filter(|pieces| !pieces.is_empty()).collect()
    }
}

/// Where a tag may stand, with the point that a leader joins it to where it stands off.
type Choice = (Area, Option<Point>);

/// Where the tag of a card may stand: at its corners, the upper ones first.
fn around_card(card: &Area, (width, height): (f64, f64)) -> Vec<Choice> {
    let (above, below) = (card.y - height + 0.8, card.bottom() - 0.8);
    let (right, left) = (card.right() - width, card.x);
    [(right, above), (left, above), (right, below), (left, below)]
        .into_iter()
        .map(|(x, y)| (Area::new(x, y, width, height), None))
        .collect()
}

/// Where the tag of a length of cable may stand: at worst on its line, else beside its pieces, the longest first.
fn beside_line(pieces: &[(Point, Point)], (width, height): (f64, f64)) -> Vec<Choice> {
    let length = |(from, to): &(Point, Point)| (from.0 - to.0).abs() + (from.1 - to.1).abs();
    let mut longest: Vec<&(Point, Point)> = pieces.iter().collect();
    longest.sort_by(|a, b| length(b).total_cmp(&length(a)));
    let middle = |piece: &(Point, Point), share: f64| -> Point {
        let (from, to) = *piece;
        (from.0 + (to.0 - from.0) * share, from.1 + (to.1 - from.1) * share)
    };
    let on_it = longest.first().map(|piece| middle(piece, 0.5));
    let on_it = on_it.map(|(x, y)| (Area::new(x - width / 2.0, y - height / 2.0, width, height), None));
    let mut choices: Vec<Choice> = on_it.into_iter().collect();
    for (ring, off) in OFF_MM.into_iter().enumerate() {
        for share in ALONG {
            for piece in &longest {
                let (x, y) = middle(piece, share);
                let is_level = (piece.0.1 - piece.1.1).abs() < 1e-6;
                let sides = match is_level {
                    true => [(x - width / 2.0, y + off), (x - width / 2.0, y - off - height)],
                    false => [(x + off, y - height / 2.0), (x - off - width, y - height / 2.0)],
                };
                let leader = (ring > 0).then_some((x, y));
                choices.extend(sides.map(|(x, y)| (Area::new(x, y, width, height), leader)));
            }
        }
    }
    choices
}

/// The leader of a tag: from the line to the nearest edge.
fn leader(group: &mut Group, from: Point, tag: &Area) {
    let to = (from.0.clamp(tag.x, tag.right()), from.1.clamp(tag.y, tag.bottom()));
    group.line(Layer::Trouble, from, to, Stroke::solid(Ink::Text, Pen::Thin));
}
