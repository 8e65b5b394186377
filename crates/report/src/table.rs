//! Tables that fit the page: aligned numbers, names that wrap, and stacked rows when narrow.

use crate::paint::Look;
use crate::wrap::{width, wrap};
use latchline_finding::shown;

/// Columns between two columns of a table.
const GAP: usize = 2;
/// A wrapping column is never made narrower than this.
const NARROWEST: usize = 7;

/// How the cells of a column are set.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Set {
    /// Flush left; wraps when the page is narrow.
    Words,
    /// Flush right; never wraps.
    Number,
}

/// One column.
#[derive(Debug, Clone)]
pub struct Column {
    /// Head over several columns, said at the first of them; empty elsewhere.
    pub group: String,
    /// Head.
    pub head: String,
    /// How the cell reads where rows are stacked, `{}` standing for it.
    pub label: String,
    /// How cells are set.
    pub set: Set,
}

impl Column {
    /// A column with its group (empty but for the first of a group), head and stacked form.
    pub fn new(
        group: impl Into<String>,
        head: impl Into<String>,
        label: impl Into<String>,
        set: Set,
    ) -> Self {
        Self { group: group.into(), head: head.into(), label: label.into(), set }
    }
}

/// A table.
#[derive(Debug, Clone)]
pub struct Table {
    columns: Vec<Column>,
    rows: Vec<Vec<String>>,
    indent: usize,
}

impl Table {
    /// An empty table with these columns, moved to the right by `indent`.
    pub fn new(columns: Vec<Column>, indent: usize) -> Self {
        Self { columns, rows: Vec::new(), indent }
    }

    /// Adds a row; it must have a cell for every column. What is hidden in a cell is shown.
    pub fn row(&mut self, cells: Vec<String>) {
        debug_assert_eq!(cells.len(), self.columns.len());
        self.rows.push(cells.iter().map(|cell| shown::prose(cell).into_owned()).collect());
    }

    /// The table as lines, each ended by a line break. Columns without any content are left out.
    pub fn render(&self, look: &Look) -> String {
        let used: Vec<usize> = (0..self.columns.len())
            .filter(|column| self.rows.iter().any(|row| !row[*column].is_empty()))
            .collect();
        match self.widths(&used, look.width) {
            Some(widths) => self.as_grid(&used, &widths, look),
            None => self.stacked(&used, look),
        }
    }

    /// Widths of the used columns that fit the page, if there are any.
    fn widths(&self, used: &[usize], page: usize) -> Option<Vec<usize>> {
        let mut widths: Vec<usize> = used
            .iter()
            .map(|column| {
                let cells = self.rows.iter().map(|row| width(&row[*column]));
                cells.chain([width(&self.columns[*column].head)]).max().unwrap_or(0)
            })
            .collect();
        self.make_room_for_groups(used, &mut widths);
        let room = page.checked_sub(self.indent + GAP * used.len().saturating_sub(1))?;
        while widths.iter().sum::<usize>() > room {
            let widest = (0..widths.len())
                .filter(|place| self.columns[used[*place]].set == Set::Words && widths[*place] > NARROWEST)
                .max_by_key(|place| (widths[*place], usize::MAX - place))?;
            widths[widest] -= 1;
        }
        Some(widths)
    }

    /// Widens the last column before each group, so that the group before it ends in time.
    fn make_room_for_groups(&self, used: &[usize], widths: &mut [usize]) {
        let group = |place: usize| &self.columns[used[place]].group;
        let starts: Vec<usize> = (0..used.len()).filter(|place| !group(*place).is_empty()).collect();
        for pair in starts.windows(2) {
            let (from, to) = (pair[0], pair[1]);
            let columns = widths[from..to].iter().sum::<usize>() + GAP * (to - from);
            widths[to - 1] += (width(group(from)) + GAP).saturating_sub(columns);
        }
    }

    fn as_grid(&self, used: &[usize], widths: &[usize], look: &Look) -> String {
        let mut text = String::new();
        if used.iter().any(|column| !self.columns[*column].group.is_empty()) {
            text.push_str(&look.faint(&self.group_line(used, widths)));
            text.push('\n');
        }
        let heads: Vec<&str> = used.iter().map(|column| self.columns[*column].head.as_str()).collect();
        text.push_str(&look.faint(&self.line(used, widths, &heads)));
        text.push('\n');
        for row in &self.rows {
            let wrapped: Vec<Vec<String>> =
                used.iter().zip(widths).map(|(column, width)| wrap(&row[*column], *width)).collect();
            let height = wrapped.iter().map(Vec::len).max().unwrap_or(0);
            for number in 0..height {
                let cells: Vec<&str> =
                    wrapped.iter().map(|cell| cell.get(number).map_or("", String::as_str)).collect();
                text.push_str(&self.line(used, widths, &cells));
                text.push('\n');
            }
        }
        text
    }

    fn group_line(&self, used: &[usize], widths: &[usize]) -> String {
        let mut line = " ".repeat(self.indent);
        let mut at = self.indent;
        for (place, column) in used.iter().enumerate() {
            let group = &self.columns[*column].group;
            if !group.is_empty() {
                // A group over numbers starts where its first number's column starts.
                let reached = width(&line);
                // Columns may have become narrower to fit the page; two heads never run together.
                let least = usize::from(reached > self.indent);
                line.push_str(&" ".repeat(at.saturating_sub(reached).max(least)));
                line.push_str(group);
            }
            at += widths[place] + GAP;
        }
        line.trim_end().to_string()
    }

    fn line(&self, used: &[usize], widths: &[usize], cells: &[&str]) -> String {
        let mut line = " ".repeat(self.indent);
        for (place, (column, cell)) in used.iter().zip(cells).enumerate() {
            if place > 0 {
                line.push_str(&" ".repeat(GAP));
            }
            let padding = " ".repeat(widths[place].saturating_sub(width(cell)));
            match self.columns[*column].set {
                Set::Words => {
                    line.push_str(cell);
                    line.push_str(&padding);
                }
                Set::Number => {
                    line.push_str(&padding);
                    line.push_str(cell);
                }
            }
        }
        line.trim_end().to_string()
    }

    /// One paragraph a row: the first cell, then every other with its label.
    fn stacked(&self, used: &[usize], look: &Look) -> String {
        let mut text = String::new();
        for row in &self.rows {
            let Some((first, others)) = used.split_first() else { continue };
            text.push_str(&" ".repeat(self.indent));
            text.push_str(&look.bold(&row[*first]));
            text.push('\n');
            let facts: Vec<String> = others
                .iter()
                .filter(|column| !row[**column].is_empty())
                .map(|column| self.columns[*column].label.replacen("{}", &row[*column], 1))
                .collect();
            text.push_str(&paragraph(&facts.join(", "), self.indent + 2, look.width));
        }
        text
    }
}

/// Text broken into lines of at most `width` columns, each ended by a line break and moved to the
/// right by `indent`.
pub fn paragraph(text: &str, indent: usize, page: usize) -> String {
    let lines = wrap(text, page.saturating_sub(indent).max(20));
    lines.iter().map(|line| format!("{}{line}\n", " ".repeat(indent))).collect()
}

/// Text broken into lines of at most `page` columns, each ended by a line break; the first begins with
/// `first`, the others with as many spaces.
pub fn hanging(first: &str, text: &str, page: usize) -> String {
    let indent = width(first);
    let lines = paragraph(text, indent, page);
    format!("{first}{}", lines.get(indent..).unwrap_or_default())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn table() -> Table {
        let column = |group: &str, head: &str, set| Column::new(group, head, "is {}", set);
        let mut table = Table::new(
            vec![
                column("", "From", Set::Words),
                column("Current A", "most", Set::Number),
                column("", "limit", Set::Number),
                column("", "Device", Set::Words),
                column("", "Nothing", Set::Words),
            ],
            2,
        );
        let row = |cells: [&str; 5]| cells.iter().map(|cell| (*cell).to_string()).collect();
        table.row(row(["D1.1", "0.41", "0.50", "A-401", ""]));
        table.row(row(["Verteiler Süd 1.2", "10.20", "", "B-1", ""]));
        table
    }

    #[test]
    fn numbers_align_and_empty_columns_go() {
        assert_eq!(
            table().render(&Look::default()),
            "                     Current A\n  \
             From                most  limit  Device\n  \
             D1.1                0.41   0.50  A-401\n  \
             Verteiler Süd 1.2  10.20         B-1\n"
        );
    }

    #[test]
    fn heads_of_groups_do_not_run_together() {
        let mut table = Table::new(
            vec![
                Column::new("Current", "A", "", Set::Number),
                Column::new("", "limit", "", Set::Number),
                Column::new("Worst device", "", "", Set::Words),
                Column::new("", "V", "", Set::Number),
            ],
            0,
        );
        table.row(["0.1", "", "A-1", "45.1"].map(String::from).to_vec());
        assert_eq!(
            table.render(&Look::default()),
            "Current  Worst device\n      A          V\n    0.1  A-1  45.1\n"
        );
    }

    #[test]
    fn names_wrap_before_rows_are_stacked() {
        let narrow = table().render(&Look { width: 36, ..Look::default() });
        assert!(narrow.lines().all(|line| width(line) <= 36), "{narrow}");
        assert!(narrow.contains("Verteiler\n") || narrow.contains("Verteiler "), "{narrow}");
        let stacked = table().render(&Look { width: 24, ..Look::default() });
        assert!(stacked.contains("  D1.1\n    is 0.41, is 0.50"), "{stacked}");
    }

    #[test]
    fn long_words_break() {
        assert_eq!(wrap("abcdefgh ij", 4), ["abcd", "efgh", "ij"]);
        assert_eq!(wrap("outdoor-0.8", 9), ["outdoor-", "0.8"]);
        assert_eq!(wrap("", 4), [""]);
    }
}
