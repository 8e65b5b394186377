//! `section-shorter-than-climb`

use crate::rule::{Context, Judgement, finding, rule};
use latchline_finding::{CodeDoc, Unit};
use latchline_site::model::{Place, Run, Section, Site};

rule! {
    pub static SECTION_SHORTER_THAN_CLIMB: "section-shorter-than-climb", Advice, check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Judgement) {
    let site = context.site;
    // One finding a run: what is wrong with one section is mostly wrong with all.
    for run in &site.runs {
        let Some(short) = too_short(site, run) else { continue };
        report.push(
            finding(doc, short.section.length.origin.clone())
                .about(run.id.clone())
                .figures(short.length_m, short.climb_m, Unit::Metre)
                .with("stop", site.stop_id(short.section.to))
                .with("start", short.start)
                .with("floors", short.floors),
        );
    }
}

/// A way that is shorter than the storeys that it passes whole.
struct TooShort<'s> {
    section: &'s Section,
    start: String,
    floors: usize,
    length_m: f64,
    climb_m: f64,
}

/// The first way of a run between two stops whose floors are stated that is shorter than the storeys between them.
///
/// From the ceiling of one floor to the skirting of another it is the whole storeys between the two and no more: of the
/// floors told apart, one is not counted.
fn too_short<'s>(site: &'s Site, run: &'s Run) -> Option<TooShort<'s>> {
    let (mut start, mut place) = (site.start_id(run.from), site.start_place(run.from));
    let mut length_m = 0.0;
    for section in &run.sections {
        length_m += section.length.value.as_metres();
        let here = site.stop_place(section.to);
        if let Some((building, floors)) = floors_between(place, here) {
            let climb_m =
                floors.saturating_sub(1) as f64 * site.buildings[building].floor_height.value.as_metres();
            if length_m < climb_m {
                return Some(TooShort { section, start: start.to_string(), floors, length_m, climb_m });
            }
        }
        if here.floor.is_some() {
            (start, place, length_m) = (site.stop_id(section.to).clone(), here, 0.0);
        }
    }
    None
}

/// The building of two places that stand in the same one, and how many floors are between them.
fn floors_between(one: &Place, other: &Place) -> Option<(usize, usize)> {
    let building = one.building.filter(|building| other.building == Some(*building))?;
    Some((building, one.floor?.abs_diff(other.floor?)))
}
