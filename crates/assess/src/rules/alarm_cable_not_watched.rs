//! `alarm-cable-not-watched`

use crate::door::alarm::{alarm_sheets, kind_word};
use crate::rule::{Context, Report, finding, rule};
use latchline_finding::CodeDoc;

rule! {
    /// # What it checks
    /// Alarm inputs whose contact is normally open, without a resistor at the end of the line.
    ///
    /// # Why it matters
    /// A cut or broken cable then looks like all is well: whoever cuts it first is never reported, and a fire
    /// alarm whose cable has come off never releases the door. A normally closed contact opens the loop when the
    /// cable is cut; a resistor at the contact tells open and short from both states (common practice, no source).
    ///
    /// # Example
    /// A tamper contact with `contact = "normally-open"`.
    ///
    /// # What to do
    /// Take the normally closed side of the contact (`contact = "normally-closed"`), or fit the resistor at the far
    /// end where the door station provides for it (`end_of_line_resistor = true`).
    pub static ALARM_CABLE_NOT_WATCHED: "alarm-cable-not-watched", Warning,
        "An alarm that a cut cable silences", check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Report) {
    for entrance in &context.site.entrances {
        for sheet in alarm_sheets(context, entrance).into_iter().filter(|sheet| sheet.cut_passes_unnoticed) {
            let input = &entrance.alarm_inputs[sheet.number - 1];
            let found = finding(doc, input.contact.origin.clone())
                .about(entrance.id.clone())
                .with("kind", kind_word(sheet.kind))
                .with("number", sheet.number);
            report.push(found);
        }
    }
}
