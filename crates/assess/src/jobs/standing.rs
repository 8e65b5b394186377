//! Findings that stand.

use crate::assessment::Assessment;
use latchline_finding::Finding;

/// Findings that are not accepted, with their places in the assessment.
pub(super) fn standing(assessment: &Assessment) -> impl Iterator<Item = (usize, &Finding)> {
    assessment.findings.iter().enumerate().filter(|(_, finding)| finding.accepted.is_none())
}

/// Standing findings that somebody has to do something about.
pub(super) fn to_be_mended(assessment: &Assessment) -> impl Iterator<Item = (usize, &Finding)> {
    assessment.findings.iter().enumerate().filter(|(_, finding)| finding.is_to_be_mended())
}
