//! The codes of all findings, and the nearest to a misspelt one.

use anyhow::{Result, anyhow};
use latchline_finding::CodeDoc;
use std::sync::LazyLock;

/// Pages of the codes of the reader, in the form of all pages.
static READING: LazyLock<Vec<CodeDoc>> = LazyLock::new(|| {
    latchline_site::codes::CODES
        .iter()
        .map(|doc| CodeDoc {
            code: doc.code.as_str(),
            severity: doc.severity,
            title: doc.title,
            explanation: doc.explanation,
        })
        .collect()
});

/// All codes in alphabetical order.
pub fn all() -> Vec<&'static CodeDoc> {
    let mut codes: Vec<&'static CodeDoc> = latchline_assess::codes().chain(READING.iter()).collect();
    codes.sort_by_key(|doc| doc.code);
    codes.dedup_by_key(|doc| doc.code);
    codes
}

/// The code with this name.
///
/// # Errors
/// If there is none; the message names the nearest.
pub fn find(code: &str) -> Result<&'static CodeDoc> {
    let codes = all();
    if let Some(found) = codes.iter().find(|doc| doc.code == code) {
        return Ok(found);
    }
    let mut nearest: Vec<(f64, &str)> =
        codes.iter().map(|doc| (-strsim::jaro_winkler(code, doc.code), doc.code)).collect();
    nearest.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(b.1)));
    let nearest: Vec<&str> =
        nearest.iter().filter(|(distance, _)| *distance < -0.75).take(3).map(|(_, code)| *code).collect();
    let hint = match nearest.as_slice() {
        [] => String::from("list all with: latchline explain"),
        near => format!("did you mean {}?", near.join(" or ")),
    };
    Err(anyhow!(hint).context(format!("there is no code \"{code}\"")))
}
