//! Whether the cable that is in the walls can stay: what is said of the runs of a site that are marked as existing.

use latchline_assess::rules::codes as rule_codes;
use latchline_assess::rules::measured_loop_differs::is_far_off;
use latchline_assess::{Assessment, ExistingCable, ExistingRun, RunSummary, ShortApart};
use latchline_finding::{Code, ElementId, Figure, Finding, Language, Severity, Unit};
use latchline_site::codes::LENGTH_FROM_LOOP;
use latchline_site::model::Site;
use latchline_words::codes;
use latchline_words::commands::OldCableWords;
use latchline_words::figures;
use latchline_words::template::plain;
use std::cmp::Reverse;
use std::collections::BTreeSet;

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
    let first = answer.first();
    let mut says = vec![match answer.collapse() {
        Some(collapse) => format!("{collapse} {first}"),
        None => first,
    }];
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

/// What is said against a cable.
struct Against {
    /// The worse the less.
    rank: (Reverse<Severity>, Kind, usize),
    message: String,
}

/// Kinds of what stands against a cable, in the order of worth.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Kind {
    /// People: mains beside it, a short that nothing switches off.
    Danger,
    /// Too little arrives.
    Voltage,
    /// Speech or picture do not.
    Signal,
    /// It reads otherwise than it should.
    Reading,
    /// The cable, or the way that it lies.
    Cable,
}

impl Kind {
    fn of(code: Code) -> Kind {
        match code {
            rule_codes::BESIDE_MAINS | rule_codes::SHORT_CIRCUIT_NOT_CLEARED => Kind::Danger,
            rule_codes::NO_OPERATING_POINT | rule_codes::VOLTAGE_TOO_LOW | rule_codes::THIN_MARGIN => {
                Kind::Voltage
            }
            rule_codes::SIGNAL_TOO_WEAK
            | rule_codes::SIGNAL_NOTCH
            | rule_codes::SIGNAL_RIPPLE
            | rule_codes::LINE_CONSTANTS_MISSING => Kind::Signal,
            rule_codes::INSULATION_TOO_LOW
            | rule_codes::MEASURED_LOOP_DIFFERS
            | rule_codes::MEASURED_CAPACITANCE_DIFFERS => Kind::Reading,
            _ => Kind::Cable,
        }
    }
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
        // Why not is said beside the names, but where it is the sentence.
        let with_reasons = not_judged.as_ref().map(|runs| format!("{runs} ({})", self.reasons()));
        let open: Vec<&str> =
            [&unmeasured, &with_reasons].into_iter().flatten().map(String::as_str).collect();
        let open = (!open.is_empty()).then(|| open.join(", "));
        let open = open.as_deref();
        // A reading that is far off every cable says nothing of this one.
        if let Some((runs, message)) = self.far_off() {
            return say(OldCableWords::LookFirst { runs: &runs, message: &message, stay, open });
        }
        let message = &self.worst().unwrap_or_default();
        if let Some(runs) = self.named(&|one| matches!(one, ExistingCable::Fails(_))) {
            return say(OldCableWords::No { runs: &runs, message, stay, open });
        }
        if let Some(runs) = self.named(&|one| matches!(one, ExistingCable::ReadsOtherwise(_))) {
            return say(OldCableWords::LookFirst { runs: &runs, message, stay, open });
        }
        if let Some(runs) = unmeasured {
            return say(OldCableWords::MeasureFirst { runs: &runs, stay, open: with_reasons.as_deref() });
        }
        if let Some(runs) = not_judged {
            if self.open_codes().iter().all(|code| **code == LENGTH_FROM_LOOP) {
                return say(OldCableWords::LengthUnknown { runs: &runs, stay });
            }
            let titles = &self.reasons();
            return say(OldCableWords::NotJudged { runs: &runs, titles, stay });
        }
        match (stay, self.worst()) {
            (None, _) => say(OldCableWords::NoneMarked),
            (Some(runs), Some(message)) => say(OldCableWords::YesWarned { runs, message: &message }),
            (Some(runs), None) => say(OldCableWords::Yes { runs }),
        }
    }

    /// What was found where a run could not be judged.
    fn open_codes(&self) -> Vec<&Code> {
        let open = self.runs.iter().filter_map(|(_, existing)| match &existing.verdict {
            ExistingCable::NotJudged(codes) => Some(codes),
            _ => None,
        });
        open.flatten().collect()
    }

    /// The same in words, each once.
    fn reasons(&self) -> String {
        let titles = self.open_codes().into_iter().map(|code| codes::title_of(code.as_str(), self.language));
        titles.collect::<BTreeSet<String>>().into_iter().collect::<Vec<_>>().join("; ")
    }

    /// Runs of which a loop was read that no such cable has, with the first of these findings in words.
    fn far_off(&self) -> Option<(String, String)> {
        let found = |existing: &ExistingRun| {
            let against = existing.against.iter().map(|index| &self.assessment.findings[*index]);
            against.into_iter().find(|found| is_far_off(found))
        };
        let all: Vec<(String, &Finding)> = self
            .runs
            .iter()
            .filter_map(|(run, existing)| Some((plain(run.id.as_str()), found(existing)?)))
            .collect();
        let (_, first) = all.first()?;
        let message = codes::wording(first, self.language).message;
        Some((all.iter().map(|(run, _)| run.as_str()).collect::<Vec<_>>().join(", "), message))
    }

    /// That the bus as a whole collapses, and on which run, where old cable is judged apart from that.
    fn collapse(&self) -> Option<String> {
        if self.far_off().is_some() {
            return None;
        }
        let apart = self.runs.iter().find_map(|(_, existing)| existing.apart.as_ref())?;
        let names =
            |ids: &[ElementId]| ids.iter().map(|id| plain(id.as_str())).collect::<Vec<_>>().join(", ");
        let (sources, causes) = (&names(&apart.sources), &names(&apart.causes));
        Some(OldCableWords::Collapses { sources, causes }.say(self.language))
    }

    /// What stands against a run, each kind once with the first of its worst, in the order of worth; and how many there are in all.
    fn kinds(&self, existing: &ExistingRun) -> (Vec<Against>, usize) {
        let of_finding = |index: &usize| {
            let finding = &self.assessment.findings[*index];
            let message = codes::wording(finding, self.language).message;
            Against { rank: (Reverse(finding.severity), Kind::of(finding.code), *index), message }
        };
        let of_short = |short: &ShortApart| {
            let words = OldCableWords::ShortApart {
                device: &plain(short.device.as_str()),
                voltage: Figure::new(figures::down(short.voltage_v, 2), Unit::Volt),
                limit: Figure::new(short.limit_v, Unit::Volt),
            };
            Against { rank: (Reverse(Severity::Error), Kind::Voltage, 0), message: words.say(self.language) }
        };
        let short = existing.apart.as_ref().and_then(|apart| apart.short.as_ref());
        let mut all: Vec<Against> =
            short.map(of_short).into_iter().chain(existing.against.iter().map(of_finding)).collect();
        let in_all = all.len();
        all.sort_by_key(|one| one.rank);
        let mut said = BTreeSet::new();
        all.retain(|one| said.insert(one.rank.1));
        (all, in_all)
    }

    /// The message of the first of the worst that stands against old cable.
    fn worst(&self) -> Option<String> {
        let all = self.runs.iter().flat_map(|(_, existing)| self.kinds(existing).0);
        Some(all.min_by_key(|one| one.rank)?.message)
    }

    /// A line a run with what stands against it, each kind once, unless the first sentence has said it all.
    fn against(&self) -> Vec<String> {
        let with: Vec<_> = self
            .runs
            .iter()
            .map(|(run, existing)| (run, self.kinds(existing)))
            .filter(|(_, (kinds, _))| !kinds.is_empty())
            .collect();
        if let [(_, (_, 1))] = with[..] {
            return Vec::new();
        }
        let line = |(run, (kinds, in_all)): &(&&RunSummary, (Vec<Against>, usize))| {
            let messages = &kinds.iter().map(|one| one.message.as_str()).collect::<Vec<_>>().join("; ");
            let more = in_all.checked_sub(kinds.len()).filter(|more| *more > 0);
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
