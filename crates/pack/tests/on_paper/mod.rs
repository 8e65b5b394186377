//! What an installer with nothing but the sheets must find on them (common practice, no source), on the wiring of every kind of lock.

use crate::{Made, resolved, stamp};
use latchline_finding::{Code, Finding, Language, Locale, Origin, Severity, Units};
use latchline_handover::language::Word;
use latchline_handover::{Audience, Cell, Options, PackInput, Part, Row, Subject, Table, tables};
use latchline_site::model::Site;

fn every_lock() -> Site {
    resolved(include_str!("../../../drawing/src/wiring/every_lock.toml"))
}

/// What does not fit is set smaller, in more lines or counted: no drawing cuts words in their middle, in the title block neither.
#[test]
fn no_drawing_elides_a_word() {
    for site in [every_lock(), resolved(include_str!("../../../latchline/src/demo/site.toml"))] {
        let made = Made::of(site);
        for language in [Language::English, Language::German] {
            let (options, stamp) =
                (Options { locale: Locale::from(language), ..Options::default() }, stamp());
            let pack = latchline_pack::put_together(&made.input(), &options, &stamp).expect("a pack");
            for drawing in &pack.drawings {
                let said = format!("{:?}", drawing.sheets);
                let cut: Vec<&str> = said.split('"').filter(|text| text.contains('…')).collect();
                assert!(cut.is_empty(), "{} {language:?}: {cut:?}", drawing.name);
            }
        }
    }
}

/// Place and words of every step of a sheet, in order.
fn steps(site: Site, part: Part) -> Vec<(String, String)> {
    let made = Made::of(site);
    let (options, stamp) = (Options::default(), stamp());
    let tables = tables::tables(&Subject::new(&made.input(), &options, &stamp));
    let table = tables.iter().find(|table| table.part == part).expect("the part is there");
    table.body().map(|cells| (cells[1].words().to_string(), cells[2].words().to_string())).collect()
}

#[test]
fn power_is_said_stage_by_stage_in_the_order_of_work() {
    let made = Made::of(every_lock());
    let (options, stamp) = (Options::default(), stamp());
    let tables = tables::tables(&Subject::new(&made.input(), &options, &stamp));
    let order: &Table = tables.iter().find(|table| table.part == Part::OrderOfWork).expect("it is there");
    assert!(!order.notes.iter().any(|note| note.contains("Nothing is under power")), "{:?}", order.notes);
    for row in &order.rows {
        let Row::Heading(heading) = row else { continue };
        let Some((letter, _)) = heading.split_once(". ") else { continue };
        let wanted = match letter {
            "A" => None,
            "B" | "C" | "D" | "E" | "F" => Some("Power off"),
            _ => Some("Power on"),
        };
        assert_eq!(heading.split_once(" \u{b7} ").map(|(_, power)| power), wanted, "{heading}");
    }
    // A row is for one meter.
    let several = order.body().filter(|cells| cells[3].words().contains("ohmmeter, "));
    assert_eq!(several.count(), 0);
}

/// Of every stage but those in which readings are taken meter by meter (bare ends, readings with everything connected), each row begins where
/// the one before ends: what must come first stands first. No row is without words.
#[test]
fn rows_of_the_order_of_work_follow_the_steps() {
    let made = Made::of(every_lock());
    let (options, stamp) = (Options::default(), stamp());
    let subject = Subject::new(&made.input(), &options, &stamp);
    let tables = tables::tables(&subject);
    let order: &Table = tables.iter().find(|table| table.part == Part::OrderOfWork).expect("it is there");
    let (mut next, mut rows) = (1_usize, 0);
    for cells in order.body() {
        let number = cells[0].words();
        let Some(letter) = number.chars().next() else { continue };
        assert!(!cells[2].words().trim_end_matches(['.', ' ']).is_empty(), "{cells:?}");
        let numbers: Vec<usize> =
            number.split('–').filter_map(|number| number.get(1..)?.parse().ok()).collect();
        let (first, last) = (numbers[0], numbers[numbers.len() - 1]);
        let stage = order.rows.iter().find_map(|row| match row {
            Row::Heading(heading) => heading.strip_prefix(&format!("{letter}. ")),
            Row::Cells(_) => None,
        });
        let by_meter = [Word::StageBareEnds, Word::StageReadings].map(|word| word.say(Language::English));
        let is_by_meter = by_meter.iter().any(|words| stage.is_some_and(|stage| stage.starts_with(words)));
        if !is_by_meter && last >= first {
            assert!(first >= next || first == 1, "{number} after step {next}");
        }
        // The second sheet counts from 1 again.
        next = if is_by_meter { 0 } else { last + 1 };
        let words = cells[2].words();
        if words.starts_with("Cards ") {
            let after = words.split_once(". ").map_or("", |(_, words)| words);
            assert!(!after.trim().is_empty(), "a row without words: {cells:?}");
            rows += 1;
        }
    }
    assert!(rows > 5);
}

#[test]
fn a_drive_is_isolated_by_its_owner_and_every_door_is_tried_without_power_between_off_and_on() {
    let site = every_lock();
    let drives = site.entrances.iter().flat_map(|entrance| &entrance.locks);
    let drives = drives.filter(|lock| lock.feed.value == latchline_site::model::LockFeed::DryContact).count();
    assert!(drives > 0);
    let locks: usize = site.entrances.iter().map(|entrance| entrance.locks.len()).sum();
    let before = steps(site.clone(), Part::BeforePower);
    assert_eq!(before.iter().filter(|(_, what)| what.contains("Its owner (or maintainer)")).count(), drives);
    assert_eq!(
        before
            .iter()
            .filter(|(_, what)| what.starts_with("Switch every port off"))
            .map(|(places, _)| places.split(", ").count())
            .sum::<usize>(),
        site.boxes.len()
    );
    assert!(before.iter().any(|(_, what)| what.contains("bar (cathode) at +")) || !has_diode(&site));
    let live = steps(site, Part::Live);
    let at = |wanted: &str| -> Vec<usize> {
        live.iter()
            .enumerate()
            .filter(|(_, (_, what))| what.starts_with(wanted))
            .map(|(index, _)| index)
            .collect()
    };
    // A light's own supply feeds no lock, and is switched off in words of its own.
    let (mut off, on) = (at("Mains off, and battery off"), at("Mains on again"));
    let of_lights = at("Mains of this light's own supply off");
    assert!(!off.is_empty() && !of_lights.is_empty());
    off.extend(of_lights);
    assert_eq!(off.len(), on.len());
    let (mut tried, left) =
        (at("Without power the lock"), at("Our system is off, the drive's or lift's own power stays on"));
    assert_eq!((tried.len(), left.len()), (locks - drives, drives));
    tried.extend(left);
    assert!(tried.iter().all(|step| off.iter().all(|off| off < step) && on.iter().all(|on| step < on)));
}

fn has_diode(site: &Site) -> bool {
    use latchline_site::model::Suppression;
    let mut locks = site.entrances.iter().flat_map(|entrance| &entrance.locks);
    locks.any(|lock| lock.suppression.as_ref().is_some_and(|across| across.value == Suppression::Diode))
}

#[test]
fn a_sheet_never_asks_to_move_a_relay_that_is_in_the_station() {
    let made = Made::of(every_lock());
    for sheet in &made.assessment.doors {
        for lock in &sheet.locks {
            use latchline_assess::door::Caution;
            assert!(lock.cautions.contains(&Caution::KeepApartFromMains), "{}", sheet.entrance);
            let is_between =
                lock.part_cables.iter().any(|(part, _)| *part == latchline_site::model::LockPart::Relay);
            if sheet.outdoors && !is_between {
                assert!(!lock.cautions.contains(&Caution::RelayOnSecureSide), "{}", sheet.entrance);
            }
        }
    }
}

/// Every text of a table: title, notes, heads of columns, headings and cells.
fn texts(table: &Table) -> Vec<String> {
    let mut texts = vec![table.title.clone()];
    texts.extend(table.notes.iter().cloned());
    texts.extend(table.columns.iter().map(|column| column.title.clone()));
    for row in &table.rows {
        match row {
            Row::Heading(heading) => texts.push(heading.clone()),
            Row::Cells(cells) => texts.extend(cells.iter().map(|cell| cell.words().to_string())),
        }
    }
    texts
}

/// Keys of files have an underscore or stand in brackets; commands follow the program's name or begin with two hyphens.
fn names_a_key_or_command(text: &str) -> bool {
    let joins = |(at, _): (usize, &str)| {
        let is_letter = |sign: Option<char>| sign.is_some_and(|sign| sign.is_ascii_lowercase());
        is_letter(text[..at].chars().next_back()) && is_letter(text[at + 1..].chars().next())
    };
    text.match_indices('_').any(joins)
        || text.contains("[[")
        || text.contains("latchline ")
        || text.contains(" --")
}

#[test]
fn what_client_and_office_read_names_no_key_and_no_command() {
    assert!(names_a_key_or_command("ostrel-ps voltage_tolerance") && names_a_key_or_command("latchline fix"));
    assert!(!names_a_key_or_command("A-1 \u{2013} B: voltage"));
    let mut read = 0;
    for language in [Language::English, Language::German] {
        for units in [Units::Metric, Units::Us] {
            for audience in [Audience::Client, Audience::Office] {
                let made = Made::of(every_lock());
                let options = Options { locale: Locale { language, units }, audience, ..Options::default() };
                let stamp = stamp();
                let subject = Subject::new(&made.input(), &options, &stamp);
                let theirs = options.parts_of_file(audience);
                for table in tables::tables(&subject).iter().filter(|table| theirs.contains(&table.part)) {
                    for text in texts(table) {
                        read += 1;
                        assert!(!names_a_key_or_command(&text), "{language:?} {:?}: {text}", table.part);
                    }
                }
            }
        }
    }
    assert!(read > 1000);
}

#[test]
fn no_name_is_left_out_of_a_snag_however_many_there_are() {
    let made = Made::of(every_lock());
    let names: Vec<String> = (1..=25).map(|number| format!("flat-{number}x")).collect();
    let finding = Finding::new(Code("chain-through-dwellings"), Severity::Warning, Origin::None)
        .about("W1")
        .with("dwellings", names.clone());
    let findings = [finding];
    for language in [Language::English, Language::German] {
        let options = Options { locale: Locale { language, units: Units::Metric }, ..Options::default() };
        let stamp = stamp();
        let input = PackInput { reading_findings: &findings, ..made.input() };
        let subject = Subject::new(&input, &options, &stamp);
        let tables = tables::tables(&subject);
        let snags = tables.iter().find(|table| table.part == Part::Snags).expect("it is there");
        let row = snags.body().find(|cells| cells[2].words() == "W1").expect("the snag is there");
        assert!(names.iter().all(|name| row[3].words().contains(name.as_str())), "{row:?}");
    }
}

/// Marks of terminals are those of the language; signs and letters of standards (+, L, N, PE, NO, NC, A1, A2) are the same in each.
#[test]
fn terminals_are_marked_in_the_language_of_the_pack() {
    let marks = |language: Language| {
        let made = Made::of(every_lock());
        let options = Options { locale: Locale { language, units: Units::Metric }, ..Options::default() };
        let stamp = stamp();
        let subject = Subject::new(&made.input(), &options, &stamp);
        let tables = tables::tables(&subject);
        let wiring = tables.iter().find(|table| table.part == Part::Wiring).expect("it is there");
        let of = |cell: &Cell| cell.words().trim_end_matches(|sign: char| sign.is_ascii_digit()).to_string();
        wiring.body().map(|cells| of(&cells[1])).collect::<std::collections::BTreeSet<_>>()
    };
    let (english, german) = (marks(Language::English), marks(Language::German));
    assert!(english.contains("battery") && german.contains("Batterie"), "{german:?}");
    let both: Vec<&String> = english.intersection(&german).filter(|mark| !mark.is_empty()).collect();
    assert!(both.is_empty(), "{both:?}");
}
