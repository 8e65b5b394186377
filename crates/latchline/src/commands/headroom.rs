//! `latchline headroom`: how much more a site carries.

use super::written::{TextOrJson, WrittenArguments};
use crate::load::{self, Opened};
use crate::surroundings::{Colour, Surroundings};
use anyhow::Result;
use clap::Args;
use latchline_reach::{Headroom, MOST_METRES, MOST_MORE};
use latchline_report::Look;
use latchline_report::table::{Column, Set, Table, paragraph};
use latchline_words::commands::HeadroomWords;
use serde::Serialize;
use std::collections::BTreeSet;
use std::fmt::Write as _;
use std::io::{Read, Write};
use std::path::PathBuf;
use std::process::ExitCode;

/// How many more stations of each model, and how many more metres, each run and supply carries
///
/// Each figure is found by adding to a copy of the site and checking the whole of it again; the letter
/// beside it tells the finding that one more would bring.
#[derive(Debug, Args)]
pub struct HeadroomArguments {
    /// The site file; `-` reads standard input
    site: PathBuf,
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
    if view.assessment()?.is_none() {
        return super::refuse(&view, &look);
    }
    arguments.written.result.refuse(&files)?;
    surroundings.working(&HeadroomWords::Working.say(look.language));
    let list = view.headroom()?.unwrap_or_default();
    let text = match arguments.written.format {
        TextOrJson::Text => words(list, &look),
        TextOrJson::Json => json(list)?,
    };
    arguments.written.result.put(&text, &files, output)?;
    Ok(ExitCode::SUCCESS)
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
    let keys: Vec<String> =
        limits.iter().enumerate().map(|(number, limit)| format!("{} {limit}", mark(number))).collect();
    if !keys.is_empty() {
        let keys = say(HeadroomWords::OneMore { limits: &keys.join(", ") });
        let _ = write!(text, "\n{}", paragraph(&keys, 0, look.width));
    }
    text.push_str(&paragraph(&say(HeadroomWords::Spacing), 0, look.width));
    text.push_str(&paragraph(&say(HeadroomWords::Alone), 0, look.width));
    text
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
    headroom: Vec<OfElement>,
}

#[derive(Serialize)]
struct OfElement {
    element: String,
    stations: Vec<OfModel>,
    #[serde(skip_serializing_if = "Option::is_none")]
    metres: Option<Counted>,
}

#[derive(Serialize)]
struct OfModel {
    model: String,
    #[serde(flatten)]
    counted: Counted,
}

#[derive(Serialize)]
struct Counted {
    more: usize,
    #[serde(skip_serializing_if = "Option::is_none")]
    limit: Option<&'static str>,
}

fn json(list: &[Headroom]) -> Result<String> {
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
                })
                .collect(),
            metres: one.metres.as_ref().map(|more| Counted { more: more.metres, limit: more.limit }),
        })
        .collect();
    Ok(latchline_report::json::text(&Document {
        format_version: 1,
        latchline_version: env!("CARGO_PKG_VERSION"),
        headroom,
    })?)
}
