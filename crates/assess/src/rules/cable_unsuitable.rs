//! `cable-unsuitable`

use super::limit::grade;
use crate::rule::{Context, Judgement, finding, finding_as, rule};
use latchline_finding::{Both, CodeDoc, Severity};
use latchline_site::catalogue::Environment;
use latchline_site::outdoors;
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
        let is_stated = outdoors::is_stated(run);
        let mut other = None;
        let (severity, origin, environment, stop) = if is_stated || !suits(environment) {
            if suits(environment) {
                continue;
            }
            let origin = if is_stated { run.environment.origin.clone() } else { run.cable.origin.clone() };
            (Severity::Error, origin, environment, None)
        } else {
            let in_the_open = outdoors::section_outdoors(site, run)
                .filter(|_| !suits(Environment::Outdoors))
                .map(|(section, away)| (section, if away { Severity::Warning } else { Severity::Advice }));
            let between = || {
                let (section, building) = outdoors::section_between_buildings(site, run)?;
                let suits_between = suits(Environment::Outdoors) || suits(Environment::Buried);
                (!suits_between).then_some((section, building))
            };
            let (section, severity) = match (in_the_open, between()) {
                (Some(in_the_open), _) => in_the_open,
                (None, Some((section, building))) => {
                    other = Some(site.buildings[building].id.clone());
                    (section, Severity::Warning)
                }
                (None, None) => continue,
            };
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
        if let Some(other) = other {
            found = found.with("other", other);
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
            if outdoors::is_made_for_door(entrance, cable) {
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
