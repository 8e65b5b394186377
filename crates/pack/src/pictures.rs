//! The drawings of the pack, made by the drawing crate, and their files: SVG and DXF.

use crate::cards::card_set;
use latchline_drawing::{
    SheetOptions, SheetSize, elevation, job_card_sheets, overview, profiles, signal_sheets, start_up_sheets,
    switch_sheets, wiring_sheets,
};
use latchline_handover::Drawing;
use latchline_handover::PackFile;
use latchline_handover::options::{Paper, Part};
use latchline_handover::subject::Subject;
use latchline_handover::tables::{cautions, error_line, origin_line};
use latchline_scene::svg::xml_text;
use latchline_scene::{Palette, Scene, dxf, svg};

/// Name of the files of job cards.
const JOB_CARDS: &str = "job-cards";

/// Every drawing that is wanted.
pub fn drawings(subject: &Subject<'_>) -> Vec<Drawing> {
    let (site, assessment) = (subject.site, subject.assessment);
    let date = subject.stamp.date.as_ref().map(|date| subject.locale.date(date));
    // Letter in both ways; without a size the drawing chooses A4 or A3 itself.
    let (flat, upright) = match subject.options.paper {
        Paper::A4 => (None, None),
        Paper::Letter => (Some(SheetSize::LETTER), Some(SheetSize::LETTER_UPRIGHT)),
    };
    let sheet = |size: Option<SheetSize>, name: &str| SheetOptions {
        sheet: size,
        revision: Some(subject.stamp.revision.clone()),
        date: date.clone(),
        input: Some(subject.stamp.short_input()),
        number: Some(name.to_string()),
        warning: error_line(subject),
        with_names: subject.options.with_names,
        locale: subject.options.locale,
    };
    let mut drawings = Vec::new();
    for part in Part::ALL.iter().copied().filter(|part| subject.options.wants(*part)) {
        let Some(name) = name_of(part) else { continue };
        let (flat, upright) = (sheet(flat, name), sheet(upright, name));
        let sheets = match part {
            Part::Overview => overview(site, assessment, &flat),
            Part::Elevation => elevation_on(subject, &flat),
            Part::Profiles => profiles(site, assessment, &upright),
            Part::Signal => signal_sheets(site, assessment, &flat),
            Part::StartUp => start_up_sheets(site, assessment, &flat),
            Part::Cards => switch_sheets(site, &assessment.addresses, &upright),
            Part::JobCards => job_card_sheets(site, &card_set(subject), assessment, &upright),
            Part::LockWiring if !assessment.doors.is_empty() => wiring_sheets(site, assessment, &upright),
            _ => continue,
        };
        drawings.push(Drawing { part, name, sheets });
    }
    drawings
}

/// The elevation: where it does not fit on one letter sheet, on tabloid, as A3 follows A4.
fn elevation_on(subject: &Subject<'_>, options: &SheetOptions) -> Vec<Scene> {
    let sheets = elevation(subject.site, subject.assessment, options);
    if subject.options.paper == Paper::A4 || sheets.len() < 2 {
        return sheets;
    }
    let larger = SheetOptions { sheet: Some(SheetSize::TABLOID), ..options.clone() };
    elevation(subject.site, subject.assessment, &larger)
}

/// The name of the files of a part that is a drawing.
fn name_of(part: Part) -> Option<&'static str> {
    Some(match part {
        Part::Overview => "overview",
        Part::Elevation => "elevation",
        Part::Profiles => "profiles",
        Part::Signal => "signal",
        Part::StartUp => "start-up",
        Part::Cards => "switch-cards",
        Part::LockWiring => "lock-wiring",
        Part::JobCards => JOB_CARDS,
        _ => return None,
    })
}

/// The files of these drawings.
pub fn files(subject: &Subject<'_>, drawings: &[Drawing]) -> Vec<PackFile> {
    let mut files = Vec::new();
    for drawing in drawings {
        add(subject, drawing.name, &drawing.sheets, &mut files);
    }
    files
}

/// Adds the sheets of a drawing in both formats, each with a remark that says where it is from.
fn add(subject: &Subject<'_>, name: &str, scenes: &[Scene], files: &mut Vec<PackFile>) {
    let mut about = vec![origin_line(subject)];
    about.extend(error_line(subject));
    about.extend(cautions(&subject.locale).into_iter().map(String::from));
    for (index, scene) in scenes.iter().enumerate() {
        let number = index + 1;
        let metadata = xml_text(&about.join(" "));
        // The metadata element is the first child of the root, after its own start tag.
        let text = svg::svg(scene, Palette::Light);
        let text = match text.find(">\n") {
            Some(at) => format!("{}<metadata>{metadata}</metadata>\n{}", &text[..at + 2], &text[at + 2..]),
            None => text,
        };
        files.push(PackFile { name: format!("drawings/{name}-{number}.svg"), bytes: text.into_bytes() });
        // A job card is paper: nobody draws on it in CAD.
        if name == JOB_CARDS {
            continue;
        }
        // Group code 999 is a remark; each is one line.
        let remarks: String =
            about.iter().map(|line| format!("999\n{}\n", line.replace(['\r', '\n'], " "))).collect();
        let text = format!("{remarks}{}", dxf::dxf(scene));
        files.push(PackFile { name: format!("drawings/{name}-{number}.dxf"), bytes: text.into_bytes() });
    }
}
