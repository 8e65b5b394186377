use super::words::{alarm, element_name, lock_kind, suppressor};
use super::*;
use latchline_assess::door::sheet::{DoorSheet, LockSheet};
use latchline_assess::{Assessment, assess};
use latchline_finding::Sources;
use latchline_finding::{Language, Locale, Units};
use latchline_scene::{Node, Shape};
use latchline_site::catalogue::LockKind;
use latchline_site::model::{LockFeed, Suppression};
use latchline_site::{builtin_catalogue, resolve};
use latchline_wiring::lock::WiringElement as W;
use std::collections::BTreeSet;

/// English and German.
fn letterings() -> [Lettering; 2] {
    [Language::English, Language::German].map(|language| Lettering(Locale { language, units: Units::Metric }))
}

/// A door for every kind of lock, feed, suppressor and way out of the model, with one of everything at its
/// alarm inputs.
const SITE: &str = include_str!("every_lock.toml");

fn assessment() -> Assessment {
    let mut sources = Sources::new();
    let catalogue = sources.add("catalogue", builtin_catalogue().1);
    let file = sources.add("site.toml", SITE);
    let resolved = resolve(&sources, file, &[catalogue]);
    let site = resolved.site.unwrap_or_else(|| panic!("{:#?}", resolved.findings));
    assess(&site)
}

fn locks(assessment: &Assessment) -> Vec<(&DoorSheet, &LockSheet)> {
    let doors = assessment.doors.iter();
    doors.flat_map(|door| door.locks.iter().map(move |lock| (door, lock))).collect()
}

/// A word in English.
fn word(word: Word) -> &'static str {
    Lettering::default().word(word)
}

fn texts(picture: &Picture) -> Vec<(String, Area)> {
    let mut texts = Vec::new();
    picture.group.visit(&mut |node| {
        if let Node::Text(text, _) = node {
            texts.push((text.text.clone(), text.area()));
        }
    });
    texts
}

fn shapes(picture: &Picture) -> Vec<Shape> {
    let mut shapes = Vec::new();
    picture.group.visit(&mut |node| {
        if let Node::Item(item) = node {
            shapes.push(item.shape.clone());
        }
    });
    shapes
}

/// Lines between points, of paths that are not filled.
fn segments(picture: &Picture) -> Vec<(latchline_scene::Point, latchline_scene::Point)> {
    let paths = shapes(picture).into_iter().filter_map(|shape| match shape {
        Shape::Path { points, .. } => Some(points),
        _ => None,
    });
    paths.flat_map(|points| points.windows(2).map(|pair| (pair[0], pair[1])).collect::<Vec<_>>()).collect()
}

/// The site has every kind of lock and feed, every suppressor and every element of wiring that the model knows:
/// a new one must be added there, or this does not compile.
#[test]
fn the_site_has_everything_that_can_be_drawn() {
    let assessment = assessment();
    let locks = locks(&assessment);
    let kinds: BTreeSet<LockKind> = locks.iter().map(|(_, lock)| lock.kind).collect();
    let all = [LockKind::Strike, LockKind::Magnet, LockKind::Motor, LockKind::Gate, LockKind::Lift];
    assert_eq!(kinds, all.into_iter().collect());
    let feeds: BTreeSet<LockFeed> = locks.iter().map(|(_, lock)| lock.wiring.feed).collect();
    let all = [LockFeed::Station, LockFeed::Bus, LockFeed::OwnSupply, LockFeed::DryContact];
    assert_eq!(feeds, all.into_iter().collect());
    let fitted: BTreeSet<Suppression> =
        locks.iter().filter_map(|(_, lock)| lock.wiring.across_lock).collect();
    let all = [Suppression::Diode, Suppression::Clamp, Suppression::Varistor];
    assert_eq!(fitted, all.into_iter().collect());
    let elements: BTreeSet<W> = locks
        .iter()
        .flat_map(|(_, lock)| lock.wiring.series.iter().chain(&lock.wiring.across_contact).copied())
        .collect();
    let all = [
        W::FeedOut,
        W::FeedReturn,
        W::RelayNormallyOpen,
        W::RelayNormallyClosed,
        W::RelayBetween,
        W::ExitButtonNormallyOpen,
        W::ExitButtonNormallyClosed,
        W::EmergencyRelease,
        W::FireInterlock,
        W::Lock,
        W::DriveInput,
    ];
    assert_eq!(elements, all.into_iter().collect());
    assert!(locks.iter().any(|(_, lock)| lock.door_contact == Some(true)));
    assert!(locks.iter().any(|(_, lock)| lock.number == 2));
}

/// The right terminals for every lock: common and normally open where power releases, common and normally closed
/// where its loss does, as its kind without power needs it, whatever the plan says.
#[test]
fn every_lock_has_its_terminals_and_its_suppressor() {
    let assessment = assessment();
    for (door, lock) in locks(&assessment) {
        let picture = lock_picture(door, lock, Lettering::default());
        let texts: Vec<String> = texts(&picture).into_iter().map(|(text, _)| text).collect();
        let has = |word: &str| texts.iter().any(|text| text == word);
        let by_hand = match (door.entrance.as_str(), lock.number) {
            ("strike-dc" | "strike-ac" | "motor" | "two" | "secure", 1) | ("gate", 1) | ("two", 2 | 3) => {
                "NO"
            }
            ("secure", 2) => "NO",
            ("strike-safe" | "magnet" | "bus" | "secure-magnet", 1) => "NC",
            // The make contact of the relay in between; its coil hangs on the break contact of the station's.
            ("magnet-strong" | "bus-strong", 1) => {
                assert!(has("NO") && has("NC") && has("A1") && has("A2"), "{texts:?}");
                continue;
            }
            (other, number) => panic!("{other} {number} is new: say here which contact it needs"),
        };
        assert!(has("C") && has(by_hand), "{} lacks {by_hand}: {texts:?}", door.entrance);
        assert!(!has(if by_hand == "NO" { "NC" } else { "NO" }), "{}: {texts:?}", door.entrance);
        let sides = match door.entrance.as_str() {
            "strike-ac" => ["~", "~"],
            "gate" => ["", ""],
            "two" | "secure" if lock.number >= 2 => ["", ""],
            _ => ["+", "–"],
        };
        assert!(sides.into_iter().filter(|side| !side.is_empty()).all(has), "{texts:?}");
        // The suppressor that the plan has, named, and on the rails beside the lock; on AC never a diode.
        for kind in [Suppression::Diode, Suppression::Clamp, Suppression::Varistor] {
            let named = texts.iter().any(|text| text.starts_with(word(suppressor(kind).unwrap())));
            assert_eq!(named, lock.wiring.across_lock == Some(kind), "{}: {texts:?}", door.entrance);
        }
        if lock.wiring.feed != LockFeed::DryContact {
            assert!(has(word(lock_kind(lock.kind))), "{texts:?}");
        }
    }
}

#[test]
fn every_part_is_named_and_the_picture_says_its_chain() {
    let assessment = assessment();
    for (door, lock) in locks(&assessment) {
        let picture = lock_picture(door, lock, Lettering::default());
        let texts: Vec<String> = texts(&picture).into_iter().map(|(text, _)| text).collect();
        let said = texts.join(" ");
        let named = |element: &W| match element {
            W::FeedOut | W::FeedReturn | W::DriveInput | W::Lock => true,
            // A name may take several lines, drawn one after another.
            other => said.contains(&element_name(*other, lock, Lettering::default())),
        };
        assert!(lock.wiring.series.iter().all(named), "{texts:?}");
        assert!(lock.wiring.across_contact.iter().all(named), "{texts:?}");
        assert!(picture.words.contains("relay"));
        // One at an alarm input is drawn in the picture of the inputs.
        let has_contact = texts.iter().any(|text| text == "door contact");
        assert_eq!(has_contact, lock.door_contact == Some(true) && lock.door_contact_input.is_none());
    }
}

/// A loop with a break contact and its resistor is closed at rest; a make contact lies across its resistor, not
/// in series with it, so that the loop is closed at rest too.
#[test]
fn alarm_loops_are_drawn_as_they_are_wired() {
    let assessment = assessment();
    let door = assessment.doors.iter().find(|door| door.entrance.as_str() == "strike-dc").unwrap();
    let picture = inputs_picture(door, &door.alarm_inputs, Lettering::default());
    let texts: Vec<String> = texts(&picture).into_iter().map(|(text, _)| text).collect();
    for input in &door.alarm_inputs {
        assert!(texts.iter().any(|text| text == word(alarm(input.kind))), "{texts:?}");
        assert!(texts.iter().any(|text| *text == format!("alarm input {}", input.number)), "{texts:?}");
    }
    for input in &door.alarm_inputs {
        let one = inputs_picture(door, std::slice::from_ref(input), Lettering::default());
        let lines = segments(&one);
        // The blade is the only slanted line.
        let blade = lines.iter().find(|(a, b)| (a.0 - b.0).abs() > 0.1 && (a.1 - b.1).abs() > 0.1);
        let blade_y = blade.expect("a contact has a blade").0.1;
        // The loop's own wires are the only ones that begin at the box.
        let upper_y = lines.iter().filter(|(a, _)| (a.0 - 30.0).abs() < 1e-9).map(|(a, _)| a.1);
        let upper_y = upper_y.fold(f64::INFINITY, f64::min);
        let is_across =
            input.end_of_line_resistor && input.contact == latchline_site::model::RelayContact::NormallyOpen;
        assert_eq!((blade_y - upper_y).abs() > 1.0, is_across, "input {}", input.number);
    }
    assert!(door.alarm_inputs.iter().any(|input| input.end_of_line_resistor));
}

#[test]
fn nothing_lies_over_a_text_or_leaves_its_picture() {
    let assessment = assessment();
    for picture in letterings().into_iter().flat_map(|lettering| pictures(&assessment, lettering)) {
        let frame = Area::new(0.0, 0.0, picture.width_mm, picture.height_mm);
        let texts = texts(&picture);
        assert!(texts.len() >= 5);
        for (index, (text, area)) in texts.iter().enumerate() {
            assert!(frame.contains(area), "{text} leaves the picture {}", picture.words);
            assert!(!text.ends_with('…'), "{text} is cut off in {}", picture.words);
            for (other, second) in &texts[index + 1..] {
                assert!(!area.overlaps(second), "{text} over {other} in {}", picture.words);
            }
        }
        for (a, b) in segments(&picture) {
            let line = Area::between(a, b).grown(0.1);
            for (text, area) in &texts {
                assert!(!line.overlaps(area), "a line runs through {text} in {}", picture.words);
            }
        }
    }
}

/// On A4, A3 and a phone nothing leaves the sheet's room or lies over another picture, and on a phone letters are
/// still at least 1.5 mm high, which a screen of 70 mm width shows as 0.9 mm.
#[test]
fn pictures_fit_every_sheet() {
    for (size, least) in
        [(SheetSize::A4_UPRIGHT, 1.0), (SheetSize::A4, 1.0), (SheetSize::A3, 1.0), (SheetSize::PHONE, 0.62)]
    {
        let content = Frame::new(size, &TitleBlock::default(), &[]).content;
        let sheets = arranged(pictures(&assessment(), Lettering::default()), content);
        let count: usize = sheets.iter().map(Vec::len).sum();
        assert_eq!(count, pictures(&assessment(), Lettering::default()).len());
        for sheet in &sheets {
            let areas: Vec<Area> = sheet
                .iter()
                .map(|placed| {
                    assert!(placed.factor >= least, "{} at {}", placed.picture.words, placed.factor);
                    let (width, height) = (placed.picture.width_mm, placed.picture.height_mm);
                    Area::new(placed.corner.0, placed.corner.1, width * placed.factor, height * placed.factor)
                })
                .collect();
            for (index, area) in areas.iter().enumerate() {
                assert!(content.grown(1e-6).contains(area), "{area:?} in {content:?}");
                assert!(areas[index + 1..].iter().all(|other| !area.overlaps(other)));
            }
        }
    }
}

/// A relay in between is bought by its coil and its contact: both are stated beside it.
#[test]
fn a_relay_in_between_says_what_it_is_made_for() {
    let assessment = assessment();
    let list = locks(&assessment);
    let (door, lock) = list.iter().find(|(door, _)| door.entrance.as_str() == "magnet-strong").unwrap();
    let said: Vec<String> =
        texts(&lock_picture(door, lock, Lettering::default())).into_iter().map(|(text, _)| text).collect();
    // As the site file has them: a supply of 24 V, a relay of 5 A.
    for words in ["coil: 24 V DC", "contact: 5 A"] {
        assert!(said.iter().any(|text| text == words), "{words}: {said:?}");
    }
}

/// The number of a connector is not read as part of the mark of a terminal.
#[test]
fn numbers_of_connectors_stand_clear_of_the_marks_of_terminals() {
    let assessment = assessment();
    let mut numbers = 0;
    for (door, lock) in locks(&assessment) {
        let texts = texts(&lock_picture(door, lock, Lettering::default()));
        let marks = texts.iter().filter(|(text, _)| ["C", "NO", "NC"].contains(&text.as_str()));
        let marks: Vec<&Area> = marks.map(|(_, area)| area).collect();
        for (number, area) in texts.iter().filter(|(text, _)| text.parse::<usize>().is_ok()) {
            numbers += 1;
            let beside =
                |mark: &&Area| area.y < mark.y + mark.height / 2.0 && mark.y < area.y + area.height / 2.0;
            let gap = |mark: &Area| (area.x - mark.right()).max(mark.x - area.right());
            assert!(marks.iter().filter(|mark| beside(mark)).all(|mark| gap(mark) > 3.0), "{number}");
        }
    }
    assert!(numbers > 0);
}

#[test]
fn a_german_word_is_divided_where_it_may_be() {
    let assessment = assessment();
    let german = letterings()[1];
    let mut divided = 0;
    for (door, lock) in locks(&assessment) {
        let texts = texts(&lock_picture(door, lock, german));
        let is = |word: &str| texts.iter().any(|(text, _)| text == word);
        assert!(
            !texts.iter().any(|(text, _)| text.starts_with("Türöffnertaste") && text.len() < 17),
            "{texts:?}"
        );
        divided += usize::from(is("Türöffner-") && is("taster"));
    }
    assert!(divided > 0);
}
