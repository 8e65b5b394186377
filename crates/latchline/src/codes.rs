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
    let hint = match nearest(code).as_slice() {
        [] => String::from("all codes: latchline explain"),
        near => format!("did you mean {}?", near.join(" or ")),
    };
    let found = all().into_iter().find(|doc| doc.code == code);
    found.ok_or_else(|| anyhow!(hint).context(format!("there is no code \"{code}\"")))
}

/// The same where a symptom may be told in place of a code.
///
/// # Errors
/// If there is none; the message names the nearest.
pub fn find_for_symptom(code: &str) -> Result<&'static CodeDoc> {
    let symptoms: Vec<&str> =
        latchline_words::symptoms::all().iter().map(|one| one.short(Language::English)).collect();
    let known = format!("symptoms: {}; all codes: latchline explain", symptoms.join(", "));
    let hint = match nearest(code).as_slice() {
        [] => known,
        // A slip in a code; symptoms are told in words.
        near if code.contains('-') => format!("did you mean {}?", near.join(" or ")),
        near => format!("did you mean {}? Or {known}", near.join(" or ")),
    };
    let found = all().into_iter().find(|doc| doc.code == code);
    found.ok_or_else(|| anyhow!(hint).context(format!("there is no code and no symptom \"{code}\"")))
}

/// The codes that are spelt most like this one; none that is not much like it.
fn nearest(code: &str) -> Vec<&'static str> {
    let mut nearest: Vec<(f64, &str)> =
        all().iter().map(|doc| (-strsim::jaro_winkler(code, doc.code.as_str()), doc.code.as_str())).collect();
    nearest.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(b.1)));
    nearest.iter().filter(|(distance, _)| *distance < -0.75).take(3).map(|(_, code)| *code).collect()
}
