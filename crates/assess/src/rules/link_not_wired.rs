//! `link-not-wired`

use crate::rule::{Context, Report, finding, rule};
use latchline_finding::CodeDoc;
use latchline_site::catalogue::BoxKind;
use latchline_site::model::RunStop;

rule! {
    /// # What it checks
    /// Isolating boxes whose signal link no run reaches.
    ///
    /// # Why it matters
    /// An isolating box passes only the signals of its link: the stations on it hear only door stations on the
    /// box itself.
    ///
    /// # Example
    /// B-I1 has a supply on its input, and nothing on B-I1.link.
    ///
    /// # What to do
    /// Add a run to the link. A block that is to hear only its own doors is accepted with a reason.
    pub static LINK_NOT_WIRED: "link-not-wired", Warning,
        "The signal link of an isolating box is open", check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Report) {
    let site = context.site;
    for (index, item) in site.boxes.iter().enumerate() {
        let mut stops = site.runs.iter().flat_map(|run| &run.sections).map(|section| section.to);
        if site.box_model(item).kind.value == BoxKind::Isolating
            && !stops.any(|stop| stop == RunStop::BoxLink(index))
        {
            report.push(finding(doc, item.origin.clone()).about(item.id.clone()));
        }
    }
}
