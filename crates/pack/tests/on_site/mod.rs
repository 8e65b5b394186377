//! Readings and steps as somebody on site takes them (common practice, no source), on the wiring of every kind of lock.

use crate::{Made, resolved, stamp};
use latchline_assess::Reading;
use latchline_handover::commissioning::{Expected, Step, Taken, sheets};
use latchline_handover::{Audience, Cell, Options, Part, Row, Subject, tables};
use latchline_site::model::RunStop;

fn with<T>(look: impl FnOnce(&Subject<'_>) -> T) -> T {
    let made = Made::of(resolved(include_str!("../../../drawing/src/wiring/every_lock.toml")));
    let (options, stamp) = (Options::default(), stamp());
    look(&Subject::new(&made.input(), &options, &stamp))
}

fn steps(subject: &Subject<'_>) -> Vec<Step> {
    sheets(subject).into_iter().flat_map(|sheet| sheet.stages).flat_map(|stage| stage.steps).collect()
}

#[test]
fn every_expected_reading_has_a_lowest_and_a_highest() {
    with(|subject| {
        let steps = steps(subject);
        let mut expected = 0;
        for step in &steps {
            let Expected::Between(span, _) = step.expected else { continue };
            expected += 1;
            assert!(span.lowest <= span.nominal && span.nominal <= span.highest, "{step:?}");
            let [_, _, highest] = step.expected.cells(&subject.locale);
            assert!(highest.number().is_some(), "{step:?}");
        }
        assert!(expected > 40);
        for begins in ["Light", "Heater", "Voltage while"] {
            let lit = steps.iter().filter(|step| step.what.starts_with(begins));
            assert!(lit.clone().all(|step| matches!(step.expected, Expected::Between(..))), "{begins}");
        }
        // The list of found devices is counted: a door station for each entrance, and a flat.
        let list = steps.iter().find(|step| step.what.contains("Stations found")).expect("it is counted");
        let [count, ..] = list.expected.cells(&subject.locale);
        assert_eq!(count.number(), Some(subject.site.stations.len() as f64));
    });
}

/// By hand: a loop of 1 ohm, predicted between 0.9 and 1.1 ohm, is read by a meter of 1 % and two tenths of an ohm as 0.691 to 1.311 ohm: shown
/// outward to a hundredth. A current of 0.1 A, between 0.09 and 0.11 A, by one of 1.5 % and 3 mA as 0.08565 to 0.11465 A.
#[test]
fn ranges_of_ohms_and_amperes_allow_for_the_meter() {
    use latchline_finding::Unit;
    use latchline_handover::commissioning::Span;
    with(|subject| {
        let shown = |span, unit| {
            Expected::metered(span, unit).cells(&subject.locale).map(|cell| cell.number().unwrap_or(f64::NAN))
        };
        let ohms = Span { nominal: 1.0, lowest: 0.9, highest: 1.1 };
        assert_eq!(shown(ohms, Unit::Ohm), [1.0, 0.58, 1.42]);
        let amperes = Span { nominal: 0.1, lowest: 0.09, highest: 0.11 };
        assert_eq!(shown(amperes, Unit::Ampere), [0.1, 0.083, 0.117]);
        let notes: Vec<String> = sheets(subject).into_iter().flat_map(|sheet| sheet.notes).collect();
        assert!(
            notes.iter().any(|note| note.contains("1.5 % + 0.3 ohm") && note.contains("1.5 % + 0.005 A"))
        );
    });
}

/// Small and large ohms of one row have the same decimals.
#[test]
fn ohms_of_one_row_are_rounded_alike() {
    with(|subject| {
        for step in steps(subject) {
            let decimals: Vec<u8> = step
                .expected
                .cells(&subject.locale)
                .iter()
                .filter_map(|cell| match cell {
                    Cell::Quantity { decimals, .. } => Some(*decimals),
                    _ => None,
                })
                .collect();
            assert!(decimals.windows(2).all(|two| two[0] == two[1]), "{step:?}: {decimals:?}");
        }
    });
}

/// A run to a door is loaded by a call too: from it, where nobody calls it.
#[test]
fn a_run_to_a_door_is_read_under_two_loads() {
    with(|subject| {
        let site = subject.site;
        let mut doors = 0;
        for entrance in site.entrances.iter().filter(|entrance| !entrance.calls.dwellings.is_empty()) {
            let ends = |run: &latchline_site::model::Run| {
                run.sections.last().is_some_and(|last| last.to == RunStop::Station(entrance.station))
            };
            let Some(run) = site.runs.iter().position(ends) else { continue };
            let drops = steps(subject).into_iter().filter(|step| {
                matches!(&step.taken, Some(Taken::Predicted(Reading::Drop { run: of, .. })) if *of == run)
            });
            assert_eq!(drops.count(), 2, "{}", site.runs[run].id);
            doors += 1;
        }
        assert!(doors > 3);
    });
}

#[test]
fn what_is_short_circuited_for_a_loop_is_open_again_before_anything_else_is_read() {
    with(|subject| {
        let steps = steps(subject);
        for run in &subject.site.runs {
            let begins = |words: &str| format!("Run {}: {words}", run.id);
            let at = |wanted: &dyn Fn(&Step) -> bool| steps.iter().position(wanted);
            let fitted = at(&|step: &Step| step.what.starts_with(&begins("short-circuit")));
            let removed = at(&|step: &Step| step.what.starts_with(&begins("take the short-circuit off")));
            let here =
                |step: &Step, words: &str| step.place == run.id.as_str() && step.what.starts_with(words);
            let looped = at(&|step: &Step| here(step, "Loop resistance"));
            let insulation = at(&|step: &Step| here(step, "Insulation"));
            let order = [fitted, looped, removed, insulation];
            assert!(order.iter().all(Option::is_some) && order.is_sorted(), "{}: {order:?}", run.id);
            let place = |step: Option<usize>| steps[step.unwrap_or(0)].place.clone();
            assert_eq!(place(fitted), place(removed), "{}", run.id);
        }
    });
}

#[test]
fn nothing_is_read_twice() {
    with(|subject| {
        let mut taken: Vec<String> = Vec::new();
        for step in steps(subject) {
            let Some(reading @ Taken::Predicted(Reading::Voltage { .. } | Reading::Current { .. })) =
                step.taken
            else {
                continue;
            };
            let reading = format!("{reading:?}");
            // A run's current is read while it is connected; where others hang on it, once all is.
            assert!(!taken.contains(&reading), "{reading} again: {} {}", step.place, step.what);
            taken.push(reading);
        }
        assert!(taken.len() > 10);
    });
}

/// Each visit of the power-up has a row of its own, with the run that is connected there.
#[test]
fn the_walk_of_the_power_up_is_told_run_by_run() {
    with(|subject| {
        let tables = tables::tables(subject);
        let order = tables.iter().find(|table| table.part == Part::OrderOfWork).expect("it is there");
        let fed: Vec<&str> =
            subject.readings.power_order.iter().map(|feed| subject.site.runs[feed.run].id.as_str()).collect();
        let mut told = order.body().filter_map(|cells| {
            let words = cells[2].words();
            fed.iter().position(|run| words.contains(&format!("onnect run {run}")))
        });
        for (wanted, run) in fed.iter().enumerate() {
            assert_eq!(told.next(), Some(wanted), "{run}");
        }
    });
}

/// A sheet that an installer does not carry is named beside one that is carried, or not at all.
#[test]
fn the_installers_file_sends_nobody_to_a_sheet_that_it_lacks() {
    with(|subject| {
        let tables = tables::tables(subject);
        let carried = subject.options.parts_of_file(Audience::Installer);
        let lacking: Vec<String> = tables
            .iter()
            .filter(|table| !carried.contains(&table.part))
            .map(|table| table.title.split([',', ':']).next().unwrap_or_default().to_lowercase())
            .collect();
        assert!(lacking.iter().any(|title| title == "wiring schedule"), "{lacking:?}");
        for table in
            tables.iter().filter(|table| carried.contains(&table.part) && table.part != Part::Glossary)
        {
            let cells = table.rows.iter().flat_map(|row| match row {
                Row::Heading(heading) => vec![heading.as_str()],
                Row::Cells(cells) => cells.iter().map(Cell::words).collect(),
            });
            for text in cells.chain(table.notes.iter().map(String::as_str)) {
                let text = text.to_lowercase();
                for title in &lacking {
                    assert!(
                        !text.contains(title.as_str()) || text.contains("job card"),
                        "{:?}: {text}",
                        table.part
                    );
                }
            }
        }
    });
}
