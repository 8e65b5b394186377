//! `section-very-short`

use crate::rule::{Context, Judgement, finding, rule};
use latchline_finding::{CodeDoc, Unit};

rule! {
    pub static SECTION_VERY_SHORT: "section-very-short", Advice, check
}

/// Below this a length is asked about: parts side by side in one box take as much (common practice, no source).
const SHORT_M: f64 = 0.3;

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Judgement) {
    let site = context.site;
    for run in &site.runs {
        let short = run.sections.iter().filter(|section| {
            let length_m = section.length.value.as_metres();
            length_m > 0.0 && length_m < SHORT_M
        });
        // One finding a run: a slip of the unit is mostly made for all its sections.
        if let Some(first) = short.clone().next() {
            let found = finding(doc, first.length.origin.clone())
                .about(run.id.clone())
                .figures(first.length.value.as_metres(), SHORT_M, Unit::Metre)
                .with("length", format!("{:.0} mm", first.length.value.as_metres() * 1e3))
                .with("stop", site.stop_id(first.to));
            let more = short.count() - 1;
            report.push(if more > 0 { found.with("more", more) } else { found });
        }
    }
}
