//! `latchline accept`: records in the site file that a finding is known and stays.

use super::locale::LanguageArguments;
use crate::load::Opened;
use crate::refusal::{Refusal, Refused, Result};
use crate::surroundings::{Colour, Surroundings};
use crate::{codes, date, files, load};
use clap::Args;
use latchline_finding::{Change, Code, Edit, Finding, shown};
use latchline_site::edit::quoted;
use latchline_words::commands::AcceptWords;
use latchline_words::refusals::{FileRefusal, SiteRefusal};
use std::io::Write;
use std::path::PathBuf;
use std::process::ExitCode;

/// Accept a finding: it is then listed as accepted and no longer fails the check
///
/// Adds an acceptance to the site file; everything else in it stays as it is. Only what is found
/// today can be accepted.
#[derive(Debug, Args)]
pub struct AcceptArguments {
    /// The site file
    site: PathBuf,
    /// The finding's code
    code: String,
    /// The element that it is about; without one, the code is accepted everywhere
    element: Option<String>,
    /// Why it is accepted
    #[arg(long)]
    reason: String,
    /// When it was accepted, as year-month-day [default: SOURCE_DATE_EPOCH, or today]
    #[arg(long)]
    date: Option<String>,
    #[command(flatten)]
    language: LanguageArguments,
}

/// Runs the command.
///
/// # Errors
/// If the site cannot be used, nothing matches, or the file cannot be written.
pub fn run(
    arguments: &AcceptArguments,
    surroundings: &Surroundings,
    output: &mut dyn Write,
) -> Result<ExitCode> {
    let code = codes::find(&arguments.code)?.code;
    let reason = arguments.reason.trim();
    if reason.is_empty() || reason.chars().any(char::is_control) {
        return Err(SiteRefusal::ReasonNeeded.into());
    }
    let date = date::chosen(arguments.date.as_deref())?;
    load::refuse_standard_input(&arguments.site)?;
    let Opened { mut session, original, .. } = load::open(&arguments.site, &mut std::io::empty())?;
    let language = arguments.language.language();
    let view = session.view();
    let Some(assessment) = view.assessment()? else {
        return super::refuse(&view, &surroundings.look(Colour::Never, false).in_language(language));
    };
    let all = || assessment.read.iter().chain(&assessment.findings);
    let element = arguments.element.as_deref();
    let matches = |finding: &&Finding| {
        finding.code == code
            && element.is_none_or(|name| finding.element.as_ref().is_some_and(|id| id.as_str() == name))
    };
    let standing = all().filter(matches).filter(|finding| finding.accepted.is_none()).count();
    if standing == 0 {
        return Err(nothing_to_accept(all().filter(matches).count(), code, element, all()));
    }
    session
        .edit(&entry(code, element, reason, &date))
        .refused(|| FileRefusal::CannotChange { file: &arguments.site.display().to_string() }.both())?;
    files::edit(&arguments.site, &original, session.view().text())?;
    let whom = element.map(shown::name);
    let told = AcceptWords::Accepted {
        code: code.as_str(),
        element: whom.as_deref(),
        file: &shown::path(&arguments.site),
        findings: standing,
    };
    writeln!(output, "{}", told.say(language))?;
    Ok(ExitCode::SUCCESS)
}

/// The edit that adds the entry.
fn entry(code: Code, element: Option<&str>, reason: &str, date: &str) -> Edit {
    let element = element.map_or_else(String::new, |name| format!("element = {}\n", quoted(name)));
    let body =
        format!("code = {}\n{element}reason = {}\ndate = {date}\n", quoted(code.as_str()), quoted(reason));
    Edit::one(&["accept"], Change::AppendTable(body))
}

fn nothing_to_accept<'a>(
    accepted: usize,
    code: Code,
    element: Option<&str>,
    all: impl Iterator<Item = &'a Finding>,
) -> Refusal {
    let code_name = code.as_str();
    if accepted > 0 {
        return SiteRefusal::AcceptedAlready { code: code_name, element }.into();
    }
    let mut elements: Vec<&str> = all
        .filter(|finding| finding.code == code)
        .filter_map(|finding| finding.element.as_ref().map(|id| id.as_str()))
        .collect();
    elements.sort_unstable();
    elements.dedup();
    match elements.as_slice() {
        [] => SiteRefusal::NothingToAccept { code: code_name, element }.into(),
        there => SiteRefusal::NotOfThis { code: code_name, element, there: &there.join(", ") }.into(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_entry_names_code_element_reason_and_date() {
        let edit = entry(Code("thin-margin"), Some("A-1"), "known", "2026-11-02");
        let Change::AppendTable(body) = &edit.changes[0].1 else { panic!("a table is added") };
        assert_eq!(
            body,
            "code = \"thin-margin\"\nelement = \"A-1\"\nreason = \"known\"\ndate = 2026-11-02\n"
        );
    }
}
