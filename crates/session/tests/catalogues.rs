//! A catalogue that changes: what uses what is new in it is worked out again, and nothing else.

use crate::common::{HOUSE, files};
use latchline_assess::Assessment;
use latchline_finding::Edit;
use latchline_session::{Session, WorkDone};

/// Two cables of a firm: the one on the runs of the first supply, the other on those of the second.
fn catalogue(first_gauge: &str, second_gauge: &str, price: &str) -> String {
    let cable = |name: &str, gauge: &str| {
        format!(
            "[cables.{name}]\ntitle = \"{name}\"\nsource = \"invented\"\ngauge = \"{gauge}\"\nprice = {price}\nline = {{ \
             capacitance = \"55 nF/km\", inductance = \"0.63 mH/km\", skin_corner = \"54 kHz\", loss_tangent = 0.02 }}\n"
        )
    };
    cable("own-1", first_gauge) + &cable("own-2", second_gauge)
}

/// The house on these cables, with the catalogue as it is first and as it is in three later editions.
fn session() -> Session {
    let cabled =
        |run: &str, cable: &str| (format!("\n{run} = {{ "), format!("\n{run} = {{ cable = \"{cable}\", "));
    let text = [cabled("door", "own-1"), cabled("low", "own-1"), cabled("high", "own-2")].iter().fold(
        HOUSE.replace("[site]\n", "[site]\ncatalogues = [\"first.toml\"]\n"),
        |text, (from, to)| {
            assert_eq!(text.matches(from).count(), 1, "{from}");
            text.replace(from, to)
        },
    );
    let mut files = files(&text);
    for (name, text) in [
        ("first.toml", catalogue("0.8 mm", "0.8 mm", "0.5")),
        ("dearer.toml", catalogue("0.8 mm", "0.8 mm", "0.9")),
        ("one.toml", catalogue("0.6 mm", "0.8 mm", "0.5")),
        ("other.toml", catalogue("0.8 mm", "0.6 mm", "0.5")),
    ] {
        files.named.insert(name.to_string(), files.sources.add(name, text));
    }
    Session::new(files)
}

fn assessed(session: &Session) -> Assessment {
    let view = session.view();
    let found = view.assessment().unwrap().cloned();
    found.unwrap_or_else(|| panic!("{:#?}", view.reading()))
}

/// What is worked out when the house is assessed with another edition, and what is found then, which is what is found from nothing.
fn anew(edition: &str) -> WorkDone {
    let mut session = session();
    let named = Edit::set(&["site", "catalogues"], format!("[\"{edition}\"]"));
    assessed(&session);
    let before = session.view().work_done();
    session.edit(&named).unwrap();
    let found = assessed(&session);
    let after = session.view().work_done();
    let mut fresh = self::session();
    fresh.edit(&named).unwrap();
    assert_eq!(found, assessed(&fresh), "{edition}");
    WorkDone {
        states: after.states - before.states,
        shorts: after.shorts - before.shorts,
        signals: after.signals - before.signals,
        start_ups: after.start_ups - before.start_ups,
        trials: after.trials - before.trials,
    }
}

#[test]
fn a_catalogue_that_changes_invalidates_what_uses_it_and_nothing_else() {
    let first = session();
    assessed(&first);
    let whole = first.view().work_done();
    assert!(whole.states > 0 && whole.shorts > 0 && whole.signals > 0 && whole.start_ups > 0, "{whole:?}");

    // Of a price nothing that is worked out depends.
    assert_eq!(anew("dearer.toml"), WorkDone::default());

    // A cable on the runs of one supply: its voltages, shorts and start, not those of the other. Signals go over the link to both.
    let (one, other) = (anew("one.toml"), anew("other.toml"));
    assert!(one.states > 0 && other.states > 0, "{one:?} {other:?}");
    assert_eq!(
        one.states + other.states,
        whole.states,
        "each is worked out again for one of the two, none for both"
    );
    assert_eq!(one.shorts + other.shorts, whole.shorts);
    assert_eq!(one.start_ups + other.start_ups, whole.start_ups);
    assert_eq!((one.signals, other.signals), (whole.signals, whole.signals));
}
