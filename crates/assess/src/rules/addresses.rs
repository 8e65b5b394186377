//! Findings about addresses. Not a rule: whoever numbers the devices finds what is wrong with the
//! numbers, and their manual pages stand with their codes in `latchline_site::codes`.

use crate::rule::{Context, Judgement};

/// Adds what was found while the devices were numbered: numbers out of range, reserved, given twice or
/// not expressible by the switches, two main entrances, and whatever was left without a number.
pub fn report(context: &Context<'_>, report: &mut Judgement) {
    report.findings.extend(context.addresses.findings.iter().cloned());
}
