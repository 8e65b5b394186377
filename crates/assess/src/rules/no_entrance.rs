//! `no-entrance`

use crate::rule::{Context, Report, finding, rule};
use latchline_finding::CodeDoc;

rule! {
    /// # What it checks
    /// That the site has an entrance.
    ///
    /// # Why it matters
    /// Without a door station nobody rings and no lock is judged. It is usually a table that was left out
    /// of the file.
    ///
    /// # Example
    /// A file with dwellings and runs, but without `[entrances]`.
    ///
    /// # What to do
    /// Add the entrances. Accept the finding for a house-internal system.
    pub static NO_ENTRANCE: "no-entrance", Warning,
        "The site has no entrance", check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Report) {
    let site = context.site;
    if site.entrances.is_empty() {
        report.push(finding(doc, site.family.origin.clone()).with("dwellings", site.dwellings.len()));
    }
}
