//! How findings and jobs are named on the command line.

use crate::refusal::Result;
use latchline_words::refusals::ArgumentRefusal;

/// How a job is asked for.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum JobName {
    /// Its number in the list of check, from 1.
    Number(usize),
    /// A finding that it mends: code, and whom it is about, or several of the same; and the kind of change that is wanted.
    Finding { code: String, elements: Vec<String>, kind: Option<String> },
}

/// 3 of "J3" or "3"; "voltage-too-low", "A-4" and "doubled-pair" of "voltage-too-low:A-4=doubled-pair".
pub(super) fn job_name(text: &str) -> Result<JobName> {
    if let Some(number) = named_number(text, 'J') {
        return Ok(JobName::Number(number));
    }
    if let Some(number) = named_number(text, 'F') {
        return Err(ArgumentRefusal::FindingNotJob { number }.into());
    }
    let (finding, kind) = match text.rsplit_once('=') {
        Some((finding, kind)) => (finding, Some(kind.to_string())),
        None => (text, None),
    };
    let (code, elements) = match finding.split_once(':') {
        Some((code, elements)) => (code, elements.split(',').map(str::to_string).collect()),
        None => (finding, Vec::new()),
    };
    match latchline_words::codes::of(code) {
        Some(_) => Ok(JobName::Finding { code: code.to_string(), elements, kind }),
        None => Err(ArgumentRefusal::NoJobName { text }.into()),
    }
}

/// The number in the name of a finding: 3 of "F3" or "3".
pub(super) fn finding_name(text: &str) -> Result<usize> {
    named_number(text, 'F').ok_or_else(|| {
        match named_number(text, 'J') {
            Some(number) => ArgumentRefusal::JobNotFinding { number },
            None => ArgumentRefusal::NoFindingName { text },
        }
        .into()
    })
}

fn named_number(text: &str, letter: char) -> Option<usize> {
    let text = text.trim();
    let number = text.strip_prefix([letter, letter.to_ascii_lowercase()]).unwrap_or(text);
    number.parse().ok()
}
