//! Whether the cable that is in the walls can stay: what is said of the runs of a site that are marked as existing.

use latchline_assess::{Assessment, ExistingCable, ExistingRun, RunSummary};
use latchline_finding::{Language, Severity};
use latchline_site::model::Site;
use latchline_words::codes;
use latchline_words::commands::OldCableWords;
use latchline_words::template::plain;
use std::collections::BTreeSet;

/// Findings against one run that are said in full: the worst.
const MOST_SAID: usize = 1;

/// The old runs of a site with what is said of them.
#[derive(Debug, Clone, PartialEq)]
pub struct OldCable<'a> {
    /// Those that are marked as existing, in file order.
    pub runs: Vec<(&'a RunSummary, &'a ExistingRun)>,
    /// Whether all of them can stay, warnings or not, but for readings that are not as they should be; never without one.
    pub can_stay: bool,
    /// Errors of the site that do not concern old cable.
    pub other_errors: usize,
    /// Sentences, the one to say first.
    pub says: Vec<String>,
}

/// Which old cables can stay.
pub fn old_cable<'a>(site: &Site, assessment: &'a Assessment, language: Language) -> OldCable<'a> {
    let runs: Vec<(&RunSummary, &ExistingRun)> =
        assessment.runs.iter().filter_map(|run| Some((run, run.existing.as_ref()?))).collect();
    let against: BTreeSet<usize> =
        runs.iter().flat_map(|(_, existing)| existing.against.iter().copied()).collect();
    let is_other_error = |index: &usize| {
        let finding = &assessment.findings[*index];
        finding.severity == Severity::Error && finding.accepted.is_none() && !against.contains(index)
    };
    let other_errors = (0..assessment.findings.len()).filter(is_other_error).count();
    let answer = Answer { assessment, runs: &runs, language };
    let mut says = vec![answer.first()];
    says.extend(answer.against());
    says.extend(answer.not_measured(site));
    if other_errors > 0 {
        says.push(OldCableWords::OtherErrors { errors: other_errors }.say(language));
    }
    let can_stay = !runs.is_empty() && runs.iter().all(|(_, existing)| stays(&existing.verdict));
    OldCable { can_stay, other_errors, says, runs }
}

fn stays(verdict: &ExistingCable) -> bool {
    matches!(verdict, ExistingCable::CanStay | ExistingCable::Warned(_))
}

struct Answer<'a> {
    assessment: &'a Assessment,
    runs: &'a [(&'a RunSummary, &'a ExistingRun)],
    language: Language,
}

impl Answer<'_> {
    /// Names of the runs of which this holds; `None` where there is none.
    fn named(&self, is_it: &dyn Fn(&ExistingCable) -> bool) -> Option<String> {
        let names = self.runs.iter().filter(|(_, existing)| is_it(&existing.verdict));
        let names: Vec<String> = names.map(|(run, _)| plain(run.id.as_str())).collect();
        (!names.is_empty()).then(|| names.join(", "))
    }

    /// The sentence to say.
    fn first(&self) -> String {
        let say = |words: OldCableWords<'_>| words.say(self.language);
        let stay = self.named(&stays);
        let stay = stay.as_deref();
        let unmeasured = self.named(&|one| *one == ExistingCable::CanStayIfMeasured);
        let not_judged = self.named(&|one| matches!(one, ExistingCable::NotJudged(_)));
        let open: Vec<&str> = [&unmeasured, &not_judged].into_iter().flatten().map(String::as_str).collect();
        let open = (!open.is_empty()).then(|| open.join(", "));
        let open = open.as_deref();
        let message = &self.worst().unwrap_or_default();
        if let Some(runs) = self.named(&|one| matches!(one, ExistingCable::Fails(_))) {
            return say(OldCableWords::No { runs: &runs, message, stay, open });
        }
        if let Some(runs) = self.named(&|one| matches!(one, ExistingCable::ReadsOtherwise(_))) {
            return say(OldCableWords::LookFirst { runs: &runs, message, stay, open });
        }
        if let Some(runs) = unmeasured {
            return say(OldCableWords::MeasureFirst { runs: &runs, stay, open: not_judged.as_deref() });
        }
        if let Some(runs) = not_judged {
            let open = self.runs.iter().filter_map(|(_, existing)| match &existing.verdict {
                ExistingCable::NotJudged(codes) => Some(codes),
                _ => None,
            });
            let titles: BTreeSet<String> =
                open.flatten().map(|code| codes::title_of(code.as_str(), self.language)).collect();
            let titles = &titles.into_iter().collect::<Vec<_>>().join("; ");
            return say(OldCableWords::NotJudged { runs: &runs, titles, stay });
        }
        match (stay, self.worst()) {
            (None, _) => say(OldCableWords::NoneMarked),
            (Some(runs), Some(message)) => say(OldCableWords::YesWarned { runs, message: &message }),
            (Some(runs), None) => say(OldCableWords::Yes { runs }),
        }
    }

    fn message(&self, finding: usize) -> String {
        codes::wording(&self.assessment.findings[finding], self.language).message
    }

    /// The message of the first of the worst findings that stand against old cable.
    fn worst(&self) -> Option<String> {
        let all = self.runs.iter().flat_map(|(_, existing)| existing.against.iter().copied());
        let worst =
            all.min_by_key(|index| (std::cmp::Reverse(self.assessment.findings[*index].severity), *index))?;
        Some(self.message(worst))
    }

    /// A line a run with what stands against it, unless the first sentence has said it all.
    fn against(&self) -> Vec<String> {
        let with: Vec<_> = self.runs.iter().filter(|(_, existing)| !existing.against.is_empty()).collect();
        if let [(_, only)] = with[..]
            && only.against.len() == 1
        {
            return Vec::new();
        }
        let line = |(run, existing): &&(&RunSummary, &ExistingRun)| {
            let said = existing.against.iter().take(MOST_SAID).map(|index| self.message(*index));
            let messages = &said.collect::<Vec<_>>().join("; ");
            let more = existing.against.len().checked_sub(MOST_SAID).filter(|more| *more > 0);
            OldCableWords::Against { run: &plain(run.id.as_str()), messages, more }.say(self.language)
        };
        with.iter().map(line).collect()
    }

    /// What was not measured, and how to.
    fn not_measured(&self, site: &Site) -> Option<String> {
        let without = |is_missing: &dyn Fn(&latchline_site::model::MeasuredRun) -> bool| {
            let runs = self.runs.iter().filter(|(run, _)| is_missing(&site.runs[run.run].measured));
            let names: Vec<String> = runs.map(|(run, _)| plain(run.id.as_str())).collect();
            (!names.is_empty()).then(|| names.join(", "))
        };
        let loops = without(&|measured| measured.loop_resistance.is_none());
        let insulations = without(&|measured| measured.insulation.is_none());
        if loops.is_none() && insulations.is_none() {
            return None;
        }
        let (loops, insulations) = (loops.as_deref(), insulations.as_deref());
        Some(OldCableWords::NotMeasured { loops, insulations }.say(self.language))
    }
}
