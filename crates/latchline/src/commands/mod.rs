//! One file a command.

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
mod design_change;
mod design_choice;
mod design_json;
mod design_survey;
mod design_words;
pub mod draw;
pub mod explain;
mod filled_table;
mod filled_workbook;
pub mod fix;
mod fix_unmended;
pub mod flow;
mod from_phones;
pub mod headroom;
mod headroom_more;
mod headroom_words;
pub mod locale;
pub mod locate;
mod locate_as_drawn;
mod locate_dialogue;
mod locate_drawn_reason;
mod locate_json;
mod locate_plainest;
mod locate_question;
mod locate_set_below;
mod locate_words;
pub mod man;
pub mod new;
pub mod pack;
mod pack_carried;
mod part_named;
pub mod phone;
pub mod practise;
pub mod reach;
pub mod readings;
mod readings_locate;
mod readings_words;
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
