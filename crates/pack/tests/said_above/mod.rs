//! What paper leaves out of the rows is said by the heading over them.

use latchline_handover::{Row, Table};

/// Of every table, each cell of a column that paper leaves out stands in the heading over its row.
pub(crate) fn check(tables: &[Table]) {
    let mut left_out = 0;
    for table in tables {
        let mut heading = "";
        for row in &table.rows {
            let cells = match row {
                Row::Heading(text) => {
                    heading = text;
                    continue;
                }
                Row::Cells(cells) => cells,
            };
            for (cell, _) in cells.iter().zip(&table.columns).filter(|(_, column)| column.is_said_above) {
                let words = cell.words();
                assert!(heading.contains(words), "{}: {words} under {heading}", table.title);
                left_out += 1;
            }
        }
    }
    assert!(left_out > 0);
}
