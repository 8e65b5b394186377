//! The codes of all findings, and the nearest to a misspelt one.

use anyhow::{Result, anyhow};
use latchline_finding::{CodeDoc, Language};

/// All codes in alphabetical order.
pub fn all() -> Vec<&'static CodeDoc> {
    let mut codes: Vec<&'static CodeDoc> =
        latchline_assess::codes().chain(latchline_survey::codes::CODES).collect();
    codes.sort_by_key(|doc| doc.code);
    codes
}

/// The code with this name.
///
/// # Errors
/// If there is none; the message names the nearest.
pub fn find(code: &str) -> Result<&'static CodeDoc> {
    find_or(code, "code", "all codes: latchline explain")
}

/// The same where a symptom may be told in place of a code.
///
/// # Errors
/// If there is none; the message names the nearest.
pub fn find_for_symptom(code: &str) -> Result<&'static CodeDoc> {
    let symptoms: Vec<&str> =
        latchline_words::symptoms::all().iter().map(|one| one.short(Language::English)).collect();
    let hint = format!("symptoms: {}; all codes: latchline explain", symptoms.join(", "));
    find_or(code, "code and no symptom", &hint)
}

fn find_or(code: &str, kind: &str, otherwise: &str) -> Result<&'static CodeDoc> {
    let codes = all();
    if let Some(found) = codes.iter().find(|doc| doc.code == code) {
        return Ok(found);
    }
    let mut nearest: Vec<(f64, &str)> =
        codes.iter().map(|doc| (-strsim::jaro_winkler(code, doc.code.as_str()), doc.code.as_str())).collect();
    nearest.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(b.1)));
    let nearest: Vec<&str> =
        nearest.iter().filter(|(distance, _)| *distance < -0.75).take(3).map(|(_, code)| *code).collect();
    let hint = match nearest.as_slice() {
        [] => String::from(otherwise),
        near => format!("did you mean {}?", near.join(" or ")),
    };
    Err(anyhow!(hint).context(format!("there is no {kind} \"{code}\"")))
}
