//! Match lines: where a sheet ends, which runs go on there, and on which sheet.

use super::canvas::{Canvas, Page, Strips, moved, part_of};
use super::flags::{ABOVE_MM, BEYOND_MM, WIDEST_ZONE, flag_mm};
use super::run_labels::LABEL_MM;
use crate::labels::Obstacles;
use crate::language::{Phrase, Word};
use crate::sheet::fitted;
use latchline_scene::font::{DESCENT_EM, text_width_mm};
use latchline_scene::palette::Ink;
use latchline_scene::{Anchor, Area, Dash, Group, Layer, Pen, Point, Stroke, Text};

/// From a line of a riser to a flag that stands in the middle between it and the next.
const OFF_RISER_MM: f64 = 0.36;
/// From a match line to a flag that stands inside it.
const INSIDE_MM: f64 = 1.0;

impl Canvas<'_> {
    /// Match lines and, where a run crosses one, its designation and the sheet where it goes on; gives
    /// the sides that have one.
    pub(super) fn flags(
        &self,
        page: Page,
        shift: Point,
        group: &mut Group,
        obstacles: &mut Obstacles,
    ) -> Vec<Side> {
        let part = part_of(self.plan, page);
        let mut sides = Vec::new();
        for (side, strip) in Side::ALL.into_iter().zip(self.strips(page)) {
            let mut crossings = self.crossings(page, side, &part);
            crossings.sort_by(|a, b| a.at.partial_cmp(&b.at).unwrap_or(std::cmp::Ordering::Equal));
            if crossings.is_empty() && !self.is_torn(page, side) {
                continue;
            }
            sides.push(side);
            let (a, b) = self.match_line(side, page, &part);
            let line = Stroke::solid(Ink::Outline, Pen::Middle).dashed(Dash::DashDot);
            group.line(Layer::Frame, moved(a, shift), moved(b, shift), line);
            let mut free = Obstacles::default();
            for crossing in &crossings {
                let at = moved(crossing.at, shift);
                let out = side.beyond(at, BEYOND_MM);
                group.line(Layer::Wiring, at, out, self.subject.looks[crossing.run].stroke());
                let words = self.flag_words(crossing, &crossings, self.zone(crossing).as_deref());
                let text = if side == Side::Top && self.is_clear_above(page, &crossings) {
                    inside_top(at, &words)
                } else {
                    side.flag(out, &words, strip - BEYOND_MM - 1.0)
                };
                obstacles.add(text.area().grown(0.2));
                free.add(text.area());
                free.add(Area::between(at, out).grown(0.3));
                group.text(Layer::Lettering, text);
            }
            let beyond = Page { down: page.down.wrapping_add_signed(side.step()), ..page };
            let numbers = crossings.iter().filter_map(|crossing| self.numbers.get(&crossing.beyond));
            let mut sheets: Vec<usize> = numbers.copied().collect();
            if !side.is_upright() {
                sheets.extend(self.numbers.get(&beyond));
            }
            sheets.sort_unstable();
            sheets.dedup();
            self.match_word(side, (moved(a, shift), moved(b, shift)), &sheets, &free, group);
        }
        sides
    }

    /// What names a line that leaves a sheet: its run, the card that it leads to where the run does so more than once, and
    /// where it goes on.
    fn flag_words(&self, crossing: &Crossing, all: &[Crossing], zone: Option<&str>) -> String {
        let once = all.iter().filter(|other| other.run == crossing.run).count() == 1;
        let run = self.subject.flag_words(crossing.run, (!once).then_some(crossing.to));
        let sheet = self.numbers.get(&crossing.beyond).copied().unwrap_or_default();
        match zone {
            Some(zone) => format!("{run} → {sheet}/{zone}"),
            None => format!("{run} → {sheet}"),
        }
    }

    /// Whether the flags of a sheet's upper side fit above its first channel, where no level line runs.
    fn is_clear_above(&self, page: Page, crossings: &[Crossing]) -> bool {
        let here = &self.plan.groups[page.across];
        let first = here.down[page.down].start;
        let room = here.lane_y(first, 0) - here.row_top[first];
        let words = crossings.iter().map(|crossing| self.flag_words(crossing, crossings, Some(WIDEST_ZONE)));
        words.map(|words| flag_mm(&words)).all(|flag| flag <= room)
    }

    /// The room that the match lines of every sheet need, whatever the zones where runs go on.
    pub(super) fn needed_strips(&self) -> Strips {
        let of_side = |page: Page, side: Side| {
            let crossings = self.crossings(page, side, &part_of(self.plan, page));
            let said = if self.is_torn(page, side) || !crossings.is_empty() { ABOVE_MM } else { 0.0 };
            if side == Side::Top && self.is_clear_above(page, &crossings) {
                return said;
            }
            let flags = crossings.iter().map(|crossing| {
                let words = self.flag_words(crossing, &crossings, Some(WIDEST_ZONE));
                flag_mm(&words)
            });
            flags.fold(said, f64::max)
        };
        let of_page = |page: &Page| (*page, Side::ALL.map(|side| of_side(*page, side)));
        self.numbers.keys().map(of_page).collect()
    }

    /// Where runs leave a sheet on this side.
    fn crossings(&self, page: Page, side: Side, part: &Area) -> Vec<Crossing> {
        let plan = self.plan;
        let here = &plan.groups[page.across];
        let mut crossings = Vec::new();
        if side.is_upright() {
            let Some(beyond) = page.across.checked_add_signed(side.step()) else { return crossings };
            let Some(group) = plan.groups.get(beyond) else { return crossings };
            let edge = if side == Side::Left { part.x } else { part.right() };
            for net in &plan.routing.nets {
                for (row, lane, from, to) in plan.level_pieces(net) {
                    let crosses = (from - edge) * (to - edge) < 0.0 && here.down[page.down].contains(&row);
                    let beyond = group.down_of(row).map(|down| Page { across: beyond, down });
                    let beyond = beyond.filter(|page| self.numbers.contains_key(page));
                    if let (true, Some(beyond)) = (crosses, beyond) {
                        crossings.push(Crossing {
                            run: net.run,
                            to: net.to.0,
                            at: (edge, here.lane_y(row, lane)),
                            beyond,
                            there: (edge, group.lane_y(row, lane)),
                        });
                    }
                }
            }
            return crossings;
        }
        let Some(down) = page.down.checked_add_signed(side.step()) else { return crossings };
        let beyond = Page { down, ..page };
        if !self.numbers.contains_key(&beyond) {
            return crossings;
        }
        let edge = if side == Side::Top { part.y } else { part.bottom() };
        for (net, path) in plan.routing.nets.iter().zip(&self.paths[page.across]) {
            for pair in path.windows(2) {
                let upright = (pair[0].0 - pair[1].0).abs() < 1e-9;
                let within = pair[0].0 >= part.x && pair[0].0 <= part.right();
                if upright && within && (pair[0].1 - edge) * (pair[1].1 - edge) < 0.0 {
                    crossings.push(Crossing {
                        run: net.run,
                        to: net.to.0,
                        at: (pair[0].0, edge),
                        beyond,
                        there: (pair[0].0, edge),
                    });
                }
            }
        }
        crossings
    }

    /// The zone of the other sheet in which a run goes on.
    fn zone(&self, crossing: &Crossing) -> Option<String> {
        let part = part_of(self.plan, crossing.beyond);
        let [left, top, ..] = self.strips(crossing.beyond);
        let there = moved(crossing.there, (left - part.x, top - part.y));
        self.zones.get(&crossing.beyond)?.zone(there)
    }

    /// Whether a building goes on beyond this side.
    fn is_torn(&self, page: Page, side: Side) -> bool {
        let groups = &self.plan.groups;
        if !side.is_upright() {
            let beyond = page.down.checked_add_signed(side.step());
            return beyond.is_some_and(|down| self.numbers.contains_key(&Page { down, ..page }));
        }
        let columns = &self.plan.arrangement.columns;
        let here = &groups[page.across].columns;
        let (a, b) = if side == Side::Left {
            (here.start.checked_sub(1), Some(here.start))
        } else {
            (Some(here.end - 1), Some(here.end).filter(|end| *end < columns.len()))
        };
        a.zip(b)
            .is_some_and(|(a, b)| columns[a].building.is_some() && columns[a].building == columns[b].building)
    }

    /// The match line on a side: as far as there are buildings or crossing lines.
    fn match_line(&self, side: Side, page: Page, part: &Area) -> (Point, Point) {
        let (a, b) = side.edge(part);
        if side.is_upright() {
            return (a, b);
        }
        let plan = self.plan;
        let here = &plan.groups[page.across];
        let levels = here.down[page.down].clone().map(|row| plan.arrangement.rows[row].level);
        let (low, high) =
            levels.fold((i32::MAX, i32::MIN), |(low, high), level| (low.min(level), high.max(level)));
        let mut span = (f64::INFINITY, f64::NEG_INFINITY);
        for column in here.columns.clone() {
            let (lowest, highest) = plan.arrangement.columns[column].levels;
            if lowest <= high && highest >= low {
                let left = plan.x.column[column];
                span = (span.0.min(left), span.1.max(left + plan.x.column_width[column]));
            }
        }
        if span.0 < span.1 { ((span.0, a.1), (span.1, b.1)) } else { (a, b) }
    }

    /// "match line, sheet n" where no flag stands.
    fn match_word(
        &self,
        side: Side,
        (a, b): (Point, Point),
        sheets: &[usize],
        free: &Obstacles,
        group: &mut Group,
    ) {
        let numbers: Vec<String> = sheets.iter().map(usize::to_string).collect();
        let lettering = self.subject.lettering;
        let words = match &*numbers {
            [] => String::from(lettering.word(Word::MatchLine)),
            [sheet] => lettering.say(&Phrase::MatchLineSheet { sheet }),
            several => lettering.say(&Phrase::MatchLineSheets { sheets: &several.join(", ") }),
        };
        let width = text_width_mm(&words, LABEL_MM, false);
        let steps = 200;
        for step in 0..=steps {
            let share = f64::from(step) / f64::from(steps);
            let text = match side {
                Side::Top | Side::Bottom => {
                    let x = a.0 + (b.0 - a.0 - width) * share;
                    let y = if side == Side::Top { a.1 - 1.2 } else { a.1 + 3.2 };
                    Text::new((x, y), words.clone(), LABEL_MM)
                }
                Side::Left | Side::Right => {
                    let y = a.1 + width + (b.1 - a.1 - width) * share;
                    let x = if side == Side::Left { a.0 - 1.2 } else { a.0 + 3.2 };
                    Text::new((x, y), words.clone(), LABEL_MM).upward()
                }
            };
            if free.is_free(&text.area().grown(0.3)) {
                group.text(Layer::Frame, text.ink(Ink::Quiet));
                return;
            }
        }
    }
}

/// The flag of a line that comes from the sheet above: upright at the left of its line, within the riser, where no level
/// line runs above the first channel.
fn inside_top(at: Point, words: &str) -> Text {
    let end = at.1 + INSIDE_MM + text_width_mm(words, LABEL_MM, true);
    Text::new((at.0 - OFF_RISER_MM - DESCENT_EM * LABEL_MM, end), words, LABEL_MM).upward().bold()
}

/// A run that leaves a sheet.
struct Crossing {
    run: usize,
    /// The card to which the section leads.
    to: usize,
    at: Point,
    /// The sheet where it goes on.
    beyond: Page,
    /// And where on its canvas.
    there: Point,
}

/// A side of a sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Side {
    Left,
    Top,
    Right,
    Bottom,
}

impl Side {
    const ALL: [Side; 4] = [Side::Left, Side::Top, Side::Right, Side::Bottom];

    fn is_upright(self) -> bool {
        matches!(self, Side::Left | Side::Right)
    }

    fn edge(self, part: &Area) -> (Point, Point) {
        let (x, y) = ((part.x, part.right()), (part.y, part.bottom()));
        match self {
            Side::Left => ((x.0, y.0), (x.0, y.1)),
            Side::Right => ((x.1, y.0), (x.1, y.1)),
            Side::Top => ((x.0, y.0), (x.1, y.0)),
            Side::Bottom => ((x.0, y.1), (x.1, y.1)),
        }
    }

    /// Towards which neighbour: across or down.
    fn step(self) -> isize {
        if matches!(self, Side::Left | Side::Top) { -1 } else { 1 }
    }

    fn beyond(self, point: Point, by: f64) -> Point {
        match self {
            Side::Left => (point.0 - by, point.1),
            Side::Right => (point.0 + by, point.1),
            Side::Top => (point.0, point.1 - by),
            Side::Bottom => (point.0, point.1 + by),
        }
    }

    fn flag(self, out: Point, words: &str, room: f64) -> Text {
        let size = LABEL_MM;
        let drop = size * 0.35;
        let text = match self {
            Side::Left => fitted((out.0 - 0.8, out.1 + drop), words, size, true, room).anchored(Anchor::End),
            Side::Right => fitted((out.0 + 0.8, out.1 + drop), words, size, true, room),
            Side::Top => fitted((out.0 + drop, out.1 - 0.8), words, size, true, room).upward(),
            Side::Bottom => {
                fitted((out.0 + drop, out.1 + 0.8), words, size, true, room).upward().anchored(Anchor::End)
            }
        };
        text.bold()
    }
}
