//! `latchline catalogue`: what parts there are, and how a part is written.

use super::locale::LanguageArguments;
use crate::failure::UNUSABLE;
use crate::output;
use crate::refusal::Result;
use crate::surroundings::{Colour, Surroundings};
use clap::Args;
use latchline_finding::{Severity, Sources};
use latchline_reach::telephone::cable_called;
use latchline_report::{Look, catalogue};
use latchline_site::{LoadedCatalogues, builtin_catalogue};
use latchline_words::commands::CatalogueHead;
use latchline_words::refusals::{PartRefusal, either};
use std::io::Write;
use std::path::PathBuf;
use std::process::ExitCode;

/// List the parts of the catalogue, or show one as it is written
///
/// Without a name, lists every part under its family with its leading figures, price, labour and the
/// line that defines it. With a name, prints that part's text with the numbers of its lines, which
/// findings cite.
#[derive(Debug, Args)]
pub struct CatalogueArguments {
    /// Name of a part or family
    name: Option<String>,
    /// Further catalogue files
    #[arg(long, value_name = "FILE")]
    catalogue: Vec<PathBuf>,
    /// Print the whole text of the built-in catalogue, to copy from
    #[arg(long, conflicts_with_all = ["name", "catalogue"])]
    whole: bool,
    #[command(flatten)]
    language: LanguageArguments,
}

/// A catalogue made of the built-in one and further files.
pub struct Parts {
    /// The texts.
    pub sources: Sources,
    /// What they say.
    pub loaded: LoadedCatalogues,
}

/// Reads the built-in catalogue and further files; `None` if they cannot be used, which standard error then says, every mistake at
/// its line.
///
/// # Errors
/// If a file cannot be read.
pub fn parts(further: &[PathBuf], look: &Look) -> Result<Option<Parts>> {
    let mut sources = Sources::new();
    let (name, text) = builtin_catalogue();
    let mut files = vec![sources.add(name, text)];
    for path in further {
        let text = crate::files::read_text(path, &mut std::io::empty())?;
        files.push(sources.add(path.display().to_string(), text));
    }
    let loaded = LoadedCatalogues::new(&sources, &files);
    let findings = loaded.checked();
    if !findings.is_empty() {
        super::tell(CatalogueHead::TheCatalogue.say(look.language), &sources, &findings, look);
    }
    let is_usable = findings.iter().all(|finding| finding.severity < Severity::Error);
    Ok(is_usable.then_some(Parts { sources, loaded }))
}

/// Runs the command.
///
/// # Errors
/// If a catalogue cannot be used or no part has the name.
pub fn run(
    arguments: &CatalogueArguments,
    surroundings: &Surroundings,
    output: &mut dyn Write,
) -> Result<ExitCode> {
    if arguments.whole {
        output::put(builtin_catalogue().1, output)?;
        return Ok(ExitCode::SUCCESS);
    }
    let look = surroundings.look(Colour::Auto, false).in_language(arguments.language.language());
    let Some(parts) = parts(&arguments.catalogue, &look)? else {
        return Ok(ExitCode::from(UNUSABLE));
    };
    let all = parts.loaded.catalogue();
    let text = match &arguments.name {
        None => catalogue::list(all, &parts.sources, &look),
        Some(name) => match catalogue::part(all, &parts.sources, name, &look).or_else(|| {
            // An everyday name of a cable.
            let cable = cable_called(all, name).ok()?;
            catalogue::part(all, &parts.sources, &cable.head.name, &look)
        }) {
            Some(text) => text,
            None => {
                let near = latchline_site::parse::NameBudget::default().nearest(name, catalogue::names(all));
                return Err(match near.as_slice() {
                    [] => PartRefusal::NoPart { name }.into(),
                    near => PartRefusal::NoPartNear { name, names: &either(near) }.into(),
                });
            }
        },
    };
    output::put(&text, output)?;
    Ok(ExitCode::SUCCESS)
}
