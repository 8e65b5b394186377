//! `control-height`

use crate::door::heights::height_range;
use crate::rule::{Context, Judgement, finding, rule};
use latchline_finding::{CodeDoc, Figure, Unit};

rule! {
    pub static CONTROL_HEIGHT: "control-height", Advice, check
}

/// Heights within a millimetre of the limit are at it.
const ROUNDING_M: f64 = 0.001;

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Judgement) {
    let country = context.site.country.as_ref().map(|country| country.value.as_str());
    let range = height_range(country);
    for entrance in &context.site.entrances {
        let Some(height) = &entrance.control_height else { continue };
        let height_m = height.value.as_metres();
        let limit_m = if height_m > range.most_m + ROUNDING_M {
            range.most_m
        } else if height_m < range.least_m - ROUNDING_M {
            range.least_m
        } else {
            continue;
        };
        let found = finding(doc, height.origin.clone())
            .about(entrance.id.clone())
            .figures(height_m, limit_m, Unit::Metre)
            .with("least", Figure::new(range.least_m, Unit::Metre))
            .with("most", Figure::new(range.most_m, Unit::Metre))
            .with("source", range.source.both());
        report.push(found);
    }
}
