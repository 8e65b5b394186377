//! Stations that call only among themselves: buses of their own, alike where the blocks are; cascades; small sites; ways out.

use crate::common::{corridors, design_with, survey};
use latchline_assess::Verdict;
use latchline_design::{Design, Effort, Obstacle, Texts, ways_out};
use latchline_finding::{Language, Money, Sources};
use latchline_site::model::EntranceRole;
use latchline_site::{LoadedCatalogues, builtin_catalogue};

fn designed(sheets: &[(&str, String)]) -> Design {
    let read = survey(sheets);
    let survey = read.survey.unwrap_or_else(|| panic!("{:?}", read.problems));
    design_with(&survey, "ostrel-48", &[], Effort::default()).unwrap_or_else(|obstacle| panic!("{obstacle}"))
}

/// Blocks that share nothing cost together what they cost apart (additivity): the design of six against six times that of
/// one, each a survey of its own.
#[test]
fn blocks_of_their_own_cost_what_they_cost_apart() {
    let settings = "Largest silenced group,8\n";
    let one = designed(&corridors(1, 5, 10, settings));
    let six = designed(&corridors(6, 5, 10, settings));
    assert_ne!(six.assessment.verdict, Verdict::Fails);
    assert_eq!(six.site.supplies.len(), 6 * one.site.supplies.len());
    // A bill rounds each line to the millionth.
    let apart = one.cost.times(6.0);
    assert!((six.cost.as_units() - apart.as_units()).abs() < 1e-3, "{} against {apart}", six.cost);
    assert!(six.lower_bound <= six.cost);
    assert!(six.text.contains("nobody calls from one to another"));
}

/// Two houses beside one another, each with its own door and flat: one supply for both is cheaper than two, and is found.
#[test]
fn small_groups_share_a_bus_where_that_is_cheaper() {
    let two = corridors(2, 1, 1, "");
    let one = corridors(1, 1, 1, "");
    let near: Vec<(&str, String)> =
        two.into_iter().map(|(name, text)| (name, text.replace("35,buried", "5,"))).collect();
    let (both, alone) = (designed(&near), designed(&one));
    assert_eq!(both.site.supplies.len(), 1);
    assert!(both.cost < alone.cost.times(2.0), "{} against twice {}", both.cost, alone.cost);
    assert!(both.lower_bound <= both.cost);
}

/// Three blocks of twelve around a gatehouse 40 to 60 m away, gate and desk calling everyone.
fn courtyard() -> Vec<(&'static str, String)> {
    let mut places = String::from("Place,Building,Floor,Mains,Boxes\ngatehouse,,,yes,yes\n");
    let mut routes = String::from("From,To,Length,Environment\n");
    let mut dwellings = String::from("Dwelling,Place,Drop\n");
    for (block, metres) in [("A", 40), ("B", 50), ("C", 60)] {
        for floor in 0..3 {
            places += &format!("{block}-{floor},{block},{floor},no,yes\n");
            routes += &match floor {
                0 => format!("gatehouse,{block}-0,{metres},buried\n"),
                _ => format!("{block}-{},{block}-{floor},3,\n", floor - 1),
            };
            for flat in 1..=4 {
                dwellings += &format!("{block}-{floor}{flat},{block}-{floor},6\n");
            }
        }
    }
    vec![
        ("site", String::from("Setting,Value\nTitle,Courtyard\nLargest silenced group,8\n")),
        ("buildings", String::from("Building,Floors\nA,0;1;2\nB,0;1;2\nC,0;1;2\n")),
        ("places", places),
        ("routes", routes),
        ("dwellings", dwellings),
        ("entrances", String::from("Entrance,Place,Drop,Role\ngate,gatehouse,5,main\n")),
        ("management", String::from("Desk,Place\nporter,gatehouse\n")),
    ]
}

#[test]
fn blocks_around_a_gatehouse_hang_on_its_distributor() {
    let design = designed(&courtyard());
    assert_ne!(design.assessment.verdict, Verdict::Fails);
    assert_eq!(design.site.supplies.len(), 1);
    // Within 1 % of the bound or one cheapest box, and the bound is not above the cost.
    let allowed = (design.lower_bound.as_units() * 0.01).max(design.cheapest_box.as_units());
    assert!(design.lower_bound <= design.cost, "{} above {}", design.lower_bound, design.cost);
    assert!((design.cost - design.lower_bound).as_units() <= allowed, "{}", design.gap());
    // A trunk from a port to another distributor: without cascades there was no design.
    assert!(design.text.contains("= { from = \"D1."), "{}", design.text);
}

/// One dwelling by hand, prices as the catalogue prints them, labour at 45 an hour: a supply (118 + 30 min), a door station (420 + 60
/// min), a station (92 + 20 min) and one chain of 0.25 + 1.2 min a metre to the flat and on to the door, which cannot be looped: flat 3 + 4 m
/// from the cupboard, door 8 m from it, 5 % slack and 0.3 m at each end, up to a whole tenth: 8.0 + 16.4 m.
#[test]
fn one_dwelling_needs_no_box() {
    let sheets = [
        ("site", String::from("Setting,Value\nTitle,House\n")),
        ("buildings", String::from("Building,Floors\nA,G\n")),
        (
            "places",
            String::from("Place,Building,Floor,Mains,Boxes\ncupboard,A,G,yes,yes\nlanding,A,G,no,yes\n"),
        ),
        ("routes", String::from("From,To,Length\ncupboard,landing,3\n")),
        ("dwellings", String::from("Dwelling,Place,Drop\nflat,landing,4\n")),
        ("entrances", String::from("Entrance,Place,Drop,Role\nfront,cupboard,8,main\n")),
    ];
    let design = designed(&sheets);
    let labour = |minutes: f64| minutes * 45.0 / 60.0;
    let cable = (8.0 + 16.4) * (0.25 + labour(1.2));
    let by_hand = 118.0 + 420.0 + 92.0 + labour(30.0 + 60.0 + 20.0) + cable;
    assert!((design.cost.as_units() - by_hand).abs() < 1e-3, "{} against {by_hand}", design.cost);
    assert_eq!(design.cost, design.lower_bound);
    assert!(design.site.boxes.is_empty());
}

/// A battery that lasts 13.6 h alone carries 24 h with a second one beside it, and what has no price is told.
#[test]
fn batteries_stand_in_parallel() {
    let design = designed(&corridors(1, 5, 10, "Largest silenced group,8\nStandby hours,24\n"));
    assert!(design.text.contains("batteries = "), "{}", design.text);
    assert_eq!(design.remarks.len(), 1);
}

/// Insulation below 0.5 Mohm (IEC 60364-6, table 6A, SELV and PELV: 0.5 Mohm at 250 V; from memory) in one drop leaves that cable unused.
#[test]
fn damaged_cable_is_left_beside_new_cable() {
    let sound = corridors(1, 2, 4, "");
    let walls = |mohm: f64| {
        let row = format!("From,To,Cable,Length,Loop,Insulation\nA-0,A-001,pair-0.5,6,1.2,{mohm}\n");
        sound.iter().cloned().chain([("existing cables", row)]).collect::<Vec<_>>()
    };
    let (damaged, new) = (designed(&walls(0.02)), designed(&sound));
    assert_eq!(damaged.cost, new.cost);
    assert!(!damaged.text.contains("existing = true"));
    assert_eq!(damaged.remarks.len(), 1);
}

/// A lock that its own cable starves is no matter of plans: one is enough to say so.
#[test]
fn a_starved_lock_is_told_at_once() {
    let sheets: Vec<(&str, String)> = corridors(1, 2, 4, "")
        .into_iter()
        .map(|(name, text)| (name, text.replace("flex-1.0,5", "flex-1.0,150")))
        .collect();
    let survey = survey(&sheets).survey.expect("a survey");
    match design_with(&survey, "ostrel-48", &[], Effort::default()) {
        Err(obstacle @ Obstacle::Unmendable { .. }) => {
            let told = obstacle.to_string();
            assert!(told.contains("no wiring mends this") && told.contains("lock"), "{told}");
        }
        other => panic!("{:?}", other.map(|design| design.cost)),
    }
}

fn courtyard_with(entrances: &str) -> Result<Design, Obstacle> {
    let mut sheets = courtyard();
    sheets.iter_mut().find(|(name, _)| *name == "entrances").expect("a sheet").1 = entrances.to_string();
    let survey = survey(&sheets).survey.expect("a survey");
    design_with(&survey, "ostrel-48", &[], Effort::default())
}

/// Whom nobody calls is no matter of plans either: said in a sentence, with what to do.
#[test]
fn what_no_wiring_mends_is_told_in_a_sentence() {
    match courtyard_with("Entrance,Place,Drop,Role,Calls\ngate,gatehouse,5,main,A;B\n") {
        Err(obstacle @ Obstacle::Unmendable { .. }) => {
            let uncalled = obstacle.to_string();
            assert!(uncalled.contains("no entrance calls C-01, and 11 more alike"), "{uncalled}");
        }
        other => panic!("{:?}", other.map(|design| design.cost)),
    }
}

/// The gate stands in no building and is numbered with the first one, whose door would be main as well: the gate calls more.
#[test]
fn of_two_main_doors_with_one_number_the_one_that_calls_the_most_is_main() {
    let entrances = "Entrance,Place,Drop,Role,Calls\nA-door,A-0,5,main,A\ngate,gatehouse,5,main,\n";
    let design = courtyard_with(entrances).unwrap_or_else(|obstacle| panic!("{obstacle}"));
    let role = |name: &str| {
        let entrance = design.site.entrances.iter().find(|entrance| entrance.id.as_str() == name);
        entrance.expect("an entrance").role.value
    };
    assert_eq!([role("gate"), role("A-door")], [EntranceRole::Main, EntranceRole::Secondary]);
    let remarks: Vec<&str> = design.remarks.iter().map(|remark| remark.of(Language::English)).collect();
    assert!(remarks.iter().any(|remark| remark.starts_with("gate calls the most")), "{remarks:?}");
}

/// A building has 99 numbers in this family: the other 21 of 120 rooms are numbered in a second one, so that no plan fails for lack of a
/// number any more. On one bus, what is left is a matter of plans.
#[test]
fn a_hall_of_120_rooms_does_not_end_with_a_count() {
    let hall = survey(&corridors(1, 5, 24, "Largest silenced group,8\nWiring,corridors\n"));
    let result = design_with(&hall.survey.expect("a survey"), "ostrel-48", &[], Effort::default());
    if let Err(obstacle) = result {
        assert!(matches!(obstacle, Obstacle::Rejected { .. }), "{obstacle}");
    }
}

/// Where nothing passes, each way out is a design of its own: the one without a limit costs what a survey without it costs.
#[test]
fn ways_out_are_priced_by_designs() {
    // Stars need ports, and no distributor of the family has any left beside so many spare ones.
    let survey_of = |settings: &str| survey(&corridors(1, 2, 4, settings)).survey.expect("a survey");
    let strict = survey_of("Wiring,stars\nSpare ports,8\n");
    let obstacle = design_with(&strict, "ostrel-48", &[], Effort::default());
    assert!(obstacle.is_err());
    let mut sources = Sources::new();
    let (name, text) = builtin_catalogue();
    let catalogues = vec![sources.add(name, text)];
    let catalogues = LoadedCatalogues::with_prices(&sources, &catalogues, strict.prices.clone());
    let texts = Texts { sources: &sources, catalogues: &catalogues, language: Language::English };
    let ways = ways_out(&strict, "ostrel-48", texts);
    let cheapest: Option<Money> = ways
        .iter()
        .find(|way| way.what.of(Language::English).contains("spare ports"))
        .and_then(|way| way.cost);
    let loose =
        design_with(&survey_of("Wiring,stars\n"), "ostrel-48", &[], Effort::default()).expect("a design");
    assert!(cheapest.is_some_and(|cost| cost >= loose.lower_bound), "{ways:?}");
}
