//! `latchline check`: the main job.

use super::locale::LanguageArguments;
use crate::failure::{self, UNUSABLE};
use crate::files::ResultFile;
use crate::load::Opened;
use crate::refusal::Result;
use crate::surroundings::{Colour, Surroundings};
use crate::{codes, load, output};
use clap::{Args, ValueEnum};
use latchline_assess::jobs::Jobs;
use latchline_assess::physics_summary::ToleranceOptions;
use latchline_assess::{Assessment, GivenUp};
use latchline_finding::{Finding, Severity};
use latchline_report::{Detail, Look, Report, json, json_sheets, sarif, sheet, short, text};
use latchline_session::View;
use latchline_words::refusals::{FileRefusal, NameRefusal, ResultRefusal};
use latchline_words::report::Remark;
use std::io::{Read, Write};
use std::path::{Path, PathBuf};
use std::process::ExitCode;
use std::time::{Duration, SystemTime};

/// How often `--watch` looks at the files.
const WATCH_INTERVAL: Duration = Duration::from_millis(200);

/// Check a site: does it work in every operating state, where not, and by how much
///
/// Prints the verdict, what is to be done, the worst danger first, a table of every supply's runs with the worst
/// device of each, and what was found. Exit status: 0 clean or accepted, 1 a finding of at least the
/// severity of --fail-on, 2 the site cannot be used.
#[derive(Debug, Args)]
pub struct CheckArguments {
    /// The site file; `-` reads standard input
    pub site: PathBuf,
    /// Check again whenever the site file or one of its catalogues changes
    #[arg(long)]
    watch: bool,
    /// Form of the result
    #[arg(long, value_enum, default_value_t = Format::Text)]
    format: Format,
    /// Print the sheet of this entrance: lock voltage, wiring, times, cautions
    #[arg(long, value_name = "NAME", conflicts_with = "supply", value_parser = clap::builder::NonEmptyStringValueParser::new())]
    door: Option<String>,
    /// Print the sheet of this supply: battery hours, mains current, heat
    #[arg(long, value_name = "NAME", value_parser = clap::builder::NonEmptyStringValueParser::new())]
    supply: Option<String>,
    /// Try random tolerances this often: how likely the worst device of every supply falls below its limit
    #[arg(long, value_name = "N")]
    samples: Option<usize>,
    /// Seed of the random tolerances; the same seed gives the same result
    #[arg(long, value_name = "S", default_value_t = 1, requires = "samples")]
    seed: u64,
    /// Least severity that gives exit status 1; what cannot be judged counts as a warning
    #[arg(long, value_enum, value_name = "SEVERITY", default_value_t = FailOn::Error)]
    fail_on: FailOn,
    #[command(flatten)]
    language: LanguageArguments,
    /// Show all runs, every finding with the lines of the files that it points at, and every assumed value
    #[arg(long)]
    lines: bool,
    /// When to use colour in text
    #[arg(long, value_enum, value_name = "WHEN", default_value_t = Colour::Auto)]
    color: Colour,
    #[command(flatten)]
    result: ResultFile,
}

/// Form of the result.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Format {
    /// For a person
    Text,
    /// One line per finding
    Short,
    /// For programs; its form: latchline schema check
    Json,
    /// SARIF 2.1.0, for code review tools
    Sarif,
}

/// Least severity that fails.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum FailOn {
    /// Errors only
    Error,
    /// Warnings and errors
    Warning,
    /// Any finding
    Advice,
}

/// One sheet instead of the whole report.
#[derive(Clone, Copy)]
enum Sheet<'a> {
    /// Of the entrance with this name.
    Door(&'a str),
    /// Of the supply with this name.
    Supply(&'a str),
}

/// What the arguments mean.
struct Job<'a> {
    site: &'a Path,
    format: Format,
    sheet: Option<Sheet<'a>>,
    threshold: Severity,
    samples: Option<ToleranceOptions>,
    look: Look,
    detail: Detail,
    result: &'a ResultFile,
    /// Tells whoever watches what takes a while.
    working: &'a dyn Fn(&str),
}

/// Runs the command.
///
/// # Errors
/// If a file cannot be read or the result not be written.
pub fn run(
    arguments: &CheckArguments,
    surroundings: &Surroundings,
    input: &mut dyn Read,
    output: &mut dyn Write,
) -> Result<ExitCode> {
    arguments.result.refuse(&[&arguments.site])?;
    let is_sheet = arguments.door.is_some() || arguments.supply.is_some();
    if is_sheet && !matches!(arguments.format, Format::Text | Format::Json) {
        return Err(ResultRefusal::SheetForm.into());
    }
    let job = Job {
        site: &arguments.site,
        format: arguments.format,
        sheet: match (&arguments.door, &arguments.supply) {
            (Some(name), _) => Some(Sheet::Door(name)),
            (None, Some(name)) => Some(Sheet::Supply(name)),
            (None, None) => None,
        },
        threshold: match arguments.fail_on {
            FailOn::Error => Severity::Error,
            FailOn::Warning => Severity::Warning,
            FailOn::Advice => Severity::Advice,
        },
        samples: arguments.samples.map(|samples| ToleranceOptions { samples, seed: arguments.seed }),
        look: surroundings
            .look(arguments.color, arguments.result.is_named())
            .in_language(arguments.language.language()),
        detail: if arguments.lines { Detail::Lines } else { Detail::FirstPage },
        result: &arguments.result,
        working: &|what| surroundings.working(what),
    };
    if !arguments.watch {
        return Ok(once(&job, None, input, output)?.status);
    }
    if job.site == Path::new("-") {
        return Err(FileRefusal::InputNotWatched.into());
    }
    watch(&job, surroundings, output)
}

/// What one check gave.
struct Checked {
    status: ExitCode,
    /// The result as it was written.
    text: String,
    /// The files that it depends on.
    files: Vec<PathBuf>,
}

/// Checks once; `before` is what an earlier check of this run wrote.
fn once(
    job: &Job<'_>,
    before: Option<&str>,
    input: &mut dyn Read,
    output: &mut dyn Write,
) -> Result<Checked> {
    let Opened { session, files, .. } = load::open(job.site, input)?;
    let view = session.view();
    let opening = opening(&view, job)?;
    if !opening.is_empty() {
        output::put(&opening, output)?;
        if view.assessment()?.is_some_and(|found| found.findings.iter().any(Finding::is_to_be_mended)) {
            (job.working)(&Remark::Seeking.say(job.look.language));
        }
    }
    let (found, jobs) = asked(&view, job.format, job.sheet.is_some())?;
    let mut assessment = found.cloned();
    if let (Some(assessment), Some(options)) = (&mut assessment, job.samples)
        && let Some(tolerance) = view.tolerance(options)?
    {
        assessment.tolerance = tolerance?;
    }
    let report = report_on(&view, assessment.as_ref()).with_jobs(jobs);
    let text = match (job.sheet, &assessment) {
        (Some(wanted), Some(assessment)) => one_sheet(&report, assessment, wanted, job)?,
        // Without an assessment there is no sheet: the report says why.
        _ => match job.format {
            Format::Text => text::render(&report, &job.look, job.detail),
            Format::Short => short::render(&report, job.look.language),
            Format::Json => json::render(&report)?,
            Format::Sarif => sarif::render(&report, &working_folder())?,
        },
    };
    let rest = text.strip_prefix(&*opening).unwrap_or(&text);
    job.result.put_again(rest, &files, before, output)?;
    let status = if report.is_unusable() { UNUSABLE } else { u8::from(report.fails_at(job.threshold)) };
    Ok(Checked { status: ExitCode::from(status), text, files })
}

/// What is said before remedies are sought, which take much longer than all else; nothing where the result goes to a file or is none for a
/// reader.
fn opening(view: &View, job: &Job<'_>) -> Result<String, GivenUp> {
    // With samples there is more that may be refused.
    let is_sample = job.samples.is_some();
    if job.format != Format::Text || job.sheet.is_some() || job.result.is_named() || is_sample {
        return Ok(String::new());
    }
    let Some(assessment) = view.assessment()? else { return Ok(String::new()) };
    Ok(text::opening(&report_on(view, Some(assessment)), &job.look))
}

/// The report on a site, without its jobs.
fn report_on<'a>(view: &'a View, assessment: Option<&'a Assessment>) -> Report<'a> {
    let name = &view.sources().file(view.site_file()).name;
    let read = assessment.map_or(view.reading(), |assessment| &assessment.read);
    Report::new(name, view.sources(), read, assessment, codes::all()).of_site(view.site().map(|site| &**site))
}

/// What a form of the result needs of the site: remedies and jobs take much longer than all else, so they are sought only where they are
/// told.
fn asked(
    view: &View,
    format: Format,
    is_sheet: bool,
) -> Result<(Option<&Assessment>, Option<&Jobs>), GivenUp> {
    // One line a finding has no room for remedies, nor has a sheet of one door or supply for a reader.
    if format == Format::Short || is_sheet && format == Format::Text {
        return Ok((view.assessment()?, None));
    }
    Ok((view.remedies()?, view.jobs()?))
}

/// The sheet asked for.
fn one_sheet(
    report: &Report<'_>,
    assessment: &Assessment,
    wanted: Sheet<'_>,
    job: &Job<'_>,
) -> Result<String> {
    let is_json = matches!(job.format, Format::Json);
    let (found, name, known): (_, _, Vec<&str>) = match wanted {
        Sheet::Door(name) => {
            let known = assessment.doors.iter().map(|door| door.entrance.as_str()).collect();
            (
                if is_json { json_sheets::door(report, name)? } else { sheet::door(report, name, &job.look) },
                name,
                known,
            )
        }
        Sheet::Supply(name) => {
            let known = assessment.supply_sheets.iter().map(|supply| supply.supply.as_str()).collect();
            (
                if is_json {
                    json_sheets::supply(report, name)?
                } else {
                    sheet::supply(report, name, &job.look)
                },
                name,
                known,
            )
        }
    };
    let all = &*known.join(", ");
    found.ok_or_else(|| {
        match (wanted, known.is_empty()) {
            (Sheet::Door(_), true) => NameRefusal::NoEntranceAtAll,
            (Sheet::Supply(_), true) => NameRefusal::NoSupplyAtAll,
            (Sheet::Door(_), false) => NameRefusal::NoEntrance { name, known: all },
            (Sheet::Supply(_), false) => NameRefusal::NoSupply { name, known: all },
        }
        .into()
    })
}

/// The working folder with a final slash, so that names under it can be made relative; empty if
/// there is none.
pub(super) fn working_folder() -> String {
    std::env::current_dir().map(|folder| format!("{}/", folder.display())).unwrap_or_default()
}

/// Checks again after every change, until the reader of the output has gone.
fn watch(job: &Job<'_>, surroundings: &Surroundings, output: &mut dyn Write) -> Result<ExitCode> {
    let clears = surroundings.is_terminal && !job.result.is_named();
    let mut files = vec![job.site.to_path_buf()];
    let mut written: Option<String> = None;
    loop {
        let status;
        let before = stamps(&files);
        if clears {
            output.write_all(b"\x1b[2J\x1b[3J\x1b[H")?;
        }
        match once(job, written.as_deref(), &mut std::io::empty(), output) {
            Ok(checked) => (status, files, written) = (checked.status, checked.files, Some(checked.text)),
            // The file may be on its way: say so and look again.
            Err(error) => status = failure::report(&error, &[], job.look.language),
        }
        output.flush()?;
        if surroundings.reader_is_gone.get() {
            return Ok(status);
        }
        wait_for_change(&files, before);
    }
}

/// Returns when the files differ from `before` and have then been quiet for one interval.
fn wait_for_change(files: &[PathBuf], before: Vec<Option<Stamp>>) {
    // Files that were read for the first time have no earlier stamp: compare from now on.
    let known = if before.len() == files.len() { before } else { stamps(files) };
    let mut latest = stamps(files);
    while latest == known {
        std::thread::sleep(WATCH_INTERVAL);
        latest = stamps(files);
    }
    loop {
        std::thread::sleep(WATCH_INTERVAL);
        let now = stamps(files);
        if now == latest {
            return;
        }
        latest = now;
    }
}

/// Time of change and length.
type Stamp = (SystemTime, u64);

fn stamps(files: &[PathBuf]) -> Vec<Option<Stamp>> {
    files
        .iter()
        .map(|file| {
            let metadata = std::fs::metadata(file).ok()?;
            Some((metadata.modified().ok()?, metadata.len()))
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use latchline_finding::{Language, Sources};
    use latchline_session::{Files, Session};

    /// A session on the failing demo.
    fn failing() -> Session {
        let mut sources = Sources::new();
        let site_file = sources.add("faulty.toml", include_str!("../demo/faulty.toml"));
        let (name, catalogue) = latchline_site::builtin_catalogue();
        let catalogue = sources.add(name, catalogue);
        Session::new(Files { sources, site_file, catalogues: vec![catalogue], named: Default::default() })
    }

    /// Where no remedy is told none is sought: not one change of the site is tried. Where they are told, some are.
    #[test]
    fn remedies_are_sought_only_where_they_are_told() {
        for (format, is_sheet) in [(Format::Short, false), (Format::Short, true), (Format::Text, true)] {
            let view = failing().view();
            let (assessment, jobs) = asked(&view, format, is_sheet).unwrap();
            assert!(assessment.is_some_and(|one| !one.findings.is_empty()) && jobs.is_none());
            assert_eq!(view.work_done().trials, 0, "{format:?}");
            assert!(view.work_done().states > 0, "the count is that of this view");
        }
        // The verdict is told before.
        for language in [Language::English, Language::German] {
            let view = failing().view();
            let result = ResultFile::default();
            let job = Job {
                site: Path::new("faulty.toml"),
                format: Format::Text,
                sheet: None,
                threshold: Severity::Error,
                samples: None,
                look: Look::default().in_language(language),
                detail: Detail::FirstPage,
                result: &result,
                working: &|_| {},
            };
            let opening = opening(&view, &job).unwrap();
            assert!(opening.contains("38") && opening.contains("A-45") && view.work_done().trials == 0);
            let (found, jobs) = asked(&view, Format::Text, false).unwrap();
            let found = found.unwrap();
            let report = report_on(&view, Some(found)).with_jobs(jobs);
            assert!(text::render(&report, &job.look, job.detail).starts_with(&opening), "{opening}");
        }
        let view = failing().view();
        let (_, jobs) = asked(&view, Format::Sarif, false).unwrap();
        assert!(jobs.is_some_and(|jobs| !jobs.jobs.is_empty()) && view.work_done().trials > 0);
    }
}
