//! `control-height`

use crate::door::heights::height_range;
use crate::rule::{Context, Report, finding, rule};
use latchline_finding::{CodeDoc, Figure, Unit};

rule! {
    /// # What it checks
    /// The stated height of a door station's controls (`control_height`) against the range that a
    /// publication of the site's country gives. United States 0.38 to 1.22 m (2010 ADA Standards 308.2.1
    /// and 308.3.1). As others quote them: Italy 1.10 to 1.30 m (DM 236/1989), France 0.90 to 1.30 m (order of 24
    /// December 2015), Switzerland 0.80 to 1.10 m (SIA 500), Norway 0.80 to 1.10 m (advice on TEK17), Australia 0.90 to
    /// 1.25 m (AS 1428.1, touch pads). From memory, not yet confirmed: England 0.90 to 1.00 m (Approved Document M
    /// volume 1), Germany 0.85 to 1.05 m (DIN 18040-2), Spain 0.80 to 1.20 m; elsewhere 0.80 to 1.10 m (ISO
    /// 21542). A height that is not stated is not looked at.
    ///
    /// # Why it matters
    /// A panel mounted for a standing eye is out of reach from a wheelchair, and moving it later means a
    /// new hole in the facade.
    ///
    /// # Example
    /// 1.45 m in the United States: more than 1.22 m.
    ///
    /// # What to do
    /// Mount the buttons within the range; a camera can sit higher if the module allows it. The local
    /// code and the access consultant prevail.
    pub static CONTROL_HEIGHT: "control-height", Advice,
        "Controls out of reach for some", check
}

/// Heights within a millimetre of the limit are at it.
const ROUNDING_M: f64 = 0.001;

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Report) {
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
            .with("source", range.source);
        report.push(found);
    }
}
