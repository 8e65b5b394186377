//! Invented surveys of every shape: what is designed passes, and the lower bound is not above its cost.
//!
//! The bound is that of the plan under ideal conditions, the cost that of the bill of the assessed site: were
//! a hypothesis of the bound wrong (a load, a limit, a price), some survey would show it.

use crate::common::{design_with, survey};
use latchline_assess::Verdict;
use latchline_design::{Effort, Obstacle};
use proptest::prelude::*;
use proptest::strategy::ValueTree;
use proptest::test_runner::{RngSeed, TestRunner};
use std::sync::atomic::{AtomicUsize, Ordering};

const FAMILIES: [&str; 2] = ["ostrel-48", "larkfen-24"];

/// Places of a tree, each with the one before it on the way, length in decimetres and environment.
#[derive(Debug, Clone)]
struct Shape {
    family: usize,
    places: Vec<(usize, u32, u8, bool, bool)>,
    dwellings: Vec<(usize, u32, bool)>,
    entrances: Vec<(usize, u32, bool)>,
    desk: bool,
    group: u32,
    spare: u32,
    stars: bool,
    walls: Vec<(usize, usize)>,
}

fn shape() -> impl Strategy<Value = Shape> {
    let place = (0usize..100, 5u32..350, 0u8..10, any::<bool>(), prop::bool::weighted(0.3));
    let dwelling = (0usize..100, 0u32..60, prop::bool::weighted(0.15));
    let entrance = (0usize..100, 0u32..150, any::<bool>());
    (
        0..FAMILIES.len(),
        prop::collection::vec(place, 1..9),
        prop::collection::vec(dwelling, 1..13),
        prop::collection::vec(entrance, 1..4),
        prop::bool::weighted(0.2),
        2u32..9,
        0u32..2,
        prop::bool::weighted(0.2),
        prop::collection::vec((0usize..100, 0usize..100), 0..3),
    )
        .prop_map(|(family, places, dwellings, entrances, desk, group, spare, stars, walls)| Shape {
            family,
            places,
            dwellings,
            entrances,
            desk,
            group,
            spare,
            stars,
            walls,
        })
}

fn sheets(shape: &Shape) -> Vec<(&'static str, String)> {
    let count = shape.places.len();
    let wiring = if shape.stars { "stars" } else { "chains" };
    let site = format!(
        "Setting,Value\nTitle,Tree\nLargest silenced group,{}\nSpare ports,{}\nWiring,{wiring}\n",
        shape.group, shape.spare
    );
    let mut places = String::from("Place,Building,Floor,Mains,Boxes\n");
    let mut routes = String::from("From,To,Length,Environment\n");
    for (index, (before, length_dm, environment, boxes, mains)) in shape.places.iter().enumerate() {
        let yes = |yes: bool| if yes || index == 0 { "yes" } else { "no" };
        places += &format!("p{index},A,G,{},{}\n", yes(*mains), yes(*boxes));
        if index > 0 {
            let environment = ["outdoors", "buried"].get(usize::from(*environment)).unwrap_or(&"");
            let length_m = f64::from(*length_dm) / 10.0;
            routes += &format!("p{},p{index},{length_m},{environment}\n", before % index);
        }
    }
    let mut dwellings = String::from("Dwelling,Place,Drop,Extensions\n");
    for (index, (at, drop_dm, extension)) in shape.dwellings.iter().enumerate() {
        let further = if *extension { "1" } else { "" };
        dwellings += &format!("D{index},p{},{},{further}\n", at % count, f64::from(*drop_dm) / 10.0);
    }
    let mut entrances = String::from("Entrance,Place,Drop,Calls\n");
    for (index, (at, drop_dm, all)) in shape.entrances.iter().enumerate() {
        let calls = if *all || index == 0 { "everyone" } else { "D0" };
        entrances += &format!("E{index},p{},{},{calls}\n", at % count, f64::from(*drop_dm) / 10.0);
    }
    let mut walls = String::from("From,To,Cable,Length,Loop\n");
    for (from, to) in &shape.walls {
        let (from, to) = (from % count, to % shape.dwellings.len());
        walls += &format!("p{from},D{to},pair-0.5,{},1.9\n", 10 + from);
    }
    let mut list = vec![
        ("site", site),
        ("buildings", String::from("Building,Floors\nA,G\n")),
        ("places", places),
        ("routes", routes),
        ("dwellings", dwellings),
        ("entrances", entrances),
        ("existing cables", walls),
    ];
    if shape.desk {
        list.push(("management", String::from("Desk,Place\nporter,p0\n")));
    }
    list
}

/// The seed is fixed: by others a survey came up now and then that is searched to its last grouping, for minutes, and every run is to take
/// as long as the one before. Another number here tries other surveys.
const SEED: u64 = 1;
const SURVEYS: usize = 64;

/// Designs one survey; what is wrong, if anything is.
fn mistake(shape: &Shape) -> Option<String> {
    let read = survey(&sheets(shape));
    let Some(survey) = read.survey else { return Some(format!("{:?}", read.problems)) };
    match design_with(&survey, FAMILIES[shape.family], &[], Effort::default()) {
        Ok(design) if design.assessment.verdict == Verdict::Fails => Some("the design fails".into()),
        Ok(design) if design.lower_bound > design.cost => {
            Some(format!("the bound {} is above the cost {}", design.lower_bound, design.cost))
        }
        Ok(_) => None,
        Err(obstacle @ (Obstacle::NoPart { .. } | Obstacle::UnknownPart { .. })) => {
            Some(obstacle.to_string())
        }
        Err(_) => None,
    }
}

#[test]
fn designs_pass_and_cost_no_less_than_their_bound() {
    let config = ProptestConfig { rng_seed: RngSeed::Fixed(SEED), ..ProptestConfig::default() };
    let mut runner = TestRunner::new(config);
    let shapes: Vec<Shape> =
        (0..SURVEYS).map(|_| shape().new_tree(&mut runner).expect("a survey is drawn").current()).collect();
    // A few surveys take most of the time, so each worker takes the next that nobody has.
    let next = AtomicUsize::new(0);
    let workers = std::thread::available_parallelism().map_or(1, usize::from);
    std::thread::scope(|scope| {
        for _ in 0..workers {
            scope.spawn(|| {
                while let Some(shape) = shapes.get(next.fetch_add(1, Ordering::Relaxed)) {
                    let wrong = mistake(shape);
                    assert!(wrong.is_none(), "{}: {shape:?}", wrong.unwrap_or_default());
                }
            });
        }
    });
}
