//! From a site to its assessment.

use crate::assessing::Assessing;
use crate::assessment::Assessment;
use crate::not_judged::NotJudged;
use crate::rules::{self, Depth};
use crate::stage::Stage;
use latchline_finding::{Code, Finding};
use latchline_network::start_up::Effort;
use latchline_network::{Memory, Wanted};
use latchline_site::model::Site;

/// Judges a resolved site by every rule.
pub fn assess(site: &Site) -> Assessment {
    assess_with(site, &Memory::default())
}

/// As [`assess`], with what is remembered of other versions of the site.
pub fn assess_with(site: &Site, memory: &Memory) -> Assessment {
    Assessing::new(site, Effort::Whole, &memory.wanted(Wanted::always()))
        .into_assessment()
        .expect("work that is wanted whatever happens is not given up")
}

/// Judges a change that is only tried: gives up at the first finding that is not `allowed`, and at the first thing not judged that
/// `may_lack` does not allow. Nothing is worked out before a rule looks at it, and the rules that take longest come last, but that the rule
/// of the finding that is `wanted` gone comes before all that look at more than the wiring: most changes leave it. Calls a start-up
/// hiccuping that a longer simulation might see come to rest, and says of losses only on which side of their limits they are
/// ([`Effort::Hurried`]).
///
/// `None` also where the memory's work was given up.
pub fn assess_trial(
    site: &Site,
    memory: &Memory,
    wanted: Option<Code>,
    allowed: &dyn Fn(&Finding) -> bool,
    may_lack: &dyn Fn(&NotJudged) -> bool,
) -> Option<Assessment> {
    memory.count_trial();
    let order = rules::quickest_first(Depth::Everything, wanted);
    let assessing = as_far_as(site, Effort::Hurried, order, memory, allowed, may_lack)?;
    let assessment = assessing.into_assessment().ok()?;
    assessment.findings.iter().fold(true, |all, one| allowed(one) & all).then_some(assessment)
}

/// Whether no rule, as far as `depth` goes, finds anything on a site that is not `allowed`; as [`assess_trial`] but for the
/// simulated start, which is followed to its end.
pub fn is_allowed(site: &Site, depth: Depth, memory: &Memory, allowed: &dyn Fn(&Finding) -> bool) -> bool {
    as_far_as(site, Effort::Whole, rules::quickest_first(depth, None), memory, allowed, &|_| true).is_some()
}

/// A site assessed by some rules in their order, if everything found is allowed.
fn as_far_as<'s>(
    site: &'s Site,
    effort: Effort,
    order: Vec<usize>,
    memory: &Memory,
    allowed: &dyn Fn(&Finding) -> bool,
    may_lack: &dyn Fn(&NotJudged) -> bool,
) -> Option<Assessing<&'s Site>> {
    let assessing = Assessing::new(site, effort, memory);
    // Each finding is shown, though one is enough: whoever asks may remember them.
    let all_allowed = |findings: &[Finding]| findings.iter().fold(true, |all, one| allowed(one) & all);
    if !all_allowed(&assessing.address_report().findings) {
        return None;
    }
    for rule in order {
        let reads = rules::ALL[rule].reads();
        if reads == Some(Stage::Signal)
            && !assessing.is_in(Stage::Signal)
            && !all_allowed(&assessing.too_weak_at_longest().ok()?)
        {
            return None;
        }
        let report = assessing.report(rule).ok()?;
        if !all_allowed(&report.findings) || !report.not_judged.iter().all(may_lack) {
            return None;
        }
    }
    Some(assessing)
}
