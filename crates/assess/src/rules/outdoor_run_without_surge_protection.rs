//! `outdoor-run-without-surge-protection`

use super::limit::LENGTH_ROUNDING_M;
use crate::rule::{Context, Judgement, finding, finding_as, rule};
use latchline_finding::{CodeDoc, Figure, Severity, Unit};
use latchline_site::catalogue::Environment;
use latchline_site::model::{Run, Site};
use latchline_site::outdoors::{leaves_its_building, section_outdoors};
use latchline_site::protectors::protected_entrance;

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
            Environment::Indoors if leaves_its_building(site, run) => "between-buildings",
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
    run.sections.iter().any(|section| protected_entrance(site, section.to).is_some())
}
