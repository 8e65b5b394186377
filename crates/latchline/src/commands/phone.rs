//! `latchline phone`: the page for the site, as one file.

use super::locale::LocaleArguments;
use crate::files::{self, MayReplace, refuse_inputs, refuse_standing};
use crate::load;
use crate::refusal::{Refused, Result};
use crate::surroundings::{Colour, Surroundings};
use clap::Args;
use latchline_finding::shown;
use latchline_handover::{Options, PackInput, Subject};
use latchline_locate::FaultTable;
use latchline_words::commands::PhoneWords;
use latchline_words::refusals::ResultRefusal;
use std::io::{Read, Write};
use std::path::PathBuf;
use std::process::ExitCode;

/// Write the page that installers use on the phone: one file that works without signal
///
/// The page leads through the commissioning sheets of the pack step by step, shows what to set and to wire, and judges each
/// reading at once. It needs no server and asks nobody: send the file to the phone and open it there. What is keyed in stays
/// on the phone until it is exported; `latchline readings` takes the exported files back.
///
/// Exit status: 0 written, whatever the verdict (a site with errors says so on the page); 2 the site cannot be used or the
/// file not be written.
#[derive(Debug, Args)]
pub struct PhoneArguments {
    /// The site file; `-` reads standard input
    site: PathBuf,
    /// The file to write
    #[arg(long, short, value_name = "FILE.html")]
    output: PathBuf,
    #[command(flatten)]
    locale: LocaleArguments,
    /// The revision to show [default: the last that the site file states, else the first eight digits of the hash of the input]
    #[arg(long, value_name = "TEXT")]
    revision: Option<String>,
    /// Replace a file that exists, even if it is no page of an earlier run
    #[arg(long)]
    force: bool,
}

/// Runs the command.
///
/// # Errors
/// If a file cannot be read or the page not be written.
pub fn run(
    arguments: &PhoneArguments,
    surroundings: &Surroundings,
    input: &mut dyn Read,
    output: &mut dyn Write,
) -> Result<ExitCode> {
    let locale = arguments.locale.locale();
    let may_replace = if arguments.force { MayReplace::Anything } else { MayReplace::OwnResult };
    refuse_inputs(&[&arguments.site], &arguments.output)?;
    refuse_standing(&arguments.output, may_replace)?;
    let opened = load::open(&arguments.site, input)?;
    let view = opened.session.view();
    let (Some(site), Some(assessment), Some(readings)) = (view.site(), view.assessment()?, view.readings()?)
    else {
        return super::refuse(&view, &surroundings.look(Colour::Never, false).in_language(locale.language));
    };
    let stamp = load::stamp(&view, arguments.revision.clone(), None);
    let options = Options { locale, ..Options::default() };
    let reading_findings = &assessment.read;
    let cut_list = &[];
    let faults = FaultTable::of_site(site, &readings);
    let given = PackInput {
        site,
        assessment,
        readings: &readings,
        cut_list,
        reading_findings,
        faults: Some(&faults),
    };
    let plan = latchline_phone::WorkPlan::new(&Subject::new(&given, &options, &stamp));
    let page = latchline_phone::html(&plan).refused(|| ResultRefusal::NoPage)?;
    refuse_inputs(&opened.files, &arguments.output)?;
    files::write(&arguments.output, page.as_bytes(), may_replace)?;
    let (file, steps) = (&*shown::path(&arguments.output), plan.steps().count());
    let kilobytes = page.len().div_ceil(1000);
    writeln!(output, "{}", PhoneWords::Wrote { file, steps, kilobytes }.say(locale.language))?;
    Ok(ExitCode::SUCCESS)
}
