//! `latchline design`: from a survey to the cheapest site file that passes.

mod change;
mod choice;
mod json;
mod survey;
mod words;

use self::change::Change;
use self::choice::choice_words;
use self::json::json;
use self::survey::{LoadedSurvey, Read, folder_of, load, seen_from};
use self::words::{Shown, amount, no_design, report, side_by_side, ways_words};
use crate::commands::locale::LanguageArguments;
use crate::failure::UNUSABLE;
use crate::files::{self, MayReplace, refuse_inputs, refuse_standing};
use crate::output;
use crate::refusal::{Refused, Result};
use crate::surroundings::{Colour, Surroundings};
use clap::{Args, ValueEnum};
use latchline_assess::Memory;
use latchline_design::{
    Alternative, Asked, Choice, Design, Effort, Merits, Obstacle, Texts, alternatives, design_remembering,
    ways_out,
};
use latchline_finding::{Language, Money, shown};
use latchline_report::{Report, sarif};
use latchline_words::design::DesignWords;
use latchline_words::refusals::{ArgumentRefusal, NameRefusal, PartRefusal};
use std::io::{IsTerminal, Write};
use std::path::{Path, PathBuf};
use std::process::ExitCode;
use std::time::{Duration, Instant};

/// Walking orders of each bus that are tried in any case.
const USUAL_ORDERS: usize = 3;
/// Walking orders at most, however long the time.
const MOST_ORDERS: usize = 100_000;
/// Longest time to try in: some eleven days.
const MOST_SECONDS: f64 = 1e6;

/// Design a site from a survey: the cheapest that passes, with a lower bound
///
/// Reads a survey (a workbook made by latchline new --survey, or a folder of CSV files), decides supplies,
/// distributors, runs and cables, and writes a site file that passes check, or says which limit is to blame. Prints
/// the cost, and how much could be saved at most. With --from, an installed site is changed instead: further dwellings,
/// other lengths and withdrawn parts, as cheaply as was found. What is installed stays. Exit status: 0 a design was
/// written, 1 there is none, 2 the survey cannot be used.
#[derive(Debug, Args)]
pub struct DesignArguments {
    /// The survey: an XLSX workbook, or a folder of CSV files, one a sheet
    survey: PathBuf,
    /// The site file to write
    #[arg(short, long, value_name = "SITE")]
    output: Option<PathBuf>,
    /// Change this installed site as the survey asks, instead of designing anew: what is installed stays
    #[arg(long, value_name = "SITE", conflicts_with_all = ["family", "compare", "time"])]
    from: Option<PathBuf>,
    /// Family of parts; without it the survey's, or the cheapest that passes
    #[arg(long)]
    family: Option<String>,
    /// Keep looking for cheaper designs for this many seconds, by further walking orders
    #[arg(long, value_name = "SECONDS", value_parser = seconds)]
    time: Option<f64>,
    /// Seed of the random walking orders; the same seed gives the same result
    #[arg(long, default_value_t = 0)]
    seed: u64,
    /// Design with every family and set them side by side
    #[arg(long, conflicts_with = "output")]
    compare: bool,
    /// List the kinds of design that were considered: the bound on the cost holds for these
    #[arg(long)]
    kinds: bool,
    /// Which of the designs to choose between is written, by its number; without it the cheapest
    #[arg(long, value_name = "NUMBER", value_parser = clap::value_parser!(u8).range(1..=3), conflicts_with_all = ["from", "compare"])]
    choose: Option<u8>,
    /// Look for the cheapest alone, without others to choose from
    #[arg(long, conflicts_with_all = ["from", "compare", "choose"])]
    cheapest: bool,
    /// Form of the result
    #[arg(long, value_enum, default_value_t = Format::Text)]
    format: Format,
    /// Replace the site file if it exists
    #[arg(long)]
    force: bool,
    #[command(flatten)]
    language: LanguageArguments,
}

/// Form of the result.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Format {
    /// For a person
    Text,
    /// For programs
    Json,
    /// SARIF 2.1.0: only what is wrong with the survey and its catalogues
    Sarif,
}

/// A time to try in; not a number compares with nothing, so the range refuses it too.
fn seconds(text: &str) -> Result<f64> {
    let time = text.trim().parse::<f64>().ok();
    time.filter(|time| (0.001..=MOST_SECONDS).contains(time))
        .refused(|| ArgumentRefusal::Seconds { most: &MOST_SECONDS.to_string() }.both())
}

impl DesignArguments {
    /// Language of what is said.
    fn language(&self) -> Language {
        self.language.language()
    }

    /// What may stand where the site file goes.
    fn may_replace(&self) -> MayReplace<'static> {
        if self.force { MayReplace::Anything } else { MayReplace::Nothing }
    }
}

/// Runs the command.
///
/// # Errors
/// If a file cannot be read or the result not be written.
pub fn run(
    arguments: &DesignArguments,
    surroundings: &Surroundings,
    output: &mut dyn Write,
) -> Result<ExitCode> {
    let language = arguments.language();
    let look = surroundings.look(Colour::Never, false).in_language(language);
    if let Some(file) = &arguments.output {
        refuse_standing(file, arguments.may_replace())?;
    }
    let Read { sources, findings, survey, files } = load(&arguments.survey)?;
    let name = arguments.survey.display().to_string();
    if arguments.format == Format::Sarif {
        let report = Report::new(&name, &sources, &findings, None, crate::codes::all());
        output::put(&sarif::render(&report, &crate::commands::check::working_folder())?, output)?;
        return Ok(ExitCode::from(if survey.is_some() { 0 } else { UNUSABLE }));
    }
    let Some((survey, catalogues)) = survey else {
        if arguments.format == Format::Json {
            let report = Report::new(&name, &sources, &findings, None, crate::codes::all());
            output::put(&latchline_report::json::render(&report)?, output)?;
        } else {
            crate::commands::tell(&name, &sources, &findings, &look);
        }
        return Ok(ExitCode::from(UNUSABLE));
    };
    if !findings.is_empty() {
        crate::commands::tell(&name, &sources, &findings, &look);
    }
    let mut loaded = LoadedSurvey { sources, catalogues, survey, files };
    if let Some(file) = &arguments.output {
        refuse_inputs(&loaded.files, file)?;
    }
    if let Some(installed) = &arguments.from {
        let change = Change {
            installed,
            target: arguments.output.as_deref(),
            may_replace: arguments.may_replace(),
            language,
            for_programs: arguments.format != Format::Text,
            look: &look,
        };
        return change.run(&loaded, output);
    }
    if let Some(file) = &arguments.output {
        let folder = file.parent().unwrap_or(Path::new(""));
        for named in &mut loaded.survey.settings.catalogues {
            let file = folder_of(&arguments.survey).join(&named.value);
            named.value = seen_from(folder, &file).unwrap_or(named.value.clone());
        }
    }
    let families = families(arguments, &loaded)?;
    let clock = Clock::new(arguments);
    let mut results: Vec<(String, Result<Design, Obstacle>)> = Vec::new();
    for family in families {
        let result = one(arguments, &loaded, &family, &clock);
        results.push((family, result));
    }
    if arguments.compare {
        let text = match arguments.format {
            Format::Text => side_by_side(&results, &loaded.catalogues.catalogue().currency, language),
            Format::Json | Format::Sarif => json(&results, None, &[])?,
        };
        output::put(&text, output)?;
        return Ok(ExitCode::from(u8::from(results.iter().all(|(_, result)| result.is_err()))));
    }
    let best = (0..results.len())
        .filter_map(|at| results[at].1.as_ref().ok().map(|design| (design.cost, &design.family, at)))
        .min()
        .map(|(.., at)| at);
    let texts = Texts { sources: &loaded.sources, catalogues: &loaded.catalogues, language };
    let Some(best) = best else {
        // Where several families failed, the way out of each would be the next one.
        let ways = match results.first() {
            Some((family, _)) => ways_out(&loaded.survey, family, texts),
            None => Vec::new(),
        };
        let text = match arguments.format {
            Format::Json | Format::Sarif => json(&results, None, &ways)?,
            Format::Text => {
                no_design(&results, language)
                    + &ways_words(&ways, &loaded.catalogues.catalogue().currency, language)
            }
        };
        output::put(&text, output)?;
        return Ok(ExitCode::from(1));
    };
    let choice = choice(arguments, &loaded, &mut results[best].1, &clock);
    let number = arguments.choose.map_or(1, usize::from);
    let Some(chosen) = choice.list.get(number - 1) else {
        return Err(NameRefusal::NoDesign { number, all: choice.list.len() }.into());
    };
    if let Some(file) = &arguments.output {
        files::write(file, chosen.design.text.as_bytes(), arguments.may_replace())?;
    }
    let currency = &loaded.catalogues.catalogue().currency;
    let text = match (arguments.format, &arguments.output) {
        (Format::Json | Format::Sarif, _) => json(&results, Some((&choice, number)), &[])?,
        (Format::Text, None) => chosen.design.text.clone(),
        (Format::Text, Some(file)) => {
            let shown = Shown { currency, file, has_kinds: arguments.kinds, language };
            let side_by_side =
                if arguments.cheapest { String::new() } else { choice_words(&choice, number, &shown) };
            report(&chosen.design, &side_by_side, &shown)
        }
    };
    output::put(&text, output)?;
    Ok(ExitCode::SUCCESS)
}

/// The cheapest design with others to choose from. The design that is given is changed where a cheaper one comes out.
fn choice(
    arguments: &DesignArguments,
    loaded: &LoadedSurvey,
    cheapest: &mut Result<Design, Obstacle>,
    clock: &Clock,
) -> Choice {
    let mut choice = Choice { list: Vec::new(), left_out: Vec::new(), cheaper_by: None };
    let Ok(design) = cheapest else { return choice };
    if arguments.cheapest {
        let merits = Merits::of(design);
        choice.list.push(Alternative { asked: Asked::Nothing, design: design.clone(), merits });
        return choice;
    }
    let language = arguments.language();
    let texts = Texts { sources: &loaded.sources, catalogues: &loaded.catalogues, language };
    let goes_on = clock.goes_on(1.0 - SHARE_OF_CHEAPEST);
    let mut go_on = |_: usize, _: Option<Money>, _: Money| goes_on();
    let effort = clock.effort(arguments.seed);
    choice = alternatives(&loaded.survey, design.clone(), texts, &clock.memory, effort, &mut go_on);
    if let Some(first) = choice.list.first() {
        *design = first.design.clone();
    }
    choice
}

/// How long is looked, and what was judged so far.
struct Clock {
    limit: Option<Duration>,
    memory: Memory,
}

/// Of the time to look in, what the cheapest gets where others are looked for, too.
const SHARE_OF_CHEAPEST: f64 = 2.0 / 3.0;

impl Clock {
    fn new(arguments: &DesignArguments) -> Clock {
        Clock { limit: arguments.time.map(Duration::from_secs_f64), memory: Memory::default() }
    }

    /// Whether further walking orders are wanted, from now on for this share of the time.
    #[expect(
        clippy::disallowed_methods,
        reason = "the clock is read here, where somebody set a time to look in"
    )]
    fn goes_on(&self, share: f64) -> impl Fn() -> bool + Send + use<> {
        let (started, limit) = (Instant::now(), self.limit.map(|limit| limit.mul_f64(share)));
        move || limit.is_none_or(|limit| started.elapsed() < limit)
    }

    fn effort(&self, seed: u64) -> Effort {
        let most_orders = if self.limit.is_some() { MOST_ORDERS } else { USUAL_ORDERS };
        Effort { orders: USUAL_ORDERS, most_orders, seed, ..Effort::default() }
    }
}

fn one(
    arguments: &DesignArguments,
    loaded: &LoadedSurvey,
    family: &str,
    clock: &Clock,
) -> Result<Design, Obstacle> {
    let language = arguments.language();
    let has_others = !arguments.cheapest && !arguments.compare;
    let goes_on = clock.goes_on(if has_others { SHARE_OF_CHEAPEST } else { 1.0 });
    let is_watched = arguments.time.is_some() && std::io::stderr().is_terminal();
    let texts = Texts { sources: &loaded.sources, catalogues: &loaded.catalogues, language };
    let mut go_on = |tried: usize, cost: Option<Money>, bound: Money| {
        if is_watched && let Some(cost) = cost {
            let words = DesignWords::Orders {
                family: &shown::name(family),
                orders: tried,
                cost: &amount(cost, language),
                bound: &amount(bound, language),
            };
            let line = format!("\r{} ", words.say(language));
            let _ = std::io::stderr().write_all(line.as_bytes());
        }
        goes_on()
    };
    let effort = clock.effort(arguments.seed);
    let result = design_remembering(&loaded.survey, family, texts, &clock.memory, effort, &mut go_on);
    if is_watched {
        let _ = std::io::stderr().write_all(b"\n");
    }
    result
}

fn families(arguments: &DesignArguments, loaded: &LoadedSurvey) -> Result<Vec<String>> {
    let known: Vec<String> = loaded.catalogues.catalogue().families.keys().cloned().collect();
    if arguments.compare {
        return Ok(known);
    }
    let settled = loaded.survey.settings.family.as_ref().map(|family| family.value.clone());
    match arguments.family.clone().or(settled) {
        None => Ok(known),
        Some(family) if known.contains(&family) => Ok(vec![family]),
        Some(family) => Err(PartRefusal::NoSuchFamily { family: &family, known: &known.join(", ") }.into()),
    }
}
