//! The revisions of the plan: a mark stands for one state, and the oldest comes first.

use super::resolver::{Resolver, STATED};
use crate::codes;
use crate::model::RevisionEntry;
use crate::parse::{Record, clip};
use latchline_finding::{Finding, Severity};
use latchline_words::reading::BadName;
use std::collections::BTreeMap;

/// Most characters of a mark, which stands in title blocks and feet.
const LONGEST_MARK: usize = 40;

impl Resolver<'_> {
    pub(super) fn revisions(&mut self, file: &Record<'_>) -> Vec<RevisionEntry> {
        let revisions: Vec<RevisionEntry> =
            file.tables("revision").filter_map(|entry| RevisionEntry::read(entry, STATED)).collect();
        let mut first_of: BTreeMap<&str, &RevisionEntry> = BTreeMap::new();
        let mut latest: Option<&RevisionEntry> = None;
        for revision in &revisions {
            let mark = revision.mark.value.trim();
            let reason = match mark.chars().count() {
                0 => Some(BadName::Empty),
                length if length > LONGEST_MARK => Some(BadName::TooLong),
                _ => None,
            };
            if let Some(reason) = reason {
                let finding = self
                    .report(codes::BAD_NAME, revision.mark.origin.clone())
                    .with("name", clip(&revision.mark.value))
                    .with("reason", reason.both());
                self.findings.push(finding);
                continue;
            }
            // Neither touches what the plan says of the building: it can be judged all the same.
            if let Some(first) = first_of.get(mark) {
                let finding =
                    Finding::new(codes::REVISION_TWICE, Severity::Warning, revision.mark.origin.clone())
                        .with("mark", clip(mark))
                        .also_at("first-defined-here", first.mark.origin.clone());
                self.findings.push(finding);
            }
            first_of.entry(mark).or_insert(revision);
            // Dates are year-month-day, so that their order is that of their letters.
            if let Some(latest) = latest.filter(|latest| latest.date.value > revision.date.value) {
                let finding = Finding::new(
                    codes::REVISIONS_OUT_OF_ORDER,
                    Severity::Warning,
                    revision.date.origin.clone(),
                )
                .with("mark", clip(mark))
                .with("date", revision.date.value.clone())
                .with("other", clip(&latest.mark.value))
                .with("other_date", latest.date.value.clone())
                .also_at("first-defined-here", latest.date.origin.clone());
                self.findings.push(finding);
            }
            if latest.is_none_or(|latest| latest.date.value <= revision.date.value) {
                latest = Some(revision);
            }
        }
        revisions
    }
}
