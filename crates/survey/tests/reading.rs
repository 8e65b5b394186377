//! Surveys as people write them, good and bad: every mistake names its sheet, row and column.

use crate::told;
use latchline_finding::{FileId, Language, Origin};
use latchline_survey::table::{Sheet, Value, from_csv};
use latchline_survey::workbook::from_xlsx;
use latchline_survey::{Decision, Problem, Read, Who, read, template};
use proptest::prelude::*;

const PLACES: &str = "Place,Mains,Boxes\nhall,yes,yes\nlanding,no,yes\n";
const ROUTES: &str = "From,To,Length\nhall,landing,3.5\n";
const DWELLINGS: &str = "Dwelling,Place,Drop\nA1,hall,2\nA2,landing,2.5\n";
const LOCKED_IN_VAIN: &str =
    "Decision,What,To,Part\nroute,hall,attic,\ntogether,A1;A2,hall,\ntogether,A1,,\n";
const ENTRANCES: &str = "Entrance,Place,Drop\nfront,hall,1\n";

fn read_texts(texts: &[(&str, &str)]) -> Read {
    let mut problems = Vec::new();
    let sheets: Vec<Sheet> = texts
        .iter()
        .filter_map(|(name, text)| from_csv(FileId(0), name, text.as_bytes(), &mut problems))
        .collect();
    read(&sheets, problems)
}

fn usual(changed: &str, text: &str) -> Read {
    read_with(&[(changed, text)])
}

/// The usual survey with some sheets changed or added.
fn read_with(changed: &[(&str, &str)]) -> Read {
    let mut texts =
        vec![("places", PLACES), ("routes", ROUTES), ("dwellings", DWELLINGS), ("entrances", ENTRANCES)];
    for (name, text) in changed {
        match texts.iter_mut().find(|(known, _)| known == name) {
            Some(entry) => entry.1 = text,
            None => texts.push((name, text)),
        }
    }
    read_texts(&texts)
}

fn told(read: &Read) -> String {
    told::lines(&read.problems)
}

/// A survey with something wrong in every way that CSV files can have, and each as a finding carries the arguments
/// that its page promises.
#[test]
fn findings_carry_what_their_pages_promise() {
    let reads = [
        usual(
            "dwellings",
            "Dwelling,Place,Drop\nA1,hal,2\nA1,hall,lots\n,hall,1\nA1,hall,9000\nA/2,hall,\nA3,hall,#REF!\n",
        ),
        usual("dwellings", "Dwelling,Place,Drop\nA1,hall,2,5\nA2,landing,2,,x\n"),
        usual("dwellings", "Dwelling,Drop,Drop\nA1,2,2\n"),
        usual("dwellings", "Dwelling,Place,Remarks\nA1,hall,2\n"),
        usual("routes", "From,To,Length\nhall,hall,3\n"),
        usual("routes", "From,To,Length\n"),
        read_with(&[
            ("routes", "From,To,Length\n"),
            ("places", "Place,Mains,Boxes\nhall,yes,yes\nlanding,yes,yes\n"),
        ]),
        usual("places", "Place,Mains,Boxes\nhall,no,no\nlanding,no,no\n"),
        usual("places", "Place,Mains,Boxes\nhall,yes,no\nlanding,no,no\n"),
        usual("site", "Setting,Value\nHottest temperature,10\nColour,red\n"),
        usual("site", "Setting,Value\nHottest temperature,10\n"),
        usual("dwellings", "Dwelling,Place\n"),
        usual("dwellings", DOUBTFUL_DWELLINGS),
        usual("dwellings", SPACED_DWELLINGS),
        read_texts(&[
            ("buildings", "Building,Floors\nA,G;1\n"),
            ("places", DOUBTFUL_PLACES),
            ("routes", ROUTES),
            ("dwellings", DWELLINGS),
            ("entrances", ENTRANCES),
        ]),
        usual("routes", DOUBTFUL_ROUTES),
        usual("routes", "From,To,Length\nhall,landing,0\n"),
        usual("site", DOUBTFUL_SITE),
        usual("lifts", "Lift,Place\nL1,hall\n"),
        usual("routes", &format!("{}x\n", ROUTES.replace(",3.5\n", &format!(",3.5{}", ",".repeat(300))))),
        read_texts(&[("places", PLACES)]),
        usual("locked decisions", LOCKED_IN_VAIN),
        read_with(&[
            ("places", "Place,Mains,Boxes\nhall,yes,yes\nlanding,no,yes\nattic,no,yes\n"),
            ("routes", "From,To,Length\nhall,landing,3.5\nlanding,attic,3\n"),
            ("locked decisions", LOCKED_IN_VAIN),
        ]),
    ];
    let mut seen = std::collections::BTreeSet::new();
    for finding in reads.iter().flat_map(|read| &read.problems).map(Problem::finding) {
        seen.insert(finding.code.as_str());
        let promised = [
            latchline_survey::codes::arguments(finding.code),
            latchline_site::codes::arguments(finding.code),
        ]
        .concat();
        for (name, _) in &finding.arguments {
            assert!(
                promised.iter().any(|one| one.trim_end_matches('?') == *name),
                "{} carries {name}",
                finding.code
            );
        }
        for name in promised.iter().filter(|name| !name.ends_with('?')) {
            assert!(finding.argument(name).is_some(), "{} lacks {name}", finding.code);
        }
    }
    let of_workbooks =
        ["merged-cells", "not-a-workbook", "sheet-unreadable", "sheet-twice", "formula-without-value"];
    // What only a catalogue can say is told with the unknown parts, below.
    let elsewhere = [
        "too-many-rows",
        "too-many-cells",
        "unpacks-too-large",
        "withdrawal-without-part",
        "loop-not-of-cable",
        "part-of-another-family",
        "route-unlike-others",
        "floors-out-of-order",
    ];
    for doc in latchline_survey::codes::CODES {
        let code = doc.code.as_str();
        assert!(
            seen.contains(code) || of_workbooks.contains(&code) || elsewhere.contains(&code),
            "no survey in which {code} is found; there are {seen:?}"
        );
    }
}

const DOUBTFUL_DWELLINGS: &str = "Dwelling,Place,Drop\n1,hall,\n01,landing,3\n10,landing,0\n";
const SPACED_DWELLINGS: &str = "Dwelling,Place,Drop\nFlat 1,hall,2\nFlat  2,landing,3\nF3,landing,3\n";
const DOUBTFUL_PLACES: &str = "Place,Building,Floor,Mains,Boxes\nhall,A,,yes,yes\nlanding,A,1,no,yes\n";
const TOWER_PLACES: &str = "Place,Building,Floor,Mains,Boxes\n0,T,0,yes,yes\n1,T,1,no,yes\n2,T,2,no,yes\n3,T,3,no,yes\n4,T,4,no,yes\n";
const DOUBTFUL_ROUTES: &str = "From,To,Length\nhall,landing,3.5\nlanding,hall,9\n";
const DOUBTFUL_SITE: &str = "Setting,Value\nSlack,0.05\nLength tolerance,5\n";

/// 0 hours ask for no battery; a setting that stands twice is told at the second, and the first holds.
#[test]
fn settings_of_nothing_and_settings_twice() {
    let read = |site: &str| {
        read_texts(&[
            ("site", site),
            ("places", PLACES),
            ("routes", ROUTES),
            ("dwellings", DWELLINGS),
            ("entrances", ENTRANCES),
        ])
    };
    let hours = |site: &str| read(site).survey.unwrap().settings.standby_hours.map(|hours| hours.value);
    assert_eq!(hours("Setting,Value\nStandby hours,0\n"), None);
    assert_eq!(hours("Setting,Value\nStandby hours,4\n"), Some(4.0));
    let twice = read("Setting,Value\nTitle,One\nTitle,Two\n");
    assert_eq!(told(&twice), "site 3:1 name-used-twice, name Title, row 2, column Setting");
}

/// A cable to a place in the open runs in the open where nothing is said; what is said holds.
#[test]
fn a_way_to_a_place_outdoors_runs_outdoors() {
    use latchline_site::catalogue::Environment;
    let read = |routes: &str| {
        let read = read_texts(&[
            ("buildings", "Building,Floors\nA,G\n"),
            (
                "places",
                "Place,Building,Floor,Mains,Boxes,Outdoors\nhall,A,G,yes,yes,no\npost,A,G,no,no,yes\n",
            ),
            ("routes", routes),
            ("dwellings", "Dwelling,Place,Drop\nF1,hall,2\n"),
            ("entrances", "Entrance,Place,Drop,Role\ngate,post,1,main\n"),
        ]);
        let survey = read.survey.unwrap_or_else(|| panic!("{:?}", read.problems));
        (survey.routes.routes[0].environment, survey.entrances[0].environment)
    };
    assert_eq!(read("From,To,Length\nhall,post,22\n"), (Environment::Outdoors, Environment::Outdoors));
    let said = "From,To,Length,Environment\nhall,post,22,buried\n";
    assert_eq!(read(said), (Environment::Buried, Environment::Outdoors));
    let said = "From,To,Length,Environment\nhall,post,22,indoors\n";
    assert_eq!(read(said).0, Environment::Indoors);
}

/// What can be meant otherwise is a warning at its cell, and the survey is used as it is read.
#[test]
fn what_is_doubtful_is_told_at_its_cell_and_stands_in_no_way() {
    let buildings = ("buildings", "Building,Floors\nA,G;1\n");
    let with = |changed: &str, text: &str, more: Option<(&str, &str)>| {
        let mut texts =
            vec![("places", PLACES), ("routes", ROUTES), ("dwellings", DWELLINGS), ("entrances", ENTRANCES)];
        texts.extend(more);
        match texts.iter_mut().find(|(name, _)| *name == changed) {
            Some(entry) => entry.1 = text,
            None => texts.push((changed, text)),
        }
        read_texts(&texts)
    };
    let with_places = |places: &str, routes: &str| {
        let texts = [
            ("buildings", "Building,Floors\nT,0;1;2;3;4\n"),
            ("places", places),
            ("routes", routes),
            ("dwellings", "Dwelling,Place,Drop\nD1,4,2\n"),
            ("entrances", "Entrance,Place,Drop,Role\nfront,0,4,main\n"),
        ];
        read_texts(&texts)
    };
    let cases = [
        // The cell below Drop is empty; one with 0 is not.
        (
            with("dwellings", DOUBTFUL_DWELLINGS, None),
            "dwellings 2:3 drop-not-stated of 1\ndwellings 3:1 numbers-alike, name 01, other 1, row 2",
        ),
        // A Cyrillic letter that nobody can tell from a Latin one.
        (
            with("dwellings", "Dwelling,Place,Drop\nFl\u{430}t1,hall,2\nFlat1,landing,3\n", None),
            "dwellings 2:1 look-alike-name of Fl\u{430}t1, name Fl\u{430}t1, signs U+0430, other Flat1",
        ),
        // Told once, at the first of them.
        (
            with("dwellings", SPACED_DWELLINGS, None),
            "dwellings 2:1 names-made-one-word, written Flat 1, name Flat-1, others 1",
        ),
        (
            with("entrances", "Entrance,Place,Drop\nfront,hall,\n", None),
            "entrances 2:3 drop-not-stated of front",
        ),
        // Without the column nothing is said row by row; on a sheet without rows nothing at all.
        (
            with("dwellings", "Dwelling,Place\n1,hall\n2,landing\n", None),
            "dwellings 1:1 drop-column-missing, sheet Dwellings",
        ),
        (
            with("entrances", "Entrance,Place,Role\nfront,hall,main\n", None),
            "entrances 1:1 drop-column-missing, sheet Entrances",
        ),
        (with("desks", "Desk,Place\nlodge,hall\n", None), "desks 1:1 drop-column-missing, sheet Desks"),
        (with("desks", "Desk,Place\n", None), ""),
        (with("places", DOUBTFUL_PLACES, Some(buildings)), "places 2:3 place-without-floor of hall"),
        (with("routes", DOUBTFUL_ROUTES, None), "routes 3:3 route-twice, from landing, to hall, row 2"),
        (
            with("routes", "From,To,Length\nhall,landing,0\n", None),
            "routes 2:3 route-without-length, from hall, to landing",
        ),
        // A slip of the decimal point in a riser of 8 m a floor; by hand: 80 / 1 against the middle of 8, 8 and 8.5.
        (
            with_places(TOWER_PLACES, "From,To,Length\n0,1,8\n1,2,80\n2,3,8\n3,4,8.5\n"),
            "routes 3:3 route-unlike-others, from 1, to 2, length 80, usual 8",
        ),
        // 0, 1, 3, 2: up past the second floor and down again; from a hub at the top two ways down are no riser.
        (
            with_places(TOWER_PLACES, "From,To,Length\n0,1,8\n1,3,16\n3,2,8\n3,4,8\n"),
            "routes 3:2 floors-out-of-order, from 1, to 3, between 2",
        ),
        (with_places(TOWER_PLACES, "From,To,Length\n4,3,8\n4,2,16\n4,1,24\n4,0,32\n"), ""),
        (with_places(TOWER_PLACES, "From,To,Length\n0,1,8\n1,2,8\n2,3,8\n3,4,8\n"), ""),
        (with("site", DOUBTFUL_SITE, None), "site 2:2 percentage-below-one, found 0.05, column Value"),
        (with("lifts", "Lift,Place\nL1,hall\n", None), "lifts 1:1 sheet-unknown, sheet lifts, nearest "),
        (with("instructions", "Fill in the sheets\n", None), ""),
        (with("dwellings", "Dwelling,Place,Drop\nA10,hall,1\nA100,hall,1\nA0,hall,1\nA,hall,1\n", None), ""),
    ];
    for (read, wanted) in cases {
        assert_eq!(told(&read), wanted);
        assert!(read.survey.is_some(), "{wanted}");
    }
    // 0.05 is what it is read as, and said to be.
    let slack = with("site", DOUBTFUL_SITE, None).survey.expect("usable").settings.slack;
    assert!((slack - 0.0005).abs() < 1e-12, "{slack}");
}

/// Locked decisions as they are meant, and what is wrong with a row at its cell.
#[test]
fn locked_decisions_are_understood() {
    let rows = |rows: &str| {
        let text = format!("Decision,What,To,Part\n{rows}");
        read_with(&[("locked decisions", &text)])
    };
    let read = rows(
        "supply,landing,,\nbox,landing,,ostrel-d8t\nroute,landing,hall,\ncable,A1;front,,pair-0.8\ntogether,A1..A2,,\nNot through,A2,,\n",
    );
    assert_eq!(told(&read), "");
    let survey = read.survey.expect("usable");
    assert!(survey.places[1].mains && survey.routes.routes[0].is_locked);
    let decisions: Vec<&Decision> = survey.locked.iter().map(|locked| &locked.decision).collect();
    assert!(matches!(decisions[0], Decision::Supply { place: 1 }));
    assert!(
        matches!(decisions[1], Decision::Box { place: 1, model: Some(model) } if model.value == "ostrel-d8t")
    );
    assert!(matches!(decisions[2], Decision::Route { from: 1, to: 0 }));
    let Decision::Cable { who, .. } = decisions[3] else { panic!("{decisions:?}") };
    assert_eq!(who[..], [Who::Entrance(0), Who::Dwelling(0)]);
    assert!(matches!(decisions[4], Decision::Together { dwellings } if dwellings[..] == [0, 1]));
    assert!(matches!(decisions[5], Decision::NotThrough { dwellings } if dwellings[..] == [1]));
    let wrong = [
        ("route,hall,cellar,\n", "locked decisions 2:3 unknown-name"),
        ("box,roof,,\n", "locked decisions 2:2 unknown-name"),
        ("together,A1;A9,,\n", "locked decisions 2:2 unknown-name"),
        ("weld,A1,,\n", "locked decisions 2:1 unknown-name"),
        (",A1,,\n", "locked decisions 2:1 cell-empty"),
        ("together,A1;A2,,\ntogether,A2,,\n", "locked decisions 3:2 decisions-contradict"),
        ("not through,A1,,pair-0.8\n", "locked decisions 2:4 cell-without-use"),
        ("box,hall,landing,\n", "locked decisions 2:3 cell-without-use"),
        ("box,hall,,a\nbox,hall,,b\n", "locked decisions 3:2 decisions-contradict"),
    ];
    for (text, wanted) in wrong {
        let read = rows(text);
        assert!(told(&read).starts_with(wanted), "{text}: {}", told(&read));
    }
    let three = read_with(&[
        ("places", "Place,Mains,Boxes\nhall,yes,yes\nlanding,no,yes\nattic,no,yes\n"),
        ("routes", "From,To,Length\nhall,landing,3.5\nlanding,attic,3\n"),
        ("locked decisions", "Decision,What,To\nroute,hall,attic\n"),
    ]);
    assert!(told(&three).contains("locked-route-unknown, from hall, to attic"), "{}", told(&three));
}

/// Policies are read with their cells, and a place in a dwelling takes boxes only where they may be.
#[test]
fn policies_that_steer_are_read() {
    let site =
        "Setting,Value\nLeast margin,\"1,5\"\nNo warnings,yes\nOne cable type,no\nBoxes in dwellings,no\n";
    let places = "Place,Mains,Boxes,In a dwelling\nhall,yes,yes,no\nlanding,no,yes,yes\n";
    let read = read_with(&[("site", site), ("places", places)]);
    assert_eq!(told(&read), "");
    let survey = read.survey.expect("usable");
    let settings = &survey.settings;
    assert_eq!(settings.least_margin_v.as_ref().map(|margin| margin.value), Some(1.5));
    assert_eq!(settings.no_warnings.as_ref().map(|strict| strict.value), Some(true));
    assert_eq!(settings.one_cable_type.as_ref().map(|one| one.value), Some(false));
    assert!(survey.may_hang(0) && !survey.may_hang(1));
}

/// Headings without a row are no entrances.
#[test]
fn a_sheet_of_headings_alone_is_missing() {
    let read = usual("entrances", "Entrance,Place\n");
    assert!(told(&read).contains("entrances 1:1 sheet-missing, sheet Entrances"), "{}", told(&read));
    assert!(read.survey.is_none());
}

/// By hand: 0.8 mm has 17.241/(0.25 pi 0.64) = 34.3 ohm/km, 68.6 of both conductors: 40 m have 2.74 ohm. 6.9 ohm and 0.7 ohm are far from it, 4
/// ohm are not; a metre of cable with half an ohm is not told, nor a loop without a length, which makes the length.
#[test]
fn what_only_the_catalogue_shows_is_told_at_its_cell() {
    let mut sources = latchline_finding::Sources::new();
    let (name, text) = latchline_site::builtin_catalogue();
    let file = sources.add(name, text);
    let catalogues = latchline_site::LoadedCatalogues::new(&sources, &[file]);
    let unknown = |read: &Read| {
        told::lines(&latchline_survey::unknown_parts(read.draft.as_ref().unwrap(), catalogues.catalogue()))
    };
    let loops = "From,To,Cable,Length,Loop\nhall,landing,pair-0.8,40,6.9\nhall,A1,pair-0.8,40,0.7\n\
                 hall,A2,pair-0.8,40,4\nlanding,A2,pair-0.8,1,0.5\nlanding,A1,pair-0.8,,6.9\n";
    let read = usual("existing cables", loops);
    assert!(read.survey.is_some(), "{}", told(&read));
    let lines = unknown(&read);
    let rows: Vec<&str> = lines.lines().collect();
    assert_eq!(rows.len(), 2, "{lines}");
    assert!(
        rows[0].starts_with("existing cables 2:3 loop-not-of-cable, loop 6.9, cable pair-0.8, expected 2.7"),
        "{lines}"
    );
    assert!(rows[1].starts_with("existing cables 3:3 loop-not-of-cable, loop 0.7"), "{lines}");
    let door = usual("dwellings", "Dwelling,Place,Drop,Station\nA1,hall,2,ostrel-dv1\n");
    assert_eq!(
        unknown(&door),
        "dwellings 2:4 wrong-kind-of-part, name ostrel-dv1, found door station, expected indoor station"
    );
    let flat = usual("entrances", "Entrance,Place,Station\nfront,hall,ostrel-v4\n");
    assert!(
        unknown(&flat).contains("entrances 2:3 wrong-kind-of-part, name ostrel-v4"),
        "{}",
        unknown(&flat)
    );
    let mixed = read_with(&[
        ("site", "Setting,Value\nFamily,ostrel-48\n"),
        ("dwellings", "Dwelling,Place,Drop,Station\nA1,hall,2,mossop-t1\nA2,landing,2,ostrel-v4\n"),
    ]);
    let lines = unknown(&mixed);
    assert!(
        lines.starts_with("dwellings 2:4 part-of-another-family, name mossop-t1, family mossop-"),
        "{lines}"
    );
    assert!(lines.contains(", expected ostrel-48, choices ostrel-") && lines.lines().count() == 1, "{lines}");
    let withdrawn = usual("site", "Setting,Value\nWithdrawn parts,ostrel-v4; ostrel-z9\n");
    assert!(
        unknown(&withdrawn).starts_with("site 2:2 withdrawal-without-part, name ostrel-z9, nearest ostrel-"),
        "{}",
        unknown(&withdrawn)
    );
}

#[test]
fn columns_are_found_in_any_order_and_spelling() {
    let text = "\u{feff}drop (m);  PLACE ;Dweling\n2,5;hall;A1\n\n;landing;A2\n";
    let survey = usual("dwellings", text).survey.expect("usable");
    assert_eq!(survey.dwellings.len(), 2);
    assert_eq!(survey.dwellings[0].drop_m, 2.5);
    match &survey.dwellings[1].name.origin {
        Origin::Cell { sheet, row, column, .. } => {
            assert_eq!((sheet.as_ref(), *row, *column), ("dwellings", 4, 3), "blank rows keep their number");
        }
        other => panic!("{other:?}"),
    }
}

#[test]
fn every_mistake_of_every_sheet_is_told_with_its_cell() {
    let read = usual("dwellings", "Dwelling,Place,Drop\nA1,hal,2\nA1,hall,lots\n,hall,1\nA1,hall,3\n");
    assert!(read.survey.is_none());
    let told = told(&read);
    for wanted in [
        "dwellings 2:2 unknown-name, kind place, name hal, nearest hall",
        "dwellings 3:3 cell-not-understood, found lots, expected a length in metres",
        "dwellings 4:1 cell-empty, column Dwelling",
        "dwellings 5:1 name-used-twice, name A1, row 2, column Dwelling",
    ] {
        assert!(told.contains(wanted), "{wanted}\n---\n{told}");
    }
}

#[test]
fn a_dwelling_off_the_routes_and_a_site_without_mains_are_told() {
    let read = usual("routes", "From,To,Length\n");
    assert!(told(&read).contains("dwellings 3:1 off-the-routes of A2, place landing"));
    // One cause, one finding, however many are cut off.
    let many = "Dwelling,Place,Drop\nA1,hall,2\nA2,landing,2\nA3,landing,2\nA4,landing,2\n";
    assert!(!told(&usual("dwellings", many)).contains("off-the-routes"));
    let cut = told(&read_with(&[("dwellings", many), ("routes", "From,To,Length\n")]));
    assert_eq!(cut.matches("off-the-routes").count(), 1, "{cut}");
    assert!(cut.contains("off-the-routes of A2, place landing, others 2"), "{cut}");
    let read = usual("places", "Place,Mains,Boxes\nhall,no,yes\nlanding,no,yes\n");
    assert!(told(&read).contains("no-place-with-mains"));
}

/// Two houses that no route joins: each has mains and its own door, so they are two systems in one survey; a door that calls across is told.
#[test]
fn houses_that_no_route_joins_may_stand_apart() {
    let sheets = |calls: &str| {
        let entrances =
            format!("Entrance,Place,Drop,Role,Calls\nleft,hall,3,main,A1\nright,landing,3,main,{calls}\n");
        let places = "Place,Mains,Boxes\nhall,yes,yes\nlanding,yes,yes\n";
        read_with(&[("routes", "From,To,Length\n"), ("places", places), ("entrances", &entrances)])
    };
    let apart = sheets("A2");
    assert!(apart.survey.is_some(), "{}", told(&apart));
    let across = told(&sheets("A1;A2"));
    assert!(across.contains("no-route-to-called of right, called A1"), "{across}");
    assert!(!across.contains("off-the-routes"), "{across}");
}

/// Words of "Calls" are understood or told at their cell; a range means the dwellings that are there between its ends.
#[test]
fn who_is_called_is_understood_or_told_at_its_cell() {
    let dwellings =
        "Dwelling,Place,Drop\nB-01,hall,2\nB-02,hall,2\nB-11,landing,2\nB-12,landing,2\nFlat 7,hall,2\n";
    let calls = |calls: &str| {
        let entrances = format!("Entrance,Place,Drop,Role,Calls\nfront,hall,3,main,{calls}\n");
        read_with(&[("dwellings", dwellings), ("entrances", &entrances)])
    };
    let range = calls("B-01..B-12; Flat 7").survey.expect("a survey");
    assert_eq!(range.entrances[0].calls, ["B-01", "B-02", "B-11", "B-12", "Flat-7"]);
    let wrong = told(&calls("B-02; B--12"));
    assert!(wrong.contains("entrances 2:5 unknown-name, kind dwelling, floor or building (column Calls), name B--12, nearest B-12"), "{wrong}");
    let open_ended = told(&calls("B-01..B-99"));
    assert!(
        open_ended.contains("unknown-name, kind dwelling, floor or building (column Calls), name B-01..B-99"),
        "{open_ended}"
    );
}

#[test]
fn too_many_rows_are_refused_at_once() {
    let mut text = String::from("Dwelling,Place\n");
    for row in 0..100_000 {
        text += &format!("A{row},hall\n");
    }
    let read = usual("dwellings", &text);
    assert!(told(&read).contains("dwellings 20001:1 too-many-rows, limit 20000"), "{}", told(&read));
}

#[test]
fn contradictions_and_unknown_settings_are_told() {
    let read = usual("site", "Setting,Value\nHottest temperature,10\nWirring,stars\nColour,red\n");
    let told = told(&read);
    assert!(told.contains("site 4:1 unknown-setting, name Colour"), "{told}");
    let read = usual("site", "Setting,Value\nHottest temperature,10\n");
    assert!(read.survey.is_none());
}

#[test]
fn the_template_is_a_workbook_that_reads_back_and_its_bytes_repeat() {
    let bytes = template::empty(Language::English).expect("a workbook");
    assert_eq!(bytes, template::empty(Language::English).expect("a workbook"));
    let mut problems = Vec::new();
    let sheets = from_xlsx(FileId(0), &bytes, &mut problems);
    assert!(problems.is_empty(), "{problems:?}");
    assert_eq!(sheets.len(), latchline_survey::sheets::SHEETS.len() + 1);
    // Empty: nothing to design, and no way in.
    let read = read(&sheets, problems);
    assert!(
        told(&read).contains("no-dwellings") && told(&read).contains("sheet Entrances"),
        "{}",
        told(&read)
    );
}

/// What explains is in the reader's language; what the file is known by is the same.
#[test]
fn the_template_explains_in_german_and_keeps_its_keys() {
    let in_language = |language| {
        let mut problems = Vec::new();
        let bytes = template::empty(language).expect("a workbook");
        let sheets = from_xlsx(FileId(0), &bytes, &mut problems);
        assert!(problems.is_empty(), "{}", told::lines(&problems));
        sheets
    };
    let (english, german) = (in_language(Language::English), in_language(Language::German));
    assert_eq!(english[1..], german[1..], "every sheet to fill in is the same");
    let texts = |sheet: &Sheet| -> Vec<String> {
        let cells = sheet.rows.iter().flat_map(|(_, cells)| cells);
        cells
            .filter_map(|cell| if let Value::Text(text) = &cell.value { Some(text.clone()) } else { None })
            .collect()
    };
    let german = texts(&german[0]);
    assert!(german.iter().any(|text| text == "Einstellung. Titel der Anlage."), "{german:?}");
    let left: Vec<&String> =
        german.iter().filter(|text| text.contains(" the ") || text.contains(" with ")).collect();
    assert!(left.is_empty(), "{left:?}");
}

#[test]
fn a_filled_workbook_gives_the_survey_that_was_filled_in() {
    let row = |cells: &[&str]| cells.iter().map(|cell| (*cell).to_string()).collect::<Vec<_>>();
    let bytes = template::filled(
        &[
            ("Places", vec![row(&["hall", "", "", "", "yes", "yes"])]),
            ("Dwellings", vec![row(&["01", "hall", "2.5"]), row(&["2", "hall"])]),
            ("Entrances", vec![row(&["front", "hall", "8"])]),
        ],
        Language::English,
    )
    .expect("a workbook");
    let mut problems = Vec::new();
    let sheets = from_xlsx(FileId(0), &bytes, &mut problems);
    let read = read(&sheets, problems);
    let survey = read.survey.unwrap_or_else(|| panic!("{:?}", read.problems));
    assert_eq!(survey.dwellings[0].name.value, "01", "a name of digits keeps its nought");
    assert_eq!(survey.dwellings[1].name.value, "2");
    assert_eq!(survey.dwellings[0].drop_m, 2.5);
}

#[test]
fn what_is_no_workbook_is_said_so() {
    let mut problems = Vec::new();
    assert!(from_xlsx(FileId(0), b"not a workbook", &mut problems).is_empty());
    assert_eq!(problems[0].finding().code, latchline_survey::codes::NOT_A_WORKBOOK);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    /// Whatever stands in the files, reading ends and never panics.
    #[test]
    fn any_text_is_read_or_refused(text in "[A-Za-z0-9,;\"\n .-]{0,200}", name in 0usize..4) {
        let names = ["places", "routes", "dwellings", "entrances"];
        let _ = usual(names[name], &text);
    }
}

/// Parts that no catalogue has are mistakes like any other: each with its cell, all at once, and beside what else is wrong.
#[test]
fn unknown_parts_are_told_with_their_cells_beside_all_other_mistakes() {
    let read = read_texts(&[
        ("site", "Setting,Value\nFamily,ostrel-84\nCables,pair-0.8; pair-08\n"),
        ("places", PLACES),
        ("routes", ROUTES),
        ("dwellings", "Dwelling,Place,Drop,Station\nA1,hall,2,ostrel-v44\nA2,landing,lots,\n"),
        ("entrances", "Entrance,Place,Lock,Lock cable\nfront,hall,strike-13,flex-1\n"),
    ]);
    assert!(read.survey.is_none(), "the drop of A2 is no length");
    let mut sources = latchline_finding::Sources::new();
    let (name, text) = latchline_site::builtin_catalogue();
    let file = sources.add(name, text);
    let catalogues = latchline_site::LoadedCatalogues::new(&sources, &[file]);
    let unknown = latchline_survey::unknown_parts(read.draft.as_ref().unwrap(), catalogues.catalogue());
    let told = told::lines(&unknown);
    for name in ["ostrel-84", "pair-08", "ostrel-v44", "strike-13", "flex-1"] {
        assert!(told.contains(&format!("name {name},")), "{name}: {told}");
    }
    assert_eq!(unknown.len(), 5, "{told}");
    assert!(unknown.iter().all(|problem| problem.origin != Origin::None), "{told}");
}

/// A cable of unknown length whose loop was measured. IEC 60228:2004 table 3, class 5: 13.3 ohm/km at 1.5 mm² and 20 °C; the clips of the meter as
/// four terminals of 0.01 ohm: (0.70 - 0.04)/0.0266 = 24.812 m by hand.
#[test]
fn a_length_is_left_to_the_measured_loop() {
    let cables = |row: &str| usual("existing", &format!("From,To,Cable,Length,Loop\n{row}\n"));
    let read = cables("hall,A1,flex-1.5,,0.70");
    let survey = read.survey.unwrap_or_else(|| panic!("{:?}", read.problems));
    let mut sources = latchline_finding::Sources::new();
    let (name, text) = latchline_site::builtin_catalogue();
    let file = sources.add(name, text);
    let catalogues = latchline_site::LoadedCatalogues::new(&sources, &[file]);
    let cable = &catalogues.catalogue().cables["flex-1.5"];
    let length_m = survey.existing[0].length_m(cable, 20.0).unwrap();
    assert!((length_m - 24.812).abs() < 1e-3, "{length_m}");
    let stated = cables("hall,A1,flex-1.5,30,0.70").survey.unwrap();
    assert_eq!(stated.existing[0].length_m(cable, 20.0), Some(30.0));
    assert!(told(&cables("hall,A1,flex-1.5,,")).contains("Length"));
    assert!(told(&cables("hall,A1,flex-1.5,,0.04")).contains("0.04"));
}
