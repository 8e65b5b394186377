//! `outdoor-run-without-surge-protection`

use super::limit::LENGTH_ROUNDING_M;
use crate::rule::{Context, Judgement, finding, finding_as, rule};
use latchline_finding::{CodeDoc, Figure, Severity, Unit};
use latchline_site::catalogue::Environment;
use latchline_site::model::{Place, Run, RunStop, Site, StationOwner};
use latchline_site::outdoors::section_outdoors;

rule! {
    pub static OUTDOOR_RUN_WITHOUT_SURGE_PROTECTION: "outdoor-run-without-surge-protection", Warning or Advice, check
}

/// 140 ft: see the manual page.
const SHORT_RUN_M: f64 = 42.0;

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Judgement) {
    let site = context.site;
    for run in &site.runs {
        // A device away from all buildings: some of the way to it is in the open.
        let to_device = section_outdoors(site, run).filter(|(_, away)| *away);
        let reason = match run.environment.value {
            Environment::Outdoors => "outdoors",
            Environment::Buried => "buried",
            Environment::Indoors if joins_buildings(site, run) => "between-buildings",
            Environment::Indoors if to_device.is_some() => "to-a-device-outdoors",
            Environment::Indoors => continue,
        };
        if run.surge_protection.is_some() || leads_to_protected_entrance(site, run) {
            continue;
        }
        let length_m = run.length().as_metres();
        let origin = run.origin.clone();
        let mut found = if length_m > SHORT_RUN_M + LENGTH_ROUNDING_M {
            finding(doc, origin).figures(length_m, SHORT_RUN_M, Unit::Metre)
        } else {
            let mut found = finding_as(doc, Severity::Advice, origin);
            found.value = Some(Figure::new(length_m, Unit::Metre));
            found
        };
        found = found.about(run.id.clone()).with("reason", reason);
        if let Some((section, _)) = to_device {
            found = found.with("stop", site.stop_id(section.to));
        }
        report.push(found);
    }
}

fn leads_to_protected_entrance(site: &Site, run: &Run) -> bool {
    run.sections.iter().any(|section| match section.to {
        RunStop::Station(station) => match site.stations[station].owner {
            StationOwner::Entrance(entrance) => site.entrances[entrance].surge_protection.is_some(),
            _ => false,
        },
        _ => false,
    })
}

/// Whether some section leads out of one known building into another.
fn joins_buildings(site: &Site, run: &Run) -> bool {
    let stops = run.sections.iter().map(|section| site.stop_place(section.to));
    let places = std::iter::once(site.start_place(run.from)).chain(stops);
    let mut buildings: Vec<usize> = places.filter_map(|place: &Place| place.building).collect();
    buildings.dedup();
    buildings.len() > 1
}
