//! From a site to its assessment.

use crate::assessing::Assessing;
use crate::assessment::Assessment;
use crate::rule::Report;
use crate::rules;
use latchline_finding::Finding;
use latchline_network::start_up::Effort;
use latchline_network::{Memory, Wanted};
use latchline_site::model::Site;

/// Judges a resolved site by every rule.
pub fn assess(site: &Site) -> Assessment {
    assess_with(site, &Memory::default())
}

/// As [`assess`], with what is remembered of other versions of the site.
pub fn assess_with(site: &Site, memory: &Memory) -> Assessment {
    whole(site, Effort::WithMending, memory)
}

/// As [`assess_with`], without looking for what would let a supply start that does not.
pub fn assess_without_mending(site: &Site, memory: &Memory) -> Assessment {
    whole(site, Effort::Whole, memory)
}

fn whole(site: &Site, effort: Effort, memory: &Memory) -> Assessment {
    Assessing::new(site, effort, &memory.wanted(Wanted::always()))
        .into_assessment()
        .expect("work that is wanted whatever happens is not given up")
}

/// Judges a change that is only tried: gives up at the first finding that is not `allowed`. Nothing is worked out before a rule looks
/// at it, and the rules that take longest come last. Does not look for what would let a supply start, and calls a start-up
/// hiccuping that a longer simulation might see come to rest ([`Effort::Hurried`]).
///
/// `None` also where the memory's work was given up.
pub fn assess_trial(site: &Site, memory: &Memory, allowed: &dyn Fn(&Finding) -> bool) -> Option<Assessment> {
    let assessing = Assessing::new(site, Effort::Hurried, memory);
    // Each finding is shown, though one is enough: whoever asks may remember them.
    let is_allowed = |report: &Report| report.findings.iter().fold(true, |all, one| allowed(one) & all);
    for rule in rules::quickest_first() {
        if !is_allowed(assessing.report(rule).ok()?) {
            return None;
        }
    }
    let assessment = assessing.into_assessment().ok()?;
    assessment.findings.iter().fold(true, |all, one| allowed(one) & all).then_some(assessment)
}
