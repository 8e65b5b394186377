//! `dwelling-without-entrance`

use crate::rule::{Context, Report, finding, rule};
use latchline_finding::CodeDoc;

rule! {
    /// # What it checks
    /// That at least one entrance calls each dwelling (`calls` of the entrances). Whether the call can get
    /// there over the wiring is checked by `call-across-buses`; a site without any entrance is reported
    /// once, by `no-entrance`.
    ///
    /// # Why it matters
    /// These residents have a station that never rings.
    ///
    /// # Example
    /// Block C was added later; every entrance still says `calls = ["A", "B"]`.
    ///
    /// # What to do
    /// Add the dwelling, its floor or its building to the `calls` of an entrance.
    pub static DWELLING_WITHOUT_ENTRANCE: "dwelling-without-entrance", Error,
        "No entrance calls this dwelling", check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Report) {
    let site = context.site;
    if site.entrances.is_empty() {
        return;
    }
    let mut called = vec![false; site.dwellings.len()];
    for entrance in &site.entrances {
        for &dwelling in &entrance.calls.dwellings {
            called[dwelling] = true;
        }
    }
    for (dwelling, called) in site.dwellings.iter().zip(called) {
        if !called {
            let found = finding(doc, dwelling.origin.clone())
                .about(dwelling.id.clone())
                .with("entrances", site.entrances.len());
            report.push(found);
        }
    }
}
