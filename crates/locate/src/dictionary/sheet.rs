//! The table as a sheet of paper: run by run, supply by supply, what five readings show of each cause.
//!
//! Causes of one place that show alike, each reading as planned, lower, higher, nothing or open, stand in one row; its figures reach from the least to the
//! most that any of them makes, each widened by two deviations of tolerances and meter. What shows in no reading of its place is counted, not listed.

use super::pattern::{PIECE_VARIANCE, Pattern, change_of};
use super::places::{place_of, readings_of};
use super::solved::{Entry, Solved};
use crate::evidence::good_reading;
use crate::kind::{Element, Kind};
use crate::plant::Plant;
use crate::quantity::{OPEN_OHM, Quantity};
use crate::rates::Rates;
use latchline_network::readings::Readings;
use std::collections::BTreeMap;

/// To how many deviations a figure reaches.
const DEVIATIONS: f64 = 2.0;
/// A kind with less of its row is counted with the others of the row.
const LEAST_OF_ROW: f64 = 0.04;

/// A sheet of faults.
#[derive(Debug, Clone, PartialEq)]
pub struct FaultSheet {
    /// Places, the most probable first.
    pub places: Vec<SheetPlace>,
    /// Probability, before anything is read, of what no reading of its place shows.
    pub unseen: f64,
    /// Probability of something that the list does not have.
    pub none_of_these: f64,
    /// Probability of what was left out so that the sheet is short.
    pub left_out: f64,
    /// How many rows that are.
    pub left_out_rows: usize,
}

/// A run, box or supply with the causes that show there.
#[derive(Debug, Clone, PartialEq)]
pub struct SheetPlace {
    /// What it is: a run, a box or a supply.
    pub element: Element,
    /// What is read, in the order of [`Shown`]; `None` where there is nothing to read.
    pub readings: [Option<SheetReading>; 5],
    /// What shows alike, the most probable first.
    pub rows: Vec<SheetRow>,
}

/// A reading of a place.
#[derive(Debug, Clone, PartialEq)]
pub struct SheetReading {
    /// What is read.
    pub quantity: Quantity,
    /// The least without a fault, in the SI unit.
    pub low: f64,
    /// The most without a fault; infinite where it has none.
    pub high: f64,
}

/// Which reading of a place.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Shown {
    /// Voltage where it begins.
    Start,
    /// Voltage where it ends.
    End,
    /// Current into it or out of it.
    Current,
    /// Loop of the run alone.
    Loop,
    /// Insulation of the run alone.
    Insulation,
}

impl Shown {
    /// Every one, in the order of [`SheetPlace::readings`].
    pub const ALL: [Shown; 5] = [Shown::Start, Shown::End, Shown::Current, Shown::Loop, Shown::Insulation];
}

/// Causes that show alike.
#[derive(Debug, Clone, PartialEq)]
pub struct SheetRow {
    /// What, the most probable first.
    pub kinds: Vec<Kind>,
    /// How many kinds more, each of little probability.
    pub more: usize,
    /// Probability before anything is read.
    pub share: f64,
    /// What each reading shows, as [`SheetPlace::readings`].
    pub values: [SheetValue; 5],
}

/// What a reading shows of a fault.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum SheetValue {
    /// There is nothing to read.
    Unread,
    /// As without a fault.
    AsPlanned,
    /// Nothing: no voltage, no current.
    Nothing,
    /// No way through.
    Open,
    /// Lower or higher than planned.
    Between {
        /// Least, in the SI unit.
        low: f64,
        /// Most; infinite where it has none.
        high: f64,
    },
}

/// How a reading stands to what is planned.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Stands {
    Unread,
    AsPlanned,
    Nothing,
    Lower,
    Higher,
    Open,
}

/// A reading of a place with its number in the table.
struct Column<'s> {
    number: usize,
    entry: &'s Entry,
    reading: SheetReading,
    /// Planned, on the scale on which it is compared, with the meter's error.
    planned: (f64, f64),
}

/// What is gathered of a row.
#[derive(Default)]
struct Gathered {
    kinds: BTreeMap<Kind, f64>,
    spans: [Option<(f64, f64)>; 5],
}

impl FaultSheet {
    /// Of a site that was solved with every cause; `planned` are the readings that the other sheets of a pack show.
    pub(super) fn of_solved(plant: &Plant<'_>, rates: &Rates, solved: &Solved, planned: &Readings) -> Self {
        let numbers: BTreeMap<&Quantity, usize> =
            solved.quantities.iter().enumerate().map(|(number, quantity)| (quantity, number)).collect();
        let mut by_place: BTreeMap<Element, Vec<usize>> = BTreeMap::new();
        let mut unseen = 0.0;
        for (number, cause) in solved.causes.iter().enumerate() {
            match place_of(plant, cause.cause.element) {
                Some(element) if !solved.at_sizes[number].is_empty() => {
                    by_place.entry(element).or_default().push(number);
                }
                _ => unseen += cause.prior,
            }
        }
        let mut places = Vec::new();
        for (element, members) in by_place {
            let sound = |number: usize| f64::from(solved.entries[number].sound);
            let wanted = readings_of(plant, element, &numbers, &sound);
            let columns = wanted.map(|quantity| {
                let quantity = quantity?;
                let number = *numbers.get(&quantity)?;
                Some(Column::new(number, &solved.entries[number], quantity, planned))
            });
            let rows = rows(solved, &members, &columns, &mut unseen);
            let readings = columns.map(|column| column.map(|column| column.reading));
            places.push(SheetPlace { element, readings, rows });
        }
        places.retain(|place: &SheetPlace| !place.rows.is_empty());
        places.sort_by(|a, b| b.share().total_cmp(&a.share()).then(a.element.cmp(&b.element)));
        FaultSheet { places, unseen, none_of_these: rates.none_of_these, left_out: 0.0, left_out_rows: 0 }
    }

    /// The most probable of it in so many lines, each place with two lines of its own; what is left out is told.
    #[must_use]
    pub fn shortened(mut self, most_lines: usize) -> Self {
        let mut order: Vec<(f64, usize, usize)> = Vec::new();
        for (place, of) in self.places.iter().enumerate() {
            order.extend(of.rows.iter().enumerate().map(|(row, of)| (of.share, place, row)));
        }
        order.sort_by(|a, b| b.0.total_cmp(&a.0).then((a.1, a.2).cmp(&(b.1, b.2))));
        let mut kept: Vec<usize> = vec![0; self.places.len()];
        let mut lines = 0;
        for (_, place, _) in order {
            let cost = if kept[place] == 0 { 3 } else { 1 };
            if lines + cost > most_lines {
                break;
            }
            lines += cost;
            kept[place] += 1;
        }
        for (place, kept) in self.places.iter_mut().zip(kept) {
            // The most probable of a place stand first.
            let left = place.rows.split_off(kept);
            self.left_out_rows += left.len();
            self.left_out += left.iter().map(|row| row.share).sum::<f64>();
        }
        self.places.retain(|place| !place.rows.is_empty());
        self
    }
}

impl SheetPlace {
    /// Probability of all its rows before anything is read.
    pub fn share(&self) -> f64 {
        self.rows.iter().map(|row| row.share).sum()
    }
}

fn rows(
    solved: &Solved,
    members: &[usize],
    columns: &[Option<Column<'_>>; 5],
    unseen: &mut f64,
) -> Vec<SheetRow> {
    let mut gathered: BTreeMap<[Stands; 5], Gathered> = BTreeMap::new();
    for member in members {
        let (cause, at_sizes) = (&solved.causes[*member], &solved.at_sizes[*member]);
        let spaces = (at_sizes.len() - 1).max(1) as f64;
        for (place, at) in at_sizes.iter().enumerate() {
            // Between two sizes each stands for half.
            let is_end = place == 0 || place + 1 == at_sizes.len();
            let part = if at_sizes.len() == 1 {
                1.0
            } else if is_end {
                0.5 / spaces
            } else {
                1.0 / spaces
            };
            let weight = cause.prior * part;
            let spans =
                columns.each_ref().map(|column| column.as_ref().map(|column| column.span(&at.pattern)));
            let stands = spans.each_ref().map(|span| span.map_or(Stands::Unread, |(stands, _)| stands));
            if stands.iter().all(|stands| matches!(stands, Stands::Unread | Stands::AsPlanned)) {
                *unseen += weight;
                continue;
            }
            let row = gathered.entry(stands).or_default();
            *row.kinds.entry(cause.cause.kind).or_default() += weight;
            for (known, span) in row.spans.iter_mut().zip(spans) {
                let Some((_, (low, high))) = span else { continue };
                *known = Some(known.map_or((low, high), |(least, most)| (least.min(low), most.max(high))));
            }
        }
    }
    let mut rows: Vec<SheetRow> = gathered.into_iter().map(|(stands, of)| of.row(stands, columns)).collect();
    rows.sort_by(|a, b| b.share.total_cmp(&a.share).then_with(|| a.kinds.cmp(&b.kinds)));
    rows
}

impl Gathered {
    fn row(self, stands: [Stands; 5], columns: &[Option<Column<'_>>; 5]) -> SheetRow {
        let share: f64 = self.kinds.values().sum();
        let mut kinds: Vec<(Kind, f64)> = self.kinds.into_iter().collect();
        kinds.sort_by(|a, b| b.1.total_cmp(&a.1).then(a.0.cmp(&b.0)));
        let all = kinds.len();
        let first = kinds[0].0;
        kinds.retain(|(kind, weight)| *kind == first || *weight >= LEAST_OF_ROW * share);
        let mut values = [SheetValue::Unread; 5];
        for (place, value) in values.iter_mut().enumerate() {
            let (Some(column), Some((low, high))) = (&columns[place], self.spans[place]) else { continue };
            *value = match stands[place] {
                Stands::Unread => SheetValue::Unread,
                Stands::AsPlanned => SheetValue::AsPlanned,
                Stands::Nothing => SheetValue::Nothing,
                Stands::Open => SheetValue::Open,
                Stands::Lower | Stands::Higher => {
                    let unscaled = |value: f64| column.reading.quantity.unscale(value);
                    SheetValue::Between { low: unscaled(low).max(0.0), high: unscaled(high).max(0.0) }
                }
            };
        }
        let more = all - kinds.len();
        SheetRow { kinds: kinds.into_iter().map(|(kind, _)| kind).collect(), more, share, values }
    }
}

impl<'s> Column<'s> {
    fn new(number: usize, entry: &'s Entry, quantity: Quantity, planned: &Readings) -> Self {
        let deviation = (entry.shared(entry) + f64::from(entry.own_variance)).sqrt();
        let (low, high) = match &quantity {
            Quantity::Voltage { at, .. } => planned.standby_voltage(*at),
            Quantity::Current { at, .. } => planned.standby_current(*at),
            Quantity::Loop { run } => planned.loop_resistance(*run),
            _ => None,
        }
        .map_or_else(
            || {
                let sound = f64::from(entry.sound);
                let (low, high) = (sound - DEVIATIONS * deviation, sound + DEVIATIONS * deviation);
                (quantity.unscale(low), quantity.unscale(high))
            },
            |found| (found.lowest.value, found.highest.value),
        );
        // More than a meter tells from any higher insulation is no fault.
        let high = if matches!(quantity, Quantity::Insulation { .. }) { f64::INFINITY } else { high };
        let with_meter = |value: f64, side: f64| {
            quantity.scale(value) + side * good_reading(quantity.clone(), value).limit()
        };
        let planned = (with_meter(low, -1.0), with_meter(high, 1.0));
        Column { number, entry, reading: SheetReading { quantity, low, high }, planned }
    }

    /// How it stands, and between what it lies on the scale on which it is compared.
    fn span(&self, pattern: &Pattern) -> (Stands, (f64, f64)) {
        let (steps, own_steps) = change_of(pattern, self.number);
        if steps == 0.0 && own_steps == 0.0 {
            return (Stands::AsPlanned, self.planned);
        }
        let (value, step) = (self.entry.value(steps), f64::from(self.entry.step));
        let quantity = &self.reading.quantity;
        let meter = good_reading(quantity.clone(), quantity.unscale(value)).deviation();
        let own = (own_steps * step).powi(2) + PIECE_VARIANCE * step * step;
        let tolerance = match value == 0.0 {
            true => 0.0,
            false => self.entry.shared(self.entry) + f64::from(self.entry.own_variance),
        };
        let reach = DEVIATIONS * (tolerance + own + meter * meter).sqrt();
        let is_loop = matches!(quantity, Quantity::Loop { .. });
        let is_scaled = matches!(quantity, Quantity::Insulation { .. });
        let stands = if is_loop && value >= 0.99 * OPEN_OHM {
            Stands::Open
        } else if value == 0.0 && !is_loop && !is_scaled {
            Stands::Nothing
        } else if value < self.planned.0 {
            Stands::Lower
        } else if value > self.planned.1 {
            Stands::Higher
        } else {
            Stands::AsPlanned
        };
        // What is told apart from the plan does not reach beyond its far side.
        let (low, high) = (value - reach, value + reach);
        match stands {
            Stands::Lower => (stands, (low, high.min(self.planned.1))),
            Stands::Higher => (stands, (low.max(self.planned.0), high)),
            _ => (stands, (low, high)),
        }
    }
}
