//! What is measured before something is connected to it: supplies of locks, batteries.

use crate::{Made, interfaces, resolved, stamp};
use latchline_handover::commissioning::{Expected, Span, Step, sheets};
use latchline_handover::language::Word;
use latchline_handover::subject::Subject;
use latchline_handover::{Options, Part, tables};

/// Every step of both sheets in order, with its stage.
fn steps(text: &str) -> Vec<(Word, Step)> {
    let made = Made::of(resolved(text));
    let (options, stamp) = (Options::default(), stamp());
    let subject = Subject::new(&made.input(), &options, &stamp);
    let stages = sheets(&subject).into_iter().flat_map(|sheet| sheet.stages);
    stages.flat_map(|stage| stage.steps.into_iter().map(move |step| (stage.word, step))).collect()
}

fn at(steps: &[(Word, Step)], place: &str, words: &str) -> usize {
    let found = steps.iter().position(|(_, step)| step.place == place && step.what.contains(words));
    found.unwrap_or_else(|| panic!("{place}: {words}"))
}

/// Order of trade (common practice, no source): the lock is left off, the mains comes on, the output is read and set, the mains goes off and is
/// proved dead, the lock is connected, and only then its own voltage is read.
#[test]
fn the_output_of_a_locks_own_supply_is_read_before_the_lock_is_connected() {
    let steps = steps(interfaces::SITE);
    let order = [
        at(&steps, "front/supply", "stays off the output"),
        at(&steps, "front/supply", "is off the output of this supply"),
        at(&steps, "front/supply", "switches its mains on"),
        at(&steps, "front/supply", "Output voltage of this supply before the lock is connected"),
        at(&steps, "front/supply", "then connect the lock's circuit"),
        at(&steps, "front/lock", "Voltage at the lock"),
    ];
    assert!(order.is_sorted_by(|one, next| one < next), "{order:?}");
    assert_eq!(steps[order[4]].1.instrument, Some(Word::VoltageTester));
    assert!(
        matches!(steps[order[3]].1.expected, Expected::Between(Span { nominal, .. }, _) if nominal == 24.0)
    );
}

/// A charged lead battery of 24 V rests near 25.5 V, one that reads 24.0 V is all but empty (handbook values, from memory).
#[test]
fn every_battery_is_read_by_itself_before_it_is_connected() {
    for count in [1, 2] {
        let text = interfaces::SITE.replacen(
            "PS = { model = \"ostrel-ps-120\"",
            &format!("PS = {{ batteries = {count}, model = \"ostrel-ps-120b\""),
            1,
        );
        let steps = steps(&text);
        for number in 1..=count {
            let read = at(&steps, &format!("PS/battery{number}"), "before it is connected");
            assert!(read < at(&steps, "PS", "connect it again"));
            let Expected::Between(span, _) = steps[read].1.expected else { panic!("a range") };
            assert!(
                span.lowest > 24.0 && (25.0..=26.0).contains(&span.nominal) && span.highest < 27.5,
                "{span:?}"
            );
            assert!(steps[read].1.what.contains("(assumed"), "{}", steps[read].1.what);
        }
        // Read again while it carries the system.
        let off = at(&steps, "PS", "Switch the mains off: the system stays on");
        let read = at(&steps, "PS", "while the battery carries the system");
        assert!(off < read && steps[read].1.what.contains("switch the mains on again"));
        assert!(
            matches!(steps[read].1.expected, Expected::Within { lowest, highest, .. } if lowest < highest)
        );
    }
}

/// The door contact at an alarm input hangs on one cable, whichever of the two keys states it; where both do, the one left out stands in no list.
#[test]
fn one_contact_has_one_cable_in_every_list() {
    let lock = "lock = { model = \"strike-12\", cable = \"flex-1.0\", length = \"4 m\" }";
    assert!(interfaces::SITE.contains(lock));
    let of_lock = ", door_contact = true, cables = [{ to = \"door-contact\", cable = \"pair-0.5\", length = \"6 m\" }] }";
    for of_input in ["", ", cable = \"pair-0.8\", length = \"7 m\""] {
        let inputs = format!("alarm_inputs = [{{ kind = \"door\"{of_input} }}]");
        let text = interfaces::SITE
            .replacen(lock, &format!("{}{of_lock}", lock.trim_end_matches(" }")), 1)
            .replacen("alarm_inputs = [{ kind = \"fire\", contact = \"normally-open\" }]", &inputs, 1);
        let made = Made::of(resolved(&text));
        let (options, stamp) = (Options::default(), stamp());
        let subject = Subject::new(&made.input(), &options, &stamp);
        let names = |part: Part, column: usize| -> Vec<String> {
            let tables = tables::tables(&subject);
            let table = tables.iter().find(|table| table.part == part).expect("the part is there");
            table.body().map(|cells| cells[column].words().to_string()).collect()
        };
        for (part, column) in [(Part::Cables, 0), (Part::CutList, 3), (Part::BeforePower, 1)] {
            let names = names(part, column);
            assert!(names.iter().any(|name| name == "rear/alarm1"), "{part:?}");
            assert!(!names.iter().any(|name| name == "rear/door"), "{part:?}");
        }
        // Both its conductors land on terminals at either end.
        let landed = subject.wiring.terminals.iter().filter(|(_, landings)| {
            landings.iter().any(|landing| matches!(landing.by, latchline_wiring::By::Conductor { cable, .. } if subject.wiring.cables[cable].designation == "rear/alarm1"))
        });
        assert_eq!(landed.count(), 4);
    }
}
