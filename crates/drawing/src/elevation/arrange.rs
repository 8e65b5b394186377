//! Which card stands where: columns (one for each core), levels, rows and slots.

use super::card::Card;
use crate::language::{Lettering, Word};
use latchline_scene::font::text_width_mm;
use latchline_site::model::Site;
use std::collections::BTreeMap;

/// Gap between two cards of a row.
pub(super) const CARD_GAP_MM: f64 = 3.0;
/// Free strip at either side of a column's cards.
pub(super) const COLUMN_PAD_MM: f64 = 3.0;
/// Size of the lettering of floors.
pub(super) const FLOOR_TEXT_MM: f64 = 3.2;

/// A core of a building, or the place of what stands in none.
#[derive(Debug, Clone)]
pub(super) struct Column {
    pub(super) building: Option<usize>,
    /// Name of the core; empty for the only one of its building.
    pub(super) core: String,
    /// Title where there is no building.
    pub(super) title: &'static str,
    /// Lowest and highest level that it spans.
    pub(super) levels: (i32, i32),
    /// Width that the names of its floors need.
    pub(super) gutter: f64,
    /// Width of its widest row of cards.
    pub(super) content_width: f64,
}

/// A strip of cards with the channel below it.
#[derive(Debug, Clone)]
pub(super) struct Row {
    pub(super) level: i32,
    /// Whether it is the topmost row of its level.
    pub(super) first_of_level: bool,
    /// Cards of each column, from the riser outward.
    pub(super) cards: BTreeMap<usize, Vec<usize>>,
}

/// The whole arrangement, rows from the top down.
#[derive(Debug, Clone)]
pub(super) struct Arrangement {
    pub(super) columns: Vec<Column>,
    pub(super) rows: Vec<Row>,
    /// Row and column of each card.
    pub(super) place: Vec<(usize, usize)>,
    /// Name of each floor: column and level.
    pub(super) floor_names: BTreeMap<(usize, i32), String>,
}

/// Cells by column and level, before they are wrapped to rows.
pub(super) struct Cells {
    columns: Vec<Column>,
    cells: BTreeMap<(usize, i32), Vec<usize>>,
    floor_names: BTreeMap<(usize, i32), String>,
}

/// Level of the lowest floor of each building: floors of the same name stand level where most of
/// them can, else the lowest floors do.
fn base_levels(site: &Site) -> Vec<i32> {
    let mut known: BTreeMap<&str, i32> = BTreeMap::new();
    let mut bases = Vec::with_capacity(site.buildings.len());
    for building in &site.buildings {
        let mut votes: BTreeMap<i32, usize> = BTreeMap::new();
        for (floor, name) in building.floors.iter().enumerate() {
            if let Some(level) = known.get(name.value.as_str()) {
                *votes.entry(level - floor as i32).or_default() += 1;
            }
        }
        let base =
            votes.into_iter().max_by_key(|(base, count)| (*count, -base.abs())).map_or(0, |(base, _)| base);
        for (floor, name) in building.floors.iter().enumerate() {
            known.entry(name.value.as_str()).or_insert(base + floor as i32);
        }
        bases.push(base);
    }
    bases
}

/// Sorts the cards into cells.
pub(super) fn cells(site: &Site, cards: &[Card], lettering: Lettering) -> Cells {
    let bases = base_levels(site);
    let lowest = bases.iter().copied().min().unwrap_or(0);
    // What has no building stands level with the entrances that have one.
    let entrance_level = site
        .entrances
        .iter()
        .find_map(|entrance| Some(bases[entrance.place.building?] + entrance.place.floor? as i32))
        .unwrap_or(lowest);
    // Columns in order: buildings with their cores (first what names no core of several), then the rest.
    type Key = (usize, usize);
    let key_of = |card: &Card| -> (Key, i32) {
        match card.place.building {
            None => ((usize::MAX, usize::from(!card.place.outdoors)), entrance_level),
            Some(building) => {
                let several = site.buildings[building].cores.len() > 1;
                let core = if several { card.place.core.map_or(0, |core| core + 1) } else { 1 };
                let level = card.place.floor.map_or(lowest - 1, |floor| bases[building] + floor as i32);
                ((building, core), level)
            }
        }
    };
    let mut columns: BTreeMap<Key, Column> = BTreeMap::new();
    for (number, building) in site.buildings.iter().enumerate() {
        let levels = (bases[number], bases[number] + building.floors.len().max(1) as i32 - 1);
        for (core, name) in building.cores.iter().enumerate() {
            columns.insert(
                (number, core + 1),
                Column {
                    building: Some(number),
                    core: name.value.clone(),
                    title: "",
                    levels,
                    gutter: 0.0,
                    content_width: 0.0,
                },
            );
        }
    }
    for card in cards {
        let (key, level) = key_of(card);
        let column = columns.entry(key).or_insert_with(|| {
            let building = card.place.building;
            let levels = building.map_or((entrance_level, entrance_level), |building| {
                (bases[building], bases[building] + site.buildings[building].floors.len().max(1) as i32 - 1)
            });
            let title = match building {
                Some(_) => "",
                None if card.place.outdoors => lettering.word(Word::Outdoors),
                None => lettering.word(Word::PlaceNotStated),
            };
            let core = building.map_or(String::new(), |_| String::from(lettering.word(Word::CoreNotStated)));
            Column { building, core, title, levels, gutter: 0.0, content_width: 0.0 }
        });
        column.levels = (column.levels.0.min(level), column.levels.1.max(level));
    }
    let numbers: BTreeMap<Key, usize> =
        columns.keys().enumerate().map(|(number, key)| (*key, number)).collect();
    let mut columns: Vec<Column> = columns.into_values().collect();
    let mut cells: BTreeMap<(usize, i32), Vec<usize>> = BTreeMap::new();
    for (index, card) in cards.iter().enumerate() {
        let (key, level) = key_of(card);
        cells.entry((numbers[&key], level)).or_default().push(index);
    }
    for cell in cells.values_mut() {
        cell.sort_by_key(|card| (cards[*card].kind.rank(), cards[*card].visit));
    }
    let mut floor_names = BTreeMap::new();
    for (number, column) in columns.iter_mut().enumerate() {
        for level in column.levels.0..=column.levels.1 {
            let name = match column.building {
                Some(building) => {
                    let floor = usize::try_from(level - bases[building]).ok();
                    let name = floor.and_then(|floor| site.buildings[building].floors.get(floor));
                    name.map_or(lettering.word(Word::FloorNotStated), |name| name.value.as_str())
                }
                None => "",
            };
            floor_names.insert((number, level), name.to_string());
            column.gutter = column.gutter.max(text_width_mm(name, FLOOR_TEXT_MM, true) + 4.0);
        }
        column.gutter = column.gutter.clamp(4.0, 24.0);
    }
    Cells { columns, cells, floor_names }
}

impl Cells {
    /// How many columns there are.
    pub(super) fn column_count(&self) -> usize {
        self.columns.len()
    }
}

/// Wraps the cells to rows no wider than what each column has in `most_widths`, and no more uneven than they have to be.
pub(super) fn arrange(cells: &Cells, widths: &[f64], most_widths: &[f64]) -> Arrangement {
    let mut columns = cells.columns.clone();
    let mut wrapped: BTreeMap<(usize, i32), Vec<Vec<usize>>> = BTreeMap::new();
    for (place, cell) in &cells.cells {
        let rows = wrap(cell, widths, most_widths[place.0]);
        let widest = rows.iter().map(|row| row_width(row, widths)).fold(0.0, f64::max);
        columns[place.0].content_width = columns[place.0].content_width.max(widest);
        wrapped.insert(*place, rows);
    }
    let mut rows = Vec::new();
    let mut place = vec![(0, 0); widths.len()];
    let top = columns.iter().map(|column| column.levels.1).max().unwrap_or(0);
    let bottom = columns.iter().map(|column| column.levels.0).min().unwrap_or(0);
    for level in (bottom..=top).rev() {
        let of_column = |column: usize| wrapped.get(&(column, level)).map_or(&[][..], Vec::as_slice);
        let depth = (0..columns.len()).map(|column| of_column(column).len()).max().unwrap_or(0).max(1);
        for row in 0..depth {
            let mut cards = BTreeMap::new();
            for column in 0..columns.len() {
                if let Some(cell_row) = of_column(column).get(row) {
                    for card in cell_row {
                        place[*card] = (rows.len(), column);
                    }
                    cards.insert(column, cell_row.clone());
                }
            }
            rows.push(Row { level, first_of_level: row == 0, cards });
        }
    }
    Arrangement { columns, rows, place, floor_names: cells.floor_names.clone() }
}

fn row_width(row: &[usize], widths: &[f64]) -> f64 {
    row.iter().map(|card| widths[*card] + CARD_GAP_MM).sum::<f64>() - CARD_GAP_MM
}

fn wrap(cell: &[usize], widths: &[f64], most_width: f64) -> Vec<Vec<usize>> {
    let total = row_width(cell, widths);
    let rows = (total / most_width.max(1.0)).ceil().max(1.0);
    let fill = |limit: f64| {
        let mut wrapped: Vec<Vec<usize>> = vec![Vec::new()];
        let mut width = 0.0;
        for card in cell {
            let own = widths[*card] + CARD_GAP_MM;
            if width > 0.0 && width + own - CARD_GAP_MM > limit {
                wrapped.push(Vec::new());
                width = 0.0;
            }
            width += own;
            if let Some(row) = wrapped.last_mut() {
                row.push(*card);
            }
        }
        wrapped
    };
    // Even rows first; a little wider until no more rows are needed than at the full width.
    let needed = fill(most_width).len();
    let mut limit = total / rows;
    loop {
        let wrapped = fill(limit);
        if wrapped.len() <= needed || limit >= most_width {
            return wrapped;
        }
        limit = (limit + 2.0).min(most_width);
    }
}
