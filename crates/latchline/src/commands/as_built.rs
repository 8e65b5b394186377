//! `latchline as-built`: what was measured on site becomes what the site file says.

use super::as_built_workbook::{is_workbook, of_workbook};
use super::compare::{self, Format};
use super::from_phones::{self, FromPhones, Planned};
use super::locale::LanguageArguments;
use super::readings::judged;
use crate::failure::UNUSABLE;
use crate::load::{self, Opened};
use crate::refusal::{Refused, Result};
use crate::surroundings::{Colour, Surroundings};
use crate::{codes, files};
use clap::Args;
use latchline_finding::{Edit, Locale, shown};
use latchline_phone::{AsBuilt, Comparison, WorkPlan};
use latchline_report::table::{hanging, paragraph};
use latchline_report::{Look, Report};
use latchline_words::commands::AsBuiltWords;
use latchline_words::refusals::FileRefusal;
use std::fmt::Write as _;
use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

/// Make what was measured on site what the site file says: previewed, judged again, then written
///
/// Takes the files that the phone page exports, and the workbook of the pack (XLSX) or its tables (CSV). From these it takes the as-built columns: lengths and
/// types of cables, addresses, places. From the phones' files: a loop, a capacitance or an insulation of a run, or the voltage that a supply gives
/// with nothing connected, that lies outside its predicted range becomes a change of the site file. Prints each change, and what the
/// site is then; nothing is written without --write. Voltages and currents with everything connected change no key: they tell of a fault.
///
/// Exit status: 0 the site does not fail as it was built, 1 it fails, 2 the site or none of the files could be used.
#[derive(Debug, Args)]
pub struct AsBuiltArguments {
    /// The site file
    site: PathBuf,
    /// Files that the phones exported, workbooks or tables of the pack
    #[arg(value_name = "FILE", required = true)]
    files: Vec<PathBuf>,
    /// Take over what is within its range, too: what was assumed then counts as measured
    #[arg(long)]
    every: bool,
    /// Write the changes to the site file
    #[arg(long)]
    write: bool,
    #[command(flatten)]
    language: LanguageArguments,
}

/// Runs the command.
///
/// # Errors
/// If the site or a file cannot be read, or the site file not be written.
pub fn run(
    arguments: &AsBuiltArguments,
    surroundings: &Surroundings,
    output: &mut dyn Write,
) -> Result<ExitCode> {
    let language = arguments.language.language();
    let look = surroundings.look(Colour::Auto, false).in_language(language);
    let Opened { mut session, original, .. } = load::open(&arguments.site, &mut std::io::empty())?;
    let before = session.view();
    let (workbooks, phones): (Vec<PathBuf>, Vec<PathBuf>) =
        arguments.files.iter().cloned().partition(|file| is_workbook(file));
    let mut text = String::new();
    let mut edit = Edit::default();
    if !phones.is_empty() {
        let Some(Planned { site, plan, options }) = from_phones::plan(&before, language)? else {
            return super::refuse(&before, &look);
        };
        let Some(FromPhones { merged, .. }) = from_phones::take(&phones, &plan, language)? else {
            return Ok(ExitCode::from(UNUSABLE));
        };
        let found = Comparison::new(&plan, &merged);
        let built = AsBuilt::new(site, &found, arguments.every);
        text.push_str(&of_phones(&plan, &found, &built, options.locale, &look));
        edit = edit.then(built.edit());
    }
    for file in &workbooks {
        if before.site().is_none() {
            return super::refuse(&before, &look);
        }
        let Some((words, of_workbook)) = of_workbook(file, &before, arguments.every, &look)? else {
            return Ok(ExitCode::from(UNUSABLE));
        };
        if !text.is_empty() {
            text.push('\n');
        }
        text.push_str(&words);
        edit = edit.then(of_workbook);
    }
    if edit.changes.is_empty() {
        crate::output::put(&text, output)?;
        let assessment = before.assessment()?;
        let name = &before.sources().file(before.site_file()).name;
        let report = Report::new(name, before.sources(), before.reading(), assessment, codes::all());
        return Ok(ExitCode::from(u8::from(report.fails())));
    }
    session
        .edit(&edit)
        .refused(|| FileRefusal::CannotChange { file: &arguments.site.display().to_string() }.both())?;
    let after = session.view();
    let Some((compared, fails)) = compare::between(&before, &after, Format::Text, &look)? else {
        crate::output::put(&text, output)?;
        return super::refuse(&after, &look);
    };
    if !phones.is_empty() {
        let _ = write!(text, "\n{}", paragraph(&AsBuiltWords::CauseFirst.say(language), 0, look.width));
    }
    let _ = write!(text, "\n{compared}\n");
    if arguments.write {
        files::edit(&arguments.site, &original, after.text())?;
        let file = &shown::path(&arguments.site);
        text.push_str(&paragraph(&AsBuiltWords::Written { file }.say(language), 0, look.width));
    } else {
        let word = |file: &Path| shown::for_shell(&file.to_string_lossy());
        let named = arguments.files.iter().map(|file| word(file)).collect::<Vec<_>>().join(" ");
        let every = if arguments.every { " --every" } else { "" };
        let command = &format!("latchline as-built {} {named}{every} --write", word(&arguments.site));
        text.push_str(&paragraph(&AsBuiltWords::NotWritten { command }.say(language), 0, look.width));
    }
    crate::output::put(&text, output)?;
    Ok(ExitCode::from(u8::from(fails)))
}

/// What the files of the phones make of the site file, in words.
fn of_phones(
    plan: &WorkPlan,
    found: &Comparison<'_>,
    built: &AsBuilt<'_>,
    locale: Locale,
    look: &Look,
) -> String {
    let language = look.language;
    let (title, revision) = (&*shown::name(&plan.site), &*shown::name(&plan.revision));
    let head = match built.corrections.len() {
        0 => AsBuiltWords::Nothing { site: title, revision }.say(language),
        corrections => AsBuiltWords::Head { site: title, revision, corrections }.say(language),
    };
    let mut text = paragraph(&head, 0, look.width);
    let line =
        |text: &mut String, words: &str| text.push_str(&hanging("  ", &shown::prose(words), look.width));
    for one in &built.corrections {
        line(&mut text, &judged(plan, &one.judgement, locale));
        let sets = AsBuiltWords::Sets { path: &one.path.join("."), value: &one.value }.say(language);
        text.push_str(&hanging("    ", &shown::prose(&sets), look.width));
    }
    for (path, readings) in &built.disagreeing {
        let _ = write!(
            text,
            "\n{}",
            paragraph(&AsBuiltWords::Disagree { path: &path.join(".") }.say(language), 0, look.width)
        );
        readings.iter().for_each(|one| line(&mut text, &judged(plan, one, locale)));
    }
    if !built.left.is_empty() {
        let left = AsBuiltWords::Left { count: built.left.len() }.say(language);
        let _ = write!(text, "\n{}", paragraph(&left, 0, look.width));
        built.left.iter().for_each(|one| line(&mut text, &judged(plan, one, locale)));
    }
    for (count, words) in [
        (found.not_of_this_plan.len(), AsBuiltWords::OtherRevision { count: found.not_of_this_plan.len() }),
        (found.conflicts.len(), AsBuiltWords::Unsettled { count: found.conflicts.len() }),
    ] {
        if count > 0 {
            let _ = write!(text, "\n{}", paragraph(&words.say(language), 0, look.width));
        }
    }
    text
}
