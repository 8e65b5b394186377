//! `latchline readings`: what came back from the phones, held against the plan.

mod locate;
mod words;

use self::locate::locate_file;
pub(super) use self::words::judged;
use self::words::{document, text};
use crate::commands::from_phones::{self, FromPhones};
use crate::commands::locale::LanguageArguments;
use crate::commands::written::TextOrJson;
use crate::failure::UNUSABLE;
use crate::files::{self, MayReplace, refuse_inputs, refuse_one_place, refuse_standing};
use crate::load;
use crate::refusal::Result;
use crate::surroundings::{Colour, Surroundings};
use clap::Args;
use latchline_finding::shown;
use latchline_phone::Comparison;
use latchline_words::commands::ReadingsWords;
use std::io::{Read, Write};
use std::path::PathBuf;
use std::process::ExitCode;

/// Take readings back from the phones: merge them, hold them against the plan, write them for locate
///
/// Takes the files that the phone page exports, in any order and as often as they come. Prints what is out of range, what two
/// phones read differently, snags, flats that were not entered and what is missing. With -o it writes the readings as
/// `latchline locate` takes them; with --merged all entries as one file for the phones to import, which then show them as on the laptop.
///
/// Exit status: 0 every reading is there and in range, 1 not or a file was not taken, 2 none could be.
#[derive(Debug, Args)]
pub struct ReadingsArguments {
    /// The site file
    site: PathBuf,
    /// Files that the phones exported
    #[arg(value_name = "FILE.json", required = true)]
    files: Vec<PathBuf>,
    /// Write the readings to this file, as `latchline locate` takes them
    #[arg(long, short, value_name = "FILE.toml")]
    output: Option<PathBuf>,
    /// Write all entries to this file, for the phones to import
    #[arg(long, value_name = "FILE.json")]
    merged: Option<PathBuf>,
    /// Replace a file that exists
    #[arg(long)]
    force: bool,
    /// Form of what is printed
    #[arg(long, value_enum, default_value_t = TextOrJson::Text)]
    format: TextOrJson,
    #[command(flatten)]
    language: LanguageArguments,
}

/// Runs the command.
///
/// # Errors
/// If the site or a file cannot be read, or a result not be written.
pub fn run(
    arguments: &ReadingsArguments,
    surroundings: &Surroundings,
    input: &mut dyn Read,
    output: &mut dyn Write,
) -> Result<ExitCode> {
    let language = arguments.language.language();
    let may_replace = |own: MayReplace<'static>| if arguments.force { MayReplace::Anything } else { own };
    let inputs: Vec<&PathBuf> = std::iter::once(&arguments.site).chain(&arguments.files).collect();
    let results: Vec<&PathBuf> = [&arguments.output, &arguments.merged].into_iter().flatten().collect();
    refuse_one_place(&results)?;
    for (file, own) in
        [(&arguments.output, MayReplace::Nothing), (&arguments.merged, MayReplace::OwnReadings)]
    {
        let Some(file) = file else { continue };
        refuse_inputs(&inputs, file)?;
        refuse_standing(file, may_replace(own))?;
    }
    let opened = load::open(&arguments.site, input)?;
    let view = opened.session.view();
    let Some(planned) = from_phones::plan(&view, language)? else {
        return crate::commands::refuse(
            &view,
            &surroundings.look(Colour::Never, false).in_language(language),
        );
    };
    let Some(FromPhones { merged, is_all }) = from_phones::take(&arguments.files, &planned.plan, language)?
    else {
        return Ok(ExitCode::from(UNUSABLE));
    };
    let from_phones::Planned { site, plan, options } = &planned;
    let tell = |words: ReadingsWords<'_>| from_phones::tell(&words.say(language));
    let found = Comparison::new(plan, &merged);
    let printed = match arguments.format {
        TextOrJson::Text => text(plan, &found, options.locale),
        TextOrJson::Json => latchline_report::json::text(&document(plan, &merged, &found))?,
    };
    crate::output::put(&printed, output)?;
    if let Some(file) = &arguments.output {
        let (text, count) = locate_file(site, plan, &found);
        let (name, site) = (&*shown::path(file), &*shown::path(&arguments.site));
        if count == 0 {
            tell(ReadingsWords::NoReadings { file: name });
        } else {
            files::write(file, text.as_bytes(), may_replace(MayReplace::Nothing))?;
            tell(ReadingsWords::WroteReadings { file: name, count, site });
        }
    }
    if let Some(file) = &arguments.merged {
        let text = serde_json::to_string_pretty(&merged.file(plan))? + "\n";
        files::write(file, text.as_bytes(), may_replace(MayReplace::OwnReadings))?;
        tell(ReadingsWords::WroteMerged { file: &shown::path(file), count: merged.events.len() });
    }
    let holds = is_all && merged.clashes.is_empty() && found.is_clean();
    Ok(ExitCode::from(u8::from(!holds)))
}
