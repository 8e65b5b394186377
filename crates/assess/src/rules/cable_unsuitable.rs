//! `cable-unsuitable`

use super::limit::grade;
use crate::rule::{Context, Judgement, finding, finding_as, rule};
use latchline_finding::{Both, CodeDoc, Provenance, Severity};
use latchline_site::catalogue::Environment;
use latchline_site::model::{RunStop, Site};
use latchline_words::terms::Term;

rule! {
    pub static CABLE_UNSUITABLE: "cable-unsuitable", Error or Warning or Advice, check
}

fn word(environment: Environment) -> Term {
    match environment {
        Environment::Indoors => Term::Indoors,
        Environment::Outdoors => Term::Outdoors,
        Environment::Buried => Term::Buried,
    }
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Judgement) {
    let site = context.site;
    for run in &site.runs {
        let cable = site.cable(run);
        let allowed = &cable.environments;
        let environment = run.environment.value;
        let suits = |environment| allowed.value.contains(&environment);
        let is_stated = run.environment.provenance != Provenance::Assumed;
        let (severity, origin, environment, stop) = if is_stated || !suits(environment) {
            if suits(environment) {
                continue;
            }
            let origin = if is_stated { run.environment.origin.clone() } else { run.cable.origin.clone() };
            (Severity::Error, origin, environment, None)
        } else {
            let outdoors = run.sections.iter().find_map(|section| {
                let away = away_from_buildings(site, section.to)?;
                Some((section, away))
            });
            let Some((section, away)) = outdoors.filter(|_| !suits(Environment::Outdoors)) else { continue };
            let severity = if away { Severity::Warning } else { Severity::Advice };
            (severity, section.to_origin.clone(), Environment::Outdoors, Some(section.to))
        };
        let listed: Vec<Both> = allowed.value.iter().map(|environment| word(*environment).both()).collect();
        let mut found = match severity {
            Severity::Error => finding(doc, origin),
            other => finding_as(doc, other, origin),
        };
        found = found
            .about(run.id.clone())
            .with("run", &run.id)
            .with("cable", cable.head.name.as_str())
            .with("environment", word(environment).both())
            .with("allowed", listed)
            .also_at("limit", allowed.origin.clone())
            .graded(grade(&cable.head.name, "environments", allowed));
        if let Some(stop) = stop {
            found = found.with("stop", site.stop_id(stop));
        }
        report.push(found);
    }
    lock_cables(doc, context, report);
}

/// Cables to the locks of doors that are outdoors: how much of one is in the open is not known, so that it is a warning; at the wall of a
/// building, where it comes from inside, it is advice, as for runs.
fn lock_cables(doc: &CodeDoc, context: &Context<'_>, report: &mut Judgement) {
    let site = context.site;
    for entrance in site.entrances.iter().filter(|entrance| entrance.place.outdoors) {
        for used in &entrance.locks {
            let Some(name) = &used.cable else { continue };
            let Some(cable) = site.catalogue.cables.get(&name.value) else { continue };
            let allowed = &cable.environments;
            if allowed.value.contains(&Environment::Outdoors) {
                continue;
            }
            let listed: Vec<Both> =
                allowed.value.iter().map(|environment| word(*environment).both()).collect();
            let away = entrance.place.building.is_none();
            let severity = if away { Severity::Warning } else { Severity::Advice };
            let found = finding_as(doc, severity, name.origin.clone())
                .about(entrance.id.clone())
                .with("cable", cable.head.name.as_str())
                .with("lock", used.model.value.as_str())
                .with("door", &entrance.id)
                .with("environment", word(Environment::Outdoors).both())
                .with("allowed", listed)
                .also_at("limit", allowed.origin.clone())
                .graded(grade(&cable.head.name, "environments", allowed));
            report.push(found);
        }
    }
}

/// For a stop that is outdoors: whether it stands away from all buildings.
fn away_from_buildings(site: &Site, stop: RunStop) -> Option<bool> {
    let place = match stop {
        RunStop::Station(station) => site.station_place(&site.stations[station]),
        RunStop::BoxInput(index) | RunStop::BoxLink(index) => &site.boxes[index].place,
    };
    place.outdoors.then_some(place.building.is_none())
}
