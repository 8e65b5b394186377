//! `latchline practise`: a hidden fault that answers readings.

use crate::commands::locale::LanguageArguments;
use crate::load::{self, Opened};
use crate::refusal::{Refusal, Result};
use crate::surroundings::{Colour, Surroundings};
use clap::Args;
use latchline_answer::Reader;
use latchline_locate::input::{check, read_item};
use latchline_locate::practise::{Hidden, best_course, hide, minutes};
use latchline_locate::{Age, Cause, Evidence, Kind, Options, Plant, Quantity, Rates, hypotheses};
use latchline_network::Layout;
use latchline_words::locate::Answer;
use latchline_words::refusals::{NameRefusal, SiteRefusal};
use std::io::{Read, Write};
use std::path::PathBuf;
use std::process::ExitCode;

/// Readings after which the best course is given up.
const MOST_READINGS: usize = 15;

/// Find a fault that is hidden in a site, reading by reading
///
/// The seed decides what is hidden; the same seed gives the same fault and the same readings. Each run is told everything
/// asked so far: add one --ask after the other, then --answer. The score compares with the readings that tell most.
#[derive(Debug, Args)]
pub struct PractiseArguments {
    /// The site file; `-` reads standard input
    site: PathBuf,
    /// Which fault
    #[arg(long, default_value_t = 1)]
    seed: u64,
    /// A reading: @ringing, current:A-PS, loop:A-R1, capacitance:A-R1, insulation:A-R1, earth:A-R1
    #[arg(long, value_name = "READING")]
    ask: Vec<String>,
    /// What it is: KIND:ELEMENT, for example joint:A-12 for the section that leads to A-12
    #[arg(long, value_name = "CAUSE")]
    answer: Option<String>,
    /// Tell what is hidden
    #[arg(long)]
    reveal: bool,
    #[command(flatten)]
    language: LanguageArguments,
}

/// Runs the command.
///
/// # Errors
/// If the site cannot be read, or a reading cannot be taken there.
pub fn run(
    arguments: &PractiseArguments,
    surroundings: &Surroundings,
    input: &mut dyn Read,
    output: &mut dyn Write,
) -> Result<ExitCode> {
    let Opened { session, .. } = load::open(&arguments.site, input)?;
    let view = session.view();
    let Some(site) = view.site() else {
        return super::refuse(
            &view,
            &surroundings.look(Colour::Never, false).in_language(arguments.language.language()),
        );
    };
    let layout = Layout::new(site);
    let plant = Plant::new(site, &layout);
    let rates = Rates::built_in();
    let all = hypotheses(&plant, &rates, Age::InService);
    let Some(hidden) = hide(&plant, &all, arguments.seed) else {
        return Err(SiteRefusal::NothingToHide.into());
    };
    let language = arguments.language.language();
    let reader = Reader { site, language };
    if arguments.ask.is_empty() && arguments.answer.is_none() && !arguments.reveal {
        let seed = usize::try_from(arguments.seed).unwrap_or(usize::MAX);
        writeln!(output, "{}", Answer::Hidden { seed }.say(language))?;
        return Ok(ExitCode::SUCCESS);
    }
    let mut before: Option<Quantity> = None;
    let mut total = 0.0;
    for (number, text) in arguments.ask.iter().enumerate() {
        let quantity = asked(&plant, text, number + 1)?;
        let Some(measured) = hidden.answer(&quantity) else {
            return Err(SiteRefusal::CannotBeRead { reading: text }.into());
        };
        let took = minutes(&plant, &quantity, before.as_ref());
        total += took;
        let (reading, value) = (reader.reading(&quantity), reader.value(&quantity, measured.value));
        let words = Answer::Asked { reading: &reading, value: &value, minutes: took.round() as usize };
        writeln!(output, "{}", words.say(language))?;
        before = Some(quantity);
    }
    if let Some(answer) = &arguments.answer {
        judge(&reader, &hidden, answer, output)?;
        let options = Options::default();
        let course = best_course(&plant, &hidden, Evidence::default(), &rates, &options, MOST_READINGS);
        let score = Answer::Score {
            asked: arguments.ask.len(),
            minutes: f64::round(total) as usize,
            best: course.readings,
            best_minutes: course.minutes.round() as usize,
        };
        writeln!(output, "{}", score.say(language))?;
    }
    if arguments.answer.is_some() || arguments.reveal {
        let size = latchline_locate::Size::known(hidden.size);
        let size = hidden.cause.range.map(|_| reader.size(hidden.cause.cause.kind, &size));
        let element = reader.element(hidden.cause.cause.element);
        let words = Answer::Solution {
            cause: hidden.cause.cause.kind.say(language),
            element: element.as_deref(),
            size: size.as_deref(),
        };
        writeln!(output, "{}", words.say(language))?;
    }
    Ok(ExitCode::SUCCESS)
}

/// What is asked for: the same places, states and quantities as in a reading, without its value.
fn asked(plant: &Plant<'_>, text: &str, number: usize) -> Result<Quantity> {
    let unit = match text.split_once(':').map(|(quantity, _)| quantity) {
        Some("current") => "1 A",
        Some("loop") => "1 ohm",
        Some("insulation" | "earth") => "1 Mohm",
        Some("capacitance") => "1 nF",
        _ => "1 V",
    };
    let mut row =
        read_item(&format!("{text}={unit}!"), number).map_err(|problem| Refusal::new(problem.message))?;
    row.is_sure = true;
    let checked = check(plant, &[row]);
    if let Some(problem) = checked.problems.first() {
        return Err(Refusal::new(problem.message.clone()));
    }
    match checked.evidence.measured.into_iter().next() {
        Some(measured) => Ok(measured.quantity),
        None => Err(SiteRefusal::NoReading { reading: text }.into()),
    }
}

/// Whether the answer is right: kind and place, or the place alone.
fn judge(reader: &Reader<'_>, hidden: &Hidden<'_>, answer: &str, output: &mut dyn Write) -> Result<()> {
    let Some((kind, place)) = answer.split_once(':') else {
        return Err(NameRefusal::WriteCause.into());
    };
    let Some(kind) = Kind::of_name(kind.trim()) else {
        let known: Vec<String> = Kind::ALL.iter().map(|kind| kind.name()).collect();
        return Err(NameRefusal::NoCause { kind: kind.trim(), known: &known.join(", ") }.into());
    };
    let Cause { kind: hidden_kind, element } = hidden.cause.cause;
    let name = element.name(reader.site);
    let ends = element.place(reader.site).map(|at| latchline_locate::place_name(reader.site, at));
    let is_place = name == place.trim() || ends.as_deref() == Some(place.trim());
    let words = match (is_place, kind == hidden_kind) {
        (true, true) => Answer::Right,
        (true, false) => Answer::RightPlace,
        _ => Answer::Wrong,
    };
    writeln!(output, "{}", words.say(reader.language))?;
    Ok(())
}
