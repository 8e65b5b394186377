//! Callers' stories, and the place to which an experienced installer would go first (common practice, no source).

use crate::{located, with_demo};
use latchline_locate::Place;

/// What is told, and where to go first: the section with its terminals and what it leads to, or the element. Several where any of them is right.
const STORIES: [(&str, &[&str]); 32] = [
    // A dead tail: between the last that works and the first that does not.
    ("A-14=dead A-15=dead A-13=works", &["A-R1: A-13 – A-14"]),
    ("A-24=dead A-25=dead", &["A-R2: A-23 – A-24"]),
    ("A-15=dead A-14=works", &["A-R1: A-14 – A-15"]),
    ("A-44:2=dead A-45=dead A-45:2=dead A-44=works", &["A-R5: A-44 – A-44:2"]),
    ("B-34=dead B-35=dead B-33=works", &["B-R3b: B-33 – B-34"]),
    // All of a chain: its port, or the first section.
    ("A-11=dead A-12=dead A-13=dead A-14=dead A-15=dead A-21=works", &["A-R1: A-D2.2 – A-11"]),
    ("A-41=dead A-42=dead A-43=dead A-31=works A-44=works", &["A-R4: A-D3.2 – A-41"]),
    ("A-11=dead A-13=dead A-15=dead A-21=works A-01=works", &["A-R1: A-D2.2 – A-11"]),
    // All of a riser: the box, or the cable to it.
    ("A-31=dead A-41=dead A-44=dead A-11=works", &["A-rise3: A-D1.5 – A-D3"]),
    ("A-01=dead A-12=dead A-22=dead A-31=works front-A=works", &["A-rise1: A-D1.4 – A-D2"]),
    ("B-31=dead B-33=dead B-41=dead B-43=dead B-11=works", &["B-rise3: B-D2.2 – B-T3"]),
    // All of a supply.
    ("front-A=dead A-01=dead A-15=dead A-31=dead A-45=dead B-11=works", &["A-PS"]),
    ("B-01=dead B-15=dead B-25=dead B-35=dead front-B=dead A-11=works", &["B-PS"]),
    // One alone: there.
    ("A-13=dead A-12=works A-14=works", &["A-R1: A-12 – A-13"]),
    ("B-23=dead B-24=works", &["B-R2b: B-T2.2 – B-23"]),
    ("lodge=dead A-11=works", &["A-desk: A-D1.2 – lodge"]),
    ("gate=dead front-A=works", &["A-gate: A-D1.3 – gate"]),
    // Two on different runs are two faults: at either.
    ("A-13=dead B-22=dead A-14=works B-21=works", &["A-R1: A-12 – A-13", "B-R2a: B-21 – B-22"]),
    // The farthest restarts when it is called.
    ("A-15=restarts A-14=works", &["A-R1: A-14 – A-15"]),
    ("B-25=restarts B-24=restarts B-23=works", &["B-R2b: B-23 – B-24"]),
    // Picture and speech, one flat or all.
    ("A-22=no-picture A-21=works", &["A-R2: A-21 – A-22"]),
    ("front-A=no-picture", &["A-door: A-D1.1 – front-A"]),
    ("A-32=no-speech A-31=works", &["A-R3: A-31 – A-32"]),
    ("front-B=no-speech", &["B-door: B-D1.1 – front-B"]),
    // Doors.
    ("front-A=no-release", &["front-A"]),
    ("gate=no-release gate=works", &["gate"]),
    ("front-B=always-released", &["front-B"]),
    // Settings.
    ("A-23=rings-elsewhere", &["A-R2: A-22 – A-23"]),
    ("A-23=two-ring A-24=two-ring", &["A-R2: A-22 – A-23", "A-R2: A-23 – A-24"]),
    ("A-12=does-not-ring A-13=works A-11=works", &["A-R1: A-11 – A-12"]),
    // Water and earth.
    ("gate=when-wet gate=comes-and-goes", &["A-gate: A-D1.3 – gate"]),
    ("A-41=hums A-42=hums A-43=hums A-31=works", &["A-R4"]),
];

#[test]
fn a_caller_is_sent_where_an_installer_would_go_first() {
    with_demo(|plant| {
        let mut wrong = Vec::new();
        for (told, expected) in STORIES {
            let items: Vec<&str> = told.split(' ').collect();
            let found = located(plant, &items);
            let first = found.places[0].place.element().name(plant.site);
            // The likeliest cause lies there, too.
            let (likeliest, _) = found.cause(0);
            let its = Place::of(plant, likeliest.cause.element).element().name(plant.site);
            let is_there = [&first, &its].into_iter().all(|name| expected.contains(&name.as_str()));
            let is_listed = found.ranking.none_of_these < found.places[0].probability;
            if !is_there || !is_listed || !found.ranking.causes[0].is_pointed_to {
                let name = likeliest.cause.element.name(plant.site);
                wrong.push(format!(
                    "{told}: {first} ({:.2}), likeliest {:?} {name} ({:.2}), none {:.2}",
                    found.places[0].probability,
                    likeliest.cause.kind,
                    found.ranking.causes[0].probability,
                    found.ranking.none_of_these
                ));
            }
        }
        assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    });
}

/// A list of the devices that answer names the break as well: the first that is missing with all beyond it, or one alone.
#[test]
fn a_list_of_devices_sends_to_the_first_that_is_missing() {
    with_demo(|plant| {
        let named = |missing: &[&str]| {
            let kept: Vec<&str> = plant
                .site
                .stations
                .iter()
                .map(|station| station.id.as_str())
                .filter(|name| !missing.contains(name))
                .collect();
            let item = format!("found={}", kept.join(" "));
            located(plant, &[&item]).places[0].place.element().name(plant.site)
        };
        assert_eq!(named(&["A-13", "A-14", "A-15"]), "A-R1: A-12 – A-13");
        assert_eq!(named(&["A-15"]), "A-R1: A-14 – A-15");
        assert_eq!(named(&["A-12"]), "A-R1: A-11 – A-12");
        assert_eq!(named(&["B-43", "B-44", "B-45", "B-45:2"]), "B-R4b: B-T4.2 – B-43");
    });
}

/// A pair that is reversed where a chain begins would kill all of it: a station of it that works speaks against it.
#[test]
fn what_works_before_a_dead_tail_clears_all_that_feeds_both() {
    with_demo(|plant| {
        let share = |items: &[&str], wanted: &str| -> f64 {
            let found = located(plant, items);
            let at = |place: usize| found.cause(place).0.cause.element.name(plant.site) == wanted;
            (0..found.ranking.causes.len())
                .filter(|place| at(*place))
                .map(|place| found.cause(place).1.probability)
                .sum()
        };
        let first = "A-R1: A-D2.2 – A-11";
        let before = share(&["A-14=dead", "A-15=dead"], first);
        let after = share(&["A-14=dead", "A-15=dead", "A-13=works"], first);
        assert!(after < 0.01 && after < 0.5 * before, "{before} {after}");
    });
}
