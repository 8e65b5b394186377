//! The drawings of the pack, as SVG and DXF, made by the drawing crate.

use crate::PackFile;
use crate::options::{Paper, Part};
use crate::subject::Subject;
use crate::tables::{cautions, error_line, origin_line};
use latchline_drawing::scene::Scene;
use latchline_drawing::svg::escaped;
use latchline_drawing::{
    Palette, SheetOptions, SheetSize, dxf, elevation, profiles, signal_sheets, start_up_sheets, svg,
    switch_sheets, wiring_sheets,
};

/// Every drawing that is wanted.
pub fn drawings(subject: &Subject<'_>) -> Vec<PackFile> {
    let (site, assessment) = (subject.site, subject.assessment);
    let revision = Some(match subject.errors() {
        0 => subject.stamp.revision.clone(),
        errors => {
            let count = errors.to_string();
            let short = subject.locale.say(&crate::language::Sentence::ErrorsShort { count: &count });
            format!("{} {short}", subject.stamp.revision)
        }
    });
    let date = subject.stamp.date.as_ref().map(|date| subject.locale.date(date));
    // Letter in both ways; without a size the drawing chooses A4 or A3 itself.
    let (flat, upright) = match subject.options.paper {
        Paper::A4 => (None, None),
        Paper::Letter => (
            Some(SheetSize { width_mm: 279.4, height_mm: 215.9 }),
            Some(SheetSize { width_mm: 215.9, height_mm: 279.4 }),
        ),
    };
    let flat = SheetOptions { sheet: flat, revision, date, locale: subject.options.locale };
    let upright = SheetOptions { sheet: upright, ..flat.clone() };
    let mut files = Vec::new();
    if subject.options.wants(Part::Elevation) {
        add(subject, "elevation", &elevation(site, assessment, &flat), &mut files);
    }
    if subject.options.wants(Part::Profiles) {
        add(subject, "profiles", &profiles(site, assessment, &flat), &mut files);
    }
    if subject.options.wants(Part::Signal) {
        add(subject, "signal", &signal_sheets(site, assessment, &flat), &mut files);
    }
    if subject.options.wants(Part::StartUp) {
        add(subject, "start-up", &start_up_sheets(site, assessment, &flat), &mut files);
    }
    if subject.options.wants(Part::Cards) {
        add(subject, "switch-cards", &switch_sheets(site, &assessment.addresses, &upright), &mut files);
    }
    if subject.options.wants(Part::LockWiring) && !assessment.doors.is_empty() {
        add(subject, "lock-wiring", &wiring_sheets(site, assessment, &upright), &mut files);
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
        let metadata = escaped(&about.join(" "));
        // The metadata element is the first child of the root, after its own start tag.
        let text = svg::svg(scene, Palette::Light);
        let text = match text.find(">\n") {
            Some(at) => format!("{}<metadata>{metadata}</metadata>\n{}", &text[..at + 2], &text[at + 2..]),
            None => text,
        };
        files.push(PackFile { name: format!("drawings/{name}-{number}.svg"), bytes: text.into_bytes() });
        // Group code 999 is a remark; each is one line.
        let remarks: String =
            about.iter().map(|line| format!("999\n{}\n", line.replace(['\r', '\n'], " "))).collect();
        let text = format!("{remarks}{}", dxf::dxf(scene));
        files.push(PackFile { name: format!("drawings/{name}-{number}.dxf"), bytes: text.into_bytes() });
    }
}
