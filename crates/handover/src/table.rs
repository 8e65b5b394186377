//! Tables with typed cells: what every format but the drawings is made from.

use crate::options::Part;
use latchline_finding::Money;

/// What stands for a number that there is not.
pub const MISSING: &str = "–";

/// Of which few words one is to be written.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Choice {
    /// Polarity at the end of a run.
    Polarity,
    /// The colour of a conductor, by the letter codes of IEC 60757.
    Colour,
    /// How grave a snag is.
    Gravity,
}

/// What a column is to the readings that are written into its rows.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Role {
    /// Nothing.
    #[default]
    Plain,
    /// Its quantity is the least that a reading may be.
    Lowest,
    /// Its quantity is the most that a reading may be.
    Highest,
    /// Readings are written here, in the unit of the row's limits.
    Reading,
    /// With the others of this role it says which row it is: by them what was written into an earlier pack finds its row again.
    Names,
}

/// What somebody has written into a cell.
#[derive(Debug, Clone, PartialEq)]
pub enum Entry {
    /// Words.
    Words(String),
    /// A number.
    Number(f64),
    /// A date, YYYY-MM-DD.
    Date(String),
}

/// One cell.
#[derive(Debug, Clone, PartialEq)]
pub enum Cell {
    /// Nothing.
    Empty,
    /// Room to write a reading or a word.
    WriteIn,
    /// Room to write one of a few words.
    Choice(Choice),
    /// A box to tick: done.
    Tick,
    /// A box to tick for a test: passed.
    Passed,
    /// What was written there, carried over from an earlier pack.
    Written {
        /// What was written.
        entry: Entry,
        /// The cell as it was before.
        room: Box<Cell>,
    },
    /// Words, in the pack's language or the user's own.
    Text(String),
    /// A number of things.
    Count(u64),
    /// A quantity as it is shown: converted to the pack's units and rounded.
    Quantity {
        /// The number.
        value: f64,
        /// Decimals that are shown.
        decimals: u8,
        /// Symbol of its unit.
        unit: &'static str,
    },
    /// A sum of money in the catalogue's currency.
    Money(Money),
    /// The product of two cells of this row, by column; `value` is the result.
    Product {
        /// The two columns.
        columns: (usize, usize),
        /// The product of their values.
        value: Money,
    },
    /// A date, YYYY-MM-DD.
    Date(String),
}

impl Cell {
    /// Words.
    pub fn text(text: impl Into<String>) -> Cell {
        Cell::Text(text.into())
    }

    /// A count.
    pub fn count(count: usize) -> Cell {
        Cell::Count(count as u64)
    }

    /// Whether it is there to be written into.
    pub fn is_room(&self) -> bool {
        matches!(self, Cell::WriteIn | Cell::Choice(_) | Cell::Tick | Cell::Passed)
    }

    /// Its number, if it has one.
    pub fn number(&self) -> Option<f64> {
        match self {
            Cell::Count(count) => Some(*count as f64),
            Cell::Quantity { value, .. } => Some(*value),
            Cell::Money(value) | Cell::Product { value, .. } => Some(value.as_units()),
            _ => None,
        }
    }

    /// Its amount of money, if it is one.
    pub fn money(&self) -> Option<Money> {
        match self {
            Cell::Money(value) | Cell::Product { value, .. } => Some(*value),
            _ => None,
        }
    }

    /// Its words; empty for everything else.
    pub fn words(&self) -> &str {
        match self {
            Cell::Text(text) => text,
            _ => "",
        }
    }
}

/// One column.
#[derive(Debug, Clone, PartialEq)]
pub struct Column {
    /// Heading.
    pub title: String,
    /// Symbol of the unit of all its quantities; without one each quantity shows its own.
    pub unit: Option<&'static str>,
    /// Width in characters when printed.
    pub width: u8,
    /// Whether a sum stands below it.
    pub is_summed: bool,
    /// Whether the heading over the rows says all that it holds: paper leaves it out, files to sort and filter keep it.
    pub is_said_above: bool,
    /// What it is to the readings of its rows.
    pub role: Role,
}

impl Column {
    /// The same with this role.
    #[must_use]
    pub fn with_role(self, role: Role) -> Column {
        Column { role, ..self }
    }

    /// The same, left out on paper since the heading over the rows says it.
    #[must_use]
    pub fn said_above(self) -> Column {
        Column { is_said_above: true, ..self }
    }

    /// The heading with the unit.
    pub fn heading(&self) -> String {
        match self.unit {
            Some(unit) if !unit.is_empty() => format!("{}, {unit}", self.title),
            _ => self.title.clone(),
        }
    }
}

/// One row.
#[derive(Debug, Clone, PartialEq)]
pub enum Row {
    /// A heading over the rows that follow.
    Heading(String),
    /// One cell for each column.
    Cells(Vec<Cell>),
}

/// A table with its title and what must be said with it.
#[derive(Debug, Clone, PartialEq)]
pub struct Table {
    /// Which part of the pack it is.
    pub part: Part,
    /// Title.
    pub title: String,
    /// What must be known to read it, sentence by sentence.
    pub notes: Vec<String>,
    /// Columns.
    pub columns: Vec<Column>,
    /// Rows.
    pub rows: Vec<Row>,
    /// Whether each heading over rows begins a page.
    pub has_page_per_heading: bool,
    /// Rows that agree in so many first columns are one thing, which no page parts; nor does it part what stands under one heading, where a page
    /// holds that. None: 0.
    pub columns_of_one_thing: usize,
}

impl Table {
    /// An empty table.
    pub fn new(part: Part, title: &str, columns: Vec<Column>) -> Table {
        Table {
            part,
            title: title.to_string(),
            notes: Vec::new(),
            columns,
            rows: Vec::new(),
            has_page_per_heading: false,
            columns_of_one_thing: 0,
        }
    }

    /// Adds a sentence to know.
    pub fn note(&mut self, text: impl Into<String>) {
        self.notes.push(text.into());
    }

    /// Adds a heading.
    pub fn heading(&mut self, text: impl Into<String>) {
        self.rows.push(Row::Heading(text.into()));
    }

    /// Adds a row, filled up with empty cells.
    pub fn row(&mut self, mut cells: Vec<Cell>) {
        cells.resize(self.columns.len(), Cell::Empty);
        self.rows.push(Row::Cells(cells));
    }

    /// The rows without headings.
    pub fn body(&self) -> impl Iterator<Item = &[Cell]> {
        self.rows.iter().filter_map(|row| match row {
            Row::Cells(cells) => Some(&cells[..]),
            Row::Heading(_) => None,
        })
    }

    /// The cells of each row, headings left out.
    pub fn body_mut(&mut self) -> impl Iterator<Item = &mut Vec<Cell>> {
        self.rows.iter_mut().filter_map(|row| match row {
            Row::Cells(cells) => Some(cells),
            Row::Heading(_) => None,
        })
    }

    /// The column of this role.
    pub fn column_of(&self, role: Role) -> Option<usize> {
        self.columns.iter().position(|column| column.role == role)
    }

    /// Whether some column is summed.
    pub fn has_sums(&self) -> bool {
        self.columns.iter().any(|column| column.is_summed)
    }

    /// Decimals with which the sum of a column is shown: those of its amounts.
    pub fn sum_decimals(&self, column: usize) -> u8 {
        let decimals = self.body().find_map(|cells| match &cells[column] {
            Cell::Quantity { decimals, .. } => Some(*decimals),
            Cell::Money(_) | Cell::Product { .. } => Some(2),
            _ => None,
        });
        decimals.unwrap_or(0)
    }

    /// The sum of a column; amounts of money are summed exactly.
    pub fn sum(&self, column: usize) -> f64 {
        let cells = || self.body().map(|cells| &cells[column]);
        let money: Money = cells().filter_map(Cell::money).sum();
        let others: f64 = cells().filter(|cell| cell.money().is_none()).filter_map(Cell::number).sum();
        others + money.as_units()
    }
}
