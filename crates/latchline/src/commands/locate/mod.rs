//! `latchline locate`: from readings and symptoms to the fault.

mod dialogue;
mod form;
mod json;
mod lines;
mod question_json;
mod table;
mod table_json;
mod unusable;

use self::form::Format;
pub(super) use self::json::schema;
use self::lines::lines;
pub(super) use self::table_json::schema as table_schema;
use self::unusable::Unusable;
use crate::commands::pictures::{self, numbered};
use crate::commands::written::WrittenArguments;
use crate::files::read_text;
use crate::load::{self, Opened};
use crate::refusal::{Refused, Result};
use crate::surroundings::{Colour, Surroundings};
use clap::{Args, ValueEnum};

use latchline_answer::{
    Again, AsDrawnOf, Asked, Pictures, Reader, asked, design_errors, short, whole, whole_question,
};
use latchline_drawing::SheetOptions;
use latchline_finding::{Language, Locale, Severity};
use latchline_locate::input::{Checked, Row, check, read_csv, read_item, read_toml};
use latchline_locate::{Age, BUILT_IN, FaultTable, Options, Plant, Rates, locate, question as question_of};
use latchline_network::Layout;
use latchline_scene::{Palette, Scene, svg};
use latchline_words::commands::WrittenWords;
use latchline_words::locate::Problem;
use latchline_words::refusals::{ArgumentRefusal, FileRefusal};
use std::io::{Read, Write};
use std::path::{Path, PathBuf};
use std::process::ExitCode;

/// Find a fault from a few readings and symptoms, and the next reading that says most
///
/// Readings come from a file (TOML or CSV), from the command line, or both: `A-12=33V` is the voltage at the station A-12 in
/// standby by day, `A-12@ringing=33V` while it rings, `A-15@ringing:A-11=40V` at A-15 while A-11 rings, `A-R1=27ohm` the loop
/// resistance of the run A-R1 alone, `A-PS=0.8A` the current of a supply, `A-R1=1.9nF` a capacitance, `earth:A-R1=20kohm` a
/// resistance to earth, `A-11..A-12=3V` the voltage lost between two places, `A-12=restarts` what somebody tells.
///
/// Of a place that is told of (`A-12=restarts`) it says first whether the site as drawn is the reason, and which reading there decides it.
///
/// After a comma: how a figure was read, with which meter, and where the other lead was: `A-12@ringing=33V,least-held`,
/// `A-11..A-12=1.5V,same-leg`. `found="A-11 A-12"` is the list of devices that the system found.
///
/// On a terminal without readings, or with --dialogue, it asks one thing after another, from what is told to the reading that proves the mend.
///
/// Exit status: 0 if a cause was ranked, 1 if some readings could not be used, 2 if none can be.
#[derive(Debug, Args)]
pub struct LocateArguments {
    /// The site file; `-` reads standard input
    #[arg(required_unless_present = "show_rates")]
    site: Option<PathBuf>,
    /// Files of readings, and readings as PLACE=VALUE
    #[arg(value_name = "READINGS")]
    readings: Vec<String>,
    /// How old the installation is: new installations have other faults than old ones
    #[arg(long, value_enum, default_value_t = AgeChoice::InService)]
    age: AgeChoice,
    /// Stop proposing readings when a cause is this probable, in per cent
    #[arg(long, value_name = "PERCENT", default_value_t = 90, value_parser = clap::value_parser!(u8).range(50..=99))]
    confidence: u8,
    /// Another table of how often each cause occurs
    #[arg(long, value_name = "FILE")]
    rates: Option<PathBuf>,
    /// Print the table of rates, to be edited
    #[arg(long, conflicts_with_all = ["site", "rates"])]
    show_rates: bool,
    /// The table of faults to carry along: what readings at each run, box and supply show of which fault. With readings: what they say from
    /// that table alone, as on the page for the phone
    #[arg(long, conflicts_with_all = ["show_rates", "dialogue"])]
    table: bool,
    /// Draw into this folder, besides: where to look on the elevation, the voltage along the way as planned and as read, how the probabilities
    /// moved with each reading
    #[arg(long, value_name = "FOLDER", conflicts_with_all = ["show_rates", "table", "dialogue"])]
    draw: Option<PathBuf>,
    /// Ask one thing after another
    #[arg(long, conflicts_with_all = ["show_rates", "format", "output"])]
    dialogue: bool,
    #[command(flatten)]
    written: WrittenArguments<Format>,
}

/// How old the installation is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(super) enum AgeChoice {
    /// Within a month of installation
    FirstMonth,
    /// Later
    InService,
}

impl From<AgeChoice> for Age {
    fn from(choice: AgeChoice) -> Age {
        match choice {
            AgeChoice::FirstMonth => Age::FirstMonth,
            AgeChoice::InService => Age::InService,
        }
    }
}

/// Runs the command.
///
/// # Errors
/// If a file cannot be read or the result not be written.
pub fn run(
    arguments: &LocateArguments,
    surroundings: &Surroundings,
    input: &mut dyn Read,
    output: &mut dyn Write,
) -> Result<ExitCode> {
    if arguments.show_rates {
        crate::output::put(BUILT_IN, output)?;
        return Ok(ExitCode::SUCCESS);
    }
    if arguments.written.format == Format::Csv && !arguments.table {
        return Err(ArgumentRefusal::CsvOfTableOnly.into());
    }
    let Some(site_file) = &arguments.site else { return Ok(ExitCode::from(crate::failure::UNUSABLE)) };
    let rates = rates(arguments.rates.as_deref())?;
    let mut read = vec![site_file.clone()];
    let (rows, mut problems) = rows(&arguments.readings, &mut read)?;
    arguments.written.result.refuse(&read)?;
    let Opened { session, files, .. } = load::open(site_file, input)?;
    let view = session.view();
    let Some(site) = view.site() else {
        return crate::commands::refuse(
            &view,
            &surroundings.look(Colour::Never, false).in_language(arguments.written.language.language()),
        );
    };
    read.extend(files);
    arguments.written.result.refuse(&read)?;
    let errors = view
        .assessment()?
        .map_or(0, |found| found.findings.iter().filter(|one| one.severity == Severity::Error).count());
    let layout = Layout::new(site);
    let plant = Plant::new(site, &layout);
    let checked = check(&plant, &rows);
    problems.extend(checked.problems.iter().cloned().map(|problem| (None, problem)));
    let language = arguments.written.language.language();
    tell(&problems, &rows, language);
    let is_nothing = checked.evidence.is_empty();
    if is_nothing && !problems.is_empty() {
        return Ok(ExitCode::from(crate::failure::UNUSABLE));
    }
    let mut notes = Vec::new();
    if is_nothing && !arguments.table {
        notes.push(Problem::Nothing.say(language));
    }
    if errors > 0 {
        notes.push(Problem::SiteFails { errors }.say(language));
    }
    if arguments.table {
        let planned = view.readings()?;
        let Some(planned) = planned else { return Ok(ExitCode::from(crate::failure::UNUSABLE)) };
        let faults = FaultTable::new(&plant, &rates, arguments.age.into(), &planned);
        let width = surroundings.look(Colour::Auto, arguments.written.result.is_named()).width;
        let reader = Reader { site, language };
        let from = table::FromTheTable { plant: &plant, reader, faults: &faults, notes: &notes, width };
        let text = match is_nothing {
            true => from.table(&view, &load::stamp(&view, None, None), arguments.written.format)?,
            false => from.ranking(&checked.evidence, arguments.written.format)?,
        };
        arguments.written.result.put(&text, &read, output)?;
        return Ok(if problems.is_empty() { ExitCode::SUCCESS } else { ExitCode::FAILURE });
    }
    let confidence = f64::from(arguments.confidence) / 100.0;
    let assessment = view.assessment()?;
    let drawn =
        assessment.as_ref().map_or(Vec::new(), |known| AsDrawnOf::told(&plant, known, &checked.evidence));
    let design_errors = assessment.as_ref().map_or(errors, |known| design_errors(known, &drawn));
    let options = Options { age: arguments.age.into(), confidence, design_errors };
    let begins_alone = is_nothing && problems.is_empty() && arguments.readings.is_empty();
    if arguments.dialogue
        || (begins_alone && surroundings.is_dialogue() && !arguments.written.result.is_named())
    {
        let reader = Reader { site, language };
        let asked = dialogue::Dialogue {
            plant: &plant,
            reader,
            rates: &rates,
            options,
            site_file,
            given: &arguments.readings,
            width: surroundings.look(Colour::Auto, false).width,
        };
        return asked.run(checked.evidence, &notes, input, output);
    }
    let Checked { evidence, .. } = &checked;
    let located = locate(&plant, evidence, &rates, &options);
    let question = question_of(&plant, evidence, &rates, &options, &located);
    let reader = Reader { site, language };
    let drawn_files = match (&arguments.draw, &assessment) {
        (Some(folder), Some(assessment)) => {
            let stamp = load::stamp(&view, None, None);
            let sheets = SheetOptions {
                input: Some(stamp.short_input()),
                revision: Some(stamp.revision),
                locale: Locale::from(language),
                ..SheetOptions::default()
            };
            let rates = &rates;
            Pictures {
                plant: &plant,
                assessment,
                reader: &reader,
                evidence,
                rates,
                options: &options,
                located: &located,
                sheets,
            }
            .draw()
            .into_iter()
            .flat_map(|(name, scenes)| svgs(&folder.join(name), &scenes))
            .collect()
        }
        _ => Vec::new(),
    };
    let named: Vec<String> = drawn_files
        .iter()
        .map(|(file, _)| latchline_finding::shown::whole(&file.to_string_lossy(), &[]).into_owned())
        .collect();
    let text = match arguments.written.format {
        Format::Text => {
            let look = surroundings.look(Colour::Auto, arguments.written.result.is_named());
            let told_first = drawn.iter().filter(|_| evidence.measured.is_empty());
            let first_read =
                told_first.filter_map(|one| one.reading.as_ref()).map(|one| &one.quantity).next();
            let command = Asked { site_file, given: &arguments.readings };
            let again = Again { plant: &plant, asked: Some(command), first_read };
            let drawn: String = drawn
                .iter()
                .map(|one| lines(&one.whole(&reader, Some(site_file)), look.width) + "\n")
                .collect();
            let located =
                lines(&whole(&reader, evidence, &located, &options, &notes, Some(&again)), look.width);
            let behind = if drawn.is_empty() { String::new() } else { format!("\n{}\n", drawn.trim_end()) };
            // Who has read nothing yet is told first what the site says; readings say more than it.
            let asked = question.as_ref().map_or(String::new(), |question| {
                lines(&whole_question(&reader, question, Some(&command)), look.width) + "\n"
            });
            if evidence.measured.is_empty() { drawn + &asked + &located } else { located + &behind }
        }
        Format::Short => {
            let first = drawn.iter().filter(|_| evidence.measured.is_empty());
            let notes: Vec<String> = first.map(|one| one.verdict(&reader)).chain(notes).collect();
            let asked = question.iter().map(|question| asked(&reader, question));
            let notes: Vec<String> = notes.into_iter().chain(asked).collect();
            short(&reader, evidence, &located, &options, &notes).join("\n") + "\n"
        }
        // Refused above, of anything but the table.
        Format::Json | Format::Csv => {
            let besides =
                json::Besides { drawn: &drawn, problems: &problems, notes: &notes, pictures: &named };
            json::json(&reader, evidence, &located, question.as_ref(), &besides)?
        }
    };
    pictures::put(&drawn_files, arguments.draw.as_deref(), &read, arguments.written.result.may_replace())?;
    arguments.written.result.put(&text, &read, output)?;
    if arguments.written.format != Format::Json {
        for file in &named {
            writeln!(output, "{}", WrittenWords::Wrote { file }.say(language))?;
        }
    }
    Ok(if problems.is_empty() { ExitCode::SUCCESS } else { ExitCode::FAILURE })
}

/// The files of a picture.
fn svgs(base: &Path, scenes: &[Scene]) -> Vec<(PathBuf, String)> {
    let of = scenes.len();
    let file = |(number, scene): (usize, &Scene)| {
        (numbered(base, (number + 1, of), "svg"), svg::svg(scene, Palette::Light))
    };
    scenes.iter().enumerate().map(file).collect()
}

/// The table of rates.
///
/// # Errors
/// If the file cannot be read, naming the key at fault.
pub(super) fn rates(file: Option<&Path>) -> Result<Rates> {
    let Some(file) = file else { return Ok(Rates::built_in()) };
    let text = read_text(file, &mut std::io::empty())?;
    Rates::read(&text)
        .refused(|| FileRefusal::RatesUnusable { file: &latchline_finding::shown::path(file) }.both())
}

/// Rows from files and from the command line. What holds an `=` and is no file is a reading.
fn rows(given: &[String], read: &mut Vec<PathBuf>) -> Result<(Vec<Row>, Vec<Unusable>)> {
    let mut rows = Vec::new();
    let mut problems = Vec::new();
    for (number, item) in given.iter().enumerate() {
        let path = Path::new(item);
        let extension = path.extension().and_then(|extension| extension.to_str()).map(str::to_lowercase);
        let is_file = matches!(extension.as_deref(), Some("toml" | "csv")) && !item.contains('=');
        if !is_file {
            match read_item(item, number + 1) {
                Ok(row) => rows.push(row),
                Err(problem) => problems.push((None, problem)),
            }
            continue;
        }
        let text = read_text(path, &mut std::io::empty())?;
        let (more, wrong) =
            if extension.as_deref() == Some("csv") { read_csv(&text) } else { read_toml(&text) };
        rows.extend(more);
        problems.extend(wrong.into_iter().map(|problem| (Some(item.clone()), problem)));
        read.push(path.to_path_buf());
    }
    Ok((rows, problems))
}

/// Says on standard error what cannot be used, each at its line.
fn tell(problems: &[Unusable], _rows: &[Row], language: Language) {
    for (file, problem) in problems {
        let place = match file {
            Some(file) => format!("{}:{}: ", latchline_finding::shown::prose(file), problem.line),
            None => String::new(),
        };
        let text = format!("{place}{}\n", latchline_finding::shown::prose(problem.message.of(language)));
        // Nothing is left to tell it to if standard error is closed.
        let _ = std::io::stderr().write_all(text.as_bytes());
    }
}
