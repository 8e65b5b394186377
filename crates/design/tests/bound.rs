//! Invented surveys of every shape: what is designed passes, and the lower bound is not above its cost.
//!
//! The bound is that of the plan under ideal conditions, the cost that of the bill of the assessed site: were
//! a hypothesis of the bound wrong (a load, a limit, a price), some survey would show it.

use crate::common::{design_with, survey};
use latchline_assess::Verdict;
use latchline_design::{Effort, Obstacle};
use proptest::prelude::*;
use proptest::test_runner::RngSeed;

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

proptest! {
    // The seed is fixed: by others a survey came up now and then that is searched to its last grouping, for minutes, and every run is to
    // take as long as the one before. `PROPTEST_RNG_SEED` has no say in it; another number here tries other surveys.
    #![proptest_config(ProptestConfig {
        cases: 64,
        max_shrink_iters: 40,
        rng_seed: RngSeed::Fixed(1),
        ..ProptestConfig::default()
    })]

    #[test]
    fn designs_pass_and_cost_no_less_than_their_bound(shape in shape()) {
        let read = survey(&sheets(&shape));
        let Some(survey) = read.survey else {
            return Err(TestCaseError::fail(format!("{:?}", read.problems)));
        };
        match design_with(&survey, FAMILIES[shape.family], &[], Effort::default()) {
            Ok(design) => {
                prop_assert_ne!(design.assessment.verdict, Verdict::Fails);
                prop_assert!(
                    design.lower_bound <= design.cost,
                    "{} above {}", design.lower_bound, design.cost
                );
            }
            Err(obstacle) => prop_assert!(
                !matches!(obstacle, Obstacle::NoPart { .. } | Obstacle::UnknownPart { .. }),
                "{obstacle}"
            ),
        }
    }
}
