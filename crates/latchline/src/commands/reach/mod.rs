//! `latchline reach`: how many stations, how far, on which cable.

mod chart;
mod json;
mod of_cable;

use self::chart::{chart, chart_spacings};
use self::json::json;
use self::of_cable::{OfCable, limit_word, trimmed};
use crate::commands::ask::{DoorLockArguments, cable_meant, family_of_supply, of_run};
use crate::commands::catalogue::Parts;
use crate::commands::decimal::{self, Decimal};
use crate::commands::part_named::{known, of_family};
use crate::commands::written::{TextOrJson, WrittenArguments};
use crate::failure::UNUSABLE;
use crate::files::{self, refuse_inputs, refuse_standing};
use crate::refusal::Result;
use crate::surroundings::{Colour, Surroundings};
use clap::Args;
use latchline_drawing::{SheetSize, reach_chart};
use latchline_finding::Language;
use latchline_reach::telephone::{OneRun, doors_at_words, locks_taken};
use latchline_reach::{
    BareSite, Cell, DOOR_CABLE, DOOR_M, DoorsAt, FEED_CABLE, FEED_M, MOST_STATIONS, Question, doors_at,
    not_judged, tables,
};
use latchline_report::Look;
use latchline_report::table::paragraph;
use latchline_scene::{Palette, svg};
use latchline_site::catalogue::Catalogue;
use latchline_site::model::{HOTTEST_CONDUCTOR_C, USUAL_LENGTH_TOLERANCE};
use latchline_words::commands::ReachWords;
use latchline_words::refusals::{ArgumentRefusal, PartKind, ResultRefusal};
use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::io::Write;
use std::path::PathBuf;
use std::process::ExitCode;

/// The cable that is meant where none is named.
const USUAL_CABLE: &str = "pair-0.8";

/// How many stations can hang on one port, how far apart, on which cable
///
/// Needs no site file. Solves the worst state, every tolerance at its worst, for a bare site:
/// the family's largest supply, one distributor, as many door stations as calls may stand at once, one chain of equal
/// stations. Without --cable, compares all cables. With --total, answers for one run of that length in one sentence.
#[derive(Debug, Args)]
pub struct ReachArguments {
    /// Family of the catalogue [default: that of --station, else the one with most models]
    family: Option<String>,
    /// Length of one run in metres: how many stations work on it, on mains and to the battery's end, in one sentence
    #[arg(long, value_name = "METRES", value_parser = decimal::metres, allow_negative_numbers = true, conflicts_with_all = ["spacing", "feeder", "chart"])]
    total: Option<Decimal>,
    /// Model of the stations [default: the heaviest indoor station of the family]
    #[arg(long)]
    station: Option<String>,
    /// Cable of the chain, by its name or an everyday name ("bell wire", "0.5"); a table of spacings and feeder lengths is printed for it
    #[arg(long)]
    cable: Option<String>,
    /// Model of the supply [default: the largest of the family]
    #[arg(long)]
    supply: Option<String>,
    /// Model of the distributor [default: the plainest of the family]
    #[arg(long)]
    distributor: Option<String>,
    #[command(flatten)]
    doors: DoorLockArguments,
    /// Distances from station to station in metres
    #[arg(long, value_delimiter = ',', value_parser = metres, default_values_t = [3.0, 5.0, 8.0, 12.0, 20.0])]
    spacing: Vec<f64>,
    /// Lengths of cable from the port to the first station in metres
    #[arg(long, value_delimiter = ',', value_parser = metres, default_values_t = [5.0, 15.0, 30.0, 60.0, 100.0])]
    feeder: Vec<f64>,
    /// Write a chart of all these cables on one A4 sheet to this file (.svg)
    #[arg(long, value_name = "FILE")]
    chart: Option<PathBuf>,
    /// Further catalogue files
    #[arg(long, value_name = "FILE")]
    catalogue: Vec<PathBuf>,
    #[command(flatten)]
    written: WrittenArguments<TextOrJson>,
}

/// Width of what is not a table.
const WIDTH: usize = 100;

/// Runs the command.
///
/// # Errors
/// If a part does not exist or a length makes no sense.
pub fn run(
    arguments: &ReachArguments,
    surroundings: &Surroundings,
    output: &mut dyn Write,
) -> Result<ExitCode> {
    for (name, lengths, least) in
        [("--spacing", &arguments.spacing, 0.1), ("--feeder", &arguments.feeder, 0.1)]
    {
        if let Some(wrong) = lengths.iter().find(|length| !(least..=2000.0).contains(*length)) {
            return Err(decimal::no_length(name, *wrong, least, 2000.0));
        }
        // "6,5" is two lengths to the reader of the arguments, but not to who wrote it.
        if let Some((length, next)) =
            lengths.iter().zip(lengths.iter().skip(1)).find(|(length, next)| next <= length)
        {
            let (length, next) = (&length.to_string(), &next.to_string());
            return Err(ArgumentRefusal::OutOfOrder { option: name, length, next }.into());
        }
    }
    if let Some(chart) = &arguments.chart
        && chart.extension().is_none_or(|ending| !ending.eq_ignore_ascii_case("svg"))
    {
        return Err(ResultRefusal::ChartForm { file: &chart.display().to_string() }.into());
    }
    let language = arguments.written.language.language();
    let look = surroundings.look(Colour::Never, false).in_language(language);
    arguments.written.result.refuse(&arguments.catalogue)?;
    if let Some(chart) = &arguments.chart {
        refuse_inputs(&arguments.catalogue, chart)?;
        refuse_standing(chart, arguments.written.result.may_replace())?;
    }
    let Some(Parts { sources, loaded }) = crate::commands::catalogue::parts(&arguments.catalogue, &look)?
    else {
        return Ok(ExitCode::from(UNUSABLE));
    };
    let catalogue = loaded.catalogue();
    let question = question(arguments, catalogue)?;
    let calls = catalogue.families[&question.family].simultaneous_calls.value as usize;
    if let Some(total) = arguments.total {
        let total_m = total.in_language("--total", language)?;
        let parts = Parts { sources, loaded };
        return of_total(arguments, &parts, question, total_m, calls, &look, output);
    }
    let cables: Vec<String> = match &arguments.cable {
        Some(cable) => vec![cable_meant(catalogue, cable)?.head.name.clone()],
        None => catalogue.cables.keys().cloned().collect(),
    };
    // One cable: a full table. All cables: each spacing behind the shortest feeder.
    let feeders = if arguments.cable.is_some() { &arguments.feeder[..] } else { &arguments.feeder[..1] };
    let ask = |spacings: &[f64], feeders: &[f64]| -> Result<Vec<OfCable>> {
        let tables = tables(&sources, &loaded, &question, &cables, calls, spacings, feeders)?;
        let answer = |(cable, cells): (&String, Vec<Cell>)| {
            let bare = BareSite::new(&sources, &loaded, &question, cable, calls)?;
            let not_judged = not_judged(&bare).iter().map(|code| code.as_str()).collect();
            Ok(OfCable { cable: cable.clone(), cells, not_judged })
        };
        cables.iter().zip(tables).map(answer).collect()
    };
    let doors = doors_at(catalogue, &question, calls);
    let answers = ask(&arguments.spacing, feeders)?;
    if let Some(path) = &arguments.chart {
        let spacings = chart_spacings(&arguments.spacing);
        let chart = chart(&question, calls, &ask(&spacings, &feeders[..1])?, feeders[0], language);
        let picture = svg::svg(&reach_chart(&chart, SheetSize::A4), Palette::Light);
        files::write(path, picture.as_bytes(), arguments.written.result.may_replace())?;
    }
    let text = match arguments.written.format {
        TextOrJson::Text => words(&question, calls, doors, &answers, &arguments.spacing, feeders, &look),
        TextOrJson::Json => json(&question, calls, doors, &answers)?,
    };
    // Of two results of one command neither takes the place of the other.
    let others: Vec<PathBuf> = arguments.catalogue.iter().chain(&arguments.chart).cloned().collect();
    arguments.written.result.put(&text, &others, output)?;
    Ok(ExitCode::SUCCESS)
}

/// How many stations work on one run of this length.
fn of_total(
    arguments: &ReachArguments,
    parts: &Parts,
    question: Question,
    total_m: f64,
    calls: usize,
    look: &Look,
    output: &mut dyn Write,
) -> Result<ExitCode> {
    if !(0.1..=2000.0).contains(&total_m) {
        return Err(decimal::no_length("--total", total_m, 0.1, 2000.0));
    }
    let asked = arguments.cable.as_deref().unwrap_or(USUAL_CABLE);
    let cable = cable_meant(parts.loaded.catalogue(), asked)?.head.name.clone();
    let supply_is_stated = arguments.supply.is_some();
    let run = OneRun { question, supply_is_stated, cable, total_m, calls };
    of_run(parts, &run, arguments.station.is_some(), look)?.put(
        &arguments.written,
        &arguments.catalogue,
        output,
    )
}

fn question(arguments: &ReachArguments, catalogue: &Catalogue) -> Result<Question> {
    let (family, station) = (arguments.family.as_deref(), arguments.station.as_deref());
    let family = family.or_else(|| family_of_supply(catalogue, station, arguments.supply.as_deref()));
    let mut question = crate::commands::ask::question(catalogue, family, station)?;
    arguments.doors.put_into(catalogue, &mut question)?;
    if let Some(supply) = &arguments.supply {
        known(catalogue, PartKind::Supply, supply, catalogue.supplies.keys())?;
        of_family(supply, &catalogue.supplies[supply].family.value, &question.family)?;
        question.supply.clone_from(supply);
    }
    if let Some(distributor) = &arguments.distributor {
        known(catalogue, PartKind::Distributor, distributor, catalogue.boxes.keys())?;
        of_family(distributor, &catalogue.boxes[distributor].family.value, &question.family)?;
        question.distributor.clone_from(distributor);
    }
    Ok(question)
}

/// A length in metres as people write it: `6`, `6.5`, `6m`, `6.5 m`.
fn metres(text: &str) -> Result<f64> {
    decimal::metres(text)
        .map(Decimal::as_written)
        .map_err(|wrong| ArgumentRefusal::Several { reason: &wrong.both() }.into())
}

fn words(
    question: &Question,
    calls: usize,
    doors: DoorsAt,
    answers: &[OfCable],
    spacings: &[f64],
    feeders: &[f64],
    look: &Look,
) -> String {
    let language = look.language;
    let say = |words: ReachWords<'_>| words.say(language);
    let asked = say(ReachWords::Asked {
        station: &question.station,
        distributor: &question.distributor,
        supply: &question.supply,
        calls,
    });
    let corner = ReachWords::Corner {
        hottest: &trimmed(HOTTEST_CONDUCTOR_C, language),
        longer: &trimmed(100.0 * USUAL_LENGTH_TOLERANCE, language),
        feed: &trimmed(FEED_M, language),
        feed_cable: FEED_CABLE,
    };
    let at = doors_at_words(doors, language);
    let assumed = ReachWords::Doors {
        supply: &question.supply,
        doors: doors.on_supply + doors.on_ports,
        model: &question.door,
        length: &format!("{} m", trimmed(DOOR_M, language)),
        cable: DOOR_CABLE,
        at: &at,
    };
    let locks = locks_taken(question, look.locale());
    let locks = locks.unwrap_or_else(|| say(ReachWords::NoLocks));
    let head = [asked, say(corner), say(assumed), locks];
    let mut text = head.iter().map(|one| paragraph(one, 0, WIDTH)).collect::<String>() + "\n";
    for answer in answers.iter().filter(|_| feeders.len() > 1) {
        let _ = writeln!(text, "{}", say(ReachWords::OfCable { cable: &answer.cable }));
        heading(&mut text, "", 8, feeders, language);
        for (row, spacing) in answer.cells.chunks(feeders.len()).zip(spacings) {
            let _ = write!(text, "{:>6} m", trimmed(*spacing, language));
            for cell in row {
                let _ = write!(text, "{:>9}", count(cell));
            }
            text.push('\n');
        }
    }
    if feeders.len() == 1 {
        let feeder = &trimmed(feeders[0], language);
        let _ = writeln!(text, "{}", say(ReachWords::ByCable { feeder }));
        heading(&mut text, "", 14, spacings, language);
        for answer in answers {
            let _ = write!(text, "{:<14}", answer.cable);
            for cell in &answer.cells {
                let _ = write!(text, "{:>9}", count(cell));
            }
            text.push('\n');
        }
    }
    let mut limits: Vec<_> = answers.iter().flat_map(|answer| &answer.cells).map(|cell| cell.limit).collect();
    limits.sort_unstable();
    limits.dedup();
    let limits: Vec<String> = limits
        .into_iter()
        .map(|limit| format!("{} {}", sign(limit), limit_word(limit).say(language)))
        .collect();
    let _ = writeln!(text, "\n{}", say(ReachWords::Limits { limits: &limits.join(", ") }));
    let not_always = fewer_fail(answers, language);
    if !not_always.is_empty() {
        text.push_str(&paragraph(&say(ReachWords::FewerFail { what: &not_always.join("; ") }), 0, WIDTH));
    }
    for group in not_judged_groups(answers) {
        let words = ReachWords::NotJudgedFor { codes: &group.0.join(", "), cables: &group.1.join(", ") };
        text.push_str(&paragraph(&say(words), 0, WIDTH));
    }
    let most = say(ReachWords::AtMost { most: MOST_STATIONS });
    let _ = writeln!(text, "{most} {}\n{}", say(ReachWords::Judged), say(ReachWords::Caution));
    text
}

/// Where fewer stations do not all work, with their numbers.
fn fewer_fail(answers: &[OfCable], language: Language) -> Vec<String> {
    let mut list = Vec::new();
    for answer in answers {
        for cell in answer.cells.iter().filter(|cell| !cell.fewer_fail.is_empty()) {
            let words = ReachWords::FewerFailAt {
                cable: &answer.cable,
                spacing: &trimmed(cell.spacing_m, language),
                feeder: &trimmed(cell.feeder_m, language),
                counts: &counts(&cell.fewer_fail),
            };
            list.push(words.say(language));
        }
    }
    list
}

/// Numbers in a row, those that follow one another as a range: "1, 3-5".
fn counts(numbers: &[usize]) -> String {
    let mut ranges: Vec<(usize, usize)> = Vec::new();
    for &number in numbers {
        match ranges.last_mut() {
            Some((_, last)) if *last + 1 == number => *last = number,
            _ => ranges.push((number, number)),
        }
    }
    let shown = ranges.iter().map(|(first, last)| match last - first {
        0 => first.to_string(),
        _ => format!("{first}-{last}"),
    });
    shown.collect::<Vec<_>>().join(", ")
}

/// What could not be judged, with the cables of which it is so.
fn not_judged_groups(answers: &[OfCable]) -> BTreeMap<Vec<&str>, Vec<&str>> {
    let mut groups: BTreeMap<Vec<&str>, Vec<&str>> = BTreeMap::new();
    for answer in answers.iter().filter(|answer| !answer.not_judged.is_empty()) {
        groups.entry(answer.not_judged.clone()).or_default().push(&answer.cable);
    }
    groups
}

fn heading(text: &mut String, first: &str, width: usize, lengths: &[f64], language: Language) {
    let _ = write!(text, "{first:<width$}");
    for length in lengths {
        let _ = write!(text, "{:>7} m", trimmed(*length, language));
    }
    text.push('\n');
}

fn count(cell: &Cell) -> String {
    let mark = if cell.fewer_fail.is_empty() { "" } else { "*" };
    format!("{} ({}){mark}", cell.stations, sign(cell.limit))
}

/// One letter for what limits.
fn sign(limit: latchline_reach::ReachLimit) -> char {
    use latchline_reach::ReachLimit;
    match limit {
        ReachLimit::Voltage => 'V',
        ReachLimit::Collapse => 'X',
        ReachLimit::PortCurrent => 'P',
        ReachLimit::SupplyCurrent => 'S',
        ReachLimit::Count => 'N',
        ReachLimit::Length => 'L',
        ReachLimit::Signal => 'G',
        ReachLimit::StartUp => 'U',
        ReachLimit::ShortCircuit => 'K',
        ReachLimit::OtherRule => 'R',
        ReachLimit::Undecided => '?',
        ReachLimit::None => '+',
    }
}
