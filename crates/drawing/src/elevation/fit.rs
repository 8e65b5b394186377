//! The arrangement with the fewest sheets: how wide the rows of each building are, which buildings share rows, how what is too high is
//! cut, and which parts share a sheet.

use super::arrange::{self, CARD_GAP_MM, Cells, Column};
use super::canvas::{self, BESIDE_PARTS_MM, CAPTION_MM, Canvas, Sheet, Strips};
use super::cut::{Cut, Grouping};
use super::plan::ElevationPlan;
use super::subject::Subject;
use std::cmp::Reverse;
use std::collections::BTreeMap;

/// The least scale: drawn smaller, lettering falls below the least height of ISO 3098.
pub(super) const LEGIBLE: f64 = 1.0 - 1e-6;
/// Most cards of the usual width that are tried side by side.
const MOST_ABREAST: usize = 24;

/// An arrangement with its cut into sheets.
pub(super) struct Best {
    pub(super) plan: ElevationPlan,
    pub(super) scale: f64,
    pub(super) sheets: Vec<Sheet>,
    pub(super) strips: Strips,
}

impl Best {
    /// What is better: legible first, then few sheets, then large.
    pub(super) fn rank(&self) -> (bool, Reverse<usize>, i64) {
        (self.scale >= LEGIBLE, Reverse(self.sheets.len()), (self.scale * 1000.0) as i64)
    }
}

/// Whether all cards could stand on one sheet with this much room, were nothing else there.
pub(super) fn may_be_single(subject: &Subject<'_>, room: (f64, f64)) -> bool {
    let cards = subject.widths.iter().zip(&subject.heights);
    cards.map(|(width, height)| width * height).sum::<f64>() <= room.0 * room.1
}

/// The arrangement with the fewest sheets, and among those the largest picture.
pub(super) fn best_plan(subject: &Subject<'_>, room: (f64, f64)) -> Option<Best> {
    let cells = arrange::cells(subject.site, &subject.cards, subject.lettering);
    let widest = subject.widths.iter().copied().fold(1.0, f64::max);
    let mut sorted = subject.widths.clone();
    sorted.sort_by(f64::total_cmp);
    let usual = sorted.get(sorted.len() / 2).copied().unwrap_or(widest);
    let mut search = Search { subject, cells: &cells, room, best: None, shares: BTreeMap::new() };
    for count in 1..=MOST_ABREAST {
        let most = count as f64 * (usual + CARD_GAP_MM);
        if count > 1 && most > room.0.max(3.0 * widest) {
            break;
        }
        let alike = vec![most; cells.column_count()];
        search.try_plan(&alike, Grouping::Filled);
        for grouping in [Grouping::ByBuilding, Grouping::ByColumn] {
            search.try_parts(&alike, most, grouping);
        }
    }
    for grouping in [Grouping::ByBuilding, Grouping::ByColumn] {
        let each = search.width_of_each(grouping);
        if each.windows(2).any(|pair| pair[0] != pair[1]) {
            search.try_plan(&each, Grouping::Filled);
            search.try_plan(&each, grouping);
        }
    }
    search.best
}

/// What was tried so far.
struct Search<'s> {
    subject: &'s Subject<'s>,
    cells: &'s Cells,
    room: (f64, f64),
    best: Option<Best>,
    /// By grouping and the first column that a width holds for: with rows of a width, the height that its parts take of a sheet, shared with what
    /// can stand beside them.
    shares: BTreeMap<(Grouping, usize), Vec<(f64, f64)>>,
}

impl Search<'_> {
    fn plan(&self, most_widths: &[f64], grouping: Grouping) -> ElevationPlan {
        let room = (self.room.0, self.room.1 - CAPTION_MM);
        ElevationPlan::new(self.subject, self.cells, most_widths, room, grouping)
    }

    fn try_plan(&mut self, most_widths: &[f64], grouping: Grouping) {
        let plan = self.plan(most_widths, grouping);
        let (plan, _) = self.consider(plan, Cut::Even);
        self.consider(plan, Cut::Full);
    }

    /// The same with rows of one width, and notes what each building or column takes.
    fn try_parts(&mut self, most_widths: &[f64], most: f64, grouping: Grouping) {
        let plan = self.plan(most_widths, grouping);
        let is_of_several =
            |pair: &[Column]| pair[0].building.is_some() && pair[0].building == pair[1].building;
        if grouping == Grouping::ByColumn && !plan.arrangement.columns.windows(2).any(is_of_several) {
            return;
        }
        let (plan, _) = self.consider(plan, Cut::Even);
        let (plan, strips) = self.consider(plan, Cut::Full);
        let mut taken: BTreeMap<usize, f64> = BTreeMap::new();
        for page in strips.keys() {
            let (width, height) = canvas::size_of(&plan, *page, &strips);
            let abreast = ((self.room.0 + BESIDE_PARTS_MM) / (width + BESIDE_PARTS_MM)).floor();
            let share = if abreast >= 1.0 { height / abreast } else { f64::INFINITY };
            let first = plan.groups[page.across].columns.start;
            let holds_from = match grouping {
                Grouping::ByColumn => first,
                Grouping::Filled | Grouping::ByBuilding => building_of(&plan, first),
            };
            *taken.entry(holds_from).or_default() += share;
        }
        for (first, share) in taken {
            self.shares.entry((grouping, first)).or_default().push((share, most));
        }
    }

    /// For each column the width of rows with which it, or its building, takes least.
    fn width_of_each(&self, grouping: Grouping) -> Vec<f64> {
        let best = |noted: &Vec<(f64, f64)>| {
            let least = noted.iter().min_by(|a, b| a.0.total_cmp(&b.0));
            least.map_or(self.room.0, |(_, most)| *most)
        };
        let mut width = self.room.0;
        let each = (0..self.cells.column_count()).map(|column| {
            width = self.shares.get(&(grouping, column)).map_or(width, best);
            width
        });
        each.collect()
    }

    /// Takes a plan, cut so, where it is better than the best so far; gives it back with its strips.
    fn consider(&mut self, mut plan: ElevationPlan, cut: Cut) -> (ElevationPlan, Strips) {
        plan.cut(self.room.1 - CAPTION_MM, cut);
        let found = self.on_sheets(&plan);
        let strips = found.strips.clone();
        if self.best.as_ref().is_none_or(|known| found.rank() > known.rank()) {
            self.best = Some(found);
        }
        (plan, strips)
    }

    fn on_sheets(&self, plan: &ElevationPlan) -> Best {
        let paths = canvas::paths(plan);
        let pages = canvas::pages(plan, &paths);
        let each = canvas::one_each(&pages);
        let numbers = canvas::numbers(&each);
        let strips = Canvas::new(self.subject, plan, &paths, &numbers).needed_strips();
        let shared = canvas::sheets(plan, &pages, self.room, &strips);
        let sheets = if shared.len() < each.len() { shared } else { each };
        let scale = canvas::scale(plan, &sheets, self.room, &strips);
        Best { plan: plan.clone(), scale, sheets, strips }
    }
}

/// The first column of the building of a column.
fn building_of(plan: &ElevationPlan, column: usize) -> usize {
    let columns = &plan.arrangement.columns;
    let building = columns[column].building;
    match building {
        Some(_) => columns.iter().position(|one| one.building == building).unwrap_or(column),
        None => column,
    }
}
