//! The table of faults on paper: what it holds, what it leaves out, and that it says so. The length of two pages is common practice, no source.

use crate::{Made, resolved, stamp};
use latchline_finding::{Language, Locale, Units};
use latchline_handover::tables::tables;
use latchline_handover::{Cell, Options, PackInput, Part, Row, Subject, Table};
use latchline_locate::{FaultSheet, SheetValue};

const DEMO: &str = include_str!("../../../latchline/src/demo/site.toml");
/// Lines that two pages of A4 hold beside title and notes, about.
const MOST_LINES: usize = 80;

fn table_of(input: &PackInput<'_>, language: Language) -> Table {
    let only = vec![Part::Faults];
    let options = Options { locale: Locale { language, units: Units::Metric }, only, ..Options::default() };
    let stamp = stamp();
    let subject = Subject::new(input, &options, &stamp);
    tables(&subject).into_iter().next().expect("the sheet is there")
}

fn shares(sheet: &FaultSheet) -> f64 {
    let listed: f64 = sheet.places.iter().map(|place| place.share()).sum();
    listed + sheet.unseen + sheet.none_of_these + sheet.left_out
}

#[test]
fn every_probability_is_listed_or_counted_and_two_pages_hold_it() {
    let made = Made::of(resolved(DEMO));
    let input = made.input();
    let sheet = &input.faults.expect("made").sheet;
    // The probabilities of all causes and of none of these add up to one.
    assert!((shares(sheet) - 1.0).abs() < 1e-9, "{}", shares(sheet));
    let short = sheet.clone().shortened(60);
    assert!((shares(&short) - 1.0).abs() < 1e-9);
    assert!(short.left_out_rows > 0 && short.left_out > 0.0);
    let rows = |sheet: &FaultSheet| sheet.places.iter().map(|place| place.rows.len()).sum::<usize>();
    assert_eq!(rows(&short) + short.left_out_rows, rows(sheet));
    for language in [Language::English, Language::German] {
        let table = table_of(&input, language);
        assert!(table.rows.len() <= MOST_LINES, "{}", table.rows.len());
        assert!(table.rows.len() > 20);
        assert!(table.notes.iter().any(|note| note.contains("finer") || note.contains("feiner")));
        assert!(
            table
                .notes
                .iter()
                .any(|note| note.contains("less probable") || note.contains("weniger wahrscheinlich"))
        );
        let texts = table.body().flatten().filter_map(|cell| match cell {
            Cell::Text(text) => Some(text.as_str()),
            _ => None,
        });
        let texts: Vec<&str> = texts.collect();
        assert!(texts.contains(&"0") && texts.iter().any(|text| text.contains(" – ")));
    }
}

/// A break leaves nothing behind it and no loop (closed form: no current flows through an open circuit).
#[test]
fn a_break_on_a_run_shows_nothing_at_its_end_and_no_loop() {
    let made = Made::of(resolved(DEMO));
    let sheet = &made.input().faults.expect("made").sheet;
    let mut seen = 0;
    for row in sheet.places.iter().flat_map(|place| &place.rows) {
        let [_, end, _, loop_alone, insulation] = &row.values;
        // A run that ends at a signal link has no voltage at its end.
        if row.kinds[0].name() == "open" && *end != SheetValue::Unread {
            assert_eq!(*end, SheetValue::Nothing);
            assert!(matches!(loop_alone, SheetValue::Open), "{loop_alone:?}");
            assert!(matches!(insulation, SheetValue::AsPlanned), "{insulation:?}");
            seen += 1;
        }
    }
    assert!(seen > 5, "{seen}");
}

#[test]
fn what_is_missing_or_fails_is_said() {
    let made = Made::of(resolved(DEMO));
    let without = PackInput { faults: None, ..made.input() };
    let table = table_of(&without, Language::English);
    assert!(table.rows.is_empty());
    assert!(table.notes[0].contains("was not worked out"), "{:?}", table.notes);
    // A chain far too long for its supply fails.
    let failing = DEMO.replace("spacing = \"", "spacing = \"9");
    assert_ne!(failing, DEMO);
    let made = Made::of(resolved(&failing));
    let input = made.input();
    let table = table_of(&input, Language::English);
    assert!(table.notes[0].contains("may itself be the cause"), "{:?}", table.notes);
    let table = table_of(&input, Language::German);
    assert!(table.notes[0].contains("selbst die Ursache"), "{:?}", table.notes);
    assert!(table.rows.iter().any(|row| matches!(row, Row::Heading(_))));
}
