//! One file a command, or one folder where a command has several parts.

pub mod accept;
pub mod addresses;
pub mod as_built;
mod as_built_workbook;
pub mod ask;
pub mod catalogue;
pub mod check;
pub mod compare;
pub mod completions;
pub(crate) mod decimal;
pub mod design;
pub mod draw;
pub mod explain;
mod filled_table;
mod filled_workbook;
pub mod fix;
pub mod flow;
mod from_phones;
pub mod headroom;
pub mod locale;
pub mod locate;
pub mod man;
pub mod new;
pub mod pack;
mod pack_carried;
mod part_named;
pub mod phone;
mod pictures;
pub mod practise;
pub mod reach;
pub mod readings;
pub mod response;
pub mod schema;
pub mod serve;
pub mod store;
mod written;

use crate::failure::UNUSABLE;
use latchline_finding::{Finding, Language, Sources};
use latchline_report::{Detail, Look, Report, text};
use latchline_session::View;
use std::io::Write as _;
use std::process::ExitCode;

/// Says on standard error why a site cannot be used, for commands whose result is something else.
///
/// # Errors
/// None; the type is that of the commands.
fn refuse(view: &View, look: &Look) -> crate::refusal::Result<ExitCode> {
    let name = &view.sources().file(view.site_file()).name;
    tell(name, view.sources(), view.reading(), look);
    Ok(ExitCode::from(UNUSABLE))
}

/// Says on standard error what was met while files were read, each at its place.
fn tell(name: &str, sources: &Sources, findings: &[Finding], look: &Look) {
    let report = Report::new(name, sources, findings, None, crate::codes::all());
    let text = text::render(&report, &Look { colour: false, ..*look }, Detail::Lines);
    // Nothing is left to tell it to if standard error is closed.
    let _ = std::io::stderr().write_all(text.as_bytes());
}

/// What is wrong, in one sentence without full stop.
pub(crate) fn sentence(finding: &Finding, language: Language) -> String {
    latchline_words::codes::wording(finding, language).message
}
