//! Files that come back from phones: what is taken, what is refused, and that merging is harmless.
#![allow(clippy::unwrap_used, reason = "tests may fail")]

use latchline_phone::exported::read;
use latchline_phone::{Event, ExportedFile, FileProblem, Merged};
use proptest::prelude::*;
use serde_json::{Value, json};

const PHONE: &str = "01890a5d-ac96-774b-bcce-b302099a8057";

/// A name in the form of RFC 9562.
fn id(number: u32) -> String {
    format!("01890a5d-ac96-774b-bcce-{number:012x}")
}

fn reading(number: u32, value: Value) -> Value {
    json!({
        "id": id(number), "device": PHONE, "sequence": number, "plan": "p", "revision": "r", "at": 1.7e12, "by": "Kim",
        "kind": "reading", "step": "stations/A-01/1", "place": "A-01", "value": value, "unit": "V", "text": "47.1 V",
    })
}

fn file(events: &[Value]) -> Value {
    json!({"format": "latchline-readings", "version": 1, "site": "Yard", "events": events})
}

fn taken(events: &[Value]) -> ExportedFile {
    read(&file(events).to_string(), "Yard").unwrap()
}

#[test]
fn a_whole_file_is_read() {
    let found = taken(&[reading(1, json!(47.1)), reading(2, Value::Null)]);
    assert_eq!(found.events[0].value, Some(Some(47.1)));
    assert_eq!(found.events[1].value, Some(None), "open");
}

#[test]
fn what_is_no_file_of_readings_is_refused_by_what_it_is() {
    let whole = file(&[reading(1, json!(47.1))]);
    let text = whole.to_string();
    assert!(matches!(read(&text[..text.len() / 2], "Yard"), Err(FileProblem::Half { .. })));
    assert_eq!(read("at,value\nA-1,3 V\n", "Yard"), Err(FileProblem::OtherKind));
    assert_eq!(read("", "Yard"), Err(FileProblem::OtherKind));
    assert_eq!(read("{}", "Yard"), Err(FileProblem::OtherKind));
    assert_eq!(read(&text, "Mill"), Err(FileProblem::OtherSite("Yard".into())));
    let mut newer = whole.clone();
    newer["version"] = json!(2);
    assert_eq!(read(&newer.to_string(), "Yard"), Err(FileProblem::Newer("2".into())));
    // Deep nesting ends the parser, not the program.
    assert!(matches!(read(&"{\"a\":".repeat(100_000), "Yard"), Err(FileProblem::Half { .. })));
}

#[test]
fn an_entry_that_is_not_what_it_should_be_is_named_and_nothing_is_taken() {
    for (key, bad) in [
        ("id", json!("1")),
        ("id", json!("01890A5D-AC96-774B-BCCE-000000000001")),
        ("device", json!(null)),
        ("sequence", json!(-1)),
        ("sequence", json!(1.5)),
        ("value", json!(1e300)),
        ("value", json!("47")),
        ("at", json!(1e300)),
        ("at", json!("noon")),
        ("by", json!(["Kim"])),
        ("step", json!(7)),
        ("text", json!("x".repeat(100_000))),
        ("done", json!("yes")),
        ("details", json!({"old_serial": 4})),
        ("kind", json!(null)),
    ] {
        let mut event = reading(2, json!(47.0));
        event[key] = bad;
        let found = read(&file(&[reading(1, json!(47.1)), event]).to_string(), "Yard");
        assert_eq!(found, Err(FileProblem::BadEntry { number: 2, key }), "{key}");
    }
    let mut event = reading(2, json!(47.0));
    event.as_object_mut().unwrap().remove("value");
    let found = read(&file(&[event]).to_string(), "Yard");
    assert_eq!(found, Err(FileProblem::BadEntry { number: 1, key: "value" }));
}

#[test]
fn a_name_with_two_contents_is_a_clash_that_keeps_both() {
    let merged = Merged::new(&[taken(&[reading(1, json!(47.1))]), taken(&[reading(1, json!(12.0))])]);
    assert_eq!(merged.events.len(), 1);
    assert_eq!(merged.clashes.len(), 1);
    let clash = &merged.clashes[0];
    assert_eq!((clash.kept.value, clash.other.value, clash.file), (Some(Some(47.1)), Some(Some(12.0)), 1));
}

#[test]
fn a_correction_takes_the_place_of_what_it_points_at_and_a_withdrawal_leaves_nothing() {
    let mut second = reading(2, json!(46.9));
    second["corrects"] = json!(id(1));
    let merged = Merged::new(&[taken(&[second.clone(), reading(1, json!(47.1))])]);
    let values: Vec<_> = merged.standing().iter().map(|event| event.value).collect();
    assert_eq!(values, [Some(Some(46.9))]);
    let mut third = reading(3, json!(0.0));
    third["kind"] = json!("withdrawn");
    third["corrects"] = json!(id(2));
    let merged = Merged::new(&[taken(&[third, second, reading(1, json!(47.1))])]);
    assert!(merged.standing().is_empty());
}

proptest! {
    /// However the entries are spread over files, in whatever order and however often, the same comes of it.
    #[test]
    fn merging_does_not_depend_on_order_or_repetition(
        spread in prop::collection::vec((0_u32..20, 0_usize..4), 0..60),
        order in any::<prop::sample::Index>(),
    ) {
        let mut files: Vec<Vec<Value>> = vec![Vec::new(); 4];
        for (number, file) in &spread {
            files[*file].push(reading(*number, json!(f64::from(*number))));
        }
        let files: Vec<ExportedFile> = files.iter().map(|events| taken(events)).collect();
        let mut turned = files.clone();
        turned.rotate_left(order.index(4));
        turned.extend(files.clone());
        let (once, again) = (Merged::new(&files), Merged::new(&turned));
        let mut wanted: Vec<String> = spread.iter().map(|(number, _)| id(*number)).collect();
        wanted.sort();
        wanted.dedup();
        let found: Vec<&String> = once.events.iter().map(|event: &Event| &event.id).collect();
        prop_assert_eq!(found, wanted.iter().collect::<Vec<_>>());
        prop_assert_eq!(&once, &again);
        prop_assert!(once.clashes.is_empty());
    }

    /// Whatever a file holds, reading it ends with an answer.
    #[test]
    fn no_text_ends_the_reader(text in ".{0,200}", key in "[a-z]{1,8}", value in any::<f64>()) {
        let _ = read(&text, "Yard");
        let mut event = reading(1, json!(1.0));
        event[&key] = json!(value);
        let _ = read(&file(&[event]).to_string(), "Yard");
    }
}
