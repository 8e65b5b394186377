//! Readings that colour themselves against the limits of their row.

use super::looks::Looks;
use super::texts::column_letters;
use latchline_handover::table::{Role, Table};
use rust_xlsxwriter::{ConditionalFormatFormula, Formula, Worksheet, XlsxError};

/// Puts the rules over the rows from the first to the last.
pub(super) fn colour_readings(
    sheet: &mut Worksheet,
    table: &Table,
    (first, last): (u32, u32),
    looks: &Looks,
) -> Result<(), XlsxError> {
    let column = |role| table.column_of(role);
    let (Some(reading), Some(lowest), Some(highest)) =
        (column(Role::Reading), column(Role::Lowest), column(Role::Highest))
    else {
        return Ok(());
    };
    let cell = |column: usize| format!("${}{}", column_letters(column as u16), first + 1);
    let (read, least, most) = (cell(reading), cell(lowest), cell(highest));
    let below = format!("AND(ISNUMBER({least}),{read}<{least})");
    let above = format!("AND(ISNUMBER({most}),{read}>{most})");
    let has_limit = format!("OR(ISNUMBER({least}),ISNUMBER({most}))");
    // The first that holds stops the others.
    let rules = [
        (format!("=AND(ISNUMBER({read}),OR({below},{above}))"), &looks.reading_outside),
        (format!("=AND(ISNUMBER({read}),{has_limit})"), &looks.reading_within),
        (format!("=AND(ISTEXT({read}),{has_limit})"), &looks.reading_no_number),
    ];
    for (rule, look) in rules {
        let rule = ConditionalFormatFormula::new()
            .set_rule(Formula::new(rule))
            .set_format(look)
            .set_stop_if_true(true);
        sheet.add_conditional_format(first, reading as u16, last, reading as u16, &rule)?;
    }
    Ok(())
}
