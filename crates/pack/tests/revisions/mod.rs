//! The revisions of the plan, and the trade words that are explained (common practice, no source).

use crate::{Made, resolved, stamp};
use latchline_handover::{Cell, Options, Part, Row, Stamp, Table};
use latchline_site::model::Site;

const TWELVE_FLATS: &str = include_str!("../../../../docs/examples/twelve-flats.toml");
const REVISIONS: &str = "
[[revision]]
mark = \"A\"
date = 2026-03-02
change = \"first issue\"
by = \"Iva Planner\"
checked_by = \"Oto Checker\"

[[revision]]
mark = \"B\"
date = 2026-11-02
change = \"gate moved\"
by = \"Iva Planner\"
";

fn with_revisions() -> Site {
    resolved(&format!("{TWELVE_FLATS}{REVISIONS}"))
}

fn table_of(tables: &[Table], part: Part) -> &Table {
    tables.iter().find(|table| table.part == part).expect("the part is there")
}

fn texts(table: &Table) -> Vec<Vec<String>> {
    table.body().map(|cells| cells.iter().map(|cell| cell.words().to_string()).collect()).collect()
}

/// The people of the plan stand in no table of a pack that was not asked for with names.
#[test]
fn what_changed_stands_with_its_people_only_where_names_are_asked_for() {
    let made = Made::of(with_revisions());
    let stamp = Stamp::of_texts(["x"], made.input().site.current_revision().map(String::from), None);
    assert_eq!(stamp.revision, "B");
    let named = Options { with_names: true, ..Options::default() };
    let pack = latchline_pack::put_together(&made.input(), &named, &stamp).expect("a pack");
    let whole = table_of(&pack.tables, Part::Revisions);
    let rows = texts(whole);
    assert_eq!(rows[0], ["A", "", "first issue", "Iva Planner", "Oto Checker"]);
    let Some(cells) = whole.body().nth(1) else { panic!("a second row") };
    assert_eq!(cells[1], Cell::Date("2026-11-02".to_string()));
    assert_eq!(cells[4], Cell::WriteIn, "nobody has checked B: there is room to sign");
    assert!(whole.notes[0].contains("Revision B holds"), "{:?}", whole.notes);
    assert!(whole.body().skip(2).all(|cells| cells.iter().all(|cell| *cell == Cell::WriteIn)));
    assert!(whole.body().count() > 4);

    let options = Options::default();
    let pack = latchline_pack::put_together(&made.input(), &options, &stamp).expect("a pack");
    let unnamed = table_of(&pack.tables, Part::Revisions);
    assert_eq!(texts(unnamed)[1], ["B", "", "gate moved"]);
    assert!(unnamed.notes.iter().any(|note| note.contains("left out")));
    let all = format!("{:?}", pack.tables);
    assert!(!all.contains("Planner") && !all.contains("Checker"));
}

/// A name on a panel is a person's: the name sheet has it where names are asked for, and says elsewhere that it is left out.
#[test]
fn names_on_panels_are_left_out_and_the_sheet_says_so() {
    let flat = "F1 = { place = \"A/G\"";
    let text = crate::interfaces::SITE;
    assert!(text.contains(flat));
    let made = Made::of(resolved(&text.replacen(flat, &format!("{flat}, label = \"Alder\""), 1)));
    for (with_names, says) in [(true, false), (false, true)] {
        let (options, stamp) = (Options { with_names, ..Options::default() }, stamp());
        let pack = latchline_pack::put_together(&made.input(), &options, &stamp).expect("a pack");
        let sheet = table_of(&pack.tables, Part::Names);
        assert_eq!(sheet.notes.iter().any(|note| note.contains("left out")), says);
        assert_eq!(format!("{:?}", pack.tables).contains("Alder"), with_names);
        let elevation =
            pack.drawings.iter().find(|drawing| drawing.part == Part::Elevation).expect("it is there");
        assert_eq!(format!("{:?}", elevation.sheets).contains("· Alder"), with_names);
    }
}

#[test]
fn a_plan_without_revisions_says_so_and_gives_rows_to_write_in() {
    let made = Made::of(resolved(TWELVE_FLATS));
    let (options, stamp) = (Options::default(), stamp());
    let pack = latchline_pack::put_together(&made.input(), &options, &stamp).expect("a pack");
    let table = table_of(&pack.tables, Part::Revisions);
    assert!(table.notes[0].contains("No revision is stated") && table.notes[0].contains(&stamp.revision));
    assert!(table.body().count() >= 10);
    assert!(table.body().all(|cells| cells.iter().all(|cell| *cell == Cell::WriteIn)));
}

#[test]
fn a_revision_asked_for_that_is_not_the_last_one_is_told() {
    let made = Made::of(with_revisions());
    let stamp = Stamp::of_texts(["x"], Some("C".to_string()), None);
    let options = Options::default();
    let pack = latchline_pack::put_together(&made.input(), &options, &stamp).expect("a pack");
    let note = &table_of(&pack.tables, Part::Revisions).notes[0];
    assert!(note.contains("says C") && note.contains("is B"), "{note}");
}

/// Each word that is explained stands somewhere else in the pack, and one of a thing that the site has not is not explained.
#[test]
fn only_words_that_occur_are_explained() {
    let explained = |site: Site| {
        let made = Made::of(site);
        let (options, stamp) = (Options::default(), stamp());
        let pack = latchline_pack::put_together(&made.input(), &options, &stamp).expect("a pack");
        let words: Vec<String> =
            texts(table_of(&pack.tables, Part::Glossary)).into_iter().map(|row| row[0].clone()).collect();
        let elsewhere: String = pack
            .tables
            .iter()
            .filter(|table| table.part != Part::Glossary)
            .map(|table| format!("{table:?}").to_lowercase())
            .collect();
        (words, elsewhere)
    };
    let (words, elsewhere) = explained(resolved(TWELVE_FLATS));
    assert!(words.len() > 15, "{words:?}");
    for plain in ["loop resistance", "polarity", "standby", "supply", "tolerance"] {
        assert!(words.iter().any(|word| word == plain) && elsewhere.contains(plain), "{plain}: {words:?}");
    }
    // Without a screened cable nothing is earthed, so the term does not occur.
    let (words, elsewhere) = explained(resolved(&TWELVE_FLATS.replace("\"outdoor-0.8\"", "\"pair-0.8\"")));
    assert!(
        !words.iter().any(|word| word == "main earthing terminal") && !elsewhere.contains("main earthing")
    );
    let with_protector = TWELVE_FLATS
        .replace("environment = \"buried\"", "environment = \"buried\", surge_protection = \"1 ohm\"");
    let (words, _) = explained(resolved(&with_protector));
    assert!(words.iter().any(|word| word == "main earthing terminal"), "{words:?}");
}

#[test]
fn revisions_stand_on_the_first_pages() {
    let made = Made::of(with_revisions());
    let (options, stamp) = (Options::default(), stamp());
    let pack = latchline_pack::put_together(&made.input(), &options, &stamp).expect("a pack");
    let parts: Vec<Part> = pack.tables.iter().map(|table| table.part).collect();
    assert_eq!(parts[..2], [Part::Summary, Part::Revisions]);
    assert!(parts.is_sorted(), "{parts:?}");
    assert!(table_of(&pack.tables, Part::Revisions).rows.iter().all(|row| matches!(row, Row::Cells(_))));
}
