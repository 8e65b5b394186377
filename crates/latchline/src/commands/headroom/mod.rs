//! `latchline headroom`: how much more a site carries.

mod more;
mod words;

use self::words::{errors_of, places_of};
use crate::commands::written::{TextOrJson, WrittenArguments};
use crate::load::{self, Opened};
use crate::refusal::Result;
use crate::surroundings::{Colour, Surroundings};
use clap::Args;
use latchline_assess::Verdict;
use latchline_finding::ElementId;
use latchline_reach::{Headroom, MOST_METRES, MOST_MORE, More, NewRun};
use latchline_report::Look;
use latchline_report::table::{Column, Set, Table, hanging, paragraph};
use latchline_report::text::releases_said;
use latchline_site::catalogue::Environment;
use latchline_site::model::Site;
use latchline_words::codes::title_of;
use latchline_words::commands::HeadroomWords;
use latchline_words::figures;
use latchline_words::terms::Term;
use serde::Serialize;
use std::collections::BTreeSet;
use std::fmt::Write as _;
use std::io::{Read, Write};
use std::path::PathBuf;
use std::process::ExitCode;

/// How many more stations of each model, and how many more metres, each run and supply carries
///
/// Each figure is found by adding to a copy of the site and checking the whole of it again; the letter
/// beside it names the finding that one more would bring.
#[derive(Debug, Args)]
pub struct HeadroomArguments {
    /// The site file; `-` reads standard input
    site: PathBuf,
    /// Whether so many more dwellings work here, yes or no first, and where
    #[arg(long, value_name = "COUNT", value_parser = clap::value_parser!(u8).range(1..=64))]
    more: Option<u8>,
    /// Model of their stations [default: that of most dwellings here]
    #[arg(long, value_name = "MODEL", requires = "more")]
    station: Option<String>,
    #[command(flatten)]
    written: WrittenArguments<TextOrJson>,
}

/// Runs the command.
///
/// # Errors
/// If the site cannot be read or the result not be written.
pub fn run(
    arguments: &HeadroomArguments,
    surroundings: &Surroundings,
    input: &mut dyn Read,
    output: &mut dyn Write,
) -> Result<ExitCode> {
    arguments.written.result.refuse(&[&arguments.site])?;
    let Opened { session, files, .. } = load::open(&arguments.site, input)?;
    let view = session.view();
    let look = surroundings
        .look(Colour::Auto, arguments.written.result.is_named())
        .in_language(arguments.written.language.language());
    let Some(assessment) = view.assessment()? else { return crate::commands::refuse(&view, &look) };
    arguments.written.result.refuse(&files)?;
    if let (Some(wanted), Some(site)) = (arguments.more, view.site()) {
        let station = arguments.station.as_deref();
        let wanted = usize::from(wanted);
        let answer = more::answer(&view, site, &arguments.site, assessment, wanted, station, &look)?;
        let text = match arguments.written.format {
            TextOrJson::Text => answer.text(&look),
            TextOrJson::Json => answer.json()?,
        };
        arguments.written.result.put(&text, &files, output)?;
        return Ok(ExitCode::from(u8::from(!answer.works())));
    }
    let fails = assessment.verdict == Verdict::Fails;
    if !fails {
        surroundings.working(&HeadroomWords::Working.say(look.language));
    }
    let list = view.headroom()?.unwrap_or_default();
    let (errors, titles) = errors_of(assessment, &look);
    let text = match arguments.written.format {
        TextOrJson::Text => {
            let titles = &*titles;
            let block = |words: String| paragraph(&words, 0, look.width);
            let fails_today =
                HeadroomWords::FailsToday { errors, titles, command: &words::check_of(&arguments.site) }
                    .say(look.language);
            let accepted = HeadroomWords::FailsAsAccepted { errors, titles }.say(look.language);
            let not_judged = more::not_judged(assessment, look.language);
            let rest = not_judged.into_iter().chain(releases_said(assessment, look.language));
            let rest: String = rest.map(block).collect();
            let first = view.site().and_then(|site| first_sentence(list, site, &look));
            let first = first.map(|words| block(words) + "\n").unwrap_or_default();
            match (fails, errors) {
                (true, _) => block(fails_today) + &block(HeadroomWords::MoreCaution.say(look.language)),
                (false, 0) => first + &words(list, &look) + &rest,
                (false, _) => first + &block(accepted) + "\n" + &words(list, &look) + &rest,
            }
        }
        TextOrJson::Json => json(list, errors)?,
    };
    arguments.written.result.put(&text, &files, output)?;
    Ok(ExitCode::from(u8::from(fails)))
}

/// How many more of the model that most dwellings have, supply by supply: the sentence to say.
fn first_sentence(list: &[Headroom], site: &Site, look: &Look) -> Option<String> {
    let model = more::usual_model(site)?;
    let supplies = list.iter().filter(|one| site.supplies.iter().any(|supply| supply.id == one.id));
    let of_supplies: Vec<(&Headroom, &More)> = supplies
        .filter_map(|one| Some((one, one.stations.iter().find(|more| more.model == model)?)))
        .collect();
    let said = |(one, more): &(&Headroom, &More)| {
        let supply = &*one.id.to_string();
        match more.stations {
            0 => HeadroomWords::NoneOn {
                supply,
                title: &more.limit.map_or(String::new(), |code| title_of(code, look.language)),
            }
            .say(look.language),
            count => {
                let places = &*places_of(more, look);
                HeadroomWords::PlacedOn { count, supply, places }.say(look.language)
            }
        }
    };
    let of = &*of_supplies.iter().map(said).collect::<Vec<_>>().join("; ");
    let words = match of_supplies.iter().filter(|(_, more)| more.stations > 0).count() {
        0 => HeadroomWords::NotOneMore { model, of },
        1 => HeadroomWords::First { model, of },
        _ => HeadroomWords::FirstEach { model, of },
    };
    // What comes with so many is said in the same breath.
    let warned = of_supplies.iter().filter(|(_, more)| !more.warnings.is_empty()).map(|(one, more)| {
        let titles: Vec<String> = more.warnings.iter().map(|code| title_of(code, look.language)).collect();
        let (supply, titles) = (&*one.id.to_string(), &*titles.join("; "));
        HeadroomWords::MoreWarns { count: more.stations, supply: Some(supply), titles }.say(look.language)
    });
    let sentences: Vec<String> = std::iter::once(words.say(look.language)).chain(warned).collect();
    (!of_supplies.is_empty()).then(|| sentences.join(" "))
}

fn words(list: &[Headroom], look: &Look) -> String {
    let say = |words: HeadroomWords<'_>| words.say(look.language);
    let Some(first) = list.first() else { return say(HeadroomWords::NothingThere) + "\n" };
    let limits: BTreeSet<&str> = list
        .iter()
        .flat_map(|one| {
            let metres = one.metres.as_ref().and_then(|more| more.limit);
            one.stations.iter().filter_map(|more| more.limit).chain(metres)
        })
        .collect();
    let marked = |count: usize, highest: usize, limit: Option<&str>| {
        let mark = limit.and_then(|limit| limits.iter().position(|known| *known == limit)).map(mark);
        format!("{} {}", at_most(count, highest), mark.unwrap_or_default()).trim_end().to_string()
    };
    let mut columns = vec![Column::new("", "", "{}", Set::Words)];
    for more in &first.stations {
        columns.push(Column::new("", &more.model, format!("{{}} {}", more.model), Set::Number));
    }
    columns.push(Column::new("", say(HeadroomWords::Metres), "{} m", Set::Number));
    let mut table = Table::new(columns, 0);
    for one in list {
        let mut cells = vec![one.id.to_string()];
        cells.extend(one.stations.iter().map(|more| marked(more.stations, MOST_MORE, more.limit)));
        cells.push(
            one.metres.as_ref().map_or(String::new(), |more| marked(more.metres, MOST_METRES, more.limit)),
        );
        table.row(cells);
    }
    let mut text = paragraph(&say(HeadroomWords::Title), 0, look.width);
    let _ = write!(text, "\n{}", table.render(look));
    let keys: Vec<String> = limits
        .iter()
        .enumerate()
        .map(|(number, code)| format!("{}: {}", mark(number), title_of(code, look.language)))
        .collect();
    if !keys.is_empty() {
        let keys = say(HeadroomWords::OneMore { limits: &keys.join("; ") });
        let _ = write!(text, "\n{}", paragraph(&keys, 0, look.width));
    }
    text.push_str(&paragraph(&say(HeadroomWords::Spacing), 0, look.width));
    text.push_str(&paragraph(&say(HeadroomWords::Alone), 0, look.width));
    let spreads: Vec<String> = list.iter().filter_map(|one| spread_words(one, look)).collect();
    if !spreads.is_empty() {
        text.push_str(&paragraph(&say(HeadroomWords::Supplies), 0, look.width));
        spreads.iter().for_each(|line| text.push_str(&hanging("  ", line, look.width)));
    }
    for line in free_ports(list, look) {
        text.push_str(&paragraph(&line, 0, look.width));
    }
    text
}

/// Where the further stations of a supply are added.
fn spread_words(one: &Headroom, look: &Look) -> Option<String> {
    let of_model = |more: &More| {
        let placed = |(id, count): &(ElementId, usize)| {
            let at = &*id.to_string();
            HeadroomWords::Placed { count: *count, at }.say(look.language)
        };
        let places: Vec<String> = more.spread.iter().map(placed).collect();
        (!places.is_empty()).then(|| format!("{} {}", more.model, places.join(" + ")))
    };
    let of_models: Vec<String> = one.stations.iter().filter_map(of_model).collect();
    let of_models = &*of_models.join("; ");
    let supply = &*one.id.to_string();
    (!of_models.is_empty()).then(|| HeadroomWords::Spread { supply, of_models }.say(look.language))
}

/// What the new runs at free ports are taken to be, one sentence for all that are alike.
fn free_ports(list: &[Headroom], look: &Look) -> Vec<String> {
    let mut alike: Vec<(&NewRun, Vec<String>)> = Vec::new();
    for (one, new_run) in list.iter().filter_map(|one| Some((one, one.new_run.as_ref()?))) {
        match alike.iter_mut().find(|(known, _)| *known == new_run) {
            Some((_, ports)) => ports.push(one.id.to_string()),
            None => alike.push((new_run, vec![one.id.to_string()])),
        }
    }
    let metres = |value: f64| figures::decimals(figures::trimmed(value, 1), look.language);
    let say = |(new_run, ports): (&NewRun, Vec<String>)| {
        let environment = match new_run.environment {
            Environment::Indoors => Term::Indoors,
            Environment::Outdoors => Term::Outdoors,
            Environment::Buried => Term::Buried,
        };
        let environment = environment.both();
        HeadroomWords::FreePort {
            ports: &ports.join(", "),
            like: new_run.like.as_str(),
            cable: &new_run.cable,
            environment: environment.of(look.language),
            first: &metres(new_run.first_m),
            spacing: &metres(new_run.spacing_m),
        }
        .say(look.language)
    };
    alike.into_iter().map(say).collect()
}

/// The letter of a limit in the table.
fn mark(number: usize) -> String {
    let letter = |number: usize| char::from(b'a' + u8::try_from(number % 26).unwrap_or(0));
    if number < 26 {
        letter(number).to_string()
    } else {
        format!("{}{}", letter(number / 26 - 1), letter(number))
    }
}

fn at_most(count: usize, highest: usize) -> String {
    if count == highest { format!("{count}+") } else { count.to_string() }
}

#[derive(Serialize)]
struct Document {
    format_version: u32,
    latchline_version: &'static str,
    /// Errors that the site has as it is. While one stands nothing can be added, and there are no figures; where all are accepted, the
    /// figures tell what brings no further one.
    errors_today: usize,
    headroom: Vec<OfElement>,
}

#[derive(Serialize)]
struct OfElement {
    element: String,
    stations: Vec<OfModel>,
    #[serde(skip_serializing_if = "Option::is_none")]
    metres: Option<Counted>,
    /// What the run at a free port is taken to be.
    #[serde(skip_serializing_if = "Option::is_none")]
    new_run: Option<OfNewRun>,
}

#[derive(Serialize)]
struct OfNewRun {
    like: String,
    cable: String,
    environment: &'static str,
    first_m: f64,
    spacing_m: f64,
}

#[derive(Serialize)]
struct Placed {
    at: String,
    stations: usize,
}

#[derive(Serialize)]
struct OfModel {
    model: String,
    #[serde(flatten)]
    counted: Counted,
    /// Of a supply, where they are added.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    spread: Vec<Placed>,
    /// Of a supply, codes of warnings that so many bring and that are not there today.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    new_warnings: Vec<&'static str>,
}

#[derive(Serialize)]
struct Counted {
    more: usize,
    #[serde(skip_serializing_if = "Option::is_none")]
    limit: Option<&'static str>,
}

fn json(list: &[Headroom], errors_today: usize) -> Result<String> {
    let headroom = list
        .iter()
        .map(|one| OfElement {
            element: one.id.to_string(),
            stations: one
                .stations
                .iter()
                .map(|more| OfModel {
                    model: more.model.clone(),
                    counted: Counted { more: more.stations, limit: more.limit },
                    spread: more
                        .spread
                        .iter()
                        .map(|(at, stations)| Placed { at: at.to_string(), stations: *stations })
                        .collect(),
                    new_warnings: more.warnings.clone(),
                })
                .collect(),
            metres: one.metres.as_ref().map(|more| Counted { more: more.metres, limit: more.limit }),
            new_run: one.new_run.as_ref().map(|new_run| OfNewRun {
                like: new_run.like.to_string(),
                cable: new_run.cable.clone(),
                environment: new_run.environment.word(),
                first_m: new_run.first_m,
                spacing_m: new_run.spacing_m,
            }),
        })
        .collect();
    Ok(latchline_report::json::text(&Document {
        format_version: 1,
        latchline_version: env!("CARGO_PKG_VERSION"),
        errors_today,
        headroom,
    })?)
}
