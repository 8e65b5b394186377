//! Editing the text and resolving gives the same site as resolving and changing the model.

use latchline_finding::quantity::Length;
use latchline_finding::{Change, Edit, EditStep, ElementId, Origin, Provenance, Sourced, Sources};
use latchline_site::edit::{EditError, apply, apply_at, expecting};
use latchline_site::model::{Dwelling, Place, RunStart, RunStop, Section, Site, Station, StationOwner};
use latchline_site::{builtin_catalogue, resolve};
use proptest::prelude::*;

const TWELVE_FLATS: &str = include_str!("../../../docs/examples/twelve-flats.toml");

/// Where the values of a text stand.
fn places(text: &str) -> latchline_site::edit::Places {
    let mut sources = Sources::new();
    let site = sources.add("site.toml", text);
    resolve(&sources, site, &[]).places
}

fn site(text: &str) -> Site {
    let mut sources = Sources::new();
    let (name, catalogue) = builtin_catalogue();
    let catalogue = sources.add(name, catalogue);
    let site = sources.add("site.toml", text);
    let resolved = resolve(&sources, site, &[catalogue]);
    let mut site = resolved.site.unwrap_or_else(|| panic!("{text}\n{:#?}", resolved.findings));
    erase_origins(&mut site);
    site
}

/// Places move when text is edited; what is compared is what the site says.
fn erase_origins(site: &mut Site) {
    let none = || Origin::None;
    site.buildings.iter_mut().for_each(|item| item.origin = none());
    site.supplies.iter_mut().for_each(|item| item.origin = none());
    site.boxes.iter_mut().for_each(|item| item.origin = none());
    site.stations.iter_mut().for_each(|item| item.origin = none());
    site.dwellings.iter_mut().for_each(|item| item.origin = none());
    for entrance in &mut site.entrances {
        entrance.origin = none();
        entrance.calls.origin = none();
        entrance.locks.iter_mut().for_each(|lock| lock.origin = none());
    }
    for management in &mut site.management {
        management.origin = none();
        management.calls.origin = none();
    }
    for run in &mut site.runs {
        run.origin = none();
        run.from_origin = none();
        run.sections.iter_mut().for_each(|section| section.to_origin = none());
    }
}

fn stated<T>(value: T) -> Sourced<T> {
    Sourced::new(value, Origin::None, Provenance::Stated)
}

/// A change of the text with the change of the model that it should amount to.
#[derive(Debug, Clone)]
enum Step {
    Cable(usize, &'static str),
    DoorLength(u32),
    StationModel(usize, &'static str),
    Place(usize, usize),
    AddDwelling(u32),
    MoveRun(u32),
}

fn steps() -> impl Strategy<Value = Step> {
    prop_oneof![
        (0..5_usize, prop_oneof![Just("cat-5e"), Just("flex-1.0"), Just("pair-0.5")])
            .prop_map(|(run, cable)| Step::Cable(run, cable)),
        (1..90_u32).prop_map(Step::DoorLength),
        (0..12_usize, prop_oneof![Just("ostrel-v7"), Just("ostrel-a1")])
            .prop_map(|(dwelling, model)| Step::StationModel(dwelling, model)),
        (0..12_usize, 0..4_usize).prop_map(|(dwelling, floor)| Step::Place(dwelling, floor)),
        (100..120_u32).prop_map(Step::AddDwelling),
        (2..5_u32).prop_map(Step::MoveRun),
    ]
}

const RUNS: [&str; 5] = ["feed", "left", "right", "door", "back"];
const FLOORS: [&str; 4] = ["G", "1", "2", "3"];

fn edit_of(step: &Step, site: &Site) -> Edit {
    match step {
        Step::Cable(run, cable) => Edit::set(&["runs", RUNS[*run], "cable"], format!("\"{cable}\"")),
        Step::DoorLength(metres) => Edit::set(&["runs", "door", "length"], format!("\"{metres} m\"")),
        Step::StationModel(dwelling, model) => Edit::set(
            &["dwellings", site.dwellings[*dwelling].id.as_str(), "station"],
            format!("\"{model}\""),
        ),
        Step::Place(dwelling, floor) => Edit::set(
            &["dwellings", site.dwellings[*dwelling].id.as_str(), "place"],
            format!("\"A/{}\"", FLOORS[*floor]),
        ),
        Step::AddDwelling(number) => {
            let name = format!("A-{number}");
            let end = site.runs[1].sections.len();
            Edit::set(&["dwellings", &name], "{ place = \"A/1\" }")
                .then(Edit::one(&["runs", "left", "to"], Change::Insert(end, format!("\"{name}\""))))
        }
        Step::MoveRun(port) => Edit::set(&["runs", "left", "from"], format!("\"D1.{port}\"")),
    }
}

fn change(step: &Step, site: &mut Site) {
    match step {
        Step::Cable(run, cable) => site.runs[*run].cable = stated((*cable).to_string()),
        Step::DoorLength(metres) => {
            site.runs[3].sections[0].length = stated(Length::from_metres(f64::from(*metres)));
        }
        Step::StationModel(dwelling, model) => {
            let station = site.dwellings[*dwelling].stations[0];
            site.stations[station].model = stated((*model).to_string());
        }
        Step::Place(dwelling, floor) => site.dwellings[*dwelling].place.floor = Some(*floor),
        Step::AddDwelling(number) => add_dwelling(site, &format!("A-{number}")),
        Step::MoveRun(port) => site.runs[1].from = RunStart::Port { box_index: 0, port: *port },
    }
}

/// Dwellings' stations come before those of entrances, so everything behind moves up by one.
fn add_dwelling(site: &mut Site, name: &str) {
    let at = site.dwellings.iter().map(|dwelling| dwelling.stations.len()).sum::<usize>();
    let dwelling = site.dwellings.len();
    let moved = |station: usize| if station >= at { station + 1 } else { station };
    site.stations.insert(
        at,
        Station {
            id: ElementId::new(name),
            model: stated("ostrel-v4".to_string()),
            owner: StationOwner::Dwelling { dwelling, ordinal: 0 },
            origin: Origin::None,
        },
    );
    for run in &mut site.runs {
        if let RunStart::Station(station) = &mut run.from {
            *station = moved(*station);
        }
        for section in &mut run.sections {
            if let RunStop::Station(station) = &mut section.to {
                *station = moved(*station);
            }
        }
    }
    for entrance in &mut site.entrances {
        entrance.station = moved(entrance.station);
        entrance.calls.dwellings.push(dwelling);
    }
    site.dwellings.push(Dwelling {
        id: ElementId::new(name),
        label: None,
        place: Place { building: Some(0), core: None, floor: Some(1), outdoors: false },
        number: None,
        stations: vec![at],
        origin: Origin::None,
    });
    site.runs[1].sections.push(Section {
        to: RunStop::Station(at),
        to_origin: Origin::None,
        length: stated(Length::from_metres(6.0)),
    });
}

/// The worked example with all runs but the left riser on a distributor of their own, so that the
/// riser may move to any port of D1.
fn two_distributors() -> String {
    let d1 = "D1 = { model = \"ostrel-d4\", place = \"A/G\" }\n";
    let mut text = TWELVE_FLATS.replace(d1, &format!("{d1}{}", d1.replace("D1", "D2")));
    for port in 2..5 {
        text = text.replace(&format!("\"D1.{port}\""), &format!("\"D2.{port}\""));
    }
    text + "feed2 = { from = \"PS\", to = \"D2\", length = \"1 m\" }\n"
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(96))]
    #[test]
    fn editing_and_resolving_commute(steps in prop::collection::vec(steps(), 1..5), crlf in any::<bool>()) {
        let mut text = two_distributors();
        if crlf {
            text = text.replace('\n', "\r\n");
        }
        let mut model = site(&text);
        for step in &steps {
            if let Step::AddDwelling(number) = step
                && model.dwellings.iter().any(|dwelling| dwelling.id.as_str() == format!("A-{number}"))
            {
                continue;
            }
            let edit = edit_of(step, &model);
            let places = places(&text);
            let edited = apply(&text, &edit).expect("the edit fits");
            let at_once = apply_at(&text, &places, &edit);
            prop_assert_eq!(at_once.as_ref(), Ok(&edited), "without reading again");
            let expecting = expecting(&text, &edit).expect("the edit fits");
            let found = apply(&text, &expecting);
            prop_assert_eq!(found.as_ref(), Ok(&edited), "it finds what it expects");
            text = edited;
            change(step, &mut model);
        }
        prop_assert_eq!(text.contains("\r\n"), crlf);
        prop_assert_eq!(text.matches('\n').count() - text.matches("\r\n").count() > 0, !crlf);
        prop_assert!(text.starts_with("# Twelve flats"), "comments stay");
        prop_assert_eq!(site(&text), model);
    }

    #[test]
    fn setting_what_is_there_changes_no_byte(run in 0..5_usize) {
        let model = site(TWELVE_FLATS);
        let from = model.start_id(model.runs[run].from);
        let edit = Edit::set(&["runs", RUNS[run], "from"], format!("\"{from}\""));
        prop_assert_eq!(apply(TWELVE_FLATS, &edit).unwrap(), TWELVE_FLATS);
    }

    #[test]
    fn any_edit_is_applied_or_refused(
        path in prop::collection::vec(prop_oneof![
            prop_oneof![Just("runs"), Just("left"), Just("to"), Just("entrances"), Just("front"), Just("lock"), Just("new")]
                .prop_map(EditStep::from),
            (0..8_usize).prop_map(EditStep::from),
        ], 0..5),
        change in prop_oneof![
            prop_oneof![Just("1"), Just("\"x\""), Just("[1, 2]"), Just("{ a = 1 }"), Just("]")]
                .prop_map(|value| Change::Set(value.to_string())),
            Just(Change::Remove),
            (0..9_usize).prop_map(|at| Change::Insert(at, "\"y\"".to_string())),
            prop_oneof![Just("a = 1"), Just("= 1")].prop_map(|body| Change::AppendTable(body.to_string())),
            prop_oneof![Just("left"), Just(""), Just("a b"), Just("\u{1}")].prop_map(|name| Change::Rename(name.to_string())),
        ],
    ) {
        let edit = Edit { changes: vec![(path, change)] };
        let edited = apply(TWELVE_FLATS, &edit);
        prop_assert_eq!(&apply_at(TWELVE_FLATS, &places(TWELVE_FLATS), &edit), &edited);
        if let Ok(text) = edited {
            prop_assert!(text.parse::<toml::Table>().is_ok(), "what comes out is TOML: {text}");
        }
    }

    /// Values in every notation, each set to others.
    #[test]
    fn setting_a_value_by_its_place_is_setting_it_by_reading(
        path in prop_oneof![
            Just(vec!["a".into()]), Just(vec!["b c".into()]), Just(vec!["d".into(), "e".into()]),
            Just(vec!["d".into(), "f".into(), 1.into()]), Just(vec!["g".into(), "h".into()]),
            Just(vec!["i".into(), 1.into(), "j".into()]), Just(vec!["k\"".into()]), Just(vec!["d".into()]),
            Just(vec!["l".into(), "m".into(), "n".into()]), Just(vec!["o".into(), 0.into(), "p".into()]),
        ],
        value in prop_oneof![
            Just("1"), Just("\"x\""), Just("'x'"), Just("[1, # no\n 2]"), Just("{ a = 1 }"), Just("]"), Just("\"\"\"\nx\"\"\""),
            Just(" 7 # seven"), Just("2026-01-02"),
        ],
        crlf in any::<bool>(),
    ) {
        let mut text = String::from(
            "a = 1 # one\n\"b c\" = 'two'\nd.e = \"three\"  \nd.f = [ 1, 2 ,3]\n'k\"' = 1\n\n[g]\nh=\"\"\"\nlong\"\"\" # end\n\n[[i]]\nj = 1\n\
             [[i]]\nj = 2\n[l]\nm = { n = 1.5 , q = 2 }\no = 1\n",
        );
        text.insert_str(0, "o = [{ p = 1 }]\n");
        if crlf {
            text = text.replace('\n', "\r\n");
        }
        let edit = Edit { changes: vec![(path, Change::Set(value.to_string()))] };
        prop_assert_eq!(apply_at(&text, &places(&text), &edit), apply(&text, &edit));
    }
}

#[test]
fn an_edit_finds_what_it_expects_however_it_is_written() {
    let text = "[runs]\nA = { to = [\"x\", \"y\"], length = \"5 m\" }\n";
    let row = || vec!["runs".into(), "A".into(), "to".into(), 1.into()];
    let edit = Edit { changes: vec![(row(), Change::Set("\"z\"".to_string()))] }
        .then(Edit::set(&["runs", "A", "pairs"], "2"));
    let expecting = expecting(text, &edit).unwrap();
    for same in
        [text, "[runs.A]\nlength = '5 m'\nto = ['x', # first\n 'y']\n", "[runs]\nA.to = [\"w\", \"y\"]\n"]
    {
        assert!(apply(same, &expecting).is_ok(), "{same}");
    }
    for other in [
        "[runs]\nA = { to = [\"x\", \"w\"] }\n",
        "[runs]\nA = { to = [\"y\"] }\n",
        "[runs]\nA = { to = [\"x\", \"y\"], pairs = 1 }\n",
        "[runs]\nB = { to = [\"x\", \"y\"] }\n",
    ] {
        assert!(matches!(apply(other, &expecting), Err(EditError::Changed(_))), "{other}");
    }
}
