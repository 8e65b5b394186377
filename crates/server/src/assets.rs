//! Styles and scripts, embedded. Their addresses carry a hash of what is in them, so that a browser may keep them for good.

use crate::refused::Refused;
use axum::extract::Path;
use axum::http::header::{CACHE_CONTROL, CONTENT_TYPE};
use axum::response::{IntoResponse, Response};
use std::hash::{Hash, Hasher};

const STYLE: &str = "text/css; charset=utf-8";
const SCRIPT: &str = "text/javascript; charset=utf-8";

/// Name, kind, content.
const FILES: &[(&str, &str, &str)] = &[
    ("latchline.css", STYLE, include_str!("assets/latchline.css")),
    ("office.css", STYLE, include_str!("assets/office.css")),
    ("office.js", SCRIPT, include_str!("assets/office.js")),
    ("drawing.js", SCRIPT, include_str!("assets/drawing.js")),
    ("live.js", SCRIPT, include_str!("assets/live.js")),
    ("edits.js", SCRIPT, include_str!("assets/edits.js")),
    ("table.js", SCRIPT, include_str!("assets/table.js")),
    ("typing.js", SCRIPT, include_str!("assets/typing.js")),
    ("pages.js", SCRIPT, include_str!("assets/pages.js")),
];

/// A hash of all of them: part of every address, so that modules find each other by relative names.
pub(crate) fn version() -> String {
    let mut hasher = std::hash::DefaultHasher::new();
    FILES.hash(&mut hasher);
    format!("{:016x}", hasher.finish())
}

/// The address of a file.
pub(crate) fn address(name: &str) -> String {
    format!("/assets/{}/{name}", version())
}

/// Answers with a file.
pub(crate) async fn file(Path((_, name)): Path<(String, String)>) -> Result<Response, Refused> {
    let (_, kind, text) = FILES.iter().find(|(known, _, _)| *known == name).ok_or(Refused::NotFound)?;
    let headers = [(CONTENT_TYPE, *kind), (CACHE_CONTROL, "public, max-age=31536000, immutable")];
    Ok((headers, *text).into_response())
}
