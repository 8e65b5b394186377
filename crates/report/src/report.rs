//! What every format starts from.

use crate::place::Places;
use latchline_assess::jobs::Jobs;
use latchline_assess::{Assessment, Verdict};
use latchline_finding::{CodeDoc, Finding, Severity, Sources};
use latchline_site::model::Site;
use std::cmp::Reverse;

/// The name of a site file that was read from standard input.
pub const STANDARD_INPUT: &str = "standard input";

/// Everything there is to say about one site: the assessment, or why there is none.
#[derive(Debug)]
pub struct Report<'a> {
    pub(crate) places: Places<'a>,
    pub(crate) assessment: Option<&'a Assessment>,
    pub(crate) site: Option<&'a Site>,
    /// What is to be done, if it was asked for.
    pub(crate) jobs: Option<&'a Jobs>,
    /// Standing findings met while reading the files, in the order of the files.
    pub(crate) read: Vec<&'a Finding>,
    /// Standing findings of the rules, in the order of `standing`.
    pub(crate) judged: Vec<&'a Finding>,
    /// All standing findings, worst first, then by code, element and place.
    pub(crate) standing: Vec<&'a Finding>,
    /// Accepted findings, in the same order.
    pub(crate) accepted: Vec<&'a Finding>,
    pub(crate) codes: Vec<&'static CodeDoc>,
    /// Name of the site file, for use when there is no title.
    pub(crate) name: &'a str,
}

/// How many standing findings there are of each severity.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Counts {
    /// Errors.
    pub errors: usize,
    /// Warnings.
    pub warnings: usize,
    /// Pieces of advice.
    pub advice: usize,
    /// Accepted findings of any severity.
    pub accepted: usize,
}

impl<'a> Report<'a> {
    /// A report on the site file shown as `name`: the findings met while reading it, and its
    /// assessment if it could be resolved. `codes` are all codes.
    pub fn new(
        name: &'a str,
        sources: &'a Sources,
        reading: &'a [Finding],
        assessment: Option<&'a Assessment>,
        codes: impl IntoIterator<Item = &'static CodeDoc>,
    ) -> Self {
        let judged = assessment.map_or(&[][..], |assessment| &assessment.findings);
        let mut all: Vec<&Finding> = reading.iter().chain(judged).collect();
        all.sort_by(worst_first);
        let (accepted, standing): (Vec<_>, Vec<_>) =
            all.into_iter().partition(|finding| finding.accepted.is_some());
        let mut read: Vec<&Finding> = reading.iter().filter(|finding| finding.accepted.is_none()).collect();
        // Errors first, of these broken TOML: what follows may come of it.
        let order = |finding: &Finding| {
            (Reverse(finding.severity), finding.code != latchline_site::codes::TOML_SYNTAX)
        };
        read.sort_by(|a, b| {
            (order(a), &a.origin, a.code, &a.element).cmp(&(order(b), &b.origin, b.code, &b.element))
        });
        let mut judged: Vec<&Finding> = judged.iter().filter(|finding| finding.accepted.is_none()).collect();
        judged.sort_by(worst_first);
        let codes = codes.into_iter().collect();
        Self {
            places: Places::new(sources),
            assessment,
            site: None,
            jobs: None,
            read,
            judged,
            standing,
            accepted,
            codes,
            name,
        }
    }

    /// The currency of all prices; `None` if no site is known or its catalogue names none.
    pub fn currency(&self) -> Option<&'a str> {
        self.site.map(|site| site.catalogue.currency.as_str()).filter(|word| !word.is_empty())
    }

    /// With the site itself, so that addresses can name its stations.
    #[must_use]
    pub fn of_site(mut self, site: Option<&'a Site>) -> Self {
        self.site = site;
        self
    }

    /// With what is to be done.
    #[must_use]
    pub fn with_jobs(mut self, jobs: Option<&'a Jobs>) -> Self {
        self.jobs = jobs;
        self
    }

    /// The command that makes the change of a job, by its name (J1 is the first); `None` where the site came from standard input.
    pub(crate) fn command_of_job(&self, job: &str) -> Option<String> {
        Some(format!("latchline fix {} --job {job} --write", self.file_in_command()?))
    }

    /// The site file as it is written in a command; `None` where it came from standard input.
    pub(crate) fn file_in_command(&self) -> Option<String> {
        let name = latchline_finding::shown::whole(self.name, &[]);
        let quoted = name.contains([' ', '(', ')', '&', ';', '\'']);
        (self.name != STANDARD_INPUT).then(|| if quoted { format!("\"{name}\"") } else { name.into_owned() })
    }

    /// Whether the site could not be resolved, so that nothing was judged.
    pub fn is_unusable(&self) -> bool {
        self.assessment.is_none()
    }

    /// Whether it fails: an error stands.
    pub fn fails(&self) -> bool {
        self.counts().errors > 0
            || self.assessment.is_some_and(|assessment| assessment.verdict == Verdict::Fails)
    }

    /// Whether a standing finding is at least this severe. What could not be judged counts as a
    /// warning, since it is never clean.
    pub fn fails_at(&self, threshold: Severity) -> bool {
        let not_judged = self.assessment.is_some_and(|assessment| !assessment.not_judged.is_empty());
        self.standing.iter().any(|finding| finding.severity >= threshold)
            || (not_judged && threshold <= Severity::Warning)
    }

    /// Standing findings by severity, and accepted ones.
    pub fn counts(&self) -> Counts {
        let of = |severity| self.standing.iter().filter(|finding| finding.severity == severity).count();
        Counts {
            errors: of(Severity::Error),
            warnings: of(Severity::Warning),
            advice: of(Severity::Advice),
            accepted: self.accepted.len(),
        }
    }

    /// The word of the verdict as used in JSON; "unusable" if there is none.
    pub fn verdict_word(&self) -> &'static str {
        match self.assessment {
            None => "unusable",
            // A finding met while reading may stand although the assessment itself holds.
            Some(_) if self.counts().errors > 0 => Verdict::Fails.word(),
            Some(assessment) => assessment.verdict.word(),
        }
    }

    /// Title of the site, or the name of its file.
    pub(crate) fn title(&self) -> String {
        let title = self.assessment.map(|assessment| assessment.title.as_str()).unwrap_or_default();
        latchline_finding::shown::name(if title.is_empty() { self.name } else { title }).into_owned()
    }
}

/// Worst first, then by code, element and place.
fn worst_first(a: &&Finding, b: &&Finding) -> std::cmp::Ordering {
    (b.severity, a.code, &a.element, &a.origin).cmp(&(a.severity, b.code, &b.element, &b.origin))
}
