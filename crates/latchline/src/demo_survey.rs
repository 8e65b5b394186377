//! The survey of the demo estate, as the workbook that somebody would have filled in on site.

use crate::refusal::{Refusal, Result};
use latchline_finding::Language;
use latchline_survey::sheets::SHEETS;
use latchline_survey::template;
use latchline_words::refusals::ResultRefusal;

/// Flats of each floor, from the ground up.
const FLATS: &[(&str, &[(&str, u32)])] = &[
    ("A", &[("G", 4), ("1", 5), ("2", 5), ("3", 5), ("4", 5)]),
    ("B", &[("G", 2), ("1", 5), ("2", 5), ("3", 5), ("4", 5)]),
];

/// Birch block's old bell cable: from, to, metres, loop resistance in ohm, insulation in Mohm.
const OLD_CABLES: &[(&str, &str, &str, &str, &str)] = &[
    ("B landing G", "B landing 1", "7", "1.29", "40"),
    ("B landing 1", "B landing 2", "3.5", "0.66", "40"),
    ("B landing G", "B landing 3", "14", "2.57", "40"),
    ("B landing 3", "B landing 4", "3.5", "0.67", "35"),
    ("B landing 1", "B-01", "11", "1.99", "20"),
    ("B-01", "B-02", "8", "1.46", "20"),
    ("B landing 1", "B-11", "5", "0.92", "20"),
    ("B-11", "B-12", "8", "1.46", "20"),
    ("B landing 1", "B-13", "7", "1.28", "20"),
    ("B-13", "B-14", "8", "1.46", "20"),
    ("B-14", "B-15", "8", "1.46", "20"),
    ("B landing 2", "B-21", "5", "0.92", "20"),
    ("B-21", "B-22", "8", "1.46", "20"),
    ("B landing 2", "B-23", "7", "1.28", "20"),
    ("B-23", "B-24", "8", "1.46", "20"),
    ("B-24", "B-25", "8", "1.46", "20"),
    ("B landing 3", "B-31", "5", "0.92", "20"),
    ("B-31", "B-32", "8", "1.46", "20"),
    ("B landing 3", "B-33", "7", "1.28", "20"),
    ("B-33", "B-34", "8", "1.46", "20"),
    ("B-34", "B-35", "8", "1.46", "20"),
    ("B landing 4", "B-41", "5", "0.92", "20"),
    ("B-41", "B-42", "8", "1.46", "20"),
    ("B landing 4", "B-43", "7", "1.28", "20"),
    ("B-43", "B-44", "8", "1.46", "20"),
    ("B-44", "B-45", "8", "1.46", "20"),
    ("B-45", "B-45:2", "4", "0.74", "20"),
];

/// A row of a sheet from its cells by heading.
fn row(sheet: &str, cells: &[(&str, &str)]) -> Vec<String> {
    let columns = SHEETS.iter().find(|form| form.name == sheet).map_or(&[][..], |form| form.columns);
    debug_assert!(
        cells.iter().all(|(name, _)| columns.iter().any(|column| column.heading == *name)),
        "{cells:?}"
    );
    let cell = |heading: &str| cells.iter().find(|(name, _)| *name == heading).map_or("", |(_, text)| text);
    columns.iter().map(|column| cell(column.heading).to_string()).collect()
}

/// The workbook. The same bytes every time.
///
/// # Errors
/// If the workbook cannot be built.
pub fn workbook(language: Language) -> Result<Vec<u8>> {
    let settings = [
        ("Title", "Quillmere Yard"),
        ("Country", "GB"),
        ("Family", "ostrel-48"),
        ("Largest silenced group", "12"),
        ("Standby hours", "3"),
        ("Thin margin", "1"),
        // The ways were walked with a measuring wheel, not paced.
        ("Length tolerance", "3"),
    ];
    let site = settings.iter().map(|(name, value)| row("Site", &[("Setting", name), ("Value", value)]));
    let buildings =
        [("A", "Alder block", "2.8"), ("B", "Birch block", "2.9")].map(|(name, title, height)| {
            let cells =
                [("Building", name), ("Title", title), ("Floors", "G; 1; 2; 3; 4"), ("Floor height", height)];
            row("Buildings", &cells)
        });
    let (mut places, mut routes, mut dwellings) = (Vec::new(), Vec::new(), Vec::new());
    let way = |from: &str, to: &str, length: &str, environment: &str| {
        let cells = [("From", from), ("To", to), ("Length", length), ("Environment", environment)];
        row("Routes", &cells)
    };
    for (building, floors) in FLATS {
        let mut below: Option<String> = None;
        for (floor, flats) in *floors {
            let landing = format!("{building} landing {floor}");
            let mains = if *floor == "G" { "yes" } else { "no" };
            let cells = [
                ("Place", landing.as_str()),
                ("Building", building),
                ("Floor", floor),
                ("Mains", mains),
                ("Boxes", "yes"),
            ];
            places.push(row("Places", &cells));
            if let Some(below) = &below {
                routes.push(way(below, &landing, "3.2", ""));
            }
            // The corridor: a tee in the ceiling before each flat.
            let mut before = landing.clone();
            for flat in 1..=*flats {
                let ground = if *floor == "G" { "0" } else { floor };
                let name = format!("{building}-{ground}{flat}");
                let tee = format!("{building} ceiling {ground}{flat}");
                let cells = [
                    ("Place", tee.as_str()),
                    ("Building", building),
                    ("Floor", floor),
                    ("Mains", "no"),
                    ("Boxes", "no"),
                ];
                places.push(row("Places", &cells));
                routes.push(way(&before, &tee, if flat == 1 { "3" } else { "5.5" }, ""));
                let mut cells = vec![("Dwelling", name.as_str()), ("Place", tee.as_str()), ("Drop", "1.5")];
                match name.as_str() {
                    "A-44" => cells.push(("Extensions", "1")),
                    "A-45" => cells.extend([("Extensions", "1"), ("Label", "Alder Loft")]),
                    "B-45" => cells.push(("Extensions", "ostrel-a1")),
                    _ => {}
                }
                dwellings.push(row("Dwellings", &cells));
                before = tee;
            }
            below = Some(landing);
        }
    }
    places.push(row(
        "Places",
        &[("Place", "gate post"), ("Mains", "no"), ("Boxes", "no"), ("Outdoors", "yes")],
    ));
    routes.push(way("A landing G", "B landing G", "28", "buried"));
    routes.push(way("A landing G", "gate post", "22", "buried"));
    let entrance = |name: &str, place: &str, calls: &str, more: &[(&str, &str)]| {
        let mut cells = vec![("Entrance", name), ("Place", place), ("Calls", calls)];
        cells.extend(more);
        row("Entrances", &cells)
    };
    let front = [
        ("Drop", "7"),
        ("Role", "main"),
        ("Outdoors", "yes"),
        ("Lock", "strike-12-safe"),
        ("Lock feed", "station"),
        ("Contact", "normally-closed"),
        ("Lock cable", "flex-1.0"),
        ("Lock length", "5"),
        ("Hold time", "3"),
        ("Suppression", "diode"),
        ("Exit button", "yes"),
        ("Mechanical escape", "yes"),
        ("Escape route", "yes"),
        ("Escape decided by", "fire risk assessor"),
        ("Escape decided on", "2026-03-02"),
        ("Fire interlock", "yes"),
        ("Control height", "0.95"),
    ];
    let gate = [
        ("Drop", "2"),
        ("Role", "secondary"),
        ("Outdoors", "yes"),
        ("Environment", "buried"),
        ("Lock", "gate-contact"),
        ("Lock feed", "dry-contact"),
        ("Hold time", "3"),
        ("Heater", "yes"),
        ("Control height", "1"),
        ("Surge protection", "1"),
    ];
    let bins = [
        ("Drop", "9"),
        ("Role", "secondary"),
        ("Outdoors", "yes"),
        ("Station", "ostrel-da1"),
        ("Lock", "strike-12"),
        ("Lock feed", "station"),
        ("Contact", "normally-open"),
        ("Lock cable", "flex-1.0"),
        ("Lock length", "4"),
        ("Hold time", "5"),
        ("Suppression", "diode"),
        ("Exit button", "yes"),
        ("Mechanical escape", "yes"),
        ("Escape route", "no"),
        ("Escape decided by", "fire risk assessor"),
        ("Escape decided on", "2026-03-02"),
        ("Control height", "0.95"),
    ];
    let entrances = vec![
        entrance("front-A", "A landing G", "A; lodge", &front),
        entrance("front-B", "B landing G", "B; lodge", &front),
        entrance("gate", "gate post", "everyone; lodge", &gate),
        entrance("bins", "B landing G", "everyone", &bins),
    ];
    let desks = vec![row(
        "Desks",
        &[("Desk", "lodge"), ("Place", "A landing G"), ("Drop", "6"), ("Calls", "everyone")],
    )];
    let existing = OLD_CABLES.iter().map(|(from, to, metres, loop_ohm, mohm)| {
        let cells = [
            ("From", *from),
            ("To", *to),
            ("Cable", "pair-0.5"),
            ("Length", metres),
            ("Loop", loop_ohm),
            ("Insulation", mohm),
        ];
        row("Existing cables", &cells)
    });
    let filling = [
        ("Site", site.collect()),
        ("Buildings", buildings.to_vec()),
        ("Places", places),
        ("Routes", routes),
        ("Existing cables", existing.collect()),
        ("Dwellings", dwellings),
        ("Entrances", entrances),
        ("Desks", desks),
    ];
    template::filled(&filling, language)
        .map_err(|error| Refusal::of_library(&error).within(ResultRefusal::NoWorkbook))
}
