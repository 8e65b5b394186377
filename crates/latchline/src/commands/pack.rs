//! `latchline pack`: everything that goes to site, into one folder.

use super::locale::LocaleArguments;
use super::pack_carried;
use crate::files::folder;
use crate::refusal::{Refused, Result};
use crate::surroundings::{Colour, Surroundings};
use crate::{date, load};
use clap::{Args, ValueEnum};
use latchline_finding::{Severity, shown};
use latchline_handover::{Audience, Options, PackFile, PackInput, Paper, Part};
use latchline_locate::FaultTable;
use latchline_words::commands::PackWords;
use latchline_words::refusals::{ArgumentRefusal, ResultRefusal};
use std::io::{Read, Write};
use std::path::PathBuf;
use std::process::ExitCode;

/// Write the pack: schedules, cut list, commissioning sheets, labels, workbook, drawings, PDF
///
/// Makes a folder with the whole pack, each part, and what the installer, the office and the client need as PDF, one workbook (XLSX), every table as CSV, drawings
/// as SVG and DXF, and label sheets with QR codes as PDF and SVG. The same input gives the same bytes; each file says revision and hash of its input.
/// The folder appears whole or not at all; one that an earlier run made is replaced. Exit status: 0 the
/// site has no errors, 1 it has (every sheet says so), 2 no pack was made.
#[derive(Debug, Args)]
pub struct PackArguments {
    /// The site file; `-` reads standard input
    site: PathBuf,
    /// The folder to make
    #[arg(long, short, value_name = "DIR")]
    output: PathBuf,
    /// Only these parts, separated by commas
    #[arg(long, value_name = "PARTS", value_delimiter = ',', value_parser = part)]
    only: Vec<Part>,
    /// For whom; the client's has no prices, wiring or settings, the installer's no prices
    #[arg(long = "for", value_enum, value_name = "AUDIENCE", default_value_t = For::Office)]
    audience: For,
    /// Show the names of people: on the name lists, which then go into installer.pdf, office.pdf and client.pdf too, and on the page of revisions
    #[arg(long)]
    with_names: bool,
    /// Size of printed sheets
    #[arg(long, value_enum, value_name = "SIZE", default_value_t = Sheet::A4)]
    sheet: Sheet,
    #[command(flatten)]
    locale: LocaleArguments,
    /// Address under which the pages of devices are served, for QR codes; without one they carry text. Behind `#d=` the
    /// number of the device follows, as the page for the phone takes it
    #[arg(long, value_name = "URL")]
    base_url: Option<String>,
    /// The revision to show [default: the last that the site file states, else the first eight digits of the hash of the input]
    #[arg(long, value_name = "TEXT")]
    revision: Option<String>,
    /// The date to show, as year-month-day; without one no date is shown
    #[arg(long, value_name = "DATE")]
    date: Option<String>,
}

/// For whom the pack is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum For {
    /// Who wires, sets and tests
    Installer,
    /// Who plans and buys
    Office,
    /// Who owns the building
    Client,
}

/// Size of sheets.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Sheet {
    /// 210 mm x 297 mm
    A4,
    /// 8.5 in x 11 in
    Letter,
}

/// A part by its name.
fn part(text: &str) -> Result<Part> {
    Part::ALL.iter().copied().find(|part| part.name() == text).ok_or_else(|| {
        let names: Vec<&str> = Part::ALL.iter().map(|part| part.name()).collect();
        ArgumentRefusal::NoPackPart { known: &names.join(", ") }.into()
    })
}

/// Runs the command.
///
/// # Errors
/// If a file cannot be read, or the folder not be written.
pub fn run(
    arguments: &PackArguments,
    surroundings: &Surroundings,
    input: &mut dyn Read,
    output: &mut dyn Write,
) -> Result<ExitCode> {
    let options = options(arguments)?;
    let date = arguments.date.as_deref().map(|date| date::chosen(Some(date))).transpose()?;
    folder::prepare(&arguments.output)?;
    let language = arguments.locale.locale().language;
    let view = load::open(&arguments.site, input)?.session.view();
    let (Some(site), Some(assessment), Some(readings)) = (view.site(), view.assessment()?, view.readings()?)
    else {
        return super::refuse(&view, &surroundings.look(Colour::Never, false).in_language(language));
    };
    let stamp = load::stamp(&view, arguments.revision.clone(), date);
    let reading = &assessment.read;
    let has_phone = options.only.is_empty() && options.audience != Audience::Client;
    let faults = (has_phone || options.wants(Part::Faults)).then(|| FaultTable::of_site(site, &readings));
    let input = PackInput {
        site,
        assessment,
        readings: &readings,
        cut_list: &latchline_cutting::cut_list(site),
        reading_findings: reading,
        faults: faults.as_ref(),
    };
    let mut pack =
        latchline_pack::put_together(&input, &options, &stamp).refused(|| ResultRefusal::NoPack)?;
    let of_client = options.of_client();
    let client = of_client.as_ref().map(|options| latchline_pack::put_together(&input, options, &stamp));
    let mut client = client.transpose().refused(|| ResultRefusal::NoPack)?;
    let carried = pack_carried::carried_over(
        (&arguments.output, &arguments.site, view.text()),
        &mut pack,
        client.as_mut(),
        &input,
        (&options, of_client.as_ref(), &stamp),
    )?;
    let mut files = latchline_pack::files(&pack).refused(|| ResultRefusal::NoPack)?;
    files.extend(latchline_typeset::pdfs(&pack, client.as_ref()).refused(|| ResultRefusal::NoPack)?);
    if has_phone {
        let plan = latchline_phone::WorkPlan::new(&pack.subject);
        let bytes = latchline_phone::html(&plan).refused(|| ResultRefusal::NoPack)?.into_bytes();
        files.push(PackFile { name: String::from("phone.html"), bytes });
    }
    files.push(latchline_pack::contents_file(&pack, &files));
    let earlier = folder::replace(&arguments.output, &files)?;
    let wrote = PackWords::Wrote { files: files.len(), folder: &shown::path(&arguments.output) };
    writeln!(output, "{}", wrote.say(language))?;
    for words in &carried {
        writeln!(output, "{words}")?;
    }
    let mut tell = |words: PackWords<'_>| writeln!(output, "{}", words.say(language));
    if let Some(name) = earlier.gone.first() {
        tell(PackWords::Gone { count: earlier.gone.len(), name, folder: &shown::path(&arguments.output) })?;
    }
    for one in &earlier.kept {
        let (name, file) = (one.name.as_str(), one.stays_as.as_str());
        tell(match &one.beside {
            Some(beside) => PackWords::KeptWithNewBeside { file, beside },
            None if name != file => PackWords::KeptAs { file: name, name: file },
            None => PackWords::Kept { file },
        })?;
    }
    let errors = reading
        .iter()
        .chain(&assessment.findings)
        .filter(|finding| finding.accepted.is_none() && finding.severity == Severity::Error)
        .count();
    if errors > 0 {
        tell(PackWords::HasErrors { errors, site: &shown::path(&arguments.site) })?;
    }
    Ok(ExitCode::from(u8::from(errors > 0)))
}

/// What the arguments mean.
fn options(arguments: &PackArguments) -> Result<Options> {
    let options = Options {
        locale: arguments.locale.locale(),
        audience: match arguments.audience {
            For::Installer => Audience::Installer,
            For::Office => Audience::Office,
            For::Client => Audience::Client,
        },
        paper: match arguments.sheet {
            Sheet::A4 => Paper::A4,
            Sheet::Letter => Paper::Letter,
        },
        only: arguments.only.clone(),
        with_names: arguments.with_names,
        base_url: arguments.base_url.clone(),
    };
    if let Some(part) = options.only.iter().find(|part| !part.is_for(options.audience)) {
        return Err(ResultRefusal::NotForClient { part: part.name() }.into());
    }
    if let Some(url) = &options.base_url {
        let is_web = url.starts_with("https://") || url.starts_with("http://");
        if !is_web || url.len() > 200 || url.chars().any(|sign| sign.is_whitespace() || sign.is_control()) {
            return Err(ResultRefusal::NoAddress { url }.into());
        }
    }
    let revision = arguments.revision.as_deref().unwrap_or("1");
    if revision.trim().is_empty() || revision.chars().count() > 40 || revision.chars().any(char::is_control) {
        return Err(ResultRefusal::Revision.into());
    }
    Ok(options)
}
