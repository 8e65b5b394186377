//! `latchline draw`: pictures of a site.

use super::locale::LocaleArguments;
use super::pictures::{self, numbered};
use crate::files::MayReplace;
use crate::load::Opened;
use crate::refusal::{Refusal, Result};
use crate::surroundings::{Colour, Surroundings};
use crate::{date, load};
use clap::{Args, ValueEnum};
use latchline_drawing::{
    BadSheetSize, SheetOptions, SheetSize, elevation, profiles, signal_sheets, start_up_sheets,
    switch_sheets, wiring_sheets,
};
use latchline_finding::shown;
use latchline_scene::Scene;
use latchline_scene::{Palette, dxf, svg};
use latchline_words::refusals::ResultRefusal;
use std::io::{Read, Write};
use std::path::{Path, PathBuf};
use std::process::ExitCode;

/// Draw the site: elevation, voltage profiles, switches, wiring of the locks, signal, power return
///
/// The elevation shows every device on its floor with its worst voltage, and every run as it goes;
/// large sites are cut into several sheets, with a line that says on which sheet each run continues. What does not fit on one sheet is written
/// to several files, numbered before the ending. Prints the name of every file written.
///
/// Exit status: 0 drawn, whatever the verdict; 2 the site cannot be used or a file not be written.
#[derive(Debug, Args)]
pub struct DrawArguments {
    /// The site file; `-` reads standard input
    site: PathBuf,
    /// File to write (.svg or .dxf), or a folder
    #[arg(short, long, value_name = "FILE|FOLDER")]
    output: PathBuf,
    /// What to draw; may be given several times if the output is a folder
    #[arg(long, value_enum, default_value = "elevation")]
    what: Vec<What>,
    /// Form of the files; without it the ending of the file decides, else SVG
    #[arg(long, value_enum)]
    format: Option<Format>,
    /// Sheet: a4, a4-upright, a3, a3-upright, letter, letter-upright, tabloid, phone, or WIDTHxHEIGHT in mm; without it what suits best
    #[arg(long, value_name = "SIZE", value_parser = sheet_size)]
    sheet: Option<SheetSize>,
    /// Colours for a dark page (SVG)
    #[arg(long)]
    dark: bool,
    /// Replace files that exist, even if they are no drawings of an earlier run
    #[arg(long)]
    force: bool,
    #[command(flatten)]
    locale: LocaleArguments,
    /// Date in the title block (YYYY-MM-DD)
    #[arg(long, value_name = "DATE")]
    date: Option<String>,
}

/// A size of sheet.
fn sheet_size(text: &str) -> Result<SheetSize> {
    text.parse().map_err(|bad: BadSheetSize| Refusal::new(bad.both()))
}

/// What to draw.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum What {
    /// Floors, devices and runs
    Elevation,
    /// Voltage against distance along each run
    Profiles,
    /// The switch settings of every station, at true scale
    Switches,
    /// The wiring of every lock
    Wiring,
    /// Loss of the signals at the weakest station against frequency
    Signal,
    /// Bus voltage against time when power returns
    StartUp,
}

impl What {
    fn word(self) -> &'static str {
        match self {
            What::Elevation => "elevation",
            What::Profiles => "profiles",
            What::Switches => "switches",
            What::Wiring => "wiring",
            What::Signal => "signal",
            What::StartUp => "start-up",
        }
    }
}

/// Form of the files.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Format {
    /// For browsers and documents
    Svg,
    /// For CAD programs, release 2010
    Dxf,
}

impl Format {
    fn ending(self) -> &'static str {
        match self {
            Format::Svg => "svg",
            Format::Dxf => "dxf",
        }
    }
}

/// Endings that nobody gives a folder, of forms that are not written.
const OTHER_FORMS: &[&str] =
    &["pdf", "png", "jpg", "jpeg", "gif", "webp", "dwg", "eps", "ps", "html", "xlsx", "csv", "json", "txt"];

/// Where the files go.
#[derive(Debug, PartialEq)]
struct Target {
    folder: Option<PathBuf>,
    /// Name of the file before its number and ending; in a folder what is drawn gives it.
    file: Option<PathBuf>,
    format: Format,
}

/// Runs the command.
///
/// # Errors
/// If a file cannot be read or written, or the arguments contradict each other.
pub fn run(
    arguments: &DrawArguments,
    surroundings: &Surroundings,
    input: &mut dyn Read,
    output: &mut dyn Write,
) -> Result<ExitCode> {
    let target = target(&arguments.output, arguments.format, arguments.what.len())?;
    let date = arguments.date.as_deref().map(|given| date::chosen(Some(given))).transpose()?;
    let Opened { session, files, .. } = load::open(&arguments.site, input)?;
    let view = session.view();
    let (Some(site), Some(assessment)) = (view.site(), view.assessment()?) else {
        let language = arguments.locale.locale().language;
        return super::refuse(&view, &surroundings.look(Colour::Never, false).in_language(language));
    };
    let stamp = load::stamp(&view, None, date);
    let options = SheetOptions {
        sheet: arguments.sheet,
        input: Some(stamp.short_input()),
        revision: Some(stamp.revision),
        date: stamp.date,
        number: None,
        warning: None,
        with_names: false,
        locale: arguments.locale.locale(),
    };
    let palette = if arguments.dark { Palette::Dark } else { Palette::Light };
    let mut sheets: Vec<(PathBuf, String)> = Vec::new();
    for what in &arguments.what {
        let scenes = match what {
            What::Elevation => elevation(site, assessment, &options),
            What::Profiles => profiles(site, assessment, &options),
            What::Switches => switch_sheets(site, &assessment.addresses, &options),
            What::Signal => signal_sheets(site, assessment, &options),
            What::StartUp => start_up_sheets(site, assessment, &options),
            What::Wiring => wiring_sheets(site, assessment, &options),
        };
        for (number, scene) in scenes.iter().enumerate() {
            let path = path(&target, *what, number + 1, scenes.len());
            sheets.push((path, text(scene, target.format, palette)));
        }
    }
    let may_replace = if arguments.force { MayReplace::Anything } else { MayReplace::OwnResult };
    pictures::put(&sheets, target.folder.as_deref(), &files, may_replace)?;
    for (path, _) in &sheets {
        writeln!(output, "{}", shown::whole(&path.to_string_lossy(), &[]))?;
    }
    Ok(ExitCode::SUCCESS)
}

fn text(scene: &Scene, format: Format, palette: Palette) -> String {
    match format {
        Format::Svg => svg::svg(scene, palette),
        Format::Dxf => dxf::dxf(scene),
    }
}

fn target(path: &Path, format: Option<Format>, pictures: usize) -> Result<Target> {
    let ending = path.extension().and_then(|ending| ending.to_str()).map(str::to_ascii_lowercase);
    let named = match ending.as_deref() {
        Some("svg") => Some(Format::Svg),
        Some("dxf") => Some(Format::Dxf),
        _ => None,
    };
    let file = &*path.display().to_string();
    match named {
        Some(named) if !path.is_dir() => {
            if format.is_some_and(|asked| asked != named) {
                return Err(ResultRefusal::OtherEnding { file }.into());
            }
            if pictures > 1 {
                return Err(ResultRefusal::SeveralPictures { file }.into());
            }
            Ok(Target { folder: None, file: Some(path.with_extension("")), format: named })
        }
        _ if !path.is_dir() && ending.as_deref().is_some_and(|ending| OTHER_FORMS.contains(&ending)) => {
            Err(ResultRefusal::PictureForm { file }.into())
        }
        _ if path.is_file() => Err(ResultRefusal::NoPictureFile { file }.into()),
        _ => {
            Ok(Target { folder: Some(path.to_path_buf()), file: None, format: format.unwrap_or(Format::Svg) })
        }
    }
}

/// The file of a sheet; a single one has no number.
fn path(target: &Target, what: What, number: usize, of: usize) -> PathBuf {
    let base = match (&target.file, &target.folder) {
        (Some(file), _) => file.clone(),
        (None, Some(folder)) => folder.join(what.word()),
        (None, None) => PathBuf::from(what.word()),
    };
    numbered(&base, (number, of), target.format.ending())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_output_decides_between_file_and_folder() {
        let file = target(Path::new("out/a.dxf"), None, 1).unwrap();
        assert_eq!(path(&file, What::Elevation, 1, 1), Path::new("out/a.dxf"));
        assert_eq!(path(&file, What::Elevation, 2, 3), Path::new("out/a-2.dxf"));
        let folder = target(Path::new("pictures"), Some(Format::Dxf), 2).unwrap();
        assert_eq!(path(&folder, What::Profiles, 1, 1), Path::new("pictures/profiles.dxf"));
        assert!(target(Path::new("a.svg"), Some(Format::Dxf), 1).is_err());
        assert!(target(Path::new("a.svg"), None, 2).is_err());
        assert!(target(Path::new("a.PDF"), None, 1).is_err());
    }
}
